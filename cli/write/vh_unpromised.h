/* vh_unpromised.h - market days for which nothing was promised in time, and which the promises kept
 * therefore leave out. */
#ifndef VH_UNPROMISED_H
#define VH_UNPROMISED_H

#include "vh_say_numbers.h"
#include "vinehand.h"

/* "nothing was promised about a week before 13 June, 4 July"; "": there is no such day.
 * market_days NULL: nothing is said. */
void vh_unpromised(const struct vh_promise_tables *t, const struct vh_table *market_days,
                   int64_t today, char *said, size_t room);

#endif
