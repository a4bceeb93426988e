/* vh_truss.h - how fast a stem starts new trusses (tomato) or nodes (cucumber and other axil
 * crops).
 *
 *     truss:  FR = a + b log(T) + c N          [tap2000, fitted on dekoning1994]
 *     node:   NR = level (1 + k_t (T - T_ref) + k_l (DLI - DLI_ref))
 *             none below the base temperature
 *
 * T 24-hour mean air temperature, degC; N number of the truss now flowering. Measured between low_c
 * and high_c; beyond it our own continuation (basis "assumed" in the parameter file).
 */
#ifndef VH_TRUSS_H
#define VH_TRUSS_H

#include "vh_math_parts.h"

enum vh_clock_by { VH_CLOCK_BY_TRUSS, VH_CLOCK_BY_NODE };

struct vh_truss_params {
    int clock_by;              /* enum vh_clock_by */
    double a_per_d;            /* fruit type's term, truss d-1 */
    double b_per_d;            /* per unit of log(T / 1 degC), truss d-1 */
    double c_per_d_truss;      /* per number of the truss now flowering, truss d-1; below 0 */
    double low_c, high_c;      /* measured range of T, degC */
    double flat_c;             /* above high_c the slope there is kept up to here, degC */
    double fall_c, stop_c;     /* from fall_c the rate falls linearly to 0 at stop_c, degC */
    double leaves_per_truss;   /* leaves made with each truss; 1 for nodes */
    double leaves_below_first; /* leaves below the first truss */
    double leaves_ahead;       /* unfolded leaves above a truss when it flowers */
    double run_on_leaves;      /* after topping the flowering clock runs on by so many leaves */
};

struct vh_node_params {
    double level_per_d; /* nodes d-1 at ref_c and ref_mol_m2_d */
    double ref_c, ref_mol_m2_d;
    double per_k;              /* relative change per K */
    double per_mol;            /* relative change per mol m-2 d-1 */
    double brightest_mol_m2_d; /* for bounds only */
    double base_c, full_c;     /* no nodes at base_c, the whole rate from full_c on */
    double least_share;        /* of the level, under any light and warmth */
};

/* Share of the pace that heat leaves. */
VH_KERNEL double vh_truss_heat_share(const struct vh_truss_params *p, double temp_c)
{
    return vh_clamp((p->stop_c - temp_c) / (p->stop_c - p->fall_c), 0.0, 1.0);
}

/* Trusses a stem starts in a day at the day's mean temp_c, truss number `truss` flowering; never
 * below 0. */
VH_KERNEL double vh_truss_rate_per_d(const struct vh_truss_params *p, double temp_c, double truss)
{
    const double t = vh_clamp(temp_c, p->low_c, p->high_c);
    const double beyond = vh_min(temp_c, p->flat_c) - t; /* along the tangent at the near end */
    const double rate =
        p->a_per_d + p->b_per_d * vh_log(t) + p->c_per_d_truss * truss + p->b_per_d / t * beyond;

    return vh_max(rate, 0.0) * vh_truss_heat_share(p, temp_c);
}

/* Nodes a stem makes in a day; dli_mol_m2_d at the crop. Uses fall_c and stop_c of the truss rows
 * for heat. */
VH_KERNEL double vh_node_rate_per_d(const struct vh_node_params *p, const struct vh_truss_params *t,
                                    double temp_c, double dli_mol_m2_d)
{
    const double warmth = p->per_k * (temp_c - p->ref_c);
    const double light = p->per_mol * (dli_mol_m2_d - p->ref_mol_m2_d);
    const double cold = vh_clamp((temp_c - p->base_c) / (p->full_c - p->base_c), 0.0, 1.0);

    return p->level_per_d * vh_max(1.0 + warmth + light, p->least_share) * cold *
           vh_truss_heat_share(t, temp_c);
}

#endif
