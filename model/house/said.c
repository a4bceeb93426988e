/* Promises as they were made: those of earlier runs, then this run's own. */
#include <math.h>
#include <string.h>

#include "vh_csv.h"
#include "vh_date.h"
#include "vh_math.h"
#include "vh_result.h"

enum { SAID_ON, DATE, PLANTING, GRADE, PROMISE, P10, P90, COLUMNS };

/* Both tables have the same columns, in other measures. */
static const struct measure {
    enum vh_result_table_id table;
    const char *promise, *low, *high; /* columns of market_days */
    bool by_piece;                    /* only what is sold so */
} measures[VH_SAID_TABLES] = {
    [VH_SAID_KG] = {VH_TABLE_SAID, "promise_kg", "kg_p10", "kg_p90", false},
    [VH_SAID_FRUITS] = {VH_TABLE_SAID_FRUITS, "promise_fruits", "fruits_p10", "fruits_p90", true},
};

struct reading {
    const struct measure *measure;
    struct vh_table *table;
    struct vh_messages *messages;
};

static enum vh_status wrong(const struct reading *r, const struct vh_csv_row *row, const char *what)
{
    return vh_fail(r->messages, VH_BAD_INPUT,
                   (struct vh_place){.file = row->file, .line = row->line},
                   "%s; lines of this file are added by the program and never changed", what);
}

static bool is_header(const struct reading *r, const struct vh_csv_row *row)
{
    size_t count;
    const struct vh_column *column = vh_result_columns(r->measure->table, &count);
    bool same = row->cells == count;

    for (size_t c = 0; c < count && same; c++)
        same = row->cell[c].text && strcmp(row->cell[c].text, column[c].name) == 0;
    return same;
}

static enum vh_status take(void *context, const struct vh_csv_row *row, bool header)
{
    struct reading *r = context;

    if (header)
        return is_header(r, row) ? VH_OK : wrong(r, row, "this is not the header of our promises");
    if (vh_table_add_row(r->table) != VH_OK)
        return VH_NO_MEMORY;
    for (size_t c = 0; c < COLUMNS; c++) {
        const struct vh_csv_cell cell = row->cell[c];
        int64_t day;
        double number = VH_UNKNOWN;

        if (c == SAID_ON || c == DATE) {
            if (!cell.text || vh_date_parse(cell.text, &day) != VH_OK)
                return wrong(r, row, "this is no date like 2026-07-14");
            vh_table_set_number(r->table, c, (double)day);
        } else if (c == PLANTING || c == GRADE) {
            if (vh_table_set_text(r->table, c, cell.text) != VH_OK)
                return VH_NO_MEMORY;
        } else {
            if (cell.text && !vh_csv_number(cell, '.', &number))
                return wrong(r, row, "this is no number");
            if (number < 0.0)
                return wrong(r, row, "a promise is never below nothing");
            vh_table_set_number(r->table, c, number);
        }
    }
    return VH_OK;
}

/* Equal as far as a CSV shows. */
static bool is_same(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-5 * vh_max(fabs(a), fabs(b));
}

/* Is it what was last said on this day of that day, planting and grade? A slip that was promised
 * and mended stands with both: the mended number is said again behind it. */
static bool is_told(const struct vh_table *t, size_t rows, const double number[COLUMNS],
                    const char *planting, const char *grade)
{
    for (size_t i = rows; i-- > 0;) {
        if (vh_table_number(t, i, SAID_ON) != number[SAID_ON] ||
            vh_table_number(t, i, DATE) != number[DATE] ||
            strcmp(vh_table_text(t, i, PLANTING), planting) != 0 ||
            strcmp(vh_table_text(t, i, GRADE), grade) != 0)
            continue;
        return is_same(vh_table_number(t, i, PROMISE), number[PROMISE]) &&
               is_same(vh_table_number(t, i, P10), number[P10]) &&
               is_same(vh_table_number(t, i, P90), number[P90]);
    }
    return false;
}

static enum vh_status add(struct vh_table *t, const double number[COLUMNS], const char *planting,
                          const char *grade)
{
    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, PLANTING, planting) != VH_OK ||
        vh_table_set_text(t, GRADE, grade) != VH_OK)
        return VH_NO_MEMORY;
    for (size_t c = 0; c < COLUMNS; c++)
        if (c != PLANTING && c != GRADE)
            vh_table_set_number(t, c, number[c]);
    return VH_OK;
}

/* Is the planting, or the crop of "all CROP", counted by the piece? */
static bool is_by_piece(const struct vh_table *summary, const char *who)
{
    const bool all = strncmp(who, "all ", 4) == 0;
    const size_t name = (size_t)vh_table_find(summary, all ? "crop" : "planting"),
                 unit = (size_t)vh_table_find(summary, "unit_word");

    for (size_t i = 0; i < vh_table_rows(summary); i++)
        if (strcmp(vh_table_text(summary, i, name), all ? who + 4 : who) == 0)
            return strcmp(vh_table_text(summary, i, unit), "fruits") == 0;
    return false;
}

static enum vh_status add_own(struct vh_result *r, const struct vh_scenario *s,
                              const struct measure *in)
{
    const struct vh_table *days = r->table[VH_TABLE_MARKET_DAYS];
    struct vh_table *said = r->table[in->table];
    const size_t earlier = vh_table_rows(said);
    const double today = (double)s->house.today;
    const int planting = vh_table_find(days, "planting"), grade = vh_table_find(days, "grade");
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < vh_table_rows(days) && status == VH_OK; i++) {
        const double date = vh_cell_number(days, i, "date"), promise = vh_cell_number(days, i, in->promise);
        const char *who = vh_table_text(days, i, (size_t)planting);
        const char *which = vh_table_text(days, i, (size_t)grade);
        const double number[COLUMNS] = {[SAID_ON] = today,
                                        [DATE] = date,
                                        [PROMISE] = promise,
                                        [P10] = vh_cell_number(days, i, in->low),
                                        [P90] = vh_cell_number(days, i, in->high)};
        if (isnan(promise) || date < today || date > today + s->house_params.said_ahead_d ||
            strcmp(which, "ungraded") == 0 ||
            (in->by_piece && !is_by_piece(r->table[VH_TABLE_SUMMARY], who)) ||
            is_told(said, earlier, number, who, which))
            continue;
        status = add(said, number, who, which);
    }
    return status;
}

enum vh_status vh_result_say(struct vh_result *r, const struct vh_scenario *s, enum vh_said_in in,
                             const char *earlier, size_t n, const char *shown_name,
                             size_t *rows_before, struct vh_messages *m)
{
    const struct measure *measure = &measures[in];
    struct vh_table *said = vh_result_table_new(measure->table);
    struct reading reading = {measure, said, m};
    const struct vh_csv_format ours = {',', '.'};
    enum vh_status status = said ? VH_OK : VH_NO_MEMORY;

    if (status == VH_OK && n > 0)
        status = vh_csv_read_memory(earlier, n, shown_name, ours, take, &reading, m);
    if (status != VH_OK) {
        vh_table_free(said);
        return status;
    }
    vh_table_free(r->table[measure->table]);
    r->table[measure->table] = said;
    *rows_before = vh_table_rows(said);
    return add_own(r, s, measure);
}
