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

VH_KERNEL void row(double expand, double born_at, double clock, size_t n,
                   const double *restrict number, double *restrict out)
{
    for (size_t k = 0; k < n; k++)
        out[k] = expanded(clock - number[k] + born_at, expand);
}

VH_WIDE static void row_wide(double expand, double born_at, double clock, size_t turns,
                             const double *number, double *out)
{
    row(expand, born_at, clock, turns * VH_SIDE, number, out);
}

static void row_plain(double expand, double born_at, double clock, size_t turns,
                      const double *number, double *out)
{
    row(expand, born_at, clock, turns * VH_SIDE, number, out);
}

void vh_leaf_expanded_row(const struct vh_leaf_params *p, double plastochron, const double *number,
                          size_t turns, bool wide, double *out)
{
    (wide ? row_wide : row_plain)(p->expand_plastochrons, p->born_at, plastochron, turns, number,
                                  out);
}
