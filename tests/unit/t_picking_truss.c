/* Which truss is being picked, from a plant by hand: the lowest that still carries fruit. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include "vh_plant_state.h"

enum { TRUSSES = 4 };

static double picking(const double fruits[TRUSSES], const double picked_share[TRUSSES],
                      int first_on)
{
    double on_truss[TRUSSES], picked[TRUSSES];
    int trusses = TRUSSES;
    struct vh_plant p = {.lanes = 1,
                         .trusses = &trusses,
                         .first_on = &first_on,
                         .fruits = on_truss,
                         .picked_share = picked};

    for (int t = 1; t <= TRUSSES; t++) {
        on_truss[vh_at(&p, t, 0)] = fruits[t - 1];
        picked[vh_at(&p, t, 0)] = picked_share[t - 1];
    }
    return vh_plant_picking_truss(&p, 0);
}

Test(picking_truss, what_is_picked_to_the_end_or_bare_is_passed_by)
{
    static const struct {
        double fruits[TRUSSES], picked_share[TRUSSES], truss;
        int first_on;
    } cases[] = {
        {{4, 4, 4, 4}, {0, 0, 0, 0}, 1.0, 1},
        {{4, 4, 4, 4}, {0.25, 0, 0, 0}, 1.25, 1},
        {{4, 4, 4, 4}, {1, 0.4, 0, 0}, 2.4, 1},        /* to the end */
        {{4, 4, 4, 4}, {1 - 1e-7, 0.4, 0, 0}, 2.4, 1}, /* but for a rounding */
        {{4, 4, 4, 4}, {0.999, 0.4, 0, 0}, 1.999, 1},
        {{0, 4, 4, 4}, {0, 0, 0, 0}, 2.0, 1}, /* bare */
        {{4, 4, 4, 4}, {0, 0.4, 0, 0}, 2.4, 2},
        {{4, 4, 4, 4}, {1, 1, 1, 1}, 5.0, 1}, /* none is left: the next to come */
    };

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        cr_expect(epsilon_eq(dbl,
                             picking(cases[i].fruits, cases[i].picked_share, cases[i].first_on),
                             cases[i].truss, 1e-12),
                  "case %zu", i);
}
