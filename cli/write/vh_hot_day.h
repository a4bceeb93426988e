/* vh_hot_day.h - whether a day is one to be out of the house early, for screen and sheet alike. */
#ifndef VH_HOT_DAY_H
#define VH_HOT_DAY_H

#include "vinehand.h"

/* Row of climate_days: its hottest hour in degC, where the house may be above 30 degC (days.hot_c)
 * for some of it: as one future in ten has it, or the one there is. NaN: it is not so hot. */
double vh_hot_day_c(const struct vh_table *climate_days, size_t row);

#endif
