/* How far the picks of this house stray: one house picks as evenly as a clock, another by the
 * weather and the market. Each guess of it is weighed by how likely the entries are against the
 * futures of the book [rasmussen2006, eq. 2.30]: what is left between them is the futures' own
 * covariance, the straying of neighbours (vh_stray.h) and each entry's error, and only the last two
 * hang on it. Members take theirs by their own draw from what is left likely, so that a house with
 * few entries stays as doubtful as it is.
 */
#include <math.h>
#include <stdlib.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>

#include "learn_parts.h"
#include "vh_math.h"
#include "vh_stray.h"

/* Guesses: steps of the prior's spread, up to as many spreads either way. */
enum { GUESSES = 13 };
#define WIDEST 3.0

struct guessing {
    const struct vh_learning *l;
    size_t n, *value;        /* the picks of one planting that are no slips */
    double *mean;            /* [n] of the futures */
    gsl_matrix *c, *futures; /* what is tried; covariance of the futures */
    gsl_vector *off, *solved;
    double factor[GUESSES], weight[GUESSES];
};

static void guessing_clear(struct guessing *g)
{
    free(g->value);
    free(g->mean);
    gsl_matrix_free(g->c);
    gsl_matrix_free(g->futures);
    gsl_vector_free(g->off);
    gsl_vector_free(g->solved);
}

static double predicted(const struct guessing *g, size_t member, size_t i)
{
    return g->l->predicted[member * g->l->past.values + g->value[i]];
}

static void fill_futures(struct guessing *g)
{
    const size_t members = g->l->members;

    for (size_t i = 0; i < g->n; i++) {
        double sum = 0.0;
        for (size_t j = 0; j < members; j++)
            sum += predicted(g, j, i);
        g->mean[i] = sum / (double)members;
        gsl_vector_set(g->off, i, g->l->past.value[g->value[i]].value - g->mean[i]);
    }
    for (size_t i = 0; i < g->n; i++)
        for (size_t k = 0; k <= i; k++) {
            double sum = 0.0;
            for (size_t j = 0; j < members; j++)
                sum += (predicted(g, j, i) - g->mean[i]) * (predicted(g, j, k) - g->mean[k]);
            gsl_matrix_set(g->futures, i, k, sum / (double)(members - 1));
            gsl_matrix_set(g->futures, k, i, sum / (double)(members - 1));
        }
}

static enum vh_status gather(const struct vh_learning *l, size_t planting, struct guessing *g)
{
    *g = (struct guessing){.l = l};
    g->value = vh_learn_picks_of(l, planting, &g->n);
    if (!g->value)
        return VH_NO_MEMORY;
    if (g->n == 0)
        return VH_OK;
    g->mean = calloc(g->n, sizeof *g->mean);
    g->c = gsl_matrix_alloc(g->n, g->n);
    g->futures = gsl_matrix_alloc(g->n, g->n);
    g->off = gsl_vector_alloc(g->n);
    g->solved = gsl_vector_alloc(g->n);
    if (!g->mean || !g->c || !g->futures || !g->off || !g->solved)
        return VH_NO_MEMORY;
    fill_futures(g);
    return VH_OK;
}

static void fill_guess(struct guessing *g, double factor)
{
    const struct vh_learning *l = g->l;
    const struct vh_futures_params *p = &l->scenario->parameters->futures;
    const double sd = factor * p->stray_sd;

    for (size_t i = 0; i < g->n; i++) {
        const struct vh_learn_value *a = &l->past.value[g->value[i]];
        const double size = l->size[g->value[i]];
        const struct vh_learn_error e = vh_learn_error_of(l, a, size);
        for (size_t k = 0; k < g->n; k++) {
            const struct vh_learn_value *b = &l->past.value[g->value[k]];
            const double strays =
                size * l->size[g->value[k]] *
                vh_stray_covariance(sd, p->stray_d, vh_learn_middle_d(a) - vh_learn_middle_d(b));
            gsl_matrix_set(g->c, i, k,
                           gsl_matrix_get(g->futures, i, k) + strays +
                               (i == k ? e.own + factor * factor * e.model : 0.0));
        }
    }
}

/* Logarithm, but for a constant. NaN: it cannot be told. */
static double likelihood(struct guessing *g, double factor)
{
    double sum = 0.0;

    fill_guess(g, factor);
    if (gsl_linalg_cholesky_decomp1(g->c) || gsl_linalg_cholesky_solve(g->c, g->off, g->solved))
        return VH_UNKNOWN;
    for (size_t i = 0; i < g->n; i++)
        sum -= 0.5 * gsl_vector_get(g->off, i) * gsl_vector_get(g->solved, i) +
               vh_log(gsl_matrix_get(g->c, i, i));
    return sum;
}

static enum vh_status weigh(struct guessing *g, double sd)
{
    double log_weight[GUESSES], most = -VH_ENDLESS, sum = 0.0;

    for (int k = 0; k < GUESSES; k++) {
        const double z = WIDEST * (2.0 * k / (GUESSES - 1) - 1.0);
        g->factor[k] = vh_exp(sd * z - sd * sd / 2.0);
        log_weight[k] = likelihood(g, g->factor[k]) - z * z / 2.0;
        if (isnan(log_weight[k]))
            return VH_NO_NUMBER;
        most = vh_max(most, log_weight[k]);
    }
    for (int k = 0; k < GUESSES; k++) {
        g->weight[k] = vh_exp(log_weight[k] - most);
        sum += g->weight[k];
    }
    for (int k = 0; k < GUESSES; k++)
        g->weight[k] /= sum;
    return VH_OK;
}

/* The factor below which a share p of the weight lies; between the guesses along a line. */
static double at_share(const struct guessing *g, double p)
{
    double below = 0.0;

    for (int k = 0; k < GUESSES; k++) {
        const double here = below + g->weight[k] / 2.0; /* a guess stands for both sides of it */
        const double next = k + 1 < GUESSES ? below + g->weight[k] + g->weight[k + 1] / 2.0 : 1.0;
        if (p <= here)
            return g->factor[k];
        if (p <= next && k + 1 < GUESSES)
            return g->factor[k] + (g->factor[k + 1] - g->factor[k]) * (p - here) / (next - here);
        below += g->weight[k];
    }
    return g->factor[GUESSES - 1];
}

/* Members keep their rank among all houses. */
static void hand_out(struct vh_learning *l, size_t planting, const struct guessing *g, double sd)
{
    const size_t plantings = l->past.scenario.house.plantings;
    double sum = 0.0;

    for (size_t j = 0; j < l->members; j++) {
        double *own = &l->factor[j * plantings + planting].unsteady;
        const double z = (vh_log(*own) + sd * sd / 2.0) / sd;
        *own = at_share(g, vh_normal_cdf(z));
    }
    for (int k = 0; k < GUESSES; k++)
        sum += g->weight[k] * g->factor[k];
    l->unsteady[planting] = sum;
}

enum vh_status vh_learn_unsteady(struct vh_learning *l)
{
    const double cv = l->scenario->parameters->futures.unsteady_cv;
    const double sd = sqrt(vh_log(1.0 + cv * cv));
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < l->past.scenario.house.plantings && status == VH_OK && sd > 0.0; k++) {
        struct guessing g;
        status = gather(l, k, &g);
        if (status == VH_OK && g.n > 0) {
            gsl_error_handler_t *before =
                gsl_set_error_handler_off(); /* it would end the process */
            status = weigh(&g, sd);
            gsl_set_error_handler(before);
            if (status == VH_OK)
                hand_out(l, k, &g, sd);
        }
        guessing_clear(&g);
    }
    return status;
}
