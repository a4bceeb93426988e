#include "vh_flower.h"

#include "vh_math.h"

void vh_pollen_init(const struct vh_flower_params *p, struct vh_pollen *pollen)
{
    *pollen = (struct vh_pollen){.until = 0};
    for (size_t k = 0; (double)k <= p->window_d && k < VH_POLLEN_DAYS; k++) {
        const double from_peak = (double)k - p->peak_d; /* above 0: earlier than the peak */
        const double w =
            1.0 - (from_peak > 0.0 ? from_peak / p->before_d : -from_peak / p->after_d);
        if (w <= 0.0)
            continue;
        pollen->from = pollen->until == 0 ? k : pollen->from;
        pollen->until = k + 1;
        pollen->weight[k] = w;
        pollen->sum += w;
    }
}

double vh_pollen_mean_c(const struct vh_pollen *pollen, const double *mean_c, size_t n)
{
    double sum = 0.0;

    for (size_t k = pollen->from; k < pollen->until; k++)
        sum += pollen->weight[k] * mean_c[k < n ? k : n - 1];
    return sum / pollen->sum;
}

double vh_flower_pollen_mean_c(const struct vh_flower_params *p, const double *mean_c, size_t n)
{
    struct vh_pollen pollen;

    vh_pollen_init(p, &pollen);
    return vh_pollen_mean_c(&pollen, mean_c, n);
}

static double along(double x, double x0, double x1, double y0, double y1)
{
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
}

double vh_flower_temperature_share(const struct vh_flower_params *p, double c)
{
    if (c <= p->t1_c)
        return p->f1;
    if (c <= p->t2_c)
        return along(c, p->t1_c, p->t2_c, p->f1, p->f2);
    if (c <= p->t3_c)
        return along(c, p->t2_c, p->t3_c, p->f2, p->f3);
    if (c <= p->t4_c)
        return along(c, p->t3_c, p->t4_c, p->f3, p->f4);
    if (c <= p->t5_c)
        return along(c, p->t4_c, p->t5_c, p->f4, p->f5);
    return p->f5;
}

double vh_flower_seeded_share(const struct vh_flower_params *p, double f_t)
{
    const double poor =
        vh_clamp((p->seeded_full - f_t) / (p->seeded_full - p->seeded_from), 0.0, 1.0);
    return 1.0 - (1.0 - p->seeded_least) * poor;
}

double vh_flower_day_share(const struct vh_flower_params *p, double mean_c)
{
    const double hot =
        vh_clamp((mean_c - p->day_full_c) / (p->day_least_c - p->day_full_c), 0.0, 1.0);
    return 1.0 - (1.0 - p->day_least) * hot;
}

double vh_flower_visited_share(const struct vh_flower_params *p, double between_d)
{
    return vh_min(1.0, p->receptive_d / vh_max(between_d, 1.0));
}

double vh_flower_supply_share(const struct vh_flower_params *p, double mean_r)
{
    if (p->set_by == VH_SET_BY_THRESHOLD)
        return 1.0 / (1.0 + vh_exp((p->set_threshold - mean_r) /
                                   p->set_width)); /* wubs2009b, the step rounded off */
    return vh_min(1.0, mean_r / p->supply_full);
}

double vh_flower_not_dropped(const struct vh_flower_params *p, double r5, double cd)
{
    const double hazard = p->abort_per_cd / (1.0 + vh_exp((r5 - p->abort_mid) / p->abort_width));
    return vh_exp(-hazard * cd);
}
