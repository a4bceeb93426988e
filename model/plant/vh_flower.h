/* vh_flower.h - how many flowers of a truss set fruit, and how young axil fruit is dropped.
 *
 *     set = set_max f_T f_poll f_supply,  kept = min(rule, flowers set)
 *     flowers = flowers of the type (usual fruit mass of the variety/of the type)^mass_exponent
 *
 * Smaller fruit hangs in larger numbers [assumed: our own types, 18 flowers at 20 g to 6 at 180 g].
 * f_T: piecewise linear in the weighted mean temperature of days -14..0 [adams2001; ends
 * vanthoor2011 after Sato 2000]; f_supply = min(1, mean of r on days -10..-4 / r0) [higashide2009,
 * bertin1995], or by a threshold of r [wubs2009b]: a flower sets where r is above it, rounded off
 * over `width` as 1/(1 + exp(-(r - threshold)/width)); abortion hazard by supply, fitted.
 */
#ifndef VH_FLOWER_H
#define VH_FLOWER_H

#include <stddef.h>

#include "vh_math_parts.h"

enum vh_set_heat_by { VH_SET_HEAT_BY_POLLEN, VH_SET_HEAT_BY_DAY };
enum vh_set_by { VH_SET_BY_SUPPLY, VH_SET_BY_THRESHOLD };

struct vh_flower_params {
    double flowers;       /* per truss or node */
    double mass_exponent; /* of them, by the usual fruit mass of the variety */
    double set_max;
    double unvisited_share;              /* p0: set without any pollination */
    int heat_by;                         /* enum vh_set_heat_by */
    double t1_c, t2_c, t3_c, t4_c, t5_c; /* corners of f_T */
    double f1, f2, f3, f4, f5;           /* its values there */
    double seeded_full, seeded_from, seeded_least,
        seeded_hot_from; /* potential mass by f_T: see vh_flower_seeded_share */
    double window_d;     /* days before the flower that count */
    double peak_d;       /* day before the flower with the greatest weight */
    double before_d,
        after_d; /* the weight falls to 0 over so many days on either side of the peak */
    int set_by;  /* enum vh_set_by: how supply acts on set */
    double set_threshold,
        set_width;      /* set_by threshold: half of the flowers set at this r; width of the step */
    double supply_full; /* r0 */
    double supply_from_d, supply_to_d; /* days before the flower */
    double day_full_c, day_least_c,
        day_least; /* heat_by day: 1 up to full, falling to `least` at least_c, held */
    double abort_per_cd, abort_mid, abort_width; /* hazard = per_cd / (1 + exp((r5 - mid)/width)) */
    double abort_base_c, abort_for_cd;
    double abort_window_d;
    double receptive_d;             /* days a flower waits for a visit */
    double bees_low_c, bees_high_c; /* bees fly between these */
    double bees_small_share; /* of flowers reached where fewer than bees_small_plants stand */
    double bees_small_plants;
};

/* Weights of the days up to the flower's by how many days before it they lie; the same for all
 * flowers of a crop, so worked out once. 0 outside from .. until - 1. */
#define VH_POLLEN_DAYS 32
struct vh_pollen {
    size_t from, until;
    double weight[VH_POLLEN_DAYS], sum;
};
void vh_pollen_init(const struct vh_flower_params *p, struct vh_pollen *pollen);
double vh_pollen_mean_c(const struct vh_pollen *pollen, const double *mean_c, size_t n);
/* Weighted mean of the days up to the flower's. mean_c[0] is the flower's day, mean_c[k] k days
 * before; n >= 1 known days (days before the record take the oldest known). degC. */
double vh_flower_pollen_mean_c(const struct vh_flower_params *p, const double *mean_c, size_t n);
/* f_T of that mean, 0..1. */
VH_KERNEL double vh_flower_temperature_share(const struct vh_flower_params *p, double c)
{
    const bool in_2 = c > p->t2_c, in_3 = c > p->t3_c, in_4 = c > p->t4_c;
    const double x0 =
        vh_select(in_4, p->t4_c, vh_select(in_3, p->t3_c, vh_select(in_2, p->t2_c, p->t1_c)));
    const double x1 =
        vh_select(in_4, p->t5_c, vh_select(in_3, p->t4_c, vh_select(in_2, p->t3_c, p->t2_c)));
    const double y0 = vh_select(in_4, p->f4, vh_select(in_3, p->f3, vh_select(in_2, p->f2, p->f1)));
    const double y1 = vh_select(in_4, p->f5, vh_select(in_3, p->f4, vh_select(in_2, p->f3, p->f2)));
    const double along = y0 + (y1 - y0) * (c - x0) / (x1 - x0);

    return vh_select(c <= p->t1_c, p->f1, vh_select(c <= p->t5_c, along, p->f5));
}
/* Potential mass of a fruit whose flower set at share f_t of the best by its pollen, at a mean of c
 * degC: few seeds make small fruit [adams2001]. 1 from seeded_full on, along a line to seeded_least
 * at f_t = seeded_from, in heat (above t3_c) at seeded_hot_from; held below. */
VH_KERNEL double vh_flower_seeded_share(const struct vh_flower_params *p, double f_t, double c)
{
    const bool is_hot = c > p->t3_c;
    const double from = vh_select(is_hot, p->seeded_hot_from, p->seeded_from);
    const double poor = vh_clamp((p->seeded_full - f_t) / (p->seeded_full - from), 0.0, 1.0);

    return 1.0 - (1.0 - p->seeded_least) * poor;
}
/* Heat on the flower's day, axil crops, 0..1. */
VH_KERNEL double vh_flower_day_share(const struct vh_flower_params *p, double mean_c)
{
    const double hot =
        vh_clamp((mean_c - p->day_full_c) / (p->day_least_c - p->day_full_c), 0.0, 1.0);

    return 1.0 - (1.0 - p->day_least) * hot;
}
/* Flowers of a variety, and what is kept of them, over those of its type; mass_share: its usual
 * fruit mass over the type's, > 0. */
double vh_flower_many(const struct vh_flower_params *p, double mass_share);
/* Share of flowers that visits `between_d` days apart reach: min(1, receptive/between); 0 for
 * INFINITY. */
double vh_flower_visited_share(const struct vh_flower_params *p, double between_d);
/* f_supply: min(1, r/r0), or the step at the threshold. */
VH_KERNEL double vh_flower_supply_step(const struct vh_flower_params *p, double mean_r)
{
    return 1.0 / (1.0 + vh_exp((p->set_threshold - mean_r) /
                               p->set_width)); /* wubs2009b, the step rounded off */
}
VH_KERNEL double vh_flower_supply_line(const struct vh_flower_params *p, double mean_r)
{
    return vh_min(1.0, mean_r / p->supply_full);
}
VH_KERNEL double vh_flower_supply_share(const struct vh_flower_params *p, double mean_r)
{
    return p->set_by == VH_SET_BY_THRESHOLD ? vh_flower_supply_step(p, mean_r)
                                            : vh_flower_supply_line(p, mean_r);
}
/* Of young fruit at the five-day mean supply r5, per degree-day: exp(-hazard cd) of it stays. */
VH_KERNEL double vh_flower_drop_hazard(const struct vh_flower_params *p, double r5)
{
    return p->abort_per_cd / (1.0 + vh_exp((r5 - p->abort_mid) / p->abort_width));
}

#endif
