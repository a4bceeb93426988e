/* The scatter of a place's own weather, found again in days made with a known one; and visits that
 * come late. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdlib.h>

#include "vh_math.h"
#include "vh_random.h"
#include "vh_visits.h"
#include "vh_weather.h"

enum { DAYS = 1500 };

/* Days about a yearly course, coldest late in January: temperature with sd 4 K and persistence 0.8,
 * all measured. */
static struct vh_climate made(size_t measured)
{
    struct vh_climate c = {.days = DAYS};
    double a = 0.0;

    c.t_out_c = calloc(DAYS * VH_HOURS_PER_DAY, sizeof *c.t_out_c);
    c.outlook.sun_w_m2 = calloc(DAYS * VH_HOURS_PER_DAY, sizeof *c.outlook.sun_w_m2);
    c.outlook.t_out_measured = calloc(DAYS, sizeof(bool));
    c.outlook.sun_measured = calloc(DAYS, sizeof(bool));
    for (size_t d = 0; d < DAYS; d++) {
        a = 0.8 * a + 4.0 * 0.6 * vh_normal(1, 0, (uint32_t)d, 7, 0);
        for (size_t h = 0; h < VH_HOURS_PER_DAY; h++)
            c.t_out_c[d * VH_HOURS_PER_DAY + h] =
                9.0 - 11.0 * vh_cos(2.0 * VH_PI * (double)(d - 28.0) / 365.25) + a;
        c.outlook.t_out_measured[d] = d < measured;
    }
    return c;
}

static void forget(struct vh_climate *c)
{
    free(c->t_out_c);
    free(c->outlook.sun_w_m2);
    free(c->outlook.t_out_measured);
    free(c->outlook.sun_measured);
}

/* Standard errors of a first-order process over n days: of sd, sd sqrt((1 + phi^2)/(1 - phi^2)/(2
 * n)) = 4 x 0.039; of phi, sqrt((1 - phi^2)/n) = 0.015. Three of them, and of the book's share of
 * one day nothing to speak of. */
Test(weather, its_own_scatter_is_found_where_enough_was_measured)
{
    struct vh_climate c = made(DAYS);
    struct vh_weather_spread s = {2.5, 0.6, 0.25};

    cr_assert(eq(int, vh_weather_fit(&c, 1.0, &s), VH_OK));
    cr_expect(lt(dbl, fabs(s.temperature_sd_c - 4.0), 3.0 * 4.0 * 0.039), "sd %g",
              s.temperature_sd_c);
    cr_expect(lt(dbl, fabs(s.persistence - 0.8), 3.0 * 0.015), "persistence %g", s.persistence);
    cr_expect(eq(dbl, s.clearness_sd, 0.25)); /* no light was measured */
    forget(&c);
}

Test(weather, the_book_stands_where_little_was_measured)
{
    struct vh_climate c = made(29);
    struct vh_weather_spread s = {2.5, 0.6, 0.25};

    cr_assert(eq(int, vh_weather_fit(&c, 60.0, &s), VH_OK));
    cr_expect(eq(dbl, s.temperature_sd_c, 2.5));
    cr_expect(eq(dbl, s.persistence, 0.6));
    forget(&c);
}

/* Asked for on days in any order. */
Test(weather, late_visits_that_are_known_come_on_the_days_on_which_they_were_drawn)
{
    const struct vh_rhythm thrice = {.by_weekday = true,
                                     .weekday = {true, false, true, false, true}};
    const int asked[] = {300, 301, 301, 303, 290, 310, 340, 341, 320, 260, 261, 480, 481, 400};
    struct vh_delays known;
    struct vh_policy policy = {.late = {.mean_d = 4.0, .draw = 1, .from = 270}}, knows;
    int comes = 0, all = 0;

    for (uint32_t m = 0; m < 200; m++) {
        policy.late.member = m;
        knows = policy;
        knows.late.known = &known;
        vh_delays_forget(&known);
        for (size_t i = 0; i < sizeof asked / sizeof asked[0]; i++, all++) {
            const bool due = vh_visit_due(&policy, &thrice, VH_VISIT_SUCKERS, 0, asked[i]);
            comes += due;
            cr_assert(eq(int, vh_visit_due(&knows, &thrice, VH_VISIT_SUCKERS, 0, asked[i]), due));
        }
        for (int day = 265; day < 400; day++)
            cr_assert(eq(int, vh_visit_due(&knows, &thrice, VH_VISIT_LEAVES, 0, day),
                         vh_visit_due(&policy, &thrice, VH_VISIT_LEAVES, 0, day)));
    }
    cr_assert(0 < comes && comes < all);
}

/* Visits every 50 days, so that none meets the next: of a geometric delay with mean 1 half come on
 * their day, a quarter one day late. Standard error of a share of n: 1/(2 sqrt(n)); four of them.
 */
Test(weather, visits_come_late_as_often_as_they_should)
{
    const struct vh_rhythm every_50 = {.every_d = 50};
    struct vh_policy policy = {.late = {.mean_d = 1.0, .draw = 1, .from = 50}};
    enum { MEMBERS = 4000 };
    int on_day = 0, one_late = 0;

    for (uint32_t m = 0; m < MEMBERS; m++) {
        policy.late.member = m;
        on_day += vh_visit_due(&policy, &every_50, VH_VISIT_LEAVES, 0, 100);
        one_late += vh_visit_due(&policy, &every_50, VH_VISIT_LEAVES, 0, 101);
        cr_assert(vh_visit_due(&policy, &every_50, VH_VISIT_LEAVES, 0, 0)); /* before `from` */
        cr_assert(not(vh_visit_due(&policy, &every_50, VH_VISIT_LEAVES, 0, 99)));
    }
    cr_expect(lt(dbl, fabs(on_day / (double)MEMBERS - 0.5), 2.0 / sqrt(MEMBERS)));
    cr_expect(lt(dbl, fabs(one_late / (double)MEMBERS - 0.25), 2.0 / sqrt(MEMBERS)));
}
