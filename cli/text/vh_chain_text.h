/* vh_chain_text.h - a worked chain as a person reads it, on 80 columns. */
#ifndef VH_CHAIN_TEXT_H
#define VH_CHAIN_TEXT_H

#include <stdio.h>

#include "vh_say_numbers.h"
#include "vinehand.h"

/* In US units a measure is followed by the model's own, in brackets: the
 * steps are worked in those. */
void vh_chain_print(FILE *to, const struct vh_chain *c, enum vh_say_units units);

#endif
