#include "vh_small_line.h"

#include <math.h>
#include <string.h>

static bool is_small(const struct vh_table *summary, size_t row, double mean_g)
{
    return mean_g < vh_cell_number(summary, row, "small_below_g"); /* NaN: of none is it so */
}

bool vh_small_line(const struct vh_table *summary, size_t row, double mean_g,
                   const struct vh_summary_facts *f, char text[VH_SAY_TEXT])
{
    char mean[VH_SAY_ROOM], from[VH_SAY_ROOM];

    if (!is_small(summary, row, mean_g))
        return false;
    vh_say_fruit_mass(mean_g, f->units, mean);
    vh_say_fruit_mass(vh_cell_number(summary, row, "pick_from_g"), f->units, from);
    vh_say_add(text,
               "%s stay small, about %s, and you pick from %s: fed too little they are picked by "
               "their age; fewer fruits left on a plant would be heavier (vinehand compare)",
               vh_cell_text(summary, row, "planting"), mean, from);
    return true;
}

/* Mean of a planting's picks in the coming seven days, g; NaN: there are none. On its last day more
 * than else may go, and then there is nothing left to thin. */
static double mean_of_week_g(const struct vh_table *picks, const char *planting, int64_t today,
                             double last)
{
    const double g_per_kg = 1000.0, days_per_week = 7.0;
    double kg = 0.0, fruits = 0.0;

    for (size_t i = 0; picks && i < vh_table_rows(picks); i++) {
        const double ahead = vh_cell_number(picks, i, "date") - (double)today;
        if (!(ahead >= 0.0 && ahead < days_per_week) || vh_cell_number(picks, i, "date") == last ||
            strcmp(vh_cell_text(picks, i, "planting"), planting) != 0)
            continue;
        kg += vh_cell_number(picks, i, "kg");
        fruits += vh_cell_number(picks, i, "fruits");
    }
    return fruits > 0.0 ? kg * g_per_kg / fruits : (double)NAN;
}

void vh_small_lines_of_week(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                            int indent)
{
    const struct vh_table *summary = vh_result_table_named(r, "summary"),
                          *picks = vh_result_table_named(r, "picks");

    char text[VH_SAY_TEXT] = "", others[VH_SAY_TEXT] = "", mean[VH_SAY_ROOM];

    for (size_t i = 0; summary && i < vh_table_rows(summary); i++) {
        const char *planting = vh_cell_text(summary, i, "planting");
        const double mean_g =
            mean_of_week_g(picks, planting, f->today, vh_cell_number(summary, i, "pull_out"));
        if (!is_small(summary, i, mean_g))
            continue;
        if (!text[0]) {
            vh_small_line(summary, i, mean_g, f, text);
            continue;
        }
        vh_say_fruit_mass(mean_g, f->units, mean);
        vh_say_add(others, "%s%s (about %s)", others[0] ? ", " : "", planting, mean);
    }
    vh_say_list(others, sizeof others, "and");
    if (others[0])
        vh_say_add(text, "; likewise %s", others);
    if (text[0])
        vh_say_block(to, "", indent, text);
}
