/* vh_task_words.h - what the tasks of table "tasks" are called on the pages, and what of them is
 * written down. */
#ifndef VH_TASK_WORDS_H
#define VH_TASK_WORDS_H

struct vh_task_words {
    const char *task;  /* its word in the tables */
    const char *title; /* "Suckers" */
    const char *alone; /* "Pull suckers" */
    const char *verb;  /* "Pull suckers,", before the names of plantings */
    const char *blank; /* of the third box on the sheet: a number that tells more than done */
    const char *item;  /* of records.csv for that number; NULL: the share that was done */
};

/* NULL: no task of the vines, such as other work of her week. */
const struct vh_task_words *vh_task_words(const char *task);

enum { VH_TASK_UNIT = 40 };
/* The unit of a count as it is said: "stems", of one "stem". */
void vh_task_unit(double count, const char *unit, char said[VH_TASK_UNIT]);

#endif
