/* The tabled normal distribution of the picks, against GSL's. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <gsl/gsl_cdf.h>
#include <math.h>

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
    cr_assert(gt(dbl, worst, 1e-12)); /* it is a table */
}

Test(scatter, rises_without_a_kink)
{
    static struct vh_scatter s;

    vh_scatter_init(&s);
    for (double x = -8.0; x < 8.0; x += 1.0 / 64.0) {
        const double step = 1e-5, left = vh_scatter_share(&s, x) - vh_scatter_share(&s, x - step);
        const double right = vh_scatter_share(&s, x + step) - vh_scatter_share(&s, x);
        cr_assert(ge(dbl, right, -1e-15));
        cr_assert(lt(dbl, fabs(right - left), 1e-9));
    }
}
