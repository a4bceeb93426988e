/* vh_score.h - how good a forecast was, when it gave many futures and one came true. */
#ifndef VH_SCORE_H
#define VH_SCORE_H

#include <stddef.h>

/* Continuous ranked probability score of n futures against what came, in the unit of both; never
 * below 0, and the absolute error where n is 1 [gneiting2007, eq. 21]: mean |x - y| - 1/2 mean |x -
 * x'| x is sorted ascending; n at least 1. */
double vh_score_crps(const double *sorted, size_t n, double came);
/* The same of a normal forecast [gneiting2005, eq. 5]: sd (z (2 Phi(z) - 1) + 2 phi(z) -
 * 1/sqrt(pi)), z = (came - mean) / sd; the absolute error where sd is 0. */
double vh_score_crps_normal(double mean, double sd, double came);
/* Pinball loss of the quantile `level` (0..1) that was forecast as `quantile` [koenker1978]: what
 * the quantile of that level makes least on average. */
double vh_score_pinball(double quantile, double level, double came);

#endif
