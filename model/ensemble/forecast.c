/* The season as people see it: with one member the mean run, with more of them every table as means
 * and ranges over the futures. */
#include <stdlib.h>

#include "vh_date.h"
#include "vh_ensemble.h"
#include "vh_gaps.h"
#include "vh_lock.h"
#include "vh_lower_said.h"
#include "vh_pick_said.h"
#include "vh_math.h"
#include "vh_plant_check.h"
#include "vh_ranges.h"
#include "vh_table.h"
#include "vh_task_plan.h"
#include "vh_topping.h"
#include "vh_work_said.h"

struct gathering {
    const struct vh_scenario *scenario;
    struct vh_result *mean;
    struct vh_messages *messages;
    struct vh_ranges *range[VH_RESULT_TABLES]; /* NULL: no future changes this table */
    struct vh_lock lock[VH_RESULT_TABLES];
    struct vh_result **spare; /* [spares] whose tables wait for another member */
    size_t spares;
    struct vh_lock spare_lock;
    struct vh_weeks weeks;
    int *last; /* [member * plantings + planting] truss that ripens before pull-out */
    vh_member_seen also;
    void *also_context;
};

static size_t days_in_all(const struct vh_member_view *view)
{
    size_t days = 0;

    for (size_t k = 0; k < view->house->plantings; k++)
        days += view->season[k].days;
    return days;
}

static enum vh_status fill(const struct gathering *g, const struct vh_member_view *view,
                           struct vh_result *r)
{
    const size_t n = view->house->plantings, days = days_in_all(view);
    double *light = malloc((2 * n + days + 1) * sizeof *light);
    double **sound = malloc((n + 1) * sizeof *sound);
    enum vh_status status = VH_NO_MEMORY;

    if (light && sound) {
        double *const marketable = light + n, *next = marketable + n;
        for (size_t d = 0; d < days; d++)
            next[d] = VH_UNKNOWN;
        for (size_t k = 0; k < n; k++) {
            light[k] = view->light_factor * view->factors[k].plant.light;
            marketable[k] = view->factors[k].marketable;
            sound[k] = next;
            next += view->season[k].days;
        }
        const struct vh_run run = {.scenario = g->scenario,
                                   .house = view->house,
                                   .season = view->season,
                                   .light_factor = light,
                                   .marketable = marketable,
                                   .is_mean = r == g->mean,
                                   .sound = sound,
                                   .weeks = g->weeks.name ? &g->weeks : NULL};
        status = vh_result_fill(r, &run);
    }
    free(sound);
    free(light);
    return status;
}

/* No young plant is small enough to flower as late as the scenario says. */
static void doubt_first_flower(const struct vh_planting *p, int64_t by, struct vh_messages *m)
{
    char said[11], soonest[11];

    vh_date_format(p->first_flower, said);
    vh_date_format(by, soonest);
    vh_warn(m, p->first_flower_place,
            "`first_flower` is %s, but even plants set out with one leaf flower by %s in this"
            " climate; that day is taken, so check both dates",
            said, soonest);
}

static enum vh_status fill_mean(void *context, const struct vh_member_view *view)
{
    const struct gathering *g = context;
    const struct vh_house *h = &g->scenario->house;

    for (size_t k = 0; k < h->plantings; k++)
        if (view->season[k].flowers_sooner)
            doubt_first_flower(&h->planting[k], view->season[k].flowers_by, g->messages);
    return fill(g, view, g->mean);
}

/* A member's tables are made side by side, but each is laid upon the others by one thread at a
 * time; members begin with different ones, so that they seldom wait. */
static enum vh_status take_all(struct gathering *g, size_t member, const struct vh_result *r)
{
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < VH_RESULT_TABLES && status == VH_OK; k++) {
        const size_t id = (member % VH_RESULT_TABLES + k) % VH_RESULT_TABLES;
        if (!g->range[id])
            continue;
        vh_lock_take(&g->lock[id]);
        status = vh_ranges_take(g->range[id], member, r->table[id]);
        vh_lock_give(&g->lock[id]);
    }
    return status;
}

/* Tables for one member: those that another has done with, as long as there are such. */
static struct vh_result *borrow(struct gathering *g)
{
    struct vh_result *r = NULL;

    vh_lock_take(&g->spare_lock);
    if (g->spares > 0)
        r = g->spare[--g->spares];
    vh_lock_give(&g->spare_lock);
    if (r)
        return r;
    r = vh_result_create();
    for (int id = 0; r && id < VH_RESULT_TABLES; id++)
        if (r->table[id])
            vh_table_make_passing(r->table[id]);
    return r;
}

/* At most as many as there are threads are ever out. */
static void give_back(struct gathering *g, struct vh_result *r)
{
    for (int id = 0; r && id < VH_RESULT_TABLES; id++)
        if (r->table[id])
            vh_table_empty(r->table[id]);
    vh_lock_take(&g->spare_lock);
    if (r)
        g->spare[g->spares++] = r;
    vh_lock_give(&g->spare_lock);
}

static enum vh_status gather(void *context, const struct vh_member_view *view)
{
    struct gathering *g = context;
    const size_t plantings = view->house->plantings;
    struct vh_result *r = borrow(g);
    enum vh_status status = r ? fill(g, view, r) : VH_NO_MEMORY;

    for (size_t k = 0; k < plantings; k++) {
        const struct vh_season *season = &view->season[k];
        g->last[view->member * plantings + k] =
            vh_topping_last(season->truss, season->trusses, season->days);
    }

    if (status == VH_OK)
        status = take_all(g, view->member, r);
    give_back(g, r);
    if (status == VH_OK && g->also)
        status = g->also(g->also_context, view);
    return status;
}

static enum vh_status begin(struct gathering *g, size_t members)
{
    for (int id = 0; id < VH_RESULT_TABLES; id++) {
        if (!vh_result_is_moved((enum vh_result_table_id)id))
            continue;
        g->range[id] = vh_ranges_create((enum vh_result_table_id)id, members,
                                        g->scenario->house.market.promise);
        if (!g->range[id])
            return VH_NO_MEMORY;
    }
    return take_all(g, VH_MEAN_RUN, g->mean);
}

/* Each table of the mean run gives way to that of all members. */
static enum vh_status finish(struct gathering *g, int threads)
{
    enum vh_status status = VH_OK;

    for (int id = 0; id < VH_RESULT_TABLES && status == VH_OK; id++) {
        struct vh_table *t = NULL;
        void *columns = NULL;
        if (!g->range[id])
            continue;
        status = vh_ranges_finish(g->range[id], threads, &t, &columns);
        vh_ranges_free(g->range[id]);
        g->range[id] = NULL;
        if (status != VH_OK)
            return status;
        vh_table_free(g->mean->table[id]);
        g->mean->table[id] = t;
        g->mean->own_columns[id] = columns;
    }
    return status;
}

static enum vh_status run_members(struct gathering *g, vh_progress progress, void *context,
                                  struct vh_messages *m)
{
    const struct vh_run_options *o = &g->scenario->options;
    const struct vh_ensemble_request q = {.scenario = g->scenario,
                                          .members = (size_t)o->members,
                                          .draw = o->draw,
                                          .threads = o->threads,
                                          .seen = gather,
                                          .context = g,
                                          .progress = progress,
                                          .progress_context = context};
    const int threads = vh_ensemble_threads(q.threads, q.members);

    for (int id = 0; id < VH_RESULT_TABLES; id++)
        vh_lock_init(&g->lock[id]);
    vh_lock_init(&g->spare_lock);
    g->spare = calloc((size_t)threads + 1, sizeof *g->spare);
    enum vh_status status = begin(g, q.members);
    if (status == VH_OK)
        status =
            vh_weeks_init(&g->weeks, g->scenario->house.first_day, g->scenario->house.last_day);
    g->last = calloc(q.members * g->scenario->house.plantings + 1, sizeof *g->last);
    if (status == VH_OK && (!g->last || !g->spare))
        status = VH_NO_MEMORY;
    if (status == VH_OK)
        status = vh_ensemble_run(&q, m);
    if (status == VH_OK)
        status = finish(g, threads);
    if (status == VH_OK)
        status = vh_lower_said(g->mean);
    if (status == VH_OK)
        status = vh_result_lowering_said(g->mean->table[VH_TABLE_WARNINGS],
                                         g->mean->table[VH_TABLE_TASKS], g->scenario->house.today);
    if (status == VH_OK)
        status =
            vh_result_supplies_said(g->mean->table[VH_TABLE_WARNINGS],
                                    g->mean->table[VH_TABLE_SUPPLIES], g->scenario->house.today);
    if (status == VH_OK)
        status = vh_topping_propose(g->scenario, g->last, q.members, g->mean, m);
    if (status == VH_OK)
        status = vh_work_said(g->scenario, g->mean);
    if (status == VH_OK)
        status = vh_result_in_date_order(g->mean);
    if (status == VH_OK)
        status = vh_pick_said(g->mean);
    if (status == VH_OK)
        status = vh_gaps_find(g->scenario, g->mean->table[VH_TABLE_MARKET_DAYS], &q,
                              g->mean->table[VH_TABLE_GAPS], m);
    for (int id = 0; id < VH_RESULT_TABLES; id++) {
        vh_ranges_free(g->range[id]);
        vh_lock_clear(&g->lock[id]);
    }
    vh_lock_clear(&g->spare_lock);
    vh_weeks_clear(&g->weeks);
    for (size_t i = 0; i < g->spares; i++)
        vh_result_free(g->spare[i]);
    free(g->spare);
    free(g->last);
    return status;
}

static enum vh_status run_mean(struct gathering *g, vh_progress progress, void *context)
{
    const struct vh_ensemble_request mean = {.scenario = g->scenario,
                                             .members = 1,
                                             .threads = 1,
                                             .mean_run = true,
                                             .seen = fill_mean,
                                             .context = g,
                                             .progress = progress,
                                             .progress_context = context};

    return g->mean ? vh_ensemble_run(&mean, g->messages) : VH_NO_MEMORY;
}

enum vh_status vh_mean_season(const struct vh_scenario *s, struct vh_result **out,
                              struct vh_messages *m)
{
    struct gathering g = {.scenario = s, .mean = vh_result_create(), .messages = m};
    const enum vh_status status = run_mean(&g, NULL, NULL);

    if (status == VH_OK)
        *out = g.mean;
    else
        vh_result_free(g.mean);
    return status;
}

enum vh_status vh_forecast_seen(const struct vh_scenario *s, vh_progress progress, void *context,
                                vh_member_seen also, void *also_context, struct vh_result **out,
                                struct vh_messages *m)
{
    struct gathering g = {.scenario = s,
                          .mean = vh_result_create(),
                          .messages = m,
                          .also = also,
                          .also_context = also_context};
    enum vh_status status = run_mean(&g, s->options.members > 1 ? NULL : progress, context);

    if (status == VH_OK && s->options.members > 1)
        status = run_members(&g, progress, context, m);
    if (status == VH_OK) {
        vh_result_only_picks(g.mean->table[VH_TABLE_PICKS]);
        status = vh_plant_check_fill(g.mean, s);
    }
    if (status == VH_OK && s->learned)
        status = vh_table_add_rows(g.mean->table[VH_TABLE_LEARNED], s->learned);
    if (status == VH_OK)
        *out = g.mean;
    else
        vh_result_free(g.mean);
    return status;
}

enum vh_status vh_forecast(const struct vh_scenario *s, vh_progress progress, void *context,
                           struct vh_result **out, struct vh_messages *m)
{
    return vh_forecast_seen(s, progress, context, NULL, NULL, out, m);
}
