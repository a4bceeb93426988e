/* vh_minutes.h - how long the tasks take and how long they may wait: rows of params/work.csv, and
 * the grower's own stopwatch. */
#ifndef VH_MINUTES_H
#define VH_MINUTES_H

#include <stdint.h>

#include "vh_param.h"
#include "vh_task.h"

struct vh_work_params {
    double seconds[VH_TASKS];    /* a unit of the task: a stem, truss, leaf, kg, plant, visit */
    double may_wait_d[VH_TASKS]; /* 0 for walk and clean */
    double clip_every_cm;
    double support_below_mol; /* mol m-2 d-1: weekly light under which trusses get a support */
    double pick_at_end_d;     /* d: least time a truss needs before pull-out */
    double top_leaves_above;  /* leaves left above the last truss */
    double silent_d;          /* d without a record */
    double recover_leaves_most;
    double sucker_pinch_cm, sucker_warn_cm;
    double delivery_d;
};

const struct vh_param_field *vh_work_param_fields(size_t *count);

/* What the grower has: [labour] and [stock]. NaN: not given. */
struct vh_other_work {
    char *what;
    double hours_per_week;
};

struct vh_labour {
    double per_h, hours_per_week;
    double seconds[VH_TASKS]; /* her stopwatch; NaN: that of params/work.csv */
    struct vh_other_work *other;
    size_t others;
};

enum vh_supply {
    VH_SUPPLY_CLIPS,
    VH_SUPPLY_STRING,
    VH_SUPPLY_HOOKS,
    VH_SUPPLY_SUPPORTS,
    VH_SUPPLIES
};

struct vh_stock {
    double have[VH_SUPPLIES]; /* clips, string in m, hooks, truss supports */
    double delivery_d;
    double cost_each[VH_SUPPLIES]; /* string: per m */
    double cost_plant;
};

/* "clips", "string", "hooks", "truss supports" */
const char *vh_supply_name(enum vh_supply item);

/* Seconds for one unit: her stopwatch of [labour.seconds] before the book's. */
double vh_task_seconds(const struct vh_work_params *book, const struct vh_labour *labour,
                       enum vh_task task);

#endif
