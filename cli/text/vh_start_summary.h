/* vh_start_summary.h - what `start` prints: the season of the file it has just written. */
#ifndef VH_START_SUMMARY_H
#define VH_START_SUMMARY_H

#include <stdio.h>

#include "vh_say.h"
#include "vh_start.h"
#include "vinehand.h"

/* First pick, peak week, kilograms a market day at the peak, string, hours of the busiest week,
 * what was guessed, and three things to write down. `asked`: the answers before the guesses.
 * `program`: what she types to call it from that folder. */
void vh_summary_start(FILE *to, const struct vh_result *result, const struct vh_start_answers *a,
                      const struct vh_start_answers *asked, const char *folder,
                      const char *program);

#endif
