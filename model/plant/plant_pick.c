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

/* Of the stage, between plants. */
static double scatter(const struct vh_plant *p, size_t i)
{
    return vh_clock_scatter(&p->setup.crop->clock, (double)(i / p->lanes + 1));
}

/* A truss so far from a stage has no fruit past it, however its plants scatter. */
static double unripe_stages(const struct vh_plant *p)
{
    const struct vh_clock_params *c = &p->setup.crop->clock;
    return VH_SCATTER_FAR * vh_max(c->scatter_first, c->scatter_stage);
}

/* Share of a truss's fruits that have passed a stage, by the scatter between plants. */
static double share_past(const struct vh_plant *p, size_t i, double stage)
{
    const double per_fruit = vh_plant_behind(p, i), n = vh_plant_fruits_each(p, i);
    const double past = p->stage[i] - stage, sd = scatter(p, i);
    double sum = 0.0, k = 0.0;

    for (; k + 1.0 <= n; k += 1.0)
        sum += vh_scatter_share(&p->tables->scatter, (past - per_fruit * k) / sd);
    return (sum + (n - k) * vh_scatter_share(&p->tables->scatter, (past - per_fruit * k) / sd)) / n;
}

/* Share of a truss's fruits that are ready: each by itself, or all with the last of them. */
static double ripe_share(const struct vh_plant *p, size_t i)
{
    const double past = p->stage[i] - p->setup.pick_stage;

    if (p->setup.whole_truss)
        return vh_scatter_share(
            &p->tables->scatter,
            (past - vh_plant_behind(p, i) * (vh_plant_fruits_each(p, i) - 1.0)) / scatter(p, i));
    return share_past(p, i, p->setup.pick_stage);
}

double vh_plant_fruits_past(const struct vh_plant *p, size_t lane, double stage)
{
    const double unripe = unripe_stages(p);
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

/* Takes fruits of truss i until shares `number` of them and `mass` of theirs are off; content: g DM
 * per g fresh. */
static void take(struct vh_plant *p, size_t i, double number, double mass, double sliver,
                 double content, struct vh_picked *sum)
{
    if (number <= p->picked_share[i] || mass <= p->picked_mass_share[i])
        return;
    const double left = left_on(1.0 - number, sliver);
    number = left > 0.0 ? 1.0 - left * (1.0 - number) : 1.0;
    mass = left > 0.0 ? 1.0 - left * (1.0 - mass) : 1.0;
    /* a share of exactly 1 for the last pick: (dm x)/x could leave a rest below 0 */
    const double share = (mass - p->picked_mass_share[i]) / (1.0 - p->picked_mass_share[i]),
                 dm = p->dm_g[i] * share;
    const double fruits = p->fruits[i] * (number - p->picked_share[i]), fresh = dm / content;
    p->dm_g[i] -= dm;
    p->picked_share[i] = number;
    p->picked_mass_share[i] = mass;
    p->picked_n[i] += fruits;
    p->picked_dm_g[i] += dm;
    p->picked_g[i] += fresh;
    sum->fruits += fruits;
    sum->dm_g += dm;
    sum->fresh_g += fresh;
}

static bool has_fruit(const struct vh_plant *p, size_t i)
{
    return p->fruits[i] > 0.0 && p->picked_share[i] < 1.0;
}

static void pick_large(struct vh_plant *p, size_t lane, struct vh_picked *sum)
{
    const double sliver =
        2e-5; /* of a node less than one fruit in 50 000 is left: picked with it */
    const int step = p->lanes == 1 ? VH_LARGE_MOST : 1; /* those of one lane lie apart */
    int last = p->trusses[lane];

    while (last >= p->first_on[lane] && p->age_cd[vh_at(p, last, lane)] < p->pick_from_cd)
        last--;
    for (int t = p->first_on[lane]; t <= last; t += step) {
        const int n = last + 1 - t < step ? last + 1 - t : step;
        struct vh_large large[VH_LARGE_MOST];
        vh_plant_large(p, vh_at(p, t, lane), (size_t)n, large);
        for (int k = 0; k < n; k++) {
            const size_t i = vh_at(p, t + k, lane);
            if (!has_fruit(p, i) || p->age_cd[i] < p->pick_from_cd)
                continue;
            mark_large(p, lane, i, large[k].number);
            take(p, i, large[k].number, large[k].mass, sliver, p->dm_content[i], sum);
        }
    }
}

static void pick_ripe(struct vh_plant *p, size_t lane, struct vh_picked *sum)
{
    const double sliver = 1e-6; /* of a truss less than one in a million */
    const double unripe = unripe_stages(p);

    for (int t = p->first_on[lane]; t <= p->trusses[lane]; t++) {
        const size_t i = vh_at(p, t, lane);
        if (!has_fruit(p, i) || p->stage[i] < p->setup.pick_stage - unripe)
            continue;
        const double share = ripe_share(p, i);
        take(p, i, share, share, sliver, vh_plant_dm_content(p, i), sum);
    }
}

struct vh_picked vh_plant_pick(struct vh_plant *p, size_t lane)
{
    struct vh_picked sum = {0.0, 0.0, 0.0};

    if (p->setup.crop->fruit.pick_by == VH_PICK_BY_MASS)
        pick_large(p, lane, &sum);
    else
        pick_ripe(p, lane, &sum);
    return sum;
}

void vh_plant_pick_at(struct vh_plant *p, double pick_stage)
{
    p->setup.pick_stage = pick_stage;
}
