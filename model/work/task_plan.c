#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "task_parts.h"
#include "vh_date.h"
#include "vh_math.h"
#include "vh_visits.h"

#define SECONDS_PER_MIN 60.0

int64_t vh_task_date(const struct vh_task_planning *g, size_t day)
{
    return g->series->first_day + (int64_t)day;
}

static struct vh_planned *room_for_one(struct vh_task_plan *p)
{
    if (p->tasks == p->room) {
        const size_t first = 256, room = p->room ? 2 * p->room : first;
        struct vh_planned *more = realloc(p->task, room * sizeof *more);
        if (!more)
            return NULL;
        p->task = more;
        p->room = room;
    }
    return &p->task[p->tasks++];
}

struct vh_planned *vh_task_add(struct vh_task_planning *g, int64_t date, enum vh_task task,
                               double count, const char *unit)
{
    const bool has_urgency = task != VH_TASK_WALK && task != VH_TASK_CLEAN;

    if (!(count >= VH_LEAST_COUNT) || g->status != VH_OK)
        return NULL;
    struct vh_planned *t = room_for_one(g->out);
    if (!t) {
        g->status = VH_NO_MEMORY;
        return NULL;
    }
    *t = (struct vh_planned){.date = date,
                             .task = task,
                             .count = count,
                             .unit = unit,
                             .pieces = count,
                             .used = count,
                             .may_wait_d =
                                 has_urgency ? g->request->book->may_wait_d[task] : VH_UNKNOWN,
                             .done = g->series && vh_done_said(g->series->done, task, date)};
    return t;
}

void vh_task_say(struct vh_planned *t, const char *text)
{
    const size_t room = sizeof t->note - t->noted, n = strlen(text);
    const size_t kept = n < room ? n : room - 1;

    memcpy(t->note + t->noted, text, kept);
    t->noted += kept;
    t->note[t->noted] = '\0';
}

static void say_digits(struct vh_planned *t, uint64_t n)
{
    char digits[32], *at = digits + sizeof digits - 1;

    *at = '\0';
    do
        *--at = (char)('0' + n % 10);
    while ((n /= 10) > 0);
    vh_task_say(t, at);
}

void vh_task_say_whole(struct vh_planned *t, double value)
{
    const double even = 0x1.8p52; /* added and taken off again: to the nearest, as printf does */

    if (value >= 0.0 && value < 0x1p50)
        say_digits(t, (uint64_t)(value + even - even));
    else
        vh_task_note(t, "%.0f", value);
}

void vh_task_say_counted(struct vh_planned *t, double value)
{
    const double near = 0.2, low = floor(value), rest = value - low;

    if (rest <= near && low >= 1.0) {
        vh_task_say_whole(t, low);
        return;
    }
    if (rest < 1.0 - near) {
        vh_task_say_whole(t, low);
        vh_task_say(t, " or ");
    }
    vh_task_say_whole(t, low + 1.0);
}

void vh_task_say_halves(struct vh_planned *t, double value)
{
    char text[VH_HALVES_ROOM];

    vh_halves_text(value, text);
    vh_task_say(t, text);
}

void vh_task_note(struct vh_planned *t, const char *format, ...)
{
    const size_t room = sizeof t->note - t->noted, n = strcspn(format, "%");
    va_list arguments;

    if (format[n] == '\0') { /* as it stands: by far the most notes of all futures */
        vh_task_say(t, format);
        return;
    }
    va_start(arguments, format);
    vsnprintf(t->note + t->noted, room, format, arguments);
    va_end(arguments);
    t->noted += strlen(t->note + t->noted);
}

/* ---- minutes ---- */

static double recorded_min(const struct vh_done *done, enum vh_task task, int64_t date)
{
    double sum = VH_UNKNOWN;

    for (size_t i = 0; done && i < done->minutes_rows; i++)
        if (done->minutes[i].task == task && done->minutes[i].day == date)
            sum = (isnan(sum) ? 0.0 : sum) + done->minutes[i].minutes;
    return sum;
}

/* Pieces of a task on one day; a day's tasks of one kind share its recorded minutes. */
static double pieces_on(const struct vh_task_plan *p, enum vh_task task, int64_t date)
{
    double sum = 0.0;

    for (size_t i = 0; i < p->tasks; i++)
        if (p->task[i].task == task && p->task[i].date == date)
            sum += p->task[i].pieces;
    return sum;
}

/* Her own clock: all recorded minutes of a task over the pieces of those days; NaN: none. */
static double measured_s(const struct vh_task_plan *p, const struct vh_done *done,
                         enum vh_task task)
{
    double minutes = 0.0, pieces = 0.0;

    for (size_t i = 0; done && i < done->minutes_rows; i++) {
        const struct vh_done_minutes *m = &done->minutes[i];
        const bool first =
            i == 0 || done->minutes[i - 1].task != task || done->minutes[i - 1].day != m->day;
        const double here = m->task == task && first ? pieces_on(p, task, m->day) : 0.0;
        if (here <= 0.0)
            continue;
        minutes += recorded_min(done, task, m->day);
        pieces += here;
    }
    return pieces > 0.0 ? minutes * SECONDS_PER_MIN / pieces : VH_UNKNOWN;
}

static void give_minutes(struct vh_task_planning *g)
{
    const struct vh_task_request *r = g->request;
    const struct vh_done *done = g->series->done;
    double seconds[VH_TASKS];

    for (int task = 0; task < VH_TASKS; task++) {
        const enum vh_task kind = (enum vh_task)task;
        const double measured = measured_s(g->out, done, kind);
        seconds[task] = isnan(measured) ? vh_task_seconds(r->book, r->labour, kind,
                                                          g->series->policy->whole_truss)
                                        : measured;
    }
    for (size_t i = 0; i < g->out->tasks; i++) {
        struct vh_planned *t = &g->out->task[i];
        const double noted = recorded_min(done, t->task, t->date);
        t->done = t->done || !isnan(noted);
        t->minutes = isnan(noted) ? t->pieces * seconds[t->task] / SECONDS_PER_MIN
                                  : noted * t->pieces / pieces_on(g->out, t->task, t->date);
    }
}

/* ---- locks ---- */

static void say_lock(struct vh_planned *t, int64_t from, bool is_pick)
{
    const struct vh_civil day = vh_civil_from_day(from);
    char old[VH_TASK_NOTE];

    memcpy(old, t->note, sizeof old);
    t->note[0] = '\0';
    t->noted = 0;
    if (t->blocked)
        vh_task_note(t, "blocked: your label bars %s to the end", is_pick ? "picks" : "entry");
    else
        vh_task_note(t, "moved from %d %s, barred by your label", day.day,
                     vh_month_name(day.month));
    if (old[0])
        vh_task_note(t, "; %s", old);
}

/* To the first free day; what has none left stays where it is, and takes no time. */
static void heed_locks(struct vh_task_planning *g)
{
    const struct vh_policy *policy = g->series->policy;
    const int64_t last = vh_task_date(g, g->series->days - 1);

    for (size_t i = 0; policy->sprays && i < g->out->tasks; i++) {
        struct vh_planned *t = &g->out->task[i];
        const bool is_pick = t->task == VH_TASK_PICK;
        const int64_t from = t->date;
        const int64_t free =
            is_pick ? vh_pick_free(policy, t->date) : vh_entry_free(policy, t->date);
        if (t->done || free == from)
            continue;
        t->blocked = free > last;
        t->moved = !t->blocked;
        t->date = t->blocked ? from : free;
        t->pieces = t->blocked ? 0.0 : t->pieces;
        say_lock(t, from, is_pick);
    }
}

/* ---- order ---- */

static double waits(const struct vh_planned *t)
{
    return isnan(t->may_wait_d) ? VH_ENDLESS : t->may_wait_d;
}

/* A clip holds a stem to its string, which so waits no longer than the clips and comes before them.
 */
static void strings_before_clips(struct vh_task_plan *plan)
{
    for (size_t i = 0; i < plan->tasks; i++) {
        struct vh_planned *string = &plan->task[i];
        if (string->task != VH_TASK_STRING || isnan(string->may_wait_d))
            continue;
        for (size_t k = 0; k < plan->tasks; k++) {
            const struct vh_planned *clips = &plan->task[k];
            if (clips->task == VH_TASK_CLIP && clips->date >= string->date)
                string->may_wait_d = vh_min(
                    string->may_wait_d, (double)(clips->date - string->date) + clips->may_wait_d);
        }
    }
}

/* Of what may wait as long. */
static int place_of(enum vh_task task)
{
    return task == VH_TASK_STRING ? 2 * (int)VH_TASK_CLIP - 1 : 2 * (int)task;
}

static int by_urgency(const void *one, const void *other)
{
    const struct vh_planned *a = one, *b = other;

    if (a->date != b->date)
        return a->date < b->date ? -1 : 1;
    if (waits(a) != waits(b))
        return waits(a) < waits(b) ? -1 : 1;
    if (a->task != b->task)
        return place_of(a->task) < place_of(b->task) ? -1 : 1;
    if (a->truss != b->truss)
        return a->truss < b->truss ? -1 : 1;
    if (a->count != b->count)
        return a->count > b->count ? -1 : 1;
    return strcmp(a->note, b->note);
}

bool vh_task_before(const struct vh_planned *a, const struct vh_planned *b)
{
    if (a->date != b->date)
        return a->date < b->date;
    return waits(a) != waits(b) ? waits(a) < waits(b) : place_of(a->task) < place_of(b->task);
}

void vh_task_sort(struct vh_task_plan *plan)
{
    if (plan->tasks)
        qsort(plan->task, plan->tasks, sizeof plan->task[0], by_urgency);
}

enum vh_status vh_task_plan(const struct vh_task_request *request, struct vh_task_plan *out)
{
    struct vh_task_planning g = {.request = request, .series = request->series, .out = out};

    *out = (struct vh_task_plan){0};
    vh_tasks_of_visits(&g);
    vh_tasks_of_trusses(&g);
    vh_tasks_of_season(&g);
    if (g.status != VH_OK) {
        vh_task_plan_clear(out);
        return g.status;
    }
    heed_locks(&g);
    strings_before_clips(out);
    give_minutes(&g);
    vh_task_sort(out);
    return VH_OK;
}

void vh_task_plan_clear(struct vh_task_plan *plan)
{
    free(plan->task);
    *plan = (struct vh_task_plan){0};
}
