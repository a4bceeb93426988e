/* vh_task_plan.h - the dated tasks of a planting: what, how much, how long, how long it may wait.
 */
#ifndef VH_TASK_PLAN_H
#define VH_TASK_PLAN_H

#include "vh_lower.h"
#include "vh_minutes.h"

#define VH_TASK_NOTE 120

struct vh_planned {
    int64_t date;
    enum vh_task task;
    double count;
    const char *unit; /* "stems", "clips", "fruits", "leaves", "kg", "fruit", "trusses", "plants" */
    double minutes;
    double may_wait_d;       /* NaN: it has no urgency of its own (walking, cleaning) */
    bool done;               /* by the records */
    char note[VH_TASK_NOTE]; /* how, in plain words */
};

struct vh_task_plan {
    struct vh_planned *task; /* [tasks], by date, then in the order of enum vh_task */
    size_t tasks, room;
};

struct vh_task_request {
    const struct vh_work_series *series;
    const struct vh_lower_plan *lowering;
    const struct vh_work_params *book;
    const struct vh_labour *labour; /* may be NULL */
};

/* A task is there only if the crop and the habits need it: no pollination where bees or the crop
 * itself see to it, no lowering without a wire. On past days the records replace the plan.
 * VH_NO_MEMORY. Clear with vh_task_plan_clear. */
enum vh_status vh_task_plan(const struct vh_task_request *request, struct vh_task_plan *out);
void vh_task_plan_clear(struct vh_task_plan *plan);

/* The day by which the growing tips should be taken out so that the last truss is still picked, and
 * that truss (from 1); INT64_MAX: topping would win nothing in this season. */
int64_t vh_topping_proposed(const struct vh_task_request *request, int *last_truss);

/* Does truss i (from 0) flower in light so low that it gets a support? Its date; INT64_MAX: no. */
int64_t vh_support_on(const struct vh_task_request *request, size_t truss);

#endif
