/* vh_week_list.h - the work of the coming seven days as a list, the most urgent first. */
#ifndef VH_WEEK_LIST_H
#define VH_WEEK_LIST_H

#include "vh_summary.h"

/* At most `most` lines beside the picking, each of one task in the plantings that are treated
 * alike, the most urgent first, then how many more: where there is no room what presses stays, then
 * what it costs most to put off. */
enum vh_week_detail {
    VH_WEEK_HOW,      /* with the way each is done */
    VH_WEEK_DAYS_TOO, /* without, but for thinning and topping; with the days of each planting */
    VH_WEEK_NAMES,    /* the names of the plantings alone */
};
void vh_week_list(FILE *to, const struct vh_result *result, const struct vh_summary_facts *facts,
                  int most, enum vh_week_detail detail);
/* Lines of the list, beside the picking, that can wait for three days no more. */
int vh_week_pressing(const struct vh_result *result, int64_t today);
/* Turns of the hook to the half, "1 1/2 turns"; "" where unknown. */
void vh_week_turns(double turns, char said[VH_SAY_ROOM]);

#endif
