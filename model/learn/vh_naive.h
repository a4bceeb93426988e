/* vh_naive.h - the two forecasts that anyone can make without a model: as last week, and as the
 * mean of the last three, each with a spread, so that a forecast with a spread can be held against
 * them.
 *
 * Last week is the last seven days that the entries cover, so that a week of which Sunday is not
 * told yet does not count as a poor one. The spread is normal, about the naive value, by the naive
 * forecast's own errors at that horizon over the weeks seen so far (root mean square); with fewer
 * of them than naive_errors, naive_range of its value either way is its 80 % interval.
 */
#ifndef VH_NAIVE_H
#define VH_NAIVE_H

#include "vh_futures.h"
#include "vh_pick_rate.h"

enum vh_naive { VH_NAIVE_LAST, VH_NAIVE_MEAN3, VH_NAIVES };

/* kg a week, as it could be said at the end of `day`; NaN: too little was known. */
double vh_naive_kg(const struct vh_pick_rate *r, enum vh_naive which, int64_t day);
/* Standard deviation, kg, of the same for the week that ends weeks_ahead weeks after `sunday`; NaN
 * where the value is. */
double vh_naive_sd_kg(const struct vh_pick_rate *r, const struct vh_futures_params *p,
                      enum vh_naive which, int64_t sunday, int weeks_ahead);

#endif
