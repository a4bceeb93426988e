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

double vh_flower_many(const struct vh_flower_params *p, double mass_share)
{
    return vh_pow(mass_share, p->mass_exponent);
}

double vh_flower_visited_share(const struct vh_flower_params *p, double between_d)
{
    return vh_min(1.0, p->receptive_d / vh_max(between_d, 1.0));
}
