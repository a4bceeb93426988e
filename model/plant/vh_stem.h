/* vh_stem.h - how long the stem between two leaves grows.
 *
 *     internode = reference (1 + d clamp(DIF - d0, -half, half)) clamp((DLI/ref)^e, low, high)
 *                 clamp(r0 + r1 r, low, high) clamp((stems m-2/ref)^s, low, high)
 *
 * assumed around the measured rows M1 and three measured seasons (3.0 to 8 stems m-2: fitted); DIF
 * mean of light hours minus mean of dark hours, K.
 */
#ifndef VH_STEM_H
#define VH_STEM_H

#include "vh_math_parts.h"

struct vh_stem_params {
    double internode_cm;
    double dif_per_k, dif_ref_k, dif_half_k;
    double dli_ref_mol_m2_d, dli_exponent, dli_least_mol_m2_d, dli_low, dli_high;
    double supply_0, supply_1, supply_low, supply_high;
    double stand_ref_m2, stand_exponent, stand_low, stand_high; /* crowded stems stretch */
    double seedling_internode_cm; /* stem per unfolded leaf at set-out */
    double light_hour_umol_m2_s;  /* an hour brighter than this is day for DIF */
    double thick_mm;       /* 15 cm below the tip of a stem in balance; 0: nobody has stated one */
    double thick_usual_mm; /* weeks of sound crops lie so far from it, one standard deviation */
};

/* cm; r = supply over demand, used up to 1; dli at the crop. */
VH_KERNEL double vh_stem_internode_cm(const struct vh_stem_params *p, double dif_k,
                                      double dli_mol_m2_d, double r, double stems_m2)
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

#endif
