#include "vh_csv_out.h"

#include <math.h>
#include <string.h>

void vh_csv_out_text(struct vh_draft *out, const char *text)
{
    const size_t n = strlen(text);
    const bool formula = n > 0 && memchr("=+-@\t", text[0], 5) != NULL;
    /* A blank at an end is legal unquoted, but many readers trim it. */
    const bool quoted = strpbrk(text, ",\"\r\n") != NULL ||
                        (n > 0 && (text[0] == ' ' || text[n - 1] == ' ' || text[0] == '\t'));

    if (quoted)
        vh_draft_add(out, "\"");
    if (formula)
        vh_draft_add(out, "'");
    for (const char *p = text; *p;) {
        const size_t plain = strcspn(p, "\"");

        vh_draft_add_bytes(out, p, plain);
        p += plain;
        if (*p == '"') {
            vh_draft_add(out, "\"\"");
            p++;
        }
    }
    if (quoted)
        vh_draft_add(out, "\"");
}

/* Of a kilogram, a fruit, an hour: nearer to nothing than anybody can see. */
#define NOTHING 1e-6

static void add_cell(struct vh_draft *out, const struct vh_table *table, size_t row, size_t column)
{
    const struct vh_column *c = vh_table_column(table, column);
    double value;
    char date[11];

    if (c->kind == VH_CELL_TEXT) {
        vh_csv_out_text(out, vh_table_text(table, row, column));
        return;
    }
    value = vh_table_number(table, row, column);
    if (!isfinite(value))
        return;
    if (c->kind == VH_CELL_DATE) {
        vh_date_format((int64_t)value, date);
        vh_draft_add(out, date);
    } else if (c->kind == VH_CELL_INTEGER) {
        vh_draft_add_whole(out, value);
    } else if (strcmp(c->unit, "money") == 0) {
        vh_draft_add_money(out, value);
    } else {
        vh_draft_add_number(out, fabs(value) < NOTHING && c->kind != VH_CELL_ERROR ? 0.0 : value);
    }
}

void vh_csv_out_table(struct vh_draft *out, const struct vh_table *table)
{
    const size_t columns = vh_table_columns(table);

    for (size_t j = 0; j < columns; j++) {
        if (j > 0)
            vh_draft_add(out, ",");
        vh_csv_out_text(out, vh_table_column(table, j)->name);
    }
    vh_draft_add(out, "\n");
    vh_csv_out_rows(out, table, 0);
}

void vh_csv_out_rows(struct vh_draft *out, const struct vh_table *table, size_t first)
{
    for (size_t i = first; i < vh_table_rows(table); i++) {
        for (size_t j = 0; j < vh_table_columns(table); j++) {
            if (j > 0)
                vh_draft_add(out, ",");
            add_cell(out, table, i, j);
        }
        vh_draft_add(out, "\n");
    }
}
