/* vh_floor.h - when the plantings need more floor than the house has. */
#ifndef VH_FLOOR_H
#define VH_FLOOR_H

#include "vh_house.h"

/* Days, both inclusive, and the floor that the plantings need on the fullest of them, paths
 * included. */
struct vh_floor_short {
    int64_t from, until;
    double need_m2;
};

/* The first such days from `day` on; plan, if not NULL: only those on which h needs more than it
 * does. A planting that leaves on the day on which another comes makes room for it. False: there
 * are none, or no floor_area_m2 is given. */
bool vh_floor_short_next(const struct vh_house *h, const struct vh_house *plan, int64_t day,
                         struct vh_floor_short *out);

#endif
