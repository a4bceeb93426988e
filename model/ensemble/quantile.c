#include "vh_quantile.h"

#include <math.h>

#include <gsl/gsl_statistics_double.h>

#include "vh_math.h"

enum { FEW = 16 }; /* so few are sorted as they stand */

/* The values that hold go to the front; how many. Every value is written, so that nothing hangs on
 * a guess of the next comparison. */
#define TO_FRONT(name, holds)                                                                      \
    static size_t name(double *value, size_t n, double pivot)                                      \
    {                                                                                              \
        size_t front = 0;                                                                          \
                                                                                                   \
        for (size_t i = 0; i < n; i++) {                                                           \
            const double v = value[i];                                                             \
            value[i] = value[front];                                                               \
            value[front] = v;                                                                      \
            front += (holds) ? 1 : 0;                                                              \
        }                                                                                          \
        return front;                                                                              \
    }
TO_FRONT(below_to_front, v < pivot)
TO_FRONT(even_to_front, !(pivot < v))

static void sort_few(double *value, size_t n)
{
    for (size_t i = 1; i < n; i++) {
        const double v = value[i];
        size_t k = i;
        for (; k > 0 && v < value[k - 1]; k--)
            value[k] = value[k - 1];
        value[k] = v;
    }
}

static double middle_of(double a, double b, double c)
{
    return vh_max(vh_min(a, b), vh_min(vh_max(a, b), c));
}

/* Puts the values of some ranks (from 0, rising) in their places, the smaller before, the larger
 * behind: all that quantiles look at, without the whole sort. `first` is the rank of value[0].
 * Calls itself only where ranks lie on both sides of the pivot, so no deeper than there are ranks.
 */
static void place(double *value, size_t n, size_t first, const size_t *rank, size_t ranks)
{
    while (ranks > 0 && n > FEW) {
        const double pivot = middle_of(value[0], value[n / 2], value[n - 1]);
        const size_t below = below_to_front(value, n, pivot);
        /* none is smaller: those that are even with the pivot stand where they belong */
        const size_t done = below > 0 ? below : even_to_front(value, n, pivot);
        size_t low = 0;
        while (low < ranks && rank[low] < first + done)
            low++;
        if (below > 0 && low == ranks) {
            n = below;
            continue;
        }
        if (below > 0)
            place(value, below, first, rank, low);
        value += done;
        n -= done;
        first += done;
        rank += low;
        ranks -= low;
    }
    if (ranks > 0)
        sort_few(value, n);
}

/* The rank below a quantile. */
static size_t rank_of(size_t n, double p)
{
    return (size_t)floor((double)(n - 1) * p);
}

double vh_quantile(double *value, size_t n, double p)
{
    const size_t below = rank_of(n, p), rank[] = {below, below + 1};

    place(value, n, 0, rank, below + 1 < n ? 2 : 1);
    return gsl_stats_quantile_from_sorted_data(value, 1, n, p);
}

void vh_quantiles(double *value, size_t n, double out[VH_QUANTILES])
{
    static const double level[VH_QUANTILES] = {0.1, 0.5, 0.9};
    size_t rank[2 * VH_QUANTILES], ranks = 0;

    for (int q = 0; q < VH_QUANTILES; q++) {
        const size_t below = rank_of(n, level[q]);
        rank[ranks++] = below;
        if (below + 1 < n)
            rank[ranks++] = below + 1;
    }
    place(value, n, 0, rank, ranks);
    for (int q = 0; q < VH_QUANTILES; q++) {
        out[q] = gsl_stats_quantile_from_sorted_data(value, 1, n, level[q]);
        /* of equal neighbours the line between can come out a last bit off */
        if (q > 0 && out[q] < out[q - 1])
            out[q] = out[q - 1];
    }
}
