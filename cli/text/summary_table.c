#include "vh_summary.h"

#include <math.h>
#include <string.h>

#include "vh_us_unit.h"

enum { CELL_ROOM = 400 };

static void say_cell(const struct vh_table *table, size_t row, size_t column,
                     enum vh_say_units units, char said[CELL_ROOM])
{
    const struct vh_column *c = vh_table_column(table, column);
    const struct vh_us_unit *us = vh_us_unit_of(c->unit, units);
    double value;

    said[0] = 0;
    if (c->kind == VH_CELL_TEXT) {
        snprintf(said, CELL_ROOM, "%s", vh_table_text(table, row, column));
        return;
    }
    value = vh_table_number(table, row, column);
    if (!isfinite(value))
        return;
    if (c->kind == VH_CELL_DATE)
        vh_say_date_with_year(value, said);
    else if (c->kind == VH_CELL_INTEGER)
        snprintf(said, CELL_ROOM, "%.0f", value);
    else if (us)
        snprintf(said, CELL_ROOM, "%.10g", vh_round_digits(us->of(value), 3));
    else /* 2.36806 of her plants_per_ft2 is no number of hers */
        snprintf(said, CELL_ROOM, "%.10g", fabs(value) < 1e3 ? vh_round_digits(value, 4) : value);
}

/* Column names are said without their underscores, a unit at their end as hers. */
static void say_name(const struct vh_table *table, size_t column, enum vh_say_units units,
                     char said[CELL_ROOM])
{
    const struct vh_column *c = vh_table_column(table, column);
    const struct vh_us_unit *us = vh_us_unit_of(c->unit, units);
    const char *last = strrchr(c->name, '_');

    if (us && last && strcmp(last + 1, us->in_name) == 0)
        snprintf(said, CELL_ROOM, "%.*s%s", (int)(last + 1 - c->name), c->name, us->in_name_us);
    else
        snprintf(said, CELL_ROOM, "%s", c->name);
    for (char *p = said; *p; p++)
        if (*p == '_')
            *p = ' ';
}

static void add(char *line, size_t room, const char *text)
{
    const size_t n = strlen(line);

    snprintf(line + n, room - n, "%s", text);
}

/* One cell below the other: "name value unit", in one flowing paragraph. */
static void print_row(FILE *to, const struct vh_table *table, enum vh_say_units units, size_t row)
{
    char line[16 * CELL_ROOM] = "", said[CELL_ROOM], name[CELL_ROOM];

    for (size_t j = 1; j < vh_table_columns(table); j++) {
        say_cell(table, row, j, units, said);
        if (!said[0])
            continue;
        say_name(table, j, units, name);
        if (line[0])
            add(line, sizeof line, "; ");
        add(line, sizeof line, name);
        add(line, sizeof line, " ");
        add(line, sizeof line, said);
    }
    say_cell(table, row, 0, units, name);
    snprintf(said, sizeof said, "  %.200s", name);
    if (vh_say_width(said) > VH_SAY_COLUMNS) { /* it has lines for itself */
        vh_say_block(to, "", 2, name);
        said[0] = '\0';
    }
    vh_say_block(to, said, 14, line);
}

void vh_summary_table(FILE *to, const struct vh_table *table, enum vh_say_units units)
{
    if (vh_table_rows(table) == 0)
        fputs("  none\n", to);
    for (size_t i = 0; i < vh_table_rows(table); i++)
        print_row(to, table, units, i);
}
