/* vh_rounding.h - numbers as people use them: whole clips, quarter hours, half turns.
 *
 * Each value is rounded together with what the ones before it lost or won, so the sum over a season
 * stays within half a step of the true one, wherever it is stopped.
 */
#ifndef VH_ROUNDING_H
#define VH_ROUNDING_H

/* *rest: 0 before the first value; what is still owed after it. step above 0. */
double vh_round_on(double *rest, double amount, double step);

#endif
