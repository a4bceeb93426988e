/* The dated tasks of a planting, from a season made up by hand. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "task_parts.h"
#include "vh_hours.h"
#include "vh_result.h"
#include "vh_parameters.h"
#include "vh_supply.h"
#include "vh_task_plan.h"

#define MONDAY 20647 /* 2026-07-13 */
enum { DAYS = 70, TRUSSES = 9 };

static struct vh_parameters *params;
static struct vh_work_day day[DAYS];
static struct vh_truss_view truss[TRUSSES];
static struct vh_policy policy;
static struct vh_done done;
static struct vh_labour labour;
static struct vh_lower_plan lowering;
static struct vh_work_series series;
static struct vh_task_request request;
static struct vh_task_plan plan;

/* 48 stems that grow 3 cm a day and open a truss a week, in good light, on a Monday in July. */
static void make_season(void)
{
    struct vh_messages *m = vh_messages_create();

    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &params, m), VH_OK));
    vh_messages_free(m);
    for (int d = 0; d < DAYS; d++)
        day[d] = (struct vh_work_day){.stems = 48.0,
                                      .stem_cm = 30.0 + 3.0 * d,
                                      .leaves = 16.0,
                                      .leaves_off = d % 7 == 4 ? 3.0 : 0.0,
                                      .flowering_truss = 1.0 + d / 7.0,
                                      .picking_truss = 1.0,
                                      .sucker_longest_cm = NAN,
                                      .picked_kg = d > 40 && d % 2 == 0 ? 6.3 : 0.0,
                                      .picked_fruits = d > 40 && d % 2 == 0 ? 30.0 : 0.0,
                                      .pick_day = d > 40 && d % 2 == 0,
                                      .dli_mol_m2_d = d < 35 ? 20.0 : 5.0,
                                      .hottest_c = 24.0};
    for (int t = 0; t < TRUSSES; t++)
        truss[t] = (struct vh_truss_view){.opened_d = 7.0 * t + 0.5,
                                          .flowers = 6.0,
                                          .set = 5.0,
                                          .kept = 4.0,
                                          .thinned_d = 7.0 * t + 10.2,
                                          .opened_on = 1.0,
                                          .thin_share = t == 3 ? 0.5 : 1.0,
                                          .ripe_first_d = 7.0 * t + 45.0,
                                          .ripe_last_d = t < 3 ? 7.0 * t + 52.0 : NAN};
    policy = (struct vh_policy){.missed_d = 14.0, /* a fortnight, as in the case's name */
                                .leaf_visit = {.every_d = 1},
                                .pick = {.every_d = 2},
                                .suckers.visit = {.every_d = 7},
                                .clips.every_cm = 30.0,
                                .free_by_h = 12.0,
                                .pollination = VH_POLLINATION_BEES};
    done = (struct vh_done){0};
    for (int k = 0; k < VH_TASKS; k++)
        labour.seconds[k] = NAN;
    labour.hours_per_week = NAN;
    series = (struct vh_work_series){.crop = &vh_parameters_crop(params, "tomato-large")->crop,
                                     .policy = &policy,
                                     .done = &done,
                                     .planting = "rows",
                                     .plants = 48.0,
                                     .heads_per_plant = 1.0,
                                     .first_day = MONDAY,
                                     .today = MONDAY + 30,
                                     .days = DAYS,
                                     .day = day,
                                     .truss = truss,
                                     .trusses = TRUSSES};
    policy.done = &done;
    request = (struct vh_task_request){&series, &lowering, &params->work, &labour, VH_TOP_OWN};
}

static void drop_season(void)
{
    vh_task_plan_clear(&plan);
    vh_parameters_free(params);
}

TestSuite(task_plan, .init = make_season, .fini = drop_season);

static void make_plan(void)
{
    cr_assert(eq(int, vh_task_plan(&request, &plan), VH_OK));
}

static size_t count_of(enum vh_task task)
{
    size_t n = 0;

    for (size_t i = 0; i < plan.tasks; i++)
        n += plan.task[i].task == task;
    return n;
}

static const struct vh_planned *task_on(enum vh_task task, int64_t date)
{
    for (size_t i = 0; i < plan.tasks; i++)
        if (plan.task[i].task == task && plan.task[i].date == date)
            return &plan.task[i];
    return NULL;
}

static double sum_of(enum vh_task task)
{
    double sum = 0.0;

    for (size_t i = 0; i < plan.tasks; i++)
        sum += plan.task[i].task == task ? plan.task[i].count : 0.0;
    return sum;
}

Test(task_plan, a_task_is_there_only_if_the_crop_needs_it)
{
    make_plan();
    cr_expect(eq(sz, count_of(VH_TASK_POLLINATE), 0)); /* bees see to it */
    cr_expect(eq(sz, count_of(VH_TASK_LOWER), 0));     /* no wire */
    cr_expect(eq(sz, count_of(VH_TASK_PLANT), 1));
    cr_expect(eq(sz, count_of(VH_TASK_SUCKER), 10));
    vh_task_plan_clear(&plan);
    policy.pollination = VH_POLLINATION_HAND;
    policy.pollination_visit.every_d = 2;
    make_plan();
    cr_expect(eq(sz, count_of(VH_TASK_POLLINATE), 35));
    vh_task_plan_clear(&plan);
    series.crop = &vh_parameters_crop(params, "cucumber-long")->crop; /* seedless */
    make_plan();
    cr_expect(eq(sz, count_of(VH_TASK_POLLINATE), 0));
}

Test(task_plan, no_flower_no_visit_to_pollinate)
{
    policy.pollination = VH_POLLINATION_HAND;
    policy.pollination_visit.every_d = 2;
    for (int d = 30; d < DAYS; d++) /* topped: no new flower opens */
        day[d].flowering_truss = day[30].flowering_truss;
    make_plan();
    cr_expect(task_on(VH_TASK_POLLINATE, MONDAY + 30) != NULL);
    cr_expect(task_on(VH_TASK_POLLINATE, MONDAY + 34) == NULL);
    cr_expect(eq(sz, count_of(VH_TASK_POLLINATE), 16));
}

Test(task_plan, a_clip_for_each_30_cm_of_new_stem_and_one_at_set_out)
{
    /* by the last visit, day 63, stems grew 189 cm: 6.3 clips, and the first: 48 * 7.3 = 350.4 */
    make_plan();
    cr_expect(epsilon_eq(dbl, sum_of(VH_TASK_CLIP), 350.0, 0.0));
}

Test(task_plan, minutes_are_pieces_times_seconds_and_her_stopwatch_goes_first)
{
    make_plan();
    /* 48 stems of 8 s */
    cr_expect(epsilon_eq(dbl, task_on(VH_TASK_SUCKER, MONDAY + 7)->minutes, 6.4, 1e-12));
    /* 30 fruits of 6.3 s, told as 6.3 kg */
    const struct vh_planned *pick = task_on(VH_TASK_PICK, MONDAY + 42);
    cr_expect(epsilon_eq(dbl, pick->minutes, 3.15, 1e-12));
    cr_expect(epsilon_eq(dbl, pick->count, 6.3, 1e-12));
    cr_expect(eq(str, (char *)pick->unit, (char *)"kg"));
    vh_task_plan_clear(&plan);
    labour.seconds[VH_TASK_SUCKER] = 20.0;
    make_plan();
    cr_expect(epsilon_eq(dbl, task_on(VH_TASK_SUCKER, MONDAY + 7)->minutes, 16.0, 1e-12));
}

Test(task_plan, minutes_she_noted_hold_for_that_day_and_their_mean_for_the_others)
{
    struct vh_done_minutes minutes[] = {{MONDAY + 7, VH_TASK_SUCKER, 12.0},
                                        {MONDAY + 14, VH_TASK_SUCKER, 24.0}};
    done.minutes = minutes;
    done.minutes_rows = 2;
    labour.seconds[VH_TASK_SUCKER] = 20.0;
    make_plan();
    cr_expect(epsilon_eq(dbl, task_on(VH_TASK_SUCKER, MONDAY + 7)->minutes, 12.0, 1e-12));
    cr_expect(epsilon_eq(dbl, task_on(VH_TASK_SUCKER, MONDAY + 14)->minutes, 24.0, 1e-12));
    cr_expect(epsilon_eq(dbl, task_on(VH_TASK_SUCKER, MONDAY + 35)->minutes, 18.0, 1e-12));
    cr_expect(task_on(VH_TASK_SUCKER, MONDAY + 7)->done);
    cr_expect(not(task_on(VH_TASK_SUCKER, MONDAY + 35)->done));
}

/* Each visit left undone is a task less: of these plans one fills its room to the last; what is
 * read behind it the address sanitizer tells. */
Test(task_plan, a_plan_that_fills_its_room_has_nothing_behind_it)
{
    enum { LONG = 2 * DAYS };
    static struct vh_work_day longer[LONG];
    static struct vh_done_task task[LONG];
    struct vh_done_minutes minutes = {MONDAY + 1, VH_TASK_SUCKER, 12.0};
    bool is_full = false;

    for (int d = 0; d < LONG; d++) {
        longer[d] = day[d % DAYS];
        longer[d].stem_cm = 30.0 + 3.0 * d;
        longer[d].leaves_off = 1.0;
        task[d] = (struct vh_done_task){MONDAY + d, VH_TASK_POLLINATE, 0.0};
    }
    series.day = longer;
    series.days = LONG;
    series.today = MONDAY + LONG;
    policy.pollination = VH_POLLINATION_HAND;
    policy.pollination_visit.every_d = 1;
    done.minutes = &minutes;
    done.minutes_rows = 1;
    done.task = task;
    for (done.tasks = 0; done.tasks < LONG && !is_full; done.tasks++) {
        vh_task_plan_clear(&plan);
        make_plan();
        is_full = plan.tasks == plan.room;
    }
    cr_expect(is_full, "the last has %zu", plan.tasks);
}

Test(task_plan, records_replace_the_plan_of_the_past)
{
    struct vh_done_task task[] = {{MONDAY + 7, VH_TASK_SUCKER, 0.0},
                                  {MONDAY + 9, VH_TASK_SUCKER, 1.0},
                                  {MONDAY + 14, VH_TASK_SUCKER, 0.5}};
    done.task = task;
    done.tasks = 3;
    make_plan();
    cr_expect(task_on(VH_TASK_SUCKER, MONDAY + 7) == NULL);
    cr_expect(epsilon_eq(dbl, task_on(VH_TASK_SUCKER, MONDAY + 9)->count, 48.0, 0.0));
    cr_expect(epsilon_eq(dbl, task_on(VH_TASK_SUCKER, MONDAY + 14)->count, 24.0, 0.0));
}

Test(task_plan, after_a_missed_fortnight_suckers_are_pinched_first_and_pulled_over_two_visits)
{
    struct vh_done_task task[] = {{MONDAY + 14, VH_TASK_SUCKER, 0.0},
                                  {MONDAY + 21, VH_TASK_SUCKER, 0.0}};
    done.task = task;
    done.tasks = 2;
    make_plan();
    cr_expect(strstr(task_on(VH_TASK_SUCKER, MONDAY + 7)->note, "pinch") == NULL);
    cr_expect(strstr(task_on(VH_TASK_SUCKER, MONDAY + 28)->note, "pinch the tips") != NULL);
    cr_expect(strstr(task_on(VH_TASK_SUCKER, MONDAY + 35)->note, "pinched last time") != NULL);
    cr_expect(strstr(task_on(VH_TASK_SUCKER, MONDAY + 42)->note, "pinch") == NULL);
}

/* Fruit of truss n is large enough on day 3 + 7 n; suckers are pulled every seven days. */
Test(task_plan, each_truss_is_thinned_to_its_number_on_the_next_walk_for_suckers)
{
    struct vh_fruits_rule rule = {1, 0, 4.0, VH_THIN_PEA, INT64_MIN, INT64_MAX};
    struct vh_done_fruits left = {MONDAY + 18, 2, 3.5};
    policy.fruits = &rule;
    policy.fruits_rules = 1;
    done.fruits = &left;
    done.fruits_rows = 1;
    make_plan();
    const struct vh_planned *t = task_on(VH_TASK_THIN, MONDAY + 14);
    cr_assert(t != NULL);
    cr_expect(eq(str, (char *)t->note, (char *)"truss 1: leave 4, take 1 off (48)"));
    cr_expect(eq(int, t->truss, 1));
    cr_expect(task_on(VH_TASK_THIN, MONDAY + 21) == NULL); /* truss 2 was done before */
    cr_expect(
        eq(str, (char *)task_on(VH_TASK_THIN, MONDAY + 18)->note, (char *)"truss 2: 3.5 left"));
    cr_expect(eq(sz, count_of(VH_TASK_THIN), 9));
    /* half of the stems came after its flower */
    const struct vh_planned *half = task_on(VH_TASK_THIN, MONDAY + 35);
    cr_assert(half != NULL);
    cr_expect(eq(str, (char *)half->note, (char *)"truss 4: leave 4, take 1 off (24)"));
    cr_expect(eq(dbl, half->count, 24.0));
    for (size_t k = 0; k < TRUSSES; k++) { /* trusses.csv has the same days */
        const int64_t on = vh_thinning_on(&series, &params->work, k);
        cr_expect(on == INT64_MAX || task_on(VH_TASK_THIN, on)->truss == (int)k + 1);
    }
}

/* Where no walk for suckers comes within a week, the next one for leaves; else on its own day. */
Test(task_plan, without_a_walk_for_suckers_a_truss_is_thinned_with_the_leaves)
{
    policy.suckers.visit.every_d = 60;
    policy.leaf_visit.every_d = 6;
    cr_expect(eq(i64, vh_thinning_on(&series, &params->work, 0), MONDAY + 12));
    policy.leaf_visit.every_d = 60;
    cr_expect(eq(i64, vh_thinning_on(&series, &params->work, 0), MONDAY + 10));
}

Test(task_plan, a_truss_that_sets_hardly_more_than_it_keeps_is_no_work)
{
    truss[0].set = truss[0].kept + 0.04;
    cr_expect(eq(i64, vh_thinning_on(&series, &params->work, 0), INT64_MAX));
    truss[0].set = truss[0].kept + 0.06;
    cr_expect(eq(i64, vh_thinning_on(&series, &params->work, 0), MONDAY + 14));
}

Test(task_plan, trusses_that_flower_in_low_light_get_a_support)
{
    make_plan();
    cr_expect(eq(sz, count_of(VH_TASK_SUPPORT), 4)); /* those that open from day 35 on */
    cr_expect(task_on(VH_TASK_SUPPORT, MONDAY + 35) != NULL);
    cr_expect(eq(i64, vh_support_on(&series, &params->work, 0), INT64_MAX));
}

Test(task_plan, topping_without_a_date_is_proposed_and_takes_no_time)
{
    make_plan();
    /* truss 3 is the last whose fruits are all ripe; two leaves stand above it when it flowers */
    const struct vh_planned *top = task_on(VH_TASK_TOP, MONDAY + 30);
    cr_assert(top != NULL); /* its day is past: today */
    cr_expect(top->proposed);
    cr_expect(strstr(top->note, "truss 3") != NULL);
    cr_expect(epsilon_eq(dbl, top->minutes, 0.0, 0.0));
    vh_task_plan_clear(&plan);
    policy.has_top = true;
    policy.top_on = MONDAY + 50;
    make_plan();
    cr_expect(eq(sz, count_of(VH_TASK_TOP), 1));
    cr_expect(not(task_on(VH_TASK_TOP, MONDAY + 50)->proposed));
}

Test(task_plan, topping_is_proposed_above_the_truss_that_the_futures_are_sure_of)
{
    struct vh_planned top;

    request.top_above = 2;
    cr_assert(vh_topping_proposed(&request, &top));
    cr_expect(strstr(top.note, "truss 2 is the last that ripens before pull-out, 8 times in 10") !=
                  NULL,
              "%s", top.note);
    request.top_above = TRUSSES; /* all that open ripen */
    cr_expect(not(vh_topping_proposed(&request, &top)));
    request.top_above = VH_TOP_NOT; /* one future alone has no say */
    make_plan();
    cr_expect(eq(sz, count_of(VH_TASK_TOP), 0));
    /* trusses 1 to 3 have all their fruit ripe on days 52, 59, 66 */
    cr_expect(eq(int, vh_topping_last(truss, TRUSSES, DAYS), 3));
    cr_expect(eq(int, vh_topping_last(truss, TRUSSES, 60), 2));
    cr_expect(eq(int, vh_topping_last(truss, TRUSSES, 52), 0));
}

/* A quarter of the stems have truss 6 when it opens on day 35; those added on the day after, when a
 * label lets her in, never do. */
Test(task_plan, only_stems_with_the_truss_get_a_support)
{
    struct vh_spray spray = {MONDAY + 34, 24.0, 0.0}; /* bars days 34 and 35 */
    policy.spray = &spray;
    policy.sprays = 1;
    truss[5].opened_on = 0.25;
    for (int d = 36; d < DAYS; d++)
        day[d].stems *= 2.0;
    make_plan();
    const struct vh_planned *support = task_on(VH_TASK_SUPPORT, MONDAY + 36);
    cr_assert(support != NULL);
    cr_expect(strstr(support->note, "truss 6") != NULL, "%s", support->note);
    cr_expect(eq(dbl, support->count, 12.0));
}

Test(task_plan, what_a_label_bars_moves_to_the_first_free_day_and_says_so)
{
    struct vh_spray spray = {MONDAY + 34, 24.0, 0.0}; /* bars days 34 and 35 */
    policy.spray = &spray;
    policy.sprays = 1;
    make_plan();
    cr_expect(task_on(VH_TASK_SUCKER, MONDAY + 35) == NULL);
    const struct vh_planned *sucker = task_on(VH_TASK_SUCKER, MONDAY + 36);
    cr_assert(sucker != NULL);
    cr_expect(sucker->moved);
    cr_expect(strstr(sucker->note, "your label") != NULL);
    const struct vh_planned *support = task_on(VH_TASK_SUPPORT, MONDAY + 36);
    cr_assert(support != NULL);
    cr_expect(strstr(support->note, "your label barred") != NULL, "%s", support->note);
    cr_expect(strstr(support->note, "truss 6") != NULL, "%s", support->note);
    for (size_t i = 0; i < plan.tasks; i++)
        cr_expect(plan.task[i].date < MONDAY + 34 || plan.task[i].date > MONDAY + 35);
}

Test(task_plan, what_has_no_free_day_left_is_blocked_and_takes_no_time)
{
    struct vh_spray spray = {MONDAY + DAYS - 2, 72.0, 0.0};
    policy.spray = &spray;
    policy.sprays = 1;
    make_plan();
    const struct vh_planned *out = task_on(VH_TASK_PULL_OUT, MONDAY + DAYS - 1);
    cr_assert(out != NULL);
    cr_expect(out->blocked);
    cr_expect(epsilon_eq(dbl, out->minutes, 0.0, 0.0));
    cr_expect(strstr(out->note, "blocked") != NULL);
}

Test(task_plan, tasks_of_a_day_stand_by_what_may_wait_least)
{
    make_plan();
    for (size_t i = 1; i < plan.tasks; i++) {
        const struct vh_planned *a = &plan.task[i - 1], *b = &plan.task[i];
        cr_assert(a->date < b->date || (a->date == b->date && a->may_wait_d <= b->may_wait_d));
    }
}

/* Of one task on one day the trusses come from the lowest up, however many pieces each is. */
Test(task_plan, trusses_of_a_day_come_from_the_lowest_up)
{
    struct vh_planned task[] = {
        {.task = VH_TASK_THIN, .date = MONDAY, .truss = 12, .count = 9.0, .may_wait_d = 4.0},
        {.task = VH_TASK_THIN, .date = MONDAY, .truss = 10, .count = 5.0, .may_wait_d = 4.0},
        {.task = VH_TASK_THIN, .date = MONDAY, .truss = 11, .count = 7.0, .may_wait_d = 4.0},
        {.task = VH_TASK_THIN, .date = MONDAY, .truss = 10, .count = 6.0, .may_wait_d = 4.0}};
    struct vh_task_plan some = {.task = task, .tasks = sizeof task / sizeof task[0]};
    static const double count[] = {6.0, 5.0, 7.0, 9.0};

    vh_task_sort(&some);
    for (size_t i = 0; i < some.tasks; i++)
        cr_expect(eq(dbl, task[i].count, count[i]), "%zu", i);
}

Test(task_plan, one_walk_a_row_and_day_whatever_is_done_in_it)
{
    struct vh_task_plan rounds;
    make_plan();
    /* two plantings of 48 plants 40 cm apart: 38.4 m, in rows of 12 m: 4 rows */
    const struct vh_round_planting both[] = {{&plan, 48.0, 40.0}, {&plan, 48.0, 40.0}};
    cr_assert(eq(int, vh_task_rounds(both, 2, 12.0, &params->work, &labour, &rounds), VH_OK));
    size_t walks = 0, cleans = 0;
    for (size_t i = 0; i < rounds.tasks; i++) {
        const struct vh_planned *t = &rounds.task[i];
        if (t->date != MONDAY + 42)
            continue;
        walks += t->task == VH_TASK_WALK;
        cleans += t->task == VH_TASK_CLEAN;
        if (t->task == VH_TASK_WALK) {
            cr_expect(epsilon_eq(dbl, t->count, 4.0, 0.0));
            cr_expect(epsilon_eq(dbl, t->minutes, 2.0, 1e-12));
        } else {
            cr_expect(epsilon_eq(dbl, t->count, 2.0, 0.0)); /* before each planting */
        }
    }
    cr_expect(eq(sz, walks, 1));
    cr_expect(eq(sz, cleans, 1));
    vh_task_plan_clear(&rounds);
}

/* Blades and hands that open a plant, taken by themselves; what is proposed or blocked is no work.
 */
Test(task_plan, blades_are_cleaned_before_what_cuts_and_before_nothing_else)
{
    static const bool cuts[VH_TASKS] = {
        [VH_TASK_SUCKER] = true, [VH_TASK_THIN] = true, [VH_TASK_LEAF] = true,
        [VH_TASK_PICK] = true,   [VH_TASK_TOP] = true,  [VH_TASK_PULL_OUT] = true};
    struct vh_task_plan rounds;

    for (int k = 0; k < 3 * VH_TASK_CLEAN; k++) {
        const enum vh_task task = (enum vh_task)(k % VH_TASK_CLEAN);
        struct vh_planned one = {.date = MONDAY,
                                 .task = task,
                                 .blocked = k / VH_TASK_CLEAN == 1,
                                 .proposed = k / VH_TASK_CLEAN == 2};
        const struct vh_task_plan alone = {.task = &one, .tasks = 1};
        const struct vh_round_planting of = {&alone, 48.0, 40.0};
        size_t walks = 0, cleans = 0;
        cr_assert(eq(int, vh_task_rounds(&of, 1, 12.0, &params->work, &labour, &rounds), VH_OK));
        for (size_t i = 0; i < rounds.tasks; i++) {
            walks += rounds.task[i].task == VH_TASK_WALK && rounds.task[i].count > 0.0;
            cleans += rounds.task[i].task == VH_TASK_CLEAN && rounds.task[i].count > 0.0;
        }
        const bool is_work = k < VH_TASK_CLEAN;
        cr_expect(eq(sz, walks, is_work), "%s %d", vh_task_name(task), k);
        cr_expect(eq(sz, cleans, is_work && cuts[task]), "%s %d", vh_task_name(task), k);
        vh_task_plan_clear(&rounds);
    }
}

/* ---- hours and supplies ---- */

/* Two weeks of 2.04 and 2.06 hours where she has 2: said as 2.0 and 2.1. */
Test(task_plan, hours_are_short_as_they_are_said)
{
    struct vh_table *warnings = vh_result_table_new(VH_TABLE_WARNINGS);
    struct vh_hours hours;

    labour.hours_per_week = 2.0;
    cr_assert(eq(int, vh_hours_init(&hours, MONDAY, MONDAY + 8), VH_OK));
    hours.week[0].hours[VH_TASK_LOWER] = 2.04;
    vh_hours_finish(&hours, &labour);
    cr_assert(
        eq(int, vh_result_warn_hours(warnings, &hours, &labour, &params->work, MONDAY + 1), VH_OK));
    cr_expect(eq(sz, vh_table_rows(warnings), 0));
    hours.week[0].hours[VH_TASK_LOWER] = 2.06;
    vh_hours_finish(&hours, &labour);
    cr_assert(
        eq(int, vh_result_warn_hours(warnings, &hours, &labour, &params->work, MONDAY + 1), VH_OK));
    cr_assert(eq(sz, vh_table_rows(warnings), 1));
    cr_expect(strstr(vh_cell_text(warnings, 0, "why"), "asks 2.1 h, you have 2.0") != NULL);
    /* it is Tuesday: what began yesterday is of today */
    cr_expect(eq(dbl, vh_cell_number(warnings, 0, "date"), (double)(MONDAY + 1)));
    vh_hours_clear(&hours);
    vh_table_free(warnings);
}

Test(task_plan, hours_of_the_weeks_are_the_minutes_of_the_tasks)
{
    struct vh_hours hours;
    double minutes = 0.0, sum = 0.0;

    make_plan();
    labour.hours_per_week = 2.0;
    cr_assert(eq(int, vh_hours_init(&hours, MONDAY, MONDAY + DAYS - 1), VH_OK));
    vh_hours_add(&hours, &plan);
    vh_hours_finish(&hours, &labour);
    cr_expect(eq(sz, hours.weeks, 10));
    for (size_t i = 0; i < plan.tasks; i++)
        minutes += plan.task[i].minutes;
    for (size_t w = 0; w < hours.weeks; w++) {
        sum += vh_hours_of(&hours.week[w]);
        cr_expect(epsilon_eq(dbl, hours.week[w].left_h, 2.0 - vh_hours_of(&hours.week[w]), 1e-12));
    }
    cr_expect(epsilon_eq(dbl, sum, minutes / 60.0, 1e-9));
    vh_hours_clear(&hours);
}

Test(task_plan, a_stock_that_runs_out_is_ordered_before_the_work_that_finds_too_few)
{
    const struct vh_stock stock = {.have = {[VH_SUPPLY_CLIPS] = 80.0, NAN, NAN, 1000.0},
                                   .delivery_d = 7.0};
    struct vh_supply_plan supplies;

    make_plan();
    cr_assert(eq(int, vh_supply_plan_init(&supplies, MONDAY, MONDAY + DAYS - 1), VH_OK));
    vh_supply_plan_add(&supplies, &plan, 1200.0);
    vh_supply_plan_finish(&supplies, &stock, MONDAY + 30);
    /* visits from today on: day 35, 42 and so on need 33 or 34 each: the third finds too few */
    cr_expect(eq(i64, supplies.runs_out[VH_SUPPLY_CLIPS], MONDAY + 49));
    cr_expect(eq(i64, supplies.order_by[VH_SUPPLY_CLIPS], MONDAY + 42));
    cr_expect(eq(i64, supplies.runs_out[VH_SUPPLY_SUPPORTS], INT64_MAX));
    cr_expect(eq(i64, supplies.runs_out[VH_SUPPLY_HOOKS], INT64_MAX)); /* not told */
    cr_expect(isnan(supplies.week[3].stock_left[VH_SUPPLY_CLIPS]));    /* past */
    cr_expect(epsilon_eq(dbl, supplies.week[9].stock_left[VH_SUPPLY_CLIPS], 0.0, 0.0));
    /* 48 hooks with 12 m each at set-out */
    cr_expect(epsilon_eq(dbl, supplies.week[0].needed[VH_SUPPLY_HOOKS], 48.0, 0.0));
    cr_expect(epsilon_eq(dbl, supplies.week[0].needed[VH_SUPPLY_STRING], 576.0, 1e-9));
    vh_supply_plan_clear(&supplies);
}

/* On a Thursday the Monday of the week is past: what its visit used is needed in the week, not to
 * come. Visits are on Mondays, day 28 and 35; 33 or 34 clips each. */
Test(task_plan, what_is_to_come_leaves_out_the_days_of_the_week_that_are_past)
{
    const struct vh_stock stock = {.have = {NAN, NAN, NAN, NAN}};
    struct vh_supply_plan supplies;

    make_plan();
    cr_assert(eq(int, vh_supply_plan_init(&supplies, MONDAY, MONDAY + DAYS - 1), VH_OK));
    vh_supply_plan_add(&supplies, &plan, 1200.0);
    vh_supply_plan_finish(&supplies, &stock, MONDAY + 31);
    cr_expect(supplies.week[4].needed[VH_SUPPLY_CLIPS] > 30.0);
    cr_expect(eq(dbl, supplies.week[4].to_come[VH_SUPPLY_CLIPS], 0.0));
    cr_expect(eq(dbl, supplies.week[5].to_come[VH_SUPPLY_CLIPS],
                 supplies.week[5].needed[VH_SUPPLY_CLIPS]));
    vh_supply_plan_clear(&supplies);
}

/* In the last week no suckers, clips and leaves; one that was written down stays. */
Test(task_plan, the_last_week_has_no_work_that_brings_nothing)
{
    const enum vh_task idle[] = {VH_TASK_SUCKER, VH_TASK_CLIP, VH_TASK_LEAF};
    struct vh_done_task leaf = {MONDAY + 67, VH_TASK_LEAF, 1.0};

    policy.idle_d = 7.0;
    policy.last_on = MONDAY + DAYS - 1;
    done = (struct vh_done){.task = &leaf, .tasks = 1, .any = true};
    series.today = MONDAY + 68;
    make_plan();
    for (size_t k = 0; k < sizeof idle / sizeof idle[0]; k++) {
        cr_expect(count_of(idle[k]) > 0);
        for (int64_t d = DAYS - 7; d < DAYS; d++)
            cr_expect(eq(int, task_on(idle[k], MONDAY + d) != NULL,
                         idle[k] == VH_TASK_LEAF && MONDAY + d == leaf.day),
                      "%s on day %d", vh_task_name(idle[k]), (int)d);
    }
    cr_expect(task_on(VH_TASK_PICK, MONDAY + DAYS - 2) != NULL);
}

/* 0.4 kg of cherries are thirty fruits: a pick; a third of a fruit is none. A visit that lets out
 * nothing is no lowering. */
Test(task_plan, a_pick_is_one_by_its_fruits_and_a_lowering_by_its_string)
{
    static struct vh_lower_visit visit[2];

    day[42].picked_kg = 0.4;
    day[44] = (struct vh_work_day){
        .stems = 48.0, .pick_day = true, .picked_kg = 0.6, .picked_fruits = 0.3};
    visit[0] = (struct vh_lower_visit){.day = 20, .let_out_cm = 0.0};
    visit[1] = (struct vh_lower_visit){.day = 27, .let_out_cm = 20.0};
    policy.lower.turn_cm = 18.0;
    lowering = (struct vh_lower_plan){.visit = visit, .visits = 2};
    make_plan();
    const struct vh_planned *pick = task_on(VH_TASK_PICK, MONDAY + 42);
    cr_assert(pick != NULL);
    cr_expect(eq(dbl, pick->count, 0.4));
    cr_expect(eq(str, (char *)pick->note, (char *)"about 30 fruits"));
    cr_expect(task_on(VH_TASK_PICK, MONDAY + 44) == NULL);
    cr_expect(task_on(VH_TASK_LOWER, MONDAY + 20) == NULL);
    cr_expect(task_on(VH_TASK_LOWER, MONDAY + 27) != NULL);
    lowering = (struct vh_lower_plan){0};
}

/* A week whose last day is today is not past: what is left on its evening is told. */
Test(task_plan, on_a_sunday_the_week_that_ends_still_says_what_is_left)
{
    const struct vh_stock stock = {.have = {[VH_SUPPLY_CLIPS] = 8000.0, NAN, NAN, NAN}};
    struct vh_supply_plan supplies;

    make_plan();
    cr_assert(eq(int, vh_supply_plan_init(&supplies, MONDAY, MONDAY + DAYS - 1), VH_OK));
    vh_supply_plan_add(&supplies, &plan, 1200.0);
    vh_supply_plan_finish(&supplies, &stock, MONDAY + 34);
    cr_expect(isnan(supplies.week[3].stock_left[VH_SUPPLY_CLIPS]));
    cr_expect(epsilon_eq(dbl, supplies.week[4].stock_left[VH_SUPPLY_CLIPS], 8000.0, 0.0));
    cr_expect(lt(dbl, supplies.week[5].stock_left[VH_SUPPLY_CLIPS], 8000.0));
    vh_supply_plan_clear(&supplies);
}

Test(task_plan, clips_come_back_from_laid_stem_only_where_they_are_used_again)
{
    static struct vh_lower_state state[DAYS + 1];
    double used = 0.0;

    for (int d = 0; d < DAYS; d++) /* from day 20 on as much is laid as grows */
        state[d] = (struct vh_lower_state){d > 20 ? 3.0 * (d - 20) : 0.0, 1.0};
    lowering.state = state;
    policy.clips.reuse = true;
    make_plan();
    lowering.state = NULL;
    for (size_t i = 0; i < plan.tasks; i++)
        used += plan.task[i].task == VH_TASK_CLIP ? plan.task[i].used : 0.0;
    /* to day 63 of the last visit 129 cm were laid: 4.3 clips a stem come back, 206 */
    cr_expect(epsilon_eq(dbl, sum_of(VH_TASK_CLIP), 350.0, 0.0));
    cr_expect(epsilon_eq(dbl, used, 350.0 - 206.0, 1.0));
}

/* Upright from 10 cm on: heads at 160 cm on day 40, 175 cm on day 45, under a wire at 170 cm. */
Test(task_plan, lowering_cannot_wait_once_heads_are_past_the_wire)
{
    static struct vh_lower_state state[DAYS];
    static struct vh_lower_visit visit[] = {{.day = 40, .let_out_cm = 20.0},
                                            {.day = 45, .let_out_cm = 20.0}};

    for (int d = 0; d < DAYS; d++)
        state[d] = (struct vh_lower_state){0.0, 1.0};
    lowering = (struct vh_lower_plan){visit, 2, state, NULL};
    policy.lower.laid_height_cm = 10.0;
    policy.lower.wire_cm = 170.0;
    policy.lower.turn_cm = 20.0;
    policy.lower.when_head_at_wire = true;
    make_plan();
    lowering = (struct vh_lower_plan){NULL, 0, NULL, NULL};
    const struct vh_planned *below = task_on(VH_TASK_LOWER, MONDAY + 40),
                            *past = task_on(VH_TASK_LOWER, MONDAY + 45);
    cr_assert(ne(ptr, (void *)below, NULL));
    cr_assert(ne(ptr, (void *)past, NULL));
    cr_expect(epsilon_eq(dbl, below->may_wait_d, params->work.may_wait_d[VH_TASK_LOWER], 1e-12));
    cr_expect(epsilon_eq(dbl, past->may_wait_d, 0.0, 1e-12));
}

/* By the C standard's "%.0f": to the nearest, of two equally near to the even one. */
Test(task_plan, whole_numbers_in_notes_are_those_of_printf)
{
    const double value[] = {0.0,  0.49, 0.5,        1.5,     2.5,          3.5,    9.5,
                            99.5, 1e3,  123456.499, 1e9 + 1, 0x1p50 - 0.5, 0x1p50, -2.5};

    for (size_t i = 0; i < sizeof value / sizeof value[0]; i++) {
        struct vh_planned t = {.note = "about ", .noted = strlen("about ")};
        char whole[64];
        snprintf(whole, sizeof whole, "about %.0f", value[i]);
        vh_task_say_whole(&t, value[i]);
        cr_expect(strcmp(t.note, whole) == 0, "%s, not %s", t.note, whole);
    }
}

/* Leaves and fruits are whole for who takes them off: a mean is said as the two numbers that it
 * lies between, unless it is as good as one of them (a fifth); turns of the hook are halves. */
Test(task_plan, means_of_what_nobody_halves_are_said_as_whole_numbers)
{
    static const struct {
        double value;
        const char *said;
    } counted[] = {{1.0, "1"},      {1.1, "1"},       {1.2, "1"},  {1.3, "1 or 2"},
                   {1.6, "1 or 2"}, {2.79, "2 or 3"}, {2.81, "3"}, {3.0, "3"},
                   {0.4, "0 or 1"}, {0.1, "0 or 1"},  {0.9, "1"},  {10.5, "10 or 11"}},
      halves[] = {{0.5, "1/2"}, {1.0, "1"},      {1.5, "1 1/2"}, {2.0, "2"},    {10.5, "10 1/2"},
                  {10.0, "10"}, {1.74, "1 1/2"}, {1.76, "2"},    {100.0, "100"}};

    for (size_t i = 0; i < sizeof counted / sizeof counted[0]; i++) {
        struct vh_planned t = {.note = ""};
        vh_task_say_counted(&t, counted[i].value);
        cr_expect(strcmp(t.note, counted[i].said) == 0, "%s, not %s", t.note, counted[i].said);
    }
    for (size_t i = 0; i < sizeof halves / sizeof halves[0]; i++) {
        struct vh_planned t = {.note = ""};
        vh_task_say_halves(&t, halves[i].value);
        cr_expect(strcmp(t.note, halves[i].said) == 0, "%s, not %s", t.note, halves[i].said);
    }
}

/* The first truss is stripped, the second is picked out by day 30, the last two are not open yet:
 * the lowest fruit hangs on the second truss, then on the third or above, never on a bare stalk. */
Test(task_plan, the_lowest_fruit_hangs_on_the_lowest_truss_that_bears)
{
    struct vh_lower_plan found;

    policy.lower = (struct vh_lower_policy){.given = true,
                                            .visit = {.every_d = 7},
                                            .most_cm = 40.0,
                                            .wire_cm = 290.0,
                                            .laid_height_cm = 25.0,
                                            .lean_deg = 50.0,
                                            .string_cm = 1200.0,
                                            .fruit_floor_cm = 30.0,
                                            .truss_hang_cm = 20.0,
                                            .turn_cm = 18.0};
    truss[0].kept = 0.0;
    for (int d = 0; d < DAYS; d++)
        day[d].picking_truss = d < 30 ? 1.0 : 3.5;
    cr_assert(eq(int, vh_lower_plan(&series, &found), VH_OK));
    cr_expect(isnan(found.lowest_fruit_cm[3])); /* the stripped one alone is open */
    for (size_t d = 10; d < DAYS; d += 10) {
        const size_t lowest = d < 30 ? 1 : 2; /* from 0: 3 - 1 = truss 3, of 3.5 - 1 and more */
        cr_expect(epsilon_eq(dbl, found.lowest_fruit_cm[d],
                             vh_lower_fruit_cm(&policy.lower, found.state[d],
                                               vh_lower_joint_cm(&series, lowest)),
                             1e-9),
                  "day %zu", d);
    }
    vh_lower_plan_clear(&found);
}

/* Clips of 3 days hold stems to strings of 7: a string waits as long as the clip that needs it. */
Test(task_plan, strings_hang_before_the_clips_that_need_them)
{
    make_plan();
    const struct vh_planned *string = NULL, *clips = NULL;
    for (size_t i = 0; i < plan.tasks; i++) {
        const struct vh_planned *t = &plan.task[i];
        string = !string && t->task == VH_TASK_STRING ? t : string;
        clips = !clips && t->task == VH_TASK_CLIP ? t : clips;
    }
    cr_assert(string && clips && string->date == clips->date);
    cr_assert(lt(dbl, clips->may_wait_d, params->work.may_wait_d[VH_TASK_STRING]));
    cr_expect(eq(dbl, string->may_wait_d, clips->may_wait_d));
    cr_expect(lt(ptr, (void *)(uintptr_t)string, (void *)(uintptr_t)clips));
}

/* As they are sold, whatever is usual of the crop. */
Test(task_plan, picks_are_counted_or_weighed_as_the_series_says)
{
    for (int by_piece = 0; by_piece < 2; by_piece++) {
        series.by_piece = by_piece;
        make_plan();
        for (size_t i = 0; i < plan.tasks; i++)
            if (plan.task[i].task == VH_TASK_PICK)
                cr_expect(eq(str, (char *)(uintptr_t)plan.task[i].unit,
                             (char *)(uintptr_t)(by_piece ? "fruits" : "kg")));
        vh_task_plan_clear(&plan);
    }
}
