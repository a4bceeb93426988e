#include "vh_done.h"

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

bool vh_done_said(const struct vh_done *done, enum vh_task task, int64_t day)
{
    return entry_of(done, task, day) != NULL;
}
