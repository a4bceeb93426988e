/* vh_asked_words.h - the words behind note and explain, whose scenario may be left out. */
#ifndef VH_ASKED_WORDS_H
#define VH_ASKED_WORDS_H

#include "vh_arguments.h"

enum { VH_ASKED_WORDS = 4 }; /* [SCENARIO] PLANTING ITEM VALUE */

/* One line on standard error; VH_EXIT_WRONG. */
__attribute__((format(printf, 1, 2))) enum vh_exit vh_arguments_wrong(const char *format, ...);
/* A whole number of plain digits, low..high. */
bool vh_arguments_whole(const char *text, uint64_t low, uint64_t high, uint64_t *value);

/* note: fills a->scenario and a->note; what is missing is named with the line to type. words: how
 * many were given; those beyond VH_ASKED_WORDS are not in word. */
enum vh_exit vh_take_note(const char *const word[VH_ASKED_WORDS], int words,
                          struct vh_arguments *a);
/* explain NAME, [SCENARIO] DATE or [SCENARIO] PLANTING TRUSS; likewise. */
enum vh_exit vh_take_explain(const char *const word[VH_ASKED_WORDS], int words,
                             struct vh_arguments *a);

#endif
