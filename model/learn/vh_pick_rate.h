/* vh_pick_rate.h - what was picked, day by day: each weighing spread evenly over the days since the
 * one before, so that weeks with one pick and with two can be held against each other.
 */
#ifndef VH_PICK_RATE_H
#define VH_PICK_RATE_H

#include "vh_record.h"

/* kg and told lie in one block, freed by vh_pick_rate_clear. */
struct vh_pick_rate {
    int64_t first_day;
    size_t days;
    double *kg;    /* [days] a day; NaN: not known */
    int64_t *told; /* [days] the day of the entry that tells it */
};

/* Of first_day..last_day: nothing known yet. VH_NO_MEMORY. */
enum vh_status vh_pick_rate_init(struct vh_pick_rate *r, int64_t first_day, int64_t last_day);
void vh_pick_rate_clear(struct vh_pick_rate *r);
/* kg picked from `from` to `until`, both inclusive. */
void vh_pick_rate_add(struct vh_pick_rate *r, int64_t from, int64_t until, double kg);
/* Fills it from the records of one planting; what is doubtful stays unknown. VH_NO_MEMORY. */
enum vh_status vh_pick_rate_of(const struct vh_records *records, size_t planting, int64_t set_out,
                               int64_t last_day, struct vh_pick_rate *out);
/* Sum of the days from..until by what was told by the end of `by`; NaN: a day is not known. */
double vh_pick_rate_kg(const struct vh_pick_rate *r, int64_t from, int64_t until, int64_t by);
/* The last day of which anything was told by the end of `by`; INT64_MIN: none. */
int64_t vh_pick_rate_last(const struct vh_pick_rate *r, int64_t by);

#endif
