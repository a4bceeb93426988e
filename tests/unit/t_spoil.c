/* What of the picked fruit cannot be sold, cause by cause, worked by hand or by GSL quadrature. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <gsl/gsl_cdf.h>
#include <math.h>

#include "vh_math.h"
#include "vh_spoil.h"

static const struct vh_spoil_params p = {
    .crack_share = 0.04,
    .crack_more = 2,
    .crack_from = 0.8,
    .crack_width = 0.4,
    .crack_most = 0.4,
    .misshapen_share = 0.05,
    .misshapen_cold = 0.1,
    .misshapen_bees = 0.3,
    .rot_share = 0.01,
    .rot_per_k = 0.005,
    .rot_dull_more = 1,
    .rot_per_ec = 0.2,
    .rot_ec_ref_ms_cm = 2.5,
    .rot_most = 0.6,
    .hang_d = 6,
    .hang_cv = 0.35,
};

/* Nothing happened to this fruit. */
static struct vh_spoil_day calm(void)
{
    return (struct vh_spoil_day){
        .ratio = 0.7,
        .feed_ec_ms_cm = 2.5,
        .gap_d = 3,
        .red_wait_d = VH_UNKNOWN,
        .mass_g = VH_UNKNOWN,
        .largest_g = VH_ENDLESS,
    };
}

static struct vh_spoil_shares of(struct vh_spoil_day day)
{
    struct vh_spoil_shares s;

    vh_spoil_shares_of(&p, &day, &s);
    return s;
}

Test(spoil, a_calm_day_has_the_usual_shares)
{
    const struct vh_spoil_shares s = of(calm());

    cr_assert(epsilon_eq(dbl, s.cracked, 0.04, 1e-12));
    cr_assert(epsilon_eq(dbl, s.misshapen, 0.05, 1e-12));
    cr_assert(epsilon_eq(dbl, s.end_rot, 0.01, 1e-12));
    cr_assert(eq(dbl, s.overripe, 0.0));
    cr_assert(eq(dbl, s.oversize, 0.0));
    cr_assert(epsilon_eq(dbl, vh_spoil_total(&s), 1.0 - 0.96 * 0.95 * 0.99, 1e-12));
}

Test(spoil, fruit_cracks_more_where_few_fruits_hang)
{
    struct vh_spoil_day day = calm();

    day.ratio = 1.0; /* 0.04 (1 + 2 0.2/0.4) */
    cr_assert(epsilon_eq(dbl, of(day).cracked, 0.08, 1e-12));
    day.ratio = 1.2; /* 0.04 (1 + 2) */
    cr_assert(epsilon_eq(dbl, of(day).cracked, 0.12, 1e-12));
    day.ratio = 5.0;
    cr_assert(epsilon_eq(dbl, of(day).cracked, 0.4, 1e-12));
    day.ratio = VH_UNKNOWN;
    cr_assert(epsilon_eq(dbl, of(day).cracked, 0.04, 1e-12));
}

Test(spoil, cold_nights_and_bees_misshape)
{
    struct vh_spoil_day day = calm();

    day.cold_nights = 0.5;
    cr_assert(epsilon_eq(dbl, of(day).misshapen, 0.10, 1e-12));
    day.bees = 1.0;
    cr_assert(epsilon_eq(dbl, of(day).misshapen, 0.40, 1e-12));
}

Test(spoil, heat_after_dull_days_and_strong_feed_bring_end_rot)
{
    struct vh_spoil_day day = calm();

    day.hot_k = 2.0;
    day.hot_after_dull_k = 1.0;
    cr_assert(epsilon_eq(dbl, of(day).end_rot, 0.01 + 0.005 * 3.0, 1e-12));
    day.feed_ec_ms_cm = 4.0; /* x (1 + 0.2 1.5) */
    cr_assert(epsilon_eq(dbl, of(day).end_rot, 0.025 * 1.3, 1e-12));
    day.hot_k = 500.0;
    cr_assert(epsilon_eq(dbl, of(day).end_rot, 0.6, 1e-12));
}

/* Mean over the gap of P(L < u - wait), by 20 000 small steps; P of GSL. */
static double overripe_by_steps(double gap_d, double wait_d)
{
    const double s = sqrt(log(1.0 + p.hang_cv * p.hang_cv)), mu = log(p.hang_d) - 0.5 * s * s;
    const int steps = 20000;
    double sum = 0.0;

    for (int i = 0; i < steps; i++) {
        const double beyond = gap_d * (i + 0.5) / steps - wait_d;
        sum += beyond > 0.0 ? gsl_cdf_lognormal_P(beyond, mu, s) : 0.0;
    }
    return sum / steps;
}

Test(spoil, fruit_that_hangs_on_beyond_red_is_over_ripe)
{
    static const double gap[] = {3, 7, 10, 14, 21}, wait[] = {2.5, 0, 1, -3, 6};

    for (int i = 0; i < 5; i++) {
        struct vh_spoil_day day = calm();
        day.gap_d = gap[i];
        day.red_wait_d = wait[i];
        cr_assert(epsilon_eq(dbl, of(day).overripe, overripe_by_steps(gap[i], wait[i]), 1e-6));
    }
}

Test(spoil, picking_oftener_loses_less_to_over_ripe_fruit)
{
    struct vh_spoil_day day = calm();

    day.red_wait_d = 1.0;
    day.gap_d = 3.0;
    const double often = of(day).overripe;
    day.gap_d = 10.0;
    cr_assert(lt(dbl, often, 0.002));
    cr_assert(lt(dbl, 0.1, of(day).overripe));
}

Test(spoil, over_size_is_the_mass_above_the_largest_that_sells)
{
    struct vh_spoil_day day = calm();

    day.mass_g = 400;
    day.mass_cv = 0.2;
    day.largest_g = 480;
    const double s = sqrt(log(1.04)), mu = log(400) - 0.5 * s * s;
    /* share of the mass above x: a log-normal of mean mu + s^2 */
    cr_assert(epsilon_eq(dbl, of(day).oversize, gsl_cdf_lognormal_Q(480, mu + s * s, s), 1e-12));
    day.mass_cv = 0.0;
    cr_assert(eq(dbl, of(day).oversize, 0.0));
    day.mass_g = 500;
    cr_assert(eq(dbl, of(day).oversize, 1.0));
}
