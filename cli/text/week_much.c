#include "vh_week_much.h"

#include <math.h>
#include <string.h>

bool vh_week_by_pieces(const struct vh_table *summary, const char *planting)
{
    for (size_t i = 0; summary && i < vh_table_rows(summary); i++)
        if (strcmp(vh_cell_text(summary, i, "planting"), planting) == 0)
            return strcmp(vh_cell_text(summary, i, "unit_word"), "fruits") == 0;
    return false;
}

void vh_week_number(const struct vh_summary_facts *f, double kg, double fruits, bool pieces,
                    char said[VH_WEEK_MUCH_ROOM])
{
    const double least_kg = 0.05, least_fruits = 0.5; /* half of the last digit that is said */

    said[0] = '\0';
    if (pieces ? fruits < least_fruits : kg < least_kg)
        return;
    vh_say_much(pieces ? fruits : f->units == VH_SAY_US ? vh_say_lb(kg) : kg, pieces, said);
}

const char *vh_week_unit(const struct vh_summary_facts *f, bool pieces)
{
    return pieces ? "" : f->units == VH_SAY_US ? " lb" : " kg";
}

void vh_week_much(const struct vh_summary_facts *f, double kg, double fruits, bool pieces,
                  char said[VH_WEEK_MUCH_ROOM])
{
    vh_week_number(f, kg, fruits, pieces, said);
    if (said[0])
        strcat(said, vh_week_unit(f, pieces));
}

double vh_week_written(const struct vh_table *picks, size_t row, bool pieces)
{
    const double g_per_kg = 1000.0,
                 own = vh_cell_number(picks, row, pieces ? "picked_fruits" : "picked_kg"),
                 other = vh_cell_number(picks, row, pieces ? "picked_kg" : "picked_fruits"),
                 fruit_g = vh_cell_number(picks, row, "fruit_g");

    return isfinite(own) ? own : pieces ? other * g_per_kg / fruit_g : other * fruit_g / g_per_kg;
}
