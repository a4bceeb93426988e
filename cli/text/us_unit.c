#include "vh_us_unit.h"

#include <stddef.h>
#include <string.h>

static double mm_in_inches(double mm)
{
    return vh_say_in(mm / 10.0);
}

static double per_m2_in_per_ft2(double per_m2)
{
    return per_m2 / vh_say_ft2(1.0);
}

static const struct vh_us_unit list[] = {
    {"degC", "F", "c", "f", vh_say_f},
    {"g", "oz", "g", "oz", vh_say_oz},
    {"kg", "lb", "kg", "lb", vh_say_lb},
    {"mm", "in", "mm", "in", mm_in_inches},
    {"cm", "in", "cm", "in", vh_say_in},
    {"m", "ft", "m", "ft", vh_say_ft},
    {"m2", "ft2", "m2", "ft2", vh_say_ft2},
    {"m-2", "ft-2", "m2", "ft2", per_m2_in_per_ft2},
    {"kg of the planting", "lb of the planting", "kg", "lb", vh_say_lb},
};

const struct vh_us_unit *vh_us_unit_of(const char *unit, enum vh_say_units units)
{
    for (size_t i = 0; units == VH_SAY_US && i < sizeof list / sizeof list[0]; i++)
        if (strcmp(list[i].metric, unit) == 0)
            return &list[i];
    return NULL;
}
