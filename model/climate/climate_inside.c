#include "climate_parts.h"

#include <math.h>

#include "vh_math.h"

static double given_or(double value, double otherwise)
{
    return isnan(value) ? otherwise : value;
}

/* Inside PAR, umol m-2 s-1, per W m-2 of outside radiation on a day. */
static double let_in(const struct vh_climate_work *w, size_t day)
{
    const struct vh_climate_request *r = w->request;
    const int64_t date = w->window.first_day + (int64_t)day;
    const bool is_shaded =
        !isnan(r->shade_share) && date >= r->shade_from && date <= r->shade_until;
    const double cover = given_or(r->cover_transmission, w->params->cover_film_double);

    return cover * (1.0 - (is_shaded ? r->shade_share : 0.0)) * w->params->par_share *
           w->params->par_umol_per_j;
}

static double lamp_light(const struct vh_climate_work *w, size_t hour)
{
    const double logged = vh_hour_sums_hour(&w->log, VH_HOURLY_LAMPS, hour) / 100.0; /* percent */
    const double share = given_or(given_or(logged, w->lamps_share[hour]), 0.0);

    return given_or(w->request->lamps_umol_m2_s, 0.0) * share;
}

/* ---- a day's light sum of the log, spread over its hours ---- */

static const double mol_per_hour = VH_SECONDS_PER_HOUR * VH_PER_MILLION; /* of 1 umol m-2 s-1 */

/* Adds mol to the 24 hours in proportion to weight; false where no hour has any. */
static bool add_by_weight(double *par, double mol, const double *weight)
{
    double sum = 0.0;

    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++)
        sum += weight[h];
    if (!(sum > 0.0))
        return false;
    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++)
        par[h] += mol / mol_per_hour * weight[h] / sum;
    return true;
}

static void spread_light_sum(const struct vh_climate_work *w, size_t day, double dli, double *par)
{
    const size_t first = day * VH_HOURS_PER_DAY;
    const double per_w = let_in(w, day);
    double sun[VH_HOURS_PER_DAY], sun_mol = 0.0;

    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++) {
        par[h] = 0.0;
        sun[h] = w->r_out_w_m2[first + h] * per_w;
        sun_mol += sun[h] * mol_per_hour;
    }
    /* more than the sun can have sent in came from the lamps */
    if (dli > sun_mol && !isnan(w->lamps_share[first]) &&
        add_by_weight(par, dli - sun_mol, &w->lamps_share[first])) {
        for (size_t h = 0; h < VH_HOURS_PER_DAY; h++)
            par[h] += sun[h];
        return;
    }
    if (add_by_weight(par, dli, &w->ra_hour_mj[first]))
        return;
    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++) {
        const bool is_night = !isnan(w->ra_mj[day]); /* polar: all of it is lamp light */
        par[h] = is_night ? dli / mol_per_hour / VH_HOURS_PER_DAY : (double)NAN;
    }
}

static void fill_light(struct vh_climate_work *w, size_t day)
{
    const double dli = vh_hour_sums_day(&w->log, VH_DAILY_DLI, day);
    const double photons = w->params->par_share * w->params->par_umol_per_j;
    double of_sum[VH_HOURS_PER_DAY];

    if (!isnan(dli))
        spread_light_sum(w, day, dli, of_sum);
    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++) {
        const size_t hour = day * VH_HOURS_PER_DAY + h;
        const double par = vh_hour_sums_hour(&w->log, VH_HOURLY_PAR, hour);
        const double radiation = vh_hour_sums_hour(&w->log, VH_HOURLY_RADIATION_IN, hour);
        double measured = given_or(par, radiation * photons);
        if (isnan(measured) && !isnan(dli))
            measured = of_sum[h];
        w->light_logged[hour] = (unsigned char)!isnan(measured);
        w->par_umol_m2_s[hour] =
            given_or(measured, w->r_out_w_m2[hour] * let_in(w, day) + lamp_light(w, hour));
    }
}

/* ---- temperature ---- */

/* What the house would have without heating or venting; NaN where the outside is unknown. */
static double unheated_c(const struct vh_climate_work *w, size_t hour)
{
    const double per_w = let_in(w, hour / VH_HOURS_PER_DAY);
    double radiation = w->r_out_w_m2[hour];

    /* a light sensor inside tells the sun where nothing outside does */
    if (isnan(radiation) && w->light_logged[hour] && per_w > 0.0)
        radiation = w->par_umol_m2_s[hour] / per_w;
    return w->t_out_c[hour] + w->params->gain_k_m2_w * radiation;
}

static double heat_set_point_c(const struct vh_climate_work *w, size_t hour)
{
    return given_or(vh_sun_is_up(w, hour) ? w->request->heat_day_c : w->request->heat_night_c,
                    w->params->heat_c);
}

/* T = max(T_heat, min(T_out + gain R_out, max(T_vent, T_out + lift))) */
static double outlook_inside_c(const struct vh_climate_work *w, size_t hour)
{
    const double unheated = unheated_c(w, hour);
    const double vent = given_or(w->request->vent_c, w->params->vent_c);

    if (isnan(unheated))
        return NAN;
    return vh_max(heat_set_point_c(w, hour),
                  vh_min(unheated, vh_max(vent, w->t_out_c[hour] + w->params->lift_k)));
}

/* A daily row of the log: the sine between its ends, or the outlook's course, moved to its mean. */
static bool log_day_course(const struct vh_climate_work *w, size_t day, double *t)
{
    const double low = vh_hour_sums_day(&w->log, VH_DAILY_TMIN, day);
    const double high = vh_hour_sums_day(&w->log, VH_DAILY_TMAX, day);
    const double mean = vh_hour_sums_day(&w->log, VH_DAILY_TMEAN, day);
    const bool has_ends = !isnan(low) && !isnan(high);
    double sum = 0.0, before = high, after = low;

    if (!has_ends && isnan(mean))
        return false;
    if (day > 0)
        before = given_or(vh_hour_sums_day(&w->log, VH_DAILY_TMAX, day - 1), high);
    if (day + 1 < w->window.days)
        after = given_or(vh_hour_sums_day(&w->log, VH_DAILY_TMIN, day + 1), low);
    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++) {
        const double middle = (double)h + 0.5 + vh_solar_shift_h(w, day);
        t[h] = has_ends ? vh_day_sine(w->params->t_max_solar_h, middle, low, high, before, after)
                        : outlook_inside_c(w, day * VH_HOURS_PER_DAY + h);
        sum += t[h];
    }
    if (isnan(mean))
        return true;
    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++)
        t[h] = isnan(sum) ? mean : t[h] + mean - sum / VH_HOURS_PER_DAY;
    return true;
}

/* K the heater adds in an hour: above what sun and outside air give, while they stay below its set
 * point. Where the temperature is recorded, as far as it was reached. */
static double heating_k(const struct vh_climate_work *w, size_t hour)
{
    const double unheated = unheated_c(w, hour);

    if (isnan(unheated) || isnan(w->t_c[hour]))
        return NAN;
    return unheated < heat_set_point_c(w, hour) ? vh_max(w->t_c[hour] - unheated, 0.0) : 0.0;
}

static void fill_temperature(struct vh_climate_work *w, size_t day)
{
    double course[VH_HOURS_PER_DAY];
    const bool has_course = log_day_course(w, day, course);

    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++) {
        const size_t hour = day * VH_HOURS_PER_DAY + h;
        double logged = vh_hour_sums_hour(&w->log, VH_HOURLY_T_AIR, hour);
        if (isnan(logged) && has_course)
            logged = course[h];
        w->t_logged[hour] = (unsigned char)!isnan(logged);
        w->t_c[hour] = isnan(logged) ? outlook_inside_c(w, hour) : logged;
        w->heating_k[hour] = heating_k(w, hour);
    }
}

void vh_inside_fill(struct vh_climate_work *w)
{
    for (size_t day = 0; day < w->window.days; day++) {
        fill_light(w, day);
        fill_temperature(w, day);
    }
}
