/* task_parts.h - what the files of the task plan hand to each other; private to the folder. */
#ifndef VH_TASK_PARTS_H
#define VH_TASK_PARTS_H

#include "vh_task_plan.h"

#define VH_LEAST_COUNT 0.5 /* of a whole planting: less than half a piece is none */

struct vh_task_planning {
    const struct vh_task_request *request;
    const struct vh_work_series *series;
    struct vh_task_plan *out;
    enum vh_status status;
    double clips_owed;  /* for stem that has grown since the last visit */
    double clips_freed; /* from stem that was laid since then */
    double turns_rest;  /* of the hook, lost or won by rounding */
};

int64_t vh_task_date(const struct vh_task_planning *g, size_t day);
/* Adds a task; its note is still empty. NULL: too few to be one, or no memory. */
struct vh_planned *vh_task_add(struct vh_task_planning *g, int64_t date, enum vh_task task,
                               double count, const char *unit);
/* Adds to the end of the note: a text as it stands, or as printf does. */
void vh_task_say(struct vh_planned *t, const char *text);
void vh_task_say_whole(struct vh_planned *t, double value); /* "%.0f" */
/* How many of what nobody halves: "3", and "3 or 4" for a mean between them. */
void vh_task_say_counted(struct vh_planned *t, double value);
/* In halves: "1", "1 1/2", "1/2". */
void vh_task_say_halves(struct vh_planned *t, double value);
void vh_task_note(struct vh_planned *t, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
/* Says it where the visit of the task is made on the first free day after a lock. */
void vh_task_say_if_moved(const struct vh_task_planning *g, struct vh_planned *t,
                          const struct vh_rhythm *rhythm);
/* By date, then by what may wait least. */
void vh_task_sort(struct vh_task_plan *plan);

/* Each plans its own tasks over the whole season. */
void vh_tasks_of_visits(struct vh_task_planning *g);
void vh_tasks_of_trusses(struct vh_task_planning *g);
void vh_tasks_of_season(struct vh_task_planning *g);

#endif
