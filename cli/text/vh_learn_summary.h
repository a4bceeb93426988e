/* vh_learn_summary.h - the answer of `learn` as a person reads it. */
#ifndef VH_LEARN_SUMMARY_H
#define VH_LEARN_SUMMARY_H

#include "vh_summary.h"

/* What was learnt and what the records cannot tell apart. */
void vh_summary_learn(FILE *to, const struct vh_result *result,
                      const struct vh_summary_facts *facts);

#endif
