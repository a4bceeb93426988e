/* Ripe-picked fruit ages: its clock and its sums, and what it asks on its way. */
#include "vh_math_parts.h"
#include "vh_plant_state.h"

/* What lies in trusses of one stem, or in lanes, beside each other: see want_row. */
struct staged_rows {
    struct vh_clock_params clock;
    double breaker_stage;
    double first[VH_LANES], number[VH_LANES];
    double warmth[VH_LANES], warm_share[VH_LANES], cool_per_d[VH_LANES];
    double mean_c[VH_LANES], std_rate_per_d[VH_LANES], growth_cd[VH_LANES], young_cd[VH_LANES],
        clock_share[VH_LANES], red_share[VH_LANES], dli_mol_m2_d[VH_LANES], light[VH_LANES],
        fruit_pace[VH_LANES], potential_g[VH_LANES];
};

/* Stage gained in share `open` of today; from breaker on heat slows it further. */
VH_KERNEL double stage_gain(const struct staged_rows *d, size_t l, double number, double stage,
                            double log_rad, double open)
{
    const struct vh_clock_day pace = {d->warmth[l], d->warm_share[l], d->cool_per_d[l]};
    const double rate = vh_clock_rate_on(&d->clock, &pace, stage, log_rad, number) *
                        d->clock_share[l] * d->fruit_pace[l];
    const double gain = rate * open, to_breaker = d->breaker_stage - stage;
    const double plain = vh_max(to_breaker, 0.0);

    return vh_select(gain <= to_breaker, gain, plain + (gain - plain) * d->red_share[l]);
}

/* n trusses; those without fruit stay as they are. gain: stage gained; at: where on the curve of
 * growth they then stand. */
VH_KERNEL void age_row(const struct staged_rows *restrict d, const size_t n, const size_t by_number,
                       const size_t by_lane, const double *restrict fruits,
                       const double *restrict picked_share, const double *restrict stage,
                       double *restrict rad_sum, double *restrict rad_days,
                       double *restrict log_rad, double *restrict temp_sum,
                       double *restrict pace_sum, double *restrict age_d, double *restrict age_cd,
                       double *restrict young_cd, double *restrict kept_of_growth,
                       double *restrict gain)
{
    const struct vh_clock_params *c = &d->clock;
    const double shortest_d = 1e-9;

    VH_APART
    for (size_t i = 0; i < n; i++) {
        const size_t l = i * by_lane;
        const double number = d->number[i * by_number];
        const bool is_on = (fruits[i] > 0.0) & (picked_share[i] < 1.0) & (number >= d->first[l]);
        const bool counts = is_on & (rad_days[i] < c->rad_window_d);
        const double open = vh_select(age_d[i] < 0.0, 1.0 + age_d[i], 1.0);
        const double counted = vh_min(open, c->rad_window_d - rad_days[i]);
        const double sum = rad_sum[i] + counted * d->dli_mol_m2_d[l] * d->light[l] / c->mol_per_mj;
        const double days = rad_days[i] + counted;
        const double mean = vh_max(sum / vh_max(days, shortest_d), c->rad_least_mj_m2_d);
        const double logged = vh_select(counts, vh_log(mean), log_rad[i]);
        const double gained = stage_gain(d, l, number, stage[i], logged, open);
        const double warm = temp_sum[i] + open * d->mean_c[l];
        const double pace = pace_sum[i] + open * d->std_rate_per_d[l];
        const double age = vh_max(age_d[i], 0.0) + open, cd = age_cd[i] + open * d->growth_cd[l];
        const double young = young_cd[i] + open * d->young_cd[l];
        rad_sum[i] = vh_select(counts, sum, rad_sum[i]);
        rad_days[i] = vh_select(counts, days, rad_days[i]);
        log_rad[i] = logged;
        temp_sum[i] = vh_select(is_on, warm, temp_sum[i]);
        pace_sum[i] = vh_select(is_on, pace, pace_sum[i]);
        age_d[i] = vh_select(is_on, age, age_d[i]);
        age_cd[i] = vh_select(is_on, cd, age_cd[i]);
        young_cd[i] = vh_select(is_on, young, young_cd[i]);
        kept_of_growth[i] = vh_select(is_on, 1.0, kept_of_growth[i]);
        gain[i] = vh_select(is_on, gained, 0.0);
    }
}

VH_KERNEL void age_some(const struct staged_rows *d, struct vh_plant *p, size_t at, const size_t n,
                        const size_t by_number, const size_t by_lane)
{
    age_row(d, n, by_number, by_lane, p->fruits + at, p->picked_share + at, p->stage + at,
            p->rad_sum + at, p->rad_days + at, p->log_rad + at, p->temp_sum + at, p->pace_sum + at,
            p->age_d + at, p->age_cd + at, p->young_cd + at, p->kept_of_growth + at,
            p->stage_gain + at);
}

/* Lanes beside each other, a truss at a time; of one stem several trusses. */
VH_KERNEL void age_trusses(struct staged_rows *d, struct vh_plant *p, int first, int last,
                           const size_t lanes)
{
    const int at_once = lanes > 1 ? 1 : VH_SIDE;

    for (int t = first; t <= last; t += at_once) {
        vh_numbers(t, at_once, d->number);
        age_some(d, p, vh_row(t, lanes), lanes > 1 ? lanes : VH_SIDE, lanes > 1 ? 0 : 1,
                 lanes > 1 ? 1 : 0);
    }
}

/* When the first and the last fruit of a truss pass the stage of the pick, as real days. */
static void mark_ripe(struct vh_plant *p, size_t l, size_t i, double gain)
{
    const double first = p->setup.pick_stage - p->stage[i];

    if (gain < first) /* then no later fruit is ripe */
        return;
    const double last = first + vh_plant_behind(p, i) * (vh_plant_fruits_each(p, i) - 1.0);

    if (isnan(p->ripe_first_d[i]) && gain >= first)
        p->ripe_first_d[i] = p->days[l] + vh_clamp(first / gain, 0.0, 1.0);
    if (isnan(p->ripe_last_d[i]) && gain >= last)
        p->ripe_last_d[i] = p->days[l] + vh_clamp(last / gain, 0.0, 1.0);
}

/* A truss that is thinned today, between curve shares at0 and at1; on: what its fruits ask in all
 * their growth. */
static double thinned_demand_g(const struct vh_today *y, size_t l, size_t i, double gain, double on,
                               double at0, double at1)
{
    struct vh_plant *p = y->p;
    const double s0 = p->stage[i], s1 = s0 + gain, thin = p->thin_stage[i];

    if (p->kept[i] >= p->fruits[i] || s0 >= thin || s1 < thin)
        return on * (at1 - at0);
    const double at_thin = vh_fruit_curve_at(&p->tables->curve, thin);
    return vh_plant_thin(p, l, i, (thin - s0) / gain, on * (at_thin - at0), on * (at1 - at_thin));
}

/* What the fruits of truss t ask, which then reaches the stage of this evening. */
VH_KERNEL void ask_row(struct vh_today *y, const struct staged_rows *d, int t, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const struct vh_growth_curve *curve = &p->tables->curve;
    const double number = t, pick_stage = p->setup.pick_stage;
    const size_t at = vh_row(t, lanes);
    const double *gain = p->stage_gain + at, *fruits = p->fruits + at,
                 *picked_share = p->picked_share + at, *weights = p->weights + at,
                 *seeded = p->seeded + at, *kept = p->kept + at, *thin = p->thin_stage + at,
                 *last_d = p->ripe_last_d + at, *dm_g = p->dm_g + at;
    double *restrict stage = p->stage + at, *restrict grown_share = p->grown_share + at,
                     *restrict demand = p->demand_g + at;
    double x[VH_LANES], low[VH_LANES], high[VH_LANES], below[VH_LANES], on[VH_LANES], at1[VH_LANES],
        asks[VH_LANES], is_on[VH_LANES];
    uint64_t thins = 0, ripens = 0;

    VH_APART
    for (size_t l = 0; l < lanes; l++)
        x[l] = vh_clamp(stage[l] + gain[l], 0.0, 1.0) * VH_CURVE_STEPS;
    for (size_t l = 0; l < lanes; l++) {
        const int i = x[l] >= VH_CURVE_STEPS ? VH_CURVE_STEPS - 1 : (int)x[l];
        low[l] = curve->share[i];
        high[l] = curve->share[i + 1];
        below[l] = i;
    }
#pragma omp simd reduction(| : thins, ripens)
    for (size_t l = 0; l < lanes; l++) {
        const bool is = (fruits[l] > 0.0) & (picked_share[l] < 1.0) & (number >= d->first[l]);
        const double s0 = stage[l], s1 = s0 + gain[l];
        at1[l] = low[l] + (high[l] - low[l]) * (x[l] - below[l]);
        on[l] = d->potential_g[l] * seeded[l] * (1.0 - picked_share[l]) * weights[l];
        asks[l] = on[l] * (at1[l] - grown_share[l]);
        is_on[l] = vh_select(is, 1.0, 0.0);
        thins |= (uint64_t)(is & (kept[l] < fruits[l]) & (s0 < thin[l]) & (s1 >= thin[l]));
        ripens |= (uint64_t)(is & (gain[l] > 0.0) & (gain[l] >= pick_stage - s0) &
                             (last_d[l] != last_d[l]));
        y->fruit_dm_start_g[l] =
            vh_select(is, y->fruit_dm_start_g[l] + dm_g[l], y->fruit_dm_start_g[l]);
    }
    for (size_t l = 0; (thins | ripens) && l < lanes; l++) {
        if (is_on[l] <= 0.0)
            continue;
        asks[l] = thinned_demand_g(y, l, at + l, gain[l], on[l], grown_share[l], at1[l]);
        if (gain[l] > 0.0)
            mark_ripe(p, l, at + l, gain[l]);
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const bool is = is_on[l] > 0.0;
        const double now = stage[l] + gain[l], sum = y->fruit_demand_g[l] + asks[l];
        stage[l] = vh_select(is, now, stage[l]);
        grown_share[l] = vh_select(is, at1[l], grown_share[l]);
        demand[l] = vh_select(is, asks[l], 0.0);
        y->fruit_demand_g[l] = vh_select(is, sum, y->fruit_demand_g[l]);
    }
}

/* g DM of a fruit that has all it wants. */
VH_KERNEL void fill_potential(const struct vh_today *y, struct staged_rows *d, const size_t lanes)
{
    const struct vh_plant *p = y->p;
    const struct vh_fruit_params *f = &y->crop->fruit;

    VH_APART
    for (size_t l = 0; l < lanes; l++)
        d->potential_g[l] = f->mass_factor * p->setup.usual_fruit_g * f->dm_content_20 *
                            p->factors[l].fruit_mass * y->day[l]->fgp_share * y->sink_share[l];
}

VH_KERNEL void age_staged(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    struct staged_rows d = {.clock = y->crop->clock, .breaker_stage = p->setup.breaker_stage};
    const int first = vh_lowest(p->first_on, lanes), last = vh_highest(p->trusses, lanes);

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const struct vh_day *day = y->day[l];
        d.first[l] = p->first_on[l];
        d.warmth[l] = day->pace.warmth;
        d.warm_share[l] = day->pace.warm_share;
        d.cool_per_d[l] = day->pace.cool_per_d;
        d.clock_share[l] = day->clock_share;
        d.red_share[l] = day->red_share;
        d.fruit_pace[l] = p->factors[l].fruit_pace;
        d.mean_c[l] = y->mean_c[l];
        d.std_rate_per_d[l] = y->std_rate_per_d[l];
        d.growth_cd[l] = y->growth_cd[l];
        d.young_cd[l] = y->young_cd[l];
        d.dli_mol_m2_d[l] = y->dli_mol_m2_d[l];
        d.light[l] = y->light_factor[l];
    }
    fill_potential(y, &d, lanes);
    age_trusses(&d, p, first, last, lanes);
    for (int t = first; t <= last; t++)
        ask_row(y, &d, t, lanes);
}
VH_LANED(vh_plant_age_staged, age_staged);
