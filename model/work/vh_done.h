/* vh_done.h - work that was really done, or left undone: what the records say in place of the plan.
 *
 * A plan is not a fact (model.md section 9). On a day with an entry for a task the entry holds; on
 * a past day without one the plan is taken to have been kept.
 */
#ifndef VH_DONE_H
#define VH_DONE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "vh_task.h"

/* done_<task>: 1 done, 0 left undone, or the share of the stems reached. */
struct vh_done_task {
    int64_t day;
    enum vh_task task;
    double share;
};

/* fruits_left: fruits on a truss after taking off. */
struct vh_done_fruits {
    int64_t day;
    int truss;
    double fruits;
};

/* lowered_cm: string let out on a day; above 0. */
struct vh_done_lowered {
    int64_t day;
    double cm;
};

/* minutes_<task>: by her own clock, for the whole planting. */
struct vh_done_minutes {
    int64_t day;
    enum vh_task task;
    double minutes;
};

/* A weighing or count of picks: `until` is the day of the entry. is_whole: nothing was picked on
 * the days before it, from `from` on; else the plan's picks among them were made and weighed with
 * it. is_none: "0 kg", nothing was picked on all of them; what is ripe hangs on. */
struct vh_done_pick {
    int64_t from, until;
    bool is_whole, is_none;
};

/* Of one planting, each list in date order. Zeroed: nothing is known. The arrays belong to who
 * filled it (the house). */
struct vh_done {
    struct vh_done_task *task;
    size_t tasks;
    struct vh_done_fruits *fruits;
    size_t fruits_rows;
    struct vh_done_lowered *lowered;
    size_t lowered_rows;
    struct vh_done_minutes *minutes;
    size_t minutes_rows;
    struct vh_done_pick *pick;
    size_t picks;     /* 0: no entry, or each is of several picks: then the plan's pick days hold */
    double given_up_d; /* after so many days what was left undone is asked for no more */
    bool any;         /* any record row of this planting */
    int64_t last_day; /* of any record row of this planting */
};

/* Share of the stems on which the task was done on `day`, by the records; planned when they say
 * nothing. A task that was done although the plan has no visit gives its share too. */
double vh_done_share(const struct vh_done *done, enum vh_task task, int64_t day, double planned);
/* Fewer of the stems than this: the visit was not made. */
extern const double vh_done_least_share;
/* The day on which a task is asked for again that its last entry says was left undone: the next
 * one, today where that is past. INT64_MAX: there is none, or it is given up (given_up_d). */
int64_t vh_done_again(const struct vh_done *done, enum vh_task task, int64_t today);
/* Work that was due on `date`: that day, or where it was left undone the one on which it is asked
 * for again. */
int64_t vh_done_moved(const struct vh_done *done, enum vh_task task, int64_t date, int64_t today);
/* Is there an entry for the task on that day? */
bool vh_done_said(const struct vh_done *done, enum vh_task task, int64_t day);

#endif
