/* vh_week_summary.h - the coming seven days on one screen: at most 40 lines of 80 columns. */
#ifndef VH_WEEK_SUMMARY_H
#define VH_WEEK_SUMMARY_H

#include "vh_summary.h"

/* Head, what is likely in 7 days, DO FIRST, PICK, ORDER, CARE, LOOK; with a long list of work the
 * least urgent tasks and warnings give way to a count. */
void vh_summary_week(FILE *to, const struct vh_result *result,
                     const struct vh_summary_facts *facts);

#endif
