#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include "vh_gap_stretches.h"

/* Which market days are one gap. Shares are invented; what is asked of them is common practice, no
 * source: a day that lacks a fruit more or less changes no answer. */

enum { DAYS = 14 };
static const struct vh_gap_rules rules = {.felt = 0.1, .valley = 0.5, .near_d = 10.0};

static size_t stretches(const double *share, int every_d, struct vh_gap_stretch *out)
{
    int64_t day[DAYS];
    double scratch[2 * DAYS];

    for (int i = 0; i < DAYS; i++)
        day[i] = 20600 + i * every_d;
    return vh_gap_stretches(&rules, day, share, DAYS, out, scratch);
}

static void expect_two(const double *share, size_t end, size_t begin, size_t last)
{
    struct vh_gap_stretch s[DAYS];

    cr_assert(eq(sz, stretches(share, 7, s), 2));
    cr_expect(eq(sz, s[0].first, 1));
    cr_expect(eq(sz, s[0].last, end));
    cr_expect(eq(sz, s[1].first, begin));
    cr_expect(eq(sz, s[1].last, last));
}

/* Between two crops and in autumn: two gaps, whether the days between lack nothing or a little. */
Test(gap_stretches, a_little_missing_between_joins_no_two)
{
    double share[DAYS] = {0, 1, 0.4, 0.05, 0.03, 0, 0.04, 0.09, 0.15, 0.2, 0.3, 0.4, 0.7, 1};

    expect_two(share, 2, 8, 13);
    share[5] = 0.04; /* none of them is met any more */
    expect_two(share, 2, 8, 13);
    share[4] = share[5] = 0.09;
    expect_two(share, 2, 8, 13);
}

/* A day that happens to be met parts no gap, nor does one that is better than its neighbours. */
Test(gap_stretches, one_good_day_parts_none)
{
    double share[DAYS] = {0, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0.4, 0, 0};
    struct vh_gap_stretch s[DAYS];

    for (size_t good = 2; good < 10; good++) {
        share[good] = 0.0;
        cr_assert(eq(sz, stretches(share, 7, s), 1));
        cr_expect(eq(sz, s[0].first, 1));
        cr_expect(eq(sz, s[0].last, 11));
        share[good] = 0.4;
    }
}

/* Two market days a week, one of which lacks more than the other. */
Test(gap_stretches, of_two_market_days_a_week)
{
    double share[DAYS];
    struct vh_gap_stretch s[DAYS];

    for (int i = 0; i < DAYS; i++)
        share[i] = i % 2 ? 0.5 : 0.02;
    cr_assert(eq(sz, stretches(share, 3, s), 1));
    cr_expect(eq(sz, s[0].first, 1));
    cr_expect(eq(sz, s[0].last, 13));
}

Test(gap_stretches, what_is_not_felt_is_none)
{
    double share[DAYS] = {0.09, 0, 0.05, 0.09, 0.09};
    struct vh_gap_stretch s[DAYS];

    cr_expect(eq(sz, stretches(share, 7, s), 0));
    share[9] = 0.1;
    cr_assert(eq(sz, stretches(share, 7, s), 1));
    cr_expect(eq(sz, s[0].first, 9));
    cr_expect(eq(sz, s[0].last, 9));
    cr_expect(eq(sz, vh_gap_stretches(&rules, NULL, NULL, 0, s, NULL), 0));
}

/* A day that is short and far from the others is told for itself. */
Test(gap_stretches, one_day_far_off_is_a_gap_of_its_own)
{
    const double share[DAYS] = {0, 0.25, 0, 0, 0, 0, 0, 0, 0.1, 0.3, 0.5, 0.5, 0.5, 0.5};

    expect_two(share, 1, 8, 13);
}
