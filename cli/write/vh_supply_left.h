/* vh_supply_left.h - what the work to come takes of a supply, and how long the stock lasts. */
#ifndef VH_SUPPLY_LEFT_H
#define VH_SUPPLY_LEFT_H

#include "vinehand.h"

enum { VH_SUPPLY_ITEMS = 4, VH_SUPPLY_TEXT = 400 };
extern const char *const vh_supply_item[VH_SUPPLY_ITEMS]; /* "clips", as in table "supplies" */

struct vh_supply_left {
    double needed;     /* from today to the end; string in m */
    double left;       /* after this week; NaN: no stock is given */
    double out, order; /* days; NaN: it lasts */
    double maybe;      /* day of the earliest tenth of the futures; NaN: none of them */
};

/* t: table "supplies"; NULL: there is none. */
struct vh_supply_left vh_supply_left(const struct vh_table *t, const char *item, int64_t today);
/* "173 left after this week, gone 31 July: order by 24 July; 1 150 are used to the end" */
void vh_supply_say(const struct vh_supply_left *s, char said[VH_SUPPLY_TEXT]);

#endif
