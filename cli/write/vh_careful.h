/* vh_careful.h - which warnings to read first, for screen and report alike. */
#ifndef VH_CAREFUL_H
#define VH_CAREFUL_H

#include "vinehand.h"

enum { VH_CAREFUL_MOST = 64 };

/* Rows of table "warnings" that still hold on the day, those to be read first in front: harm that
 * is to be met within the week, then what is to be done, then harm that is farther off, then what
 * is good to know; within each in the order of the table. */
struct vh_careful {
    size_t row[VH_CAREFUL_MOST];
    int rows, urgent; /* those that find room; those in front that are harm within the week */
    int to_act;       /* those in front of what is only good to know */
    int beyond;       /* that find none */
};

void vh_careful(const struct vh_table *t, int64_t today, struct vh_careful *out);
/* The day from which something is to be done about a warning. */
double vh_careful_from(const struct vh_table *t, size_t row);

#endif
