/* vh_csv_out.h - a table as CSV by RFC 4180: UTF-8, LF, a header of names, unknown = an empty cell.
 */
#ifndef VH_CSV_OUT_H
#define VH_CSV_OUT_H

#include "vh_draft.h"
#include "vinehand.h"

/* One text cell: quoted where it must be; a text that a spreadsheet would take for a formula (it
 * begins with = + - @ or a tab) gets a ' in front. */
void vh_csv_out_text(struct vh_draft *out, const char *text);
/* The whole table: header, then every row. */
void vh_csv_out_table(struct vh_draft *out, const struct vh_table *table);
/* Its rows from `first` on, without the header. */
void vh_csv_out_rows(struct vh_draft *out, const struct vh_table *table, size_t first);

#endif
