#include <math.h>
#include <string.h>

#include "vh_week_work.h"

bool vh_week_is_pick(const struct vh_week_task *task)
{
    return !strcmp(task->task, "pick");
}

static bool waits_as_long(const struct vh_week_line *line, const struct vh_week_task *task)
{
    return isfinite(line->may_wait_d) == isfinite(task->may_wait_d) &&
           !(floor(line->may_wait_d) != floor(task->may_wait_d) && isfinite(task->may_wait_d));
}

/* Does what is to be done hang on its note? */
static bool is_told_how(const struct vh_week_task *task)
{
    return !strcmp(task->task, "thin") || !strcmp(task->task, "top");
}

static bool goes_with(const struct vh_week_line *line, const struct vh_week_task *task,
                      bool in_brief)
{
    const struct vh_week_task *first = line->task[0];

    if (line->tasks == VH_WEEK_SAME_MOST || strcmp(first->task, task->task) != 0)
        return false;
    if (vh_week_is_pick(task))
        return true;
    if (!waits_as_long(line, task))
        return false;
    if (task->may_wait_d < 1.0 && strcmp(first->if_late, task->if_late) != 0)
        return false; /* the reason stands beside it */
    if (in_brief && !is_told_how(task))
        return true;
    for (int d = 0; d < VH_WEEK_DAYS; d++) /* done alike, on whatever days */
        for (int e = 0; e < VH_WEEK_DAYS; e++)
            if (first->on[d] && task->on[e] && strcmp(first->note[d], task->note[e]) != 0)
                return false;
    return true;
}

int vh_week_lines(const struct vh_week *week, bool in_brief,
                  struct vh_week_line line[VH_WEEK_TASKS_MOST])
{
    int n = 0;

    for (int i = 0; i < week->tasks; i++) {
        const struct vh_week_task *task = &week->task[i];
        int at = 0;
        while (at < n && !goes_with(&line[at], task, in_brief))
            at++;
        if (at == n)
            line[n++] = (struct vh_week_line){.may_wait_d = task->may_wait_d};
        line[at].task[line[at].tasks++] = task;
        line[at].minutes += task->minutes;
        if (task->may_wait_d < line[at].may_wait_d)
            line[at].may_wait_d = task->may_wait_d;
        line[at].cost += task->cost;
        for (int d = 0; d < VH_WEEK_DAYS; d++)
            line[at].on[d] = line[at].on[d] || task->on[d];
    }
    return n;
}
