#include "vh_leaf.h"

#include "vh_math.h"

double vh_leaf_expanded(const struct vh_leaf_params *p, double age)
{
    if (age <= 0.0)
        return 0.0;
    if (age >= p->expand_plastochrons)
        return 1.0;
    const double turn = age / p->expand_plastochrons;
    return turn - vh_sin(2.0 * VH_PI * turn) /
                      (2.0 * VH_PI); /* integral of sin^2(pi a/expand)/(expand/2) */
}

double vh_leaf_potential_m2(const struct vh_leaf_params *p, double number)
{
    return p->potential_area_m2 * vh_min(1.0, p->seed_first_share + p->seed_share_step * number);
}
