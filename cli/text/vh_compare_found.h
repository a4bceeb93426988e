/* vh_compare_found.h - what the search of `compare` found, in words. */
#ifndef VH_COMPARE_FOUND_H
#define VH_COMPARE_FOUND_H

#include "vh_compare_view.h"

/* What was searched for, tried and found; "gaps": the batches to sow. */
void vh_compare_say_found(FILE *to, const struct vh_compare_view *v, const struct vh_result *result,
                          const char *search);

#endif
