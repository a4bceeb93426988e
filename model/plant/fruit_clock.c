#include "vh_clock.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>

#include "vh_math.h"

static double staged(const struct vh_clock_params *p, double s, double warmth, double log_rad,
                     double truss)
{
    const double poly = p->c0_per_d + s * (p->c1_per_d + s * (p->c2_per_d + s * p->c3_per_d));
    return p->a_per_d + p->rad_per_d * log_rad + p->truss_per_d * truss + warmth * poly;
}

double vh_clock_warmth(const struct vh_clock_params *p, double temp_c)
{
    return temp_c > p->blend_c ? vh_log(vh_min(temp_c, p->high_c) / p->ref_c) : 0.0;
}

double vh_clock_rate_at(const struct vh_clock_params *p, double s, double temp_c, double warmth,
                        double log_rad, double truss)
{
    const double stage = vh_clamp(s, 0.0, 1.0);
    const double cool = p->cool_a_per_d + p->cool_b_per_d * temp_c;
    double rate;

    if (temp_c >= p->low_c) {
        rate = staged(p, stage, warmth, log_rad, truss);
    } else if (temp_c <= p->blend_c) {
        rate = cool;
    } else {
        const double w = (temp_c - p->blend_c) / (p->low_c - p->blend_c);
        rate = w * staged(p, stage, warmth, log_rad, truss) + (1.0 - w) * cool;
    }
    return vh_max(rate, 0.0);
}

double vh_clock_rate_per_d(const struct vh_clock_params *p, double s, double temp_c, double log_rad,
                           double truss)
{
    return vh_clock_rate_at(p, s, temp_c, vh_clock_warmth(p, temp_c), log_rad, truss);
}

struct pace {
    const struct vh_clock_params *p;
    double temp_c, log_rad, truss;
};

static double days_per_stage(double s, void *context)
{
    const struct pace *q = context;
    return 1.0 / vh_clock_rate_per_d(q->p, s, q->temp_c, q->log_rad, q->truss);
}

double vh_clock_days_to_ripe(const struct vh_clock_params *p, double temp_c, double rad_mj_m2_d,
                             double truss)
{
    enum { INTERVALS = 100 };
    const double relative_error = 1e-10;
    struct pace q = {p, temp_c, vh_log(vh_max(rad_mj_m2_d, p->rad_least_mj_m2_d)), truss};
    double from[INTERVALS], to[INTERVALS], part[INTERVALS], error_of[INTERVALS];
    size_t order[INTERVALS], level[INTERVALS];
    /* as gsl_integration_workspace_alloc would, but with no memory that could run out */
    gsl_integration_workspace w = {.limit = INTERVALS,
                                   .alist = from,
                                   .blist = to,
                                   .rlist = part,
                                   .elist = error_of,
                                   .order = order,
                                   .level = level};
    gsl_function f = {days_per_stage, &q};
    double days = VH_UNKNOWN, error = 0.0;

    if (gsl_integration_qag(&f, 0.0, 1.0, 0.0, relative_error, INTERVALS, GSL_INTEG_GAUSS21, &w,
                            &days, &error) != GSL_SUCCESS ||
        !isfinite(days))
        days = VH_UNKNOWN;
    return days;
}

double vh_clock_heat_mean(const double *t_c, size_t hours, double from_c, double width_k)
{
    double sum = 0.0;
    for (size_t h = 0; h < hours; h++)
        sum += vh_clamp((t_c[h] - from_c) / width_k, 0.0, 1.0);
    return sum / (double)hours;
}
