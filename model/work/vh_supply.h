/* vh_supply.h - clips, string, hooks and truss supports: what each week uses over all plantings,
 * when the stock is used up, and when to order.
 */
#ifndef VH_SUPPLY_H
#define VH_SUPPLY_H

#include "vh_task_plan.h"

struct vh_supply_week {
    int64_t monday;
    double needed[VH_SUPPLIES];     /* string in m */
    double to_come[VH_SUPPLIES];    /* of it from today on */
    double stock_left[VH_SUPPLIES]; /* at its end; NaN: past, or the stock is not known */
};

struct vh_supply_plan {
    struct vh_supply_week *week; /* [weeks], every week from the first to the last */
    size_t weeks;
    double *day; /* [days][VH_SUPPLIES] needed, from the first Monday on */
    size_t days;
    double left[VH_SUPPLIES];      /* at the end; below 0: so many are missing */
    int64_t runs_out[VH_SUPPLIES]; /* the day whose work finds too few; INT64_MAX: lasts, or not
                                      known */
    int64_t order_by[VH_SUPPLIES]; /* delivery_d before; may lie in the past */
};

/* Over the weeks that hold first_day..last_day. VH_NO_MEMORY. */
enum vh_status vh_supply_plan_init(struct vh_supply_plan *plan, int64_t first_day,
                                   int64_t last_day);
/* Adds what a planting's tasks use: clips (used ones that come back taken off), a hook and its
 * string_cm of string a stem, a support a truss. */
void vh_supply_plan_add(struct vh_supply_plan *plan, const struct vh_task_plan *tasks,
                        double string_cm);
/* Draws the stock of today's morning down. */
void vh_supply_plan_finish(struct vh_supply_plan *plan, const struct vh_stock *stock,
                           int64_t today);
void vh_supply_plan_clear(struct vh_supply_plan *plan);

#endif
