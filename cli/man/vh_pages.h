/* vh_pages.h - the manual pages and shell completions, made from the lists that the program itself
 * reads by: vh_word_list.h and the keys of the scenario. Used while building, never installed. */
#ifndef VH_PAGES_H
#define VH_PAGES_H

#include <stdbool.h>
#include <stdio.h>

#include "vinehand.h"

/* Running text of a page: escaped, wrapped, each sentence on a line of its own. */
void vh_page_text(FILE *to, const char *text);
/* Head of an mdoc page; date: "November 25, 2026". */
void vh_page_head(FILE *to, const char *date, const char *title, int section, const char *name,
                  const char *says);

void vh_page_program(FILE *to, const char *date);
/* False when the keys cannot be listed or memory is out. */
bool vh_page_scenario(FILE *to, const char *date, const struct vh_parameters *p);

void vh_completion_bash(FILE *to);
void vh_completion_zsh(FILE *to);
void vh_completion_fish(FILE *to);

#endif
