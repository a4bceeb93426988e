/* vh_lower_said.h - how far to lower, in the words of the tasks, by all futures. */
#ifndef VH_LOWER_SAID_H
#define VH_LOWER_SAID_H

#include "vh_result.h"

/* The notes of the lowering tasks come from the mean run; here they say the centimetres and turns
 * of lowering.csv, so that screen, sheet and table agree. VH_NO_MEMORY. */
enum vh_status vh_lower_said(struct vh_result *r);

#endif
