/* vh_say.h - lines for people: words, numbers and dates as they are said, 80 columns. */
#ifndef VH_SAY_H
#define VH_SAY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include "vh_say_numbers.h"

enum { VH_SAY_COLUMNS = 80, VH_SAY_TEXT = 1500 }; /* columns; bytes of a block as it grows */

/* True where the locale's characters are UTF-8, by LC_ALL, LC_CTYPE, LANG; setlocale is never
 * called. */
bool vh_say_is_utf8(void);
/* Letters as they show: UTF-8 characters, not bytes. */
size_t vh_say_width(const char *text);
/* Prints text that came from outside: control characters become '?'. */
void vh_say_safely(FILE *to, const char *text);
/* Behind what the text holds already; what has no room is cut. */
__attribute__((format(printf, 2, 3))) void vh_say_add(char text[VH_SAY_TEXT], const char *format,
                                                      ...);
/* Prints `head` padded to column `indent`, then the words of `text`, wrapped under it. */
void vh_say_block(FILE *to, const char *head, int indent, const char *text);

/* The nearest of the NULL-ended `known` words, or NULL when none is near enough to be meant. */
const char *vh_nearest_word(const char *word, const char *const *known);

#endif
