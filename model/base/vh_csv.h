/* vh_csv.h - the one way a CSV file is read (RFC 4180, strict; libcsv inside), row by row in
 * constant memory. */
#ifndef VH_CSV_H
#define VH_CSV_H

#include "vh_error.h"

struct vh_csv_format {
    char separator; /* comma, semicolon or tab; 0: found from the header line (counts of these
                       outside quotes) */
    char decimal;   /* '.' or ','; 0: '.' */
};

struct vh_csv_cell {
    const char *text;
    size_t length;
}; /* 0-terminated; text NULL: nothing between the separators */

struct vh_csv_row {
    const char *file;
    int64_t line; /* physical line the row begins on, from 1 */
    size_t cells;
    const struct vh_csv_cell *cell;
};

/* Called for the header (is_header true), then for each row. Anything but VH_OK stops the reading
 * and is returned. */
typedef enum vh_status (*vh_csv_take)(void *context, const struct vh_csv_row *row, bool is_header);

/* Limits: a line 64 KiB, 1000 columns. A row whose number of cells differs from the header is an
 * error. Rows are handed over as they are read: when an error follows, the caller must drop what it
 * took. Refuses NUL bytes, invalid UTF-8, folders, missing and empty files, a quote inside an
 * unquoted field or never closed. A row of separators and blanks only is passed over. Reading goes
 * on behind a row of the wrong width, so that up to 20 of them are told in one run; the status is
 * VH_BAD_INPUT then. A quoted cell may run over several lines (64 KiB in all). shown_name: the file
 * as the person named it. digest: NULL, or a vh_digest that takes all bytes read. VH_OK also for a
 * header without rows: the caller decides. VH_BAD_INPUT: a file that is missing, no plain file or
 * not readable, or wrong text in it. VH_NO_FILE: the system failed to read. VH_NO_MEMORY. */
struct vh_digest;
enum vh_status vh_csv_read(const char *path, const char *shown_name, struct vh_csv_format format,
                           struct vh_digest *digest, vh_csv_take take, void *context,
                           struct vh_messages *m);
/* The same from n bytes in memory. */
enum vh_status vh_csv_read_memory(const char *text, size_t n, const char *shown_name,
                                  struct vh_csv_format format, vh_csv_take take, void *context,
                                  struct vh_messages *m);

/* A number of a cell by the format's decimal sign: no locale, hex, inf, nan, thousands signs.
 * false: not a number. */
bool vh_csv_number(struct vh_csv_cell cell, char decimal, double *value);

#endif
