/* What `check` shows of a records file, and which of its rows were not used. */
#include <inttypes.h>
#include <stdio.h>

#include "record_parts.h"

enum { FILE_COLUMN, WHAT, COUNT, FIRST_LINE, LAST_LINE, WHY, LAST_DAY, TOLD, COLUMNS };

static const struct vh_column columns[COLUMNS] = {
    {"file", VH_CELL_TEXT, "", "file the rows stand in"},
    {"what", VH_CELL_TEXT, "", "what was found"},
    {"count", VH_CELL_INTEGER, "", "how many rows, or values"},
    {"first_line", VH_CELL_INTEGER, "", "line of the first of them"},
    {"last_line", VH_CELL_INTEGER, "", "line of the last of them"},
    {"why", VH_CELL_TEXT, "", "what was done about it"},
    {"last_day", VH_CELL_DATE, "", "last day of the values used"},
    {"told", VH_CELL_TEXT, "", "warning; empty: none"},
};

static enum vh_status add(struct vh_records *r, const char *shown, const char *what, int64_t count,
                          const struct vh_record_count *where, const char *why)
{
    struct vh_table *t = r->report;
    enum vh_status status = vh_table_add_row(t);

    if (status != VH_OK)
        return status;
    vh_table_set_number(t, COUNT, (double)count);
    if (where && where->rows > 0) {
        vh_table_set_number(t, FIRST_LINE, (double)where->first_line);
        vh_table_set_number(t, LAST_LINE, (double)where->last_line);
    }
    if (vh_table_set_text(t, FILE_COLUMN, shown) != VH_OK ||
        vh_table_set_text(t, WHAT, what) != VH_OK || vh_table_set_text(t, WHY, why) != VH_OK)
        return VH_NO_MEMORY;
    return VH_OK;
}

/* What a warning speaks of, marked as such. */
static enum vh_status add_told(struct vh_records *r, const char *shown, const char *what,
                               const struct vh_record_count *c, const char *why)
{
    const enum vh_status status = add(r, shown, what, c->rows, c, why);

    if (status != VH_OK)
        return status;
    return vh_table_set_text(r->report, TOLD, "warning");
}

static enum vh_status add_used(struct vh_records *r, const char *shown)
{
    char why[64] = "used", day[11];

    if (r->rows > 0) {
        vh_date_format(r->last_day, day);
        snprintf(why, sizeof why, "used, the last of %s", day);
    }
    const enum vh_status status = add(r, shown, "values", (int64_t)r->rows, NULL, why);
    if (status == VH_OK && r->rows > 0)
        vh_table_set_number(r->report, LAST_DAY, (double)r->last_day);
    return status;
}

static enum vh_status doubts(struct vh_records *r, const char *shown)
{
    struct vh_record_count c = {0};
    char why[180];

    for (size_t i = 0; i < r->rows; i++) {
        if (!r->row[i].doubt)
            continue;
        const int64_t line = r->row[i].line;
        c.first_line = c.rows == 0 || line < c.first_line ? line : c.first_line;
        c.last_line = c.rows == 0 || line > c.last_line ? line : c.last_line;
        c.rows++;
    }
    r->doubtful = c.rows;
    if (c.rows == 0)
        return VH_OK;
    snprintf(why, sizeof why, "picks are not used, others with a wider error; mend %s, or %s",
             c.rows == 1 ? "it" : "each that is a slip", vh_record_how_sure(r));
    return add_told(r, shown, c.rows == 1 ? "doubtful value" : "doubtful values", &c, why);
}

static enum vh_status left_out(struct vh_records *r, const char *shown, const char *what,
                               const struct vh_record_count *c, const char *why,
                               struct vh_messages *m)
{
    if (c->rows == 0)
        return VH_OK;
    vh_warn(m, (struct vh_place){shown, c->first_line, 0, NULL},
            "%s: %" PRId64 " (last at line %" PRId64 "); %s", what, c->rows, c->last_line, why);
    return add_told(r, shown, what, c, why);
}

enum vh_status vh_record_report(struct vh_records *r, const struct vh_record_found *f,
                                const char *shown, struct vh_messages *m)
{
    vh_table_free(r->report);
    r->report = vh_table_create("records", "a finding in the records", false, columns, COLUMNS);
    enum vh_status status = r->report ? VH_OK : VH_NO_MEMORY;
    if (status == VH_OK)
        status = add(r, shown, "rows", r->lines, NULL, "read");
    if (status == VH_OK)
        status = add_used(r, shown);
    if (status == VH_OK)
        status = doubts(r, shown);
    if (status == VH_OK)
        status = left_out(r, shown, "rows after today", &f->after_today, "not used", m);
    if (status == VH_OK)
        status = left_out(r, shown, "rows before the day the standing crop is seen",
                          &f->before_seen, "not used", m);
    if (status == VH_OK)
        status =
            left_out(r, shown, "rows equal to an earlier row", &f->repeated,
                     "counted once; of two equal lots of one day make one line with their sum", m);
    if (status == VH_OK)
        status = left_out(r, shown, "rows of one truss without its number", &f->no_truss,
                          "not used; write its number in the column truss", m);
    return status;
}
