/* Lean and lower against examples worked by hand from plane geometry (no paper is needed for it:
 * sines and tangents of 45 and 90 degrees, and a right triangle of 3-4-5). */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_lower.h"

/* wire 290, clearance 20, base 25, least angle 45 degrees */
static const struct vh_lower_policy house = {.given = true,
                                             .wire_cm = 290.0,
                                             .head_clearance_cm = 20.0,
                                             .laid_height_cm = 25.0,
                                             .lean_deg = 45.0,
                                             .truss_hang_cm = 20.0};

Test(lower, a_long_stem_is_laid_and_leans_at_its_least_angle)
{
    /* stem 1000: the hanging part is (290 - 20 - 25)/sin 45 = 245 sqrt 2 = 346.48, so 653.52 are
     * laid; string 653.52 + 265 sqrt 2 (374.77) = 1028.28; hook 653.52 + 265 from the root; let out
     * since the upright stem's 265 of string: 763.28 */
    const struct vh_lower_state s = vh_lower_state_for_stem(&house, 1000.0, 20.0);

    cr_expect(epsilon_eq(dbl, s.laid_cm, 653.52, 0.005));
    cr_expect(epsilon_eq(dbl, vh_lower_lean_deg(s), 45.0, 1e-9));
    cr_expect(epsilon_eq(dbl, vh_lower_string_cm(&house, s), 1028.284, 0.0005));
    cr_expect(epsilon_eq(dbl, vh_lower_hook_cm(&house, s), 918.52, 0.005));
    cr_expect(epsilon_eq(dbl, vh_lower_string_cm(&house, s) - 265.0, 763.284, 0.0005));
    cr_expect(epsilon_eq(dbl, vh_lower_head_cm(&house, s, 1000.0), 270.0, 1e-9));
}

Test(lower, a_middling_stem_leans_with_nothing_laid)
{
    /* stem 306.25 = 245 * 5/4: sin = 4/5, cos = 3/5. String 265 * 5/4 = 331.25, hook 265 * 3/4 =
     * 198.75. A truss that joins at 200 hangs at 25 + 160 - 20 = 165. */
    const struct vh_lower_state s = vh_lower_state_for_stem(&house, 306.25, 20.0);

    cr_expect(epsilon_eq(dbl, s.laid_cm, 0.0, 0.0));
    cr_expect(epsilon_eq(dbl, s.sin_lean, 0.8, 1e-12));
    cr_expect(epsilon_eq(dbl, vh_lower_string_cm(&house, s), 331.25, 1e-9));
    cr_expect(epsilon_eq(dbl, vh_lower_hook_cm(&house, s), 198.75, 1e-9));
    cr_expect(epsilon_eq(dbl, vh_lower_fruit_cm(&house, s, 200.0), 165.0, 1e-9));
    cr_expect(epsilon_eq(dbl, vh_lower_lean_deg(s), 53.130102, 1e-6)); /* asin 0.8 */
}

Test(lower, a_short_stem_stands_upright)
{
    const struct vh_lower_state s = vh_lower_state_for_stem(&house, 180.0, 20.0);

    cr_expect(epsilon_eq(dbl, vh_lower_string_cm(&house, s), 265.0, 1e-9));
    cr_expect(epsilon_eq(dbl, vh_lower_hook_cm(&house, s), 0.0, 1e-9));
    cr_expect(epsilon_eq(dbl, vh_lower_head_cm(&house, s, 180.0), 205.0, 1e-9));
}

/* The leaning phase through the plan, visit by visit. The stem grows 1 cm a day from 230 on; visits
 * every 7 days from day 0; next visit's stem 237, 244, 251, 258 ... Upright up to 245: nothing to
 * let out on days 0 and 7 (next stems 237 and 244). Day 14, next 258... by hand with S = 265
 * Ln/245: day  7: Ln 244 -> 265              nothing day 14: Ln 251 -> 271.49           6.49 day
 * 21: Ln 258 -> 279.06           7.57 day 28: Ln 265 -> 286.63           7.57 */
Test(lower, a_plan_through_the_leaning_phase)
{
    enum { DAYS = 36 };
    static struct vh_work_day day[DAYS];
    struct vh_policy policy = {.lower = house};
    const double let_out[] = {6.4898, 7.5714, 7.5714}; /* 265 (251 - 245)/245, then 265 7/245 */
    struct vh_lower_plan plan;

    policy.lower.visit.every_d = 7;
    policy.lower.least_cm = 5.0;
    policy.lower.most_cm = 40.0;
    policy.lower.string_cm = 1200.0;
    policy.lower.knots_cm = 50.0;
    for (int d = 0; d < DAYS; d++)
        day[d] = (struct vh_work_day){.stem_cm = 230.0 + d, .leaves = 16.0};
    const struct vh_work_series series = {.policy = &policy, .days = DAYS, .day = day};
    cr_assert(eq(int, vh_lower_plan(&series, &plan), VH_OK));
    cr_assert(eq(sz, plan.visits, 3));
    for (size_t i = 0; i < 3; i++) {
        cr_expect(eq(sz, plan.visit[i].day, 14 + 7 * i));
        cr_expect(epsilon_eq(dbl, plan.visit[i].let_out_cm, let_out[i], 5e-5));
        cr_expect(epsilon_eq(dbl, plan.visit[i].state.laid_cm, 0.0, 0.0));
        cr_expect(eq(uint, plan.visit[i].breach, 0U));
    }
    /* the last looks to the stem of day 35, 265: sin = 245/265, string left 1200 - 286.63 - 50 */
    cr_expect(epsilon_eq(dbl, plan.visit[2].state.sin_lean, 245.0 / 265.0, 1e-12));
    cr_expect(epsilon_eq(dbl, plan.visit[2].string_left_cm, 863.37, 0.005));
    vh_lower_plan_clear(&plan);
}
