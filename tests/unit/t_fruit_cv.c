/* Fruit mass is never a mean only. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>

#include "vh_fruit.h"

/* Weights of an even truss, and of one that falls by 0.06 a position: 1, 0.94, 0.88, 0.82. */
static struct vh_fruit_params truss(double at6, double between)
{
    return (struct vh_fruit_params){.knot1_position = 6,
                                    .knot1_weight = at6,
                                    .knot2_position = 12,
                                    .knot2_weight = at6,
                                    .weight_norm = 4,
                                    .mass_cv = between};
}

Test(fruit_cv, an_even_truss_scatters_as_plants_do)
{
    const struct vh_fruit_params p = truss(1.0, 0.15);
    for (double n = 0.5; n < 9.0; n += 0.5)
        cr_assert(epsilon_eq(dbl, vh_fruit_mass_cv(&p, n), 0.15, 1e-12));
}

Test(fruit_cv, positions_add_their_own_spread)
{
    const struct vh_fruit_params p = truss(0.70, 0.15);
    const double mean = 0.91, variance = (0.09 * 0.09 + 0.03 * 0.03) * 2.0 / 4.0;
    cr_assert(epsilon_eq(dbl, vh_fruit_mass_cv(&p, 4.0),
                         sqrt(variance / (mean * mean) + 0.15 * 0.15), 1e-12));
    const struct vh_fruit_params alone = truss(0.70, 0.0);
    cr_assert(epsilon_eq(dbl, vh_fruit_mass_cv(&alone, 1.0), 0.0, 1e-12));
    cr_assert(lt(dbl, vh_fruit_mass_cv(&alone, 2.0), vh_fruit_mass_cv(&alone, 5.0)));
}
