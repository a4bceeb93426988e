/* vh_table.h - filling the tables that vinehand.h lets people walk. */
#ifndef VH_TABLE_H
#define VH_TABLE_H

#include "vinehand.h"

/* Columns are a static array that outlives the table. is_file: written as name.csv. NULL when
 * memory is out. */
struct vh_table *vh_table_create(const char *name, const char *row_meaning, bool is_file,
                                 const struct vh_column *columns, size_t column_count);
void vh_table_free(struct vh_table *t);
/* Adds an empty row (all unknown); VH_NO_MEMORY otherwise. */
enum vh_status vh_table_add_row(struct vh_table *t);
/* Set a cell of the last row. */
void vh_table_set_number(struct vh_table *t, size_t column, double value);
enum vh_status vh_table_set_text(struct vh_table *t, size_t column, const char *text);
/* Set a cell of any row. */
void vh_table_put_number(struct vh_table *t, size_t row, size_t column, double value);
enum vh_status vh_table_put_text(struct vh_table *t, size_t row, size_t column, const char *text);
/* The numbers of n columns of a row, in that order; columns of text are not asked for. */
void vh_table_numbers(const struct vh_table *t, size_t row, const size_t *column, size_t n,
                      double *out);
/* Adds all rows of a table that has the same columns. */
enum vh_status vh_table_add_rows(struct vh_table *t, const struct vh_table *from);
/* Sorts rows by the date in column `date_column`, then by their order of adding (stable). */
enum vh_status vh_table_sort_by(struct vh_table *t, size_t date_column);

#endif
