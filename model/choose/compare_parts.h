/* compare_parts.h - what the files of vh_compare.h hand to each other; private to the folder. */
#ifndef COMPARE_PARTS_H
#define COMPARE_PARTS_H

#include "vh_compare.h"
#include "vh_harvest.h"

/* The grade with the lowest price a kilogram; the number of grades where there is no such one. */
size_t vh_cheapest_grade(const struct vh_good *g);
/* Scatter of a planting's weeks to come, mean of the members; NaN where one has no fruit. */
double vh_parts_unsteady(const struct vh_parts *p, size_t planting);
/* Share of the members in which what was sought is reached: steadier weeks than the plan's, fruit
 * of at least so many g. */
double vh_parts_reached(const struct vh_parts *p, const struct vh_parts *plan, size_t planting,
                        enum vh_search what, double at_least_g);

/* Hours and supplies of planting k in one member, into its parts. VH_NO_MEMORY. */
enum vh_status vh_work_parts(const struct vh_scenario *s, const struct vh_member_view *view,
                             size_t k, const struct vh_harvest *harvest,
                             double part[VH_PARTS]);
/* Heat of each planting: of every day its share of the floor that is planted then. part:
 * [planting * VH_PARTS + part] of one member. */
void vh_heating_parts(const struct vh_member_view *view, double *part);
/* Mass for market and income of the wanted plantings; and what another price or more
 * buyers would change. VH_NO_MEMORY. */
enum vh_status vh_sales_parts(const struct vh_scenario *s, const struct vh_member_view *view,
                              const bool *wanted, double *part);

#endif
