/* vh_math.h - our own exp, log, sin, cos, acos, normal distribution and its quantile: the same bits
 * in every build.
 *
 * Plain + - x / sqrt and integer steps only, so that results do not hang on the C library. Errors
 * against 113-bit arithmetic are stated at each function and tested. All are inline where the daily
 * step uses them.
 */
#ifndef VH_MATH_H
#define VH_MATH_H

#include <stddef.h>

#include <math.h>
#include <stdint.h>
#include <string.h>

#define VH_PI 0x1.921fb54442d18p+1
#define VH_UNKNOWN ((double)NAN) /* NAN and INFINITY are floats: said once as doubles */
#define VH_ENDLESS ((double)INFINITY)

static inline double vh_min(double a, double b)
{
    return a < b ? a : b;
}
static inline double vh_max(double a, double b)
{
    return a > b ? a : b;
}
static inline double vh_clamp(double x, double low, double high)
{
    return x < low ? low : x > high ? high : x;
}

/* e^x for |x| <= 700. Coefficients: own interpolation at Chebyshev nodes. */
static inline double vh_exp_within(double x)
{
    double t = x * 0x1.71547652b82fep+0 + 0x1.8p52;
    uint64_t u;
    memcpy(&u, &t, 8);
    const double k = t - 0x1.8p52;
    const double r = (x - k * 0x1.62e42feep-1) - k * 0x1.a39ef35793c76p-33;
    double p = 0x1.af389ecfc4b9cp-26;
    p = p * r + 0x1.28917c89a43a7p-22;
    p = p * r + 0x1.71de0db2f6b19p-19;
    p = p * r + 0x1.a019b9149a41cp-16;
    p = p * r + 0x1.a01a01a7c2efep-13;
    p = p * r + 0x1.6c16c17889ef1p-10;
    p = p * r + 0x1.11111111109b5p-7;
    p = p * r + 0x1.5555555553d68p-5;
    p = p * r + 0x1.5555555555556p-3;
    p = p * r + 0.5;
    p = p * (r * r) + r + 1.0;
    u = (u << 52) + 0x3ff0000000000000u;
    double s;
    memcpy(&s, &u, 8);
    return p * s;
}

/* e^x, x clamped to +-700; NaN stays NaN; at most 1.2 ulp. */
static inline double vh_exp(double x)
{
    x = x > 700.0 ? 700.0 : x;
    x = x < -700.0 ? -700.0 : x;
    return vh_exp_within(x);
}

/* log x for normal positive x only: the caller checks; at most 0.9 ulp. */
static inline double vh_log(double x)
{
    uint64_t u;
    memcpy(&u, &x, 8);
    const uint64_t e = (u - 0x3fe6a09e667f3bcdu + 0x4000000000000000u) >> 52;
    const uint64_t m = u - ((e - 1024) << 52);
    const uint64_t kb = e | 0x4330000000000000u;
    double f, k;
    memcpy(&f, &m, 8);
    f -= 1.0;
    memcpy(&k, &kb, 8);
    k -= 0x1p52 + 1024.0;
    const double s = f / (2.0 + f), z = s * s, h = 0.5 * f * f;
    double q = 0x1.2b584aae78a57p-3;
    q = q * z + 0x1.39fe606542ddep-3;
    q = q * z + 0x1.7462b4ab2ef6bp-3;
    q = q * z + 0x1.c71c62e5800a1p-3;
    q = q * z + 0x1.2492492df148dp-2;
    q = q * z + 0x1.99999999952e2p-2;
    q = q * z + 0x1.5555555555558p-1;
    return k * 0x1.62e42feep-1 - ((h - (s * (h + q * z) + k * 0x1.a39ef35793c76p-33)) - f);
}

/* x^y for normal positive x. */
static inline double vh_pow(double x, double y)
{
    return vh_exp(y * vh_log(x));
}

double vh_sin(double x);  /* |x| <= 1e6, else NaN; at most 0.8 ulp */
double vh_cos(double x);  /* |x| <= 1e6, else NaN; at most 0.8 ulp */
double vh_acos(double x); /* clamped to -1..1; at most 1.2 ulp; NaN stays NaN */
/* Standard normal distribution; absolute error below 1e-15, relative below 1e-15 down to x = -37.4,
 * where it ends in 0. */
double vh_normal_cdf(double x);
/* Its inverse for 0 < p < 1, NaN outside; relative error below 1e-15. p below 2^-1022 counts as
 * 2^-1022. */
double vh_normal_quantile(double p);

/* Mean of x[n], summed in their order; NaN of none. */
double vh_mean(const double *x, size_t n);

#endif
