/* Quantiles: a sample worked out by hand, and GSL on the sorted sample. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>

#include "vh_quantile.h"
#include "vh_random.h"

/* Rank 1 + 4 p of 1 2 4 7 11: p 0.1 lies 0.4 of the way from 1 to 2, p 0.9 0.6 of that from 7 to
 * 11. */
Test(quantile, five_values_by_hand)
{
    double value[] = {7.0, 1.0, 11.0, 4.0, 2.0}, q[VH_QUANTILES];
    vh_quantiles(value, 5, q);
    cr_assert(epsilon_eq(dbl, q[VH_P10], 1.4, 1e-15));
    cr_assert(eq(dbl, q[VH_P50], 4.0));
    cr_assert(epsilon_eq(dbl, q[VH_P90], 9.4, 1e-14));
}

Test(quantile, one_value_is_all_of_its_quantiles)
{
    double value[] = {3.0}, q[VH_QUANTILES];
    vh_quantiles(value, 1, q);
    for (int k = 0; k < VH_QUANTILES; k++)
        cr_assert(eq(dbl, q[k], 3.0));
}

/* The same bits as GSL has of the whole sort, for any number of values, with ties. */
Test(quantile, agrees_with_gsl_on_any_sample)
{
    double value[500], sorted[500];
    for (uint32_t n = 1; n <= 500; n += n < 60 ? 1 : 37) {
        for (uint32_t i = 0; i < n; i++) {
            const double x = vh_normal(1, n, i, 0, 0);
            value[i] = sorted[i] = n % 3 ? x : (double)(int)(3.0 * x); /* every third has ties */
        }
        gsl_sort(sorted, 1, n);
        for (int k = 0; k <= 20; k++) {
            const double p = k / 20.0;
            const double ours = vh_quantile(value, n, p);
            cr_assert(eq(dbl, ours, gsl_stats_quantile_from_sorted_data(sorted, 1, n, p)),
                      "n %u p %g", n, p);
        }
    }
}

/* A few values far from all others leave the others close together; and no value may be lost. */
Test(quantile, agrees_with_gsl_on_samples_with_values_far_out)
{
    enum { N = 700 };
    double value[N], sorted[N], q[VH_QUANTILES];
    for (int far = 0; far < 3; far++) {
        for (uint32_t i = 0; i < N; i++) {
            const double x = vh_normal(2, (uint32_t)far, i, 0, 0);
            value[i] = sorted[i] = i % 50 ? x : x * (far == 0 ? 1e3 : far == 1 ? 1e12 : 1e300);
        }
        gsl_sort(sorted, 1, N);
        vh_quantiles(value, N, q);
        for (int k = 0; k < VH_QUANTILES; k++) {
            const double p = k == VH_P10 ? 0.1 : k == VH_P50 ? 0.5 : 0.9;
            cr_assert(eq(dbl, q[k], gsl_stats_quantile_from_sorted_data(sorted, 1, N, p)));
        }
        gsl_sort(value, 1, N);
        for (uint32_t i = 0; i < N; i++)
            cr_assert(eq(dbl, value[i], sorted[i]));
    }
}
