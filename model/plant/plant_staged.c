/* Ripe-picked fruit ages: its clock and its sums, truss beside truss. */
#include "vh_math_parts.h"
#include "vh_plant_state.h"

/* What all trusses have in common today. */
struct staged_day {
    struct vh_clock_params clock;
    struct vh_clock_day pace;
    double mean_c, std_rate_per_d, growth_cd, young_cd, clock_share, red_share;
    double dli_mol_m2_d, light, fruit_pace, breaker_stage;
};

VH_KERNEL double larger(double a, double b)
{
    return vh_select(a > b, a, b);
}

VH_KERNEL double smaller(double a, double b)
{
    return vh_select(a < b, a, b);
}

/* Stage gained in share `open` of today; from breaker on heat slows it further. */
VH_KERNEL double stage_gain(const struct staged_day *d, double number, double stage, double log_rad,
                            double open)
{
    const double rate = vh_clock_rate_on(&d->clock, &d->pace, stage, log_rad, number) *
                        d->clock_share * d->fruit_pace;
    const double gain = rate * open, to_breaker = d->breaker_stage - stage;
    const double plain = larger(to_breaker, 0.0);

    return vh_select(gain <= to_breaker, gain, plain + (gain - plain) * d->red_share);
}

/* n trusses; those without fruit stay as they are. gain: stage
 * gained. */
VH_KERNEL void age_row(const struct staged_day *d, size_t n, const double *number,
                       const double *restrict fruits, const double *restrict picked_share,
                       const double *restrict stage, double *restrict rad_sum,
                       double *restrict rad_days, double *restrict log_rad,
                       double *restrict temp_sum, double *restrict pace_sum, double *restrict age_d,
                       double *restrict age_cd, double *restrict young_cd,
                       double *restrict kept_of_growth, double *restrict gain)
{
    const struct vh_clock_params *c = &d->clock;
    const double shortest_d = 1e-9;

    for (size_t i = 0; i < n; i++) {
        const bool is_on = (fruits[i] > 0.0) & (picked_share[i] < 1.0);
        const bool counts = is_on & (rad_days[i] < c->rad_window_d);
        const double open = vh_select(age_d[i] < 0.0, 1.0 + age_d[i], 1.0);
        const double counted = smaller(open, c->rad_window_d - rad_days[i]);
        const double sum = rad_sum[i] + counted * d->dli_mol_m2_d * d->light / c->mol_per_mj;
        const double days = rad_days[i] + counted;
        const double mean = larger(sum / larger(days, shortest_d), c->rad_least_mj_m2_d);
        const double logged = vh_select(counts, vh_log(mean), log_rad[i]);
        const double gained = stage_gain(d, number[i], stage[i], logged, open);
        const double warm = temp_sum[i] + open * d->mean_c;
        const double pace = pace_sum[i] + open * d->std_rate_per_d;
        const double age = larger(age_d[i], 0.0) + open, cd = age_cd[i] + open * d->growth_cd;
        const double young = young_cd[i] + open * d->young_cd;
        rad_sum[i] = vh_select(counts, sum, rad_sum[i]);
        rad_days[i] = vh_select(counts, days, rad_days[i]);
        log_rad[i] = logged;
        temp_sum[i] = vh_select(is_on, warm, temp_sum[i]);
        pace_sum[i] = vh_select(is_on, pace, pace_sum[i]);
        age_d[i] = vh_select(is_on, age, age_d[i]);
        age_cd[i] = vh_select(is_on, cd, age_cd[i]);
        young_cd[i] = vh_select(is_on, young, young_cd[i]);
        kept_of_growth[i] = vh_select(is_on, 1.0, kept_of_growth[i]);
        gain[i] = gained;
    }
}

/* A wide register full of them. */
VH_KERNEL void age_some(const struct staged_day *d, struct vh_plant *p, int first, size_t at,
                        size_t n)
{
    double number[VH_SIDE];

    vh_numbers(first, VH_SIDE, number);
    age_row(d, n, number, p->fruits + at, p->picked_share + at, p->stage + at, p->rad_sum + at,
            p->rad_days + at, p->log_rad + at, p->temp_sum + at, p->pace_sum + at, p->age_d + at,
            p->age_cd + at, p->young_cd + at, p->kept_of_growth + at, p->stage_gain + at);
}

VH_WIDE static void age_wide(const struct staged_day *d, struct vh_plant *p, int first, size_t at,
                             size_t turns)
{
    for (size_t k = 0; k < turns; k++)
        age_some(d, p, first + (int)k * VH_SIDE, at + k * VH_SIDE, VH_SIDE);
}

static void age_plain(const struct staged_day *d, struct vh_plant *p, int first, size_t at,
                      size_t turns)
{
    for (size_t k = 0; k < turns; k++)
        age_some(d, p, first + (int)k * VH_SIDE, at + k * VH_SIDE, VH_SIDE);
}

void vh_plant_age_staged(struct vh_plant *p, size_t lane, const struct vh_day *day,
                         double light_factor)
{
    const struct staged_day d = {.clock = p->setup.crop->clock,
                                 .pace = day->pace,
                                 .mean_c = day->mean_c,
                                 .std_rate_per_d = day->std_rate_per_d,
                                 .growth_cd = day->growth_cd,
                                 .young_cd = day->young_cd,
                                 .clock_share = day->clock_share,
                                 .red_share = day->red_share,
                                 .dli_mol_m2_d = day->dli_mol_m2_d,
                                 .light = light_factor,
                                 .fruit_pace = p->factors[lane].fruit_pace,
                                 .breaker_stage = p->setup.breaker_stage};
    const int first = p->first_on[lane], last = p->trusses[lane];

    if (p->lanes == 1 && last >= first) {
        (p->wide ? age_wide : age_plain)(&d, p, first, vh_at(p, first, 0),
                                         vh_turns((size_t)last - (size_t)first + 1));
        return;
    }
    for (int t = first; t <= last; t++) /* those of one lane lie apart */
        age_some(&d, p, t, vh_at(p, t, lane), 1);
}
