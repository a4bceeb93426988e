#include "vh_week_work.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct vh_week_task *line_of(struct vh_week_task *task, int *n, const char *planting,
                                    const char *name)
{
    for (int i = 0; i < *n; i++)
        if (!strcmp(task[i].planting, planting) && !strcmp(task[i].task, name))
            return &task[i];
    if (*n >= VH_WEEK_TASKS_MOST)
        return NULL;
    task[*n] = (struct vh_week_task){
        .planting = planting, .task = name, .unit = "", .if_late = "", .may_wait_d = (double)NAN};
    for (int d = 0; d < VH_WEEK_DAYS; d++)
        task[*n].note[d] = "";
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

/* Minutes that a person plans by: nobody looks at the clock more often in a long week, from five
 * hours on (common practice, no source), unless half of it would be rounded away. */
static double step_of(double sum, size_t rows)
{
    const double fine_min = 1.0, coarse_min = 5.0, long_week_min = 300.0;

    return sum >= long_week_min && coarse_min * (double)rows <= 0.5 * sum ? coarse_min : fine_min;
}

/* The row that got least (sign 1) or most (-1) against its true time; of those that got more than
 * a step when it is to give. */
static size_t farthest(const double *given, const double *minutes, size_t n, double sign)
{
    size_t at = n;

    for (size_t i = 0; i < n; i++)
        if (minutes[i] > 0.0 && (sign > 0.0 || given[i] > 1.0) &&
            (at == n || sign * (minutes[i] - given[i]) > sign * (minutes[at] - given[at])))
            at = i;
    return at;
}

void vh_week_share_out(double *minutes, size_t n)
{
    double given[VH_WEEK_TASKS_MOST + 2], sum = 0.0;
    size_t rows = 0;

    for (size_t i = 0; i < n; i++) {
        sum += minutes[i];
        rows += minutes[i] > 0.0;
    }
    const double step = step_of(sum, rows);
    double left = fmax(round(sum / step), (double)rows); /* steps to be given */
    for (size_t i = 0; i < n; i++) {
        minutes[i] /= step;
        given[i] = minutes[i] > 0.0 ? fmax(1.0, floor(minutes[i])) : 0.0;
        left -= given[i];
    }
    for (const double sign = left > 0.0 ? 1.0 : -1.0; fabs(left) > 0.5; left -= sign) {
        const size_t at = farthest(given, minutes, n, sign);
        if (at == n)
            break;
        given[at] += sign;
    }
    for (size_t i = 0; i < n; i++)
        minutes[i] = step * given[i];
}

static void share_out(struct vh_week *week)
{
    double minutes[VH_WEEK_TASKS_MOST + 2];
    size_t n = 0;

    for (int i = 0; i < week->tasks; i++)
        minutes[n++] = week->task[i].minutes;
    minutes[n++] = week->walking_min;
    minutes[n++] = week->beyond_min;
    vh_week_share_out(minutes, n);
    week->total_min = 0.0;
    for (size_t i = 0; i < n; i++)
        week->total_min += minutes[i];
    week->beyond_min = minutes[--n];
    week->walking_min = minutes[--n];
    while (n-- > 0)
        week->task[n].minutes = minutes[n];
}

/* What a note says of the day; behind it comes what holds on all days: "; slowly, ...". */
static size_t of_the_day(const char *note)
{
    return strcspn(note, ";");
}

/* Do all its days say the same behind the first semicolon? */
static bool ends_alike(const struct vh_week_task *task, const char *end)
{
    for (int d = 0; d < VH_WEEK_DAYS; d++)
        if (task->on[d] && strcmp(task->note[d] + of_the_day(task->note[d]), end) != 0)
            return false;
    return true;
}

static const char *const weekday[] = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/* Of the first day that has it. */
static const char *first_weekday(const struct vh_week_task *task, int64_t first_day)
{
    int d = 0;

    while (d + 1 < VH_WEEK_DAYS && !task->on[d])
        d++;
    return weekday[vh_date_weekday(first_day + d)];
}

void vh_week_note(const struct vh_week_task *task, int64_t first_day, enum vh_say_units units,
                  char *said, size_t room)
{
    enum { DAYS_MOST = 3 };
    const char *first = NULL;
    char text[400] = "";
    int days = 0;
    bool same = true;

    for (int d = 0; d < VH_WEEK_DAYS; d++) {
        if (!task->on[d])
            continue;
        first = first ? first : task->note[d];
        days++;
        same = same && strcmp(task->note[d], first) == 0;
    }
    const char *end = first ? first + of_the_day(first) : "";
    if (!first || same || days > DAYS_MOST || !ends_alike(task, end)) {
        const char *which = !first || (same && days < 2)       ? ""
                            : !same                            ? first_weekday(task, first_day)
                            : strncmp(first, "about ", 6) == 0 ? "each time"
                                                               : "";
        snprintf(text, sizeof text, "%s%s%s", which, which[0] ? " " : "", first ? first : "");
        for (int d = 0; d < VH_WEEK_DAYS; d++) /* goes another way than all others, and once */
            if (task->on[d] && task->note[d] != first && strstr(task->note[d], ", the last pick: "))
                snprintf(text + strlen(text), sizeof text - strlen(text), "; %s %s",
                         weekday[vh_date_weekday(first_day + d)], task->note[d]);
        vh_say_measures_in(text, units, said, room);
        return;
    }
    for (int d = 0; d < VH_WEEK_DAYS; d++)
        if (task->on[d])
            snprintf(text + strlen(text), sizeof text - strlen(text), "%s%s %.*s",
                     text[0] ? "; " : "", weekday[vh_date_weekday(first_day + d)],
                     (int)of_the_day(task->note[d]), task->note[d]);
    snprintf(text + strlen(text), sizeof text - strlen(text), "%s", end);
    vh_say_measures_in(text, units, said, room);
}

void vh_week_tasks(const struct vh_result *result, int64_t first_day, struct vh_week *week)
{
    const struct vh_table *t = vh_result_table_named(result, "tasks");

    week->tasks = 0;
    week->walking_min = week->beyond_min = 0.0;
    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date") - (double)first_day;
        const double count = vh_cell_number(t, i, "count");
        const double wait = vh_cell_number(t, i, "may_wait_d");
        const double minutes = fmax(0.0, vh_cell_number(t, i, "minutes"));
        const char *name = vh_cell_text(t, i, "task");
        if (!(day >= 0.0 && day < VH_WEEK_DAYS))
            continue;
        if (vh_cell_number(t, i, "done") > 0.0)
            continue;
        if (!strcmp(name, "walk")) {
            week->walking_min += minutes;
            continue;
        }
        struct vh_week_task *line =
            line_of(week->task, &week->tasks, vh_cell_text(t, i, "planting"), name);
        if (!line) {
            week->beyond_min += minutes;
            continue;
        }
        if (!line->on[(int)day])
            line->note[(int)day] = vh_cell_text(t, i, "note");
        line->on[(int)day] = true;
        line->count[(int)day] += isfinite(count) ? count : 0.0;
        line->total += isfinite(count) ? count : 0.0;
        line->minutes += minutes;
        if (wait < waits(line))
            line->may_wait_d = wait;
        const double cost = vh_cell_number(t, i, "cost_of_waiting");
        line->cost += isfinite(cost) ? cost : 0.0;
        if (!line->if_late[0])
            line->if_late = vh_cell_text(t, i, "if_late");
        line->unit = vh_cell_text(t, i, "unit");
    }
    qsort(week->task, (size_t)week->tasks, sizeof week->task[0], by_urgency);
    share_out(week);
}
