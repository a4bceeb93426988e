#include "vh_supply.h"

#include <math.h>
#include <stdlib.h>

#include "vh_date.h"
#include "vh_math.h"

#define CM_PER_M 100.0
#define DAYS_PER_WEEK 7
#define NOTHING 1e-9 /* of a piece: rounding */

enum vh_status vh_supply_plan_init(struct vh_supply_plan *plan, int64_t first_day, int64_t last_day)
{
    const int64_t first = vh_date_monday(first_day);
    const size_t weeks = (size_t)((vh_date_monday(last_day) - first) / DAYS_PER_WEEK) + 1;

    *plan = (struct vh_supply_plan){
        .week = calloc(weeks, sizeof *plan->week),
        .weeks = weeks,
        .day = calloc(weeks * DAYS_PER_WEEK * VH_SUPPLIES, sizeof *plan->day),
        .days = weeks * DAYS_PER_WEEK};
    if (!plan->week || !plan->day) {
        vh_supply_plan_clear(plan);
        return VH_NO_MEMORY;
    }
    for (size_t w = 0; w < weeks; w++)
        plan->week[w].monday = first + DAYS_PER_WEEK * (int64_t)w;
    return VH_OK;
}

static void use(struct vh_supply_plan *plan, size_t day, enum vh_supply item, double amount)
{
    plan->day[day * VH_SUPPLIES + (size_t)item] += amount;
    plan->week[day / DAYS_PER_WEEK].needed[item] += amount;
}

void vh_supply_plan_add(struct vh_supply_plan *plan, const struct vh_task_plan *tasks,
                        double string_cm)
{
    for (size_t i = 0; i < tasks->tasks; i++) {
        const struct vh_planned *t = &tasks->task[i];
        const int64_t day = t->date - plan->week[0].monday;
        if (day < 0 || (size_t)day >= plan->days || t->blocked)
            continue;
        if (t->task == VH_TASK_CLIP)
            use(plan, (size_t)day, VH_SUPPLY_CLIPS, t->used);
        if (t->task == VH_TASK_SUPPORT)
            use(plan, (size_t)day, VH_SUPPLY_SUPPORTS, t->used);
        if (t->task == VH_TASK_STRING) {
            use(plan, (size_t)day, VH_SUPPLY_HOOKS, t->used);
            use(plan, (size_t)day, VH_SUPPLY_STRING, t->used * string_cm / CM_PER_M);
        }
    }
}

static void draw_down(struct vh_supply_plan *plan, int item, double have, double delivery_d,
                      int64_t today)
{
    double left = have;

    plan->runs_out[item] = plan->order_by[item] = INT64_MAX;
    for (size_t d = 0; d < plan->days; d++) {
        const int64_t date = plan->week[0].monday + (int64_t)d;
        if (date >= today) {
            left -= plan->day[d * VH_SUPPLIES + (size_t)item];
            plan->week[d / DAYS_PER_WEEK].to_come[item] +=
                plan->day[d * VH_SUPPLIES + (size_t)item];
        }
        if (left < -NOTHING && plan->runs_out[item] == INT64_MAX) {
            plan->runs_out[item] = date;
            plan->order_by[item] = date - (int64_t)ceil(delivery_d);
        }
        if (d % DAYS_PER_WEEK == DAYS_PER_WEEK - 1)
            plan->week[d / DAYS_PER_WEEK].stock_left[item] =
                date >= today ? vh_max(0.0, left) : VH_UNKNOWN;
    }
    plan->left[item] = left;
}

void vh_supply_plan_finish(struct vh_supply_plan *plan, const struct vh_stock *stock, int64_t today)
{
    for (int item = 0; item < VH_SUPPLIES; item++)
        draw_down(plan, item, stock->have[item], stock->delivery_d, today);
}

void vh_supply_plan_clear(struct vh_supply_plan *plan)
{
    free(plan->week);
    free(plan->day);
    *plan = (struct vh_supply_plan){0};
}
