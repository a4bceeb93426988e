#include "vh_done.h"

const double vh_done_least_share = 0.5;

static const struct vh_done_task *entry_of(const struct vh_done *done, enum vh_task task,
                                           int64_t day)
{
    const struct vh_done_task *found = NULL; /* the last of a day holds: she corrected herself */

    for (size_t i = 0; done && i < done->tasks && done->task[i].day <= day; i++)
        if (done->task[i].day == day && done->task[i].task == task)
            found = &done->task[i];
    return found;
}

double vh_done_share(const struct vh_done *done, enum vh_task task, int64_t day, double planned)
{
    const struct vh_done_task *entry = entry_of(done, task, day);

    return entry ? entry->share : planned;
}

/* Written down as done from `day` on in another way: minutes, centimetres, a pick. */
static bool is_done_since(const struct vh_done *done, enum vh_task task, int64_t day)
{
    bool found = false;

    for (size_t i = 0; i < done->minutes_rows; i++)
        found = found || (done->minutes[i].task == task && done->minutes[i].day >= day);
    for (size_t i = 0; task == VH_TASK_LOWER && i < done->lowered_rows; i++)
        found = found || done->lowered[i].day >= day;
    for (size_t i = 0; task == VH_TASK_PICK && i < done->picks; i++)
        found = found || done->pick[i].until >= day;
    return found;
}

int64_t vh_done_again(const struct vh_done *done, enum vh_task task, int64_t today)
{
    const struct vh_done_task *last = NULL;

    for (size_t i = 0; done && i < done->tasks && done->task[i].day <= today; i++)
        if (done->task[i].task == task)
            last = &done->task[i];
    if (!last || last->share >= vh_done_least_share || is_done_since(done, task, last->day))
        return INT64_MAX;
    const int64_t again = last->day < today ? today : last->day + 1;
    return (double)(again - last->day) <= done->given_up_d ? again : INT64_MAX;
}

int64_t vh_done_moved(const struct vh_done *done, enum vh_task task, int64_t date, int64_t today)
{
    for (size_t i = 0; done && i < done->tasks && done->task[i].day <= today; i++) {
        const struct vh_done_task *entry = &done->task[i];
        if (entry->task == task && entry->day > date &&
            (double)(entry->day - date) <= done->given_up_d &&
            entry->share >= vh_done_least_share &&
            vh_done_share(done, task, date, 1.0) < vh_done_least_share)
            return entry->day; /* made good */
    }
    const int64_t again = vh_done_again(done, task, today);
    const bool undone = vh_done_share(done, task, date, 1.0) < vh_done_least_share;
    return undone && again != INT64_MAX && (double)(again - date) <= done->given_up_d ? again
                                                                                      : date;
}

bool vh_done_said(const struct vh_done *done, enum vh_task task, int64_t day)
{
    return entry_of(done, task, day) != NULL;
}
