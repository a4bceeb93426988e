#include "worth.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>

#include "vh_math.h"
#include "vh_smoother.h"

/* A factor that hangs on the others but for so little of its variance adds nothing of its own. */
#define RIDGE 1e-6

static double covariance(const double *x, const double *y, size_t n)
{
    const double mean_x = vh_mean(x, n), mean_y = vh_mean(y, n);
    double sum = 0.0;

    for (size_t j = 0; j < n; j++)
        sum += (x[j] - mean_x) * (y[j] - mean_y);
    return sum / (double)(n - 1);
}

/* What is worked with: factors in their spreads. */
struct through {
    gsl_matrix *c; /* correlations of the factors */
    gsl_vector *with_y, *with_g, *solved;
};

static void through_clear(struct through *t)
{
    gsl_matrix_free(t->c);
    gsl_vector_free(t->with_y);
    gsl_vector_free(t->with_g);
    gsl_vector_free(t->solved);
}

static void fill(const struct vh_worth *w, const double *const *of, size_t n, struct through *t)
{
    for (size_t i = 0; i < n; i++) {
        const double sd = sqrt(covariance(of[i], of[i], w->members));
        for (size_t k = 0; k < n; k++)
            gsl_matrix_set(t->c, i, k,
                           i == k ? 1.0 + RIDGE
                                  : covariance(of[i], of[k], w->members) /
                                        (sd * sqrt(covariance(of[k], of[k], w->members))));
        gsl_vector_set(t->with_y, i, covariance(of[i], w->wanted, w->members) / sd);
        gsl_vector_set(t->with_g, i, covariance(of[i], w->counted, w->members) / sd);
    }
}

/* c = C_YM C_MM^-1 C_Mg. */
static enum vh_status through_factors(const struct vh_worth *w, const double *const *of, size_t n,
                                      double *c)
{
    struct through t = {gsl_matrix_alloc(n, n), gsl_vector_alloc(n), gsl_vector_alloc(n),
                        gsl_vector_alloc(n)};
    enum vh_status status = VH_NO_MEMORY;

    *c = 0.0;
    if (t.c && t.with_y && t.with_g && t.solved) {
        fill(w, of, n, &t);
        status =
            gsl_linalg_cholesky_decomp1(t.c) || gsl_linalg_cholesky_solve(t.c, t.with_g, t.solved)
                ? VH_NO_NUMBER
                : VH_OK;
        for (size_t i = 0; i < n && status == VH_OK; i++)
            *c += gsl_vector_get(t.with_y, i) * gsl_vector_get(t.solved, i);
    }
    through_clear(&t);
    return status;
}

enum vh_status vh_worth_narrows(const struct vh_worth *w, double *narrows)
{
    const double y = covariance(w->wanted, w->wanted, w->members),
                 g = covariance(w->counted, w->counted, w->members);
    const double **of = calloc(w->factors + 1, sizeof *of);
    size_t n = 0;
    double c = 0.0;
    enum vh_status status = of ? VH_OK : VH_NO_MEMORY;

    *narrows = 0.0;
    for (size_t i = 0; of && i < w->factors; i++)
        if (covariance(w->factor[i], w->factor[i], w->members) > 0.0)
            of[n++] = w->factor[i];
    if (status == VH_OK && n > 0 && y > 0.0 && g > 0.0) {
        gsl_error_handler_t *before = gsl_set_error_handler_off(); /* it would end the process */
        status = through_factors(w, of, n, &c);
        gsl_set_error_handler(before);
        c *= vh_smoother_believed(c / sqrt(y * g), w->members, w->doubt);
        *narrows = 1.0 - sqrt(vh_clamp(1.0 - c * c / (y * (g + w->error_variance)), 0.0, 1.0));
    }
    free(of);
    return status;
}
