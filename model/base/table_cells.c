/* Cells of a table by the names of their columns. */
#include <math.h>

#include "vinehand.h"

double vh_cell_number(const struct vh_table *t, size_t row, const char *column_name)
{
    const int at = vh_table_find(t, column_name);

    if (at < 0 || row >= vh_table_rows(t))
        return (double)NAN;
    return vh_table_number(t, row, (size_t)at);
}

const char *vh_cell_text(const struct vh_table *t, size_t row, const char *column_name)
{
    const int at = vh_table_find(t, column_name);

    return at < 0 || row >= vh_table_rows(t) ? "" : vh_table_text(t, row, (size_t)at);
}
