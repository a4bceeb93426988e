#include "vh_light.h"

#include "vh_math_parts.h"

#define SECONDS_PER_HOUR 3600.0

/* ---- one hour ---- */

VH_KERNEL double temperature_share(const struct vh_light_params *p, double t_c)
{
    const double rising = (t_c - p->t1_c) / (p->t2_c - p->t1_c),
                 falling = (p->t4_c - t_c) / (p->t4_c - p->t3_c);
    const double lower = vh_select(rising < falling, rising, falling);

    return vh_select(lower < 0.0, 0.0, vh_select(lower > 1.0, 1.0, lower));
}

/* Without branches: what an hour in the dark gives is thrown away. */
VH_KERNEL struct vh_leaf_hour leaf_hour(const struct vh_light_params *p, double t_c, double par,
                                        double co2_ppm)
{
    const double c = vh_select(co2_ppm < p->co2_cap_ppm, co2_ppm, p->co2_cap_ppm);
    const double k = t_c - p->gamma_ref_c;
    const double warm = p->gamma0_ppm + k * (p->gamma1_ppm_k + k * p->gamma2_ppm_k2);
    const double gamma = vh_select(p->gamma_least_ppm > warm, p->gamma_least_ppm, warm);
    const double share = temperature_share(p, t_c);
    const bool dark = (par <= 0.0) | (share <= 0.0) | (c <= gamma);
    const double alpha = p->alpha0 * (c - gamma) / (c + 2.0 * gamma);
    const double pm = p->tau_umol_m2_s_ppm * c * share;

    return (struct vh_leaf_hour){
        vh_select(dark, 0.0, alpha * p->extinction * (1.0 - p->reflected) * par),
        vh_select(dark, 1.0, (1.0 - p->leaf_transmission) * pm),
        vh_select(dark, 0.0, pm / p->extinction)};
}

VH_KERNEL double canopy(double alpha_k_i, double rest, double pm_per_k, double passed)
{
    return pm_per_k * vh_log((alpha_k_i + rest) / (alpha_k_i * passed + rest));
}

/* ---- the hours of a day side by side ---- */

VH_KERNEL void fill_hours(const struct vh_light_params *params, const double *t_c,
                          const double *par, const double *co2_ppm, struct vh_leaf_hours *out)
{
    const struct vh_light_params p = *params; /* nothing that is written lies in it */

    for (int h = 0; h < VH_LIGHT_HOURS; h++) {
        const struct vh_leaf_hour leaf = leaf_hour(&p, t_c[h], par[h], co2_ppm[h]);
        out->alpha_k_i[h] = leaf.alpha_k_i;
        out->rest[h] = leaf.rest;
        out->pm_per_k[h] = leaf.pm_per_k;
    }
}

VH_WIDE static void fill_hours_wide(const struct vh_light_params *p, const double *t_c,
                                    const double *par, const double *co2_ppm,
                                    struct vh_leaf_hours *out)
{
    fill_hours(p, t_c, par, co2_ppm, out);
}

VH_WIDEST static void fill_hours_widest(const struct vh_light_params *p, const double *t_c,
                                        const double *par, const double *co2_ppm,
                                        struct vh_leaf_hours *out)
{
    fill_hours(p, t_c, par, co2_ppm, out);
}

void vh_light_leaf_hours(const struct vh_light_params *p, const double *t_c,
                         const double *par_umol_m2_s, const double *co2_ppm,
                         enum vh_registers registers, struct vh_leaf_hours *out)
{
    if (registers == VH_BY_EIGHT)
        fill_hours_widest(p, t_c, par_umol_m2_s, co2_ppm, out);
    else if (registers == VH_BY_FOUR)
        fill_hours_wide(p, t_c, par_umol_m2_s, co2_ppm, out);
    else
        fill_hours(p, t_c, par_umol_m2_s, co2_ppm, out);
    out->from = 0;
    out->until = VH_LIGHT_HOURS;
    while (out->from < out->until && !(out->alpha_k_i[out->from] > 0.0))
        out->from++;
    while (out->until > out->from && !(out->alpha_k_i[out->until - 1] > 0.0))
        out->until--;
}

/* Hours in the dark make nothing, not even a rounding. */
VH_KERNEL void canopy_hours(const struct vh_leaf_hours *l, double light, double passed,
                            const int side, double *restrict out)
{
    const int until = l->until;

    for (int from = l->from / side * side; from < until; from += side)
        for (int h = from; h < from + side; h++)
            out[h] = canopy(l->alpha_k_i[h] * light, l->rest[h], l->pm_per_k[h], passed);
}

VH_WIDE static void canopy_hours_wide(const struct vh_leaf_hours *l, double light, double passed,
                                      double *out)
{
    canopy_hours(l, light, passed, VH_SIDE, out);
}

VH_WIDEST static void canopy_hours_widest(const struct vh_leaf_hours *l, double light,
                                          double passed, double *out)
{
    canopy_hours(l, light, passed, VH_LANES, out);
}

double vh_light_day_g_m2(const struct vh_light_params *p, const struct vh_leaf_hours *l,
                         double light, double passed, enum vh_registers registers)
{
    double each[VH_LIGHT_HOURS], sum = 0.0;

    if (registers == VH_BY_EIGHT)
        canopy_hours_widest(l, light, passed, each);
    else if (registers == VH_BY_FOUR)
        canopy_hours_wide(l, light, passed, each);
    else
        canopy_hours(l, light, passed, VH_SIDE, each);
    for (int h = l->from; h < l->until; h++)
        sum += each[h];
    return sum * p->g_ch2o_per_umol * SECONDS_PER_HOUR;
}

double vh_upkeep_per_k(const struct vh_upkeep_params *p)
{
    return vh_log(p->q10) / 10.0;
}
