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

/* ---- days of members side by side: hours as [hour][lane] ---- */

struct hours {
    const double *t_c, *par;
};

/* What is summed over the hours: T above three bases (below one an hour counts 0), upkeep, T by
 * light and by dark, hours of light and of bees. */
enum { GROWTH, YOUNG, SUCKERS, WARMTHS };
enum { UPKEEP = WARMTHS, LIGHT_T, DARK_T, LIGHT_HOURS, BEES, TERMS };

struct hour_terms {
    VH_IN_LINE double each[TERMS][VH_DAY_HOURS * VH_LANES];
};

VH_KERNEL void fill_terms(const struct vh_crop *crop, double upkeep_per_k, const struct hours *in,
                          const size_t lanes, struct hour_terms *restrict out)
{
    const double base_c[WARMTHS] = {crop->fruit.growth_base_c, crop->flower.abort_base_c,
                                    crop->sucker.base_c};
    const double lit_from = crop->stem.light_hour_umol_m2_s;
    const double bees_low_c = crop->flower.bees_low_c, bees_high_c = crop->flower.bees_high_c;
    const struct vh_upkeep_params upkeep = crop->upkeep;

    for (size_t i = 0; i < VH_DAY_HOURS * lanes; i++)
        out->each[UPKEEP][i] = vh_upkeep_warmth(&upkeep, upkeep_per_k, in->t_c[i]);
    for (size_t i = 0; i < VH_DAY_HOURS * lanes; i++) {
        const double t = in->t_c[i];
        const bool light = in->par[i] > lit_from;
        const bool flying = light & (t >= bees_low_c) & (t <= bees_high_c);
        for (int k = 0; k < WARMTHS; k++)
            out->each[k][i] = vh_max(t - base_c[k], 0.0);
        out->each[LIGHT_T][i] = vh_select(light, t, 0.0);
        out->each[DARK_T][i] = vh_select(light, 0.0, t);
        out->each[LIGHT_HOURS][i] = vh_select(light, 1.0, 0.0);
        out->each[BEES][i] = vh_select(flying, 1.0, 0.0);
    }
}

/* In the order of the hours; a 0 added changes nothing. */
VH_KERNEL void sum_hours(const double *each, const size_t lanes, double *restrict sum)
{
    for (size_t l = 0; l < lanes; l++)
        sum[l] = 0.0;
    for (size_t h = 0; h < VH_DAY_HOURS; h++) {
        VH_APART
        for (size_t l = 0; l < lanes; l++)
            sum[l] += each[h * lanes + l];
    }
}

VH_KERNEL void hottest_hour(const double *t_c, const size_t lanes, double *restrict hottest)
{
    for (size_t l = 0; l < lanes; l++)
        hottest[l] = t_c[l];
    for (size_t h = 1; h < VH_DAY_HOURS; h++) {
        VH_APART
        for (size_t l = 0; l < lanes; l++)
            hottest[l] = vh_max(hottest[l], t_c[h * lanes + l]);
    }
}

/* Most days are not hot. */
VH_KERNEL void heat_mean(const struct hours *in, const double *hottest_c, double from_c,
                         double width_k, const size_t lanes, double *restrict mean)
{
    bool any = false;

    for (size_t l = 0; l < lanes; l++) {
        mean[l] = 0.0;
        any = any || hottest_c[l] > from_c;
    }
    if (!any)
        return;
    for (size_t h = 0; h < VH_DAY_HOURS; h++) {
        const double *t_c = in->t_c + h * lanes;
        VH_APART
        for (size_t l = 0; l < lanes; l++)
            mean[l] += vh_clock_heat(t_c[l], from_c, width_k);
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++)
        mean[l] /= VH_DAY_HOURS;
}

/* What a day is to the crop, [lane] each. */
struct day_rows {
    VH_IN_LINE double mean_c[VH_LANES], dli_mol_m2_d[VH_LANES], dif_k[VH_LANES], clock_share[VH_LANES],
        red_share[VH_LANES], upkeep_warmth[VH_LANES], sink_share[VH_LANES], growth_cd[VH_LANES],
        growth_decay[VH_LANES], young_cd[VH_LANES], sucker_cd[VH_LANES], bees_share[VH_LANES],
        std_rate_per_d[VH_LANES], warmth[VH_LANES], warm_share[VH_LANES], cool_per_d[VH_LANES];
};

VH_KERNEL void fill_rows(const struct vh_crop *crop, const struct vh_fgp *fgp,
                         const struct hours *in, const size_t lanes, struct day_rows *restrict r)
{
    const struct vh_clock_params clock = crop->clock;
    const struct vh_share_params share = crop->share;
    const double log_std_rad = fgp->log_std_rad;
    double sum[TERMS][VH_LANES], warm[VH_LANES], light_sum[VH_LANES];
    double hottest[VH_LANES], heat[VH_LANES], red_heat[VH_LANES];
    struct hour_terms terms;

    fill_terms(crop, fgp->upkeep_per_k, in, lanes, &terms);
    for (int k = 0; k < TERMS; k++)
        sum_hours(terms.each[k], lanes, sum[k]);
    sum_hours(in->t_c, lanes, warm);
    sum_hours(in->par, lanes, light_sum);
    hottest_hour(in->t_c, lanes, hottest);
    heat_mean(in, hottest, clock.hot_from_c, clock.hot_width_k, lanes, heat);
    heat_mean(in, hottest, clock.red_from_c - clock.fruit_over_air_k, clock.red_width_k, lanes,
              red_heat);
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const double light = sum[LIGHT_HOURS][l], dark = VH_DAY_HOURS - light;
        const double mean_c = warm[l] / VH_DAY_HOURS;
        const double cool = (mean_c - share.cold_from_c) / share.cold_width_k + 1.0;
        const double growth_cd = sum[GROWTH][l] / VH_DAY_HOURS;
        const struct vh_clock_day air = vh_clock_day_of(&clock, mean_c),
                                  fruit = vh_clock_day_of(&clock, mean_c + clock.fruit_over_air_k);
        r->mean_c[l] = mean_c;
        r->dli_mol_m2_d[l] = light_sum[l] * SECONDS_PER_HOUR / UMOL_PER_MOL;
        r->dif_k[l] = vh_select((light > 0.0) & (dark > 0.0),
                                sum[LIGHT_T][l] / light - sum[DARK_T][l] / dark, 0.0);
        r->clock_share[l] = 1.0 - clock.hot_slow * heat[l];
        r->red_share[l] = 1.0 - red_heat[l];
        r->upkeep_warmth[l] = sum[UPKEEP][l] / VH_DAY_HOURS;
        r->sink_share[l] = vh_clamp(cool, 0.0, 1.0);
        r->growth_cd[l] = growth_cd;
        r->growth_decay[l] = vh_fruit_logistic_decay(&crop->fruit, growth_cd * r->sink_share[l]);
        r->young_cd[l] = sum[YOUNG][l] / VH_DAY_HOURS;
        r->sucker_cd[l] = sum[SUCKERS][l] / VH_DAY_HOURS;
        r->bees_share[l] = vh_select(light > 0.0, sum[BEES][l] / light, 0.0);
        r->std_rate_per_d[l] = vh_clock_rate_on(&clock, &air, 1.0, log_std_rad, clock.std_truss);
        r->warmth[l] = fruit.warmth;
        r->warm_share[l] = fruit.warm_share;
        r->cool_per_d[l] = fruit.cool_per_d;
    }
}

VH_KERNEL void fill_lanes(const struct vh_crop *crop, const struct vh_fgp *fgp,
                          const struct hours *in, size_t lanes, struct day_rows *out)
{
    if (lanes == 1)
        fill_rows(crop, fgp, in, 1, out);
    else
        fill_rows(crop, fgp, in, VH_LANES, out);
}

VH_WIDE static void fill_lanes_wide(const struct vh_crop *crop, const struct vh_fgp *fgp,
                                    const struct hours *in, size_t lanes, struct day_rows *out)
{
    fill_lanes(crop, fgp, in, lanes, out);
}

VH_WIDEST static void fill_lanes_widest(const struct vh_crop *crop, const struct vh_fgp *fgp,
                                        const struct hours *in, size_t lanes, struct day_rows *out)
{
    fill_lanes(crop, fgp, in, lanes, out);
}

static void take_lane(const struct day_rows *r, size_t l, const struct vh_fgp *fgp,
                      struct vh_day *day)
{
    day->mean_c = r->mean_c[l];
    day->dli_mol_m2_d = r->dli_mol_m2_d[l];
    day->dif_k = r->dif_k[l];
    day->clock_share = r->clock_share[l];
    day->red_share = r->red_share[l];
    day->upkeep_warmth = r->upkeep_warmth[l];
    day->sink_share = r->sink_share[l];
    day->growth_cd = r->growth_cd[l];
    day->growth_decay = r->growth_decay[l];
    day->young_cd = r->young_cd[l];
    day->sucker_cd = r->sucker_cd[l];
    day->bees_share = r->bees_share[l];
    day->fgp_share = vh_fgp_share(fgp, day->mean_c);
    day->std_rate_per_d = r->std_rate_per_d[l];
    day->pace = (struct vh_clock_day){r->warmth[l], r->warm_share[l], r->cool_per_d[l]};
}

void vh_days_init(struct vh_day *day, const struct vh_crop *crop, const struct vh_fgp *fgp,
                  const struct vh_day_hours *hours, size_t lanes, enum vh_registers registers)
{
    VH_IN_LINE double t_c[VH_DAY_HOURS * VH_LANES], par[VH_DAY_HOURS * VH_LANES];
    const struct hours beside = {lanes == 1 ? hours->t_c : t_c,
                                 lanes == 1 ? hours->par_umol_m2_s : par};
    struct day_rows rows;

    for (size_t l = 0; lanes > 1 && l < VH_LANES; l++)
        for (size_t h = 0; h < VH_DAY_HOURS; h++) {
            t_c[h * VH_LANES + l] = hours[l].t_c[h];
            par[h * VH_LANES + l] = hours[l].par_umol_m2_s[h];
        }
    if (registers == VH_BY_EIGHT)
        fill_lanes_widest(crop, fgp, &beside, lanes, &rows);
    else if (registers == VH_BY_FOUR)
        fill_lanes_wide(crop, fgp, &beside, lanes, &rows);
    else
        fill_lanes(crop, fgp, &beside, lanes, &rows);
    for (size_t l = 0; l < lanes; l++) {
        take_lane(&rows, l, fgp, &day[l]);
        vh_light_leaf_hours(&crop->light, hours[l].t_c, hours[l].par_umol_m2_s, hours[l].co2_ppm,
                            registers, &day[l].leaf);
    }
}

void vh_day_init(struct vh_day *day, const struct vh_crop *crop, const struct vh_fgp *fgp,
                 const double *t_c, const double *par_umol_m2_s, const double *co2_ppm)
{
    const struct vh_day_hours hours = {t_c, par_umol_m2_s, co2_ppm};

    vh_days_init(day, crop, fgp, &hours, 1, vh_registers());
}
