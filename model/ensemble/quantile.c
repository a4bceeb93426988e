#include "vh_quantile.h"

#include <math.h>
#include <stdbool.h>

#include <gsl/gsl_statistics_double.h>

#include "vh_math.h"
#include "vh_wide.h"

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

/* ---- many values ---- */

enum { MANY = 64, BUCKETS = 256, AT_ONCE = 256 };

/* Equal parts of the way from the least to the largest value: a larger value is never in an earlier
 * one. */
struct buckets {
    double least, per; /* buckets per 1 */
};

/* The buckets of n values, at most AT_ONCE. */
VH_KERNEL void list_buckets(const struct buckets *b, const double *value, size_t n, int *bucket)
{
    const double least = b->least, per = b->per, last = BUCKETS - 1;

    for (size_t i = 0; i < n; i++)
        bucket[i] = (int)vh_min((value[i] - least) * per, last);
}

VH_WIDE static void list_buckets_wide(const struct buckets *b, const double *value, size_t n,
                                      int *bucket)
{
    list_buckets(b, value, n, bucket);
}

/* Of the values from `first` on, of n: how many of them were done. */
static size_t buckets_from(const struct buckets *b, const double *value, size_t first, size_t n,
                           int bucket[AT_ONCE])
{
    const size_t here = n - first < AT_ONCE ? n - first : AT_ONCE;

    if (vh_can_go_wide())
        list_buckets_wide(b, value + first, here, bucket);
    else
        list_buckets(b, value + first, here, bucket);
    return here;
}

/* False: they cannot be parted so. */
static bool buckets_of(double least, double most, struct buckets *out)
{
    *out = (struct buckets){least, BUCKETS / (most - least)};
    return isfinite(out->per) && out->per > 0.0;
}

/* Brings all values of the buckets in which some of the ranks lie to the front; how many. The ranks
 * become those among them. */
static size_t ranked_to_front(double *value, size_t n, const struct buckets *b, size_t *rank,
                              size_t ranks)
{
    size_t count[BUCKETS] = {0}, below = 0, kept = 0, front = 0;
    bool holds[BUCKETS] = {false};
    int bucket[AT_ONCE];

    for (size_t i = 0, here; i < n; i += here) {
        here = buckets_from(b, value, i, n, bucket);
        for (size_t k = 0; k < here; k++)
            count[bucket[k]]++;
    }
    for (size_t i = 0, k = 0; i < BUCKETS && k < ranks; below += count[i++]) {
        for (; k < ranks && rank[k] < below + count[i]; k++) {
            holds[i] = true;
            rank[k] -= below - kept;
        }
        kept += holds[i] ? count[i] : 0;
    }
    for (size_t i = 0, here; i < n; i += here) {
        here = buckets_from(b, value, i, n, bucket);
        for (size_t k = 0; k < here; k++) { /* front stays behind: the buckets are still theirs */
            const double v = value[i + k];
            value[i + k] = value[front];
            value[front] = v;
            front += holds[bucket[k]];
        }
    }
    return front;
}

/* Puts the values of some ranks (rising) in places of their own: rank[] becomes those. */
static void find_ranks(double *value, size_t n, double least, double most, size_t *rank,
                       size_t ranks)
{
    struct buckets b;

    if (n >= MANY && buckets_of(least, most, &b))
        n = ranked_to_front(value, n, &b, rank, ranks);
    place(value, n, 0, rank, ranks);
}

static void find_ends(const double *value, size_t n, double *least, double *most)
{
    *least = *most = value[0];
    for (size_t i = 1; i < n; i++) {
        *least = vh_min(*least, value[i]);
        *most = vh_max(*most, value[i]);
    }
}

/* ---- quantiles ---- */

/* The ranks on both sides of a quantile; how many. */
static size_t ranks_of(size_t n, double p, size_t rank[2])
{
    const size_t below = (size_t)floor((double)(n - 1) * p);

    rank[0] = below;
    rank[1] = below + 1;
    return below + 1 < n ? 2 : 1;
}

/* Between the values of those ranks. */
static double between(const double *value, const size_t *rank, size_t ranks, size_t n, double p)
{
    const double at = (double)(n - 1) * p;

    if (ranks < 2)
        return value[rank[0]];
    const double pair[] = {value[rank[0]], value[rank[1]]};
    return gsl_stats_quantile_from_sorted_data(pair, 1, 2, at - floor(at));
}

double vh_quantile(double *value, size_t n, double p)
{
    size_t rank[2];
    const size_t ranks = ranks_of(n, p, rank);
    double least, most;

    find_ends(value, n, &least, &most);
    find_ranks(value, n, least, most, rank, ranks);
    return between(value, rank, ranks, n, p);
}

void vh_quantiles(double *value, size_t n, double out[VH_QUANTILES])
{
    double least, most;

    find_ends(value, n, &least, &most);
    vh_quantiles_between(value, n, least, most, out);
}

void vh_quantiles_between(double *value, size_t n, double least, double most,
                          double out[VH_QUANTILES])
{
    static const double level[VH_QUANTILES] = {0.1, 0.5, 0.9};
    size_t rank[2 * VH_QUANTILES], first[VH_QUANTILES + 1] = {0};

    for (int q = 0; q < VH_QUANTILES; q++)
        first[q + 1] = first[q] + ranks_of(n, level[q], rank + first[q]);
    find_ranks(value, n, least, most, rank, first[VH_QUANTILES]);
    for (int q = 0; q < VH_QUANTILES; q++) {
        out[q] = between(value, rank + first[q], first[q + 1] - first[q], n, level[q]);
        /* of equal neighbours the line between can come out a last bit off */
        if (q > 0 && out[q] < out[q - 1])
            out[q] = out[q - 1];
    }
}
