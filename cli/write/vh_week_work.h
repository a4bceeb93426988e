/* vh_week_work.h - the work of the coming days, gathered for each planting and task, in the
 * order of urgency. Screen, page and sheet all show this list. */
#ifndef VH_WEEK_WORK_H
#define VH_WEEK_WORK_H

#include "vh_say_numbers.h"
#include "vinehand.h"

#define VH_WEEK_DAYS 7
#define VH_WEEK_TASKS_MOST 200
#define VH_WEEK_SAME_MOST 8 /* plantings of a line */

struct vh_week_task {
    const char *planting, *task, *unit; /* views of the result */
    const char *note[VH_WEEK_DAYS];     /* how; "" on a day without it, or with nothing to say */
    bool on[VH_WEEK_DAYS];              /* from the first day on */
    double count[VH_WEEK_DAYS];
    double total, minutes;
    double may_wait_d;   /* least of its days; NaN: not known */
    const char *if_late; /* what a week of waiting brings where no kilograms are reckoned; "" */
    double cost;         /* of waiting a week: money, or kg without prices; 0: none known */
};

/* The work of a week. Times are those that are said, so that they add up wherever they are
 * gathered: total_min is the sum of the tasks' minutes, walking_min and beyond_min. */
struct vh_week {
    struct vh_week_task task[VH_WEEK_TASKS_MOST];
    int tasks;
    double walking_min;
    double beyond_min; /* of tasks that found no room in the list */
    double total_min;
};

/* Tasks of [first_day, first_day + 7) that are to be done and not written down as done, sorted by
 * the last day on which they may still be done, then by what waiting costs, then by the longest
 * time. */
void vh_week_tasks(const struct vh_result *result, int64_t first_day, struct vh_week *week);
/* The same thing to do in several plantings. */
struct vh_week_line {
    const struct vh_week_task *task[VH_WEEK_SAME_MOST];
    int tasks;
    bool on[VH_WEEK_DAYS];
    double minutes, may_wait_d, cost; /* sum; least; sum */
};

/* Lines of the week's tasks, in their order: those that are done alike and may wait as long stand
 * together, and all picks. in_brief: how a task is done is not said, but where it is thinned or
 * topped, so only there it must be alike. Returns how many. */
int vh_week_lines(const struct vh_week *week, bool in_brief,
                  struct vh_week_line line[VH_WEEK_TASKS_MOST]);
/* Is it picking? */
bool vh_week_is_pick(const struct vh_week_task *task);
/* How a task is done, in her measures: "30 cm, 1.5 turns; slowly, no sharp bend"; where its days
 * differ "Tue 30 cm, 1.5 turns; Fri 32 cm, 2 turns; slowly, no sharp bend". "": nothing is said. */
void vh_week_note(const struct vh_week_task *task, int64_t first_day, enum vh_say_units units,
                  char *said, size_t room);
/* Rounds minutes[n] so that they add up to their rounded sum: to whole minutes, and in weeks of
 * five hours or more to five minutes where the rows are large enough for it. What is more than 0
 * keeps one step at least; the largest gives way (largest-remainder rule). */
void vh_week_share_out(double *minutes, size_t n);

#endif
