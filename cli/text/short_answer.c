#include "vh_short_answer.h"

#include <math.h>
#include <string.h>

enum { RANGE_ROOM = 2 * VH_SAY_ROOM };

/* "21 to 27 July": a word that both end with is said once. */
static void say_range(const char *low, const char *high, char said[RANGE_ROOM])
{
    const char *unit = strchr(low, ' '), *same = strchr(high, ' ');

    if (strcmp(low, high) == 0 || !high[0])
        snprintf(said, RANGE_ROOM, "%s", low);
    else if (unit && same && strcmp(unit, same) == 0)
        snprintf(said, RANGE_ROOM, "%.*s to %s", (int)(unit - low), low, high);
    else
        snprintf(said, RANGE_ROOM, "%s to %s", low, high);
}

/* What one future in ten falls below or goes beyond; of one future alone the number itself. */
static double bound(const struct vh_table *t, size_t row, const char *column, const char *side)
{
    char name[VH_SAY_ROOM];

    snprintf(name, sizeof name, "%s%s", column, side);
    const double value = vh_cell_number(t, row, name);
    return isfinite(value) ? value : vh_cell_number(t, row, column);
}

static void say_days(double from, double until, char said[RANGE_ROOM])
{
    char first[VH_SAY_ROOM], last[VH_SAY_ROOM];

    vh_say_date(from, first);
    vh_say_date(until, last);
    say_range(first, last, said);
}

static void add_flowers(char text[VH_SAY_TEXT], const struct vh_table *t, size_t row, double today)
{
    const double last = vh_cell_number(t, row, "last_flower");
    char days[RANGE_ROOM];

    say_days(vh_cell_number(t, row, "first_flower"), last, days);
    if (days[0])
        vh_say_add(text, " %s %s", last < today ? "flowered" : "flowers", days);
}

/* False: it does not ripen in time. */
static bool add_ripens(char text[VH_SAY_TEXT], const struct vh_table *t, size_t row, double today)
{
    const double last = bound(t, row, "last_ripe", "_p90");
    char days[RANGE_ROOM];

    if (!isfinite(vh_cell_number(t, row, "first_ripe")))
        return false;
    say_days(bound(t, row, "first_ripe", "_p10"), last, days);
    vh_say_add(text, ", %s ready to pick %s", last < today ? "was" : "is", days);
    return true;
}

static void add_fruit(char text[VH_SAY_TEXT], const struct vh_table *t, size_t row,
                      enum vh_say_units units)
{
    char mean[VH_SAY_ROOM], low[VH_SAY_ROOM], high[VH_SAY_ROOM], range[RANGE_ROOM];

    vh_say_fruit_mass(vh_cell_number(t, row, "fruit_g"), units, mean);
    vh_say_fruit_mass(bound(t, row, "fruit_g", "_p10"), units, low);
    vh_say_fruit_mass(bound(t, row, "fruit_g", "_p90"), units, high);
    if (!mean[0])
        return;
    const double kept = vh_cell_number(t, row, "kept");
    vh_say_add(text, ": about %.*f fruits a stem, %s each", kept < 10.0 ? 1 : 0, kept, mean);
    say_range(low, high, range);
    if (strcmp(range, mean) != 0)
        vh_say_add(text, " (%s)", range);
}

/* The plants come out before it is ripe. */
static void add_too_late(char text[VH_SAY_TEXT], const struct vh_table *summary,
                         const char *planting)
{
    char date[VH_SAY_ROOM] = "";

    for (size_t i = 0; summary && i < vh_table_rows(summary); i++)
        if (strcmp(vh_cell_text(summary, i, "planting"), planting) == 0)
            vh_say_date(vh_cell_number(summary, i, "pull_out"), date);
    vh_say_add(text, ", is not ready before the plants come out%s%s", date[0] ? " on " : "", date);
}

void vh_short_answer_truss(FILE *to, const struct vh_result *season,
                           const struct vh_summary_facts *facts, const char *planting, int truss)
{
    const struct vh_table *t = vh_result_table_named(season, "trusses");
    const double today = (double)facts->today;

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        char text[VH_SAY_TEXT] = "It";

        if (vh_cell_number(t, i, "truss") != (double)truss ||
            strcmp(vh_cell_text(t, i, "planting"), planting) != 0)
            continue;
        add_flowers(text, t, i, today);
        if (!(vh_cell_number(t, i, "kept") > 0.0))
            vh_say_add(text, ", keeps no fruit");
        else if (add_ripens(text, t, i, today))
            add_fruit(text, t, i, facts->units);
        else
            add_too_late(text, vh_result_table_named(season, "summary"), planting);
        vh_say_add(text, ".");
        vh_say_block(to, "", 0, text);
        return;
    }
}
