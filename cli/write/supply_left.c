#include "vh_supply_left.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_say_numbers.h"

static const double days_per_week = 7.0;

const char *const vh_supply_item[VH_SUPPLY_ITEMS] = {"clips", "string", "hooks", "truss supports"};

struct vh_supply_left vh_supply_left(const struct vh_table *t, const char *item, int64_t today)
{
    const double unknown = (double)NAN;
    struct vh_supply_left s = {0.0, unknown, unknown, unknown, unknown};

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        if (strcmp(vh_cell_text(t, i, "item"), item) != 0 ||
            !(vh_cell_number(t, i, "monday") + days_per_week > (double)today))
            continue;
        s.needed += fmax(0.0, vh_cell_number(t, i, "to_come"));
        if (isfinite(s.left))
            continue; /* the row of this week tells, as on the screen */
        s.left = vh_cell_number(t, i, "stock_left"); /* NaN: no stock is known */
        s.left = isfinite(s.left) ? floor(fmax(0.0, s.left)) : s.left;
        s.out = vh_cell_number(t, i, "runs_out");
        s.maybe = vh_cell_number(t, i, "runs_out_p10");
        s.order = vh_cell_number(t, i, "order_by");
    }
    return s;
}

void vh_supply_say(const struct vh_supply_left *s, char said[VH_SUPPLY_TEXT])
{
    char day[VH_SAY_ROOM], by[VH_SAY_ROOM], rest[VH_SAY_ROOM], more[VH_SAY_ROOM];

    vh_say_pieces(s->left, rest);
    vh_say_pieces(s->needed, more);
    vh_say_date(s->out, day);
    vh_say_date(s->order, by);
    if (s->out > 0.0 && isfinite(s->left)) {
        snprintf(said, VH_SUPPLY_TEXT,
                 "%s left after this week, gone %s: order by %s; %s are used to the end", rest, day,
                 by, more);
    } else if (s->needed > 0.0 && isfinite(s->left) && s->maybe > 0.0) {
        vh_say_date(s->maybe, day);
        snprintf(said, VH_SUPPLY_TEXT, "%s left after this week, likely enough; may be gone by %s",
                 rest, day);
    } else if (s->needed > 0.0) {
        snprintf(said, VH_SUPPLY_TEXT, "%s are used to the end%s", more,
                 isfinite(s->left) ? "; they last" : "");
    } else {
        snprintf(said, VH_SUPPLY_TEXT, "none is used any more");
    }
}
