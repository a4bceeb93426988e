/* vh_supply.h - clips, string, hooks and truss supports: what each week uses, and when to order. */
#ifndef VH_SUPPLY_H
#define VH_SUPPLY_H

#include "vh_task_plan.h"

struct vh_supply_week {
    int64_t monday;
    double needed[VH_SUPPLIES];     /* string in m */
    double stock_left[VH_SUPPLIES]; /* NaN: the stock is not known */
};

struct vh_supply_plan {
    struct vh_supply_week *week; /* [weeks], every week from the first to the last */
    size_t weeks;
    int64_t runs_out[VH_SUPPLIES]; /* INT64_MAX: lasts, or not known */
    int64_t order_by[VH_SUPPLIES];
};

/* Starts an empty plan over the weeks that hold first_day..last_day. VH_NO_MEMORY. */
enum vh_status vh_supply_plan_init(struct vh_supply_plan *plan, int64_t first_day,
                                   int64_t last_day);
/* Adds what a planting's tasks use, from `from` on: one clip a clip, one hook and its wound string
 * a stem, one support a truss. reuse: clips come back from stem that is laid down. */
void vh_supply_plan_add(struct vh_supply_plan *plan, const struct vh_task_plan *tasks,
                        const struct vh_lower_policy *lower, bool reuse_clips, int64_t from);
/* Draws the stock down from today on. delivery_d: days from order to delivery. */
void vh_supply_plan_finish(struct vh_supply_plan *plan, const struct vh_stock *stock,
                           double delivery_d, int64_t today);
void vh_supply_plan_clear(struct vh_supply_plan *plan);

#endif
