/* vh_leaf.h - leaf area: area first, thickness follows; the limit is the leaf DM there is. Leaves
 * as thick as they get take no more, the rest goes into stem and root (assumed).
 *
 * A leaf expands over `expand` plastochrons with weight sin^2(pi age/expand)/(expand/2) to its
 * potential area.
 *
 * Leaves are thinner in the shade: the most area per gram is
 *     thinnest (max(L, L_least)/L_ref)^-exponent
 * L the mean light at the crop, mol m-2 d-1, into which each day comes with 1/window. The form is
 * assumed; with its exponent leaf area falls with light nearly as measured [klaering2012].
 */
#ifndef VH_LEAF_H
#define VH_LEAF_H

#include <stdbool.h>
#include <stddef.h>

#include "vh_math_parts.h"

struct vh_leaf_params {
    double potential_area_m2;
    double expand_plastochrons;
    double thinnest_m2_g, thickest_m2_g; /* most and least area per g of leaf DM */
    double thin_exponent, thin_ref_mol_m2_d,
        thin_least_mol_m2_d;                  /* how light moves the most area */
    double thin_window_d;                     /* mean life of a day in that light */
    double dm_share;                          /* of vegetative DM that goes to leaves */
    double seed_first_share, seed_share_step; /* area of the i-th leaf at the base = potential x
                                                 min(1, first + step i) */
    double seed_m2_g;                         /* area per g of leaf DM at set-out */
    double born_at;       /* the i-th leaf counts as unfolded when the clock passes i - born_at */
    double seed_dm_share; /* leaves in the dry matter at set-out */
};

/* Share of its potential area a leaf has at an age in plastochrons: 0 at 0, 1 from `expand` on: the
 * integral of sin^2(pi age/expand)/(expand/2). */
VH_KERNEL double vh_leaf_expanded(const struct vh_leaf_params *p, double age_plastochrons)
{
    const double age = age_plastochrons, expand = p->expand_plastochrons, turn = age / expand;
    const double part = turn - vh_sin_straight(2.0 * VH_PI * turn) / (2.0 * VH_PI);

    return vh_select(age <= 0.0, 0.0, vh_select(age >= expand, 1.0, part));
}
/* Most area per gram of leaf in light of so much a day, m2 g-1. */
VH_KERNEL double vh_leaf_most_m2_g(const struct vh_leaf_params *p, double mol_m2_d)
{
    const double light = vh_max(mol_m2_d, p->thin_least_mol_m2_d);

    return p->thinnest_m2_g * vh_pow(light / p->thin_ref_mol_m2_d, -p->thin_exponent);
}
/* Potential area of the i-th leaf from the base (i >= 1, real between leaves), m2. */
VH_KERNEL double vh_leaf_potential_m2(const struct vh_leaf_params *p, double number)
{
    const double share = p->seed_first_share + p->seed_share_step * number;

    return p->potential_area_m2 * vh_select(1.0 < share, 1.0, share);
}

#endif
