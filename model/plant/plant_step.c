#include "vh_plant_state.h"

#include "vh_math.h"

#define NEVER VH_UNKNOWN

/* What one day works with, so that the parts below stay short. */
struct today {
    struct vh_plant *p;
    size_t lane;
    const struct vh_crop *crop;
    const struct vh_day *day;
    const struct vh_acts *acts;
    struct vh_plant_day *out;
    double stems_m2;
    double light_factor;
    double leaf_rate;                         /* leaf intervals passed today */
    double made;                              /* leaves made today; 0 after topping */
    double fruit_demand_g, unit_demand_g;     /* DM per stem */
    double leaf_share;                        /* of what units get */
    double sucker_demand_g;                   /* DM per stem, of what the stem gives */
    double fruit_dm_start_g, body_dm_start_g; /* of fruits; of leaves, stem and root */
};

/* Trusses over which the end of flowering is spread after topping: one, or less where the clock
 * runs on by less. */
static double run_on_blur(const struct vh_truss_params *t)
{
    return vh_min(1.0, t->run_on_leaves / t->leaves_per_truss);
}

/* Share of the stems on which a truss still opens. Stems stand at different points between two
 * trusses, so the last one of a topped crop comes on a part of them, 1/2 at run_on from the clock;
 * without topping, on all. */
static double opens_on(const struct vh_plant *p, size_t lane, int number)
{
    const double width = run_on_blur(&p->setup.crop->truss);
    if (!p->topped[lane] || width <= 0.0)
        return 1.0;
    return vh_clamp((p->flowering_most[lane] - number) / width, 0.0, 1.0);
}

static void open_truss(struct today *y, int number, double fraction,
                       struct vh_flowers_today flowers)
{
    /* flowers belong to the moment the truss opens: between yesterday's and today's, so that
     * results move smoothly */
    struct vh_plant *p = y->p;
    const size_t i = vh_at(p, number, y->lane);
    const int k = number - y->acts->kept_first;
    const double on = opens_on(p, y->lane, number);
    const double rule = k >= 0 && k < VH_OPEN_MOST ? on * y->acts->kept[k] : 0.0;
    const bool per_node = y->crop->truss.clock_by == VH_CLOCK_BY_NODE;

    p->opened_d[i] = p->days[y->lane] + fraction;
    p->on_stems[i] = on;
    p->flowers[i] = on * y->crop->flower.flowers;
    /* a rule of 1/2 on nodes: every second keeps one */
    p->thin_stage[i] = k >= 0 && k < VH_OPEN_MOST ? y->acts->thin_stage[k] : 0.0;
    const double ruled = vh_min(rule, p->flowers[i]);
    p->set[i] = (per_node && p->thin_stage[i] <= 0.0 ? ruled : p->flowers[i]) * flowers.set;
    p->kept[i] = vh_min(p->set[i], per_node ? ruled * flowers.set : rule);
    p->thinned_d[i] = NEVER;
    p->fruits[i] = p->set[i];
    if (p->thin_stage[i] <= 0.0 && p->kept[i] < p->set[i]) {
        p->fruits[i] = p->kept[i];
        p->thinned_d[i] = p->opened_d[i];
    }
    p->weights[i] = vh_fruit_weights_sum(&y->crop->fruit, p->fruits[i]);
    p->stage[i] = 0.0;
    p->grown_share[i] = vh_fruit_curve_at(&p->tables->curve, 0.0);
    p->seeded[i] = flowers.seeded;
    p->age_d[i] = -fraction; /* the step below adds the whole day to every truss that is on */
    p->ripe_first_d[i] = NEVER;
    p->ripe_last_d[i] = NEVER;
    p->trusses[y->lane] = number;
}

/* Leaf and flowering clocks; opens the trusses that the day passes. */
static void run_clocks(struct today *y)
{
    struct vh_plant *p = y->p;
    const double before = vh_plant_flowering(p, y->lane);

    y->leaf_rate = vh_plant_leaf_rate_per_d(y->crop, y->day, y->light_factor, before) *
                   p->factors[y->lane].truss_pace;
    y->made = p->topped[y->lane] ? 0.0 : y->leaf_rate;
    p->plastochron[y->lane] += y->leaf_rate;
    p->leaves_made[y->lane] += y->made;

    const struct vh_flowers_today now = vh_plant_flowers_today(p, y->lane, y->day, y->acts);
    const bool first = p->days[y->lane] == 0;
    const double set = first ? now.set : p->last_set_share[y->lane],
                 seeded = first ? now.seeded : p->last_seeded[y->lane];
    p->last_set_share[y->lane] = now.set;
    p->last_seeded[y->lane] = now.seeded;
    const double after = vh_plant_flowering(p, y->lane);
    const int next = vh_plant_next_truss(p, y->lane);
    if (after < next || after <= before)
        return;
    for (int n = next; n <= after && (size_t)n <= p->trusses_most; n++) {
        const double fraction = vh_clamp((n - before) / (after - before), 0.0, 1.0);
        open_truss(y, n, fraction,
                   (struct vh_flowers_today){set + fraction * (now.set - set),
                                             seeded + fraction * (now.seeded - seeded)});
    }
}

static double potential_g(const struct today *y)
{
    const struct vh_plant *p = y->p;
    const struct vh_fruit_params *f = &y->crop->fruit;
    return f->mass_factor * p->setup.usual_fruit_g * f->dm_content_20 *
           p->factors[y->lane].fruit_mass * y->day->fgp_share * y->day->sink_share;
}

/* Thinning falls into the day, after share `at` of it: what all ask until then and what those that
 * stay ask after. The fruits at the end of the truss go, and their share of the growth
 * (kept_of_growth) is lost. */
static double thin_today(const struct today *y, size_t i, double at, double before,
                         double after_all)
{
    struct vh_plant *p = y->p;
    const double left = vh_fruit_weights_sum(&y->crop->fruit, p->kept[i]) / p->weights[i],
                 after = after_all * left;

    p->dm_g[i] *= left;
    p->weights[i] *= left;
    p->fruits[i] = p->kept[i];
    p->thinned_d[i] = p->days[y->lane] + at;
    p->kept_of_growth[i] = before + after > 0.0 ? (before * left + after) / (before + after) : 1.0;
    return before + after;
}

/* What the fruits of a ripe-picked truss ask today, g DM. */
static double staged_demand_g(const struct today *y, size_t i, double gain, double potential)
{
    struct vh_plant *p = y->p;
    const double s0 = p->stage[i], s1 = s0 + gain, thin = p->thin_stage[i];
    const double on = potential * (1.0 - p->picked_share[i]) * p->weights[i];
    const double at0 = p->grown_share[i], at1 = vh_fruit_curve_at(&p->tables->curve, s1);

    p->grown_share[i] = at1;
    if (p->kept[i] >= p->fruits[i] || s0 >= thin || s1 < thin)
        return on * (at1 - at0);
    const double at_thin = vh_fruit_curve_at(&p->tables->curve, thin);
    return thin_today(y, i, (thin - s0) / gain, on * (at_thin - at0), on * (at1 - at_thin));
}

/* What the fruits of a size-picked axil ask today, g DM, of which vh_plant_age_sized has what they
 * grow by. Thinning comes at its share of the oldest age, whatever they weigh: so results move
 * smoothly. */
static double sized_demand_g(const struct today *y, size_t i)
{
    struct vh_plant *p = y->p;
    const double grown = p->demand_g[i];

    if (p->kept[i] >= p->fruits[i])
        return grown;
    const double open = vh_min(p->age_d[i], 1.0); /* share of today */
    const double age1 = p->age_cd[i], age0 = age1 - open * y->day->growth_cd,
                 thin = p->thin_stage[i] * y->crop->fruit.oldest_cd;

    if (age0 >= thin || age1 < thin)
        return grown;
    const double at = (thin - age0) / (age1 - age0);
    return thin_today(y, i, at, at * grown, (1.0 - at) * grown);
}

/* When the first and the last fruit of a truss pass the stage of the pick, as real days. */
static void mark_ripe(const struct today *y, size_t i, double gain)
{
    struct vh_plant *p = y->p;
    const double first = p->setup.pick_stage - p->stage[i];

    if (gain < first) /* then no later fruit is ripe */
        return;
    const double last = first + vh_plant_behind(p, i) * (vh_plant_fruits_each(p, i) - 1.0);

    if (isnan(p->ripe_first_d[i]) && gain >= first)
        p->ripe_first_d[i] = p->days[y->lane] + vh_clamp(first / gain, 0.0, 1.0);
    if (isnan(p->ripe_last_d[i]) && gain >= last)
        p->ripe_last_d[i] = p->days[y->lane] + vh_clamp(last / gain, 0.0, 1.0);
}

static bool is_on(const struct vh_plant *p, size_t i)
{
    return p->fruits[i] > 0.0 && p->picked_share[i] < 1.0;
}

/* What the fruits of a ripe-picked truss ask, which then reaches the stage of this evening. */
static double ripen(struct today *y, size_t i, double potential)
{
    struct vh_plant *p = y->p;
    const double gain = p->stage_gain[i];
    const double asks = staged_demand_g(y, i, gain, potential * p->seeded[i]);

    if (gain > 0.0)
        mark_ripe(y, i, gain);
    p->stage[i] += gain;
    return asks;
}

/* Ages every truss by the day and sums what its fruits ask. */
static void age_trusses(struct today *y)
{
    struct vh_plant *p = y->p;
    const bool by_mass = y->crop->fruit.pick_by == VH_PICK_BY_MASS;
    const double potential = potential_g(y);

    if (by_mass)
        vh_plant_age_sized(p, y->lane, y->day);
    else
        vh_plant_age_staged(p, y->lane, y->day, y->light_factor);
    for (int t = p->first_on[y->lane]; t <= p->trusses[y->lane]; t++) {
        const size_t i = vh_at(p, t, y->lane);
        if (!is_on(p, i)) {
            p->demand_g[i] = 0.0;
            continue;
        }
        y->fruit_dm_start_g += p->dm_g[i];
        p->demand_g[i] = by_mass ? sized_demand_g(y, i) : ripen(y, i, potential);
        y->fruit_demand_g += p->demand_g[i];
    }
}

/* What the stem of a hungry plant asks over what it would ask well fed: vh_share.h. */
static double stem_asks(const struct today *y)
{
    const struct vh_share_params *s = &y->crop->share;
    const double least = 1e-9; /* no supply at all: keeps the logarithm in its range */
    const double r = vh_ring_mean(y->p, y->p->ratio_ring, y->lane, y->p->days[y->lane],
                                  (int)s->hunger_window_d, 1, 1.0);
    return r < 1.0 ? vh_pow(vh_max(r, least), s->stem_hunger) : 1.0;
}

/* Leaves and stem ask by the unit, whatever the plant carries; after topping they only thicken. */
static void ask_units(struct today *y)
{
    struct vh_plant *p = y->p;
    const struct vh_share_params *s = &y->crop->share;
    const bool staged = y->crop->fruit.pick_by == VH_PICK_BY_STAGE;

    y->leaf_share = y->crop->leaf.dm_share;
    if (p->topped[y->lane]) {
        y->unit_demand_g = s->thickening * p->last_unit_demand_g[y->lane];
        return;
    }
    const double leaf = y->crop->leaf.dm_share, asks = leaf + (1.0 - leaf) * stem_asks(y);
    y->leaf_share = leaf / asks;
    y->unit_demand_g = s->unit_g * asks * (y->leaf_rate / y->crop->truss.leaves_per_truss) *
                       (staged ? y->day->fgp_share : 1.0) * y->day->sink_share;
    p->last_unit_demand_g[y->lane] = y->unit_demand_g;
}

static double upkeep_asked_g_m2(const struct today *y)
{
    const struct vh_plant *p = y->p;
    const struct vh_upkeep_params *u = &y->crop->upkeep;
    const int done = p->days[y->lane];
    const double rgr = vh_max(0.0, vh_ring_mean(p, p->rgr_ring, y->lane, done, (int)u->rgr_window_d,
                                                1, u->rgr_start_per_d));
    const double asked = u->fruit_per_d * y->fruit_dm_start_g +
                         u->leaf_per_d * p->leaf_dm_g[y->lane] +
                         u->stem_per_d * p->stem_dm_g[y->lane];
    return asked * y->stems_m2 * y->day->upkeep_warmth * (1.0 - vh_exp(-u->growth_d * rgr));
}

/* What the stem's own leaves make; suckers stand among them and take their part of the light. */
static double assimilate_g_m2(struct today *y, double lai, double sucker_lai)
{
    const struct vh_light_params *light = &y->crop->light;
    const double passed = vh_light_passed(light, lai + sucker_lai);
    const double on_leaves = y->light_factor * vh_light_both_sides(light, passed);

    y->out->absorbed_mol_m2 =
        y->day->dli_mol_m2_d * on_leaves * (1.0 - light->reflected) * (1.0 - passed);
    if (lai <= 0.0)
        return 0.0;
    return vh_light_day_g_m2(light, &y->day->leaf, on_leaves, passed, y->p->wide) *
           (lai / (lai + sucker_lai));
}

/* Gives every sink the same share of what it asks; returns vegetative DM grown, g per stem. */
static double share_out(struct today *y, double assimilate)
{
    struct vh_plant *p = y->p;
    const struct vh_upkeep_params *u = &y->crop->upkeep;
    const double reserve = p->reserve_g_m2[y->lane], asked = upkeep_asked_g_m2(y);
    const double paid = vh_min(asked, assimilate + reserve), free_g = assimilate + reserve - paid;
    const double green_demand = y->unit_demand_g + y->sucker_demand_g;
    const double demand =
        (u->fruit_cost * y->fruit_demand_g + u->other_cost * green_demand) * y->stems_m2;
    const double most = y->crop->share.ratio_most;
    const double r = demand > 0.0 ? vh_min(free_g / demand, most) : most;
    const double fed = vh_min(r, 1.0), left = vh_max(0.0, free_g - demand);
    const double reserve_after = r >= 1.0 ? vh_min(left, u->reserve_most_g_m2) : 0.0;
    const double spare = r >= 1.0 ? (left - reserve_after) / (u->other_cost * y->stems_m2) : 0.0;
    const double units = fed * y->unit_demand_g + spare, fruit = fed * y->fruit_demand_g,
                 suckers = fed * y->sucker_demand_g;
    const double spent = (u->fruit_cost * fruit + u->other_cost * (units + suckers)) * y->stems_m2 +
                         paid + reserve_after;

    for (int t = p->first_on[y->lane]; t <= p->trusses[y->lane]; t++) {
        const size_t i = vh_at(p, t, y->lane);
        p->dm_g[i] += fed * p->demand_g[i] * p->kept_of_growth[i];
    }
    vh_plant_grow_suckers(p, y->lane, fed);
    p->reserve_g_m2[y->lane] = reserve_after;
    y->out->assimilate_g_m2 = assimilate;
    y->out->maintenance_g_m2 = paid;
    y->out->maintenance_unpaid_g_m2 = asked - paid;
    y->out->demand_g_m2 = demand;
    y->out->ratio = r;
    y->out->reserve_g_m2 = reserve_after;
    y->out->fruit_dm_g_m2 = fruit * y->stems_m2;
    y->out->sucker_dm_g_m2 = suckers * y->stems_m2;
    y->out->balance_error = (assimilate + reserve - spent) / vh_max(assimilate + reserve, 1.0);
    return units;
}

/* Hungry plants drop young axil fruit. */
static void drop_young(struct today *y)
{
    struct vh_plant *p = y->p;
    const struct vh_flower_params *f = &y->crop->flower;
    const int done = p->days[y->lane], window = (int)f->abort_window_d;

    if (f->abort_per_cd <= 0.0)
        return;
    const double before =
        vh_ring_mean(p, p->ratio_ring, y->lane, done, window - 1, 1, y->out->ratio);
    const int known = done < window - 1 ? done : window - 1;
    const double r5 = (before * known + y->out->ratio) / (known + 1);
    const double whole_day = vh_flower_not_dropped(f, r5, y->day->young_cd);
    for (int t = p->trusses[y->lane]; t >= p->first_on[y->lane]; t--) {
        const size_t i = vh_at(p, t, y->lane);
        const double passed = y->day->young_cd * vh_min(p->age_d[i], 1.0), age = p->young_cd[i];
        const double x = vh_min(passed, f->abort_for_cd - (age - passed));
        if (x <= 0.0) {
            if (age > f->abort_for_cd + passed)
                break; /* all below are older */
            continue;
        }
        if (p->fruits[i] <= 0.0)
            continue;
        const double stay = x < y->day->young_cd ? vh_flower_not_dropped(f, r5, x) : whole_day;
        p->aborted[i] += p->fruits[i] * (1.0 - stay);
        if (p->kept[i] < p->fruits[i])
            p->kept[i] *= stay; /* thinning still to come leaves as much less */
        p->fruits[i] *= stay;
        p->weights[i] *= stay;
        p->dm_g[i] *= stay;
    }
}

static void top(struct vh_plant *p, size_t lane)
{
    const struct vh_truss_params *t = &p->setup.crop->truss;
    if (p->topped[lane])
        return;
    p->topped[lane] = true;
    p->flowering_most[lane] =
        vh_plant_flowering(p, lane) + t->run_on_leaves / t->leaves_per_truss + 0.5 * run_on_blur(t);
}

static void remember(struct today *y, double grown_g)
{
    struct vh_plant *p = y->p;
    const size_t slot = (size_t)(p->days[y->lane] % VH_HISTORY) * p->lanes + y->lane;
    const double dm = y->fruit_dm_start_g + y->body_dm_start_g;

    p->rgr_ring[slot] = dm > 0.0 ? grown_g / dm : 0.0;
    p->mean_ring[slot] = y->day->mean_c;
    p->ratio_ring[slot] = y->out->ratio;
    p->days[y->lane]++;
}

static void pass_finished(struct vh_plant *p, size_t lane)
{
    while (p->first_on[lane] <= p->trusses[lane]) {
        const size_t i = vh_at(p, p->first_on[lane], lane);
        if (p->fruits[i] > 0.0 && p->picked_share[i] < 1.0)
            return;
        p->first_on[lane]++;
    }
}

static void report(struct today *y)
{
    const struct vh_plant *p = y->p;
    y->out->lai = p->leaf_area_m2[y->lane] * vh_plant_stems_m2(p, y->lane);
    y->out->stem_cm = p->stem_cm[y->lane];
    y->out->leaves = vh_plant_leaves_on_stem(p, y->lane);
    y->out->leaves_made = p->leaves_made[y->lane];
    y->out->flowering_truss = vh_max(0.0, vh_plant_flowering(p, y->lane));
    y->out->picking_truss = vh_plant_picking_truss(p, y->lane);
}

void vh_plant_step(struct vh_plant *p, size_t lane, const struct vh_day *day,
                   const struct vh_acts *acts, struct vh_plant_day *out)
{
    struct today y = {.p = p,
                      .lane = lane,
                      .crop = p->setup.crop,
                      .day = day,
                      .acts = acts,
                      .out = out,
                      .stems_m2 = vh_plant_stems_m2(p, lane),
                      .light_factor = p->factors[lane].light,
                      .body_dm_start_g = p->leaf_dm_g[lane] + p->stem_dm_g[lane]};
    const double lai = p->leaf_area_m2[lane] * y.stems_m2;

    pass_finished(p, lane);
    vh_plant_pull_suckers(p, lane, acts, out);
    const double assimilate = assimilate_g_m2(&y, lai, p->sucker_area_m2[lane] * y.stems_m2);
    run_clocks(&y);
    age_trusses(&y);
    ask_units(&y);
    y.sucker_demand_g = vh_plant_ask_suckers(p, lane, day, y.leaf_rate);
    const double units = share_out(&y, assimilate);
    const double leaf_dm = vh_plant_grow_leaves(p, lane, y.leaf_share * units);
    p->stem_dm_g[lane] += units - leaf_dm;
    out->leaf_dm_g_m2 = leaf_dm * y.stems_m2;
    out->stem_dm_g_m2 = (units - leaf_dm) * y.stems_m2;
    drop_young(&y);
    p->stem_cm[lane] +=
        y.made * p->factors[lane].stem_pace *
        vh_stem_internode_cm(&y.crop->stem, day->dif_k, day->dli_mol_m2_d * y.light_factor,
                             out->ratio, y.stems_m2);
    if (acts->leaves_off > 0.0)
        vh_plant_take_leaves(p, lane, acts->leaves_off);
    if (acts->heads_factor != 1.0)
        vh_plant_change_heads(p, lane, acts, y.leaf_rate);
    if (acts->top)
        top(p, lane);
    remember(&y, units + out->fruit_dm_g_m2 / y.stems_m2);
    report(&y);
}
