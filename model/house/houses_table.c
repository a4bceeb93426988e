/* What one house is among many: a row a planting. */
#include <math.h>
#include <string.h>

#include "vh_math.h"
#include "vh_result.h"

enum {
    SCENARIO,
    PLANTING,
    KG_M2,
    P10,
    P50,
    P90,
    KG_PER_HOUR,
    SAID,
    PICKED,
    RECORDED,
    WORST,
    STATUS
};

static const double week_d = 7.0, minutes_per_h = 60.0;

static double number(const struct vh_table *t, size_t row, const char *column)
{
    const int at = vh_table_find(t, column);
    return at < 0 ? VH_UNKNOWN : vh_table_number(t, row, (size_t)at);
}

static const char *text(const struct vh_table *t, size_t row, const char *column)
{
    const int at = vh_table_find(t, column);
    return at < 0 ? "" : vh_table_text(t, row, (size_t)at);
}

static bool is_of(const struct vh_table *t, size_t row, const char *planting)
{
    return strcmp(text(t, row, "planting"), planting) == 0;
}

static double hours_of(const struct vh_table *tasks, const char *planting)
{
    double minutes = 0.0;

    for (size_t i = 0; i < vh_table_rows(tasks); i++) {
        const double one = number(tasks, i, "minutes");
        if (is_of(tasks, i, planting) && isfinite(one))
            minutes += one;
    }
    return minutes / minutes_per_h;
}

/* kg written down as picked on the days after `after` up to `last`; unknown: nothing was. */
static double recorded(const struct vh_table *picks, const char *planting, double after,
                       double last)
{
    double sum = VH_UNKNOWN;

    for (size_t i = 0; i < vh_table_rows(picks); i++) {
        const double on = number(picks, i, "date"), kg = number(picks, i, "picked_kg");
        if (isfinite(kg) && on > after && on <= last && is_of(picks, i, planting))
            sum = kg + (isfinite(sum) ? sum : 0.0);
    }
    return sum;
}

/* Is row i the promise for its market day that was made nearest to a week before? Of two as near
 * the last counts. */
static bool is_the_promise(const struct vh_table *said, size_t i, const char *planting)
{
    const double off_most_d = 3.0, date = number(said, i, "date");
    const double off = fabs(date - number(said, i, "said_on") - week_d);

    if (!is_of(said, i, planting) || strcmp(text(said, i, "grade"), "all") != 0 || off > off_most_d)
        return false;
    for (size_t k = 0; k < vh_table_rows(said); k++) {
        const double other = fabs(date - number(said, k, "said_on") - week_d);
        if (k != i && number(said, k, "date") == date && is_of(said, k, planting) &&
            strcmp(text(said, k, "grade"), "all") == 0 && (other < off || (other == off && k > i)))
            return false;
    }
    return true;
}

/* What was promised and what came, of the market days gone by that have both. */
static void add_kept(const struct vh_result *r, const char *planting, double today, double *said_kg,
                     double *picked_kg)
{
    const struct vh_table *said = r->table[VH_TABLE_SAID];

    *said_kg = *picked_kg = VH_UNKNOWN;
    for (size_t i = 0; i < vh_table_rows(said); i++) {
        const double date = number(said, i, "date"), kg = number(said, i, "promise_kg");
        if (!(date < today) || !isfinite(kg) || !is_the_promise(said, i, planting))
            continue;
        const double came = recorded(r->table[VH_TABLE_PICKS], planting, date - week_d, date);
        if (!isfinite(came))
            continue;
        *said_kg = kg + (isfinite(*said_kg) ? *said_kg : 0.0);
        *picked_kg = came + (isfinite(*picked_kg) ? *picked_kg : 0.0);
    }
}

/* The warning of the planting, or of its house, that must be acted on first. */
static const char *worst(const struct vh_table *warnings, const char *planting)
{
    const char *what = "";
    double first = (double)INFINITY;

    for (size_t i = 0; i < vh_table_rows(warnings); i++) {
        const double by = number(warnings, i, "act_by");
        if ((is_of(warnings, i, planting) || is_of(warnings, i, "")) && by < first) {
            first = by;
            what = text(warnings, i, "what");
        }
    }
    return what;
}

static enum vh_status add_row(struct vh_table *t, const struct vh_result *r, size_t row,
                              const char *name)
{
    const struct vh_table *summary = r->table[VH_TABLE_SUMMARY];
    const char *planting = text(summary, row, "planting");
    const double hours = hours_of(r->table[VH_TABLE_TASKS], planting);
    double said_kg, picked_kg;

    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, SCENARIO, name) != VH_OK ||
        vh_table_set_text(t, PLANTING, planting) != VH_OK ||
        vh_table_set_text(t, WORST, worst(r->table[VH_TABLE_WARNINGS], planting)) != VH_OK ||
        vh_table_set_text(t, STATUS, "done") != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, KG_M2, number(summary, row, "kg_m2"));
    vh_table_set_number(t, P10, number(summary, row, "kg_m2_p10"));
    vh_table_set_number(t, P50, number(summary, row, "kg_m2_p50"));
    vh_table_set_number(t, P90, number(summary, row, "kg_m2_p90"));
    if (hours > 0.0)
        vh_table_set_number(t, KG_PER_HOUR, number(summary, row, "season_kg") / hours);
    vh_table_set_number(
        t, RECORDED,
        recorded(r->table[VH_TABLE_PICKS], planting, -(double)INFINITY, (double)INFINITY));
    if (strcmp(text(summary, row, "unit_word"), "kg") == 0) {
        add_kept(r, planting, number(r->table[VH_TABLE_HOUSE], 0, "today"), &said_kg, &picked_kg);
        vh_table_set_number(t, SAID, said_kg);
        vh_table_set_number(t, PICKED, picked_kg);
    }
    return VH_OK;
}

enum vh_status vh_result_add_houses(struct vh_result *r, const char *name)
{
    const struct vh_table *summary = r->table[VH_TABLE_SUMMARY];
    struct vh_table *t = vh_result_table_new(VH_TABLE_HOUSES);
    enum vh_status status = t ? VH_OK : VH_NO_MEMORY;

    for (size_t i = 0; i < vh_table_rows(summary) && status == VH_OK; i++)
        status = add_row(t, r, i, name);
    if (status != VH_OK) {
        vh_table_free(t);
        return status;
    }
    vh_table_free(r->table[VH_TABLE_HOUSES]);
    r->table[VH_TABLE_HOUSES] = t;
    return VH_OK;
}
