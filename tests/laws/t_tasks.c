/* What every plan of work keeps, over random seasons, rhythms, locks and records. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdlib.h>

#include "vh_parameters.h"
#include "vh_random.h"
#include "vh_supply.h"
#include "vh_task_plan.h"
#include "vh_visits.h"

enum { SEASONS = 200, DAYS = 200, TRUSSES = 24 };
#define FIRST 20500

static double between(int season, int row, double low, double high)
{
    return low + (high - low) * vh_uniform(2027, (uint32_t)season, 0, 0x7A5C, (uint32_t)row);
}

static void make_days(int i, struct vh_work_day day[DAYS], struct vh_truss_view truss[TRUSSES])
{
    const double pace = between(i, 1, 1.0, 8.0), stems = floor(between(i, 2, 1.0, 900.0));

    for (int d = 0; d < DAYS; d++)
        day[d] = (struct vh_work_day){.stems = stems,
                                      .stem_cm = 20.0 + pace * d,
                                      .leaves = 16.0,
                                      .leaves_off = d % 3 == 0 ? between(i, 3, 0.0, 3.0) : 0.0,
                                      .flowering_truss = d / 8.0,
                                      .picking_truss = fmax(1.0, d / 8.0 - 6.0),
                                      .sucker_longest_cm = NAN,
                                      .picked_kg = 0.1 * stems,
                                      .picked_fruits = stems,
                                      .pick_day = d > 60 && d % 3 == 0,
                                      .dli_mol_m2_d = between(i, 4, 2.0, 30.0),
                                      .hottest_c = 25.0};
    for (int t = 0; t < TRUSSES; t++)
        truss[t] = (struct vh_truss_view){.opened_d = 8.0 * t,
                                          .set = 5.0,
                                          .kept = between(i, 5, 0.0, 5.0),
                                          .thinned_d = 8.0 * t + 9.0,
                                          .opened_on = 1.0,
                                          .thin_share = 1.0,
                                          .ripe_last_d = 8.0 * t + 60.0};
}

static void look(int i, const struct vh_task_request *r, const struct vh_task_plan *plan)
{
    const struct vh_work_series *s = r->series;
    double clips = 0.0;

    for (size_t k = 0; k < plan->tasks; k++) {
        const struct vh_planned *t = &plan->task[k];
        cr_expect(t->minutes >= 0.0 && isfinite(t->minutes), "season %d", i);
        cr_expect(t->count > 0.0 && isfinite(t->count), "season %d", i);
        cr_expect(t->date >= s->first_day && t->date < s->first_day + DAYS, "season %d", i);
        cr_expect(t->done || t->blocked || t->task == VH_TASK_PICK ||
                      !vh_entry_locked(s->policy, t->date),
                  "season %d: %s on a day that is barred", i, vh_task_name(t->task));
        cr_expect(t->minutes <= 0.0 || !t->blocked, "season %d", i);
        cr_expect(k == 0 || !vh_task_before(t, &plan->task[k - 1]), "season %d: order", i);
        clips += t->task == VH_TASK_CLIP ? t->count : 0.0;
    }
    const double grown = s->day[DAYS - 1].stem_cm - s->day[0].stem_cm;
    const double most = s->day[0].stems * (1.0 + grown / s->policy->clips.every_cm);
    cr_expect(clips <= most + 1e-6, "season %d: more clips than stem", i);
    /* visits are at most 14 days apart, one is left undone and a lock adds 5 days: at most so much
     * stem, of at most 8 cm a day, is unclipped */
    const double late = s->day[0].stems * 33.0 * 8.0 / s->policy->clips.every_cm + 1.0;
    cr_expect(clips >= most - late, "season %d: stem without clips", i);
}

static void look_at_stock(int i, const struct vh_task_plan *plan)
{
    const double have = between(i, 20, 0.0, 20000.0);
    const struct vh_stock stock = {.have = {have, have, have, have},
                                   .delivery_d = floor(between(i, 21, 0.0, 20.0))};
    const int64_t today = FIRST + (int64_t)between(i, 22, 0.0, 150.0);
    struct vh_supply_plan p;

    cr_assert(eq(int, vh_supply_plan_init(&p, FIRST, FIRST + DAYS - 1), VH_OK));
    vh_supply_plan_add(&p, plan, 1200.0);
    vh_supply_plan_finish(&p, &stock, today);
    for (int item = 0; item < VH_SUPPLIES; item++) {
        double need = 0.0, weeks = 0.0, days = 0.0;
        for (size_t d = 0; d < p.days; d++) {
            const double one = p.day[d * VH_SUPPLIES + (size_t)item];
            const int64_t date = p.week[0].monday + (int64_t)d;
            days += one;
            need += date >= today ? one : 0.0;
            if (date >= today && date < p.runs_out[item])
                cr_expect(need <= have + 1e-6, "season %d", i);
        }
        for (size_t w = 0; w < p.weeks; w++)
            weeks += p.week[w].needed[item];
        cr_expect(epsilon_eq(dbl, weeks, days, 1e-6 * (1.0 + days)));
        cr_expect(epsilon_eq(dbl, p.left[item], have - need, 1e-6 * (1.0 + days)));
        cr_expect(eq(int, p.runs_out[item] == INT64_MAX, need <= have));
        if (p.runs_out[item] != INT64_MAX)
            cr_expect(eq(i64, p.runs_out[item] - p.order_by[item], (int64_t)stock.delivery_d));
    }
    vh_supply_plan_clear(&p);
}

Test(tasks, no_plan_breaks_a_lock_and_every_piece_is_counted_once)
{
    static struct vh_work_day day[DAYS];
    struct vh_truss_view truss[TRUSSES];
    struct vh_messages *m = vh_messages_create();
    struct vh_parameters *params = NULL;
    const char *crop[] = {"tomato-large", "cucumber-long", "pepper-large"};

    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &params, m), VH_OK));
    for (int i = 0; i < SEASONS; i++) {
        make_days(i, day, truss);
        struct vh_spray spray = {FIRST + (int64_t)between(i, 10, 0.0, DAYS - 1.0),
                                 floor(between(i, 11, 0.0, 100.0)), between(i, 12, 0.0, 20.0)};
        struct vh_done_task undone = {FIRST + (int64_t)between(i, 13, 0.0, 100.0), VH_TASK_SUCKER,
                                      floor(between(i, 14, 0.0, 2.0))};
        const struct vh_done done = {.task = &undone, .tasks = 1};
        const struct vh_policy policy = {.suckers.visit.every_d = (int)between(i, 15, 1.0, 15.0),
                                         .leaf_visit.every_d = 3,
                                         .pick.every_d = 3,
                                         .clips = {.every_cm = between(i, 16, 10.0, 60.0)},
                                         .pollination =
                                             i % 2 ? VH_POLLINATION_HAND : VH_POLLINATION_NONE,
                                         .pollination_visit.every_d = 2,
                                         .spray = &spray,
                                         .sprays = 1,
                                         .free_by_h = 12.0,
                                         .done = &done};
        const struct vh_lower_plan lowering = {0};
        const struct vh_work_series series = {.crop =
                                                  &vh_parameters_crop(params, crop[i % 3])->crop,
                                              .policy = &policy,
                                              .done = &done,
                                              .planting = "rows",
                                              .plants = day[0].stems,
                                              .first_day = FIRST,
                                              .today = FIRST + 100,
                                              .days = DAYS,
                                              .day = day,
                                              .truss = truss,
                                              .trusses = TRUSSES};
        const struct vh_task_request request = {&series, &lowering, &params->work, NULL,
                                                VH_TOP_OWN};
        struct vh_task_plan plan;
        cr_assert(eq(int, vh_task_plan(&request, &plan), VH_OK));
        look(i, &request, &plan);
        look_at_stock(i, &plan);
        vh_task_plan_clear(&plan);
    }
    vh_parameters_free(params);
    vh_messages_free(m);
}
