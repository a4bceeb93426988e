/* vh_task.h - the tasks that crop work is divided into. */
#ifndef VH_TASK_H
#define VH_TASK_H

enum vh_task {
    VH_TASK_POLLINATE,
    VH_TASK_SUCKER,
    VH_TASK_CLIP,
    VH_TASK_THIN,
    VH_TASK_SUPPORT,
    VH_TASK_LEAF,
    VH_TASK_LOWER,
    VH_TASK_PICK,
    VH_TASK_TOP,
    VH_TASK_STRING,
    VH_TASK_PLANT,
    VH_TASK_PULL_OUT,
    VH_TASK_CLEAN,
    VH_TASK_WALK,
    VH_TASKS
};

/* "pollinate", "pull_out": as in tasks.csv, in [labour.seconds] and in done_<task> of the records.
 */
const char *vh_task_name(enum vh_task task);
/* -1: no task of that name. */
int vh_task_of_name(const char *word);

/* To the half, as turns of the hook are said: "1/2", "1", "1 1/2". At least half a turn. */
enum { VH_HALVES_ROOM = 24 };
void vh_halves_text(double value, char text[VH_HALVES_ROOM]);

#endif
