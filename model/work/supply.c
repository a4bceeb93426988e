#include "vh_supply.h"

#include <math.h>
#include <stdlib.h>

#include "vh_date.h"
#include "vh_math.h"
#include "vinehand.h"

#define CM_PER_M 100.0
#define DAYS_PER_WEEK 7

static int64_t monday_of(int64_t day)
{
    return day - vh_date_weekday(day);
}

enum vh_status vh_supply_plan_init(struct vh_supply_plan *plan, int64_t first_day, int64_t last_day)
{
    const int64_t first = monday_of(first_day);
    const size_t weeks = (size_t)((monday_of(last_day) - first) / DAYS_PER_WEEK) + 1;

    *plan = (struct vh_supply_plan){.week = calloc(weeks, sizeof *plan->week), .weeks = weeks};
    if (!plan->week)
        return VH_NO_MEMORY;
    for (size_t w = 0; w < weeks; w++)
        plan->week[w].monday = first + DAYS_PER_WEEK * (int64_t)w;
    return VH_OK;
}

void vh_supply_plan_add(struct vh_supply_plan *plan, const struct vh_task_plan *tasks,
                        const struct vh_lower_policy *lower, bool reuse_clips, int64_t from)
{
    for (size_t i = 0; i < tasks->tasks; i++) {
        const struct vh_planned *t = &tasks->task[i];
        const int64_t week = (t->date - plan->week[0].monday) / DAYS_PER_WEEK;
        if (t->date < from || week < 0 || (size_t)week >= plan->weeks)
            continue;
        double *needed = plan->week[week].needed;
        if (t->task == VH_TASK_CLIP && !reuse_clips)
            needed[VH_SUPPLY_CLIPS] += t->count;
        if (t->task == VH_TASK_SUPPORT)
            needed[VH_SUPPLY_SUPPORTS] += t->count;
        if (t->task == VH_TASK_STRING && lower->given) {
            needed[VH_SUPPLY_HOOKS] += t->count;
            needed[VH_SUPPLY_STRING] += t->count * lower->string_cm / CM_PER_M;
        }
    }
}

static void draw_down(struct vh_supply_plan *plan, int item, double have, double delivery_d,
                      int64_t today)
{
    double left = have;

    plan->runs_out[item] = plan->order_by[item] = INT64_MAX;
    for (size_t w = 0; w < plan->weeks; w++) {
        struct vh_supply_week *week = &plan->week[w];
        const double needed = week->needed[item];
        week->stock_left[item] = VH_UNKNOWN;
        if (isnan(have) || week->monday + DAYS_PER_WEEK <= today)
            continue;
        if (needed > left && plan->runs_out[item] == INT64_MAX) {
            const double share = needed > 0.0 ? vh_max(0.0, left) / needed : 0.0;
            const int64_t day = week->monday + (int64_t)(DAYS_PER_WEEK * share);
            plan->runs_out[item] = day < today ? today : day;
            plan->order_by[item] = plan->runs_out[item] - (int64_t)ceil(delivery_d);
            if (plan->order_by[item] < today)
                plan->order_by[item] = today;
        }
        left = vh_max(0.0, left - needed);
        week->stock_left[item] = left;
    }
}

void vh_supply_plan_finish(struct vh_supply_plan *plan, const struct vh_stock *stock,
                           double delivery_d, int64_t today)
{
    for (int item = 0; item < VH_SUPPLIES; item++)
        draw_down(plan, item, stock->have[item], delivery_d, today);
}

void vh_supply_plan_clear(struct vh_supply_plan *plan)
{
    free(plan->week);
    *plan = (struct vh_supply_plan){0};
}
