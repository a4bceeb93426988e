/* vh_season_work.h - HOURS and SUPPLIES of the season to come, in the lines of `forecast`. */
#ifndef VH_SEASON_WORK_H
#define VH_SEASON_WORK_H

#include "vh_summary.h"

void vh_season_hours(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                     int indent);
/* Each that runs out has a line; those that last are told together. */
void vh_season_supplies(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                        int indent);

#endif
