/* vh_by_now.h - what the column "by now" of a season is, beside what was written down. */
#ifndef VH_BY_NOW_H
#define VH_BY_NOW_H

#include "vh_summary.h"

/* "counts what you wrote down, and the model elsewhere: slicers 250 kg from 1 May to 10 July (the
 * model has 256 by then)" */
void vh_by_now_block(FILE *to, const struct vh_result *season, const struct vh_summary_facts *facts,
                     int indent);

#endif
