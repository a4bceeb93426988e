/* vh_week_store.h - what of the next market day's fruit is picked already. */
#ifndef VH_WEEK_STORE_H
#define VH_WEEK_STORE_H

#include "vh_summary.h"

/* What is picked by now, as written down, else as foreseen; nothing where none is. */
void vh_week_store(FILE *to, const struct vh_result *r, const struct vh_summary_facts *f,
                   int indent);

#endif
