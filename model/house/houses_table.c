/* What one house is among many: a row a planting. */
#include <math.h>
#include <stdlib.h>
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
    SAID_FRUITS,
    PICKED_FRUITS,
    RECORDED,
    RECORDED_FRUITS,
    WORST,
    STATUS
};

static const double minutes_per_h = 60.0;

static bool is_of(const struct vh_table *t, size_t row, const char *planting)
{
    return strcmp(vh_cell_text(t, row, "planting"), planting) == 0;
}

static double hours_of(const struct vh_table *tasks, const char *planting)
{
    double minutes = 0.0;

    for (size_t i = 0; i < vh_table_rows(tasks); i++) {
        const double one = vh_cell_number(tasks, i, "minutes");
        if (is_of(tasks, i, planting) && isfinite(one))
            minutes += one;
    }
    return minutes / minutes_per_h;
}

/* Written down as picked, kg or fruits by the column; unknown: nothing was. */
static double recorded(const struct vh_table *picks, const char *planting, const char *column)
{
    double sum = VH_UNKNOWN;

    for (size_t i = 0; i < vh_table_rows(picks); i++) {
        const double much = vh_cell_number(picks, i, column);
        if (isfinite(much) && is_of(picks, i, planting))
            sum = much + (isfinite(sum) ? sum : 0.0);
    }
    return sum;
}

/* What was promised and what came, of the market days gone by that have both; a pick of the weeks
 * of two of them once. */
static enum vh_status set_kept(struct vh_table *t, const struct vh_result *r, const char *planting)
{
    const struct vh_promise_tables tables = vh_promise_tables_of(r);
    const int64_t today = (int64_t)vh_cell_number(r->table[VH_TABLE_HOUSE], 0, "today");
    struct vh_promise_past past;
    double said = 0.0, came = 0.0;
    bool any = false, by_piece = false;
    bool *counted = calloc(vh_table_rows(r->table[VH_TABLE_PICKS]) + 1, sizeof *counted);

    if (!counted)
        return VH_NO_MEMORY;

    for (size_t row = 0; vh_promise_next(&tables, today, &row, &past);) {
        if (strcmp(past.planting, planting) != 0 || isnan(past.came))
            continue;
        any = true;
        by_piece = past.by_piece;
        said += past.promise;
        came += vh_promise_picked_once(&tables, &past, counted);
    }
    free(counted);
    if (any) {
        vh_table_set_number(t, by_piece ? SAID_FRUITS : SAID, said);
        vh_table_set_number(t, by_piece ? PICKED_FRUITS : PICKED, came);
    }
    return VH_OK;
}

/* What matters less: harm 0, something to do 1, good to know 2. */
static int rank_of(const struct vh_table *warnings, size_t row)
{
    const char *matter = vh_cell_text(warnings, row, "matter");

    return strcmp(matter, "harm") == 0 ? 0 : strcmp(matter, "do") == 0 ? 1 : 2;
}

/* The warning of the planting, or of its house, that must be acted on first; of those of one day
 * the one that does most harm; what is only good to know where there is nothing else. */
static const char *worst(const struct vh_table *warnings, const char *planting)
{
    const int known = 2;
    const char *what = "";
    double first = (double)INFINITY;
    int least = known;

    for (size_t i = 0; i < vh_table_rows(warnings); i++) {
        const double by = vh_cell_number(warnings, i, "act_by");
        const int rank = rank_of(warnings, i);
        const bool is_worse = (rank == known) != (least == known) ? rank < least
                              : by != first                       ? by < first
                                                                  : rank < least;
        if ((is_of(warnings, i, planting) || is_of(warnings, i, "")) && is_worse) {
            first = by;
            least = rank;
            what = vh_cell_text(warnings, i, "what");
        }
    }
    return what;
}

static enum vh_status add_row(struct vh_table *t, const struct vh_result *r, size_t row,
                              const char *name)
{
    const struct vh_table *summary = r->table[VH_TABLE_SUMMARY];
    const char *planting = vh_cell_text(summary, row, "planting");
    const double hours = hours_of(r->table[VH_TABLE_TASKS], planting);

    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, SCENARIO, name) != VH_OK ||
        vh_table_set_text(t, PLANTING, planting) != VH_OK ||
        vh_table_set_text(t, WORST, worst(r->table[VH_TABLE_WARNINGS], planting)) != VH_OK ||
        vh_table_set_text(t, STATUS, "done") != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, KG_M2, vh_cell_number(summary, row, "kg_m2"));
    vh_table_set_number(t, P10, vh_cell_number(summary, row, "kg_m2_p10"));
    vh_table_set_number(t, P50, vh_cell_number(summary, row, "kg_m2_p50"));
    vh_table_set_number(t, P90, vh_cell_number(summary, row, "kg_m2_p90"));
    if (hours > 0.0)
        vh_table_set_number(t, KG_PER_HOUR, vh_cell_number(summary, row, "season_kg") / hours);
    vh_table_set_number(t, RECORDED, recorded(r->table[VH_TABLE_PICKS], planting, "picked_kg"));
    vh_table_set_number(t, RECORDED_FRUITS,
                        recorded(r->table[VH_TABLE_PICKS], planting, "picked_fruits"));
    return set_kept(t, r, planting);
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
