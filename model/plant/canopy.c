#include "vh_light.h"

#include "vh_math.h"

#define SECONDS_PER_HOUR 3600.0

static double temperature_share(const struct vh_light_params *p, double t_c)
{
    return vh_clamp(
        vh_min((t_c - p->t1_c) / (p->t2_c - p->t1_c), (p->t4_c - t_c) / (p->t4_c - p->t3_c)), 0.0,
        1.0);
}

struct vh_leaf_hour vh_light_leaf_hour(const struct vh_light_params *p, double t_c,
                                       double par_umol_m2_s, double co2_ppm)
{
    const struct vh_leaf_hour dark = {0.0, 1.0, 0.0};
    const double c = vh_min(co2_ppm, p->co2_cap_ppm), k = t_c - p->gamma_ref_c;
    const double gamma =
        vh_max(p->gamma_least_ppm, p->gamma0_ppm + k * (p->gamma1_ppm_k + k * p->gamma2_ppm_k2));
    const double share = temperature_share(p, t_c);

    if (par_umol_m2_s <= 0.0 || share <= 0.0 || c <= gamma)
        return dark;
    const double alpha = p->alpha0 * (c - gamma) / (c + 2.0 * gamma);
    const double pm = p->tau_umol_m2_s_ppm * c * share;
    return (struct vh_leaf_hour){alpha * p->extinction * (1.0 - p->reflected) * par_umol_m2_s,
                                 (1.0 - p->leaf_transmission) * pm, pm / p->extinction};
}

double vh_light_passed(const struct vh_light_params *p, double lai)
{
    return vh_exp(-p->extinction * lai);
}

double vh_light_both_sides(const struct vh_light_params *p, double passed)
{
    return 1.0 + p->floor_reflected * passed; /* vanthoor2011 eq. 9.19 */
}

double vh_light_canopy_umol_m2_s(const struct vh_leaf_hour *h, double passed)
{
    return h->pm_per_k * vh_log((h->alpha_k_i + h->rest) / (h->alpha_k_i * passed + h->rest));
}

double vh_light_assimilate_g_m2(const struct vh_light_params *p, const struct vh_leaf_hour *hour,
                                size_t hours, double lai)
{
    if (lai <= 0.0)
        return 0.0;
    const double passed = vh_light_passed(p, lai);
    double sum = 0.0;
    for (size_t h = 0; h < hours; h++) {
        struct vh_leaf_hour lit = hour[h];
        lit.alpha_k_i *= vh_light_both_sides(p, passed);
        if (lit.alpha_k_i > 0.0)
            sum += vh_light_canopy_umol_m2_s(&lit, passed);
    }
    return sum * p->g_ch2o_per_umol * SECONDS_PER_HOUR;
}

double vh_light_leaf_umol_m2_s(double alpha_i_leaf, double pm)
{
    return alpha_i_leaf * pm / (alpha_i_leaf + pm);
}

double vh_upkeep_warmth(const struct vh_upkeep_params *p, const double *t_c, size_t hours)
{
    const double per_ten = vh_log(p->q10) / 10.0;
    double sum = 0.0;
    for (size_t h = 0; h < hours; h++)
        sum += vh_exp(per_ten * (t_c[h] - p->ref_c));
    return sum / (double)hours;
}
