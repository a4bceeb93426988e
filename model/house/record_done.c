/* Records as others use them: work done by planting, picks by the time between entries. */
#include <math.h>
#include <stdlib.h>

#include "record_parts.h"
#include "vh_house.h"
#include "vh_math.h"

#define DAYS_PER_WEEK 7

static bool is_work_done(const struct vh_record *a)
{
    /* nothing let out is lowering left undone */
    return a->item == VH_RECORD_DONE || (a->item == VH_RECORD_LOWERED_CM && a->value <= 0.0);
}

void vh_record_done_clear(struct vh_done *done)
{
    free(done->task);
    free(done->fruits);
    free(done->lowered);
    free(done->minutes);
    free(done->pick);
    *done = (struct vh_done){0};
}

/* Room for every list: records of a planting are few, so none is counted first. */
static bool make_room(struct vh_done *done, size_t n)
{
    done->task = calloc(n, sizeof *done->task);
    done->fruits = calloc(n, sizeof *done->fruits);
    done->lowered = calloc(n, sizeof *done->lowered);
    done->minutes = calloc(n, sizeof *done->minutes);
    return done->task && done->fruits && done->lowered && done->minutes;
}

static void take(struct vh_done *done, const struct vh_record *a)
{
    done->any = true;
    done->last_day = a->day; /* they come in date order */
    if (is_work_done(a))
        done->task[done->tasks++] =
            (struct vh_done_task){a->day, a->item == VH_RECORD_DONE ? a->task : VH_TASK_LOWER,
                                  a->item == VH_RECORD_DONE ? a->value : 0.0};
    else if (a->item == VH_RECORD_FRUITS_LEFT)
        done->fruits[done->fruits_rows++] = (struct vh_done_fruits){a->day, a->truss, a->value};
    else if (a->item == VH_RECORD_LOWERED_CM)
        done->lowered[done->lowered_rows++] = (struct vh_done_lowered){a->day, a->value};
    else if (a->item == VH_RECORD_MINUTES)
        done->minutes[done->minutes_rows++] = (struct vh_done_minutes){a->day, a->task, a->value};
}

static enum vh_status fill_lists(const struct vh_records *r, size_t planting, struct vh_done *done)
{
    size_t n = 0;

    vh_record_done_clear(done);
    for (size_t i = 0; i < r->rows; i++)
        n += r->row[i].planting == planting;
    if (n == 0)
        return VH_OK;
    if (!make_room(done, n)) {
        vh_record_done_clear(done);
        return VH_NO_MEMORY;
    }
    for (size_t i = 0; i < r->rows; i++) {
        /* a doubtful length or count is no work done; minutes are only told */
        if (r->row[i].planting == planting &&
            (!r->row[i].doubt || r->row[i].item == VH_RECORD_MINUTES))
            take(done, &r->row[i]);
    }
    return VH_OK;
}

/* ---- picks ---- */

static bool is_pick(const struct vh_record *a, size_t planting)
{
    return a->planting == planting && vh_record_is_pick(a->item);
}

static double sum_of(const struct vh_records *r, enum vh_record_item item, size_t planting,
                     int64_t from, int64_t until)
{
    double sum = VH_UNKNOWN;

    for (size_t i = 0; i < r->rows && r->row[i].day <= until; i++) {
        const struct vh_record *a = &r->row[i];
        if (a->day >= from && a->planting == planting && a->item == item && !a->doubt)
            sum = (isnan(sum) ? 0.0 : sum) + a->value;
    }
    return sum;
}

double vh_record_picked_kg(const struct vh_records *r, size_t planting, int64_t from, int64_t until)
{
    return sum_of(r, VH_RECORD_PICKED_KG, planting, from, until);
}

double vh_record_thrown_kg(const struct vh_records *r, size_t planting, int64_t day)
{
    return sum_of(r, VH_RECORD_UNMARKETABLE_KG, planting, day, day);
}

double vh_record_picked_fruits(const struct vh_records *r, size_t planting, int64_t from,
                               int64_t until)
{
    return sum_of(r, VH_RECORD_PICKED_FRUITS, planting, from, until);
}

void vh_record_add_to(double *sum, bool *doubt, const struct vh_record *a)
{
    if (isnan(*sum) || (*doubt && !a->doubt)) {
        *sum = a->value;
        *doubt = a->doubt;
    } else if (*doubt == a->doubt) {
        *sum += a->value;
    }
}

/* One interval a day with an entry; `from` is not known yet. */
static size_t gather(const struct vh_records *r, size_t planting, struct vh_record_picks *out)
{
    size_t n = 0;

    for (size_t i = 0; i < r->rows; i++) {
        const struct vh_record *a = &r->row[i];
        if (!is_pick(a, planting))
            continue;
        if (n == 0 || out[n - 1].until != a->day)
            out[n++] = (struct vh_record_picks){
                .from = a->day, .until = a->day, .kg = VH_UNKNOWN, .fruits = VH_UNKNOWN};
        if (a->item == VH_RECORD_PICKED_KG)
            vh_record_add_to(&out[n - 1].kg, &out[n - 1].kg_doubt, a);
        else
            vh_record_add_to(&out[n - 1].fruits, &out[n - 1].fruits_doubt, a);
    }
    return n;
}

static int by_days(const void *a, const void *b)
{
    const int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;

    return x < y ? -1 : x > y;
}

/* Days usually between two entries: the median; a week where it cannot be told. */
static int64_t usual_days(const struct vh_record_picks *p, size_t n, int64_t *room)
{
    if (n < 2)
        return DAYS_PER_WEEK;
    for (size_t i = 1; i < n; i++)
        room[i - 1] = p[i].until - p[i - 1].until;
    qsort(room, n - 1, sizeof *room, by_days);
    return room[(n - 1) / 2];
}

enum vh_status vh_record_picks_of(const struct vh_records *r, size_t planting, int64_t set_out,
                                  struct vh_record_picks **out, size_t *count)
{
    size_t entries = 0;

    *out = NULL;
    *count = 0;
    for (size_t i = 0; i < r->rows; i++)
        entries += is_pick(&r->row[i], planting);
    if (entries == 0)
        return VH_OK;
    struct vh_record_picks *p = calloc(entries, sizeof *p);
    int64_t *gap = calloc(entries, sizeof *gap);
    if (!p || !gap) {
        free(p);
        free(gap);
        return VH_NO_MEMORY;
    }
    const size_t n = gather(r, planting, p);
    const int64_t usual = usual_days(p, n, gap);
    for (size_t i = 0; i < n; i++) {
        p[i].from = i > 0 ? p[i - 1].until + 1 : p[i].until - usual + 1;
        if (p[i].from < set_out)
            p[i].from = set_out;
        /* an entry may be missing in it: what was picked then is not in the sum */
        p[i].gap = p[i].until - p[i].from + 1 > 2 * usual;
        p[i].stands_from = p[i].gap ? p[i].until - usual + 1 : p[i].from;
    }
    free(gap);
    *out = p;
    *count = n;
    return VH_OK;
}

/* ---- on which days there were any ---- */

/* Days between two of the plan's picks, on average. */
static double planned_days(const struct vh_rhythm *r)
{
    int days = 0;

    for (int d = 0; d < DAYS_PER_WEEK; d++)
        days += r->weekday[d];
    if (r->by_weekday)
        return days > 0 ? (double)DAYS_PER_WEEK / days : DAYS_PER_WEEK;
    return r->every_d > 0 ? r->every_d : 1.0;
}

/* Longer by half than the plan has it, or than usual: there may have been a pick in between. */
static bool is_longer(double days, double usual)
{
    const double by_half = 1.5;

    return days > by_half * usual;
}

/* Who notes other things before her first pick would have noted a pick. */
static int64_t notes_from(const struct vh_records *r, size_t planting)
{
    for (size_t i = 0; i < r->rows; i++)
        if (r->row[i].planting == planting)
            return r->row[i].day;
    return INT64_MAX;
}

static enum vh_status fill_picks(const struct vh_records *r, size_t planting, struct vh_planting *p)
{
    struct vh_record_picks *entry = NULL;
    size_t n = 0;
    const enum vh_status status = vh_record_picks_of(r, planting, p->set_out, &entry, &n);
    int64_t *gap = calloc(n + 1, sizeof *gap);

    if (status != VH_OK || !gap) {
        free(entry);
        free(gap);
        return VH_NO_MEMORY;
    }
    const int64_t usual = usual_days(entry, n, gap);
    free(gap);
    if (n < 2 || is_longer((double)usual, planned_days(&p->policy.pick))) {
        free(entry);
        return VH_OK;
    }
    p->done.pick = calloc(n, sizeof *p->done.pick);
    for (size_t i = 0; p->done.pick && i < n; i++) {
        const struct vh_record_picks *e = &entry[i];
        const double days = (double)(e->until - e->from + 1);
        const bool is_none = !(e->kg > 0.0) && !(e->fruits > 0.0);
        p->done.pick[p->done.picks++] =
            (struct vh_done_pick){is_none ? e->stands_from : e->from, e->until,
                                  is_none || !is_longer(days, (double)usual), is_none};
    }
    const int64_t from = notes_from(r, planting);
    if (p->done.pick && from < p->done.pick[0].from)
        p->done.pick[0].from = from;
    free(entry);
    return p->done.pick ? VH_OK : VH_NO_MEMORY;
}

/* ---- what was left undone ---- */

/* A visit that was not made comes again, unless the plan had one since: that is taken to have been
 * made. `start` begins its rhythm. */
static void make_good(struct vh_rhythm *visit, const struct vh_planting *p, enum vh_task task,
                      int64_t start, int64_t today)
{
    const int64_t again = vh_done_again(&p->done, task, today);

    visit->also = 0;
    if (again == INT64_MAX)
        return;
    for (int64_t day = again - 1; !vh_done_said(&p->done, task, day); day--)
        if (vh_rhythm_due(visit, start, day))
            return;
    visit->also = again;
}

/* The day of the first pick written down after `undone`; INT64_MAX: none. Of 0 kg it is none. */
static int64_t picked_after(const struct vh_records *r, size_t planting, int64_t undone)
{
    for (size_t i = 0; i < r->rows; i++)
        if (is_pick(&r->row[i], planting) && r->row[i].value > 0.0 && r->row[i].day > undone)
            return r->row[i].day;
    return INT64_MAX;
}

/* Adds an entry in date order; there is room for one for each row of the records. */
static void add_done(struct vh_done *done, int64_t day, enum vh_task task)
{
    size_t at = done->tasks++;

    for (; at > 0 && done->task[at - 1].day > day; at--)
        done->task[at] = done->task[at - 1];
    done->task[at] = (struct vh_done_task){day, task, 1.0};
}

/* Each pick left undone was made good by the next one written down, unless the plan had one since:
 * then that is taken to have been made. */
static void add_picks_made_good(const struct vh_records *r, size_t planting, struct vh_planting *p)
{
    for (size_t i = 0; i < p->done.tasks; i++) {
        const struct vh_done_task *entry = &p->done.task[i];
        if (entry->task != VH_TASK_PICK || entry->share >= vh_done_least_share)
            continue;
        const int64_t on = picked_after(r, planting, entry->day);
        if (on == INT64_MAX)
            continue;
        int64_t day = on;
        while (!vh_done_said(&p->done, VH_TASK_PICK, day) &&
               !vh_rhythm_due(&p->policy.pick, p->set_out, day))
            day--;
        if (day == entry->day)
            add_done(&p->done, on, VH_TASK_PICK);
    }
}

/* A rhythm of every so many days goes on from the last pick. Where the plan's days hold for the
 * entries, one that follows a pick left undone tells when that was made good. */
static void make_picks_good(const struct vh_records *r, size_t planting, struct vh_planting *p,
                            int64_t today)
{
    const bool known = p->done.picks > 0;

    p->policy.pick.also = 0;
    if (!known)
        add_picks_made_good(r, planting, p);
    make_good(&p->policy.pick, p, VH_TASK_PICK,
              known ? p->done.pick[p->done.picks - 1].until : p->set_out, today);
}

static void make_all_good(const struct vh_records *r, size_t planting, struct vh_planting *p,
                          int64_t today)
{
    make_good(&p->policy.suckers.visit, p, VH_TASK_SUCKER, p->set_out, today);
    make_good(&p->policy.leaf_visit, p, VH_TASK_LEAF, p->set_out, today);
    make_good(&p->policy.lower.visit, p, VH_TASK_LOWER, p->set_out, today);
    make_good(&p->policy.pollination_visit, p, VH_TASK_POLLINATE, p->set_out, today);
    make_picks_good(r, planting, p, today);
}

enum vh_status vh_record_done_fill(const struct vh_records *r, size_t planting, int64_t today,
                                   double given_up_d, struct vh_planting *p)
{
    enum vh_status status = fill_lists(r, planting, &p->done);

    p->done.given_up_d = given_up_d;
    if (status == VH_OK)
        status = fill_picks(r, planting, p);
    if (status != VH_OK)
        vh_record_done_clear(&p->done);
    make_all_good(r, planting, p, today);
    return status;
}
