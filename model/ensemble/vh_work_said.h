/* vh_work_said.h - the hours and their warning by the list of work, once many futures are laid upon
 * each other: hours.csv adds up tasks.csv, about which the futures range. */
#ifndef VH_WORK_SAID_H
#define VH_WORK_SAID_H

#include "vh_result.h"

/* Takes out the walks and the clean blades of days that have no other work left, gives the hours of
 * each week and task as the sum of their minutes, and warns of weeks with more than there are.
 * VH_NO_MEMORY. */
enum vh_status vh_work_said(const struct vh_scenario *s, struct vh_result *r);

#endif
