#include "vh_cells.h"

#include <math.h>

double vh_cell_number(const struct vh_table *table, size_t row, const char *column)
{
    const int at = vh_table_find(table, column);

    if (at < 0 || row >= vh_table_rows(table))
        return (double)NAN;
    return vh_table_number(table, row, (size_t)at);
}

const char *vh_cell_text(const struct vh_table *table, size_t row, const char *column)
{
    const int at = vh_table_find(table, column);

    return at < 0 || row >= vh_table_rows(table) ? "" : vh_table_text(table, row, (size_t)at);
}
