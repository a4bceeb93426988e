/* vh_to_come.h - what of a planting is still to come, for screen and report alike. */
#ifndef VH_TO_COME_H
#define VH_TO_COME_H

#include <stdbool.h>

#include "vinehand.h"

/* Row of the week from today's on of which most is likely, by fruits or by mass; -1: none. */
int vh_best_week_row(const struct vh_table *weeks, const char *planting, bool by_fruits,
                     int64_t today);

/* Row of the week from today's on in which the plants ask for most over what the light feeds; *now:
 * the row of today's own week. -1: none. The first weeks, while it falls from set-out on, are left
 * out: a young plant with few leaves asks many times what it gets, and nothing is to be done about
 * that. */
int vh_hungriest_week_row(const struct vh_table *weeks, const char *planting, int64_t today,
                          int *now);

/* Mean fruit of the trusses that still are to ripen whole, and the truss of the lightest. What is
 * cut off at the end of the season says little of the fruit. NaN: none is to come. */
struct vh_fruit_to_come {
    double mean_g, low_g, low_truss;
    bool
        cut_is_smaller; /* a truss that is cut off at the end has smaller fruit than the lightest */
};
struct vh_fruit_to_come vh_fruit_to_come(const struct vh_table *trusses, const char *planting);

#endif
