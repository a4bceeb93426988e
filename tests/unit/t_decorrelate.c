/* Entries that stray together are turned into independent numbers: by hand, from a covariance of
 * three. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "learn_parts.h"

#define NEAR 1e-12

/* Two picks of neighbouring weeks, middles 7 days apart, so that half of their straying is shared;
 * and a stem. With a straying of 2 x 0.3 of what is picked, of 10 and 20 kg, and own errors of 3
 * and 4 kg: 45 = 10^2 x 0.36 + 9,  160 = 20^2 x 0.36 + 16,  36 = 10 x 20 x 0.36 / 2. */
Test(decorrelate, picks_of_one_planting_are_held_against_those_before)
{
    const struct vh_parameters parameters = {
        .futures = {.stray_sd = 0.3, .stray_d = 7.0 / log(2.0)}};
    const struct vh_scenario scenario = {.parameters = &parameters};
    struct vh_learn_value value[] = {
        {.item = VH_RECORD_PICKED_KG, .from = 100, .until = 106},
        {.item = VH_RECORD_PICKED_FRUITS, .from = 107, .until = 113},
        {.item = VH_RECORD_STEM_CM, .from = 113, .until = 113},
    };
    double unsteady[] = {2.0}, size[] = {10.0, 20.0, 0.0}, sd[] = {3.0, 4.0, 5.0};
    double observed[] = {6.0, 10.0, -5.0}, predicted[] = {0.0, 1.0, 0.0, 1.0, 0.0, 10.0};
    struct vh_learning l = {.scenario = &scenario,
                            .past = {.value = value, .values = 3},
                            .members = 2,
                            .observed = observed,
                            .predicted = predicted,
                            .sd = sd,
                            .size = size,
                            .unsteady = unsteady};
    const double left =
        sqrt(160.0 - 36.0 * 36.0 / 45.0); /* of the second, once the first is known */
    const double want_observed[] = {6.0 / sqrt(45.0), (10.0 - 36.0 / 45.0 * 6.0) / left, -1.0};
    const double want_predicted[] = {0.0, 1.0 / left, 0.0, 1.0 / sqrt(45.0), -36.0 / 45.0 / left,
                                     2.0};

    cr_assert(eq(int, vh_learn_decorrelate(&l), VH_OK));
    for (size_t i = 0; i < 3; i++) {
        cr_expect(epsilon_eq(dbl, observed[i], want_observed[i], NEAR), "observed %zu", i);
        cr_expect(epsilon_eq(dbl, sd[i], 1.0, 0.0));
    }
    for (size_t i = 0; i < 6; i++)
        cr_expect(epsilon_eq(dbl, predicted[i], want_predicted[i], NEAR), "predicted %zu", i);
}

Test(decorrelate, picks_of_two_plantings_have_nothing_in_common)
{
    const struct vh_parameters parameters = {.futures = {.stray_sd = 0.3, .stray_d = 20.0}};
    const struct vh_scenario scenario = {.parameters = &parameters};
    struct vh_learn_value value[] = {
        {.item = VH_RECORD_PICKED_KG, .planting = 0, .from = 100, .until = 106},
        {.item = VH_RECORD_PICKED_KG, .planting = 1, .from = 100, .until = 106},
    };
    double unsteady[] = {1.0, 2.0}, size[] = {10.0, 10.0}, sd[] = {4.0, 8.0},
           observed[] = {10.0, 20.0};
    struct vh_learning l = {.scenario = &scenario,
                            .past = {.value = value, .values = 2},
                            .observed = observed,
                            .sd = sd,
                            .size = size,
                            .unsteady = unsteady};

    cr_assert(eq(int, vh_learn_decorrelate(&l), VH_OK));
    cr_expect(epsilon_eq(dbl, observed[0], 10.0 / 5.0, NEAR));  /* 10^2 x 0.09 + 16 = 25 */
    cr_expect(epsilon_eq(dbl, observed[1], 20.0 / 10.0, NEAR)); /* 10^2 x 0.36 + 64 = 100 */
}
