#include "vh_plant_state.h"

#include <stdlib.h>

#include "vh_math.h"
#include "vh_wide.h"

enum { LANE_ARRAYS = 14, RINGS = 3, TRUSS_ARRAYS = 33, LEAF_ARRAYS = 8 };

double vh_plant_most_trusses_per_d(const struct vh_crop *crop)
{
    const double hottest_c = crop->truss.fall_c, brightest_mol = crop->node.brightest_mol_m2_d;
    if (crop->truss.clock_by == VH_CLOCK_BY_NODE)
        return vh_node_rate_per_d(&crop->node, &crop->truss, hottest_c, brightest_mol);
    return vh_truss_rate_per_d(&crop->truss, hottest_c, 0.0);
}

static double most_leaves_per_d(const struct vh_crop *crop)
{
    const bool by_node = crop->truss.clock_by == VH_CLOCK_BY_NODE;
    return (by_node ? 1.0 : crop->truss.leaves_per_truss) * vh_plant_most_trusses_per_d(crop);
}

static double *carve(double **next, size_t n)
{
    double *here = *next;
    *next += n;
    return here;
}

/* Whole wide registers reach behind the last truss or leaf (vh_turns). */
static size_t with_room(size_t most)
{
    return most + VH_SIDE - 1;
}

static void lay_out(struct vh_plant *p)
{
    const size_t l = p->lanes, ring = VH_HISTORY * l;
    double *next = p->block;
    double **lane_array[LANE_ARRAYS] = {
        &p->plastochron, &p->leaves_made,   &p->leaves_gone,        &p->flowering_most,
        &p->heads,       &p->leaf_area_m2,  &p->leaf_dm_g,          &p->stem_dm_g,
        &p->stem_cm,     &p->reserve_g_m2,  &p->last_unit_demand_g, &p->last_set_share,
        &p->last_seeded, &p->sucker_area_m2};
    double **ring_array[RINGS] = {&p->rgr_ring, &p->mean_ring, &p->ratio_ring};
    double **truss_array[TRUSS_ARRAYS] = {
        &p->opened_d,     &p->flowers,           &p->set,          &p->kept,
        &p->thin_stage,   &p->thinned_d,         &p->stage,        &p->age_d,
        &p->age_cd,       &p->rad_sum,           &p->rad_days,     &p->log_rad,
        &p->temp_sum,     &p->weights,           &p->fruits,       &p->dm_g,
        &p->picked_share, &p->picked_mass_share, &p->picked_n,     &p->picked_dm_g,
        &p->picked_g,     &p->aborted,           &p->ripe_first_d, &p->ripe_last_d,
        &p->demand_g,     &p->kept_of_growth,    &p->dm_content,   &p->seeded,
        &p->young_cd,     &p->pace_sum,          &p->on_stems,     &p->stage_gain,
        &p->grown_share};

    for (size_t i = 0; i < LANE_ARRAYS; i++)
        *lane_array[i] = carve(&next, l);
    for (size_t i = 0; i < RINGS; i++)
        *ring_array[i] = carve(&next, ring);
    double **leaf_array[LEAF_ARRAYS] = {&p->leaf_m2,       &p->leaf_expanded, &p->leaf_lacking,
                                        &p->sucker_g,      &p->sucker_on,     &p->sucker_cd,
                                        &p->sucker_gain_g, &p->sucker_own};
    for (size_t i = 0; i < LEAF_ARRAYS; i++)
        *leaf_array[i] = carve(&next, with_room(p->leaves_most) * l);
    for (size_t i = 0; i < TRUSS_ARRAYS; i++)
        *truss_array[i] = carve(&next, with_room(p->trusses_most) * l);
}

/* The young plant at set-out: leaves by their age, stem and root in the published split. */
static void set_out(struct vh_plant *p, size_t lane)
{
    const struct vh_leaf_params *leaf = &p->setup.crop->leaf;
    const double n = p->setup.seedling_leaves;
    const double born_at = leaf->born_at; /* the i-th leaf unfolds when the clock passes i - that */
    double area = 0.0;

    for (int i = 1; (double)i < n + born_at; i++) {
        const double expanded = vh_leaf_expanded(leaf, n - i + born_at);
        const double m2 = vh_leaf_potential_m2(leaf, i) * expanded;
        p->leaf_expanded[vh_at(p, i, lane)] = expanded;
        p->leaf_m2[vh_at(p, i, lane)] = m2;
        area += m2;
    }
    p->first_on[lane] = 1;
    p->first_leaf_growing[lane] = 1;
    p->first_sucker[lane] = 1;
    p->plastochron[lane] = n;
    p->leaves_made[lane] = n;
    p->flowering_most[lane] = VH_ENDLESS;
    p->heads[lane] = p->setup.heads_per_plant;
    p->leaf_area_m2[lane] = area;
    p->leaf_dm_g[lane] = area / leaf->seed_m2_g;
    p->stem_dm_g[lane] = p->leaf_dm_g[lane] * (1.0 - leaf->seed_dm_share) / leaf->seed_dm_share;
    p->stem_cm[lane] = n * p->setup.crop->stem.seedling_internode_cm;
}

static bool allocate(struct vh_plant *p)
{
    const size_t l = p->lanes;
    const size_t numbers =
        l * (LANE_ARRAYS + RINGS * VH_HISTORY + LEAF_ARRAYS * with_room(p->leaves_most) +
             TRUSS_ARRAYS * with_room(p->trusses_most));

    p->block = calloc(numbers, sizeof *p->block);
    p->factors = calloc(l, sizeof *p->factors);
    p->trusses = calloc(l, sizeof *p->trusses);
    p->days = calloc(l, sizeof *p->days);
    p->first_on = calloc(l, sizeof *p->first_on);
    p->first_leaf_growing = calloc(l, sizeof *p->first_leaf_growing);
    p->first_sucker = calloc(l, sizeof *p->first_sucker);
    p->last_axil = calloc(l, sizeof *p->last_axil);
    p->topped = calloc(l, sizeof *p->topped);
    return p->block && p->factors && p->trusses && p->days && p->first_on &&
           p->first_leaf_growing && p->first_sucker && p->last_axil && p->topped;
}

static bool has_tables(struct vh_plant *p)
{
    p->tables = p->setup.tables;
    if (p->tables)
        return true;
    p->own = calloc(1, sizeof *p->own);
    if (!p->own)
        return false;
    p->tables = p->own;
    vh_fruit_curve_init(&p->setup.crop->fruit, &p->own->curve);
    vh_scatter_init(&p->own->scatter);
    vh_pollen_init(&p->setup.crop->flower, &p->own->pollen);
    return true;
}

/* Degree-days that the best-fed fruit needs to the lightest mass that can be picked: the logistic
 * step, turned round. */
static double youngest_pick_cd(const struct vh_plant_setup *setup)
{
    const struct vh_fruit_params *f = &setup->crop->fruit;
    const double mass_g = setup->pick_from_g / (1.0 + VH_SCATTER_FAR * f->pick_cv);
    const double oldest_cd = f->oldest_cd * (1.0 - VH_SCATTER_FAR * f->age_scatter);

    if (mass_g <= f->start_g)
        return 0.0;
    const double grown_cd =
        vh_log((f->cap_g / f->start_g - 1.0) / (f->cap_g / mass_g - 1.0)) / f->growth_per_cd;
    return vh_max(0.0, vh_min(grown_cd, oldest_cd));
}

struct vh_plant *vh_plant_create(const struct vh_plant_setup *setup,
                                 const struct vh_factors *factors, size_t lanes, size_t days)
{
    const struct vh_crop *crop = setup->crop;
    struct vh_plant *p = calloc(1, sizeof *p);
    double fastest = 1.0, heaviest = 1.0;

    if (!p)
        return NULL;
    for (size_t l = 0; l < lanes; l++) {
        fastest = vh_max(fastest, factors[l].truss_pace);
        heaviest = vh_max(heaviest, factors[l].fruit_mass);
    }
    p->setup = *setup;
    p->lanes = lanes;
    p->wide = vh_can_go_wide();
    p->leaves_most =
        (size_t)(most_leaves_per_d(crop) * fastest * (double)days + setup->seedling_leaves) + 4;
    p->trusses_most = (size_t)((double)p->leaves_most / crop->truss.leaves_per_truss) + 4;
    if (!allocate(p) || !has_tables(p)) {
        vh_plant_free(p);
        return NULL;
    }
    lay_out(p);
    p->pick_from_cd = youngest_pick_cd(setup) / heaviest;
    for (size_t l = 0; l < lanes; l++) {
        p->factors[l] = factors[l];
        set_out(p, l);
    }
    return p;
}

void vh_plant_free(struct vh_plant *p)
{
    if (!p)
        return;
    free(p->block);
    free(p->factors);
    free(p->trusses);
    free(p->days);
    free(p->first_on);
    free(p->first_leaf_growing);
    free(p->first_sucker);
    free(p->last_axil);
    free(p->topped);
    free(p->own);
    free(p);
}

double vh_ring_mean(const struct vh_plant *p, const double *ring, size_t lane, int done,
                    int from_back, int to_back, double fallback)
{
    double sum = 0.0;
    int n = 0;
    for (int back = to_back; back <= from_back && back <= done; back++) {
        if (back < 1)
            continue; /* 1: the last day done */
        sum += ring[(size_t)(done - back) % VH_HISTORY * p->lanes + lane];
        n++;
    }
    return n ? sum / n : fallback;
}

double vh_plant_flowering(const struct vh_plant *p, size_t lane)
{
    const struct vh_truss_params *t = &p->setup.crop->truss;
    const double ahead = p->plastochron[lane] - (t->leaves_below_first + t->leaves_ahead);
    return vh_min(1.0 + ahead / t->leaves_per_truss, p->flowering_most[lane]);
}

double vh_plant_leaves_on_stem(const struct vh_plant *p, size_t lane)
{
    return p->leaves_made[lane] - p->leaves_gone[lane];
}

int vh_plant_trusses(const struct vh_plant *p, size_t lane)
{
    return p->trusses[lane];
}
int vh_plant_next_truss(const struct vh_plant *p, size_t lane)
{
    return p->trusses[lane] + 1;
}

double vh_plant_stems_m2(const struct vh_plant *p, size_t lane)
{
    return p->setup.plants_per_m2 * p->heads[lane];
}

double vh_plant_fruit_dm(const struct vh_plant *p, size_t lane)
{
    double sum = 0.0;
    for (int t = p->first_on[lane]; t <= p->trusses[lane]; t++) /* what is finished weighs 0 */
        sum += p->dm_g[vh_at(p, t, lane)];
    return sum;
}

double vh_plant_leaf_dm(const struct vh_plant *p, size_t lane)
{
    return p->leaf_dm_g[lane];
}
double vh_plant_stem_dm(const struct vh_plant *p, size_t lane)
{
    return p->stem_dm_g[lane];
}

/* The lowest truss that still carries fruit to pick; real between two trusses as its fruits go. */
double vh_plant_picking_truss(const struct vh_plant *p, size_t lane)
{
    for (int t = p->first_on[lane]; t <= p->trusses[lane]; t++) {
        const size_t i = vh_at(p, t, lane);
        if (p->fruits[i] > 0.0 && p->picked_share[i] < 1.0 - 1e-6)
            return p->picked_share[i] > 0.0 ? t + p->picked_share[i] : t;
    }
    return p->trusses[lane] + 1.0;
}

double vh_plant_leaves_below_picking(const struct vh_plant *p, size_t lane)
{
    const struct vh_truss_params *t = &p->setup.crop->truss;
    const double truss = vh_plant_picking_truss(p, lane);
    const double below = t->leaves_below_first + (truss - 1.0) * t->leaves_per_truss;
    return vh_max(0.0, below - p->leaves_gone[lane]);
}

double vh_plant_dm_content(const struct vh_plant *p, size_t i)
{
    const double mean_c =
        p->age_d[i] > 0.0 ? p->temp_sum[i] / p->age_d[i] : p->setup.crop->fruit.dm_content_ref_c;
    return vh_fruit_dm_content(&p->setup.crop->fruit, mean_c, p->setup.feed_ec_ms_cm);
}

struct vh_truss_view vh_plant_truss(const struct vh_plant *p, size_t lane, int number)
{
    const size_t i = vh_at(p, number, lane);
    return (struct vh_truss_view){
        .opened_d = p->opened_d[i],
        .flowers = p->flowers[i],
        .set = p->set[i],
        .kept = p->kept[i],
        .aborted = p->aborted[i],
        .ripe_first_d = p->ripe_first_d[i],
        .ripe_last_d = p->ripe_last_d[i],
        .thinned_d = p->thinned_d[i],
        .fruits_on = p->fruits[i] * (1.0 - p->picked_share[i]),
        .dm_g = p->dm_g[i],
        .picked_fruits = p->picked_n[i],
        .picked_dm_g = p->picked_dm_g[i],
        .picked_g = p->picked_g[i],
        .stage = p->stage[i],
    };
}

double vh_plant_leaf_rate_per_d(const struct vh_crop *crop, const struct vh_day *day,
                                double light_factor, double flowering)
{
    const double per_d =
        crop->truss.clock_by == VH_CLOCK_BY_NODE
            ? vh_node_rate_per_d(&crop->node, &crop->truss, day->mean_c,
                                 day->dli_mol_m2_d * light_factor)
            : crop->truss.leaves_per_truss *
                  vh_truss_rate_per_d(&crop->truss, day->mean_c, vh_max(1.0, flowering));
    return per_d * day->clock_share;
}

double vh_plant_leaves_at_truss(const struct vh_crop *crop, double truss)
{
    const struct vh_truss_params *t = &crop->truss;
    return t->leaves_below_first + t->leaves_ahead + (truss - 1.0) * t->leaves_per_truss;
}

double vh_plant_leaves_for_first_flower(const struct vh_crop *crop, const double *leaf_rate_per_d,
                                        size_t days)
{
    double leaves = crop->truss.leaves_below_first + crop->truss.leaves_ahead;
    for (size_t d = 0; d < days; d++)
        leaves -= leaf_rate_per_d[d];
    return vh_max(leaves, 1.0);
}
