/* vh_keep_words.h - where picked fruit is kept until market, in one wording for screen and sheet. */
#ifndef VH_KEEP_WORDS_H
#define VH_KEEP_WORDS_H

#include "vh_say_numbers.h"
#include "vinehand.h"

enum { VH_KEEP_ROOM = 400 };

/* "keep at 18 to 20 C, never beside cucumbers" of a row of table "picks", the neighbours (many of
 * them as crops, by the table of the summary) only where say_apart; degree stands before the C.
 * "" where no market day takes the pick. */
void vh_keep_words(const struct vh_table *picks, size_t row, const struct vh_table *summary,
                   bool say_apart, enum vh_say_units units, const char *degree,
                   char said[VH_KEEP_ROOM]);
/* "light red"; "" where there is none. */
const char *vh_pick_colour(const struct vh_table *picks, size_t row);

#endif
