#include "vh_plant_state.h"

#include "vh_math.h"

/* A further fruit is behind by last_fruit_d of the mean pace since the truss opened: its flower
 * opened later, and the warmth of the day of the pick alone does not make that more or less. Scaled
 * by the day's own pace a cool day would redden the last fruits, a warm one hold them back. */
double vh_plant_behind(const struct vh_plant *p, size_t i)
{
    const double mean = p->age_d[i] > 0.0 ? p->pace_sum[i] / p->age_d[i] : 0.0;
    return p->setup.crop->clock.last_fruit_d * mean;
}

/* Stems added after the truss opened do not carry it: its fruits are shared by fewer. */
double vh_plant_fruits_each(const struct vh_plant *p, size_t i)
{
    return p->on_stems[i] > 0.0 ? vh_max(p->fruits[i] / p->on_stems[i], 1.0) : 1.0;
}

/* Share of a truss's fruits that have passed a stage, by the scatter between plants. */
static double share_past(const struct vh_plant *p, size_t i, double stage)
{
    const struct vh_clock_params *c = &p->setup.crop->clock;
    const double per_fruit = vh_plant_behind(p, i), n = vh_plant_fruits_each(p, i);
    const double past = p->stage[i] - stage;
    double sum = 0.0, k = 0.0;

    for (; k + 1.0 <= n; k += 1.0)
        sum += vh_scatter_share(&p->tables->scatter, (past - per_fruit * k) / c->scatter_stage);
    return (sum + (n - k) * vh_scatter_share(&p->tables->scatter,
                                             (past - per_fruit * k) / c->scatter_stage)) /
           n;
}

/* Share of a truss's fruits that are ready: each by itself, or all with the last of them. */
static double ripe_share(const struct vh_plant *p, size_t i)
{
    const struct vh_clock_params *c = &p->setup.crop->clock;
    const double past = p->stage[i] - p->setup.pick_stage;

    if (p->setup.whole_truss)
        return vh_scatter_share(
            &p->tables->scatter,
            (past - vh_plant_behind(p, i) * (vh_plant_fruits_each(p, i) - 1.0)) / c->scatter_stage);
    return share_past(p, i, p->setup.pick_stage);
}

double vh_plant_fruits_past(const struct vh_plant *p, size_t lane, double stage)
{
    const double unripe = VH_SCATTER_FAR * p->setup.crop->clock.scatter_stage;
    double sum = 0.0;

    if (p->setup.crop->fruit.pick_by == VH_PICK_BY_MASS)
        return 0.0;
    for (int t = p->first_on[lane]; t <= p->trusses[lane]; t++) {
        const size_t i = vh_at(p, t, lane);
        if (p->fruits[i] <= 0.0 || p->stage[i] < stage - unripe)
            continue;
        const double past = share_past(p, i, stage);
        sum += p->fruits[i] * vh_max(0.0, past - p->picked_share[i]);
    }
    return sum;
}

/* Size-picked: shares of number and mass of the fruits that have passed the mass or the age of the
 * pick. */
static void large_share(const struct vh_plant *p, size_t i, double *number, double *mass)
{
    const struct vh_fruit_params *f = &p->setup.crop->fruit;
    const double far = VH_SCATTER_FAR; /* beyond it nothing is left to say */
    const double on = p->fruits[i] * (1.0 - p->picked_mass_share[i]);
    const double whole_g =
        on > 0.0 ? p->dm_g[i] / (on * p->dm_content[i]) : 0.0; /* mean as if none had been picked */
    const bool young = p->age_cd[i] < f->oldest_cd * (1.0 - far * f->age_scatter);
    if (young && whole_g * (1.0 + far * f->pick_cv) < p->setup.pick_from_g) {
        *number = *mass = 0.0;
        return;
    }
    const double z =
        whole_g > 0.0 ? (p->setup.pick_from_g / whole_g - 1.0) / f->pick_cv : VH_ENDLESS;
    const double old = young
                           ? 0.0
                           : vh_scatter_share(&p->tables->scatter,
                                              (p->age_cd[i] / f->oldest_cd - 1.0) / f->age_scatter);
    const double by_mass = isfinite(z) ? vh_scatter_share(&p->tables->scatter, -z) : 0.0;
    const double root_two_pi = 2.5066282746310002;
    const double heavier = isfinite(z) ? f->pick_cv * vh_exp(-0.5 * z * z) / root_two_pi : 0.0;

    *number = 1.0 - (1.0 - by_mass) * (1.0 - old);
    *mass = 1.0 - (1.0 - vh_min(by_mass + heavier, 1.0)) * (1.0 - old);
}

/* A size-picked axil is ripe when half of its fruits have reached the mass of the pick. */
static void mark_large(struct vh_plant *p, size_t lane, size_t i, double share)
{
    if (isnan(p->ripe_first_d[i]) && share >= 0.5)
        p->ripe_first_d[i] = p->ripe_last_d[i] = p->days[lane];
}

/* Which part of a rest stays: none below the sliver, all above twice of it. Between it goes without
 * a jump, or a crumb left or taken would move the weeks by steps. */
static double left_on(double rest, double sliver)
{
    return rest > sliver ? vh_min(1.0, 2.0 * (1.0 - sliver / rest)) : 0.0;
}

struct vh_picked vh_plant_pick(struct vh_plant *p, size_t lane)
{
    const bool by_mass = p->setup.crop->fruit.pick_by == VH_PICK_BY_MASS;
    /* what is left of the last fruit is picked with it: of a node less than one in 50 000, of a
     * truss one in a million */
    const double sliver = by_mass ? 2e-5 : 1e-6;
    const double unripe = VH_SCATTER_FAR * p->setup.crop->clock.scatter_stage;
    struct vh_picked sum = {0.0, 0.0, 0.0};

    for (int t = p->first_on[lane]; t <= p->trusses[lane]; t++) {
        const size_t i = vh_at(p, t, lane);
        double number, mass;
        if (p->fruits[i] <= 0.0 || p->picked_share[i] >= 1.0)
            continue;
        if (by_mass) {
            if (p->age_cd[i] < p->pick_from_cd)
                continue;
            large_share(p, i, &number, &mass);
            mark_large(p, lane, i, number);
        } else {
            if (p->stage[i] < p->setup.pick_stage - unripe)
                continue;
            number = mass = ripe_share(p, i);
        }
        if (number <= p->picked_share[i] || mass <= p->picked_mass_share[i])
            continue;
        const double left = left_on(1.0 - number, sliver);
        number = left > 0.0 ? 1.0 - left * (1.0 - number) : 1.0;
        mass = left > 0.0 ? 1.0 - left * (1.0 - mass) : 1.0;
        /* a share of exactly 1 for the last pick: (dm x)/x could leave a rest below 0 */
        const double share = (mass - p->picked_mass_share[i]) / (1.0 - p->picked_mass_share[i]),
                     dm = p->dm_g[i] * share;
        const double fruits = p->fruits[i] * (number - p->picked_share[i]),
                     fresh = dm / vh_plant_dm_content(p, i);
        p->dm_g[i] -= dm;
        p->picked_share[i] = number;
        p->picked_mass_share[i] = mass;
        p->picked_n[i] += fruits;
        p->picked_dm_g[i] += dm;
        p->picked_g[i] += fresh;
        sum.fruits += fruits;
        sum.dm_g += dm;
        sum.fresh_g += fresh;
    }
    return sum;
}

void vh_plant_pick_at(struct vh_plant *p, double pick_stage)
{
    p->setup.pick_stage = pick_stage;
}
