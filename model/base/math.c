#include "vh_math_parts.h"

static double sine_of(struct vh_angle a, uint64_t quarters_ahead)
{
    const uint64_t quarter = a.quarter + quarters_ahead;
    const double y = (quarter & 1) != 0 ? vh_cosine_near_0(a) : vh_sine_near_0(a);
    return (quarter & 2) != 0 ? -y : y;
}

double vh_sin(double x)
{
    return fabs(x) <= 1e6 ? sine_of(vh_reduce(x), 0) : (double)NAN;
}

double vh_cos(double x)
{
    return fabs(x) <= 1e6 ? sine_of(vh_reduce(x), 1) : (double)NAN;
}

/* ---- arc cosine: own interpolation at Chebyshev nodes in x^2, |x| <= 1/2 ---- */

static const double arcsine_terms[13] = {
    /* (asin x / x - 1) / x^2; relative error 9e-17 */
    0x1.5555555555556p-3, 0x1.3333333332ec4p-4, 0x1.6db6db6e3292ep-5, 0x1.f1c71c1d4aa0dp-6,
    0x1.6e8bb1d89492bp-6, 0x1.1c4d343fa57f6p-6, 0x1.c9cf3759fd8ffp-7, 0x1.78246f32d075cp-7,
    0x1.524ea8b3aad31p-7, 0x1.653a8f8cfd43cp-8, 0x1.1d661531b222ep-6, -0x1.e7a24f548c99fp-7,
    0x1.d78189767524ep-6,
};

double vh_acos(double x)
{
    const double half_pi = 0x1.921fb54442d18p+0, half_pi_low = 0x1.1a62633145c07p-54;
    x = vh_clamp(x, -1.0, 1.0);
    if (fabs(x) <= 0.5) {
        const double z = x * x;
        return half_pi - (x - (half_pi_low - x * z * VH_POLYNOMIAL(arcsine_terms, z)));
    }
    /* acos x = 2 asin sqrt((1 - x) / 2); the argument of the root is exact */
    const double z = 0.5 * (1.0 - fabs(x)), s = sqrt(z);
    const double beyond = s * z * VH_POLYNOMIAL(arcsine_terms, z);
    return x > 0.0 ? 2.0 * (s + beyond) : 2.0 * (half_pi - (s - (half_pi_low - beyond)));
}

/* ---- normal distribution ---- */

/* (x + 5) exp(x^2/2) Phi(-x) as a polynomial in t = (x - 5) / (x + 5), 0 <= x <= 38: own
 * interpolation at Chebyshev nodes in 60-digit arithmetic, relative error 2e-17. The mapping takes
 * the whole tail in one smooth piece. */
static const double tail_terms[23] = {
    0x1.89d3abe1f95aep-1,   -0x1.54ad03f27ca17p-1, 0x1.fb31653876f8cp-2,   -0x1.410ed5f875a6dp-2,
    0x1.51f6329f019cfp-3,   -0x1.1b1c254c9a859p-4, 0x1.54b4d4f4a7f14p-6,   -0x1.88590eaa8ab13p-9,
    -0x1.a25037b46359dp-11, 0x1.1daf1d47345f1p-11, -0x1.f2146faa5c0e7p-15, -0x1.a170d58851d34p-15,
    0x1.17dd81c1a2686p-16,  0x1.0b27d44a0c244p-18, -0x1.73b3bdb525e42p-19, -0x1.698b2538d2425p-22,
    0x1.d1444d7059965p-22,  0x1.6cb9662c089eep-25, -0x1.1bae36be19435p-24, -0x1.461449c2bc835p-27,
    0x1.074ca29425f3fp-27,  0x1.f4bfe4670bb26p-30, -0x1.2a4ea7fff827cp-33,
};

double vh_normal_cdf(double x)
{
    const double centre = 5.0,
                 end = 37.4; /* beyond `end` vh_exp would stop falling: below 1e-305 */
    const double a = fabs(x);
    if (a > end) {
        return x > 0.0 ? 1.0 : 0.0;
    }
    /* exp(-a^2/2) in two factors: the first square is exact, so the rounding of a^2 does not grow
     * in the exponent */
    const double shift = 0x1.8p52;
    const double coarse = (a * 16.0 + shift - shift) * 0.0625;
    const double bell = vh_exp(-0.5 * coarse * coarse) * vh_exp(-0.5 * (a - coarse) * (a + coarse));
    const double tail =
        bell * VH_POLYNOMIAL(tail_terms, (a - centre) / (a + centre)) / (a + centre);
    return x > 0.0 ? 1.0 - tail : tail;
}

/* AS 241 (vh_math_parts.h) away from the middle. */
static const double middle_top[8] = {
    1.42343711074968357734e0,  4.63033784615654529590e0,  5.76949722146069140550e0,
    3.64784832476320460504e0,  1.27045825245236838258e0,  2.41780725177450611770e-1,
    2.27238449892691845833e-2, 7.74545014278341407640e-4,
};
static const double middle_below[8] = {
    1.0,
    2.05319162663775882187e0,
    1.67638483018380384940e0,
    6.89767334985100004550e-1,
    1.48103976427480074590e-1,
    1.51986665636164571966e-2,
    5.47593808499534494600e-4,
    1.05075007164441684324e-9,
};
static const double far_top[8] = {
    6.65790464350110377720e0,  5.46378491116411436990e0,  1.78482653991729133580e0,
    2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3,
    2.71155556874348757815e-5, 2.01033439929228813265e-7,
};
static const double far_below[8] = {
    1.0,
    5.99832206555887937690e-1,
    1.36929880922735805310e-1,
    1.48753612908506148525e-2,
    7.86869131145613259100e-4,
    1.84631831751005468180e-5,
    1.42151175831644588870e-7,
    2.04426310338993978564e-15,
};

double vh_normal_quantile(double p)
{
    const double middle_shift = 1.6, far_shift = 5.0;
    if (!(p > 0.0 && p < 1.0)) {
        return (double)NAN;
    }
    const double q = p - 0.5;
    if (fabs(q) <= vh_quantile_near_half_width) {
        return vh_quantile_near(q);
    }
    const double least_normal = 0x1p-1022; /* where vh_log begins */
    const double r = sqrt(-vh_log(vh_max(q < 0.0 ? p : 1.0 - p, least_normal)));
    const double z = r <= far_shift ? VH_POLYNOMIAL(middle_top, r - middle_shift) /
                                          VH_POLYNOMIAL(middle_below, r - middle_shift)
                                    : VH_POLYNOMIAL(far_top, r - far_shift) /
                                          VH_POLYNOMIAL(far_below, r - far_shift);
    return q < 0.0 ? -z : z;
}

double vh_mean(const double *x, size_t n)
{
    double sum = 0.0;

    for (size_t j = 0; j < n; j++)
        sum += x[j];
    return n > 0 ? sum / (double)n : VH_UNKNOWN;
}
