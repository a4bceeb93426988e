/* compare_parts.h - what the files of vh_compare.h hand to each other; private to the folder. */
#ifndef COMPARE_PARTS_H
#define COMPARE_PARTS_H

#include "vh_compare.h"

/* Hours and supplies of planting k in one member, into its parts. VH_NO_MEMORY. */
enum vh_status vh_work_parts(const struct vh_scenario *s, const struct vh_member_view *view,
                             size_t k, double part[VH_PARTS]);
/* Heat of each planting: of every day its share of the floor that is planted then. part:
 * [planting * VH_PARTS + part] of one member. */
void vh_heating_parts(const struct vh_member_view *view, double *part);
/* Mass for market and income of the wanted plantings. VH_NO_MEMORY. */
enum vh_status vh_sales_parts(const struct vh_scenario *s, const struct vh_member_view *view,
                              const bool *wanted, double *part);

#endif
