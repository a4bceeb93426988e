/* vh_sucker.h - side shoots in the axils of leaves: how they grow and what they take.
 *
 * Each leaf has one axil. Its sucker starts with w0 g dry matter `start_cd` degree-days (above
 * base_c) after the leaf opens, and grows
 *     w' = min(k w, fastest)                per degC d
 *     asks (1 - own) w' of the stem,  own = min(own_most, w/own_at_g)
 *     length = length_cm sqrt(w/length_at_g),  leaf area = leaf_share (w - w0) leaf_m2_g
 * The bud it starts from has no leaves: so area comes smoothly. All of it assumed; ours. A sucker
 * grown as large as a stem grows no faster than a stem does: hence `fastest`.
 */
#ifndef VH_SUCKER_H
#define VH_SUCKER_H

#include "vh_math_parts.h"

struct vh_sucker_params {
    double start_g;                  /* w0; 0: no suckers worth pulling */
    double start_cd, base_c;         /* degC d after the leaf opens, above this base */
    double growth_per_cd;            /* k */
    double fastest_g_cd;             /* a stem of its own grows so fast */
    double own_most, own_at_g;       /* share of its growth that its own leaves feed */
    double length_cm, length_at_g;   /* so long at so much dry matter */
    double leaf_share, leaf_m2_g;    /* leaves in its dry matter; their area */
    double pulled_cm, pull_width_cm; /* pulled from this length on; shorter and longer ones of one
                                        axil stand on different stems, so the limit is so wide */
};

/* Dry matter that w g gain in a day whose degree-days let a small sucker grow by `rise` (share) and
 * that counts cd degree-days, if the stem gives all they ask, g. */
VH_KERNEL double vh_sucker_gain_g(const struct vh_sucker_params *p, double w_g, double rise,
                                  double cd)
{
    return vh_min(w_g * rise, p->fastest_g_cd * cd);
}

/* Share by which a small sucker grows over cd degree-days. */
VH_KERNEL double vh_sucker_rise(const struct vh_sucker_params *p, double cd)
{
    return vh_exp(p->growth_per_cd * cd) - 1.0;
}

/* Share of its growth that a sucker of w g feeds itself. */
VH_KERNEL double vh_sucker_own(const struct vh_sucker_params *p, double w_g)
{
    return vh_min(p->own_most, w_g / p->own_at_g);
}

VH_KERNEL double vh_sucker_length_cm(const struct vh_sucker_params *p, double w_g)
{
    return p->length_cm * sqrt(w_g / p->length_at_g);
}

VH_KERNEL double vh_sucker_leaf_m2(const struct vh_sucker_params *p, double w_g)
{
    return p->leaf_share * vh_max(0.0, w_g - p->start_g) * p->leaf_m2_g;
}

/* Share of the suckers of a length that a visit takes for long enough. */
VH_KERNEL double vh_sucker_long_enough(const struct vh_sucker_params *p, double length_cm)
{
    const double short_by = p->pulled_cm - length_cm;

    return vh_select(p->pull_width_cm <= 0.0, vh_select(short_by <= 0.0, 1.0, 0.0),
                     vh_clamp(0.5 - short_by / p->pull_width_cm, 0.0, 1.0));
}

#endif
