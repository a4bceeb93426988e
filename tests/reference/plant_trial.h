/* plant_trial.h - one stem grown in a made-up climate: what the tests of the plant share. */
#ifndef PLANT_TRIAL_H
#define PLANT_TRIAL_H

#include <criterion/criterion.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_csv.h"
#include "vh_math.h"
#include "vh_plant.h"

static const char *const trial_crops[] = {
    "tomato-large",  "tomato-cluster", "tomato-plum",  "tomato-cocktail", "tomato-cherry",
    "cucumber-long", "cucumber-mini",  "pepper-large", "pepper-small",    "aubergine-large"};
enum { TRIAL_CROPS = 10, TRIAL_TOMATOES = 5 };

/* Rows of tests/reference/NAME, one after another. */
static inline void trial_read_csv(const char *name, vh_csv_take take, void *context)
{
    char path[512];
    snprintf(path, sizeof path, "%s/reference/%s", VINEHAND_TEST_DATA, name);
    cr_assert(vh_csv_read(path, name, (struct vh_csv_format){',', '.'}, NULL, take, context,
                          NULL) == VH_OK,
              "%s cannot be read", path);
}

/* NaN where the cell is empty or no number. */
static inline double trial_number(const struct vh_csv_row *row, size_t cell)
{
    double value;
    return vh_csv_number(row->cell[cell], '.', &value) ? value : (double)NAN;
}

static inline struct vh_crop trial_read_crop(const char *name)
{
    struct vh_crop crop;
    struct vh_sources *sources = NULL;
    struct vh_param_set set = {NULL, 0};
    struct vh_messages *told = vh_messages_create();
    size_t count;
    const struct vh_param_field *fields = vh_crop_fields(&count);

    cr_assert(vh_sources_read(VINEHAND_PARAMS "/sources.csv", NULL, &sources, NULL) == VH_OK);
    const enum vh_status status = vh_param_read(VINEHAND_PARAMS "/crops", name, fields, count,
                                                sources, NULL, &crop, &set, told);
    cr_assert(status == VH_OK, "the parameters of %s are refused: %s", name,
              vh_messages_count(told) ? vh_messages_at(told, 0)->text : "no reason given");
    vh_messages_free(told);
    vh_param_set_clear(&set);
    vh_sources_free(sources);
    return crop;
}

/* A day of two even halves: light and day warmth together, then night. */
struct trial_square {
    double day_c, night_c;
    int light_hours;
    double par_umol_m2_s, co2_ppm;
};

struct trial_hours {
    double t_c[VH_DAY_HOURS], par[VH_DAY_HOURS], co2[VH_DAY_HOURS];
};

static inline struct trial_hours trial_square_hours(const struct trial_square *q)
{
    struct trial_hours h;
    const int sunrise = (VH_DAY_HOURS - q->light_hours) / 2;

    for (int i = 0; i < VH_DAY_HOURS; i++) {
        const bool light = i >= sunrise && i < sunrise + q->light_hours;
        h.t_c[i] = light ? q->day_c : q->night_c;
        h.par[i] = light ? q->par_umol_m2_s : 0.0;
        h.co2[i] = q->co2_ppm;
    }
    return h;
}

struct trial {
    struct vh_crop crop;
    struct vh_plant_setup setup;
    struct vh_factors factors;
    int days;
    struct trial_square square;
    /* NULL: the square day, every day */
    void (*hours)(const struct trial *t, int day, struct trial_hours *out);
    uint64_t draw; /* for hours() */
    double kept, thin_stage;
    double leaves_keep;
    int leaf_visit_d, pick_every_d, sucker_visit_d;
    double suckers_overlooked;
    int top_on;   /* -1: never */
    int heads_on; /* -1: never */
    double heads_factor, new_stem_age_d;
};

enum { TRIAL_DAYS = 320 };

struct trial_result {
    int days;
    struct vh_plant_day day[TRIAL_DAYS];
    struct vh_picked picked[TRIAL_DAYS];
    double fruit_dm[TRIAL_DAYS]; /* on the stem at the end of the day, after the pick, g */
    double leaf_dm[TRIAL_DAYS], stem_dm[TRIAL_DAYS];
    struct vh_plant *plant; /* as it stands at the end */
};

/* What growers of the crop usually do, in an even, bright spring day. */
static inline struct trial trial_usual(const char *crop_name)
{
    struct trial t = {.crop = trial_read_crop(crop_name), .factors = {1, 1, 1, 1, 1, 1, 1}};
    const struct vh_habit_params *h = &t.crop.habit;

    t.days = 160;
    t.square = (struct trial_square){21.5, 17.5, 12, 400.0, 420.0};
    t.kept = h->fruits_kept;
    t.leaves_keep = h->leaves_kept;
    t.leaf_visit_d = (int)h->leaf_visit_d;
    t.pick_every_d = (int)h->pick_every_d;
    t.sucker_visit_d = (int)h->sucker_visit_d;
    t.suckers_overlooked = h->suckers_overlooked;
    t.top_on = t.heads_on = -1;
    t.heads_factor = 1.0;
    t.setup = (struct vh_plant_setup){.plants_per_m2 = 2.5,
                                      .heads_per_plant = 1.0,
                                      .usual_fruit_g = h->usual_fruit_g,
                                      .feed_ec_ms_cm = h->feed_ec_ms_cm,
                                      .seedling_leaves = h->seedling_leaves,
                                      .pick_stage = 1.0,
                                      .pick_from_g = h->pick_from_g,
                                      .breaker_stage = 0.89};
    return t;
}

static inline struct vh_acts trial_acts(const struct trial *t, const struct vh_plant *plant,
                                        size_t lane, int day)
{
    struct vh_acts acts = {.kept_first = vh_plant_next_truss(plant, lane),
                           .flowers_reached = 1.0,
                           .heads_factor = day == t->heads_on ? t->heads_factor : 1.0,
                           .new_stem_age_d = t->new_stem_age_d,
                           .top = day == t->top_on};

    for (int k = 0; k < VH_OPEN_MOST; k++) {
        const bool stripped = acts.kept_first + k <= t->crop.habit.stripped_nodes;
        acts.kept[k] = stripped ? 0.0 : t->kept;
        acts.thin_stage[k] = t->thin_stage;
    }
    if (day % t->sucker_visit_d == 0)
        acts.suckers_pulled = 1.0 - t->suckers_overlooked;
    if (day % t->leaf_visit_d == 0)
        acts.leaves_off = vh_clamp(vh_plant_leaves_on_stem(plant, lane) - t->leaves_keep, 0.0,
                                   t->crop.habit.leaves_most);
    return acts;
}

static inline void trial_day(const struct trial *t, const struct vh_fgp *fgp, int day,
                             struct vh_day *out)
{
    struct trial_hours h;

    if (t->hours)
        t->hours(t, day, &h);
    else
        h = trial_square_hours(&t->square);
    vh_day_init(out, &t->crop, fgp, h.t_c, h.par, h.co2);
}

/* The result belongs to the caller: trial_free. */
static inline struct trial_result *trial_run(struct trial *t)
{
    struct trial_result *r = calloc(1, sizeof *r);
    struct vh_fgp fgp;
    struct vh_day day;

    cr_assert(r && t->days <= TRIAL_DAYS);
    t->setup.crop = &t->crop;
    cr_assert(vh_fgp_init(&t->crop, &fgp) == VH_OK);
    r->plant = vh_plant_create(&t->setup, &t->factors, 1, (size_t)t->days);
    cr_assert(r->plant != NULL);
    r->days = t->days;
    for (int d = 0; d < t->days; d++) {
        const struct vh_acts acts = trial_acts(t, r->plant, 0, d);
        if (d == 0 || t->hours)
            trial_day(t, &fgp, d, &day);
        vh_plant_step(r->plant, &day, &acts, &r->day[d]);
        if (d % t->pick_every_d == 0)
            r->picked[d] = vh_plant_pick(r->plant);
        r->fruit_dm[d] = vh_plant_fruit_dm(r->plant, 0);
        r->leaf_dm[d] = vh_plant_leaf_dm(r->plant, 0);
        r->stem_dm[d] = vh_plant_stem_dm(r->plant, 0);
    }
    return r;
}

/* A day whose first hour alone is lit, as the canopy sees it. */
static inline struct vh_leaf_hours trial_lit_hour(const struct vh_light_params *p, double t_c,
                                                  double par_umol_m2_s, double co2_ppm)
{
    double temp_c[VH_LIGHT_HOURS], par[VH_LIGHT_HOURS] = {par_umol_m2_s}, co2[VH_LIGHT_HOURS];
    struct vh_leaf_hours lit;

    for (int h = 0; h < VH_LIGHT_HOURS; h++) {
        temp_c[h] = t_c;
        co2[h] = co2_ppm;
    }
    vh_light_leaf_hours(p, temp_c, par, co2, VH_BY_ONE, &lit);
    return lit;
}

/* Gross photosynthesis of a day in a canopy, lit from the floor as well, g CH2O m-2. */
static inline double trial_canopy_g_m2(const struct vh_light_params *p,
                                       const struct vh_leaf_hours *lit, double lai)
{
    const double passed = exp(-p->extinction * lai);
    return vh_light_day_g_m2(p, lit, 1.0 + p->floor_reflected * passed, passed, VH_BY_ONE);
}

static inline void trial_free(struct trial_result *r)
{
    vh_plant_free(r->plant);
    free(r);
}

static inline struct vh_picked trial_total(const struct trial_result *r)
{
    struct vh_picked sum = {0.0, 0.0, 0.0};

    for (int d = 0; d < r->days; d++) {
        sum.fruits += r->picked[d].fruits;
        sum.dm_g += r->picked[d].dm_g;
        sum.fresh_g += r->picked[d].fresh_g;
    }
    return sum;
}

#endif
