/* vh_apart.h - whose fruit must not lie beside whose before a market day: looked up once for all
 * plantings of the mean run, not by each of them anew. */
#ifndef VH_APART_H
#define VH_APART_H

#include "vh_result.h"
#include "vh_storeroom.h"

enum { VH_APART_NAMES = 300 }; /* room for the names of one pick */

struct vh_apart;

/* NULL: no memory. The run outlives it. */
struct vh_apart *vh_apart_new(const struct vh_run *run);
void vh_apart_free(struct vh_apart *a);
/* How a pick is kept until *day, its market day; false: there is none. */
bool vh_apart_kept(struct vh_apart *a, size_t planting, int64_t pick, struct vh_keep *k,
                   int64_t *day);
/* Does the planting bring fruit to that market day (its place in the list)? */
bool vh_apart_feeds(const struct vh_apart *a, size_t planting, size_t day);
/* Is the fruit of one hurt by that of the other? */
bool vh_apart_must(const struct vh_apart *a, size_t one, size_t other);
/* "cucumbers, peppers": the plantings beside whose fruit this one's, kept as k says, must not lie
 * before that day. NULL: no memory. */
const char *vh_apart_names(struct vh_apart *a, size_t planting, int64_t day,
                           const struct vh_keep *k);
int64_t vh_market_day_before(const struct vh_market *m, int64_t day);

#endif
