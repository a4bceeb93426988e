/* vh_fruit.h - how much a fruit asks, what it weighs, how thick it is.
 *
 *     ripe-picked:  dW/dt = G(T) S'(s) ds/dt,  S(s) = exp(-exp(-b (s - s0)))
 *                                                          [dekoning1994 via vanthoor2011]
 *                   G(T) = G FGP(T)/FGP(20),  G = c m DMC  (c fitted)
 *     size-picked:  W' = Wcap / (1 + (Wcap/W - 1) exp(-k x)),  x degree-days above base  (fitted)
 *     fresh mass = DM / DMC;  m = a D^e  (g, mm)           [pc065]
 *     DMC = DMC20 (1 + per_k (T - 20) + cool_per_k min(0, T - cool_c)) (1 + per_ec (EC - ref))
 *
 * The first bracket of DMC is held between low and high; T the mean since the flower [adams2001].
 */
#ifndef VH_FRUIT_H
#define VH_FRUIT_H

#include <stddef.h>

#include "vh_math_parts.h"

enum vh_pick_by { VH_PICK_BY_STAGE, VH_PICK_BY_MASS };

struct vh_fruit_params {
    int pick_by;              /* enum vh_pick_by */
    double curve_b, curve_s0; /* S(s) */
    double mass_factor;       /* c: potential over usual fresh mass */
    double cap_g;             /* Wcap, fresh */
    double start_g;           /* W0, fresh */
    double growth_per_cd;     /* k */
    double growth_base_c;
    double oldest_cd;   /* picked at this age whatever its mass, degC d above growth_base_c */
    double age_scatter; /* of that age between plants, share */
    double pick_cv;     /* scatter of mass between fruits of one age when picking by mass */
    double knot1_position, knot1_weight, knot2_position,
        knot2_weight;     /* position weights: 1 at 1, lines, held */
    double weight_norm;   /* weights are divided by their mean over so many positions */
    double dm_content_20; /* g DM per g fresh at 20 degC and ref EC */
    double dm_content_per_k, dm_content_low, dm_content_high;
    double dm_content_cool_c, dm_content_cool_per_k; /* drier still below cool_c [adams2001] */
    double dm_content_per_ec, ec_ref_ms_cm, dm_content_ref_c;
    double mass_cv; /* scatter of mass between plants for fruits of one position, share */
    double mass_a_g, mass_exponent; /* m = a D^e; D in mm */
};

#define VH_CURVE_STEPS 1024

/* S(s) in one table, so that the day loop interpolates. */
struct vh_growth_curve {
    double share[VH_CURVE_STEPS + 1];
};
void vh_fruit_curve_init(const struct vh_fruit_params *p, struct vh_growth_curve *curve);
/* S at s, clamped to 0..1 (growth ends at s = 1). */
double vh_fruit_curve_at(const struct vh_growth_curve *curve, double s);

/* Sum of position weights over fruits 1..n, n >= 0 real. */
double vh_fruit_weights_sum(const struct vh_fruit_params *p, double n);
/* Fresh mass after x degree-days from w fresh grams, at full supply; decay =
 * vh_fruit_logistic_decay(p, x), one a day for all fruits. */
VH_KERNEL double vh_fruit_logistic_decay(const struct vh_fruit_params *p, double x_cd)
{
    return vh_exp(-p->growth_per_cd * x_cd);
}
double vh_fruit_logistic_g(const struct vh_fruit_params *p, double w_g, double decay);
/* g DM per g fresh; mean_c since anthesis. */
double vh_fruit_dm_content(const struct vh_fruit_params *p, double mean_c, double ec_ms_cm);
/* Coefficient of variation of fruit mass on a truss of n fruits: position weights and scatter
 * between plants; n >= 0. */
double vh_fruit_mass_cv(const struct vh_fruit_params *p, double n);
double vh_fruit_diameter_mm(const struct vh_fruit_params *p, double mass_g);

#endif
