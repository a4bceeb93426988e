/* What a count is worth: the exact answer where all is straight and normal, nothing where it says
 * nothing, and the table that people read. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdlib.h>

#include "vh_random.h"
#include "vh_to_measure.h"
#include "worth.h"

enum { N = 20000 };

/* m, two factors of sd 1; Y = 2 m0 + m1 + what nobody can know; g = m0 + what the plants do. */
struct drawn {
    double m0[N], m1[N], y[N], g[N];
};

static struct drawn *draw(double y_sd, double g_sd)
{
    struct drawn *d = calloc(1, sizeof *d);

    cr_assert(d != NULL);
    for (uint32_t j = 0; j < N; j++) {
        d->m0[j] = vh_normal(1, j, 0, 1, 0);
        d->m1[j] = vh_normal(1, j, 0, 2, 0);
        d->y[j] = 2.0 * d->m0[j] + d->m1[j] + y_sd * vh_normal(1, j, 0, 3, 0);
        d->g[j] = d->m0[j] + g_sd * vh_normal(1, j, 0, 4, 0);
    }
    return d;
}

static double narrows(const struct drawn *d, size_t members, size_t factors, double error_sd)
{
    const double *factor[] = {d->m0, d->m1};
    const struct vh_worth w = {members, d->y, d->g, error_sd * error_sd, 1.0, factors, factor};
    double share = -1.0;

    cr_assert(eq(int, vh_worth_narrows(&w, &share), VH_OK));
    return share;
}

/* var(Y) = 4 + 1 + 1, c = 2, var(g) = 1 + 0.25, R = 0.64; the variance of one number of a normal
 * pair once the other is known: 6 - 4 / 1.89 [evensen2009]. */
Test(worth, it_is_the_exact_answer_of_normal_numbers)
{
    struct drawn *d = draw(1.0, 0.5);

    cr_assert(epsilon_eq(dbl, narrows(d, N, 2, 0.8), 1.0 - sqrt(1.0 - 4.0 / 1.89 / 6.0), 0.01));
    free(d);
}

Test(worth, a_better_count_is_worth_more)
{
    struct drawn *d = draw(1.0, 0.5);

    cr_assert(lt(dbl, narrows(d, 200, 2, 1.0), narrows(d, 200, 2, 0.1)));
    cr_assert(lt(dbl, narrows(d, 200, 2, 100.0), 0.001));
    free(d);
}

/* What both share besides the factors (a weather gone by) is not learnt from a count. */
Test(worth, what_no_factor_explains_stays)
{
    struct drawn *d = draw(0.1, 0.1);

    cr_assert(lt(dbl, narrows(d, N, 0, 0.1), 1e-9));
    for (size_t j = 0; j < N; j++)
        d->g[j] = vh_normal(1, (uint32_t)j, 0, 9, 0);
    for (size_t j = 0; j < N; j++)
        d->y[j] += 3.0 * d->g[j];
    cr_assert(lt(dbl, narrows(d, N, 2, 0.1), 0.001));
    free(d);
}

Test(worth, chance_promises_nothing)
{
    struct drawn *d = draw(1.0, 0.5);
    double promised = 0.0;

    for (uint32_t draws = 0; draws < 40; draws++) {
        for (size_t j = 0; j < 100; j++)
            d->g[j] = vh_normal(2 + draws, (uint32_t)j, 0, 9, 0);
        promised += narrows(d, 100, 2, 0.1) / 40.0;
    }
    cr_assert(lt(dbl, promised, 0.01));
    free(d);
}

Test(worth, factors_that_say_the_same_do_no_harm)
{
    struct drawn *d = draw(1.0, 0.5);
    const double once = narrows(d, N, 1, 0.8);

    for (size_t j = 0; j < N; j++)
        d->m1[j] = d->m0[j];
    cr_assert(epsilon_eq(dbl, narrows(d, N, 2, 0.8), once, 0.001));
    free(d);
}
