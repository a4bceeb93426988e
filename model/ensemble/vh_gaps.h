/* vh_gaps.h - market days that stay below what the grower wants, and what to sow against them. */
#ifndef VH_GAPS_H
#define VH_GAPS_H

#include "vh_ensemble.h"
#include "vh_table.h"

/* Adds a row to `out` (gaps.csv) for each stretch of market days from today on (vh_gap_stretches.h)
 * whose promise lies below wants_kg or wants_fruits of the good: how much is missing in all, the
 * latest sowing day and the number of plants of one more batch, like the good's last planting, that
 * fill most of it (market.gap_filled) with the chance of a promise, with the range over futures.
 * Where no batch to come does, the stretch is told in parts: the days for which it is too late (a
 * sowing day that is past, no plants), and those that can still be filled. No sowing day: no batch
 * would do. market_days: the table with its promises. like: draw, members and threads to be used.
 * VH_NO_MEMORY, VH_NO_NUMBER. */
enum vh_status vh_gaps_find(const struct vh_scenario *s, const struct vh_table *market_days,
                            const struct vh_ensemble_request *like, struct vh_table *out,
                            struct vh_messages *m);

#endif
