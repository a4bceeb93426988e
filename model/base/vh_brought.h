/* vh_brought.h - one column of a file that a grower brings, as its reader knows it and explain tells
 * it: said once, in the reader. */
#ifndef VH_BROUGHT_H
#define VH_BROUGHT_H

#include "vh_error.h"

/* low and high in the unit that the name ends in; NaN: no number, or without such a bound. A name
 * in another unit (t_air_f for t_air_c) answers by vh_units_match. */
struct vh_brought_column {
    const char *file; /* "log", "outside", "normals", "records", "grades", "kept" */
    const char *name;
    double low, high;
    const char *meaning; /* in a grower's words */
};

/* Stops the walk at the first status that is not VH_OK, which is returned. */
typedef enum vh_status (*vh_brought_take)(void *context, const struct vh_brought_column *column);

#endif
