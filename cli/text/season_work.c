#include "vh_season_work.h"

#include <math.h>

#include "vh_her_hours.h"
#include "vh_supply_left.h"

void vh_season_hours(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                     int indent)
{
    const struct vh_table *t = vh_result_table_named(r, "hours");
    struct vh_her_hours h;
    char text[VH_SAY_TEXT] = "", week[VH_SAY_ROOM], hers[VH_HOURS_TEXT];

    vh_her_hours(t, f->today, &h);
    if (h.worst < 0)
        return;
    vh_say_date(h.monday[h.worst], week);
    vh_hours_of_hers(t, &h, h.total[h.worst], hers);
    vh_say_add(text, "fullest week from Monday %s: ", week);
    if (hers[0])
        vh_say_add(text, "%s", hers);
    else
        vh_say_add(text, "%.1f hours", h.total[h.worst]);
    vh_say_block(to, "HOURS", indent, text);
}

void vh_season_supplies(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                        int indent)
{
    const struct vh_table *t = vh_result_table_named(r, "supplies");
    const char *head = "SUPPLIES";
    char lasts[VH_SAY_TEXT] = "", said[VH_SUPPLY_TEXT], text[VH_SAY_TEXT];

    for (size_t k = 0; k < VH_SUPPLY_ITEMS; k++) {
        const struct vh_supply_left left = vh_supply_left(t, vh_supply_item[k], f->today);
        if (!(left.needed > 0.0))
            continue;
        if (isfinite(left.left) && !(left.out > 0.0) && !(left.maybe > 0.0)) {
            vh_say_add(lasts, "%s%s", lasts[0] ? ", " : "", vh_supply_item[k]);
            continue;
        }
        vh_supply_say(&left, said);
        text[0] = 0;
        vh_say_add(text, "%s: ", vh_supply_item[k]);
        vh_say_add(text, "%s", said);
        vh_say_block(to, head, indent, text);
        head = "";
    }
    if (!lasts[0])
        return;
    text[0] = 0;
    vh_say_add(text, "to the end last: %s", lasts);
    vh_say_block(to, head, indent, text);
}
