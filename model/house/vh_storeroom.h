/* vh_storeroom.h - the fruit of a house between its picks and its market days. */
#ifndef VH_STOREROOM_H
#define VH_STOREROOM_H

#include "vh_house.h"
#include "vh_keep.h"

/* The first market day on or after a pick, which sells it; false: there is none. */
bool vh_market_day_for(const struct vh_market *m, int64_t pick, int64_t *day);
/* How to pick and keep for that day. Buyers want red fruit of a crop that colours on in store
 * [assumed]; of other crops the planting's own colour, and fruit picked by size has none. False:
 * no market day takes the pick. */
bool vh_storeroom_keep(const struct vh_house *h, const struct vh_planting *p, int64_t pick,
                       struct vh_keep *out);
/* Share of a pick that is lost by that day: of its part `early` (vh_season.h), which the last pick
 * takes less ripe than others are, as that keeps; of the rest as `others` has it. */
double vh_storeroom_lost(const struct vh_house *h, const struct vh_planting *p, int64_t pick,
                         double early, const struct vh_keep *others);

/* How a planting's picks are kept hangs on the days until the market alone, of which there are few:
 * the answers so far. Begins as {0}. */
#define VH_WAITS_KEPT 8
struct vh_waits {
    bool is_known[VH_WAITS_KEPT];
    struct vh_keep keep[VH_WAITS_KEPT]; /* [days from pick to market] */
};
/* As vh_storeroom_keep, searched once for each number of days; `known` is of this planting. */
bool vh_storeroom_keep_known(const struct vh_house *h, const struct vh_planting *p, int64_t pick,
                             struct vh_waits *known, struct vh_keep *out);

#endif
