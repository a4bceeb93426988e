#include "vh_visits.h"

#include <math.h>

#define HOURS_PER_DAY 24.0

static int64_t entry_until(const struct vh_policy *policy, const struct vh_spray *s)
{
    const double days = ceil((s->no_entry_h - policy->free_by_h) / HOURS_PER_DAY);

    return s->no_entry_h > 0.0 && days > 0.0 ? s->on + (int64_t)days : s->on;
}

bool vh_entry_locked(const struct vh_policy *policy, int64_t day)
{
    for (size_t i = 0; i < policy->sprays; i++)
        if (day >= policy->spray[i].on && day <= entry_until(policy, &policy->spray[i]))
            return true;
    return false;
}

bool vh_pick_locked(const struct vh_policy *policy, int64_t day)
{
    for (size_t i = 0; i < policy->sprays; i++) {
        const struct vh_spray *s = &policy->spray[i];
        if (day >= s->on && (double)(day - s->on) < s->no_pick_d)
            return true;
    }
    return vh_entry_locked(policy, day);
}

int64_t vh_entry_free(const struct vh_policy *policy, int64_t day)
{
    while (vh_entry_locked(policy, day))
        day++;
    return day;
}

int64_t vh_pick_free(const struct vh_policy *policy, int64_t day)
{
    while (vh_pick_locked(policy, day))
        day++;
    return day;
}

/* Due today, or due on one of the barred days that end with yesterday. */
static bool is_due(const struct vh_policy *policy, const struct vh_rhythm *rhythm, int64_t start,
                   int64_t day, bool (*locked)(const struct vh_policy *, int64_t))
{
    if (policy->sprays == 0)
        return vh_rhythm_due(rhythm, start, day);
    if (locked(policy, day))
        return false;
    bool due = vh_rhythm_due(rhythm, start, day);
    for (int64_t d = day - 1; !due && d >= start && locked(policy, d); d--)
        due = vh_rhythm_due(rhythm, start, d);
    return due;
}

bool vh_visit_planned(const struct vh_policy *policy, const struct vh_rhythm *rhythm, int64_t start,
                      int64_t day)
{
    return is_due(policy, rhythm, start, day, vh_entry_locked);
}

/* The entry whose days hold `day`; NULL: none. */
static const struct vh_done_pick *entry_over(const struct vh_done *done, int64_t day)
{
    size_t low = 0, high = done ? done->picks : 0;

    while (low < high) { /* the first that ends on `day` or later */
        const size_t middle = low + (high - low) / 2;
        if (done->pick[middle].until < day)
            low = middle + 1;
        else
            high = middle;
    }
    return done && low < done->picks && done->pick[low].from <= day ? &done->pick[low] : NULL;
}

bool vh_pick_planned(const struct vh_policy *policy, int64_t start, int64_t day)
{
    const struct vh_done *done = policy->done;
    const struct vh_done_pick *entry = entry_over(done, day);

    if (entry && (entry->is_whole || day == entry->until))
        return day == entry->until && !entry->is_none;
    if (vh_done_said(done, VH_TASK_PICK, day))
        return vh_done_share(done, VH_TASK_PICK, day, 0.0) >= vh_done_least_share;
    if (done && done->picks > 0 && day > done->pick[done->picks - 1].until)
        start = done->pick[done->picks - 1].until;
    return is_due(policy, &policy->pick, start, day, vh_pick_locked);
}

bool vh_visit_is_idle(const struct vh_policy *policy, enum vh_task task, int64_t day)
{
    return policy->idle_d > 0.0 && (double)policy->last_on - (double)day < policy->idle_d &&
           task != VH_TASK_PICK && !vh_done_said(policy->done, task, day);
}

double vh_visit_share(const struct vh_policy *policy, enum vh_task task,
                      const struct vh_rhythm *rhythm, int64_t start, int64_t day)
{
    const bool planned =
        !vh_visit_is_idle(policy, task, day) && vh_visit_planned(policy, rhythm, start, day);

    return vh_done_share(policy->done, task, day, planned ? 1.0 : 0.0);
}

int64_t vh_visit_gap_d(const struct vh_policy *policy, enum vh_task task,
                       const struct vh_rhythm *rhythm, int64_t start, int64_t day)
{
    int64_t d = day - 1;

    while (d > start && vh_visit_share(policy, task, rhythm, start, d) < vh_done_least_share)
        d--;
    return day - (d > start ? d : start);
}

bool vh_visit_is_behind(const struct vh_policy *policy, enum vh_task task,
                        const struct vh_rhythm *rhythm, int64_t start, int64_t day)
{
    const int64_t gap = vh_visit_gap_d(policy, task, rhythm, start, day);

    return policy->missed_d > 0.0 && (double)gap >= policy->missed_d &&
           (rhythm->by_weekday || gap >= 2 * rhythm->every_d);
}
