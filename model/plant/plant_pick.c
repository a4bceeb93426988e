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

    for (; k + 1.0 <= n; k += 1.0) {
        const double x = (past - per_fruit * k) / sd;
        if (x <= -VH_SCATTER_FAR) /* nor has any further fruit passed it */
            return sum / n;
        sum += vh_scatter_share(&p->tables->scatter, x);
    }
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

void vh_plant_pick_lanes(struct vh_plant *p, const bool *picks, struct vh_picked *picked)
{
    struct vh_today y;

    for (size_t l = 0; l < p->lanes; l++)
        picked[l] = (struct vh_picked){0.0, 0.0, 0.0};
    if (p->setup.crop->fruit.pick_by == VH_PICK_BY_MASS) {
        y.p = p;
        y.crop = p->setup.crop;
        y.picks = picks;
        y.picked = picked;
        vh_plant_pick_large(&y);
        return;
    }
    for (size_t l = 0; l < p->lanes; l++)
        if (picks[l])
            pick_ripe(p, l, &picked[l]);
}

void vh_plant_pick_last(struct vh_plant *p, double stage, double from_g, const bool *picks,
                        struct vh_picked *picked, struct vh_picked *early)
{
    vh_plant_pick_lanes(p, picks, picked);
    p->setup.pick_stage = stage;
    p->setup.pick_from_g = from_g;
    vh_plant_look_from(p);
    vh_plant_pick_lanes(p, picks, early);
    for (size_t l = 0; l < p->lanes; l++) {
        picked[l].fruits += early[l].fruits;
        picked[l].dm_g += early[l].dm_g;
        picked[l].fresh_g += early[l].fresh_g;
    }
}

struct vh_picked vh_plant_pick(struct vh_plant *p)
{
    const bool picks = true;
    struct vh_picked picked;

    vh_plant_pick_lanes(p, &picks, &picked);
    return picked;
}

void vh_plant_pick_at(struct vh_plant *p, double pick_stage)
{
    p->setup.pick_stage = pick_stage;
}
