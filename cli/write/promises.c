#include "vh_promises.h"

#include <math.h>
#include <string.h>

#include "vh_cells.h"

static const double week_d = 7.0;

double vh_promise_said(const struct vh_table *t, const char *planting, double date, double before)
{
    const double off_most_d = 3.0;
    double promise = (double)NAN, nearest = off_most_d;

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double off = fabs(before - vh_cell_number(t, i, "said_on") - week_d);
        if (vh_cell_number(t, i, "date") != date || off > nearest ||
            strcmp(vh_cell_text(t, i, "grade"), "all") != 0 ||
            strcmp(vh_cell_text(t, i, "planting"), planting) != 0)
            continue;
        nearest = off;
        promise = vh_cell_number(t, i, "promise_kg");
    }
    return promise;
}

/* kg written down as picked in the week that ends with a day; NaN: nothing was. */
static double picked_until(const struct vh_table *t, const char *planting, double date)
{
    double sum = (double)NAN;

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double on = vh_cell_number(t, i, "date"), kg = vh_cell_number(t, i, "picked_kg");
        if (isfinite(kg) && on <= date && on > date - week_d &&
            !strcmp(vh_cell_text(t, i, "planting"), planting))
            sum = kg + (isfinite(sum) ? sum : 0.0);
    }
    return sum;
}

static bool by_piece(const struct vh_table *t, const char *planting)
{
    for (size_t i = 0; t && i < vh_table_rows(t); i++)
        if (!strcmp(vh_cell_text(t, i, "planting"), planting))
            return !strcmp(vh_cell_text(t, i, "unit_word"), "fruits");
    return false;
}

bool vh_promise_next(const struct vh_promise_tables *t, int64_t today, size_t *row,
                     struct vh_promise_past *out)
{
    for (; t->said && *row < vh_table_rows(t->said); (*row)++) {
        const char *planting = vh_cell_text(t->said, *row, "planting");
        const double date = vh_cell_number(t->said, *row, "date");
        const double kg = vh_cell_number(t->said, *row, "promise_kg");
        if (!(date < (double)today) || strcmp(vh_cell_text(t->said, *row, "grade"), "all") != 0 ||
            by_piece(t->summary, planting) || kg != vh_promise_said(t->said, planting, date, date))
            continue;
        *out = (struct vh_promise_past){planting, date, kg, picked_until(t->picks, planting, date)};
        if (!isfinite(out->came_kg))
            continue;
        (*row)++;
        return true;
    }
    return false;
}
