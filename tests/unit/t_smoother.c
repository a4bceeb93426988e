#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "vh_random.h"
#include "vh_smoother.h"

enum { MEMBERS = 4000, UNKNOWNS = 3, DATA = 3, PASSES = 4 };

/* Two unknowns are seen, through sums of them; the third is not. */
static const double seen_by[DATA][UNKNOWNS] = {{1, 0, 0}, {1, 1, 0}, {0, 2, 0}};
static const double observed[DATA] = {1.5, 0.7, -1.0};
static const double sd[DATA] = {0.5, 0.4, 0.8};

static void guess(double *unknown)
{
    for (uint32_t j = 0; j < MEMBERS; j++)
        for (uint32_t k = 0; k < UNKNOWNS; k++)
            unknown[j * UNKNOWNS + k] = vh_normal(7, j, 0, 99, k);
}

static void predict(const double *unknown, double *predicted)
{
    for (size_t j = 0; j < MEMBERS; j++)
        for (size_t i = 0; i < DATA; i++) {
            double sum = 0.0;
            for (size_t k = 0; k < UNKNOWNS; k++)
                sum += seen_by[i][k] * unknown[j * UNKNOWNS + k];
            predicted[j * DATA + i] = sum;
        }
}

static void assimilate(double *unknown, double *predicted)
{
    for (uint32_t pass = 0; pass < PASSES; pass++) {
        predict(unknown, predicted);
        const struct vh_smoother s = {.members = MEMBERS,
                                      .unknowns = UNKNOWNS,
                                      .observations = DATA,
                                      .unknown = unknown,
                                      .predicted = predicted,
                                      .observed = observed,
                                      .sd = sd,
                                      .alpha = PASSES,
                                      .doubt = 1.0,
                                      .draw = 11,
                                      .pass = pass};
        cr_assert(eq(int, vh_smoother_update(&s), VH_OK));
    }
}

static void mean_and_sd(const double *unknown, size_t k, double *mean, double *spread)
{
    double sum = 0.0, squares = 0.0;

    for (size_t j = 0; j < MEMBERS; j++)
        sum += unknown[j * UNKNOWNS + k];
    *mean = sum / MEMBERS;
    for (size_t j = 0; j < MEMBERS; j++) {
        const double off = unknown[j * UNKNOWNS + k] - *mean;
        squares += off * off;
    }
    *spread = sqrt(squares / (MEMBERS - 1));
}

/* The exact answer of the linear Gaussian case, unknowns a, b with prior N(0, 1) (Kalman; by its
 * normal equations): precision P = I + H' R^-1 H, mean = P^-1 H' R^-1 d.
 *     H' R^-1 H = | 1/0.25 + 1/0.16      1/0.16          |   = | 10.25   6.25 |
 *                 | 1/0.16               1/0.16 + 4/0.64 |     |  6.25  12.5  |
 *     P = | 11.25 6.25 ; 6.25 13.5 |, det = 11.25 13.5 - 6.25^2 = 112.8125
 *     H' R^-1 d = (1.5/0.25 + 0.7/0.16, 0.7/0.16 + 2 (-1)/0.64) = (10.375, 1.25)
 *     a = (13.5 10.375 - 6.25 1.25)/det = 1.172299, b = (11.25 1.25 - 6.25 10.375)/det = -0.450139
 *     var a = 13.5/det = 0.119668, var b = 11.25/det = 0.099723 */
Test(smoother, a_linear_case_comes_to_the_exact_answer)
{
    static double unknown[MEMBERS * UNKNOWNS], predicted[MEMBERS * DATA];
    const double mean[] = {1.172299, -0.450139}, variance[] = {0.119668, 0.099723};

    guess(unknown);
    assimilate(unknown, predicted);
    for (size_t k = 0; k < 2; k++) {
        double got, spread;
        mean_and_sd(unknown, k, &got, &spread);
        /* four standard errors of a mean and of a spread over the members; passes add their own
         * draws */
        const double error = sqrt(variance[k] / MEMBERS);
        cr_expect(epsilon_eq(dbl, got, mean[k], 8.0 * error));
        cr_expect(epsilon_eq(dbl, spread, sqrt(variance[k]), 8.0 * error));
    }
}

Test(smoother, what_is_not_observed_keeps_its_spread)
{
    static double unknown[MEMBERS * UNKNOWNS], predicted[MEMBERS * DATA];
    double mean, spread;

    guess(unknown);
    assimilate(unknown, predicted);
    mean_and_sd(unknown, 2, &mean, &spread);
    cr_expect(epsilon_eq(dbl, mean, 0.0, 0.06));
    cr_expect(epsilon_eq(dbl, spread, 1.0, 0.05));
}

Test(smoother, no_number_comes_from_a_sd_of_nothing_and_the_guesses_stay)
{
    static double unknown[MEMBERS * UNKNOWNS], predicted[MEMBERS * DATA];
    const double none[DATA] = {0.5, 0.0, 0.8};

    guess(unknown);
    const double before = unknown[5];
    predict(unknown, predicted);
    const struct vh_smoother s = {MEMBERS, UNKNOWNS, DATA, unknown, predicted, observed,
                                  none,    1.0,      1.0,  11,      0};
    cr_expect(eq(int, vh_smoother_update(&s), VH_NO_NUMBER));
    cr_expect(eq(dbl, unknown[5], before));
}

/* Where the numbers begin to count is nobody's business: all guesses, what is made of them and what
 * was observed moved by the same amount move the answer by it. Few members, so that each counts. */
Test(smoother, another_zero_moves_the_answer_by_as_much)
{
    enum { FEW = 12, ZEROS = 2 };
    static const double zero[ZEROS] = {0.0, 50.0};
    double answer[ZEROS][FEW];

    for (size_t z = 0; z < ZEROS; z++) {
        double predicted[FEW];
        const double seen = 0.8 + zero[z], off = 0.5;
        for (uint32_t j = 0; j < FEW; j++)
            answer[z][j] = predicted[j] = zero[z] + vh_normal(7, j, 0, 99, 0);
        const struct vh_smoother s = {FEW,  1,   1,   answer[z], predicted, &seen,
                                      &off, 1.0, 1.0, 11,        0};
        cr_assert(eq(int, vh_smoother_update(&s), VH_OK));
    }
    for (size_t j = 0; j < FEW; j++)
        cr_expect(epsilon_eq(dbl, answer[1][j] - zero[1], answer[0][j], 1e-9), "member %zu", j);
}
