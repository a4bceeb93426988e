#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_math.h"
#include "vh_score.h"

Test(score, one_future_is_scored_by_its_error)
{
    const double x = 12.0;

    cr_expect(epsilon_eq(dbl, vh_score_crps(&x, 1, 9.5), 2.5, 1e-12));
}

Test(score, two_futures_by_hand)
{
    /* mean |x - y| = (1 + 3) / 2 = 2; mean |x - x'| = (0 + 4 + 4 + 0) / 4 = 2; 2 - 1 = 1 */
    const double x[] = {1.0, 5.0};

    cr_expect(epsilon_eq(dbl, vh_score_crps(x, 2, 2.0), 1.0, 1e-12));
}

/* Closed form for a normal forecast, Gneiting, Raftery, Westveld & Goldman 2005, Mon. Weather Rev.
 * 133:1098-1118, eq. 5:  sd (z (2 Phi(z) - 1) + 2 phi(z) - 1/sqrt(pi)),  z = (y - mean)/sd. */
static double crps_of_normal(double mean, double sd, double y)
{
    const double pi = 3.14159265358979323846, z = (y - mean) / sd;

    return sd * (z * (2.0 * vh_normal_cdf(z) - 1.0) + 2.0 * exp(-0.5 * z * z) / sqrt(2.0 * pi) -
                 1.0 / sqrt(pi));
}

Test(score, many_futures_come_to_the_closed_form_of_the_normal_distribution)
{
    enum { N = 20000 };
    static double x[N];
    const double came[] = {-1.0, 0.0, 0.4, 2.5};

    for (int i = 0; i < N; i++)
        x[i] = 3.0 + 2.0 * vh_normal_quantile((i + 0.5) / N);
    for (int k = 0; k < 4; k++) {
        const double y = 3.0 + 2.0 * came[k];
        cr_expect(epsilon_eq(dbl, vh_score_crps(x, N, y), crps_of_normal(3.0, 2.0, y), 2e-4));
    }
}

Test(score, pinball_is_least_at_its_own_quantile)
{
    /* over 1..100 the loss of level 0.8 is least at the 80th value */
    double least = 1e9;
    int at = 0;

    for (int q = 1; q <= 100; q++) {
        double loss = 0.0;
        for (int y = 1; y <= 100; y++)
            loss += vh_score_pinball(q, 0.8, y);
        if (loss < least - 1e-9) {
            least = loss;
            at = q;
        }
    }
    cr_expect(eq(int, at, 80));
    cr_expect(epsilon_eq(dbl, vh_score_pinball(10.0, 0.9, 12.0), 1.8, 1e-12));
    cr_expect(epsilon_eq(dbl, vh_score_pinball(10.0, 0.9, 8.0), 0.2, 1e-12));
}

/* The closed form itself by hand: at the mean sd (2 phi(0) - 1/sqrt(pi)) = 2 (0.7978845608 -
 * 0.5641895835). And against many futures of that normal distribution, whose score it is. */
Test(score, a_normal_forecast_is_scored_by_its_closed_form)
{
    enum { N = 20000 };
    static double x[N];

    cr_expect(epsilon_eq(dbl, vh_score_crps_normal(3.0, 2.0, 3.0), 0.4673899546, 1e-9));
    cr_expect(epsilon_eq(dbl, vh_score_crps_normal(3.0, 0.0, 4.5), 1.5, 1e-12));
    for (int i = 0; i < N; i++)
        x[i] = 3.0 + 2.0 * vh_normal_quantile((i + 0.5) / N);
    cr_expect(epsilon_eq(dbl, vh_score_crps_normal(3.0, 2.0, 5.5), vh_score_crps(x, N, 5.5), 1e-4));
}
