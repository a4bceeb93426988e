#include "vh_crop_tables.h"

#include "vh_math.h"

void vh_scatter_init(struct vh_scatter *s)
{
    const double root_two_pi = 2.5066282746310002;

    for (int i = 0; i <= VH_SCATTER_STEPS; i++) {
        const double x = -VH_SCATTER_FAR + 2.0 * VH_SCATTER_FAR * i / VH_SCATTER_STEPS;
        s->share[i] = vh_normal_cdf(x);
        s->slope[i] = vh_exp(-0.5 * x * x) / root_two_pi;
    }
}

double vh_scatter_share(const struct vh_scatter *s, double x)
{
    const double width = 2.0 * VH_SCATTER_FAR / VH_SCATTER_STEPS;

    if (x <= -VH_SCATTER_FAR)
        return 0.0;
    if (x >= VH_SCATTER_FAR)
        return 1.0;
    const double at = (x + VH_SCATTER_FAR) / width; /* rounds up to the last point just below it */
    const int i = at >= VH_SCATTER_STEPS ? VH_SCATTER_STEPS - 1 : (int)at;
    const double u = at - i, v = 1.0 - u;
    return v * v * ((1.0 + 2.0 * u) * s->share[i] + u * width * s->slope[i]) +
           u * u * ((1.0 + 2.0 * v) * s->share[i + 1] - v * width * s->slope[i + 1]);
}

enum vh_status vh_crop_tables_init(const struct vh_crop *crop, struct vh_crop_tables *t)
{
    vh_fruit_curve_init(&crop->fruit, &t->curve);
    vh_scatter_init(&t->scatter);
    vh_pollen_init(&crop->flower, &t->pollen);
    return vh_fgp_init(crop, &t->fgp);
}
