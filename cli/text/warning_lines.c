/* What needs care: the warnings that still hold, in the reader's measures. */
#include <math.h>
#include <string.h>

#include "vh_summary.h"

enum { INDENT = 11, FAR_D = 14 }; /* what is farther off is told in a few words */

/* A warning holds until the day to act by, or its own. */
static bool holds(const struct vh_table *t, size_t row, int64_t today)
{
    const double on = vh_cell_number(t, row, "date"), by = vh_cell_number(t, row, "act_by");
    const double until = isfinite(by) ? fmax(on, by) : on;

    return !(until < (double)today);
}

/* The day from which something is to be done about it. */
static double first_day_of(const struct vh_table *t, size_t row)
{
    const double on = vh_cell_number(t, row, "date"), by = vh_cell_number(t, row, "act_by");

    return isfinite(by) ? fmin(on, by) : on;
}

/* "mend it if it is a slip": what to do, behind what it does. */
static const char *remedy(const struct vh_table *t, size_t row)
{
    const char *text = vh_cell_text(t, row, "what_to_do"), *semicolon = strrchr(text, ';');

    return semicolon ? semicolon + 1 + strspn(semicolon + 1, " ") : text;
}

static bool asks_the_same(const struct vh_table *t, size_t row, size_t other, int64_t today)
{
    return remedy(t, row)[0] && vh_cell_text(t, other, "planting")[0] && holds(t, other, today) &&
           !(first_day_of(t, other) > (double)today + FAR_D) &&
           strcmp(remedy(t, row), remedy(t, other)) == 0;
}

static bool is_before(const struct vh_table *t, size_t row, size_t from, int64_t today,
                      const char *planting)
{
    for (size_t i = from; i < row; i++)
        if (asks_the_same(t, row, i, today) &&
            strcmp(vh_cell_text(t, i, "planting"), planting) == 0)
            return true;
    return false;
}

/* "; likewise slicers, plums": for whom else the same is to be done, of those that find no room
 * from row `left` on; said once, at the last of those that do. */
static void add_others(char text[VH_SAY_TEXT], const struct vh_table *t, size_t row, size_t left,
                       int64_t today)
{
    const char *between = "; likewise ", *own = vh_cell_text(t, row, "planting");

    for (size_t i = row + 1; i < left; i++)
        if (asks_the_same(t, row, i, today))
            return;
    for (size_t i = left; i < vh_table_rows(t); i++) {
        const char *name = vh_cell_text(t, i, "planting");
        if (!asks_the_same(t, row, i, today) || strcmp(name, own) == 0 ||
            is_before(t, i, left, today, name))
            continue;
        vh_say_add(text, "%s%s", between, name);
        between = ", ";
    }
}

/* The first row that is not among the first so many that hold. */
static size_t first_left(const struct vh_table *t, int64_t today, int most)
{
    size_t row = 0;

    for (int shown = 0; t && row < vh_table_rows(t); row++)
        if (holds(t, row, today) && shown++ >= most)
            break;
    return row;
}

const char *vh_say_warnings(FILE *to, const char *head, const struct vh_table *warnings,
                            const struct vh_summary_facts *f, int most)
{
    char text[VH_SAY_TEXT], said[VH_SAY_TEXT], date[VH_SAY_ROOM];
    const size_t without_room = first_left(warnings, f->today, most);
    int left = 0;

    for (size_t i = 0; warnings && i < vh_table_rows(warnings); i++) {
        if (!holds(warnings, i, f->today))
            continue;
        if (i >= without_room) {
            left++;
            continue;
        }
        const char *planting = vh_cell_text(warnings, i, "planting"),
                   *what_to_do = vh_cell_text(warnings, i, "what_to_do");
        vh_say_date(vh_cell_number(warnings, i, "date"), date);
        text[0] = 0;
        vh_say_add(text, "%s%s%s%s%s", date, date[0] && planting[0] ? " " : "", planting,
                   date[0] || planting[0] ? ": " : "", vh_cell_text(warnings, i, "what"));
        const double first = first_day_of(warnings, i);
        if (first > (double)f->today + FAR_D) {
            vh_say_date(first, date);
            if (first < vh_cell_number(warnings, i, "date"))
                vh_say_add(text, " (act by %s)", date);
        } else if (what_to_do[0]) {
            vh_say_add(text, "; %s", what_to_do);
            add_others(text, warnings, i, without_room, f->today);
        }
        vh_say_measures_in(text, f->units, said, sizeof said);
        vh_say_block(to, head, INDENT, said);
        head = "";
    }
    if (left > 0) {
        snprintf(text, sizeof text, "%d more in warnings.csv", left);
        vh_say_block(to, head, INDENT, text);
        head = "";
    }
    return head;
}
