/* vh_light.h - light to assimilate: gross photosynthesis of the canopy and its loss by maintenance.
 *
 *     Pg = (Pm/K) log[(alpha K I + (1-m) Pm) / (alpha K I exp(-K LAI) + (1-m) Pm)]  [acock1978]
 *     Pm = tau C f(T),  alpha = alpha0 (C - G)/(C + 2 G)                         [farquhar1980]
 *     G = max(5, g0 + g1 (T-25) + g2 (T-25)^2)                                     [brooks1985]
 *
 * Light that passes the leaves comes back from the floor in part and is caught once more on its way
 * up: in all the canopy takes I (1 + floor exp(-K LAI)) (1 - exp(-K LAI)) [vanthoor2011 eq. 9.17,
 * 9.19]. The light from below is reckoned as if it came with the rest.
 *
 * I light reaching the leaves, umol m-2 s-1 = (1 - reflected) x PAR above the crop; C CO2, umol
 * mol-1, capped; f(T) trapezoid [vanthoor2011 Table 3.2].
 */
#ifndef VH_LIGHT_H
#define VH_LIGHT_H

#include <stddef.h>

#include "vh_math_parts.h"

struct vh_light_params {
    double extinction;        /* K, per unit of LAI */
    double reflected;         /* share of PAR the canopy sends back */
    double floor_reflected;   /* share of the PAR that reaches the floor which it sends back up */
    double alpha0;            /* mol CO2 per mol photons without photorespiration */
    double tau_umol_m2_s_ppm; /* light-saturated leaf rate per ppm of CO2 */
    double co2_cap_ppm;
    double leaf_transmission;      /* m */
    double t1_c, t2_c, t3_c, t4_c; /* corners of f(T) */
    double gamma0_ppm, gamma1_ppm_k, gamma2_ppm_k2, gamma_ref_c, gamma_least_ppm;
    double g_ch2o_per_umol; /* g CH2O per umol CO2 */
};

/* What one hour of climate makes of the leaf, for any canopy: computed once per hour. */
struct vh_leaf_hour {
    double alpha_k_i; /* alpha K I, umol m-2 s-1; 0: no photosynthesis this hour */
    double rest;      /* (1 - m) Pm */
    double pm_per_k;  /* Pm / K */
};

/* The same for the hours of a day, quantity by quantity; all photosynthesis lies in hours from ..
 * until - 1. */
#define VH_LIGHT_HOURS 24
struct vh_leaf_hours {
    double alpha_k_i[VH_LIGHT_HOURS], rest[VH_LIGHT_HOURS], pm_per_k[VH_LIGHT_HOURS];
    int from, until;
};

/* Fills a day's hours from arrays of 24; by any registers that the machine has, the same bits. */
void vh_light_leaf_hours(const struct vh_light_params *p, const double *t_c,
                         const double *par_umol_m2_s, const double *co2_ppm,
                         enum vh_registers registers, struct vh_leaf_hours *out);
/* Sum over the day when each hour is lit `light` times as strongly, g CH2O m-2. */
double vh_light_day_g_m2(const struct vh_light_params *p, const struct vh_leaf_hours *l,
                         double light, double passed, enum vh_registers registers);

struct vh_upkeep_params {
    double fruit_per_d, leaf_per_d, stem_per_d; /* g CH2O per g DM and day at ref_c */
    double q10, ref_c;
    double growth_d; /* activity = 1 - exp(-growth_d RGR) [vanthoor2011] */
    double rgr_window_d, rgr_start_per_d;
    double reserve_most_g_m2;
    double fruit_cost, other_cost; /* g CH2O per g DM grown [tap2000] */
};

/* Logarithm of what upkeep rises by in each K. */
double vh_upkeep_per_k(const struct vh_upkeep_params *p);
/* q10^((T - ref)/10); per_k: vh_upkeep_per_k(p), once for all days. */
VH_KERNEL double vh_upkeep_warmth(const struct vh_upkeep_params *p, double per_k, double t_c)
{
    return vh_exp(per_k * (t_c - p->ref_c));
}

#endif
