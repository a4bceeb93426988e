/* The tabled normal distribution of the picks, against GSL's, and how wide it is on each truss. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <gsl/gsl_cdf.h>
#include <math.h>

#include "vh_clock.h"
#include "vh_plant_state.h"

Test(scatter, lies_within_4e_9_of_the_normal_distribution)
{
    static struct vh_scatter s;
    double worst = 0.0;

    vh_scatter_init(&s);
    for (double x = -9.0; x <= 9.0; x += 0.00137)
        worst = fmax(worst, fabs(vh_scatter_share(&s, x) - gsl_cdf_ugaussian_P(x)));
    cr_log_info("largest error %g", worst);
    cr_assert(lt(dbl, worst, 4e-9));
    cr_assert(lt(dbl, 1e-12, worst)); /* it is a table */
}

/* So near to the end of the table that the way to it rounds to all of it. */
Test(scatter, ends_where_the_table_ends)
{
    static struct vh_scatter s;

    vh_scatter_init(&s);
    cr_assert(eq(dbl, vh_scatter_share(&s, nextafter(VH_SCATTER_FAR, 0.0)),
                 s.share[VH_SCATTER_STEPS]));
}

Test(scatter, rises_without_a_kink)
{
    static struct vh_scatter s;

    vh_scatter_init(&s);
    for (double x = -8.0; x < 8.0; x += 1.0 / 64.0) {
        const double step = 1e-5, left = vh_scatter_share(&s, x) - vh_scatter_share(&s, x - step);
        const double right = vh_scatter_share(&s, x + step) - vh_scatter_share(&s, x);
        cr_assert(le(dbl, -1e-15, right));
        cr_assert(lt(dbl, fabs(right - left), 1e-9));
    }
}

/* Each truss strays from the one before by itself: variances add (no source: how sums behave). */
Test(scatter, variance_grows_evenly_from_the_first_truss_until_it_is_full)
{
    const struct vh_clock_params p = {
        .scatter_stage = 0.06, .scatter_first = 0.03, .scatter_trusses = 8.0};
    const double each = (0.06 * 0.06 - 0.03 * 0.03) / 8.0;

    cr_assert(ieee_ulp_eq(dbl, vh_clock_scatter(&p, 1.0), 0.03, 4));
    for (double truss = 1.0; truss < 9.0; truss += 1.0) {
        const double here = vh_clock_scatter(&p, truss), next = vh_clock_scatter(&p, truss + 1.0);
        cr_assert(epsilon_eq(dbl, next * next - here * here, each, 1e-15));
    }
    cr_assert(ieee_ulp_eq(dbl, vh_clock_scatter(&p, 9.0), 0.06, 4));
    cr_assert(ieee_ulp_eq(dbl, vh_clock_scatter(&p, 40.0), 0.06, 4));
}
