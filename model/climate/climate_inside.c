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
    double of_sum[VH_HOURS_PER_DAY] = {0.0};

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

/* Outside radiation; a light sensor inside tells the sun where nothing outside does. */
static double sun_w_m2(const struct vh_climate_work *w, size_t hour)
{
    const double per_w = let_in(w, hour / VH_HOURS_PER_DAY);
    const double radiation = w->r_out_w_m2[hour];

    if (isnan(radiation) && w->light_logged[hour] && per_w > 0.0)
        return w->par_umol_m2_s[hour] / per_w;
    return radiation;
}

static double heat_set_point_c(const struct vh_climate_work *w, size_t hour)
{
    return given_or(vh_sun_is_up(w, hour) ? w->request->heat_day_c : w->request->heat_night_c,
                    w->params->heat_c);
}

static struct vh_outlook rule_of(const struct vh_climate_work *w)
{
    return (struct vh_outlook){
        .gain_k_m2_w = w->params->gain_k_m2_w,
        .lift_k = w->params->lift_k,
        .vent_c = given_or(w->request->vent_c, w->params->vent_c),
        .heat_loss_w_k = w->request->heat_loss_w_k,
        .degree_day_base_c = w->params->degree_day_base_c,
        .hot_c = w->params->hot_c,
    };
}

double vh_outlook_inside_c(const struct vh_outlook *o, double t_out_c, double sun_w_m2,
                           double heat_c)
{
    return vh_inside_c(o->gain_k_m2_w, o->lift_k, o->vent_c, t_out_c, sun_w_m2, heat_c);
}

static double outlook_inside_c(const struct vh_climate_work *w, size_t hour)
{
    const struct vh_outlook rule = rule_of(w);

    return vh_outlook_inside_c(&rule, w->t_out_c[hour], sun_w_m2(w, hour),
                               heat_set_point_c(w, hour));
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
    }
}

void vh_inside_fill(struct vh_climate_work *w)
{
    for (size_t day = 0; day < w->window.days; day++) {
        fill_light(w, day);
        fill_temperature(w, day);
    }
}

/* ---- what it was reckoned from ---- */

/* Light of a clear day over the day's own; a day without a sun or a latitude sets no bound. */
static double clearer_most(const struct vh_climate_work *w, size_t day)
{
    const double *r = &w->r_out_w_m2[day * VH_HOURS_PER_DAY];
    double mj = 0.0;

    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++)
        mj += r[h] * VH_SECONDS_PER_HOUR * VH_PER_MILLION;
    const double clear = (w->params->angstrom_a + w->params->angstrom_b) * w->ra_mj[day];
    return clear > 0.0 && mj > 0.0 ? vh_max(clear / mj, 1.0) : VH_ENDLESS;
}

/* Was the quantity read on most hours of the day, by the log or outside? */
static bool is_measured(const struct vh_climate_work *w, enum vh_hourly q, size_t day)
{
    int hours = 0;

    for (size_t h = day * VH_HOURS_PER_DAY; h < (day + 1) * VH_HOURS_PER_DAY; h++)
        hours += !isnan(vh_hour_sums_hour(&w->log, q, h)) ||
                 !isnan(vh_hour_sums_hour(&w->outside, q, h));
    return 2 * hours > VH_HOURS_PER_DAY;
}

static void day_outlook(const struct vh_climate_work *w, size_t day, size_t to,
                        struct vh_outlook *o)
{
    const bool past = w->window.first_day + (int64_t)day <= w->request->today;
    bool logged = false;

    for (size_t h = 0; h < VH_HOURS_PER_DAY; h++) {
        const size_t from = day * VH_HOURS_PER_DAY + h, at = to * VH_HOURS_PER_DAY + h;
        o->sun_w_m2[at] = sun_w_m2(w, from);
        o->heat_c[at] = heat_set_point_c(w, from);
        o->lamps_umol_m2_s[at] = lamp_light(w, from);
        o->light_logged[at] = w->light_logged[from];
        o->warmer_c[at] = w->warmer_c[from];
        o->lighter_umol_m2_s[at] = w->lighter_umol_m2_s[from];
        logged = logged || w->t_logged[from] || w->light_logged[from];
    }
    o->par_per_w[to] = let_in(w, day);
    o->clearer_most[to] = clearer_most(w, day);
    o->t_out_measured[to] = past && (w->outside_known[day] || is_measured(w, VH_HOURLY_T_OUT, day));
    o->sun_measured[to] = past && (!isnan(vh_hour_sums_day(&w->outside, VH_DAILY_RADIATION, day)) ||
                                   !isnan(vh_hour_sums_day(&w->log, VH_DAILY_RADIATION, day)) ||
                                   is_measured(w, VH_HOURLY_RADIATION_OUT, day));
    o->known[to] = past && (logged || w->outside_known[day]);
}

void vh_inside_outlook(const struct vh_climate_work *w, size_t skipped, struct vh_climate *out)
{
    struct vh_outlook *o = &out->outlook;
    const struct vh_outlook rule = rule_of(w);

    o->gain_k_m2_w = rule.gain_k_m2_w;
    o->lift_k = rule.lift_k;
    o->vent_c = rule.vent_c;
    o->heat_loss_w_k = rule.heat_loss_w_k;
    o->degree_day_base_c = rule.degree_day_base_c;
    o->hot_c = rule.hot_c;
    for (size_t day = 0; day < out->days; day++)
        day_outlook(w, day + skipped, day, o);
}
