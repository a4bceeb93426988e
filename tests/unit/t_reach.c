/* What houses reach: bounds by hand from the rows that the test gives itself. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include "vh_reach.h"

static const struct vh_habit_params habit = {
    .reach_low_kg_m2_week = 0.4, .reach_high_kg_m2_week = 1.6, .reach_high_kg_stem_week = 0.6};

Test(reach, the_lower_bound_counts_the_weeks_and_the_upper_one_the_peak_besides)
{
    struct vh_reach r = {.weeks = 0.0};

    vh_reach_bounds(&r, &habit, 20.0, 4.0, 5.0, 1.0);
    cr_assert(epsilon_eq(dbl, r.weeks, 20.0, 1e-12));
    cr_assert(epsilon_eq(dbl, r.low_kg_m2, 0.4 * 20.0, 1e-12));
    cr_assert(epsilon_eq(dbl, r.high_kg_m2, 1.6 * 24.0, 1e-12));
    cr_assert(epsilon_eq(dbl, r.high_kg_plant, 1.6 * 24.0 / 5.0, 1e-12));
}

Test(reach, few_stems_bound_the_floor_and_a_second_head_lifts_that_bound)
{
    struct vh_reach one = {.weeks = 0.0}, two = {.weeks = 0.0};

    vh_reach_bounds(&one, &habit, 20.0, 4.0, 2.0, 1.0);
    vh_reach_bounds(&two, &habit, 20.0, 4.0, 2.0, 2.0);
    cr_assert(epsilon_eq(dbl, one.high_kg_plant, 0.6 * 24.0, 1e-12));
    cr_assert(epsilon_eq(dbl, one.high_kg_m2, 0.6 * 24.0 * 2.0, 1e-12));
    cr_assert(epsilon_eq(dbl, two.high_kg_m2, 1.6 * 24.0, 1e-12)); /* 2.4 a week by stems */
}

static struct vh_season season_of(const struct vh_planting *p, struct vh_season_day *day,
                                  size_t days, double fruits, double g)
{
    for (size_t d = 0; d < days; d++)
        day[d] =
            (struct vh_season_day){.stems = p->plants, .picked = {.fruits = fruits, .fresh_g = g}};
    return (struct vh_season){.planting = p, .days = days, .day = day};
}

Test(reach, a_season_is_judged_by_its_own_weeks)
{
    static const struct vh_crop crop = {.habit = {.reach_low_kg_m2_week = 0.4,
                                                  .reach_high_kg_m2_week = 1.6,
                                                  .reach_high_kg_stem_week = 0.6}};
    const struct vh_planting p = {.crop = &crop, .plants = 10, .plants_per_m2 = 2.0};
    const struct vh_house house = {.plantings = 1};
    struct vh_season_day day[70];
    /* a stem a day: 7 * 2 * g / 1000 kg m-2 a week; 14 g 0.2, 70 g 1.0, 140 g 2.0 */
    const struct {
        double fruits, g;
        size_t days;
        enum vh_reach_word word;
    } want[] = {{1, 14, 70, VH_REACH_LITTLE}, {1, 70, 70, VH_REACH_USUAL},
                {1, 140, 70, VH_REACH_MUCH},  {1, 14, 21, VH_REACH_USUAL},
                {0, 0, 70, VH_REACH_NOTHING}, {0.01, 1, 70, VH_REACH_NOTHING},
                {1, 119, 70, VH_REACH_USUAL}, {1, 121, 70, VH_REACH_MUCH}};
    /* 10 weeks and 4 of peak by stems: 0.6 * 14 = 8.4 kg a plant = 120 g a day over 70 days */

    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        const struct vh_season s = season_of(&p, day, want[i].days, want[i].fruits, want[i].g);
        struct vh_harvest harvest;
        cr_assert(eq(int, vh_harvest_of(&house, 0, &s, &harvest), VH_OK));
        const struct vh_reach r = vh_reach_of_season(&s, &harvest, 4.0);
        vh_harvest_clear(&harvest);
        cr_expect(eq(int, (int)r.word, (int)want[i].word), "case %zu", i);
        cr_expect(epsilon_eq(dbl, r.kg_plant, want[i].g * (double)want[i].days / 1000.0, 1e-9));
    }
}
