#include "vh_stem.h"

#include "vh_math.h"

double vh_stem_internode_cm(const struct vh_stem_params *p, double dif_k, double dli_mol_m2_d,
                            double r, double stems_m2)
{
    const double dif =
        1.0 + p->dif_per_k * vh_clamp(dif_k - p->dif_ref_k, -p->dif_half_k, p->dif_half_k);
    const double relative_light = vh_max(dli_mol_m2_d, p->dli_least_mol_m2_d) / p->dli_ref_mol_m2_d;
    const double light = vh_clamp(vh_pow(relative_light, p->dli_exponent), p->dli_low, p->dli_high);
    const double fed =
        vh_clamp(p->supply_0 + p->supply_1 * vh_min(r, 1.0), p->supply_low, p->supply_high);

    const double crowded = vh_clamp(vh_pow(stems_m2 / p->stand_ref_m2, p->stand_exponent),
                                    p->stand_low, p->stand_high);

    return p->internode_cm * dif * light * fed * crowded;
}
