/* vh_clock.h - how fast a fruit goes from open flower (stage 0) to light red (stage 1), and its
 * colour stages.
 *
 *     ds/dt = a + b log(RAD) + c N + log(T/20) (c0 + c1 s + c2 s^2 + c3 s^3)      17-27 degC
 *                                                           [tap2000 after dekoning1994]
 *     ds/dt = cool_a + cool_b T                                                   below 15 degC
 *                                                           [own fit to adams2001]
 *
 * T 24-hour mean, degC; RAD inside global radiation, MJ m-2 d-1; N truss number. Between blend_c
 * and low_c the two are blended linearly; above high_c the rate is held. Hours above hot_c slow
 * every clock.
 */
#ifndef VH_CLOCK_H
#define VH_CLOCK_H

#include <stddef.h>

#include "vh_math_parts.h"

struct vh_clock_params {
    double a_per_d, rad_per_d, truss_per_d;
    double ref_c;
    double c0_per_d, c1_per_d, c2_per_d, c3_per_d;
    double low_c, high_c, blend_c;
    double cool_a_per_d, cool_b_per_d;
    double mol_per_mj; /* daily mol of PAR per MJ of global radiation inside */
    double rad_least_mj_m2_d;
    double rad_window_d;               /* light since anthesis counts up to this age */
    double std_rad_mj_m2_d, std_truss; /* where potential growth is reckoned */
    double hot_slow, hot_from_c,
        hot_width_k; /* clocks slowed by hot_slow x mean of clamp((T - from)/width, 0, 1) */
    double red_from_c,
        red_width_k;         /* from breaker on: x (1 - mean of clamp((T - from)/width, 0, 1)) */
    double fruit_over_air_k; /* fruit temperature above air */
    double scatter_stage;    /* between plants: standard deviation of s at the pick */
    double scatter_first;    /* the same on the first truss, where plants are still even */
    double scatter_trusses;  /* trusses on which the scatter grows from first to stage */
    double last_fruit_d;     /* how much later each further fruit of a truss ripens, d */
};

/* Stage gained in a day, d-1, never below 0; s is held at 1 beyond it. log_rad = log of RAD. */
double vh_clock_rate_per_d(const struct vh_clock_params *p, double s, double temp_c, double log_rad,
                           double truss);
/* What the warmth of a day comes to for all fruits: log(T/20), the share of the warm form, and what
 * the cool form adds. */
struct vh_clock_day {
    double warmth, warm_share, cool_per_d;
};
VH_KERNEL struct vh_clock_day vh_clock_day_of(const struct vh_clock_params *p, double temp_c)
{
    const double cool = p->cool_a_per_d + p->cool_b_per_d * temp_c;
    const double blend = (temp_c - p->blend_c) / (p->low_c - p->blend_c);
    const double warm_share =
        vh_select(temp_c >= p->low_c, 1.0, vh_select(temp_c <= p->blend_c, 0.0, blend));
    const double warmth = vh_log(vh_min(temp_c, p->high_c) / p->ref_c); /* thrown away below 0 */

    return (struct vh_clock_day){vh_select(temp_c > p->blend_c, warmth, 0.0), warm_share,
                                 (1.0 - warm_share) * cool};
}
/* The same where many fruits are asked of one day, side by side. */
VH_KERNEL double vh_clock_rate_on(const struct vh_clock_params *p, const struct vh_clock_day *day,
                                  double s, double log_rad, double truss)
{
    const double stage = vh_select(s < 0.0, 0.0, vh_select(s > 1.0, 1.0, s));
    const double poly =
        p->c0_per_d + stage * (p->c1_per_d + stage * (p->c2_per_d + stage * p->c3_per_d));
    const double warm =
        p->a_per_d + p->rad_per_d * log_rad + p->truss_per_d * truss + day->warmth * poly;
    const double rate = day->warm_share * warm + day->cool_per_d;

    return vh_select(rate > 0.0, rate, 0.0);
}
/* Days from open flower to stage 1 at constant temp_c, standard light and truss, by GSL quadrature
 * of 1/rate; NaN if it never ripens. */
double vh_clock_days_to_ripe(const struct vh_clock_params *p, double temp_c, double rad_mj_m2_d,
                             double truss);

/* Standard deviation of s between plants on a truss, 1 the lowest. Its square grows evenly with the
 * truss, as if each truss strayed by itself from the one before, until scatter_trusses on. */
double vh_clock_scatter(const struct vh_clock_params *p, double truss);

/* Share by which the heat of an hour slows truss and ripening clocks; a day has the mean of its
 * hours. */
VH_KERNEL double vh_clock_heat(double t_c, double from_c, double width_k)
{
    return vh_clamp((t_c - from_c) / width_k, 0.0, 1.0);
}

/* Stage of each colour; params/colour-stages.csv. */
struct vh_colours {
    double breaker, turning, pink, light_red, red;
};

#endif
