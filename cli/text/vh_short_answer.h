/* vh_short_answer.h - what `explain` says first: the answer, before how it came about. */
#ifndef VH_SHORT_ANSWER_H
#define VH_SHORT_ANSWER_H

#include "vh_summary.h"

/* When a truss flowers and ripens, how many fruits it keeps and how heavy; nothing where the season
 * has no such truss. */
void vh_short_answer_truss(FILE *to, const struct vh_result *season,
                           const struct vh_summary_facts *facts, const char *planting, int truss);

#endif
