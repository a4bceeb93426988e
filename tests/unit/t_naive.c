/* Picks day by day, and the two forecasts that need no model, by hand. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_naive.h"

#define MONDAY 20647 /* 2026-07-13 */
#define SUNDAY (MONDAY + 6)

static struct vh_pick_rate rate;

static void begin(void)
{
    cr_assert(eq(int, vh_pick_rate_init(&rate, MONDAY, MONDAY + 200), VH_OK));
}

static void end(void)
{
    vh_pick_rate_clear(&rate);
}

TestSuite(naive, .init = begin, .fini = end);

static const struct vh_futures_params params = {.naive_errors = 4, .naive_range = 0.3};

/* Weeks with one pick each, on Sunday. */
static void weeks(const double *kg, int n)
{
    for (int i = 0; i < n; i++)
        vh_pick_rate_add(&rate, MONDAY + 7 * i, SUNDAY + 7 * i, kg[i]);
}

Test(naive, an_entry_counts_for_all_days_since_the_one_before)
{
    vh_pick_rate_add(&rate, MONDAY, MONDAY + 4, 10.0);
    vh_pick_rate_add(&rate, MONDAY + 5, MONDAY + 8, 4.0);
    cr_expect(epsilon_eq(dbl, vh_pick_rate_kg(&rate, MONDAY, SUNDAY, INT64_MAX), 12.0, 1e-12));
    cr_expect(isnan(vh_pick_rate_kg(&rate, MONDAY, SUNDAY, SUNDAY))); /* told on Tuesday only */
    cr_expect(isnan(vh_pick_rate_kg(&rate, MONDAY + 7, SUNDAY + 7, INT64_MAX)));
    cr_expect(eq(i64, vh_pick_rate_last(&rate, SUNDAY), MONDAY + 4));
    cr_expect(eq(i64, vh_pick_rate_last(&rate, MONDAY + 8), MONDAY + 8));
    cr_expect(eq(i64, vh_pick_rate_last(&rate, MONDAY + 3), INT64_MIN));
}

Test(naive, last_week_is_the_last_seven_days_that_are_told)
{
    vh_pick_rate_add(&rate, MONDAY, MONDAY + 4, 10.0);      /* 2 a day */
    vh_pick_rate_add(&rate, MONDAY + 5, MONDAY + 9, 15.0);  /* 3 a day */
    vh_pick_rate_add(&rate, MONDAY + 10, MONDAY + 16, 7.0); /* 1 a day */
    cr_expect(epsilon_eq(dbl, vh_naive_kg(&rate, VH_NAIVE_LAST, SUNDAY + 7), 2 * 2 + 5 * 3, 1e-12));
    cr_expect(epsilon_eq(dbl, vh_naive_kg(&rate, VH_NAIVE_LAST, SUNDAY + 14), 7.0, 1e-12));
    /* of three weeks two are told: days 3..9 and 10..16 */
    cr_expect(epsilon_eq(dbl, vh_naive_kg(&rate, VH_NAIVE_MEAN3, SUNDAY + 14),
                         (7.0 + 2 * 2 + 5 * 3) / 2.0, 1e-12));
    cr_expect(isnan(vh_naive_kg(&rate, VH_NAIVE_LAST, SUNDAY))); /* five days are no week */
}

Test(naive, its_spread_is_that_of_its_own_errors)
{
    const double kg[] = {10, 12, 9, 13, 14, 12};
    weeks(kg, 6);
    /* at the end of the fifth week, one week ahead: 10>12, 12>9, 9>13, 13>14 */
    cr_expect(epsilon_eq(dbl, vh_naive_sd_kg(&rate, &params, VH_NAIVE_LAST, SUNDAY + 28, 1),
                         sqrt((4.0 + 9.0 + 16.0 + 1.0) / 4.0), 1e-12));
    /* mean of the last three, or of as many as there are: 10>12, 11>9, 31/3>13, 34/3>14 */
    cr_expect(epsilon_eq(dbl, vh_naive_sd_kg(&rate, &params, VH_NAIVE_MEAN3, SUNDAY + 28, 1),
                         sqrt((4.0 + 4.0 + 64.0 / 9.0 + 64.0 / 9.0) / 4.0), 1e-12));
    /* two weeks ahead there are three errors: 30 % of 14 kg either way holds eight in ten; the
     * normal distribution has them within 1.2815516 sd */
    cr_expect(epsilon_eq(dbl, vh_naive_sd_kg(&rate, &params, VH_NAIVE_LAST, SUNDAY + 28, 2),
                         0.3 * 14.0 / 1.2815515655446004, 1e-9));
    /* a week later there are four: 10>9, 12>13, 9>14, 13>12 */
    cr_expect(epsilon_eq(dbl, vh_naive_sd_kg(&rate, &params, VH_NAIVE_LAST, SUNDAY + 35, 2),
                         sqrt((1.0 + 1.0 + 25.0 + 1.0) / 4.0), 1e-12));
}

Test(naive, weeks_to_come_do_not_tell_it_anything)
{
    const double kg[] = {10, 12, 9, 13, 14, 12};
    weeks(kg, 6);
    const double before = vh_naive_sd_kg(&rate, &params, VH_NAIVE_LAST, SUNDAY + 28, 1);
    vh_pick_rate_add(&rate, MONDAY + 35, SUNDAY + 35, 99.0);
    cr_expect(eq(dbl, vh_naive_sd_kg(&rate, &params, VH_NAIVE_LAST, SUNDAY + 28, 1), before));
}
