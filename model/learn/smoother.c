#include "vh_smoother.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_matrix.h>
#include <math.h>
#include <stdlib.h>

#include "vh_random.h"

/* Purpose of the random numbers: no other part draws with it. */
#define ERROR_PURPOSE 0x0B5EU

/* Work of one pass; anomalies are members' values less their mean. */
struct work {
    double *mean_m, *mean_d; /* [unknown], [observation] */
    double *sd_m, *sd_d;
    double *cross;    /* C_MD, [unknown][observation], shrunk */
    gsl_matrix *data; /* C_DD + alpha C_D, then its Cholesky factor */
    gsl_vector *right, *weight;
};

static void work_clear(struct work *w)
{
    free(w->mean_m);
    free(w->mean_d);
    free(w->sd_m);
    free(w->sd_d);
    free(w->cross);
    gsl_matrix_free(w->data);
    gsl_vector_free(w->right);
    gsl_vector_free(w->weight);
}

static enum vh_status work_init(struct work *w, const struct vh_smoother *s)
{
    const size_t m = s->unknowns, d = s->observations;

    *w = (struct work){.mean_m = calloc(m, sizeof(double)),
                       .mean_d = calloc(d, sizeof(double)),
                       .sd_m = calloc(m, sizeof(double)),
                       .sd_d = calloc(d, sizeof(double)),
                       .cross = calloc(m * d, sizeof(double)),
                       .data = gsl_matrix_alloc(d, d),
                       .right = gsl_vector_alloc(d),
                       .weight = gsl_vector_alloc(d)};
    if (w->mean_m && w->mean_d && w->sd_m && w->sd_d && w->cross && w->data && w->right &&
        w->weight)
        return VH_OK;
    return VH_NO_MEMORY;
}

static void means(const double *value, size_t members, size_t n, double *mean, double *sd)
{
    for (size_t k = 0; k < n; k++) {
        double sum = 0.0, squares = 0.0;
        for (size_t j = 0; j < members; j++)
            sum += value[j * n + k];
        mean[k] = sum / (double)members;
        for (size_t j = 0; j < members; j++) {
            const double off = value[j * n + k] - mean[k];
            squares += off * off;
        }
        sd[k] = sqrt(squares / (double)(members - 1));
    }
}

/* Covariance of two columns. */
static double covariance(const double *a, size_t na, size_t ka, double mean_a, const double *b,
                         size_t nb, size_t kb, double mean_b, size_t members)
{
    double sum = 0.0;

    for (size_t j = 0; j < members; j++)
        sum += (a[j * na + ka] - mean_a) * (b[j * nb + kb] - mean_b);
    return sum / (double)(members - 1);
}

double vh_smoother_believed(double correlation, size_t members, double doubt)
{
    const double chance = doubt / (double)(members - 1), square = correlation * correlation;

    return square > chance ? 1.0 - chance / square : 0.0;
}

static void fill(struct work *w, const struct vh_smoother *s)
{
    const size_t nm = s->unknowns, nd = s->observations;

    means(s->unknown, s->members, nm, w->mean_m, w->sd_m);
    means(s->predicted, s->members, nd, w->mean_d, w->sd_d);
    for (size_t k = 0; k < nm; k++)
        for (size_t i = 0; i < nd; i++) {
            const double c = covariance(s->unknown, nm, k, w->mean_m[k], s->predicted, nd, i,
                                        w->mean_d[i], s->members);
            const double spreads = w->sd_m[k] * w->sd_d[i];
            w->cross[k * nd + i] =
                spreads > 0.0 ? c * vh_smoother_believed(c / spreads, s->members, s->doubt) : 0.0;
        }
    for (size_t i = 0; i < nd; i++)
        for (size_t k = 0; k <= i; k++) {
            const double c = covariance(s->predicted, nd, i, w->mean_d[i], s->predicted, nd, k,
                                        w->mean_d[k], s->members);
            const double own = i == k ? s->alpha * s->sd[i] * s->sd[i] : 0.0;
            gsl_matrix_set(w->data, i, k, c + own);
            gsl_matrix_set(w->data, k, i, c + own);
        }
}

static enum vh_status move_members(struct work *w, const struct vh_smoother *s)
{
    const size_t nm = s->unknowns, nd = s->observations;
    const double stretch = sqrt(s->alpha);

    for (size_t j = 0; j < s->members; j++) {
        for (size_t i = 0; i < nd; i++) {
            const double error =
                s->sd[i] * vh_normal(s->draw, (uint32_t)j, s->pass, ERROR_PURPOSE, (uint32_t)i);
            gsl_vector_set(w->right, i,
                           s->observed[i] + stretch * error - s->predicted[j * nd + i]);
        }
        if (gsl_linalg_cholesky_solve(w->data, w->right, w->weight))
            return VH_NO_NUMBER;
        for (size_t k = 0; k < nm; k++) {
            double step = 0.0;
            for (size_t i = 0; i < nd; i++)
                step += w->cross[k * nd + i] * gsl_vector_get(w->weight, i);
            s->unknown[j * nm + k] += step;
        }
    }
    return VH_OK;
}

static bool is_sound(const struct vh_smoother *s)
{
    for (size_t i = 0; i < s->observations; i++) {
        if (!(s->sd[i] > 0.0) || !isfinite(s->sd[i]) || !isfinite(s->observed[i]))
            return false;
        for (size_t j = 0; j < s->members; j++)
            if (!isfinite(s->predicted[j * s->observations + i]))
                return false;
    }
    return s->members > 1 && s->alpha >= 1.0;
}

enum vh_status vh_smoother_update(const struct vh_smoother *s)
{
    struct work w;

    if (s->observations == 0)
        return VH_OK;
    if (!is_sound(s))
        return VH_NO_NUMBER;
    gsl_error_handler_t *before = gsl_set_error_handler_off(); /* it would end the process */
    enum vh_status status = work_init(&w, s);
    if (status == VH_OK) {
        fill(&w, s);
        if (gsl_linalg_cholesky_decomp1(w.data))
            status = VH_NO_NUMBER;
    }
    if (status == VH_OK)
        status = move_members(&w, s);
    work_clear(&w);
    gsl_set_error_handler(before);
    return status;
}
