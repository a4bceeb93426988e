#include "vh_quantile.h"

#include <math.h>

#include <gsl/gsl_statistics_double.h>

static void swap(double *a, double *b)
{
    const double kept = *a;
    *a = *b;
    *b = kept;
}

/* Puts the value of rank k (from 0) in its place, the smaller before it, the larger behind: all
 * that the quantile looks at, without the whole sort. */
static void select_rank(double *value, size_t n, size_t k)
{
    size_t low = 0, high = n - 1;

    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        if (value[middle] < value[low])
            swap(&value[middle], &value[low]);
        if (value[high] < value[low])
            swap(&value[high], &value[low]);
        if (value[high] < value[middle])
            swap(&value[high], &value[middle]);
        const double pivot = value[middle];
        size_t i = low, j = high;
        while (i <= j) {
            while (value[i] < pivot)
                i++;
            while (pivot < value[j])
                j--;
            if (i > j)
                break;
            swap(&value[i++], &value[j]);
            if (j == 0)
                break;
            j--;
        }
        if (k <= j)
            high = j;
        else if (k >= i)
            low = i;
        else
            return;
    }
}

double vh_quantile(double *value, size_t n, double p)
{
    const size_t below = (size_t)floor((double)(n - 1) * p);

    select_rank(value, n, below);
    if (below + 1 < n)
        select_rank(value + below + 1, n - below - 1, 0);
    return gsl_stats_quantile_from_sorted_data(value, 1, n, p);
}

void vh_quantiles(double *value, size_t n, double out[VH_QUANTILES])
{
    static const double level[VH_QUANTILES] = {0.1, 0.5, 0.9};

    for (int q = 0; q < VH_QUANTILES; q++) {
        out[q] = vh_quantile(value, n, level[q]);
        /* of equal neighbours the line between can come out a last bit off */
        if (q > 0 && out[q] < out[q - 1])
            out[q] = out[q - 1];
    }
}
