/* vh_week_work.h - the work of the coming days, gathered: one line for each planting and task, in
 * the order of urgency. Screen, page and sheet all show this list. */
#ifndef VH_WEEK_WORK_H
#define VH_WEEK_WORK_H

#include "vinehand.h"

#define VH_WEEK_DAYS 7
#define VH_WEEK_TASKS_MOST 200

struct vh_week_task {
    const char *planting, *task, *unit; /* views of the result */
    const char *note;                   /* of the first day */
    bool on[VH_WEEK_DAYS];              /* from the first day on */
    double count[VH_WEEK_DAYS];
    double total, minutes;
    double may_wait_d;   /* least of its days; NaN: not known */
    const char *if_late; /* what a week of waiting brings where no kilograms are reckoned; "" */
    double cost;         /* of waiting a week: money, or kg without prices; 0: none known */
};

/* Tasks of [first_day, first_day + 7) that are to be done, walking left out; sorted by the
 * last day on which they may still be done, then by what waiting costs, then by the longest time.
 * How many. */
int vh_week_tasks(const struct vh_result *result, int64_t first_day,
                  struct vh_week_task task[VH_WEEK_TASKS_MOST]);

#endif
