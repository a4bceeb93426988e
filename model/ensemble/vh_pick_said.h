/* vh_pick_said.h - what to pick, in the words of the tasks, by all futures. */
#ifndef VH_PICK_SAID_H
#define VH_PICK_SAID_H

#include "vh_result.h"

/* The tasks' mean leaves out what no future calls a pick, and their notes come from the mean run;
 * here both, from today on, say the kilograms and fruits of picks.csv, so that one pick has one
 * number. A pick on a day that picks.csv does not have (barred by a label) keeps its own. Both
 * tables must be in the order of their days. VH_NO_MEMORY. */
enum vh_status vh_pick_said(struct vh_result *r);

#endif
