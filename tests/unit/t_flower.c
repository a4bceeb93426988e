/* What lets a flower set: every share by hand, from numbers that the test gives itself. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_flower.h"

#define NEAR 1e-12

Test(flower, the_pollen_remembers_the_days_before_it_opens_by_a_tent_of_weights)
{
    const struct vh_flower_params p = {.window_d = 4, .peak_d = 2, .before_d = 2, .after_d = 4};
    const double mean_c[] = {10, 20, 30, 40, 50};

    /* weights of today and the days before: 1 - 2/4, 1 - 1/4, 1, 1 - 1/2, 1 - 2/2 */
    cr_expect(epsilon_eq(dbl, vh_flower_pollen_mean_c(&p, mean_c, 5),
                         (0.5 * 10 + 0.75 * 20 + 1.0 * 30 + 0.5 * 40) / 2.75, NEAR));
    /* days that are not known are as the last that is */
    cr_expect(epsilon_eq(dbl, vh_flower_pollen_mean_c(&p, mean_c, 2),
                         (0.5 * 10 + 0.75 * 20 + 1.0 * 20 + 0.5 * 20) / 2.75, NEAR));
}

Test(flower, the_share_by_temperature_runs_straight_between_its_five_points)
{
    const struct vh_flower_params p = {.t1_c = 10,
                                       .t2_c = 15,
                                       .t3_c = 20,
                                       .t4_c = 25,
                                       .t5_c = 30,
                                       .f1 = 0.05,
                                       .f2 = 0.5,
                                       .f3 = 1.0,
                                       .f4 = 0.6,
                                       .f5 = 0.1};
    const double want[][2] = {{0, 0.05},    {10, 0.05}, {12.5, 0.275}, {15, 0.5},
                              {17.5, 0.75}, {20, 1.0},  {22.5, 0.8},   {25, 0.6},
                              {27.5, 0.35}, {30, 0.1},  {45, 0.1}};

    for (size_t i = 0; i < sizeof want / sizeof *want; i++)
        cr_expect(epsilon_eq(dbl, vh_flower_temperature_share(&p, want[i][0]), want[i][1], NEAR),
                  "%g degC", want[i][0]);
}

Test(flower, smaller_fruit_hangs_in_larger_numbers_by_a_power_of_its_mass)
{
    const struct vh_flower_params p = {.mass_exponent = -0.5}, none = {.mass_exponent = 0.0};

    cr_expect(epsilon_eq(dbl, vh_flower_many(&p, 0.25), 2.0, NEAR));
    cr_expect(epsilon_eq(dbl, vh_flower_many(&p, 4.0), 0.5, NEAR));
    cr_expect(eq(dbl, vh_flower_many(&p, 1.0), 1.0));
    cr_expect(eq(dbl, vh_flower_many(&none, 0.25), 1.0));
}

Test(flower, what_is_poorly_seeded_grows_less_down_to_a_floor)
{
    const struct vh_flower_params p = {.t3_c = 22,
                                       .seeded_full = 0.8,
                                       .seeded_from = 0.3,
                                       .seeded_least = 0.35,
                                       .seeded_hot_from = 0.4};
    const double cool[][2] = {
        {1.0, 1.0}, {0.8, 1.0}, {0.55, 1.0 - 0.65 / 2}, {0.3, 0.35}, {0.0, 0.35}};
    const double hot[][2] = {
        {1.0, 1.0}, {0.8, 1.0}, {0.6, 1.0 - 0.65 / 2}, {0.4, 0.35}, {0.0, 0.35}};

    for (size_t i = 0; i < sizeof cool / sizeof *cool; i++)
        cr_expect(epsilon_eq(dbl, vh_flower_seeded_share(&p, cool[i][0], 22.0), cool[i][1], NEAR),
                  "cool, %g", cool[i][0]);
    for (size_t i = 0; i < sizeof hot / sizeof *hot; i++)
        cr_expect(epsilon_eq(dbl, vh_flower_seeded_share(&p, hot[i][0], 22.5), hot[i][1], NEAR),
                  "hot, %g", hot[i][0]);
}

Test(flower, a_hot_day_costs_set_from_one_temperature_to_another)
{
    const struct vh_flower_params p = {.day_full_c = 26, .day_least_c = 30, .day_least = 0.4};
    const double want[][2] = {{15, 1.0}, {26, 1.0}, {28, 0.7}, {29, 0.55}, {30, 0.4}, {40, 0.4}};

    for (size_t i = 0; i < sizeof want / sizeof *want; i++)
        cr_expect(epsilon_eq(dbl, vh_flower_day_share(&p, want[i][0]), want[i][1], NEAR), "%g degC",
                  want[i][0]);
}

Test(flower, supply_lets_set_by_a_rounded_step_or_in_proportion)
{
    const struct vh_flower_params step = {
        .set_by = VH_SET_BY_THRESHOLD, .set_threshold = 0.6, .set_width = 0.1};
    const struct vh_flower_params share = {.supply_full = 0.8};

    cr_expect(epsilon_eq(dbl, vh_flower_supply_share(&step, 0.6), 0.5, NEAR));
    cr_expect(epsilon_eq(dbl, vh_flower_supply_share(&step, 0.6 + 0.1 * log(3.0)), 0.75, NEAR));
    cr_expect(epsilon_eq(dbl, vh_flower_supply_share(&step, 0.6 - 0.1 * log(3.0)), 0.25, NEAR));
    cr_expect(epsilon_eq(dbl, vh_flower_supply_share(&share, 0.4), 0.5, NEAR));
    cr_expect(epsilon_eq(dbl, vh_flower_supply_share(&share, 0.8), 1.0, NEAR));
    cr_expect(epsilon_eq(dbl, vh_flower_supply_share(&share, 3.0), 1.0, NEAR));
}

Test(flower, the_hazard_of_dropping_falls_with_supply)
{
    const struct vh_flower_params p = {.abort_per_cd = 0.02, .abort_mid = 0.5, .abort_width = 0.1};

    cr_expect(epsilon_eq(dbl, vh_flower_drop_hazard(&p, 0.5), 0.01, NEAR));
    cr_expect(epsilon_eq(dbl, vh_flower_drop_hazard(&p, 0.5 + 0.1 * log(3.0)), 0.005, NEAR));
    cr_expect(epsilon_eq(dbl, vh_flower_drop_hazard(&p, 0.5 - 0.1 * log(3.0)), 0.015, NEAR));
}
