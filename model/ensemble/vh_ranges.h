/* vh_ranges.h - one result table over many futures: the rows of all members laid upon each other by
 * what names them (date, planting, truss, task), then mean and range of every value.
 *
 * A value becomes four columns: the mean, _p10, _p50 and _p90. A day that futures move becomes its
 * median with _p10 and _p90. What no future changes, and words, are those of the mean run. A row
 * stays if at least half of the futures have it; a value, if at least half of them know it. Of the
 * list of work (vh_row_rule) the rows and the plain numbers are the mean run's, with the range of
 * the futures where half of them have the row on that day. A day that a future does not see counts as later than all. A promise is the mass that all but the worst
 * futures reach, a chance the share of the futures: one column each.
 */
#ifndef VH_RANGES_H
#define VH_RANGES_H

#include "vh_result.h"

struct vh_ranges;

#define VH_MEAN_RUN ((size_t)-1)

/* promise: the chance with which a promise must hold, for columns of that role. NULL: no memory. */
struct vh_ranges *vh_ranges_create(enum vh_result_table_id id, size_t members, double promise);
void vh_ranges_free(struct vh_ranges *r);
/* Takes one member's table; the mean run's first, then the members in any order, one at a time. */
enum vh_status vh_ranges_take(struct vh_ranges *r, size_t member, const struct vh_table *t);
/* The table over all members. Its columns lie in *columns, to be freed after the table. */
enum vh_status vh_ranges_finish(struct vh_ranges *r, int threads, struct vh_table **out,
                                void **columns);

#endif
