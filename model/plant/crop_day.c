#include "vh_day.h"

#include "vh_math_parts.h"

enum vh_status vh_fgp_init(const struct vh_crop *crop, struct vh_fgp *fgp)
{
    const struct vh_share_params *s = &crop->share;
    const struct vh_clock_params *c = &crop->clock;
    const bool by_mass = crop->fruit.pick_by == VH_PICK_BY_MASS; /* no ripening clock to ask */
    const double ref_d =
        by_mass ? 1.0 : vh_clock_days_to_ripe(c, s->fgp_ref_c, c->std_rad_mj_m2_d, c->std_truss);

    fgp->log_std_rad = vh_log(c->std_rad_mj_m2_d);
    fgp->upkeep_per_k = vh_upkeep_per_k(&crop->upkeep);
    fgp->low_c = s->fgp_low_c;
    fgp->step_c = (s->fgp_high_c - s->fgp_low_c) / VH_FGP_STEPS;
    for (int i = 0; by_mass && i <= VH_FGP_STEPS; i++)
        fgp->share[i] = 1.0;
    if (by_mass)
        return VH_OK;
    for (int i = 0; i <= VH_FGP_STEPS; i++) {
        const double t = fgp->low_c + i * fgp->step_c;
        fgp->share[i] = vh_clock_days_to_ripe(c, t, c->std_rad_mj_m2_d, c->std_truss) / ref_d;
        if (!(fgp->share[i] > 0.0))
            return VH_NO_NUMBER;
    }
    return VH_OK;
}

double vh_fgp_share(const struct vh_fgp *fgp, double temp_c)
{
    const double x = vh_clamp((temp_c - fgp->low_c) / fgp->step_c, 0.0, VH_FGP_STEPS);
    const int i = x >= VH_FGP_STEPS ? VH_FGP_STEPS - 1 : (int)x;
    return fgp->share[i] + (fgp->share[i + 1] - fgp->share[i]) * (x - i);
}

#define SECONDS_PER_HOUR 3600.0
#define UMOL_PER_MOL 1e6

/* Sums of T above four bases; below its floor an hour counts as that. */
enum { PLAIN, GROWTH, YOUNG, SUCKERS, WARMTHS };

struct hour_limits {
    double base_c[WARMTHS], floor_k[WARMTHS];
    double light_umol_m2_s, bees_low_c, bees_high_c;
};

struct hour_sums {
    double warm[WARMTHS];
    double hottest, light, light_t, dark_t, bees, light_hours;
};

/* Each sum in the order of the hours, the sums side by side; a 0 added changes none. What is counted
 * in whole hours, and the hottest, are the same in any order. */
VH_KERNEL void sum_hours(const struct hour_limits *limits, const double *t_c, const double *par,
                         struct hour_sums *out)
{
    const struct hour_limits l = *limits;
    struct hour_sums s = {.hottest = t_c[0]};
    double light_t[VH_DAY_HOURS], dark_t[VH_DAY_HOURS];
    double bees = 0.0, lit = 0.0, hottest = t_c[0];

#pragma omp simd reduction(+ : bees, lit) reduction(max : hottest)
    for (int h = 0; h < VH_DAY_HOURS; h++) {
        const bool light = par[h] > l.light_umol_m2_s;
        const bool flying = light & (t_c[h] >= l.bees_low_c) & (t_c[h] <= l.bees_high_c);
        light_t[h] = vh_select(light, t_c[h], 0.0);
        dark_t[h] = vh_select(light, 0.0, t_c[h]);
        lit += vh_select(light, 1.0, 0.0);
        bees += vh_select(flying, 1.0, 0.0);
        hottest = vh_max(hottest, t_c[h]);
    }
    for (int h = 0; h < VH_DAY_HOURS; h++) {
        VH_APART
        for (int k = 0; k < WARMTHS; k++) {
            const double over = t_c[h] - l.base_c[k];
            s.warm[k] += vh_select(over > l.floor_k[k], over, l.floor_k[k]);
        }
        s.light += par[h];
        s.light_t += light_t[h];
        s.dark_t += dark_t[h];
    }
    s.bees = bees;
    s.light_hours = lit;
    s.hottest = hottest;
    *out = s;
}

VH_WIDE static void sum_hours_wide(const struct hour_limits *l, const double *t_c,
                                   const double *par, struct hour_sums *out)
{
    sum_hours(l, t_c, par, out);
}

static struct hour_sums sums_of(const struct vh_crop *crop, const double *t_c, const double *par,
                                bool wide)
{
    const struct hour_limits limits = {
        .base_c = {0.0, crop->fruit.growth_base_c, crop->flower.abort_base_c, crop->sucker.base_c},
        .floor_k = {-VH_ENDLESS, 0.0, 0.0, 0.0},
        .light_umol_m2_s = crop->stem.light_hour_umol_m2_s,
        .bees_low_c = crop->flower.bees_low_c,
        .bees_high_c = crop->flower.bees_high_c};
    struct hour_sums s;

    if (wide)
        sum_hours_wide(&limits, t_c, par, &s);
    else
        sum_hours(&limits, t_c, par, &s);
    return s;
}

/* Most days are not hot. */
static double heat_mean(const double *t_c, double hottest_c, double from_c, double width_k)
{
    return hottest_c > from_c ? vh_clock_heat_mean(t_c, VH_DAY_HOURS, from_c, width_k) : 0.0;
}

void vh_day_init(struct vh_day *day, const struct vh_crop *crop, const struct vh_fgp *fgp,
                 const double *t_c, const double *par_umol_m2_s, const double *co2_ppm)
{
    const struct vh_clock_params *c = &crop->clock;
    const bool wide = vh_can_go_wide();
    const struct hour_sums s = sums_of(crop, t_c, par_umol_m2_s, wide);
    const double light_hours = s.light_hours, dark_hours = VH_DAY_HOURS - light_hours;
    const bool both = light_hours > 0.0 && dark_hours > 0.0;

    day->mean_c = s.warm[PLAIN] / VH_DAY_HOURS;
    day->dli_mol_m2_d = s.light * SECONDS_PER_HOUR / UMOL_PER_MOL;
    day->dif_k = both ? s.light_t / light_hours - s.dark_t / dark_hours : 0.0;
    day->clock_share = 1.0 - c->hot_slow * heat_mean(t_c, s.hottest, c->hot_from_c, c->hot_width_k);
    day->red_share =
        1.0 - heat_mean(t_c, s.hottest, c->red_from_c - c->fruit_over_air_k, c->red_width_k);
    day->upkeep_warmth = vh_upkeep_warmth(&crop->upkeep, fgp->upkeep_per_k, t_c, wide);
    day->sink_share = vh_clamp(
        (day->mean_c - crop->share.cold_from_c) / crop->share.cold_width_k + 1.0, 0.0, 1.0);
    day->growth_cd = s.warm[GROWTH] / VH_DAY_HOURS;
    day->growth_decay = vh_fruit_logistic_decay(&crop->fruit, day->growth_cd * day->sink_share);
    day->young_cd = s.warm[YOUNG] / VH_DAY_HOURS;
    day->sucker_cd = s.warm[SUCKERS] / VH_DAY_HOURS;
    day->bees_share = light_hours > 0.0 ? s.bees / light_hours : 0.0;
    day->fgp_share = vh_fgp_share(fgp, day->mean_c);
    day->std_rate_per_d = vh_clock_rate_per_d(c, 1.0, day->mean_c, fgp->log_std_rad, c->std_truss);

    day->pace = vh_clock_day_of(c, day->mean_c + c->fruit_over_air_k);
    vh_light_leaf_hours(&crop->light, t_c, par_umol_m2_s, co2_ppm, wide, &day->leaf);
}
