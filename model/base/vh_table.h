/* vh_table.h - filling the tables that vinehand.h lets people walk. */
#ifndef VH_TABLE_H
#define VH_TABLE_H

#include "vinehand.h"

/* Which one: by the column's kind. text NULL: unknown. */
union vh_table_cell {
    double number;
    const char *text;
};

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
/* From now on the table is gone before the scenario is: it need not copy what lasts as long. */
void vh_table_make_passing(struct vh_table *t);
/* As vh_table_set_text, of a text that lives as long as the scenario, or that the table keeps
 * already. */
enum vh_status vh_table_set_lasting(struct vh_table *t, size_t column, const char *text);
/* A copy that lives as long as the table has rows; NULL: no memory. */
const char *vh_table_keep_text(struct vh_table *t, const char *text);
/* Is it such a copy? */
bool vh_table_owns(const struct vh_table *t, const char *text);
/* Takes out all rows; their room stays for the next ones. */
void vh_table_empty(struct vh_table *t);
/* Set a cell of any row. */
void vh_table_put_number(struct vh_table *t, size_t row, size_t column, double value);
enum vh_status vh_table_put_text(struct vh_table *t, size_t row, size_t column, const char *text);
/* The cells of a row, [columns]; until the next row is added. */
const union vh_table_cell *vh_table_row(const struct vh_table *t, size_t row);
/* Takes out the rows that are not to be kept; the others stay in their order. */
void vh_table_keep_rows(struct vh_table *t, bool (*is_kept)(const struct vh_table *t, size_t row));
/* Adds all rows of a table that has the same columns. */
enum vh_status vh_table_add_rows(struct vh_table *t, const struct vh_table *from);
/* Sorts rows by the date in column `date_column`, then by their order of adding (stable). */
enum vh_status vh_table_sort_by(struct vh_table *t, size_t date_column);

#endif
