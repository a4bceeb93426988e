#include "vh_task.h"

#include <math.h>
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

/* Without printf: lowering is noted in every future. */
void vh_halves_text(double value, char text[VH_HALVES_ROOM])
{
    const unsigned long most = 1000000UL, ten = 10;
    const double halves = floor(2.0 * value + 0.5);
    const unsigned long n = halves >= 1.0 && halves < (double)most ? (unsigned long)halves : 1UL;
    char *at = text;
    unsigned long scale = most;

    while (scale > n / 2 && scale > 0)
        scale /= ten;
    for (; scale > 0; scale /= ten)
        *at++ = (char)('0' + n / 2 / scale % ten);
    strcpy(at, n % 2 == 0 ? "" : at > text ? " 1/2" : "1/2");
}
