/* Rows of tasks, hours and supplies, for the plantings together. */
#include "vh_result.h"

#include <stdlib.h>

#include "vh_math.h"

#define CM_PER_M 100.0
enum { DONE = 10 };   /* column of the tasks */
enum { TO_COME = 7 }; /* column of the supplies */

/* A pick is written down by its mass or number, all other work by done_<task> and minutes_<task>,
 * fruits_left and lowered_cm. */
static bool is_done(const struct vh_house *h, size_t planting, const struct vh_planned *p)
{
    const struct vh_records *r = &h->records;

    return p->done || (p->task == VH_TASK_PICK &&
                       (!isnan(vh_record_picked_kg(r, planting, p->date, p->date)) ||
                        !isnan(vh_record_picked_fruits(r, planting, p->date, p->date))));
}

/* planting: house->plantings of the rounds of the house. */
static enum vh_status add_task(struct vh_table *t, const struct vh_planned *p,
                               const struct vh_house *house, size_t planting)
{
    const char *name = planting < house->plantings ? house->planting[planting].name : "";

    if (vh_table_add_row(t) != VH_OK || vh_table_set_lasting(t, 1, name) != VH_OK ||
        vh_table_set_lasting(t, 2, vh_task_name(p->task)) != VH_OK ||
        vh_table_set_lasting(t, 4, p->unit) != VH_OK || vh_table_set_text(t, 8, p->note) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, 0, (double)p->date);
    vh_table_set_number(t, 3, p->count);
    vh_table_set_number(t, 5, p->minutes);
    vh_table_set_number(t, 6, p->may_wait_d);
    vh_table_set_number(t, DONE, is_done(house, planting, p) ? 1.0 : 0.0);
    return VH_OK;
}

/* Plans with tasks left, the one whose next task comes first in front: a binary heap. */
struct heads {
    const struct vh_house_work *w;
    size_t *next; /* [plans + 1] its next task */
    size_t *plan, plans;
};

/* By date, then by what may wait least, then by the order of the plans. */
static bool comes_before(const struct heads *h, size_t one, size_t other)
{
    const struct vh_planned *a = &h->w->plan[one].task[h->next[one]],
                            *b = &h->w->plan[other].task[h->next[other]];

    return vh_task_before(a, b) || (one < other && !vh_task_before(b, a));
}

/* Lets the plan at `i` sink to its place. */
static void sink(struct heads *h, size_t i)
{
    const size_t plan = h->plan[i];

    for (size_t child; (child = 2 * i + 1) < h->plans; i = child) {
        if (child + 1 < h->plans && comes_before(h, h->plan[child + 1], h->plan[child]))
            child++;
        if (!comes_before(h, h->plan[child], plan))
            break;
        h->plan[i] = h->plan[child];
    }
    h->plan[i] = plan;
}

static enum vh_status add_in_order(struct vh_table *t, const struct vh_house *house,
                                   struct heads *h)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i <= h->w->plans; i++)
        if (h->w->plan[i].tasks > 0)
            h->plan[h->plans++] = i;
    for (size_t i = h->plans / 2; i-- > 0;)
        sink(h, i);
    while (h->plans > 0 && status == VH_OK) {
        const size_t i = h->plan[0];
        status = add_task(t, &h->w->plan[i].task[h->next[i]++], house, i);
        if (h->next[i] == h->w->plan[i].tasks)
            h->plan[0] = h->plan[--h->plans];
        if (h->plans > 0)
            sink(h, 0);
    }
    return status;
}

/* All plantings in one list: on a day that is too short it is worked off from the top. */
static enum vh_status add_tasks(struct vh_table *t, const struct vh_house *house,
                                const struct vh_house_work *w)
{
    struct heads h = {.w = w,
                      .next = calloc(w->plans + 1, sizeof *h.next),
                      .plan = calloc(w->plans + 1, sizeof *h.plan)};
    const enum vh_status status = h.next && h.plan ? add_in_order(t, house, &h) : VH_NO_MEMORY;

    free(h.next);
    free(h.plan);
    return status;
}

/* Those of a future are laid upon the mean run's by their names: in any order. */
static enum vh_status add_tasks_of_future(struct vh_table *t, const struct vh_house *house,
                                          const struct vh_house_work *w)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i <= w->plans; i++)
        for (size_t k = 0; k < w->plan[i].tasks && status == VH_OK; k++)
            status = add_task(t, &w->plan[i].task[k], house, i);
    return status;
}

static enum vh_status add_hours_row(struct vh_table *t, const struct vh_hours_week *week,
                                    const char *text, const char *task, double hours)
{
    if (!(hours > 0.0))
        return VH_OK;
    if (vh_table_add_row(t) != VH_OK || vh_table_set_lasting(t, 0, text) != VH_OK ||
        vh_table_set_lasting(t, 2, task) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, 1, (double)week->monday);
    vh_table_set_number(t, 3, hours);
    vh_table_set_number(t, 4, week->left_h);
    return VH_OK;
}

static enum vh_status add_hours(struct vh_table *t, const struct vh_run *run,
                                const struct vh_hours *h)
{
    const struct vh_labour *labour = &run->scenario->house.labour;
    enum vh_status status = VH_OK;

    for (size_t w = 0; w < h->weeks; w++) {
        const struct vh_hours_week *week = &h->week[w];
        const char *text = vh_result_week(t, run, week->monday);
        if (!text)
            return VH_NO_MEMORY;
        for (int k = 0; k < VH_TASKS && status == VH_OK; k++)
            status = add_hours_row(t, week, text, vh_task_name((enum vh_task)k), week->hours[k]);
        for (size_t i = 0; i < labour->others && status == VH_OK; i++)
            status = add_hours_row(t, week, text, labour->other[i].what,
                                   labour->other[i].hours_per_week);
    }
    return status;
}

static enum vh_status add_supplies(struct vh_table *t, const struct vh_run *run,
                                   const struct vh_supply_plan *plan)
{
    for (size_t w = 0; w < plan->weeks; w++) {
        const struct vh_supply_week *week = &plan->week[w];
        const char *text = vh_result_week(t, run, week->monday);
        if (!text)
            return VH_NO_MEMORY;
        for (int item = 0; item < VH_SUPPLIES; item++) {
            if (!(week->needed[item] > 0.0) && isnan(week->stock_left[item]))
                continue;
            if (vh_table_add_row(t) != VH_OK || vh_table_set_lasting(t, 0, text) != VH_OK ||
                vh_table_set_lasting(t, 2, vh_supply_name((enum vh_supply)item)) != VH_OK)
                return VH_NO_MEMORY;
            vh_table_set_number(t, 1, (double)week->monday);
            vh_table_set_number(t, 3, week->needed[item]);
            vh_table_set_number(t, 4, week->stock_left[item]);
            vh_table_set_number(t, TO_COME, week->to_come[item]);
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

static enum vh_status house_hours(struct vh_table **table, const struct vh_run *run,
                                  const struct vh_house_work *w)
{
    const struct vh_scenario *s = run->scenario;
    struct vh_hours hours;
    enum vh_status status = vh_hours_init(&hours, s->house.first_day, s->house.last_day);

    if (status != VH_OK)
        return status;
    for (size_t i = 0; i <= w->plans; i++)
        vh_hours_add(&hours, &w->plan[i]);
    vh_hours_finish(&hours, &s->house.labour);
    status = add_hours(table[VH_TABLE_HOURS], run, &hours);
    if (status == VH_OK && run->is_mean)
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

static enum vh_status house_supplies(struct vh_table **table, const struct vh_run *run,
                                     const struct vh_house_work *w)
{
    const struct vh_scenario *s = run->scenario;
    const struct vh_house *h = &s->house;
    struct vh_supply_plan plan;
    enum vh_status status = vh_supply_plan_init(&plan, h->first_day, h->last_day);

    if (status != VH_OK)
        return status;
    for (size_t i = 0; i < w->plans; i++)
        vh_supply_plan_add(&plan, &w->plan[i], string_cm(&h->planting[i]));
    vh_supply_plan_finish(&plan, &h->stock, h->today);
    status = add_supplies(table[VH_TABLE_SUPPLIES], run, &plan);
    if (status == VH_OK && run->is_mean)
        status = vh_result_warn_supplies(table[VH_TABLE_WARNINGS], &plan, h->today);
    vh_supply_plan_clear(&plan);
    return status;
}

enum vh_status vh_result_add_house_work(struct vh_table **table, const struct vh_run *run,
                                        struct vh_house_work *w)
{
    const struct vh_scenario *s = run->scenario;
    enum vh_status status = plan_rounds(s, w);

    if (status == VH_OK)
        status =
            (run->is_mean ? add_tasks : add_tasks_of_future)(table[VH_TABLE_TASKS], &s->house, w);
    if (status == VH_OK)
        status = house_hours(table, run, w);
    if (status == VH_OK)
        status = house_supplies(table, run, w);
    return status;
}
