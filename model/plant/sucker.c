#include "vh_sucker.h"

#include "vh_math.h"

double vh_sucker_rise(const struct vh_sucker_params *p, double cd)
{
    return vh_exp(p->growth_per_cd * cd) - 1.0;
}

double vh_sucker_gain_g(const struct vh_sucker_params *p, double w_g, double rise, double cd)
{
    return vh_min(w_g * rise, p->fastest_g_cd * cd);
}

double vh_sucker_own(const struct vh_sucker_params *p, double w_g)
{
    return vh_min(p->own_most, w_g / p->own_at_g);
}

double vh_sucker_length_cm(const struct vh_sucker_params *p, double w_g)
{
    return p->length_cm * sqrt(w_g / p->length_at_g);
}

double vh_sucker_leaf_m2(const struct vh_sucker_params *p, double w_g)
{
    return p->leaf_share * vh_max(0.0, w_g - p->start_g) * p->leaf_m2_g;
}

double vh_sucker_long_enough(const struct vh_sucker_params *p, double length_cm)
{
    const double short_by = p->pulled_cm - length_cm;

    if (p->pull_width_cm <= 0.0)
        return short_by <= 0.0 ? 1.0 : 0.0;
    return vh_clamp(0.5 - short_by / p->pull_width_cm, 0.0, 1.0);
}
