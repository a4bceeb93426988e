/* vh_only_counted.h - plantings of which no forecast is held against what came, for their picks
 * were counted and not weighed. */
#ifndef VH_ONLY_COUNTED_H
#define VH_ONLY_COUNTED_H

#include "vh_say_numbers.h"
#include "vinehand.h"

/* "Left out: plums, for their picks were counted, not weighed; note picked_kg and they come in.";
 * "" where every planting that was counted has a row in the hindcast (its weeks or their summary).
 * Each table may be NULL: where summary or picks is, nothing is said. */
void vh_only_counted(const struct vh_table *summary, const struct vh_table *picks,
                     const struct vh_table *hindcast, enum vh_say_units units, char *said,
                     size_t room);

#endif
