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
 * every 7 days from day 0. Upright up to a stem of 245, so nothing is let out on days 0 and 7,
 * whose next stems are 237 and 244. Then the string is 265 Ln/245: day 14: next stem 251, string
 * 271.4898, let out 6.4898 day 21: next stem 258, string 279.0612, let out 7.5714 day 28: next stem
 * 265, string 286.6327, let out 7.5714
 */
Test(lower, a_plan_through_the_leaning_phase)
{
    enum { DAYS = 36 };
    static struct vh_work_day day[DAYS];
    struct vh_policy policy = {.lower = house};
    const double let_out[] = {6.4898, 7.5714, 7.5714}; /* 265 6/245, then 265 7/245 */
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

/* A missed visit. Lean 45 degrees, so string = stem + 20 sqrt 2 (28.28) for the clearance, and
 * stem for the wire itself. The stem grows 8 cm a day from 500 on: string 528.28 at the start.
 *     day  0: next stem 556, string 584.28, let out 56
 *     day  7: left undone
 *     day 14: next stem 668, string 696.28 wanted: 112, twice `most`; 60 reach 644.28, less than
 *             the 668 that keep the head under the wire: first of two passes, 60. Laid 644.28 -
 *             374.77 = 269.52; tomorrow's stem 620 has its head at 25 + 350.48/sqrt 2 = 272.83
 *     day 15: the rest, 52
 *     day 21: next stem 724, let out 56 as ever
 */
Test(lower, a_missed_visit_is_made_up_for_in_two_passes)
{
    enum { DAYS = 29 };
    static struct vh_work_day day[DAYS];
    struct vh_policy policy = {.lower = house};
    struct vh_done_task undone = {7, VH_TASK_LOWER, 0.0};
    const struct vh_done done = {.task = &undone, .tasks = 1, .any = true, .last_day = 7};
    const size_t on[] = {0, 14, 15, 21};
    const double let_out[] = {56.0, 60.0, 52.0, 56.0};
    struct vh_lower_plan plan;

    policy.lower.visit.every_d = 7;
    policy.lower.least_cm = 5.0;
    policy.lower.most_cm = 60.0;
    policy.lower.string_cm = 1200.0;
    for (int d = 0; d < DAYS; d++)
        day[d] = (struct vh_work_day){.stem_cm = 500.0 + 8.0 * d, .leaves = 16.0};
    const struct vh_work_series series = {
        .policy = &policy, .done = &done, .days = DAYS, .day = day};
    cr_assert(eq(int, vh_lower_plan(&series, &plan), VH_OK));
    cr_assert(ge(sz, plan.visits, 4));
    for (size_t i = 0; i < 4; i++) {
        cr_expect(eq(sz, plan.visit[i].day, on[i]));
        cr_expect(epsilon_eq(dbl, plan.visit[i].let_out_cm, let_out[i], 1e-9));
        cr_expect(eq(uint, plan.visit[i].breach, i == 1 ? (unsigned)VH_LOWER_FIRST_PASS : 0U));
    }
    cr_expect(epsilon_eq(dbl, vh_lower_head_cm(&house, plan.state[14], 620.0), 272.83, 0.005));
    vh_lower_plan_clear(&plan);
}

/* The same stem with a truss that opened 60 days before, at 20 cm, and hangs too low already until
 * it is picked on day 13: nothing can be let out, and on day 12 the head is at
 * 25 + (596 - 153.52)/sqrt 2 = 337.9, past the wire. Looked at on that day, which is no visit,
 * there is none on it or the day after, and the plan goes on as if nobody had looked: what was
 * missed on day 7 is made up for in two passes on days 14 and 15, what was not goes at once on
 * day 14. */
static void looked_at_in_vain(const struct vh_done *done, bool two_passes)
{
    enum { DAYS = 29 };
    static struct vh_work_day day[DAYS];
    struct vh_policy policy = {.lower = house};
    const struct vh_truss_view truss = {.opened_d = -60.0, .kept = 3.0};
    struct vh_work_series series = {.policy = &policy,
                                    .done = done,
                                    .days = DAYS,
                                    .day = day,
                                    .truss = &truss,
                                    .trusses = 1,
                                    .standing = true};
    struct vh_lower_plan plan, unseen;
    bool second = false;

    policy.lower.visit.every_d = 7;
    policy.lower.least_cm = 5.0;
    policy.lower.most_cm = 20.0;
    policy.lower.string_cm = 1200.0;
    policy.lower.fruit_floor_cm = 200.0; /* a truss 20 cm above the base never hangs so high */
    for (int d = 0; d < DAYS; d++)
        day[d] = (struct vh_work_day){
            .stem_cm = 500.0 + 8.0 * d, .leaves = 16.0, .picking_truss = d < 13 ? 1.0 : 3.0};
    series.today = 1;
    cr_assert(eq(int, vh_lower_plan(&series, &unseen), VH_OK));
    series.today = 12;
    cr_assert(eq(int, vh_lower_plan(&series, &plan), VH_OK));
    cr_assert(eq(sz, plan.visits, unseen.visits));
    for (size_t i = 0; i < plan.visits; i++) {
        cr_expect(eq(sz, plan.visit[i].day, unseen.visit[i].day));
        cr_expect(eq(dbl, plan.visit[i].let_out_cm, unseen.visit[i].let_out_cm));
        cr_expect(eq(uint, plan.visit[i].breach, unseen.visit[i].breach));
        second = second || plan.visit[i].day == 15;
    }
    cr_expect(second == two_passes);
    vh_lower_plan_clear(&plan);
    vh_lower_plan_clear(&unseen);
}

Test(lower, heads_past_the_wire_on_a_day_without_room_for_fruit_wait_for_the_next_visit)
{
    struct vh_done_task undone = {7, VH_TASK_LOWER, 0.0};
    const struct vh_done done = {.task = &undone, .tasks = 1, .any = true, .last_day = 7};

    looked_at_in_vain(&done, true);
    looked_at_in_vain(NULL, false);
}

/* 300 cm of stem at 45 degrees rise 212.13; with 20 for the floor, 20 for the truss, 20 for the
 * head: 272.13. Under 290 there are 230 between them: 287.5 cm of stem fit at asin 0.8, and 1000 cm
 * at no 15 degrees (they would rise 258.8). */
Test(lower, a_long_fruit_zone_asks_for_a_higher_wire_or_a_flatter_lean)
{
    struct vh_lower_policy p = house;

    p.fruit_floor_cm = 20.0;
    cr_expect(epsilon_eq(dbl, vh_lower_wire_needed_cm(&p, 300.0), 272.13, 0.005));
    cr_expect(epsilon_eq(dbl, vh_lower_lean_needed_deg(&p, 287.5), 53.130102, 1e-6));
    cr_expect(isnan(vh_lower_lean_needed_deg(&p, 1000.0)));
}

/* A stem of 400 cm on the first evening that grows 3 cm a day, the flower 20 cm below the tip. A
 * truss that opened 30 days before joins at 400 - 90 - 20; one at noon of day 10, when the stem
 * went from 427 to 430, at 428.5 - 20; one of unknown age at the base. */
Test(lower, trusses_of_a_standing_crop_lie_as_far_down_as_the_stem_grew_since)
{
    enum { DAYS = 30 };
    static struct vh_work_day day[DAYS];
    const struct vh_truss_view truss[] = {
        {.opened_d = NAN}, {.opened_d = -30.0}, {.opened_d = 10.5}};
    struct vh_policy policy = {.lower = house};

    policy.lower.flower_below_head_cm = 20.0;
    for (int d = 0; d < DAYS; d++)
        day[d] = (struct vh_work_day){.stem_cm = 400.0 + 3.0 * d};
    const struct vh_work_series series = {.policy = &policy,
                                          .days = DAYS,
                                          .day = day,
                                          .truss = truss,
                                          .trusses = 3,
                                          .standing = true};
    cr_expect(epsilon_eq(dbl, vh_lower_joint_cm(&series, 0), 0.0, 0.0));
    cr_expect(epsilon_eq(dbl, vh_lower_joint_cm(&series, 1), 290.0, 1e-9));
    cr_expect(epsilon_eq(dbl, vh_lower_joint_cm(&series, 2), 408.5, 1e-9));
}
