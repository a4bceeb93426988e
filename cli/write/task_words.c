#include "vh_task_words.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

static const struct vh_task_words known[] = {
    {"pollinate", "Pollinate", "Pollinate", "Pollinate", "share", NULL},
    {"sucker", "Suckers", "Pull suckers", "Pull suckers,", "longest cm", "pulled_sucker_cm"},
    {"clip", "Clips", "Clip", "Clip", "share", NULL},
    {"thin", "Thin", "Thin", "Thin", "fruits left", "fruits_left"},
    {"support", "Support trusses", "Support trusses", "Support trusses,", "share", NULL},
    {"leaf", "Leaves", "Take leaves", "Take leaves,", "leaves left", "leaves_on_stem"},
    {"lower", "Lower", "Lower", "Lower", "cm lowered", "lowered_cm"},
    {"pick", "Pick", "Pick", "Pick", "kg", "picked_kg"},
    {"top", "Top", "Top", "Top", "share", NULL},
    {"string", "String", "Hang string", "Hang string,", "share", NULL},
    {"plant", "Set out", "Set out", "Set out", "share", NULL},
    {"pull_out", "Pull out", "Pull out", "Pull out", "share", NULL},
    {"clean", "Clean blades", "Clean blades", "Clean blades,", "share", NULL},
    {"walk", "Walking", "Walk", "Walk", "", NULL},
};

const struct vh_task_words *vh_task_words(const char *task)
{
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
        if (!strcmp(known[i].task, task))
            return &known[i];
    return NULL;
}

/* One of them, where it is not the word without its s. */
static const struct {
    const char *many, *one;
} single[] = {{"trusses", "truss"}, {"leaves", "leaf"}};

void vh_task_unit(double count, const char *unit, char said[VH_TASK_UNIT])
{
    const size_t n = strlen(unit);
    const bool one = floor(count + 0.5) == 1.0, ends = n > 0 && unit[n - 1] == 's';

    snprintf(said, VH_TASK_UNIT, "%.*s", (int)(one && ends ? n - 1 : n), unit);
    for (size_t i = 0; one && i < sizeof single / sizeof single[0]; i++)
        if (!strcmp(single[i].many, unit))
            snprintf(said, VH_TASK_UNIT, "%s", single[i].one);
}
