/* vh_cells.h - cells of a result table by the names of their columns. */
#ifndef VH_CELLS_H
#define VH_CELLS_H

#include "vinehand.h"

/* A cell by the name of its column; NaN or "" where this result has no such column or does not
 * know. */
double vh_cell_number(const struct vh_table *table, size_t row, const char *column);
const char *vh_cell_text(const struct vh_table *table, size_t row, const char *column);

#endif
