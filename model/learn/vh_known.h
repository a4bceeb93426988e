/* vh_known.h - a scenario as it stood on a day gone by: what was written down by then, and nothing
 * of what came after.
 *
 * Log and records are read anew with that day as today, so that gaps, doubts and the scatter of the
 * weather are judged by what was there; rows of the outside file after it are left out, as they
 * were measured since. What the scenario itself says of later days (rules of pruning, topping,
 * spells) is the grower's plan and stays.
 */
#ifndef VH_KNOWN_H
#define VH_KNOWN_H

#include "vh_scenario.h"

struct vh_known {
    struct vh_scenario
        scenario; /* its season ends with `until`; the rest belongs to the original */
};

/* Needs the files that the scenario was read from. VH_BAD_INPUT and VH_NO_FILE when they are other
 * ones now, VH_NO_MEMORY. `s` must outlive it; clear `out` in any case. */
enum vh_status vh_known_on(const struct vh_scenario *s, int64_t day, int64_t until,
                           struct vh_known *out, struct vh_messages *m);
void vh_known_clear(struct vh_known *k);

#endif
