/* vh_hot_day.h - whether a day is one to be out of the house early, for screen, page and sheet. */
#ifndef VH_HOT_DAY_H
#define VH_HOT_DAY_H

#include "vh_say_numbers.h"
#include "vinehand.h"

#define VH_HOT_ROOM 256

/* Row of climate_days: its hottest hour in degC, as half of the futures have it or the one there
 * is, where the house is likely to be above 30 degC (days.hot_c) for some of it. NaN: it is not. */
double vh_hot_day_c(const struct vh_table *climate_days, size_t row);
/* "Wed Thu 33 to 36 C: begin at dawn, out by 9, drink, shade": the hot ones of the seven days,
 * their hottest hour as it is likely and as one future in ten goes beyond. A row of each day at
 * most. false: none is hot. */
bool vh_hot_days(const struct vh_table *climate_days, int64_t today, enum vh_say_units units,
                 const char *degree, char said[VH_HOT_ROOM]);

#endif
