/* What needs care: the warnings that still hold, in the reader's measures. */
#include <math.h>

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

const char *vh_say_warnings(FILE *to, const char *head, const struct vh_table *warnings,
                            const struct vh_summary_facts *f, int most)
{
    char text[VH_SAY_TEXT], said[VH_SAY_TEXT], date[VH_SAY_ROOM];
    int shown = 0, left = 0;

    for (size_t i = 0; warnings && i < vh_table_rows(warnings); i++) {
        if (!holds(warnings, i, f->today))
            continue;
        if (shown >= most) {
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
        }
        vh_say_measures_in(text, f->units, said, sizeof said);
        vh_say_block(to, head, INDENT, said);
        head = "";
        shown++;
    }
    if (left > 0) {
        snprintf(text, sizeof text, "%d more in warnings.csv", left);
        vh_say_block(to, head, INDENT, text);
        head = "";
    }
    return head;
}
