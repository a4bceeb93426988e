#include "vh_plant_state.h"

#include "vh_math.h"

/* Trusses over which the end of flowering is spread after topping: one, or less where the clock
 * runs on by less. */
static double run_on_blur(const struct vh_truss_params *t)
{
    return vh_min(1.0, t->run_on_leaves / t->leaves_per_truss);
}

double vh_plant_opens_on(const struct vh_plant *p, size_t lane, int number)
{
    const double width = run_on_blur(&p->setup.crop->truss);
    if (!p->topped[lane] || width <= 0.0)
        return 1.0;
    return vh_clamp((p->flowering_most[lane] - number) / width, 0.0, 1.0);
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

static void pass_finished(struct vh_plant *p, size_t lane)
{
    while (p->first_on[lane] <= p->trusses[lane]) {
        const size_t i = vh_at(p, p->first_on[lane], lane);
        if (p->fruits[i] > 0.0 && p->picked_share[i] < 1.0)
            return;
        p->first_on[lane]++;
    }
}

double vh_plant_thin(struct vh_plant *p, size_t lane, size_t i, double at, double before,
                     double after_all)
{
    const double left = vh_plant_weights(p, i, p->kept[i]) / p->weights[i],
                 after = after_all * left;

    p->dm_g[i] *= left;
    p->weights[i] *= left;
    p->fruits[i] = p->kept[i];
    p->thinned_d[i] = p->days[lane] + at;
    p->kept_of_growth[i] = before + after > 0.0 ? (before * left + after) / (before + after) : 1.0;
    return before + after;
}

/* The day and the plant as the morning finds them. */
VH_KERNEL void begin(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const struct vh_day *day = y->day[l];
        y->mean_c[l] = day->mean_c;
        y->dli_mol_m2_d[l] = day->dli_mol_m2_d;
        y->sink_share[l] = day->sink_share;
        y->young_cd[l] = day->young_cd;
        y->growth_cd[l] = day->growth_cd;
        y->growth_decay[l] = day->growth_decay;
        y->std_rate_per_d[l] = day->std_rate_per_d;
        y->light_factor[l] = p->factors[l].light;
        pass_finished(p, l);
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        y->stems_m2[l] = p->setup.plants_per_m2 * p->heads[l];
        y->body_dm_start_g[l] = p->leaf_dm_g[l] + p->stem_dm_g[l];
        y->fruit_dm_start_g[l] = y->fruit_demand_g[l] = y->sucker_demand_g[l] = 0.0;
    }
}
static VH_LANED(begin_day, begin);

/* What the stem's own leaves make; suckers among them take their part of the light. */
VH_KERNEL void assimilate(struct vh_today *y, const size_t lanes)
{
    const struct vh_plant *p = y->p;
    const struct vh_light_params *light = &y->crop->light;
    double passed[VH_LANES], on_leaves[VH_LANES], lai[VH_LANES], sucker_lai[VH_LANES],
        absorbed[VH_LANES];

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        lai[l] = p->leaf_area_m2[l] * y->stems_m2[l];
        sucker_lai[l] = p->sucker_area_m2[l] * y->stems_m2[l];
        passed[l] = vh_exp(-light->extinction * (lai[l] + sucker_lai[l]));
        on_leaves[l] = y->light_factor[l] * (1.0 + light->floor_reflected * passed[l]);
        absorbed[l] =
            y->dli_mol_m2_d[l] * on_leaves[l] * (1.0 - light->reflected) * (1.0 - passed[l]);
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        y->out[l].absorbed_mol_m2 = absorbed[l];
        y->assimilate_g_m2[l] = lai[l] <= 0.0
                                    ? 0.0
                                    : vh_light_day_g_m2(light, &y->day[l]->leaf, on_leaves[l],
                                                        passed[l], p->registers) *
                                          (lai[l] / (lai[l] + sucker_lai[l]));
    }
}
static VH_LANED(assimilate_today, assimilate);

/* What the stem of a hungry plant asks over what it would ask well fed: vh_share.h. */
VH_KERNEL void stem_asks(const struct vh_today *y, const size_t lanes, double *restrict asks)
{
    const struct vh_share_params *s = &y->crop->share;
    const double least = 1e-9; /* no supply at all: keeps the logarithm in its range */
    double one[VH_LANES], r[VH_LANES];

    for (size_t l = 0; l < lanes; l++)
        one[l] = 1.0;
    vh_ring_means(y->p, y->p->ratio_ring, lanes, (int)s->hunger_window_d, 1, one, r);
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const double hungry = vh_pow(vh_max(r[l], least), s->stem_hunger);
        asks[l] = vh_select(r[l] < 1.0, hungry, 1.0);
    }
}

/* Leaves and stem ask by the unit, whatever the plant carries; once topped they only thicken. */
VH_KERNEL void ask_units(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const struct vh_share_params *s = &y->crop->share;
    const bool staged = y->crop->fruit.pick_by == VH_PICK_BY_STAGE;
    const double leaf = y->crop->leaf.dm_share;
    double fgp_share[VH_LANES], grows[VH_LANES], stem[VH_LANES];

    stem_asks(y, lanes, stem);

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        fgp_share[l] = staged ? y->day[l]->fgp_share : 1.0;
        grows[l] = p->topped[l] ? 0.0 : 1.0;
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const double asks = leaf + (1.0 - leaf) * stem[l];
        const double asked = s->unit_g * asks *
                             (y->leaf_rate[l] / y->crop->truss.leaves_per_truss) * fgp_share[l] *
                             y->sink_share[l];
        const double last = p->last_unit_demand_g[l];
        y->leaf_share[l] = vh_select(grows[l] > 0.0, leaf / asks, leaf);
        y->unit_demand_g[l] = vh_select(grows[l] > 0.0, asked, s->thickening * last);
        p->last_unit_demand_g[l] = vh_select(grows[l] > 0.0, asked, last);
    }
}
static VH_LANED(ask_units_today, ask_units);

VH_KERNEL void upkeep_asked(const struct vh_today *y, const size_t lanes, double *restrict asked)
{
    const struct vh_plant *p = y->p;
    const struct vh_upkeep_params *u = &y->crop->upkeep;
    double start[VH_LANES], rgr[VH_LANES], warmth[VH_LANES];

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        start[l] = u->rgr_start_per_d;
        warmth[l] = y->day[l]->upkeep_warmth;
    }
    vh_ring_means(p, p->rgr_ring, lanes, (int)u->rgr_window_d, 1, start, rgr);
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const double full = u->fruit_per_d * y->fruit_dm_start_g[l] +
                            u->leaf_per_d * p->leaf_dm_g[l] + u->stem_per_d * p->stem_dm_g[l];
        const double growing = vh_max(0.0, rgr[l]);
        asked[l] = full * y->stems_m2[l] * warmth[l] * (1.0 - vh_exp(-u->growth_d * growing));
    }
}

VH_KERNEL void feed_trusses(struct vh_plant *p, const double *fed, const size_t lanes)
{
    const int first = vh_lowest(p->first_on, lanes), last = vh_highest(p->trusses, lanes);

    for (int t = first; t <= last; t++) {
        const size_t at = vh_row(t, lanes);
        double *restrict dm_g = p->dm_g + at;
        const double *demand_g = p->demand_g + at, *kept = p->kept_of_growth + at;
        VH_APART
        for (size_t l = 0; l < lanes; l++)
            dm_g[l] += fed[l] * demand_g[l] * kept[l];
    }
}

/* Gives every sink the same share of what it asks. */
VH_KERNEL void share_out(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const struct vh_upkeep_params *u = &y->crop->upkeep;
    const double most = y->crop->share.ratio_most;
    double asked[VH_LANES], paid[VH_LANES], demand[VH_LANES], fruit[VH_LANES], suckers[VH_LANES],
        error[VH_LANES];

    upkeep_asked(y, lanes, asked);
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const double reserve = p->reserve_g_m2[l], made = y->assimilate_g_m2[l],
                     stems = y->stems_m2[l];
        const double paid_g = vh_min(asked[l], made + reserve), free_g = made + reserve - paid_g;
        const double green_demand = y->unit_demand_g[l] + y->sucker_demand_g[l];
        const double demand_g =
            (u->fruit_cost * y->fruit_demand_g[l] + u->other_cost * green_demand) * stems;
        const double r = vh_select(demand_g > 0.0, vh_min(free_g / demand_g, most), most);
        const double fed = vh_min(r, 1.0), left = vh_max(0.0, free_g - demand_g);
        const double kept = vh_min(left, u->reserve_most_g_m2);
        const double reserve_after = vh_select(r >= 1.0, kept, 0.0);
        const double over = (left - reserve_after) / (u->other_cost * stems);
        const double units = fed * y->unit_demand_g[l] + vh_select(r >= 1.0, over, 0.0),
                     fruit_g = fed * y->fruit_demand_g[l], sucker_g = fed * y->sucker_demand_g[l];
        const double spent =
            (u->fruit_cost * fruit_g + u->other_cost * (units + sucker_g)) * stems + paid_g +
            reserve_after;
        error[l] = (made + reserve - spent) / vh_max(made + reserve, 1.0);
        paid[l] = paid_g;
        demand[l] = demand_g;
        fruit[l] = fruit_g * stems;
        suckers[l] = sucker_g * stems;
        y->ratio[l] = r;
        y->fed[l] = fed;
        y->units_g[l] = units;
        y->leaf_dm_g[l] = y->leaf_share[l] * units;
        p->reserve_g_m2[l] = reserve_after;
    }
    feed_trusses(p, y->fed, lanes);
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        struct vh_plant_day *out = &y->out[l];
        out->assimilate_g_m2 = y->assimilate_g_m2[l];
        out->maintenance_g_m2 = paid[l];
        out->maintenance_unpaid_g_m2 = asked[l] - paid[l];
        out->demand_g_m2 = demand[l];
        out->ratio = y->ratio[l];
        out->reserve_g_m2 = p->reserve_g_m2[l];
        out->fruit_dm_g_m2 = fruit[l];
        out->sucker_dm_g_m2 = suckers[l];
        out->balance_error = error[l];
    }
}
static VH_LANED(share_out_today, share_out);

/* The stem grows in weight and length; growth, warmth and supply are remembered. */
VH_KERNEL void lengthen(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const struct vh_stem_params *stem = &y->crop->stem;
    const size_t slot = (size_t)(p->turn % VH_HISTORY) * lanes;
    double dif_k[VH_LANES], pace[VH_LANES], fruit[VH_LANES], stem_dm[VH_LANES];

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        dif_k[l] = y->day[l]->dif_k;
        pace[l] = p->factors[l].stem_pace;
        fruit[l] = y->out[l].fruit_dm_g_m2;
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const double dm = y->fruit_dm_start_g[l] + y->body_dm_start_g[l];
        const double grown_g = y->units_g[l] + fruit[l] / y->stems_m2[l];
        stem_dm[l] = y->units_g[l] - y->leaf_dm_g[l];
        p->stem_dm_g[l] += stem_dm[l];
        p->stem_cm[l] +=
            y->made[l] * pace[l] *
            vh_stem_internode_cm(stem, dif_k[l], y->dli_mol_m2_d[l] * y->light_factor[l],
                                 y->ratio[l], y->stems_m2[l]);
        p->rgr_ring[slot + l] = vh_select(dm > 0.0, grown_g / dm, 0.0);
        p->mean_ring[slot + l] = y->mean_c[l];
        p->ratio_ring[slot + l] = y->ratio[l];
    }
    for (size_t l = 0; l < lanes; l++) {
        y->out[l].leaf_dm_g_m2 = y->leaf_dm_g[l] * y->stems_m2[l];
        y->out[l].stem_dm_g_m2 = stem_dm[l] * y->stems_m2[l];
    }
}
static VH_LANED(lengthen_today, lengthen);

/* Leaf intervals a day, mean since set-out: what a new stem has or will have made in so many days
 * must not hang on the weather of the one day on which it is let grow. */
static double mean_leaf_rate(const struct vh_plant *p, size_t l)
{
    return (p->plastochron[l] - p->brought[l]) / (p->days[l] + 1.0);
}

/* What people do to the stem, and how it then stands. */
static void end_day(struct vh_today *y)
{
    struct vh_plant *p = y->p;

    for (size_t l = 0; l < p->lanes; l++) {
        const struct vh_acts *acts = &y->acts[l];
        struct vh_plant_day *out = &y->out[l];
        if (acts->leaves_off > 0.0)
            vh_plant_take_leaves(p, l, acts->leaves_off);
        if (acts->heads_factor != 1.0)
            vh_plant_change_heads(p, l, acts, mean_leaf_rate(p, l));
        if (acts->top)
            top(p, l);
        p->days[l]++;
        out->lai = p->leaf_area_m2[l] * vh_plant_stems_m2(p, l);
        out->stem_cm = p->stem_cm[l];
        out->leaves = vh_plant_leaves_on_stem(p, l);
        out->leaves_made = p->leaves_made[l];
        out->flowering_truss = vh_max(0.0, vh_plant_flowering(p, l));
        out->picking_truss = vh_plant_picking_truss(p, l);
    }
    p->turn++;
}

void vh_plant_step_lanes(struct vh_plant *p, const struct vh_day *const *day,
                         const struct vh_acts *acts, struct vh_plant_day *out)
{
    struct vh_today y;

    y.p = p;
    y.crop = p->setup.crop;
    y.day = day;
    y.acts = acts;
    y.out = out;
    begin_day(&y);
    vh_plant_pull_suckers(&y);
    assimilate_today(&y);
    vh_plant_run_clocks(&y);
    if (y.crop->fruit.pick_by == VH_PICK_BY_MASS)
        vh_plant_age_sized(&y);
    else
        vh_plant_age_staged(&y);
    ask_units_today(&y);
    vh_plant_ask_suckers(&y);
    share_out_today(&y);
    vh_plant_grow_suckers(&y);
    vh_plant_grow_leaves(&y);
    vh_plant_drop_young(&y);
    lengthen_today(&y);
    end_day(&y);
}

void vh_plant_step(struct vh_plant *p, const struct vh_day *day, const struct vh_acts *acts,
                   struct vh_plant_day *out)
{
    vh_plant_step_lanes(p, &day, acts, out);
}
