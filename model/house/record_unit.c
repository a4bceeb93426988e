/* Which masses stand in another unit than hers: a number typed behind the wrong one of picked_kg
 * and picked_lb is 2.2 times off, too little for its neighbours to speak against it. */
#include <stdio.h>
#include <string.h>

#include "record_parts.h"

static bool is_mass(const struct vh_record *a)
{
    const char *unit = strrchr(vh_record_item_name(a->item), '_');

    return vh_record_is_of_planting(a->item) && unit && strcmp(unit, "_kg") == 0;
}

static bool is_in_lb(const struct vh_record *a)
{
    return strcmp(a->wrote_unit, "lb") == 0 || strcmp(a->wrote_unit, "oz") == 0;
}

/* What was noted in the unit of the house, and believed in the other one. */
struct noted {
    bool own, other;
};

bool vh_record_is_other_unit(const struct vh_records *r, size_t row, const struct vh_house *house,
                             char why[VH_FITS_ROOM])
{
    const struct vh_record *a = &r->row[row];
    struct noted here = {false, false}, anywhere = {false, false};

    if (!is_mass(a) || is_in_lb(a) == house->us_units)
        return false;
    for (size_t i = 0; i < row && !here.other; i++) {
        const struct vh_record *b = &r->row[i];
        if (!is_mass(b))
            continue;
        const bool own = is_in_lb(b) == house->us_units, other = !own && !b->doubt;
        anywhere.own |= own;
        anywhere.other |= other;
        here.own |= own && b->planting == a->planting;
        here.other |= other && b->planting == a->planting;
    }
    const struct noted *before = here.own || here.other ? &here : &anywhere;
    if (!before->own || before->other)
        return false;
    const char *name = vh_record_item_name(a->item), *unit = house->us_units ? "lb" : "kg";
    snprintf(why, VH_FITS_ROOM, "and %s before it is in %s (did you mean %.*s%s?)",
             before == &here ? "all of that planting" : "all", unit,
             (int)(strrchr(name, '_') + 1 - name), name, unit);
    return true;
}
