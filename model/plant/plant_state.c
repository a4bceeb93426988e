#include "vh_plant_state.h"

#include <stdlib.h>
#include <string.h>

#include "vh_math.h"
#include "vh_wide.h"

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))
#define AT(field) offsetof(struct vh_plant, field)

/* Where a plant's arrays lie in it: [lane], [VH_HISTORY][lane], [leaf][lane], [truss][lane]. */
static const size_t lane_array[] = {
    AT(plastochron),    AT(leaves_made),  AT(leaves_gone),         AT(flowering_most),
    AT(heads),          AT(leaf_area_m2), AT(leaf_dm_g),           AT(stem_dm_g),
    AT(stem_cm),        AT(reserve_g_m2), AT(light_mean_mol_m2_d), AT(last_unit_demand_g),
    AT(last_set_share), AT(last_seeded),  AT(sucker_area_m2),      AT(brought),
    AT(pick_from_cd),   AT(late_share),   AT(late_from)};
static const size_t ring_array[] = {AT(rgr_ring), AT(mean_ring), AT(ratio_ring)};
static const size_t leaf_array[] = {AT(leaf_m2),      AT(leaf_expanded), AT(leaf_want_m2),
                                    AT(leaf_lacking), AT(sucker_g),      AT(sucker_on),
                                    AT(sucker_cd),    AT(sucker_gain_g), AT(sucker_own)};
static const size_t truss_array[] = {
    AT(opened_d),     AT(flowers),           AT(set),          AT(kept),
    AT(thin_stage),   AT(thinned_d),         AT(stage),        AT(age_d),
    AT(age_cd),       AT(rad_sum),           AT(rad_days),     AT(log_rad),
    AT(temp_sum),     AT(weights),           AT(fruits),       AT(dm_g),
    AT(picked_share), AT(picked_mass_share), AT(picked_n),     AT(picked_dm_g),
    AT(picked_g),     AT(aborted),           AT(ripe_first_d), AT(ripe_last_d),
    AT(demand_g),     AT(kept_of_growth),    AT(dm_content),   AT(seeded),
    AT(young_cd),     AT(pace_sum),          AT(on_stems),     AT(stage_gain),
    AT(grown_share),  AT(thin_share),        AT(opened_on)};

static double *array_of(const struct vh_plant *p, size_t at)
{
    double *array;

    memcpy(&array, (const char *)p + at, sizeof array);
    return array;
}

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

/* Of a stem alone whole registers reach behind the last truss or leaf. */
static size_t with_room(size_t most)
{
    return most + VH_SIDE - 1;
}

static void carve(struct vh_plant *p, const size_t *at, size_t arrays, size_t each, double **next)
{
    for (size_t i = 0; i < arrays; i++) {
        memcpy((char *)p + at[i], next, sizeof *next);
        *next += each;
    }
}

/* Numbers in a line of the cache: rows of all lanes begin with one. */
enum { ROW = 8 };

static void lay_out(struct vh_plant *p)
{
    const size_t l = p->lanes;
    double *next = p->room->at + ROW - (uintptr_t)p->room->at / sizeof(double) % ROW;

    carve(p, truss_array, COUNT(truss_array), with_room(p->trusses_most) * l, &next);
    carve(p, leaf_array, COUNT(leaf_array), with_room(p->leaves_most) * l, &next);
    carve(p, ring_array, COUNT(ring_array), VH_HISTORY * l, &next);
    carve(p, lane_array, COUNT(lane_array), l, &next);
}

static void copy_rows(const struct vh_plant *from, struct vh_plant *to, size_t lane,
                      const size_t *at, size_t arrays, size_t rows)
{
    for (size_t i = 0; i < arrays; i++) {
        const double *in = array_of(from, at[i]);
        double *out = array_of(to, at[i]) + lane;
        for (size_t k = 0; k < rows; k++)
            out[k * to->lanes] = in[k];
    }
}

void vh_plant_take_in(struct vh_plant *p, size_t lane, const struct vh_plant *alone)
{
    const size_t leaves = alone->leaves_most < p->leaves_most ? alone->leaves_most : p->leaves_most,
                 trusses =
                     alone->trusses_most < p->trusses_most ? alone->trusses_most : p->trusses_most;

    copy_rows(alone, p, lane, lane_array, COUNT(lane_array), 1);
    copy_rows(alone, p, lane, leaf_array, COUNT(leaf_array), leaves);
    copy_rows(alone, p, lane, truss_array, COUNT(truss_array), trusses);
    for (size_t i = 0; i < COUNT(ring_array); i++)
        for (int back = 1; back <= VH_HISTORY; back++)
            array_of(p, ring_array[i])[(size_t)(p->turn - back) % VH_HISTORY * p->lanes + lane] =
                array_of(alone, ring_array[i])[(size_t)(alone->turn - back) % VH_HISTORY];
    p->factors[lane] = alone->factors[0];
    p->trusses[lane] = alone->trusses[0];
    p->days[lane] = alone->days[0];
    p->first_on[lane] = alone->first_on[0];
    p->first_leaf_growing[lane] = alone->first_leaf_growing[0];
    p->first_sucker[lane] = alone->first_sucker[0];
    p->last_axil[lane] = alone->last_axil[0];
    p->first_bud[lane] = alone->first_bud[0];
    p->topped[lane] = alone->topped[0];
}

/* The young plant at set-out: leaves by their age, stem and root in the published split. */
static void set_out(struct vh_plant *p, size_t lane)
{
    const struct vh_leaf_params *leaf = &p->setup.crop->leaf;
    const double n = p->brought[lane];
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
    p->first_bud[lane] = 1;
    p->plastochron[lane] = n;
    p->leaves_made[lane] = n;
    p->flowering_most[lane] = VH_ENDLESS;
    p->heads[lane] = p->setup.heads_per_plant;
    p->leaf_area_m2[lane] = area;
    p->leaf_dm_g[lane] = area / leaf->seed_m2_g;
    p->stem_dm_g[lane] = p->leaf_dm_g[lane] * (1.0 - leaf->seed_dm_share) / leaf->seed_dm_share;
    p->stem_cm[lane] = n * p->setup.crop->stem.seedling_internode_cm;
}

static bool make_room(struct vh_plant_room *room, size_t numbers)
{
    if (room->numbers < numbers) {
        vh_plant_room_clear(room);
        room->at = malloc(numbers * sizeof *room->at);
        room->numbers = room->at ? numbers : 0;
    }
    if (room->at)
        memset(room->at, 0, numbers * sizeof *room->at);
    return room->at != NULL;
}

void vh_plant_room_clear(struct vh_plant_room *room)
{
    free(room->at);
    *room = (struct vh_plant_room){NULL, 0};
}

static bool allocate(struct vh_plant *p)
{
    const size_t l = p->lanes;
    const size_t numbers = ROW + l * (COUNT(lane_array) + COUNT(ring_array) * VH_HISTORY +
                                      COUNT(leaf_array) * with_room(p->leaves_most) +
                                      COUNT(truss_array) * with_room(p->trusses_most));

    if (!make_room(p->room, numbers))
        return false;
    p->factors = calloc(l, sizeof *p->factors);
    p->trusses = calloc(l, sizeof *p->trusses);
    p->days = calloc(l, sizeof *p->days);
    p->first_on = calloc(l, sizeof *p->first_on);
    p->first_leaf_growing = calloc(l, sizeof *p->first_leaf_growing);
    p->first_sucker = calloc(l, sizeof *p->first_sucker);
    p->last_axil = calloc(l, sizeof *p->last_axil);
    p->first_bud = calloc(l, sizeof *p->first_bud);
    p->topped = calloc(l, sizeof *p->topped);
    return p->factors && p->trusses && p->days && p->first_on && p->first_leaf_growing &&
           p->first_sucker && p->last_axil && p->first_bud && p->topped;
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
static double youngest_pick_cd(const struct vh_fruit_params *f, double pick_from_g)
{
    const double mass_g = pick_from_g / (1.0 + VH_SCATTER_FAR * f->pick_cv);
    const double oldest_cd = f->oldest_cd * (1.0 - VH_SCATTER_FAR * f->age_scatter);

    if (mass_g <= f->start_g)
        return 0.0;
    const double grown_cd =
        vh_log((f->cap_g / f->start_g - 1.0) / (f->cap_g / mass_g - 1.0)) / f->growth_per_cd;
    return vh_max(0.0, vh_min(grown_cd, oldest_cd));
}

double vh_plant_least_pick_d(const struct vh_crop *crop, double pick_stage, double pick_from_g)
{
    const double hottest_c = crop->truss.fall_c;
    const struct vh_clock_params *c = &crop->clock;

    if (crop->fruit.pick_by == VH_PICK_BY_MASS)
        return youngest_pick_cd(&crop->fruit, pick_from_g) /
               (hottest_c - crop->fruit.growth_base_c);
    return pick_stage * vh_clock_days_to_ripe(c, hottest_c, c->std_rad_mj_m2_d, c->std_truss);
}

void vh_plant_look_from(struct vh_plant *p)
{
    const double from_cd = youngest_pick_cd(&p->setup.crop->fruit, p->setup.pick_from_g);

    for (size_t l = 0; l < p->lanes; l++)
        p->pick_from_cd[l] = from_cd / vh_max(1.0, p->factors[l].fruit_mass);
}

struct vh_plant *vh_plant_create(const struct vh_plant_setup *setup,
                                 const struct vh_factors *factors, size_t lanes, size_t days)
{
    const struct vh_crop *crop = setup->crop;
    struct vh_plant *p = calloc(1, sizeof *p);
    double fastest = 1.0, brought = 0.0;

    if (!p)
        return NULL;
    for (size_t l = 0; l < lanes; l++) {
        fastest = vh_max(fastest, factors[l].truss_pace);
        brought = vh_max(brought, setup[l].seedling_leaves);
    }
    p->setup = *setup;
    if (!(p->setup.flowers > 0.0))
        p->setup.flowers = crop->flower.flowers;
    p->lanes = lanes;
    p->room = setup->room ? setup->room : &p->own_room;
    p->registers = vh_registers();
    p->leaves_most = (size_t)(most_leaves_per_d(crop) * fastest * (double)days + brought) + 4;
    p->trusses_most = (size_t)((double)p->leaves_most / crop->truss.leaves_per_truss) + 4;
    if (!allocate(p) || !has_tables(p)) {
        vh_plant_free(p);
        return NULL;
    }
    lay_out(p);
    for (size_t l = 0; l < lanes; l++) {
        p->factors[l] = factors[l];
        p->brought[l] = setup[l].seedling_leaves;
        set_out(p, l);
    }
    vh_plant_look_from(p);
    return p;
}

void vh_plant_free(struct vh_plant *p)
{
    if (!p)
        return;
    vh_plant_room_clear(&p->own_room);
    free(p->factors);
    free(p->trusses);
    free(p->days);
    free(p->first_on);
    free(p->first_leaf_growing);
    free(p->first_sucker);
    free(p->last_axil);
    free(p->first_bud);
    free(p->topped);
    free(p->own);
    free(p);
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

double vh_plant_weights(const struct vh_plant *p, size_t i, double fruits)
{
    const double on = p->on_stems[i];
    const struct vh_fruit_params *f = &p->setup.crop->fruit;

    return on > 0.0 ? on * vh_fruit_weights_sum(f, fruits / on) : vh_fruit_weights_sum(f, fruits);
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
        .kept = p->kept[i] / p->thin_share[i],
        .thin_share = p->thin_share[i],
        .opened_on = p->opened_on[i],
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
        .seeded = p->seeded[i],
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
    const double behind = 1e-9; /* rounding must not open it on the evening before */
    double leaves = crop->truss.leaves_below_first + crop->truss.leaves_ahead - behind;
    for (size_t d = 0; d < days; d++)
        leaves -= leaf_rate_per_d[d];
    return vh_max(leaves, 1.0);
}
