#include "vh_week_work.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "vh_cells.h"

static struct vh_week_task *line_of(struct vh_week_task *task, int *n, const char *planting,
                                    const char *name)
{
    for (int i = 0; i < *n; i++)
        if (!strcmp(task[i].planting, planting) && !strcmp(task[i].task, name))
            return &task[i];
    if (*n >= VH_WEEK_TASKS_MOST)
        return NULL;
    task[*n] = (struct vh_week_task){.planting = planting,
                                     .task = name,
                                     .unit = "",
                                     .note = "",
                                     .if_late = "",
                                     .may_wait_d = (double)NAN};
    return &task[(*n)++];
}

static double waits(const struct vh_week_task *t)
{
    return isfinite(t->may_wait_d) ? t->may_wait_d : HUGE_VAL;
}

/* The last day on which its first visit may still be made, from the first day of the week. */
static double latest(const struct vh_week_task *t)
{
    int day = 0;

    while (day < VH_WEEK_DAYS - 1 && !t->on[day])
        day++;
    return day + floor(waits(t));
}

static int by_urgency(const void *one, const void *other)
{
    const struct vh_week_task *a = one, *b = other;

    if (latest(a) != latest(b))
        return latest(a) < latest(b) ? -1 : 1;
    if (a->cost != b->cost)
        return a->cost > b->cost ? -1 : 1;
    if (a->minutes != b->minutes)
        return a->minutes > b->minutes ? -1 : 1;
    const int planting = strcmp(a->planting, b->planting);
    return planting ? planting : strcmp(a->task, b->task);
}

int vh_week_tasks(const struct vh_result *result, int64_t first_day,
                  struct vh_week_task task[VH_WEEK_TASKS_MOST])
{
    const struct vh_table *t = vh_result_table_named(result, "tasks");
    int n = 0;

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date") - (double)first_day;
        const double count = vh_cell_number(t, i, "count");
        const double wait = vh_cell_number(t, i, "may_wait_d");
        const char *name = vh_cell_text(t, i, "task");
        if (!(day >= 0.0 && day < VH_WEEK_DAYS) || !strcmp(name, "walk"))
            continue;
        struct vh_week_task *line = line_of(task, &n, vh_cell_text(t, i, "planting"), name);
        if (!line)
            break;
        line->on[(int)day] = true;
        line->count[(int)day] += isfinite(count) ? count : 0.0;
        line->total += isfinite(count) ? count : 0.0;
        line->minutes += fmax(0.0, vh_cell_number(t, i, "minutes"));
        if (wait < waits(line))
            line->may_wait_d = wait;
        const double cost = vh_cell_number(t, i, "cost_of_waiting");
        line->cost += isfinite(cost) ? cost : 0.0;
        if (!line->note[0])
            line->note = vh_cell_text(t, i, "note");
        if (!line->if_late[0])
            line->if_late = vh_cell_text(t, i, "if_late");
        line->unit = vh_cell_text(t, i, "unit");
    }
    qsort(task, (size_t)n, sizeof task[0], by_urgency);
    return n;
}
