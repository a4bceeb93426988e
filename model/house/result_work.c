/* Rows of tasks, hours and supplies, for the plantings together. */
#include "vh_result.h"

#include <stdio.h>
#include <stdlib.h>

#include "vh_date.h"
#include "vh_math.h"

#define CM_PER_M 100.0
#define WEEK_TEXT 16

static enum vh_status add_task(struct vh_table *t, const struct vh_planned *p, const char *planting)
{
    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, 1, planting) != VH_OK ||
        vh_table_set_text(t, 2, vh_task_name(p->task)) != VH_OK ||
        vh_table_set_text(t, 4, p->unit) != VH_OK || vh_table_set_text(t, 8, p->note) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, 0, (double)p->date);
    vh_table_set_number(t, 3, p->count);
    vh_table_set_number(t, 5, p->minutes);
    vh_table_set_number(t, 6, p->may_wait_d);
    return VH_OK;
}

/* Of the plans' next tasks the one to come first: by date, then by what may wait least. */
static size_t first_of(const struct vh_house_work *w, const size_t *next)
{
    size_t best = w->plans + 1;

    for (size_t i = 0; i <= w->plans; i++)
        if (next[i] < w->plan[i].tasks &&
            (best > w->plans ||
             vh_task_before(&w->plan[i].task[next[i]], &w->plan[best].task[next[best]])))
            best = i;
    return best;
}

/* All plantings in one list: on a day that is too short it is worked off from the top. */
static enum vh_status add_tasks(struct vh_table *t, const struct vh_house *h,
                                const struct vh_house_work *w)
{
    size_t *next = calloc(w->plans + 1, sizeof *next);
    enum vh_status status = next ? VH_OK : VH_NO_MEMORY;

    while (status == VH_OK) {
        const size_t i = first_of(w, next);
        if (i > w->plans)
            break;
        status = add_task(t, &w->plan[i].task[next[i]++], i < w->plans ? h->planting[i].name : "");
    }
    free(next);
    return status;
}

/* "2026-W29" */
static void say_week(int64_t monday, char text[WEEK_TEXT])
{
    int year, week;

    vh_date_iso_week(monday, &year, &week);
    snprintf(text, WEEK_TEXT, "%04d-W%02d", year, week);
}

static enum vh_status add_hours_row(struct vh_table *t, const struct vh_hours_week *week,
                                    const char *text, const char *task, double hours)
{
    if (!(hours > 0.0))
        return VH_OK;
    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, 0, text) != VH_OK ||
        vh_table_set_text(t, 2, task) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, 1, (double)week->monday);
    vh_table_set_number(t, 3, hours);
    vh_table_set_number(t, 4, week->left_h);
    return VH_OK;
}

static enum vh_status add_hours(struct vh_table *t, const struct vh_hours *h,
                                const struct vh_labour *labour)
{
    enum vh_status status = VH_OK;

    for (size_t w = 0; w < h->weeks; w++) {
        const struct vh_hours_week *week = &h->week[w];
        char text[WEEK_TEXT];
        say_week(week->monday, text);
        for (int k = 0; k < VH_TASKS && status == VH_OK; k++)
            status = add_hours_row(t, week, text, vh_task_name((enum vh_task)k), week->hours[k]);
        for (size_t i = 0; i < labour->others && status == VH_OK; i++)
            status = add_hours_row(t, week, text, labour->other[i].what,
                                   labour->other[i].hours_per_week);
    }
    return status;
}

static enum vh_status add_supplies(struct vh_table *t, const struct vh_supply_plan *plan)
{
    char text[WEEK_TEXT];

    for (size_t w = 0; w < plan->weeks; w++) {
        const struct vh_supply_week *week = &plan->week[w];
        say_week(week->monday, text);
        for (int item = 0; item < VH_SUPPLIES; item++) {
            if (!(week->needed[item] > 0.0) && isnan(week->stock_left[item]))
                continue;
            if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, 0, text) != VH_OK ||
                vh_table_set_text(t, 2, vh_supply_name((enum vh_supply)item)) != VH_OK)
                return VH_NO_MEMORY;
            vh_table_set_number(t, 1, (double)week->monday);
            vh_table_set_number(t, 3, week->needed[item]);
            vh_table_set_number(t, 4, week->stock_left[item]);
            if (plan->runs_out[item] == INT64_MAX)
                continue;
            vh_table_set_number(t, 5, (double)plan->runs_out[item]);
            vh_table_set_number(t, 6, (double)plan->order_by[item]);
        }
    }
    return VH_OK;
}

/* ---- all plantings together ---- */

enum vh_status vh_house_work_init(struct vh_house_work *w, size_t plantings)
{
    *w = (struct vh_house_work){.plan = calloc(plantings + 1, sizeof *w->plan), .plans = plantings};
    return w->plan ? VH_OK : VH_NO_MEMORY;
}

void vh_house_work_clear(struct vh_house_work *w)
{
    for (size_t i = 0; w->plan && i <= w->plans; i++)
        vh_task_plan_clear(&w->plan[i]);
    free(w->plan);
    *w = (struct vh_house_work){0};
}

static enum vh_status plan_rounds(const struct vh_scenario *s, struct vh_house_work *w)
{
    const struct vh_house *h = &s->house;
    struct vh_round_planting *round = calloc(w->plans + 1, sizeof *round);

    if (!round)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < w->plans; i++)
        round[i] = (struct vh_round_planting){&w->plan[i], h->planting[i].plants,
                                              h->planting[i].plants_apart_cm};
    const enum vh_status status = vh_task_rounds(
        round, w->plans, h->row_length_m, &s->parameters->work, &h->labour, &w->plan[w->plans]);
    free(round);
    return status;
}

static enum vh_status house_hours(struct vh_table **table, const struct vh_scenario *s,
                                  const struct vh_house_work *w)
{
    struct vh_hours hours;
    enum vh_status status = vh_hours_init(&hours, s->house.first_day, s->house.last_day);

    if (status != VH_OK)
        return status;
    for (size_t i = 0; i <= w->plans; i++)
        vh_hours_add(&hours, &w->plan[i]);
    vh_hours_finish(&hours, &s->house.labour);
    status = add_hours(table[VH_TABLE_HOURS], &hours, &s->house.labour);
    if (status == VH_OK)
        status = vh_result_warn_hours(table[VH_TABLE_WARNINGS], &hours, &s->house.labour,
                                      &s->parameters->work, s->house.today);
    vh_hours_clear(&hours);
    return status;
}

/* String wound on a hook: by the lowering, or the crop's usual where there is no wire. */
static double string_cm(const struct vh_planting *p)
{
    return p->policy.lower.given ? p->policy.lower.string_cm : p->crop->hang.string_m * CM_PER_M;
}

static enum vh_status house_supplies(struct vh_table **table, const struct vh_scenario *s,
                                     const struct vh_house_work *w)
{
    const struct vh_house *h = &s->house;
    struct vh_supply_plan plan;
    enum vh_status status = vh_supply_plan_init(&plan, h->first_day, h->last_day);

    if (status != VH_OK)
        return status;
    for (size_t i = 0; i < w->plans; i++)
        vh_supply_plan_add(&plan, &w->plan[i], string_cm(&h->planting[i]));
    vh_supply_plan_finish(&plan, &h->stock, h->today);
    status = add_supplies(table[VH_TABLE_SUPPLIES], &plan);
    if (status == VH_OK)
        status = vh_result_warn_supplies(table[VH_TABLE_WARNINGS], &plan, h->today);
    vh_supply_plan_clear(&plan);
    return status;
}

enum vh_status vh_result_add_house_work(struct vh_table **table, const struct vh_scenario *s,
                                        struct vh_house_work *w)
{
    enum vh_status status = plan_rounds(s, w);

    if (status == VH_OK)
        status = add_tasks(table[VH_TABLE_TASKS], &s->house, w);
    if (status == VH_OK)
        status = house_hours(table, s, w);
    if (status == VH_OK)
        status = house_supplies(table, s, w);
    return status;
}
