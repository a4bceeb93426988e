#include "vh_leaf.h"

#include "vh_math_parts.h"

/* integral of sin^2(pi a/expand)/(expand/2) */
VH_KERNEL double expanded(double age, double expand)
{
    const double turn = age / expand;
    const double part = turn - vh_sin_straight(2.0 * VH_PI * turn) / (2.0 * VH_PI);

    return vh_select(age <= 0.0, 0.0, vh_select(age >= expand, 1.0, part));
}

double vh_leaf_expanded(const struct vh_leaf_params *p, double age)
{
    return expanded(age, p->expand_plastochrons);
}

/* As many as fill whole turns: those beyond `count` are not asked for. */
VH_KERNEL void row(double expand, double born_at, double clock, int first, int count, double *out)
{
    for (int from = 0; from < count; from += VH_SIDE)
        for (int k = from; k < from + VH_SIDE; k++)
            out[k] = expanded(clock - (first + k) + born_at, expand);
}

VH_WIDE static void row_wide(double expand, double born_at, double clock, int first, int count,
                             double *out)
{
    row(expand, born_at, clock, first, count, out);
}

void vh_leaf_expanded_row(const struct vh_leaf_params *p, double plastochron, int first, int count,
                          bool wide, double *out)
{
    if (wide)
        row_wide(p->expand_plastochrons, p->born_at, plastochron, first, count, out);
    else
        row(p->expand_plastochrons, p->born_at, plastochron, first, count, out);
}

double vh_leaf_potential_m2(const struct vh_leaf_params *p, double number)
{
    return p->potential_area_m2 * vh_min(1.0, p->seed_first_share + p->seed_share_step * number);
}
