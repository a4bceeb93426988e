/* vh_dull_week.h - a dull week as the reason for less fruit, for screen and report alike. */
#ifndef VH_DULL_WEEK_H
#define VH_DULL_WEEK_H

#include "vinehand.h"

/* Was the last week clearly duller, by its light in mol m-2 d-1, than the two before it? */
bool vh_was_dull(const struct vh_table *climate_days, int64_t today);

#endif
