#include "vh_naive.h"

#include <math.h>

#include "vh_math.h"

#define DAYS_PER_WEEK 7

static int weeks_of(enum vh_naive which)
{
    return which == VH_NAIVE_MEAN3 ? 3 : 1;
}

/* The mean of as many of its weeks as are told, one at least. */
double vh_naive_kg(const struct vh_pick_rate *r, enum vh_naive which, int64_t day)
{
    const int64_t last = vh_pick_rate_last(r, day);
    double sum = 0.0;
    int weeks = 0;

    for (; last != INT64_MIN && weeks < weeks_of(which); weeks++) {
        const int64_t until = last - (int64_t)weeks * DAYS_PER_WEEK;
        const double kg = vh_pick_rate_kg(r, until - DAYS_PER_WEEK + 1, until, day);
        if (isnan(kg))
            break;
        sum += kg;
    }
    return weeks > 0 ? sum / weeks : VH_UNKNOWN;
}

double vh_naive_sd_kg(const struct vh_pick_rate *r, const struct vh_futures_params *p,
                      enum vh_naive which, int64_t sunday, int weeks_ahead)
{
    const int64_t ahead = (int64_t)weeks_ahead * DAYS_PER_WEEK;
    const double share_of_80 = vh_normal_quantile(0.9);
    double squares = 0.0;
    int errors = 0;

    for (int64_t then = sunday - ahead; then >= r->first_day; then -= DAYS_PER_WEEK) {
        const int64_t end = then + ahead;
        const double came = vh_pick_rate_kg(r, end - DAYS_PER_WEEK + 1, end, sunday);
        const double said = vh_naive_kg(r, which, then);
        if (isnan(came) || isnan(said))
            continue;
        squares += (said - came) * (said - came);
        errors++;
    }
    if (errors >= p->naive_errors)
        return sqrt(squares / errors);
    return p->naive_range / share_of_80 * vh_naive_kg(r, which, sunday);
}
