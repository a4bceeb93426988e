/* Size-picked fruit ages and grows: the exact logistic step of its own mass, truss beside truss. */
#include "vh_math_parts.h"
#include "vh_plant_state.h"

/* What all trusses have in common today. */
struct sized_day {
    struct vh_fruit_params fruit;
    double mean_c, std_rate_per_d, growth_cd, young_cd, decay, mass_factor, feed;
};

VH_KERNEL double larger(double a, double b)
{
    return vh_select(a > b, a, b);
}

/* vh_fruit_dm_content without branches. */
VH_KERNEL double dm_content(const struct sized_day *d, double mean_c)
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

/* n trusses; those without fruit stay as they are. */
VH_KERNEL void age_row(const struct sized_day *d, size_t n, const double *restrict fruits,
                       const double *restrict picked_share, const double *restrict dm_g,
                       double *restrict temp_sum, double *restrict pace_sum, double *restrict age_d,
                       double *restrict age_cd, double *restrict young_cd,
                       double *restrict content_g_g, double *restrict kept_of_growth,
                       double *restrict grown_g)
{
    const struct vh_fruit_params *f = &d->fruit;

    for (size_t i = 0; i < n; i++) {
        const bool is_on = (fruits[i] > 0.0) & (picked_share[i] < 1.0);
        const double open = vh_select(age_d[i] < 0.0, 1.0 + age_d[i], 1.0);
        const double days = larger(age_d[i], 0.0) + open, warm = temp_sum[i] + open * d->mean_c;
        const double mean_c = vh_select(days > 0.0, warm / days, f->dm_content_ref_c);
        const double content = dm_content(d, mean_c), on = fruits[i] * (1.0 - picked_share[i]);
        const double w = vh_select(on > 0.0, dm_g[i] / (on * content), 0.0);
        const double to_g = f->cap_g / (1.0 + (f->cap_g / larger(w, f->start_g) - 1.0) * d->decay);
        const double asks = content * on * open * d->mass_factor;
        const double pace = pace_sum[i] + open * d->std_rate_per_d;
        const double cd = age_cd[i] + open * d->growth_cd, young = young_cd[i] + open * d->young_cd;
        temp_sum[i] = vh_select(is_on, warm, temp_sum[i]);
        pace_sum[i] = vh_select(is_on, pace, pace_sum[i]);
        age_d[i] = vh_select(is_on, days, age_d[i]);
        age_cd[i] = vh_select(is_on, cd, age_cd[i]);
        young_cd[i] = vh_select(is_on, young, young_cd[i]);
        content_g_g[i] = vh_select(is_on, content, content_g_g[i]);
        kept_of_growth[i] = vh_select(is_on, 1.0, kept_of_growth[i]);
        grown_g[i] = larger(0.0, to_g - w) * asks;
    }
}

VH_KERNEL void age_some(const struct sized_day *d, struct vh_plant *p, size_t at, size_t n)
{
    age_row(d, n, p->fruits + at, p->picked_share + at, p->dm_g + at, p->temp_sum + at,
            p->pace_sum + at, p->age_d + at, p->age_cd + at, p->young_cd + at, p->dm_content + at,
            p->kept_of_growth + at, p->demand_g + at);
}

/* Whole turns, so that nothing is left over for a second loop. */
VH_WIDE static void age_wide(const struct sized_day *d, struct vh_plant *p, size_t at, size_t turns)
{
    age_some(d, p, at, turns * VH_SIDE);
}

static void age_plain(const struct sized_day *d, struct vh_plant *p, size_t at, size_t turns)
{
    age_some(d, p, at, turns * VH_SIDE);
}

void vh_plant_age_sized(struct vh_plant *p, size_t lane, const struct vh_day *day)
{
    const struct vh_fruit_params *f = &p->setup.crop->fruit;
    const struct sized_day d = {.fruit = *f,
                                .mean_c = day->mean_c,
                                .std_rate_per_d = day->std_rate_per_d,
                                .growth_cd = day->growth_cd,
                                .young_cd = day->young_cd,
                                .decay = day->growth_decay,
                                .mass_factor = p->factors[lane].fruit_mass,
                                .feed = 1.0 + f->dm_content_per_ec *
                                                  (p->setup.feed_ec_ms_cm - f->ec_ref_ms_cm)};
    const int first = p->first_on[lane], last = p->trusses[lane];

    if (p->lanes == 1 && last >= first) {
        (p->wide ? age_wide : age_plain)(&d, p, vh_at(p, first, 0),
                                         vh_turns((size_t)last - (size_t)first + 1));
        return;
    }
    for (int t = first; t <= last; t++) /* those of one lane lie apart */
        age_some(&d, p, vh_at(p, t, lane), 1);
}
