#include "vh_task.h"

#include <string.h>

static const char *const name[VH_TASKS] = {"pollinate", "sucker",   "clip",  "thin", "support",
                                           "leaf",      "lower",    "pick",  "top",  "string",
                                           "plant",     "pull_out", "clean", "walk"};

const char *vh_task_name(enum vh_task task)
{
    return name[task];
}

int vh_task_of_name(const char *word)
{
    for (int t = 0; t < VH_TASKS; t++)
        if (!strcmp(name[t], word))
            return t;
    return -1;
}
