/* vh_gap_names.h - what is short in a gap, by the names that the grower gave. */
#ifndef VH_GAP_NAMES_H
#define VH_GAP_NAMES_H

#include "vh_say_numbers.h"
#include "vinehand.h"

enum { VH_GAP_NAME = 120, VH_GAP_MISSING = VH_SAY_ROOM + 32, VH_GAP_SAID = 600 };

/* The plantings of a crop, "slicers and plums", by the table of the summary (NULL: none is known);
 * what is no crop of this house is told as it is. */
void vh_gap_name(const struct vh_table *summary, const char *crop, char said[VH_GAP_NAME]);
/* A batch to come fills most of the gap of the row. */
bool vh_gap_may_be_sown(const struct vh_table *gaps, size_t row);
/* Rows of the table of gaps, those that can be sown for first, the one that lacks most of what is
 * wanted before the others. The row after `row`, SIZE_MAX: the first; the number of rows: there is
 * none. */
size_t vh_gap_next(const struct vh_table *gaps, size_t row);
/* "slicers: 5 September to 12 October, 85 kg less than you want; sow 20 (16 to 25) by 1 June" of a
 * row. */
void vh_gap_say(const struct vh_table *summary, const struct vh_table *gaps, size_t row,
                enum vh_say_units units, char said[VH_GAP_SAID]);
/* "85 kg less than you want" of it. */
void vh_gap_say_missing(const struct vh_table *gaps, size_t row, enum vh_say_units units,
                        char said[VH_GAP_MISSING]);

#endif
