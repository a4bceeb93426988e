/* How far the measured weather of this place strays from its yearly course. */
#include <math.h>
#include <stdlib.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_multifit.h>

#include "climate_parts.h"
#include "vh_math.h"
#include "vh_weather.h"

enum { TERMS = 3, FEWEST = 30 };
static const double year_d = 365.25;

/* Measured days: which, and what was measured. */
struct measured {
    size_t n, *day;
    double *value;
};

static void terms(const struct vh_climate *c, size_t day, double term[TERMS])
{
    const double angle = 2.0 * VH_PI * (double)(c->first_day + (int64_t)day) / year_d;

    term[0] = 1.0;
    term[1] = vh_cos(angle);
    term[2] = vh_sin(angle);
}

/* Each value becomes what is left of it beside the yearly course. */
static enum vh_status take_course_off(const struct vh_climate *c, struct measured *m)
{
    gsl_matrix *x = gsl_matrix_alloc(m->n, TERMS), *cov = gsl_matrix_alloc(TERMS, TERMS);
    gsl_vector *y = gsl_vector_alloc(m->n), *b = gsl_vector_alloc(TERMS);
    gsl_multifit_linear_workspace *w = gsl_multifit_linear_alloc(m->n, TERMS);
    enum vh_status status = VH_NO_MEMORY;
    double chisq, term[TERMS];

    if (x && cov && y && b && w) {
        for (size_t i = 0; i < m->n; i++) {
            terms(c, m->day[i], term);
            for (size_t k = 0; k < TERMS; k++)
                gsl_matrix_set(x, i, k, term[k]);
            gsl_vector_set(y, i, m->value[i]);
        }
        status = gsl_multifit_linear(x, y, b, cov, &chisq, w) == 0 ? VH_OK : VH_NO_NUMBER;
    }
    for (size_t i = 0; status == VH_OK && i < m->n; i++) {
        terms(c, m->day[i], term);
        for (size_t k = 0; k < TERMS; k++)
            m->value[i] -= gsl_vector_get(b, k) * term[k];
    }
    gsl_matrix_free(x);
    gsl_matrix_free(cov);
    gsl_vector_free(y);
    gsl_vector_free(b);
    if (w)
        gsl_multifit_linear_free(w);
    return status;
}

/* Mean square of the rest, and of the products of neighbouring days. */
static void moments(const struct measured *m, double *square, double *neighbours)
{
    double next = 0.0, sum = 0.0;
    size_t pairs = 0;

    for (size_t i = 0; i < m->n; i++) {
        sum += m->value[i] * m->value[i];
        if (i + 1 < m->n && m->day[i + 1] == m->day[i] + 1) {
            next += m->value[i] * m->value[i + 1];
            pairs++;
        }
    }
    *square = sum / (double)(m->n - TERMS);
    *neighbours = pairs ? next / (double)pairs : 0.0;
}

static void gather_days(const struct vh_climate *c, bool light, struct measured *m)
{
    m->n = 0;
    for (size_t d = 0; d < c->days; d++) {
        const double *t = &c->t_out_c[d * VH_HOURS_PER_DAY];
        const double *sun = &c->outlook.sun_w_m2[d * VH_HOURS_PER_DAY];
        double sum = 0.0;
        for (size_t h = 0; h < VH_HOURS_PER_DAY; h++)
            sum += light ? sun[h] : t[h] / VH_HOURS_PER_DAY;
        if (!(light ? c->outlook.sun_measured : c->outlook.t_out_measured)[d] || isnan(sum) ||
            (light && sum <= 0.0))
            continue;
        m->day[m->n] = d;
        m->value[m->n++] = light ? vh_log(sum) : sum;
    }
}

static double weighed(double n, double own, double book_days, double book)
{
    return (n * own + book_days * book) / (n + book_days);
}

/* sd by its square; the persistence too where there is a place for it. */
static enum vh_status fit_one(const struct vh_climate *c, bool light, double book_days, double *sd,
                              double *persistence, struct measured *m)
{
    double square, neighbours;

    gather_days(c, light, m);
    if (m->n < FEWEST)
        return VH_OK;
    const enum vh_status status = take_course_off(c, m);
    if (status == VH_NO_NUMBER)
        return VH_OK; /* the days do not tell a course: the book stands */
    if (status != VH_OK)
        return status;
    moments(m, &square, &neighbours);
    const double n = (double)m->n, most = 0.95; /* nearer to 1 a spell would hardly end */
    *sd = sqrt(weighed(n, square, book_days, *sd * *sd));
    if (persistence && square > 0.0)
        *persistence =
            weighed(n, vh_clamp(neighbours / square, 0.0, most), book_days, *persistence);
    return VH_OK;
}

enum vh_status vh_weather_fit(const struct vh_climate *c, double book_days,
                              struct vh_weather_spread *spread)
{
    struct measured m = {.day = calloc(c->days + 1, sizeof *m.day),
                         .value = calloc(c->days + 1, sizeof *m.value)};
    enum vh_status status = VH_NO_MEMORY;
    gsl_error_handler_t *before = gsl_set_error_handler_off(); /* it would end the process */

    if (m.day && m.value)
        status = fit_one(c, false, book_days, &spread->temperature_sd_c, &spread->persistence, &m);
    if (status == VH_OK)
        status = fit_one(c, true, book_days, &spread->clearness_sd, NULL, &m);
    gsl_set_error_handler(before);
    free(m.day);
    free(m.value);
    return status;
}
