/* vh_minutes.h - how long the tasks take and how long they may wait: rows of params/work.csv, and
 * the grower's own stopwatch.
 *
 *     minutes = pieces * seconds a piece / 60
 *
 * A piece is a stem, clip, truss, leaf, fruit, plant, row (walk) or planting (clean), by the task.
 */
#ifndef VH_MINUTES_H
#define VH_MINUTES_H

#include "vh_labour.h"
#include "vh_param.h"

struct vh_work_params {
    double seconds[VH_TASKS];    /* a piece */
    double pick_truss_s;         /* a truss that is picked whole */
    double may_wait_d[VH_TASKS]; /* NaN-free; no meaning for walk and clean */
    double plants_a_row;
    double clip_every_cm;
    double support_below_mol; /* mol m-2 d-1: weekly light under which trusses get a support */
    double top_leaves_above;  /* leaves left above the last truss */
    double top_late_d;       /* d before pull-out: too late for a topping left undone */
    double thin_least_off;   /* fruits a truss: fewer are no work */
    double leaf_each;        /* leaves a stem: fewer are told of some stems alone */
    double top_sure;          /* share of the futures in which that truss ripens in time */
    double top_near_d;        /* further off a topping is not judged yet */
    double top_step_d, top_days_tried;
    double top_futures, top_futures_first; /* that say whether it pays, and that find the day */
    double hot_c;
    double free_by_h; /* hour of the day, see vh_visits.h */
    double silent_d;  /* d without a record */
    double missed_d;  /* d without a visit */
    double recover_leaves_most;
    double idle_d; /* d before pull-out without visits but picks */
    double string_least_cm; /* let out, below it a lowering is none */
    double sucker_pinch_cm, sucker_warn_cm;
    double delivery_d;
};

const struct vh_param_field *vh_work_param_fields(size_t *count);

/* Seconds for one piece: her stopwatch of [labour.seconds] before params/work.csv. whole_truss
 * matters to picks. */
double vh_task_seconds(const struct vh_work_params *book, const struct vh_labour *labour,
                       enum vh_task task, bool whole_truss);

#endif
