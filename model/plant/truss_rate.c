#include "vh_truss.h"

#include "vh_math.h"

static double heat_share(const struct vh_truss_params *p, double temp_c)
{
    return vh_clamp((p->stop_c - temp_c) / (p->stop_c - p->fall_c), 0.0, 1.0);
}

double vh_truss_rate_per_d(const struct vh_truss_params *p, double temp_c, double truss)
{
    const double t = vh_clamp(temp_c, p->low_c, p->high_c);
    const double beyond = vh_min(temp_c, p->flat_c) - t; /* along the tangent at the near end */
    const double rate =
        p->a_per_d + p->b_per_d * vh_log(t) + p->c_per_d_truss * truss + p->b_per_d / t * beyond;

    return vh_max(rate, 0.0) * heat_share(p, temp_c);
}

double vh_node_rate_per_d(const struct vh_node_params *p, const struct vh_truss_params *t,
                          double temp_c, double dli_mol_m2_d)
{
    const double warmth = p->per_k * (temp_c - p->ref_c);
    const double light = p->per_mol * (dli_mol_m2_d - p->ref_mol_m2_d);
    const double cold = vh_clamp((temp_c - p->base_c) / (p->full_c - p->base_c), 0.0, 1.0);

    return p->level_per_d * vh_max(1.0 + warmth + light, p->least_share) * cold *
           heat_share(t, temp_c);
}
