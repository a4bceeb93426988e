/* What needs care: the warnings that still hold, in the reader's measures. */
#include <math.h>
#include <string.h>

#include "vh_careful.h"
#include "vh_summary.h"

enum { INDENT = 11, FAR_D = 14 }; /* what is farther off is told in a few words */

/* "mend it if it is a slip": what to do, behind what it does. */
static const char *remedy(const struct vh_table *t, size_t row)
{
    const char *text = vh_cell_text(t, row, "what_to_do"), *semicolon = strrchr(text, ';');

    return semicolon ? semicolon + 1 + strspn(semicolon + 1, " ") : text;
}

/* The warnings to be read, of which so many find room. */
struct list {
    const struct vh_table *t;
    struct vh_careful all;
    int shown;
    int64_t today;
};

static bool is_far(const struct list *l, size_t row)
{
    return vh_careful_from(l->t, row) > (double)l->today + FAR_D;
}

static bool asks_the_same(const struct list *l, size_t row, size_t other)
{
    return remedy(l->t, row)[0] && vh_cell_text(l->t, other, "planting")[0] && !is_far(l, other) &&
           strcmp(remedy(l->t, row), remedy(l->t, other)) == 0;
}

static bool is_before(const struct list *l, int at, size_t row, const char *planting)
{
    for (int i = 0; i < at; i++)
        if (l->all.row[i] != row && asks_the_same(l, row, l->all.row[i]) &&
            strcmp(vh_cell_text(l->t, l->all.row[i], "planting"), planting) == 0)
            return true;
    return false;
}

/* The same words of an earlier one that is told: it names this planting. */
static bool is_told_before(const struct list *l, int at)
{
    const size_t row = l->all.row[at];

    for (int i = 0; i < at && i < l->shown; i++)
        if (strcmp(vh_cell_text(l->t, l->all.row[i], "what"), vh_cell_text(l->t, row, "what")) ==
                0 &&
            asks_the_same(l, l->all.row[i], row) && asks_the_same(l, row, l->all.row[i]))
            return true;
    return false;
}

/* "; likewise slicers and plums": for whom else the same is to be done, of those that find no room;
 * said once, at the last of those that do. */
static void add_others(char text[VH_SAY_TEXT], const struct list *l, int at)
{
    const size_t row = l->all.row[at];
    const char *between = "", *own = vh_cell_text(l->t, row, "planting");
    char others[VH_SAY_TEXT] = "";

    for (int i = at + 1; i < l->shown; i++)
        if (asks_the_same(l, row, l->all.row[i]) && !is_told_before(l, i))
            return;
    for (int i = at + 1; i < l->all.rows; i++) {
        const char *name = vh_cell_text(l->t, l->all.row[i], "planting");
        if (!asks_the_same(l, row, l->all.row[i]) || strcmp(name, own) == 0 ||
            is_before(l, i, row, name))
            continue;
        vh_say_add(others, "%s%s", between, name);
        between = ", ";
    }
    vh_say_list(others, sizeof others, "and");
    if (others[0])
        vh_say_add(text, "; likewise %s", others);
}

/* "14 July slicers: heads stand above the wire already; lower them in two passes" */
static void say_warning(char text[VH_SAY_TEXT], const struct list *l, int at)
{
    const size_t row = l->all.row[at];
    const char *planting = vh_cell_text(l->t, row, "planting"),
               *what_to_do = vh_cell_text(l->t, row, "what_to_do");
    const double on = vh_cell_number(l->t, row, "date"), first = vh_careful_from(l->t, row);
    char date[VH_SAY_ROOM];

    vh_say_date(on, date);
    text[0] = 0;
    vh_say_add(text, "%s%s%s%s%s", date, date[0] && planting[0] ? " " : "", planting,
               date[0] || planting[0] ? ": " : "", vh_cell_text(l->t, row, "what"));
    if (is_far(l, row)) {
        vh_say_date(first, date);
        if (first < on)
            vh_say_add(text, " (act by %s)", date);
    } else if (what_to_do[0]) {
        vh_say_add(text, "; %s", what_to_do);
        add_others(text, l, at);
    }
}

const char *vh_say_warnings(FILE *to, const char *head, const struct vh_table *warnings,
                            const struct vh_summary_facts *f, int most, int urgent, bool known)
{
    char text[VH_SAY_TEXT], said[VH_SAY_TEXT] = "";
    struct list l = {.t = warnings, .today = f->today};

    vh_careful(warnings, f->today, &l.all);
    const int least = l.all.urgent < urgent ? l.all.urgent : urgent;
    l.shown = most > least ? most : least;
    const int there = known ? l.all.rows : l.all.to_act;
    l.shown = l.shown < there ? l.shown : there;
    for (int i = 0; i < l.shown; i++) {
        if (is_told_before(&l, i))
            continue;
        if (said[0])
            vh_say_block(to, head, INDENT, said);
        head = said[0] ? "" : head;
        say_warning(text, &l, i);
        vh_say_measures_in(text, f->units, said, sizeof said);
    }
    const int left = l.all.rows - l.shown + l.all.beyond;
    if (left > 0)
        vh_say_add(said, said[0] ? "; %d more in warnings.csv" : "%d in warnings.csv", left);
    if (said[0])
        vh_say_block(to, head, INDENT, said);
    return said[0] ? "" : head;
}
