/* What was really done in the plan's place, as the plant then feels it. */
#include "../reference/plant_trial.h"
#include "vh_done.h"
#include "vh_due.h"

#define MONDAY 20647 /* 2026-07-13 */

static void near(double got, double wanted)
{
    cr_expect(fabs(got - wanted) < 1e-12, "%.15g, not %.15g", got, wanted);
}

struct done_case {
    struct vh_crop crop;
    struct vh_plant *plant;
    struct vh_policy policy;
};

static struct done_case done_case(const struct vh_done *done)
{
    struct done_case c = {.policy = {.suckers = {{.every_d = 7}, 0.1},
                                     .leaf_visit = {.every_d = 7},
                                     .leaves_keep = 5.0,
                                     .leaves_most_per_visit = 3.0,
                                     .pollination = VH_POLLINATION_HAND,
                                     .pollination_visit = {.every_d = 2},
                                     .has_top = true,
                                     .top_on = MONDAY + 14,
                                     .done = done}};
    const struct vh_factors one = {1, 1, 1, 1, 1, 1, 1};

    c.crop = trial_read_crop("tomato-large");
    const struct vh_plant_setup setup = {.crop = &c.crop,
                                         .plants_per_m2 = 2.5,
                                         .heads_per_plant = 1.0,
                                         .usual_fruit_g = 200.0,
                                         .seedling_leaves = 8.0,
                                         .pick_stage = 1.0,
                                         .breaker_stage = 0.89};
    c.plant = vh_plant_create(&setup, &one, 1, 10);
    cr_assert(c.plant);
    return c;
}

static struct vh_acts acts_on(const struct vh_done *done, int64_t day)
{
    struct done_case c = done_case(done);
    const struct vh_acts acts =
        vh_policy_acts(&c.policy, &c.crop, c.plant, 0, MONDAY, MONDAY + day, 1.0);
    vh_plant_free(c.plant);
    return acts;
}

Test(done_work, suckers_come_off_at_visits_but_for_those_overlooked)
{
    near(acts_on(NULL, 7).suckers_pulled, 0.9);
    near(acts_on(NULL, 8).suckers_pulled, 0.0);
}

Test(done_work, work_left_undone_or_done_in_part_is_so_for_the_plant)
{
    struct vh_done_task task[] = {
        {MONDAY + 7, VH_TASK_SUCKER, 0.0}, {MONDAY + 7, VH_TASK_LEAF, 0.5},
        {MONDAY + 9, VH_TASK_SUCKER, 0.6}, {MONDAY + 9, VH_TASK_LEAF, 1.0},
        {MONDAY + 12, VH_TASK_TOP, 1.0},   {MONDAY + 14, VH_TASK_TOP, 0.0}};
    const struct vh_done done = {.task = task, .tasks = 6};

    near(acts_on(&done, 7).suckers_pulled, 0.0);
    near(acts_on(&done, 9).suckers_pulled, 0.54);
    near(acts_on(&done, 14).suckers_pulled, 0.9);
    near(acts_on(NULL, 7).leaves_off, 3.0);
    near(acts_on(&done, 7).leaves_off, 1.5);
    near(acts_on(&done, 9).leaves_off, 3.0);
    cr_assert(acts_on(NULL, 14).top);
    cr_assert(!acts_on(NULL, 12).top);
    cr_assert(acts_on(&done, 12).top);
    cr_assert(!acts_on(&done, 14).top);
}

/* Visits every 2 d, flowers receptive for 2 d: all reached. One missed: 4 d between, half. One on
 * half of the stems: between the two. */
Test(done_work, a_missed_visit_reaches_no_flowers)
{
    struct vh_done_task task[] = {{MONDAY + 10, VH_TASK_POLLINATE, 0.0}};
    const struct vh_done done = {.task = task, .tasks = 1};

    near(acts_on(NULL, 8).flowers_reached, 1.0);
    near(acts_on(&done, 4).flowers_reached, 1.0);
    for (int64_t d = 8; d < 12; d++)
        near(acts_on(&done, d).flowers_reached, 0.5);
    task[0].share = 0.5;
    near(acts_on(&done, 8).flowers_reached, 0.75);
    task[0].share = 0.95; /* the few stems left out wait for the next visit too */
    near(acts_on(&done, 8).flowers_reached, 0.95 + 0.05 * 0.5);
}

Test(done_work, fruits_counted_after_taking_off_hold_for_their_truss)
{
    struct vh_done_fruits row[] = {{MONDAY + 3, 1, 2.0}, {MONDAY + 20, 1, 4.0}, {MONDAY, 2, 3.0}};
    const struct vh_done done = {.fruits = row, .fruits_rows = 3};

    near(acts_on(&done, 10).kept[0], 4.0);
    cr_assert(acts_on(&done, 10).kept[1] > 1e9); /* counted before it opened: no rule, all stay */
    cr_assert(acts_on(&done, 21).kept[0] > 1e9);
}

/* In the last week she takes off nothing by habit; what she wrote down as done was done. The visit
 * of the day before it stays. */
Test(done_work, the_last_week_before_pull_out_has_no_visits_by_habit)
{
    struct vh_done_task task[] = {{MONDAY + 21, VH_TASK_LEAF, 1.0}};
    const struct vh_done done = {.task = task, .tasks = 1};
    struct done_case c = done_case(&done);

    c.policy.idle_d = 7.0;
    c.policy.last_on = MONDAY + 21;
    for (int64_t d = 14; d <= 21; d += 7) {
        const struct vh_acts acts =
            vh_policy_acts(&c.policy, &c.crop, c.plant, 0, MONDAY, MONDAY + d, 1.0);
        near(acts.suckers_pulled, d == 14 ? 0.9 : 0.0);
        near(acts.leaves_off, 3.0);
    }
    near(vh_policy_flowers_reached(&c.policy, &c.crop, MONDAY, MONDAY + 12), 1.0);
    near(vh_policy_flowers_reached(&c.policy, &c.crop, MONDAY, MONDAY + 15), 0.0);
    c.policy.done = NULL;
    near(vh_policy_acts(&c.policy, &c.crop, c.plant, 0, MONDAY, MONDAY + 21, 1.0).leaves_off, 0.0);
    c.policy.late = (struct vh_lateness){.mean_d = 0.1, .from = MONDAY};
    for (int64_t d = 15; d <= 21; d++)
        near(vh_policy_acts(&c.policy, &c.crop, c.plant, 0, MONDAY, MONDAY + d, 1.0).leaves_off,
             0.0);
    vh_plant_free(c.plant);
}
