/* csv_separator.h - which sign stands between the cells of a CSV file? For csv_read.c, and for who adds a row to such a file. */
#ifndef VH_CSV_SEPARATOR_H
#define VH_CSV_SEPARATOR_H

#include "vh_csv.h"

/* Finds the separator from the header line (n bytes): the one of comma, semicolon and tab that
 * stands there most often outside quotes; comma where there is none. A format that names one is
 * only checked. VH_BAD_INPUT: two of them equally often, no usable sign, or the decimal sign again.
 */
enum vh_status vh_csv_find_separator(struct vh_csv_format format, const char *header, size_t n,
                                     struct vh_place where, char *separator, struct vh_messages *m);

/* "comma", "semicolon", "tab", or "separator" */
const char *vh_csv_separator_name(char separator);

#endif
