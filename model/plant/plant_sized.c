/* Size-picked fruit ages and grows: the exact logistic step of its own mass. */
#include "vh_math_parts.h"
#include "vh_plant_state.h"

/* What lies in trusses of one stem, or in lanes, beside each other: see want_row. */
struct sized_rows {
    struct vh_fruit_params fruit;
    double feed;
    double first[VH_LANES], number[VH_LANES];
    double mean_c[VH_LANES], std_rate_per_d[VH_LANES], growth_cd[VH_LANES], young_cd[VH_LANES],
        decay[VH_LANES], mass_factor[VH_LANES];
};

/* vh_fruit_dm_content without branches. */
VH_KERNEL double dm_content(const struct sized_rows *d, double mean_c)
{
    const struct vh_fruit_params *f = &d->fruit;
    const double below_k =
        vh_select(mean_c < f->dm_content_cool_c, mean_c - f->dm_content_cool_c, 0.0);
    const double warmth = 1.0 + f->dm_content_per_k * (mean_c - f->dm_content_ref_c) +
                          f->dm_content_cool_per_k * below_k;
    const double most = vh_select(warmth > f->dm_content_high, f->dm_content_high, warmth);

    return f->dm_content_20 * vh_select(warmth < f->dm_content_low, f->dm_content_low, most) *
           d->feed;
}

/* n trusses; those without fruit stay as they are. grown_g: what their fruits would grow by if none
 * were thinned, g DM. */
VH_KERNEL void age_row(const struct sized_rows *restrict d, const size_t n, const size_t by_number,
                       const size_t by_lane, const double *restrict fruits,
                       const double *restrict picked_share, const double *restrict dm_g,
                       double *restrict temp_sum, double *restrict pace_sum, double *restrict age_d,
                       double *restrict age_cd, double *restrict young_cd,
                       double *restrict content_g_g, double *restrict kept_of_growth,
                       double *restrict grown_g)
{
    const struct vh_fruit_params *f = &d->fruit;

    VH_APART
    for (size_t i = 0; i < n; i++) {
        const size_t l = i * by_lane;
        const bool is_on =
            (fruits[i] > 0.0) & (picked_share[i] < 1.0) & (d->number[i * by_number] >= d->first[l]);
        const double open = vh_select(age_d[i] < 0.0, 1.0 + age_d[i], 1.0);
        const double days = vh_max(age_d[i], 0.0) + open, warm = temp_sum[i] + open * d->mean_c[l];
        const double mean_c = vh_select(days > 0.0, warm / days, f->dm_content_ref_c);
        const double content = dm_content(d, mean_c), on = fruits[i] * (1.0 - picked_share[i]);
        const double w = vh_select(on > 0.0, dm_g[i] / (on * content), 0.0);
        const double to_g =
            f->cap_g / (1.0 + (f->cap_g / vh_max(w, f->start_g) - 1.0) * d->decay[l]);
        const double asks = content * on * open * d->mass_factor[l];
        const double grown = vh_max(0.0, to_g - w) * asks;
        const double pace = pace_sum[i] + open * d->std_rate_per_d[l];
        const double cd = age_cd[i] + open * d->growth_cd[l],
                     young = young_cd[i] + open * d->young_cd[l];
        temp_sum[i] = vh_select(is_on, warm, temp_sum[i]);
        pace_sum[i] = vh_select(is_on, pace, pace_sum[i]);
        age_d[i] = vh_select(is_on, days, age_d[i]);
        age_cd[i] = vh_select(is_on, cd, age_cd[i]);
        young_cd[i] = vh_select(is_on, young, young_cd[i]);
        content_g_g[i] = vh_select(is_on, content, content_g_g[i]);
        kept_of_growth[i] = vh_select(is_on, 1.0, kept_of_growth[i]);
        grown_g[i] = vh_select(is_on, grown, 0.0);
    }
}

VH_KERNEL void age_some(const struct sized_rows *d, struct vh_plant *p, size_t at, const size_t n,
                        const size_t by_number, const size_t by_lane)
{
    age_row(d, n, by_number, by_lane, p->fruits + at, p->picked_share + at, p->dm_g + at,
            p->temp_sum + at, p->pace_sum + at, p->age_d + at, p->age_cd + at, p->young_cd + at,
            p->dm_content + at, p->kept_of_growth + at, p->demand_g + at);
}

/* Lanes beside each other, a truss at a time; of one stem several trusses. */
VH_KERNEL void age_trusses(struct sized_rows *d, struct vh_plant *p, int first, int last,
                           const size_t lanes)
{
    const int at_once = lanes > 1 ? 1 : VH_SIDE;

    for (int t = first; t <= last; t += at_once) {
        vh_numbers(t, at_once, d->number);
        age_some(d, p, vh_row(t, lanes), lanes > 1 ? lanes : VH_SIDE, lanes > 1 ? 0 : 1,
                 lanes > 1 ? 1 : 0);
    }
}

/* What the fruits of a node ask today, g DM, of which `grown` is what they grow by. Thinning comes
 * at its share of the oldest age, whatever they weigh: so results move smoothly. */
static double demand_g(const struct vh_today *y, size_t l, size_t i, double grown)
{
    struct vh_plant *p = y->p;
    const double open = vh_min(p->age_d[i], 1.0); /* share of today */
    const double age1 = p->age_cd[i], age0 = age1 - open * y->growth_cd[l],
                 thin = p->thin_stage[i] * y->crop->fruit.oldest_cd;

    if (age0 >= thin || age1 < thin)
        return grown;
    const double at = (thin - age0) / (age1 - age0);
    return vh_plant_thin(p, l, i, at, at * grown, (1.0 - at) * grown);
}

VH_KERNEL void age_sized(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const struct vh_fruit_params *f = &y->crop->fruit;
    struct sized_rows d = {.fruit = *f,
                           .feed = 1.0 + f->dm_content_per_ec *
                                             (p->setup.feed_ec_ms_cm - f->ec_ref_ms_cm)};
    const int first = vh_lowest(p->first_on, lanes), last = vh_highest(p->trusses, lanes);

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        d.first[l] = p->first_on[l];
        d.mean_c[l] = y->mean_c[l];
        d.std_rate_per_d[l] = y->std_rate_per_d[l];
        d.growth_cd[l] = y->growth_cd[l];
        d.young_cd[l] = y->young_cd[l];
        d.decay[l] = y->growth_decay[l];
        d.mass_factor[l] = p->factors[l].fruit_mass;
    }
    age_trusses(&d, p, first, last, lanes);
    for (int t = first; t <= last; t++) {
        const double number = t;
        const size_t at = vh_row(t, lanes);
        double *restrict demand = p->demand_g + at;
        const double *kept = p->kept + at, *fruits = p->fruits + at, *dm_g = p->dm_g + at,
                     *picked_share = p->picked_share + at;
        double on_g[VH_LANES];
        uint64_t thins = 0;
#pragma omp simd reduction(| : thins)
        for (size_t l = 0; l < lanes; l++) {
            const bool is_on = (fruits[l] > 0.0) & (picked_share[l] < 1.0) & (number >= d.first[l]);
            on_g[l] = vh_select(is_on, dm_g[l], 0.0);
            thins |= (uint64_t)(is_on & (kept[l] < fruits[l]));
        }
        for (size_t l = 0; thins && l < lanes; l++)
            if (number >= d.first[l] && picked_share[l] < 1.0 && kept[l] < fruits[l])
                demand[l] = demand_g(y, l, at + l, demand[l]);
        VH_APART
        for (size_t l = 0; l < lanes; l++) {
            y->fruit_dm_start_g[l] += on_g[l];
            y->fruit_demand_g[l] += demand[l];
        }
    }
}
VH_LANED(vh_plant_age_sized, age_sized);

/* What may drop, and what of it stays. */
VH_KERNEL void drop_young(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const struct vh_flower_params f = y->crop->flower;
    const int window = (int)f.abort_window_d, first = vh_lowest(p->first_on, lanes);
    double before[VH_LANES], r5[VH_LANES], hazard[VH_LANES], from[VH_LANES], to[VH_LANES];

    if (f.abort_per_cd <= 0.0)
        return;
    vh_ring_means(p, p->ratio_ring, lanes, window - 1, 1, y->ratio, before);
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const int known = p->days[l] < window - 1 ? p->days[l] : window - 1;
        r5[l] = (before[l] * known + y->ratio[l]) / (known + 1);
        from[l] = p->first_on[l];
        to[l] = p->trusses[l];
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++)
        hazard[l] = vh_flower_drop_hazard(&f, r5[l]);
    for (int t = vh_highest(p->trusses, lanes); t >= first; t--) {
        const size_t at = vh_row(t, lanes);
        const double number = t, *age_d = p->age_d + at, *age = p->young_cd + at;
        double *restrict aborted = p->aborted + at, *restrict fruits = p->fruits + at,
                         *restrict kept = p->kept + at, *restrict weights = p->weights + at,
                         *restrict dm_g = p->dm_g + at;
        uint64_t looked = 0;
#pragma omp simd reduction(| : looked)
        for (size_t l = 0; l < lanes; l++) {
            const double passed = y->young_cd[l] * vh_min(age_d[l], 1.0);
            const double left = f.abort_for_cd - (age[l] - passed);
            const double x = vh_min(passed, left);
            const bool is_in = (number >= from[l]) & (number <= to[l]);
            const bool is_old = is_in & (x <= 0.0) & (age[l] > f.abort_for_cd + passed);
            const bool falls = is_in & (x > 0.0) & (fruits[l] > 0.0);
            const double stays = vh_exp(-hazard[l] * x);
            const double stay = vh_select(falls, stays, 1.0);
            const double gone = aborted[l] + fruits[l] * (1.0 - stay);
            aborted[l] = vh_select(falls, gone, aborted[l]);
            /* thinning still to come leaves as much less */
            kept[l] = vh_select(kept[l] < fruits[l], kept[l] * stay, kept[l]);
            fruits[l] *= stay;
            weights[l] *= stay;
            dm_g[l] *= stay;
            from[l] = vh_select(is_old, number + 1.0, from[l]); /* all below are older */
            looked |= (uint64_t)(from[l] < number);
        }
        if (!looked)
            break;
    }
}
VH_LANED(vh_plant_drop_young, drop_young);
