/* Picks that stray from the model: what that takes from each entry, and what goes on from it. */
#include <math.h>
#include <stdlib.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>

#include "learn_parts.h"
#include "vh_math.h"
#include "vh_random.h"
#include "vh_stray.h"

#define STRAY_PURPOSE 0x57A7U /* of random numbers; no other part draws with it */

bool vh_learn_is_pick(const struct vh_learn_value *v)
{
    return vh_record_is_pick(v->item);
}

double vh_learn_middle_d(const struct vh_learn_value *v)
{
    return 0.5 * ((double)v->from + (double)v->until);
}

size_t *vh_learn_picks_of(const struct vh_learning *l, size_t planting, size_t *n)
{
    size_t *value = calloc(l->past.values + 1, sizeof *value);

    *n = 0;
    for (size_t i = 0; value && i < l->past.values; i++)
        if (l->past.value[i].planting == planting && vh_learn_is_pick(&l->past.value[i]) &&
            l->size[i] > 0.0)
            value[(*n)++] = i;
    return value;
}

/* Covariance of how far two entries stray, as shares. */
static double share_covariance(const struct vh_learning *l, const struct vh_learn_value *a,
                               const struct vh_learn_value *b)
{
    const struct vh_futures_params *p = &l->scenario->parameters->futures;
    const double sd = vh_learn_stray_sd(l, a);

    if (!vh_learn_is_pick(a) || !vh_learn_is_pick(b) || a->planting != b->planting)
        return 0.0;
    return vh_stray_covariance(sd, p->stray_d, vh_learn_middle_d(a) - vh_learn_middle_d(b));
}

double vh_learn_stray_sd(const struct vh_learning *l, const struct vh_learn_value *v)
{
    return vh_learn_is_pick(v)
               ? l->unsteady[v->planting] * l->scenario->parameters->futures.stray_sd
               : 0.0;
}

/* ---- errors of the entries made independent ---- */

static void forward(const gsl_matrix *lower, double *x)
{
    for (size_t i = 0; i < lower->size1; i++) {
        double sum = x[i];
        for (size_t k = 0; k < i; k++)
            sum -= gsl_matrix_get(lower, i, k) * x[k];
        x[i] = sum / gsl_matrix_get(lower, i, i);
    }
}

enum vh_status vh_learn_decorrelate(struct vh_learning *l)
{
    const size_t n = l->past.values;
    gsl_matrix *c = gsl_matrix_alloc(n, n);

    if (!c)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < n; k++)
            gsl_matrix_set(c, i, k,
                           l->size[i] * l->size[k] *
                                   share_covariance(l, &l->past.value[i], &l->past.value[k]) +
                               (i == k ? l->sd[i] * l->sd[i] : 0.0));
    gsl_error_handler_t *before = gsl_set_error_handler_off(); /* it would end the process */
    const int failed = gsl_linalg_cholesky_decomp1(c);
    gsl_set_error_handler(before);
    if (!failed) {
        forward(c, l->observed);
        for (size_t j = 0; j < l->members; j++)
            forward(c, l->predicted + j * n);
        for (size_t i = 0; i < n; i++)
            l->sd[i] = 1.0;
    }
    gsl_matrix_free(c);
    return failed ? VH_NO_NUMBER : VH_OK;
}

/* ---- how far they stray today ---- */

/* The entries of one planting: which, and what each weighs for today. */
struct today {
    size_t n, *value;
    gsl_matrix *c;    /* of the shares, the entry's own error with it */
    gsl_vector *with; /* covariance of each with today */
    gsl_vector *weight;
    double sd; /* of what is left */
};

static void today_clear(struct today *t)
{
    free(t->value);
    gsl_matrix_free(t->c);
    gsl_vector_free(t->with);
    gsl_vector_free(t->weight);
}

static enum vh_status gather(const struct vh_learning *l, size_t planting, struct today *t)
{
    *t = (struct today){.n = 0};
    t->value = vh_learn_picks_of(l, planting, &t->n);
    if (!t->value)
        return VH_NO_MEMORY;
    if (t->n == 0)
        return VH_OK;
    t->c = gsl_matrix_alloc(t->n, t->n);
    t->with = gsl_vector_alloc(t->n);
    t->weight = gsl_vector_alloc(t->n);
    return t->c && t->with && t->weight ? VH_OK : VH_NO_MEMORY;
}

/* Weights of a Gaussian process for its value today [rasmussen2006, eq. 2.25, 2.26]. */
static enum vh_status weigh(const struct vh_learning *l, struct today *t)
{
    const struct vh_futures_params *p = &l->scenario->parameters->futures;
    const double sd = vh_learn_stray_sd(l, &l->past.value[t->value[0]]);
    double told = 0.0;

    for (size_t i = 0; i < t->n; i++) {
        const struct vh_learn_value *a = &l->past.value[t->value[i]];
        const double own = l->sd[t->value[i]] / l->size[t->value[i]];
        for (size_t k = 0; k < t->n; k++)
            gsl_matrix_set(t->c, i, k,
                           share_covariance(l, a, &l->past.value[t->value[k]]) +
                               (i == k ? own * own : 0.0));
        gsl_vector_set(
            t->with, i,
            vh_stray_covariance(sd, p->stray_d,
                                (double)l->scenario->house.today - vh_learn_middle_d(a)));
    }
    gsl_error_handler_t *before = gsl_set_error_handler_off();
    int failed = gsl_linalg_cholesky_decomp1(t->c);
    if (!failed)
        failed = gsl_linalg_cholesky_solve(t->c, t->with, t->weight);
    gsl_set_error_handler(before);
    for (size_t i = 0; i < t->n && !failed; i++)
        told += gsl_vector_get(t->with, i) * gsl_vector_get(t->weight, i);
    t->sd = sqrt(vh_max(sd * sd - told, 0.0));
    return failed ? VH_NO_NUMBER : VH_OK;
}

static void draw_members(struct vh_learning *l, size_t planting, const struct today *t)
{
    const size_t plantings = l->past.scenario.house.plantings;
    const double most = 1.0; /* of a log: an entry three times too large is a slip */

    for (size_t j = 0; j < l->members; j++) {
        double mean = 0.0;
        for (size_t i = 0; i < t->n; i++) {
            const size_t v = t->value[i];
            const double share =
                (l->past.value[v].value - l->predicted[j * l->past.values + v]) / l->size[v];
            mean += gsl_vector_get(t->weight, i) * vh_clamp(share, -most, most);
        }
        l->factor[j * plantings + planting].stray =
            mean + t->sd * vh_normal(l->scenario->options.draw, (uint32_t)j, 0, STRAY_PURPOSE,
                                     (uint32_t)l->past.of[planting]);
    }
}

enum vh_status vh_learn_stray(struct vh_learning *l)
{
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < l->past.scenario.house.plantings && status == VH_OK; k++) {
        struct today t;
        status = gather(l, k, &t);
        if (status == VH_OK && t.n > 0)
            status = weigh(l, &t);
        if (status == VH_OK && t.n > 0)
            draw_members(l, k, &t);
        today_clear(&t);
    }
    return status;
}
