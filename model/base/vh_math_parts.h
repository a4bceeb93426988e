/* vh_math_parts.h - the pieces that our own functions are made of, and the sine without branches;
 * for base/ and for loops that are laid side by side (vh_wide.h).
 */
#ifndef VH_MATH_PARTS_H
#define VH_MATH_PARTS_H

#include <stddef.h>

#include "vh_math.h"
#include "vh_wide.h"

/* Sum of c[i] x^i, i = 0 .. n - 1. */
VH_KERNEL double vh_polynomial(const double *c, size_t n, double x)
{
    double sum = c[n - 1];
    for (size_t i = n - 1; i-- > 0;) {
        sum = sum * x + c[i];
    }
    return sum;
}

#define VH_POLYNOMIAL(c, x) vh_polynomial(c, sizeof(c) / sizeof *(c), x)

/* ---- sine, cosine: own interpolation at Chebyshev nodes in r^2, |r| <= pi/4, in 60-digit
 * arithmetic ---- */

static const double vh_sine_terms[7] = {
    /* (sin r / r - 1) / r^2; relative error 7e-20 */
    -0x1.5555555555555p-3,  0x1.1111111111110p-7,  -0x1.a01a01a019937p-13, 0x1.71de3a54607a5p-19,
    -0x1.ae64541295cdfp-26, 0x1.61217ee5cca1bp-33, -0x1.ab17bdcbd3414p-41,
};
static const double vh_cosine_terms[7] = {
    /* (cos r - 1 + r^2 / 2) / r^4; relative error 2e-20 */
    0x1.5555555555555p-5,  -0x1.6c16c16c16c16p-10, 0x1.a01a01a019d0ap-16, -0x1.27e4fb7712ca2p-22,
    0x1.1eed8deb82809p-29, -0x1.9394b9eb4d56dp-37, 0x1.ab78473be59d7p-45,
};

struct vh_angle {
    double r, low;
    uint64_t quarter;
}; /* x = quarter pi/2 + r + low; of quarter the last two bits count */

/* a - b rounded; *low takes what the rounding lost, exactly. */
VH_KERNEL double vh_difference(double a, double b, double *low)
{
    const double d = a - b, back = d - a;
    *low = (a - (d - back)) - (b + back);
    return d;
}

/* pi/2 in pieces of 33 bits, so that k times a piece is exact for |k| < 2^20; the last piece
 * has 53. */
VH_KERNEL struct vh_angle vh_reduce(double x)
{
    const double shift = 0x1.8p52;
    const double t = x * 0x1.45f306dc9c883p-1 + shift, k = t - shift;
    double low1, low2;
    const double first =
        vh_difference(x - k * 0x1.921fb54400000p+0, k * 0x1.0b4611a600000p-34, &low1);
    const double second = vh_difference(first, k * 0x1.3198a2e000000p-69, &low2);
    const double low = (low1 + low2) - k * 0x1.b839a252049c1p-104;
    struct vh_angle a;
    a.r = second + low;
    a.low = (second - a.r) + low;
    memcpy(&a.quarter, &t, 8); /* k stands in the last bits of t */
    return a;
}

VH_KERNEL double vh_sine_near_0(struct vh_angle a)
{
    const double z = a.r * a.r;
    return a.r + (a.low * (1.0 - 0.5 * z) + a.r * z * VH_POLYNOMIAL(vh_sine_terms, z));
}

VH_KERNEL double vh_cosine_near_0(struct vh_angle a)
{
    const double z = a.r * a.r, half = 0.5 * z, first = 1.0 - half;
    return first +
           (((1.0 - first) - half) + (z * z * VH_POLYNOMIAL(vh_cosine_terms, z) - a.r * a.low));
}

/* ---- quantile of the normal distribution ---- */

/* Wichura 1988, Applied Statistics 37:477-484, algorithm AS 241, PPND16: numerators and
 * denominators of its three ranges. Coefficients from memory; tested against 50-digit values and
 * against another library. */
static const double vh_near_top[8] = {
    3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3,
    1.3731693765509461125e4, 4.5921953931549871457e4, 6.7265770927008700853e4,
    3.3430575583588128105e4, 2.5090809287301226727e3,
};
static const double vh_near_below[8] = {
    1.0,
    4.2313330701600911252e1,
    6.8718700749205790830e2,
    5.3941960214247511077e3,
    2.1213794301586595867e4,
    3.9307895800092710610e4,
    2.8729085735721942674e4,
    5.2264952788528545610e3,
};
/* At 0.5 + q, |q| at most that. */
static const double vh_quantile_near_half_width = 0.425;
VH_KERNEL double vh_quantile_near(double q)
{
    const double shift = 0.180625, r = shift - q * q;

    return q * VH_POLYNOMIAL(vh_near_top, r) / VH_POLYNOMIAL(vh_near_below, r);
}

/* yes where it holds, else no. In a loop that is laid side by side both are worked out; elsewhere
 * the compiler may make a branch of it. */
VH_KERNEL double vh_select(bool holds, double yes, double no)
{
    return holds ? yes : no;
}

/* vh_sin without branches, for |x| <= 1e6. */
VH_KERNEL double vh_sin_straight(double x)
{
    const struct vh_angle a = vh_reduce(x);
    const double sine = vh_sine_near_0(a), cosine = vh_cosine_near_0(a);
    double y = vh_select((a.quarter & 1) != 0, cosine, sine);
    uint64_t bits;

    memcpy(&bits, &y, 8);
    bits ^= (a.quarter & 2) << 62; /* the sign */
    memcpy(&y, &bits, 8);
    return y;
}

#endif
