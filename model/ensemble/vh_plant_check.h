/* vh_plant_check.h - what a look at a few stems should give this week: the futures' mean and, with
 * the scatter of such a count, the range in which four counts in five lie.
 */
#ifndef VH_PLANT_CHECK_H
#define VH_PLANT_CHECK_H

#include "vh_result.h"

/* Fills the table plant_check from the finished tables of the season. VH_NO_MEMORY. */
enum vh_status vh_plant_check_fill(struct vh_result *r, const struct vh_scenario *s);

#endif
