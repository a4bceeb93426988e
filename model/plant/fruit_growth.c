#include "vh_fruit.h"

#include "vh_math.h"

void vh_fruit_curve_init(const struct vh_fruit_params *p, struct vh_growth_curve *curve)
{
    for (int i = 0; i <= VH_CURVE_STEPS; i++) {
        const double s = (double)i / VH_CURVE_STEPS;
        curve->share[i] = vh_exp(-vh_exp(-p->curve_b * (s - p->curve_s0)));
    }
}

double vh_fruit_curve_at(const struct vh_growth_curve *curve, double s)
{
    const double x = vh_clamp(s, 0.0, 1.0) * VH_CURVE_STEPS;
    const int i = x >= VH_CURVE_STEPS ? VH_CURVE_STEPS - 1 : (int)x;
    return curve->share[i] + (curve->share[i + 1] - curve->share[i]) * (x - i);
}

/* Integral of the piecewise-linear weight over positions, position i covering i-1..i with its own
 * weight. */
static double weight_at(const struct vh_fruit_params *p, double position)
{
    if (position <= p->knot1_position)
        return 1.0 + (p->knot1_weight - 1.0) * (position - 1.0) / (p->knot1_position - 1.0);
    if (position <= p->knot2_position)
        return p->knot1_weight + (p->knot2_weight - p->knot1_weight) *
                                     (position - p->knot1_position) /
                                     (p->knot2_position - p->knot1_position);
    return p->knot2_weight;
}

static double cumulated(const struct vh_fruit_params *p, double n)
{
    double sum = 0.0, position = 1.0;
    for (; position <= n; position += 1.0)
        sum += weight_at(p, position);
    return sum + weight_at(p, position) * (n - (position - 1.0));
}

double vh_fruit_weights_sum(const struct vh_fruit_params *p, double n)
{
    return cumulated(p, n) * p->weight_norm / cumulated(p, p->weight_norm);
}

double vh_fruit_logistic_g(const struct vh_fruit_params *p, double w_g, double decay)
{
    return p->cap_g / (1.0 + (p->cap_g / w_g - 1.0) * decay);
}

double vh_fruit_dm_content(const struct vh_fruit_params *p, double mean_c, double ec_ms_cm)
{
    const double warm = p->dm_content_per_k * (mean_c - p->dm_content_ref_c),
                 cool = p->dm_content_cool_per_k * vh_min(0.0, mean_c - p->dm_content_cool_c);
    const double warmth = vh_clamp(1.0 + warm + cool, p->dm_content_low, p->dm_content_high);
    return p->dm_content_20 * warmth * (1.0 + p->dm_content_per_ec * (ec_ms_cm - p->ec_ref_ms_cm));
}

double vh_fruit_mass_cv(const struct vh_fruit_params *p, double n)
{
    double sum = 0.0, squares = 0.0, position = 1.0;

    if (n <= 0.0)
        return p->mass_cv;
    for (; position <= n; position += 1.0) {
        const double w = weight_at(p, position);
        sum += w;
        squares += w * w;
    }
    const double last = n - (position - 1.0),
                 w = weight_at(p, position); /* a part of a fruit counts as that part */
    const double mean = (sum + last * w) / n, square = (squares + last * w * w) / n;
    return sqrt(vh_max(square / (mean * mean) - 1.0, 0.0) + p->mass_cv * p->mass_cv);
}

double vh_fruit_diameter_mm(const struct vh_fruit_params *p, double mass_g)
{
    return mass_g > 0.0 ? vh_pow(mass_g / p->mass_a_g, 1.0 / p->mass_exponent) : 0.0;
}
