#include "vh_season.h"

#include <stdlib.h>

#include "vh_due.h"
#include "vh_math.h"
#include "vh_visits.h"

void vh_season_day_of(const struct vh_climate *c, const struct vh_crop *crop,
                      const struct vh_fgp *fgp, int64_t day, struct vh_day *out)
{
    const size_t at = (size_t)(day - c->first_day) * VH_HOURS_PER_DAY;
    vh_day_init(out, crop, fgp, c->t_c + at, c->par_umol_m2_s + at, c->co2_ppm + at);
}

/* Leaves at set-out: as given, or as many as let the first truss open on the day that was seen or
 * is expected. */
static enum vh_status seedling_leaves(const struct vh_house *house, const struct vh_planting *p,
                                      const struct vh_fgp *fgp, double light_factor,
                                      double truss_pace, double *leaves, struct vh_season *out)
{
    const double smallest = 1.0; /* a plant has one leaf */
    double wait = vh_plant_leaves_at_truss(p->crop, 1.0) - smallest;
    const int64_t days = p->has_first_flower ? p->first_flower - p->set_out : 0;
    double *rate;

    *leaves = p->seedling_leaves;
    if (!p->has_first_flower)
        return VH_OK;
    rate = calloc((size_t)(days > 0 ? days : 0) + 1, sizeof *rate);
    if (!rate)
        return VH_NO_MEMORY;
    for (int64_t d = 0; d < days; d++) {
        struct vh_day day;
        vh_season_day_of(&house->climate, p->crop, fgp, p->set_out + d, &day);
        rate[d] = truss_pace * vh_plant_leaf_rate_per_d(p->crop, &day, light_factor, 0.0);
        wait -= rate[d];
        if (wait < 0.0 && !out->flowers_sooner) {
            out->flowers_sooner = true;
            out->flowers_by = p->set_out + d;
        }
    }
    *leaves = vh_plant_leaves_for_first_flower(p->crop, rate, (size_t)(days > 0 ? days : 0));
    free(rate);
    return VH_OK;
}

/* Where an older crop begins: so many days before it is seen, with so many leaves made by then,
 * that its clocks arrive at what is seen. */
struct beginning {
    int64_t days_before;
    double leaves;
};

static enum vh_status begin_standing(const struct vh_house *house, const struct vh_planting *p,
                                     const struct vh_fgp *fgp, double light_factor,
                                     double truss_pace, struct beginning *out)
{
    const int64_t room = p->set_out - house->climate.first_day;
    const int64_t warm_up = (int64_t)p->crop->habit.warm_up_d;
    double leaves = vh_plant_leaves_at_truss(p->crop, p->standing.flowering_truss);
    int64_t back = 0;

    while (back < warm_up && back < room && leaves > p->crop->habit.seedling_leaves) {
        struct vh_day day;
        const double ahead = p->crop->truss.leaves_below_first + p->crop->truss.leaves_ahead;
        vh_season_day_of(&house->climate, p->crop, fgp, p->set_out - ++back, &day);
        leaves -= truss_pace * vh_plant_leaf_rate_per_d(p->crop, &day, light_factor,
                                                        1.0 + (leaves - ahead) /
                                                                  p->crop->truss.leaves_per_truss);
    }
    *out = (struct beginning){back, vh_max(leaves, 1.0)};
    return VH_OK;
}

static struct vh_plant_setup setup_of(const struct vh_planting *p,
                                      const struct vh_crop_tables *tables, double leaves,
                                      double breaker_stage)
{
    return (struct vh_plant_setup){
        .crop = p->crop,
        .tables = tables,
        .plants_per_m2 = p->plants_per_m2,
        .heads_per_plant = p->heads_per_plant,
        .usual_fruit_g = p->usual_fruit_g,
        .feed_ec_ms_cm = p->feed_ec_ms_cm,
        .seedling_leaves = leaves,
        .pick_stage = vh_policy_on(&p->policy, p->set_out)->pick_stage,
        .pick_from_g = p->policy.pick_from_g,
        .whole_truss = p->policy.whole_truss,
        .breaker_stage = breaker_stage,
    };
}

/* The weeks before a standing crop is seen: they give it its fruits, its reserve and its hunger;
 * then what is seen holds. */
static void warm_up(const struct vh_house *house, const struct vh_planting *p,
                    const struct vh_fgp *fgp, struct vh_plant *plant, int64_t days)
{
    const struct vh_standing *s = &p->standing;
    const struct vh_plant_seen seen = {s->flowering_truss, s->picking_truss, s->stem_cm,
                                       s->leaves,          s->fruits,        s->trusses};
    const int64_t first = p->set_out - days;
    const double leaves =
        s->leaves > 0.0 ? s->leaves : vh_policy_on(&p->policy, first)->leaves_keep;
    struct vh_policy before = p->policy;

    before.head_changes = 0;
    before.has_top = false;
    if (vh_plant_leaves_on_stem(plant, 0) > p->crop->habit.seedling_leaves)
        vh_plant_stand(plant, 0, leaves);
    for (int64_t d = 0; d < days; d++) {
        struct vh_day climate;
        struct vh_plant_day unseen;
        vh_season_day_of(&house->climate, p->crop, fgp, first + d, &climate);
        const struct vh_acts acts =
            vh_policy_acts(&before, p->crop, plant, 0, first, first + d, p->heads_per_plant);
        vh_plant_step(plant, 0, &climate, &acts, &unseen);
        if (vh_rhythm_due(&before.pick, first, first + d))
            vh_plant_pick(plant, 0);
    }
    vh_plant_correct(plant, 0, &seen);
}

/* What a stem weighs with its leaves and fruits, fresh. */
static double hanging_kg(const struct vh_planting *p, const struct vh_plant *plant)
{
    const double g_per_kg = 1000.0;
    const double green = vh_plant_leaf_dm(plant, 0) + vh_plant_stem_dm(plant, 0);

    return (vh_plant_fruit_dm(plant, 0) / p->crop->fruit.dm_content_20 +
            green / p->crop->hang.green_dm_content) /
           g_per_kg;
}

/* A truss whose days count from the day the crop is seen. */
static struct vh_truss_view count_from(struct vh_truss_view v, double days)
{
    v.opened_d -= days;
    v.thinned_d -= days;
    v.ripe_first_d -= days;
    v.ripe_last_d -= days;
    return v;
}

static enum vh_status keep_trusses(const struct vh_plant *plant, double days_before,
                                   struct vh_truss_view **truss, size_t *trusses)
{
    *trusses = (size_t)vh_plant_trusses(plant, 0);
    *truss = calloc(*trusses + 1, sizeof **truss);
    if (!*truss)
        return VH_NO_MEMORY;
    for (size_t t = 0; t < *trusses; t++)
        (*truss)[t] = count_from(vh_plant_truss(plant, 0, (int)t + 1), days_before);
    return VH_OK;
}

/* Where the planting asks for a look on this day, before the pick. */
static enum vh_status look(const struct vh_house *house, const struct vh_planting *p,
                           const struct vh_plant *plant, int64_t date, double days_before,
                           struct vh_season *out)
{
    for (size_t i = 0; i < p->looks; i++) {
        struct vh_look *l = &out->look[i];
        if (p->look[i] != date)
            continue;
        const double breaker = vh_plant_fruits_past(plant, 0, house->colours.breaker),
                     turning = vh_plant_fruits_past(plant, 0, house->colours.turning),
                     pink = vh_plant_fruits_past(plant, 0, house->colours.pink);
        l->breaker_fruits = breaker - turning;
        l->turning_fruits = turning - pink;
        return keep_trusses(plant, days_before, &l->truss, &l->trusses);
    }
    return VH_OK;
}

static enum vh_status run_days(const struct vh_house *house, const struct vh_planting *p,
                               const struct vh_fgp *fgp, struct vh_plant *plant,
                               const struct vh_truss_watch *watch, double days_before,
                               struct vh_season *out)
{
    double heads = p->heads_per_plant;
    enum vh_status status = VH_OK;

    for (size_t d = 0; d < out->days && status == VH_OK; d++) {
        const int64_t date = p->set_out + (int64_t)d;
        struct vh_season_day *day = &out->day[d];
        struct vh_day climate;
        vh_season_day_of(&house->climate, p->crop, fgp, date, &climate);
        const struct vh_acts acts =
            vh_policy_acts(&p->policy, p->crop, plant, 0, p->set_out, date, heads);
        if (p->policy.before && date == p->policy.from)
            vh_plant_pick_at(plant, p->policy.pick_stage);
        vh_plant_step(plant, 0, &climate, &acts, &day->plant);
        heads *= acts.heads_factor;
        day->stems = p->plants * heads;
        day->stems_m2 = p->plants_per_m2 * heads;
        day->pick_day = vh_pick_planned(&p->policy, p->set_out, date) ||
                        (d + 1 == out->days && !vh_pick_locked(&p->policy, date));
        if (p->looks > 0)
            status = look(house, p, plant, date, days_before, out);
        if (day->pick_day)
            day->picked = vh_plant_pick(plant, 0);
        day->hanging_kg = hanging_kg(p, plant);
        if (watch && watch->truss <= vh_plant_trusses(plant, 0))
            watch->day[d] = vh_plant_truss(plant, 0, watch->truss);
        out->worst_balance = vh_max(out->worst_balance, fabs(day->plant.balance_error));
    }
    return status;
}

enum vh_status vh_season_run(const struct vh_house *house, const struct vh_planting *p,
                             double light_factor, double breaker_stage,
                             const struct vh_factors *factors, struct vh_season *out)
{
    return vh_season_watch(house, p, light_factor, breaker_stage, factors, NULL, out);
}

static enum vh_status grow(const struct vh_house *house, const struct vh_planting *p,
                           double breaker_stage, const struct vh_factors *own,
                           const struct vh_crop_tables *tables, const struct vh_truss_watch *watch,
                           struct vh_season *out)
{
    const struct vh_fgp *fgp = &tables->fgp;
    struct beginning begin = {0, 0.0};
    enum vh_status status =
        p->standing.given
            ? begin_standing(house, p, fgp, own->light, own->truss_pace, &begin)
            : seedling_leaves(house, p, fgp, own->light, own->truss_pace, &begin.leaves, out);

    if (status != VH_OK)
        return status;
    const struct vh_plant_setup setup = setup_of(p, tables, begin.leaves, breaker_stage);
    struct vh_plant *plant = vh_plant_create(&setup, own, 1, out->days + (size_t)begin.days_before);
    out->day = calloc(out->days, sizeof *out->day);
    out->look = calloc(p->looks + 1, sizeof *out->look);
    if (plant && out->day && out->look) {
        const double before = (double)begin.days_before;
        if (p->standing.given)
            warm_up(house, p, fgp, plant, begin.days_before);
        status = run_days(house, p, fgp, plant, watch, before, out);
        if (status == VH_OK)
            status = keep_trusses(plant, before, &out->truss, &out->trusses);
    } else {
        status = VH_NO_MEMORY;
    }
    vh_plant_free(plant);
    if (status != VH_OK)
        vh_season_clear(out);
    return status;
}

enum vh_status vh_season_watch(const struct vh_house *house, const struct vh_planting *p,
                               double light_factor, double breaker_stage,
                               const struct vh_factors *factors, const struct vh_truss_watch *watch,
                               struct vh_season *out)
{
    struct vh_factors own = *factors;
    struct vh_crop_tables *tables = p->tables ? NULL : malloc(sizeof *tables);
    enum vh_status status = VH_OK;

    *out = (struct vh_season){.planting = p,
                              .factors = *factors,
                              .first_day = p->set_out,
                              .days = (size_t)(p->pull_out - p->set_out + 1),
                              .looks = p->looks};
    own.light *= light_factor;
    if (!p->tables)
        status = tables ? vh_crop_tables_init(p->crop, tables) : VH_NO_MEMORY;
    if (status == VH_OK)
        status = grow(house, p, breaker_stage, &own, p->tables ? p->tables : tables, watch, out);
    free(tables);
    return status;
}

double vh_season_load(const struct vh_season *s, size_t d)
{
    const double most = s->planting->crop->share.load_most, r = s->day[d].plant.ratio;
    return r > 0.0 ? vh_min(1.0 / r, most) : most;
}

void vh_season_clear(struct vh_season *s)
{
    for (size_t i = 0; s->look && i < s->looks; i++)
        free(s->look[i].truss);
    free(s->look);
    s->look = NULL;
    s->looks = 0;
    free(s->day);
    free(s->truss);
    s->day = NULL;
    s->truss = NULL;
}
