/* vh_learnt_words.h - what was learnt of a house, in her words. */
#ifndef VH_LEARNT_WORDS_H
#define VH_LEARNT_WORDS_H

#include <stdio.h>

#include "vh_learnt_names.h"

/* "slicers: trusses come 6 % faster"; "" where less than one in a hundred changed. */
void vh_learnt_change(const struct vh_table *learned, size_t row, enum vh_say_units units,
                      char said[VH_LEARNT_ROOM]);
/* Is it told apart from all others? */
bool vh_learnt_is_sure(const struct vh_table *learned, size_t row);
/* "truss in flower" for flowering_truss; the item itself where there are no better words. */
const char *vh_learnt_item(const char *item);
/* The LEARNT block of forecast and week: at most `most` changes that are sure, the largest first;
 * nothing where nothing was learnt. last: day of the last record, NaN: not known. */
void vh_learnt_block(FILE *to, const struct vh_table *learned, enum vh_say_units units, int indent,
                     size_t most, double last);

#endif
