#include "vh_clock.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <math.h>

#include "vh_math.h"

double vh_clock_rate_per_d(const struct vh_clock_params *p, double s, double temp_c, double log_rad,
                           double truss)
{
    const struct vh_clock_day day = vh_clock_day_of(p, temp_c);

    return vh_clock_rate_on(p, &day, s, log_rad, truss);
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

double vh_clock_scatter(const struct vh_clock_params *p, double truss)
{
    const double first = p->scatter_first * p->scatter_first;
    const double grown = p->scatter_stage * p->scatter_stage;
    return sqrt(first + (grown - first) * vh_min((truss - 1.0) / p->scatter_trusses, 1.0));
}
