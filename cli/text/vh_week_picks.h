/* vh_week_picks.h - what is picked in the coming seven days, in which colour, and where it lies. */
#ifndef VH_WEEK_PICKS_H
#define VH_WEEK_PICKS_H

#include "vh_summary.h"

/* The block PICK, without what was written down today. Where market days take the picks, a line for
 * each colour and place: "Tue 20 kg slicers, 12 kg plums pink: keep at 18 to 20 C"; else a line a
 * day. by_planting false: sums of the days alone, where the screen is short. */
void vh_week_picks(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                   int indent, bool by_planting);

#endif
