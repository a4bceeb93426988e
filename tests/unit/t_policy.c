/* What the grower has decided, and what that makes due on a day. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>

#include "vh_due.h"
#include "vh_flower.h"

#define MONDAY 20647 /* 2026-07-13 */

Test(policy, visits_every_few_days_enclose_a_day)
{
    const struct vh_rhythm every3 = {.every_d = 3};
    for (int64_t d = 0; d < 30; d++)
        cr_assert(eq(long, (long)vh_rhythm_between_d(&every3, MONDAY, MONDAY + d), 3));
    cr_assert(eq(long, (long)vh_rhythm_between_d(&every3, MONDAY, MONDAY - 1), -1));
}

Test(policy, visits_on_weekdays_enclose_a_day)
{
    const struct vh_rhythm mon_thu = {.by_weekday = true, .weekday = {true, false, false, true}};
    const long between[7] = {3, 3, 3, 4, 4, 4, 4};
    for (int d = 0; d < 7; d++)
        cr_assert(
            eq(long, (long)vh_rhythm_between_d(&mon_thu, MONDAY, MONDAY + 14 + d), between[d]));
    const struct vh_rhythm only_sat = {.by_weekday = true, .weekday = {[5] = true}};
    for (int d = 0; d < 7; d++)
        cr_assert(eq(long, (long)vh_rhythm_between_d(&only_sat, MONDAY, MONDAY + d), 7));
}

/* Receptive for two days: common practice, no source (trade leaflet). */
/* A week's pause in a rhythm that asked for a day more, which the pause then holds too. */
Test(policy, the_last_visit_is_the_last_day_that_has_one)
{
    const int64_t today = MONDAY + 30, d_per_week = 7;
    const struct vh_rhythm was = {.every_d = 7, .also = today},
                           none = {.before = &was, .from = today};
    struct vh_rhythm later = was, put_off = was;
    later.late_d = 7;
    later.also = today + d_per_week;
    later.before = &none;
    later.from = today + d_per_week;
    put_off.before = &later;
    put_off.from = today + 2 * d_per_week;
    const struct vh_rhythm *const rhythm[] = {&was, &none, &later, &put_off};

    for (size_t i = 0; i < sizeof rhythm / sizeof rhythm[0]; i++)
        for (int64_t day = MONDAY; day < MONDAY + 80; day++)
            for (int64_t oldest = day - 20; oldest <= day; oldest++) {
                int64_t last = day;
                while (last >= oldest && !vh_rhythm_due(rhythm[i], MONDAY, last))
                    last--;
                cr_assert(
                    eq(long, (long)vh_rhythm_last_due(rhythm[i], MONDAY, day, oldest), (long)last));
            }
}

Test(policy, rare_visits_reach_a_part_of_the_flowers)
{
    const struct vh_flower_params f = {.receptive_d = 2.0};
    cr_assert(epsilon_eq(dbl, vh_flower_visited_share(&f, 1.0), 1.0, 0.0));
    cr_assert(epsilon_eq(dbl, vh_flower_visited_share(&f, 2.0), 1.0, 0.0));
    cr_assert(epsilon_eq(dbl, vh_flower_visited_share(&f, 4.0), 0.5, 1e-15));
    cr_assert(epsilon_eq(dbl, vh_flower_visited_share(&f, 7.0), 2.0 / 7.0, 1e-15));
}

Test(policy, the_last_rule_that_fits_holds)
{
    struct vh_fruits_rule rule[] = {
        {1, 0, 3.0, VH_THIN_PEA, INT64_MIN, INT64_MAX},
        {1, 2, 4.0, VH_THIN_BUD, INT64_MIN, INT64_MAX},
        {1, 0, 5.0, VH_THIN_MARBLE, MONDAY, MONDAY + 6},
    };
    const struct vh_policy p = {.fruits = rule, .fruits_rules = 3};
    enum vh_thin_stage at;
    cr_assert(epsilon_eq(dbl, vh_policy_fruits_kept(&p, 1, MONDAY - 1, &at), 4.0, 0.0));
    cr_assert(eq(int, (int)at, (int)VH_THIN_BUD));
    cr_assert(epsilon_eq(dbl, vh_policy_fruits_kept(&p, 7, MONDAY - 1, &at), 3.0, 0.0));
    cr_assert(epsilon_eq(dbl, vh_policy_fruits_kept(&p, 7, MONDAY + 6, &at), 5.0, 0.0));
    cr_assert(epsilon_eq(dbl, vh_policy_fruits_kept(&p, 7, MONDAY + 7, &at), 3.0, 0.0));
    const struct vh_policy none = {.fruits_rules = 0};
    cr_assert(isinf(vh_policy_fruits_kept(&none, 7, MONDAY, &at)) != 0);
}

Test(policy, heads_follow_their_dates)
{
    struct vh_head_change change[] = {{MONDAY, 2.0, 0.0}, {MONDAY + 30, 1.5, 0.0}};
    const struct vh_policy p = {.heads = change, .head_changes = 2};
    cr_assert(epsilon_eq(dbl, vh_policy_heads(&p, 1.0, MONDAY - 1), 1.0, 0.0));
    cr_assert(epsilon_eq(dbl, vh_policy_heads(&p, 1.0, MONDAY), 2.0, 0.0));
    cr_assert(epsilon_eq(dbl, vh_policy_heads(&p, 1.0, MONDAY + 40), 1.5, 0.0));
}
