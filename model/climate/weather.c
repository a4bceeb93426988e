#include "vh_weather.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "climate_parts.h"
#include "vh_math_parts.h"
#include "vh_random.h"

/* What a random number is for; never renumbered. */
enum purpose { TEMPERATURE = 100, CLEARNESS = 101 };

/* clear[days], sums of the anomaly, to factors on the light, no lighter than a clear day. */
VH_KERNEL void clearer_by(const struct vh_climate *c, double sd, double *clear)
{
    const double *most = c->outlook.clearer_most;
    const double half = sd * sd / 2.0;

    VH_APART
    for (size_t d = 0; d < c->days; d++)
        clear[d] = vh_min(vh_exp(clear[d] - half), vh_max(1.0, most[d]));
}

VH_WIDE static void clearer_by_wide(const struct vh_climate *c, double sd, double *clear)
{
    clearer_by(c, sd, clear);
}

VH_WIDEST static void clearer_by_widest(const struct vh_climate *c, double sd, double *clear)
{
    clearer_by(c, sd, clear);
}

static void to_factors(const struct vh_climate *c, double sd, enum vh_registers registers,
                       double *clear)
{
    if (registers == VH_BY_EIGHT)
        clearer_by_widest(c, sd, clear);
    else if (registers == VH_BY_FOUR)
        clearer_by_wide(c, sd, clear);
    else
        clearer_by(c, sd, clear);
    for (size_t d = 0; d < c->days; d++)
        if (c->outlook.known[d])
            clear[d] = 1.0;
}

void vh_weather_draw(const struct vh_climate *c, const struct vh_weather_spread *spread,
                     uint64_t draw, uint32_t member, enum vh_registers registers, double *warmer_k,
                     double *clearer)
{
    const double phi = spread->persistence, fresh = sqrt(1.0 - phi * phi);
    const double sd_t = spread->temperature_sd_c, sd_c = spread->clearness_sd;
    double warm = 0.0, clear = 0.0, z_t[VH_NORMALS], z_c[VH_NORMALS];
    size_t from = 0, until = 0; /* the days of those */

    for (size_t d = 0; d < c->days; d++) {
        const uint32_t date = (uint32_t)(c->first_day + (int64_t)d);
        if (c->outlook.known[d]) {
            warm = clear = warmer_k[d] = clearer[d] = 0.0;
            continue;
        }
        if (d >= until) {
            vh_normals(draw, member, date, TEMPERATURE, 0, z_t);
            vh_normals(draw, member, date, CLEARNESS, 0, z_c);
            from = d;
            until = d + VH_NORMALS;
        }
        warm = phi * warm + sd_t * fresh * z_t[d - from];
        clear = phi * clear + sd_c * fresh * z_c[d - from];
        warmer_k[d] = warm;
        clearer[d] = clear;
    }
    to_factors(c, sd_c, registers, clearer);
}

enum { OWN_HOURLY = 4, OWN_DAILY = 7 };

enum vh_status vh_weather_init(const struct vh_climate *from, struct vh_climate *out)
{
    const size_t hours = from->days * VH_HOURS_PER_DAY;
    const size_t line = 64; /* bytes that a wide register writes at once */
    const size_t bytes = (OWN_HOURLY * hours + OWN_DAILY * from->days) * sizeof(double);
    double *block = aligned_alloc(line, (bytes / line + 1) * line);

    *out = *from;
    out->log_report = NULL;
    out->t_c = block; /* the first: freed by it */
    if (!block)
        return VH_NO_MEMORY;
    memset(block, 0, bytes);
    out->par_umol_m2_s = block + hours;
    out->t_out_c = block + 2 * hours;
    out->outlook.sun_w_m2 = block + 3 * hours;
    double **const daily[OWN_DAILY] = {
        &out->tmean_c,         &out->tmin_c,          &out->tmax_c,     &out->dli_mol_m2_d,
        &out->degree_days_c_d, &out->hours_above_hot, &out->heating_kwh};
    for (size_t i = 0; i < OWN_DAILY; i++)
        *daily[i] = block + OWN_HOURLY * hours + i * from->days;
    return VH_OK;
}

void vh_weather_clear(struct vh_climate *out)
{
    free(out->t_c);
    *out = (struct vh_climate){0};
}

static void same_day(const struct vh_climate *from, size_t d, struct vh_climate *out)
{
    const size_t at = d * VH_HOURS_PER_DAY, bytes = VH_HOURS_PER_DAY * sizeof *out->t_c;

    memcpy(out->t_c + at, from->t_c + at, bytes);
    memcpy(out->par_umol_m2_s + at, from->par_umol_m2_s + at, bytes);
    memcpy(out->t_out_c + at, from->t_out_c + at, bytes);
    memcpy(out->outlook.sun_w_m2 + at, from->outlook.sun_w_m2 + at, bytes);
    out->tmean_c[d] = from->tmean_c[d];
    out->tmin_c[d] = from->tmin_c[d];
    out->tmax_c[d] = from->tmax_c[d];
    out->dli_mol_m2_d[d] = from->dli_mol_m2_d[d];
    out->degree_days_c_d[d] = from->degree_days_c_d[d];
    out->hours_above_hot[d] = from->hours_above_hot[d];
    out->heating_kwh[d] = from->heating_kwh[d];
}

/* Where the hours of a day are laid; none of it is read. */
struct day_hours {
    double *restrict t_out_c, *restrict sun_w_m2, *restrict par, *restrict t_c;
};

/* The hours of day d side by side; what the log knows stays. */
VH_KERNEL void other_hours(const struct vh_climate *from, size_t d, double warmer_k, double clearer,
                           struct day_hours out)
{
    const struct vh_outlook *o = &from->outlook;
    const double gain = o->gain_k_m2_w, lift = o->lift_k, vent = o->vent_c;
    const double par_per_w = o->par_per_w[d];
    const size_t first = d * VH_HOURS_PER_DAY;
    double lit_logged[VH_HOURS_PER_DAY], t_logged[VH_HOURS_PER_DAY]; /* as wide as the rest */

    for (size_t i = 0; i < VH_HOURS_PER_DAY; i++) {
        lit_logged[i] = o->light_logged[first + i];
        t_logged[i] = from->logged[first + i];
    }
    for (size_t i = 0; i < VH_HOURS_PER_DAY; i++) {
        const size_t h = first + i;
        const bool lit = lit_logged[i] > 0.0, logged = t_logged[i] > 0.0;
        const double t_out = from->t_out_c[h] + warmer_k, was = o->sun_w_m2[h];
        const double sun = vh_select(lit, was, was * clearer);
        const double light = sun * par_per_w + o->lamps_umol_m2_s[h] + o->lighter_umol_m2_s[h];
        const double inside = vh_inside_c(gain, lift, vent, t_out, sun, o->heat_c[h]);
        out.t_out_c[i] = t_out;
        out.sun_w_m2[i] = sun;
        out.par[i] = vh_select(lit, from->par_umol_m2_s[h], vh_select(light > 0.0, light, 0.0));
        out.t_c[i] = vh_select(logged, from->t_c[h], inside + o->warmer_c[h]);
    }
}

VH_WIDE static void other_hours_wide(const struct vh_climate *from, size_t d, double warmer_k,
                                     double clearer, struct day_hours out)
{
    other_hours(from, d, warmer_k, clearer, out);
}

VH_WIDEST static void other_hours_widest(const struct vh_climate *from, size_t d, double warmer_k,
                                         double clearer, struct day_hours out)
{
    other_hours(from, d, warmer_k, clearer, out);
}

static void other_day(const struct vh_climate *from, size_t d, double warmer_k, double clearer,
                      enum vh_registers registers, struct vh_climate *out)
{
    const size_t at = d * VH_HOURS_PER_DAY;
    const struct day_hours hours = {out->t_out_c + at, out->outlook.sun_w_m2 + at,
                                    out->par_umol_m2_s + at, out->t_c + at};

    if (registers == VH_BY_EIGHT)
        other_hours_widest(from, d, warmer_k, clearer, hours);
    else if (registers == VH_BY_FOUR)
        other_hours_wide(from, d, warmer_k, clearer, hours);
    else
        other_hours(from, d, warmer_k, clearer, hours);
    vh_climate_sum_day(out, d, registers);
}

void vh_weather_fill(const struct vh_climate *from, const double *warmer_k, const double *clearer,
                     enum vh_registers registers, struct vh_climate *out)
{
    for (size_t d = 0; d < from->days; d++) {
        if (warmer_k[d] == 0.0 && clearer[d] == 1.0)
            same_day(from, d, out);
        else
            other_day(from, d, warmer_k[d], clearer[d], registers, out);
    }
}

void vh_weather_shift_log(const struct vh_climate *from, double warmer_k, struct vh_climate *out)
{
    const enum vh_registers registers = vh_registers();

    if (warmer_k == 0.0)
        return;
    for (size_t d = 0; d < from->days; d++) {
        bool any = false;
        for (size_t h = d * VH_HOURS_PER_DAY; h < (d + 1) * VH_HOURS_PER_DAY; h++) {
            if (!from->logged[h])
                continue;
            out->t_c[h] = from->t_c[h] + warmer_k;
            any = true;
        }
        if (any)
            vh_climate_sum_day(out, d, registers);
    }
}
