/* vh_hours.h - hours of each ISO week by task, over all plantings, against the hours there are. */
#ifndef VH_HOURS_H
#define VH_HOURS_H

#include "vh_task_plan.h"

struct vh_hours_week {
    int64_t monday;
    double hours[VH_TASKS];
    double left_h; /* NaN: her hours are not given */
};

struct vh_hours {
    struct vh_hours_week *week; /* [weeks], every week from the first to the last */
    size_t weeks;
};

/* Over the weeks that hold first_day..last_day. VH_NO_MEMORY. */
enum vh_status vh_hours_init(struct vh_hours *h, int64_t first_day, int64_t last_day);
/* The week of a day; NULL: it lies outside. */
struct vh_hours_week *vh_hours_week_of(struct vh_hours *h, int64_t day);
void vh_hours_add(struct vh_hours *h, const struct vh_task_plan *plan);
/* What is left of her hours, which are those for the vines: the rest of her week (other_work) is
 * told beside them, not taken from them. */
void vh_hours_finish(struct vh_hours *h, const struct vh_labour *labour);
void vh_hours_clear(struct vh_hours *h);

/* Hours of all tasks of a week. */
double vh_hours_of(const struct vh_hours_week *week);

#endif
