/* vh_market_days.h - on which days a house sells. */
#ifndef VH_MARKET_DAYS_H
#define VH_MARKET_DAYS_H

#include "vh_house.h"

/* Does at least one planting stand in the house on that day, or was pulled out at most after_d days
 * before? */
bool vh_house_stands(const struct vh_house *h, int64_t day, int64_t after_d);

/* The days that market.open gives these plantings, rising: weekdays while one stands, the first one
 * after a pull-out, which sells what was picked last, and her single dates. days: how many. The
 * caller frees them. NULL: no memory. */
int64_t *vh_market_days_of(const struct vh_house *h, size_t *days);

#endif
