/* vh_gap_names.h - what is short in a gap, by the names that the grower gave. */
#ifndef VH_GAP_NAMES_H
#define VH_GAP_NAMES_H

#include "vinehand.h"

enum { VH_GAP_NAME = 120 };

/* The plantings of a crop, "slicers, plums", by the table of the summary (NULL: none is known);
 * what is no crop of this house is told as it is. */
void vh_gap_name(const struct vh_table *summary, const char *crop, char said[VH_GAP_NAME]);

#endif
