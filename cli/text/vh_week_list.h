/* vh_week_list.h - the work of the coming seven days as a list, the most urgent first. */
#ifndef VH_WEEK_LIST_H
#define VH_WEEK_LIST_H

#include "vh_summary.h"

/* At most `most` tasks, then how many more; picking stands last, for it has a block of its own.
 * how: with the way each is done; without, thinning alone keeps it: it says how many. */
void vh_week_list(FILE *to, const struct vh_result *result, const struct vh_summary_facts *facts,
                  int most, bool how);
/* Turns of the hook to the half, "1 1/2 turns"; "" where unknown. */
void vh_week_turns(double turns, char said[VH_SAY_ROOM]);

#endif
