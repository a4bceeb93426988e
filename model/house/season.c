#include "vh_season.h"

#include <stdlib.h>
#include <string.h>

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
        .flowers = p->flowers,
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
        vh_plant_step(plant, &climate, &acts, &unseen);
        if (vh_rhythm_due(&before.pick, first, first + d))
            vh_plant_pick(plant);
    }
    vh_plant_correct(plant, 0, &seen);
}

/* What a stem weighs with its leaves and fruits, fresh. */
static double hanging_kg(const struct vh_planting *p, const struct vh_plant *plant, size_t lane)
{
    const double g_per_kg = 1000.0;
    const double green = vh_plant_leaf_dm(plant, lane) + vh_plant_stem_dm(plant, lane);

    return (vh_plant_fruit_dm(plant, lane) / p->crop->fruit.dm_content_20 +
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

static enum vh_status keep_trusses(const struct vh_plant *plant, size_t lane, double days_before,
                                   struct vh_truss_view **truss, size_t *trusses)
{
    *trusses = (size_t)vh_plant_trusses(plant, lane);
    *truss = calloc(*trusses + 1, sizeof **truss);
    if (!*truss)
        return VH_NO_MEMORY;
    for (size_t t = 0; t < *trusses; t++)
        (*truss)[t] = count_from(vh_plant_truss(plant, lane, (int)t + 1), days_before);
    return VH_OK;
}

/* Where the planting asks for a look on this day, before the pick. */
static enum vh_status look(const struct vh_house *house, const struct vh_planting *p,
                           const struct vh_plant *plant, size_t lane, int64_t date,
                           double days_before, struct vh_season *out)
{
    for (size_t i = 0; i < p->looks; i++) {
        struct vh_look *l = &out->look[i];
        if (p->look[i] != date)
            continue;
        const double breaker = vh_plant_fruits_past(plant, lane, house->colours.breaker),
                     turning = vh_plant_fruits_past(plant, lane, house->colours.turning),
                     pink = vh_plant_fruits_past(plant, lane, house->colours.pink);
        l->breaker_fruits = breaker - turning;
        l->turning_fruits = turning - pink;
        return keep_trusses(plant, lane, days_before, &l->truss, &l->trusses);
    }
    return VH_OK;
}

static bool picks_on(const struct vh_planting *p, int64_t date)
{
    return vh_pick_planned(&p->policy, p->set_out, date) ||
           (date == p->pull_out && !vh_pick_locked(&p->policy, date));
}

/* What a day is beside growing, before the pick. */
static enum vh_status look_at_day(const struct vh_season_member *m, struct vh_plant *plant,
                                  size_t lane, size_t d, bool is_pick_day, double heads,
                                  double days_before, struct vh_season_day *day)
{
    const struct vh_planting *p = m->planting;
    const int64_t date = p->set_out + (int64_t)d;
    enum vh_status status = VH_OK;

    day->stems = p->plants * heads;
    day->stems_m2 = p->plants_per_m2 * heads;
    day->pick_day = is_pick_day;
    if (p->looks > 0 && m->out)
        status = look(m->house, p, plant, lane, date, days_before, m->out);
    return status;
}

/* Members of one planting side by side. */
struct side_by_side {
    const struct vh_season_member *member; /* [lanes]; those without `out` only fill a lane */
    size_t lanes;
    struct vh_plant *plant;
    struct vh_plant_room *room;
    const struct vh_fgp *fgp;
    double days_before[VH_LANES];
    double heads[VH_LANES];
};

/* Futures differ from today on; before it they mostly share their hours. By bytes: hours that are
 * equal in other bytes are only worked out twice. */
static bool has_same_hours(const struct vh_climate *a, const struct vh_climate *b, size_t at)
{
    const size_t size = VH_HOURS_PER_DAY * sizeof *a->t_c;

    return a->first_day == b->first_day && memcmp(a->t_c + at, b->t_c + at, size) == 0 &&
           memcmp(a->par_umol_m2_s + at, b->par_umol_m2_s + at, size) == 0 &&
           memcmp(a->co2_ppm + at, b->co2_ppm + at, size) == 0;
}

/* The day of each lane; `own` has room for those that are not the same for all. */
static void fill_climate(const struct side_by_side *s, int64_t date, struct vh_day *own,
                         const struct vh_day **day)
{
    struct vh_day_hours hours[VH_LANES];
    bool same = true;

    for (size_t l = 0; l < s->lanes; l++) {
        const struct vh_climate *c = &s->member[l].house->climate;
        const size_t at = (size_t)(date - c->first_day) * VH_HOURS_PER_DAY;
        hours[l] = (struct vh_day_hours){c->t_c + at, c->par_umol_m2_s + at, c->co2_ppm + at};
        same = same && (l == 0 || has_same_hours(&s->member[l - 1].house->climate, c, at));
    }
    for (size_t l = 0; l < s->lanes; l++)
        day[l] = same ? own : &own[l];
    vh_days_init(own, s->member[0].planting->crop, s->fgp, hours, same ? 1 : s->lanes,
                 vh_registers());
}

static enum vh_status run_day(struct side_by_side *s, size_t d)
{
    const struct vh_planting *first = s->member[0].planting;
    const int64_t date = first->set_out + (int64_t)d;
    struct vh_day climate[VH_LANES];
    const struct vh_day *day[VH_LANES];
    struct vh_acts acts[VH_LANES];
    struct vh_plant_day account[VH_LANES];
    struct vh_season_day unseen[VH_LANES], *today[VH_LANES];
    struct vh_picked picked[VH_LANES] = {{0.0, 0.0, 0.0}};
    struct vh_picked early[VH_LANES] = {{0.0, 0.0, 0.0}};
    bool picks[VH_LANES], any = false;
    enum vh_status status = VH_OK;

    fill_climate(s, date, climate, day);
    /* no future moves them */
    const bool is_pick_day = picks_on(first, date);
    const double flowers =
        vh_policy_flowers_reached(&first->policy, first->crop, first->set_out, date);
    for (size_t l = 0; l < s->lanes; l++)
        vh_policy_acts_by(&s->member[l].planting->policy, first->crop, s->plant, l, first->set_out,
                          date, s->heads[l], flowers, &acts[l]);
    if (first->policy.before && date == first->policy.from)
        vh_plant_pick_at(s->plant, first->policy.pick_stage);
    vh_plant_step_lanes(s->plant, day, acts, account);
    for (size_t l = 0; l < s->lanes && status == VH_OK; l++) {
        struct vh_season *out = s->member[l].out;
        today[l] = out ? &out->day[d] : &unseen[l];
        s->heads[l] *= acts[l].heads_factor;
        today[l]->plant = account[l];
        status = look_at_day(&s->member[l], s->plant, l, d, is_pick_day, s->heads[l],
                             s->days_before[l], today[l]);
        picks[l] = today[l]->pick_day;
        any = any || picks[l];
        if (out)
            out->worst_balance = vh_max(out->worst_balance, fabs(account[l].balance_error));
    }
    if (any && status == VH_OK && first->policy.has_last && date == first->policy.last_on)
        vh_plant_pick_last(s->plant, first->policy.last_stage, first->policy.last_from_g, picks,
                           picked, early);
    else if (any && status == VH_OK)
        vh_plant_pick_lanes(s->plant, picks, picked);
    for (size_t l = 0; l < s->lanes && status == VH_OK; l++) {
        if (picks[l]) {
            today[l]->picked = picked[l];
            today[l]->early = early[l].fresh_g > 0.0 ? early[l].fresh_g / picked[l].fresh_g : 0.0;
        }
        today[l]->hanging_kg = hanging_kg(s->member[l].planting, s->plant, l);
    }
    return status;
}

static enum vh_status run_days(struct side_by_side *s, const struct vh_truss_watch *watch)
{
    const struct vh_planting *p = s->member[0].planting;
    const size_t days = (size_t)(p->pull_out - p->set_out + 1);
    enum vh_status status = VH_OK;

    for (size_t d = 0; d < days && status == VH_OK; d++) {
        status = run_day(s, d);
        if (watch && watch->truss <= vh_plant_trusses(s->plant, 0))
            watch->day[d] = vh_plant_truss(s->plant, 0, watch->truss);
    }
    for (size_t l = 0; l < s->lanes && status == VH_OK; l++) {
        struct vh_season *out = s->member[l].out;
        if (out)
            status = keep_trusses(s->plant, l, s->days_before[l], &out->truss, &out->trusses);
    }
    return status;
}

enum vh_status vh_season_run(const struct vh_house *house, const struct vh_planting *p,
                             double light_factor, double breaker_stage,
                             const struct vh_factors *factors, struct vh_season *out)
{
    return vh_season_watch(house, p, light_factor, breaker_stage, factors, NULL, out);
}

static enum vh_status begin(const struct vh_season_member *m, const struct vh_fgp *fgp,
                            const struct vh_factors *own, struct beginning *out)
{
    struct vh_season unseen = {0}, *season = m->out ? m->out : &unseen;

    *out = (struct beginning){0, 0.0};
    return m->planting->standing.given
               ? begin_standing(m->house, m->planting, fgp, own->light, own->truss_pace, out)
               : seedling_leaves(m->house, m->planting, fgp, own->light, own->truss_pace,
                                 &out->leaves, season);
}

/* An older crop is brought to the day it is seen on, each member alone: they begin on days of their
 * own. */
static enum vh_status warm_up_all(struct side_by_side *s, const struct vh_plant_setup *setup,
                                  const struct vh_factors *own, size_t days)
{
    for (size_t l = 0; l < s->lanes; l++) {
        const struct vh_season_member *m = &s->member[l];
        struct vh_plant_setup own_setup = setup[l];
        own_setup.room = NULL;
        struct vh_plant *alone = vh_plant_create(&own_setup, &own[l], 1, days);
        if (!alone)
            return VH_NO_MEMORY;
        warm_up(m->house, m->planting, s->fgp, alone, (int64_t)s->days_before[l]);
        vh_plant_take_in(s->plant, l, alone);
        vh_plant_free(alone);
    }
    return VH_OK;
}

static enum vh_status grow(struct side_by_side *s, double breaker_stage,
                           const struct vh_factors *own, const struct vh_crop_tables *tables,
                           const struct vh_truss_watch *watch)
{
    const struct vh_planting *p = s->member[0].planting;
    size_t days = (size_t)(p->pull_out - p->set_out + 1);
    struct vh_plant_setup setup[VH_LANES];
    enum vh_status status = VH_OK;
    double longest = 0.0;

    for (size_t l = 0; l < s->lanes && status == VH_OK; l++) {
        struct beginning begins;
        status = begin(&s->member[l], s->fgp, &own[l], &begins);
        setup[l] = setup_of(s->member[l].planting, tables, begins.leaves, breaker_stage);
        s->days_before[l] = (double)begins.days_before;
        s->heads[l] = s->member[l].planting->heads_per_plant;
        longest = vh_max(longest, s->days_before[l]);
    }
    if (status != VH_OK)
        return status;
    days += (size_t)longest;
    setup[0].room = s->room;
    s->plant = vh_plant_create(setup, own, s->lanes, days);
    if (!s->plant)
        return VH_NO_MEMORY;
    if (p->standing.given)
        status = warm_up_all(s, setup, own, days);
    if (status == VH_OK)
        status = run_days(s, watch);
    vh_plant_free(s->plant);
    return status;
}

static enum vh_status open_season(const struct vh_season_member *m)
{
    const struct vh_planting *p = m->planting;
    struct vh_season *out = m->out;

    *out = (struct vh_season){.planting = p,
                              .factors = *m->factors,
                              .first_day = p->set_out,
                              .days = (size_t)(p->pull_out - p->set_out + 1),
                              .looks = p->looks};
    out->day = calloc(out->days, sizeof *out->day);
    out->look = calloc(p->looks + 1, sizeof *out->look);
    return out->day && out->look ? VH_OK : VH_NO_MEMORY;
}

/* In one lane, or in all of them: then some repeat the last member, unseen. */
static enum vh_status run_lanes(const struct vh_season_member *member, size_t members,
                                double light_factor, double breaker_stage,
                                struct vh_plant_room *room, const struct vh_truss_watch *watch)
{
    const struct vh_planting *p = member[0].planting;
    struct vh_crop_tables *tables = p->tables ? NULL : malloc(sizeof *tables);
    struct vh_season_member lane[VH_LANES];
    struct vh_factors own[VH_LANES];
    struct side_by_side s = {.member = lane, .lanes = members == 1 ? 1 : VH_LANES, .room = room};
    enum vh_status status = VH_OK;

    for (size_t l = 0; l < s.lanes; l++) {
        lane[l] = member[l < members ? l : members - 1];
        own[l] = *lane[l].factors;
        own[l].light *= light_factor;
        if (l >= members)
            lane[l].out = NULL;
        else if (status == VH_OK)
            status = open_season(&lane[l]);
        else
            *lane[l].out = (struct vh_season){.planting = lane[l].planting};
    }
    if (status == VH_OK && !p->tables)
        status = tables ? vh_crop_tables_init(p->crop, tables) : VH_NO_MEMORY;
    if (status == VH_OK) {
        s.fgp = p->tables ? &p->tables->fgp : &tables->fgp;
        status = grow(&s, breaker_stage, own, p->tables ? p->tables : tables, watch);
    }
    for (size_t l = 0; l < members && status != VH_OK; l++)
        vh_season_clear(lane[l].out);
    free(tables);
    return status;
}

enum vh_status vh_season_run_members(const struct vh_season_member *member, size_t members,
                                     double light_factor, double breaker_stage,
                                     struct vh_plant_room *room)
{
    return run_lanes(member, members, light_factor, breaker_stage, room, NULL);
}

enum vh_status vh_season_watch(const struct vh_house *house, const struct vh_planting *p,
                               double light_factor, double breaker_stage,
                               const struct vh_factors *factors, const struct vh_truss_watch *watch,
                               struct vh_season *out)
{
    const struct vh_season_member alone = {house, p, factors, out};

    return run_lanes(&alone, 1, light_factor, breaker_stage, NULL, watch);
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
