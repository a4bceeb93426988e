#include "vh_careful.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

enum { SOON_D = 7 };
enum class_of { URGENT, TO_DO, LATER, KNOWN, CLASSES };

/* A warning holds until the day to act by, or its own. */
static bool holds(const struct vh_table *t, size_t row, int64_t today)
{
    const double on = vh_cell_number(t, row, "date"), by = vh_cell_number(t, row, "act_by");
    const double until = isfinite(by) ? fmax(on, by) : on;

    return !(until < (double)today);
}

double vh_careful_from(const struct vh_table *t, size_t row)
{
    const double on = vh_cell_number(t, row, "date"), by = vh_cell_number(t, row, "act_by");

    return isfinite(by) ? fmin(on, by) : on;
}

static enum class_of class_of(const struct vh_table *t, size_t row, int64_t today)
{
    const char *matter = vh_cell_text(t, row, "matter");
    const bool soon = !(vh_careful_from(t, row) >= (double)today + SOON_D);

    if (strcmp(matter, "harm") == 0)
        return soon ? URGENT : LATER;
    return strcmp(matter, "know") == 0 ? KNOWN : TO_DO;
}

void vh_careful(const struct vh_table *t, int64_t today, struct vh_careful *out)
{
    *out = (struct vh_careful){.rows = 0};
    for (int class = 0; t && class < CLASSES; class ++) {
        for (size_t i = 0; i < vh_table_rows(t); i++) {
            if (!holds(t, i, today) || class_of(t, i, today) != (enum class_of) class)
                continue;
            if (out->rows == VH_CAREFUL_MOST)
                out->beyond++;
            else
                out->row[out->rows++] = i;
        }
        if (class == URGENT)
            out->urgent = out->rows;
        if (class == LATER)
            out->to_act = out->rows;
    }
}
