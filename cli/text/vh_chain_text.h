/* vh_chain_text.h - a worked chain as a person reads it, on 80 columns. */
#ifndef VH_CHAIN_TEXT_H
#define VH_CHAIN_TEXT_H

#include <stdio.h>

#include "vinehand.h"

/* `title` stands above it. */
void vh_chain_print(FILE *to, const struct vh_chain *c, const char *title);

#endif
