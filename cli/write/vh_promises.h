/* vh_promises.h - promises of earlier runs, held against what was picked. */
#ifndef VH_PROMISES_H
#define VH_PROMISES_H

#include "vinehand.h"

/* Tables of a result that tell of them; NULL: there is none. */
struct vh_promise_tables {
    const struct vh_table *said, *said_fruits, *picks, *summary;
};

/* What was promised of a planting for market day `date` about a week before day `before`, in what
 * the table counts; NaN: nothing. */
double vh_promise_said(const struct vh_table *said, const char *planting, double date,
                       double before);

struct vh_promise_past {
    const char *planting; /* a view of the table */
    double date, promise; /* kg, or fruits */
    double came;          /* written down as picked in the week to it */
    bool by_piece;
};

/* The next promise whose day is past and whose picks are known; *row: 0 before the first. false:
 * there is none left. What is sold by the piece is held against the fruits that were counted, all
 * else against what was weighed. */
bool vh_promise_next(const struct vh_promise_tables *t, int64_t today, size_t *row,
                     struct vh_promise_past *out);

#endif
