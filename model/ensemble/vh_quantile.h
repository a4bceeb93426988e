/* vh_quantile.h - quantiles of a sample by straight lines between its values, the kind called type
 * 7: at p the value of rank 1 + (n - 1) p, as gsl_stats_quantile_from_sorted_data has it.
 */
#ifndef VH_QUANTILE_H
#define VH_QUANTILE_H

#include <stddef.h>

enum { VH_P10, VH_P50, VH_P90, VH_QUANTILES };

/* The 10th, 50th and 90th percentile of n values, n at least 1, none of them NaN; their order is
 * changed. */
void vh_quantiles(double *value, size_t n, double out[VH_QUANTILES]);
/* The same where the least and the largest value are known. */
void vh_quantiles_between(double *value, size_t n, double least, double most,
                          double out[VH_QUANTILES]);
/* Quantile p (0..1) of the same. */
double vh_quantile(double *value, size_t n, double p);

#endif
