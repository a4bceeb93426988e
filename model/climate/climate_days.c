#include "climate_parts.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "vh_math_parts.h"

#define WATT_PER_KILOWATT 1000.0

/* ---- hours without a source ---- */

/* One line for all days on which `values` has an hour unknown. */
static bool tell_missing(const struct vh_climate *c, const double *values, const char *what,
                         const char *would_help, struct vh_messages *m)
{
    int64_t first = 0, last = 0, days = 0;

    for (size_t day = 0; day < c->days; day++) {
        bool missing = false;
        for (size_t h = 0; h < VH_HOURS_PER_DAY; h++)
            missing = missing || isnan(values[day * VH_HOURS_PER_DAY + h]);
        if (!missing)
            continue;
        if (days++ == 0)
            first = c->first_day + (int64_t)day;
        last = c->first_day + (int64_t)day;
    }
    if (days == 0)
        return false;
    char from[11], until[11];
    vh_date_format(first, from);
    vh_date_format(last, until);
    vh_fail(m, VH_BAD_INPUT, VH_NOWHERE, "no source of %s for %" PRId64 " days from %s to %s; %s",
            what, days, from, until, would_help);
    return true;
}

static enum vh_status missing_hours(const struct vh_climate_work *w, const struct vh_climate *c,
                                    struct vh_messages *m)
{
    const bool has_latitude = !isnan(w->request->latitude_deg);
    const bool has_outlook =
        w->request->outside.path || w->request->normals.path || w->request->has_roughly;
    const char *add = has_outlook ? "let outside reach over them, or add normals or"
                                    " [climate.roughly] to [climate]"
                                  : "give outside, normals or [climate.roughly] in [climate]";
    const char *light = has_latitude ? add : "give latitude_deg in [house]";
    /* unlit hours of the sun are why most houses lack both: say what helps first */
    const char *warmth = has_outlook && !has_latitude ? "give latitude_deg in [house]" : add;
    const bool no_temperature = tell_missing(c, c->t_c, "temperature", warmth, m);
    const bool no_light = tell_missing(c, c->par_umol_m2_s, "light", light, m);

    return no_temperature || no_light ? VH_BAD_INPUT : VH_OK;
}

/* ---- sums ---- */

enum { ABREAST = 8 }; /* hours */

struct day_sums {
    double t, light, heating, degrees, low, high, hot;
};

/* Each sum in the order of the hours, the sums side by side; the lowest and the highest hour and
 * counts are the same in any order. Heating: K the heater adds in an hour,
 * above what sun and outside air give, while they stay below its set point; where the temperature
 * is recorded, as far as it was reached. Degree-hours without an upper threshold (the cutoffs of
 * vh_degree_days.h have nothing to cut). */
VH_KERNEL void sum_hours(const struct vh_climate *c, size_t first, struct day_sums *out)
{
    const double gain = c->outlook.gain_k_m2_w, base_c = c->outlook.degree_day_base_c;
    const double hot_c = c->outlook.hot_c;
    double light[VH_HOURS_PER_DAY], heating[VH_HOURS_PER_DAY], degrees[VH_HOURS_PER_DAY];
    double low[ABREAST], high[ABREAST], hot[ABREAST];
    struct day_sums s = {.low = (double)INFINITY, .high = -(double)INFINITY};

    for (size_t i = 0; i < VH_HOURS_PER_DAY; i++) {
        const size_t h = first + i;
        const double t = c->t_c[h], unheated = c->t_out_c[h] + gain * c->outlook.sun_w_m2[h];
        const double more = t - unheated, over = t - base_c;
        const double added = vh_select(more > 0.0, more, 0.0);
        light[i] = c->par_umol_m2_s[h] * VH_SECONDS_PER_HOUR * VH_PER_MILLION;
        heating[i] =
            vh_select(more != more, more, vh_select(unheated < c->outlook.heat_c[h], added, 0.0));
        degrees[i] = vh_select(t <= base_c, 0.0, over);
    }
    for (size_t i = 0; i < ABREAST; i++) {
        low[i] = s.low;
        high[i] = s.high;
        hot[i] = 0.0;
    }
    for (size_t h = first; h < first + VH_HOURS_PER_DAY; h += ABREAST) {
        VH_APART
        for (size_t i = 0; i < ABREAST; i++) {
            const double t = c->t_c[h + i];
            low[i] = vh_min(low[i], t);
            high[i] = vh_max(high[i], t);
            hot[i] += vh_select(t > hot_c, 1.0, 0.0);
        }
    }
    for (size_t i = 0; i < VH_HOURS_PER_DAY; i++) {
        const double t = c->t_c[first + i];
        s.t += t;
        s.light += light[i];
        s.heating += heating[i];
        s.degrees += degrees[i];
    }
    for (size_t i = 0; i < ABREAST; i++) {
        s.low = vh_min(s.low, low[i]);
        s.high = vh_max(s.high, high[i]);
        s.hot += hot[i];
    }
    *out = s;
}

VH_WIDE static void sum_hours_wide(const struct vh_climate *c, size_t first, struct day_sums *out)
{
    sum_hours(c, first, out);
}

void vh_climate_sum_day(struct vh_climate *c, size_t day, enum vh_registers registers)
{
    struct day_sums s;

    if (registers != VH_BY_ONE)
        sum_hours_wide(c, day * VH_HOURS_PER_DAY, &s);
    else
        sum_hours(c, day * VH_HOURS_PER_DAY, &s);
    c->tmean_c[day] = s.t / VH_HOURS_PER_DAY;
    c->tmin_c[day] = s.low;
    c->tmax_c[day] = s.high;
    c->dli_mol_m2_d[day] = s.light;
    c->degree_days_c_d[day] = vh_max(s.degrees / VH_HOURS_PER_DAY, 0.0);
    c->hours_above_hot[day] = s.hot;
    c->heating_kwh[day] = c->outlook.heat_loss_w_k * s.heating / WATT_PER_KILOWATT;
}

/* What no other weather changes. */
static void sum_known(struct vh_climate *c, size_t day)
{
    const size_t first = day * VH_HOURS_PER_DAY;
    double co2 = 0.0, lit_co2 = 0.0;
    int logged = 0, lit = 0;

    for (size_t h = first; h < first + VH_HOURS_PER_DAY; h++) {
        const bool is_lit = c->par_umol_m2_s[h] > 0.0;
        co2 += c->co2_ppm[h];
        lit_co2 += is_lit ? c->co2_ppm[h] : 0.0;
        lit += is_lit;
        logged += c->logged[h];
    }
    c->co2_day_ppm[day] = lit > 0 ? lit_co2 / lit : co2 / VH_HOURS_PER_DAY;
    c->hours_logged[day] = logged;
    if (logged > 0)
        c->last_logged_day = c->first_day + (int64_t)day;
}

/* Is most of the past's light recorded? Hours of darkness do not count. */
static bool is_light_from_log(const struct vh_climate_work *w, const struct vh_climate *c,
                              size_t offset)
{
    int64_t logged = 0, all = 0;

    for (size_t hour = 0; hour < c->days * VH_HOURS_PER_DAY; hour++) {
        if (c->first_day + (int64_t)(hour / VH_HOURS_PER_DAY) > w->request->today)
            break;
        if (!vh_sun_is_up(w, hour + offset) && !(c->par_umol_m2_s[hour] > 0.0))
            continue;
        all++;
        logged += w->light_logged[hour + offset];
    }
    return 2 * logged > all;
}

static void tell_end_of_log(const struct vh_climate_work *w, const struct vh_climate *c,
                            struct vh_messages *m)
{
    const int64_t last_past =
        w->request->today < w->request->last_day ? w->request->today : w->request->last_day;
    char date[11];

    if (c->last_logged_day == INT64_MIN || last_past - c->last_logged_day < 2 ||
        !w->log.warmth_file)
        return;
    vh_date_format(c->last_logged_day, date);
    vh_remark(m, (struct vh_place){w->log.warmth_file->shown, 0, 0, NULL},
              "temperatures end on %s, %" PRId64
              " days before %s; from there on the outlook is used",
              date, last_past - c->last_logged_day,
              last_past == w->request->today ? "today" : "the end of the season");
}

enum vh_status vh_climate_days(const struct vh_climate_work *w, struct vh_climate *out,
                               struct vh_messages *m)
{
    const size_t skipped = (size_t)(out->first_day - w->window.first_day) * VH_HOURS_PER_DAY;
    const double co2 = isnan(w->request->co2_ppm) ? w->params->co2_ppm : w->request->co2_ppm;

    for (size_t hour = 0; hour < out->days * VH_HOURS_PER_DAY; hour++) {
        const size_t at = hour + skipped;
        const double logged = vh_hour_sums_hour(&w->log, VH_HOURLY_CO2, at);
        out->t_c[hour] = w->t_c[at];
        out->par_umol_m2_s[hour] = w->par_umol_m2_s[at];
        out->co2_ppm[hour] = !isnan(logged) ? logged : isnan(w->co2_ppm[at]) ? co2 : w->co2_ppm[at];
        out->t_out_c[hour] = w->t_out_c[at];
        out->logged[hour] = w->t_logged[at];
    }
    const enum vh_status status = missing_hours(w, out, m);
    if (status != VH_OK)
        return status;
    out->last_logged_day = INT64_MIN;
    vh_inside_outlook(w, skipped / VH_HOURS_PER_DAY, out);
    for (size_t day = 0; day < out->days; day++) {
        vh_climate_sum_day(out, day, vh_registers());
        sum_known(out, day);
    }
    out->light_from_log = is_light_from_log(w, out, skipped);
    tell_end_of_log(w, out, m);
    return VH_OK;
}
