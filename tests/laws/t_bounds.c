/* No climate makes anything negative, endless or unknown. */
#include "../reference/plant_trial.h"
#include "vh_random.h"

static void expect_sound(double value, const char *what, const char *crop, int day)
{
    cr_expect(isfinite(value) && value >= 0.0, "%s, day %d: %s is %g", crop, day, what, value);
}

static void expect_sound_day(const struct trial_result *r, const char *crop, int day)
{
    const struct vh_plant_day *d = &r->day[day];
    const struct vh_picked *k = &r->picked[day];

    expect_sound(d->assimilate_g_m2, "assimilate", crop, day);
    expect_sound(d->maintenance_g_m2, "maintenance", crop, day);
    expect_sound(d->maintenance_unpaid_g_m2, "unpaid maintenance", crop, day);
    expect_sound(d->demand_g_m2, "demand", crop, day);
    expect_sound(d->ratio, "ratio", crop, day);
    expect_sound(d->reserve_g_m2, "reserve", crop, day);
    expect_sound(d->fruit_dm_g_m2, "fruit grown", crop, day);
    expect_sound(d->leaf_dm_g_m2, "leaf grown", crop, day);
    expect_sound(d->stem_dm_g_m2, "stem grown", crop, day);
    expect_sound(fabs(d->balance_error), "balance error", crop, day);
    expect_sound(d->absorbed_mol_m2, "light absorbed", crop, day);
    expect_sound(d->lai, "leaf area", crop, day);
    expect_sound(d->stem_cm, "stem", crop, day);
    expect_sound(d->leaves, "leaves", crop, day);
    expect_sound(d->leaves_made, "leaves made", crop, day);
    expect_sound(d->flowering_truss, "flowering truss", crop, day);
    expect_sound(d->picking_truss, "picking truss", crop, day);
    expect_sound(k->fruits, "fruits picked", crop, day);
    expect_sound(k->dm_g, "dry matter picked", crop, day);
    expect_sound(k->fresh_g, "mass picked", crop, day);
    expect_sound(r->fruit_dm[day], "fruit on the plant", crop, day);
    expect_sound(r->leaf_dm[day], "leaves on the plant", crop, day);
    expect_sound(r->stem_dm[day], "stem and root", crop, day);
}

static void expect_sound_truss(const struct vh_truss_view *v, const char *crop, int number)
{
    expect_sound(v->opened_d, "opening of the truss", crop, number);
    expect_sound(v->flowers, "flowers of the truss", crop, number);
    expect_sound(v->set, "set of the truss", crop, number);
    expect_sound(v->kept, "kept of the truss", crop, number);
    expect_sound(v->aborted, "dropped of the truss", crop, number);
    expect_sound(v->fruits_on, "fruits on the truss", crop, number);
    expect_sound(v->dm_g, "dry matter of the truss", crop, number);
    expect_sound(v->picked_fruits, "picked of the truss", crop, number);
    expect_sound(v->picked_dm_g, "dry matter picked of the truss", crop, number);
    expect_sound(v->picked_g, "mass picked of the truss", crop, number);
    expect_sound(v->stage, "stage of the truss", crop, number);
    cr_expect(!(v->ripe_first_d < v->opened_d), "%s: truss %d ripe before it flowers", crop,
              number);
    cr_expect(!(v->ripe_last_d < v->ripe_first_d), "%s: truss %d ends before it begins", crop,
              number);
}

static void expect_sound_season(struct trial *t, const char *crop)
{
    struct trial_result *r = trial_run(t);

    for (int d = 0; d < r->days; d++)
        expect_sound_day(r, crop, d);
    for (int n = 1; n <= vh_plant_trusses(r->plant, 0); n++) {
        const struct vh_truss_view v = vh_plant_truss(r->plant, 0, n);
        expect_sound_truss(&v, crop, n);
    }
    trial_free(r);
}

Test(bounds, steady_extremes_of_warmth_light_and_air_leave_every_number_sound)
{
    static const double temp[] = {-5, 0, 5, 10, 15, 20, 26, 31, 38, 45};
    static const double par[] = {0, 1, 60, 500, 2000};
    static const double co2[] = {100, 420, 2000};

    for (size_t c = 0; c < TRIAL_CROPS; c++)
        for (size_t i = 0; i < sizeof temp / sizeof temp[0]; i++)
            for (size_t k = 0; k < sizeof par / sizeof par[0]; k++)
                for (size_t l = 0; l < sizeof co2 / sizeof co2[0]; l++) {
                    struct trial t = trial_usual(trial_crops[c]);
                    t.days = 110;
                    t.square = (struct trial_square){temp[i], temp[i], 14, par[k], co2[l]};
                    expect_sound_season(&t, trial_crops[c]);
                }
}

/* Every hour drawn anew from the whole range, or spells of nine days of it. */
static void wild_hours(const struct trial *t, int day, struct trial_hours *out)
{
    for (int h = 0; h < VH_DAY_HOURS; h++) {
        const uint32_t when = t->draw % 2 ? (uint32_t)(day * VH_DAY_HOURS + h) : (uint32_t)day / 9;
        out->t_c[h] = -5.0 + 50.0 * vh_uniform(t->draw, 0, when, 0, 0);
        out->par[h] = vh_max(0.0, -1000.0 + 3000.0 * vh_uniform(t->draw, 0, when, 0, 1));
        out->co2[h] = 100.0 + 1900.0 * vh_uniform(t->draw, 0, when, 0, 2);
    }
}

Test(bounds, wild_hours_and_spells_leave_every_number_sound)
{
    for (size_t c = 0; c < TRIAL_CROPS; c++)
        for (uint64_t draw = 0; draw < 30; draw++) {
            struct trial t = trial_usual(trial_crops[c]);
            t.hours = wild_hours;
            t.draw = draw;
            t.thin_stage = draw % 3 ? 0.0 : t.crop.habit.thin_stage_pea;
            t.top_on = draw % 5 ? -1 : 90;
            t.heads_on = draw % 4 ? -1 : 50;
            t.heads_factor = draw % 8 ? 2.0 : 0.5;
            expect_sound_season(&t, trial_crops[c]);
        }
}

/* Growers' extremes: nothing kept, hardly a leaf, dense or thin stands. */
Test(bounds, odd_plantings_leave_every_number_sound)
{
    static const double kept[] = {0.0, 0.3, 60.0}, leaves[] = {0.0, 3.0, 60.0},
                        density[] = {0.1, 12.0};

    for (size_t c = 0; c < TRIAL_CROPS; c++)
        for (size_t i = 0; i < 3; i++)
            for (size_t k = 0; k < 3; k++)
                for (size_t l = 0; l < 2; l++) {
                    struct trial t = trial_usual(trial_crops[c]);
                    t.kept = kept[i];
                    t.leaves_keep = leaves[k];
                    t.setup.plants_per_m2 = density[l];
                    expect_sound_season(&t, trial_crops[c]);
                }
}

/* Leaves that were taken while they still expanded grow no more; leaves that stood before a plant
 * got more heads do not multiply. */
static void expect_leaf_area_of_leaves(struct trial *t, const char *crop)
{
    struct trial_result *r = trial_run(t);
    double stems_m2 = t->setup.plants_per_m2 * t->setup.heads_per_plant;

    for (int d = 0; d < r->days; d++) {
        if (d == t->heads_on)
            stems_m2 *= t->heads_factor;
        const double most = (r->day[d].leaves + 1.0) * t->crop.leaf.potential_area_m2 * stems_m2;
        cr_expect(r->day[d].lai <= most, "%s, day %d: leaf area %g of at most %g", crop, d,
                  r->day[d].lai, most);
    }
    trial_free(r);
}

Test(bounds, few_leaves_have_little_area)
{
    for (size_t c = 0; c < TRIAL_CROPS; c++) {
        struct trial t = trial_usual(trial_crops[c]);
        t.days = 150;
        t.leaves_keep = 6.0;
        expect_leaf_area_of_leaves(&t, trial_crops[c]);
    }
}

Test(bounds, new_stems_flower_when_their_time_has_come)
{
    struct trial t = trial_usual("tomato-cluster");
    const double wait_d = 21.0, a_truss_d = 8.0; /* between two trusses, about */
    size_t waiting = 0, after = 0;

    t.heads_on = 60;
    t.heads_factor = 2.0;
    t.new_stem_age_d = -wait_d;
    struct trial_result *r = trial_run(&t);
    for (int n = 1; n < vh_plant_next_truss(r->plant, 0); n++) {
        const struct vh_truss_view v = vh_plant_truss(r->plant, 0, n);
        const double since_d = v.opened_d - t.heads_on;
        const double carried = since_d < wait_d - a_truss_d ? 0.5 : 1.0; /* of the stems */
        cr_expect(v.set > 4.0 && v.kept <= v.set, "truss %d: %g set, %g kept", n, v.set, v.kept);
        if (since_d < 1.0 || fabs(since_d - wait_d) < a_truss_d)
            continue;
        cr_expect(fabs(v.thin_share - carried) < 1e-12, "truss %d, after %g d: on %g of the stems",
                  n, since_d, v.thin_share);
        waiting += carried < 1.0;
        after += carried >= 1.0;
    }
    cr_assert(waiting > 0 && after > 2);
    trial_free(r);
}

/* Right after it the new stems make leaves at the old ones' pace and have none besides: per floor
 * the old leaves go on as they would have, whatever number of bare stems joined them. */
Test(bounds, leaves_that_stood_before_do_not_multiply_with_heads)
{
    struct trial one = trial_usual("tomato-cluster"), two = one;
    two.heads_on = 60;
    two.heads_factor = 2.0;
    struct trial_result *a = trial_run(&one), *b = trial_run(&two);
    const int after = 63; /* of leaves born since, hardly a hundredth is there */

    cr_expect(b->day[after].lai < 1.03 * a->day[after].lai,
              "leaf area %g with new heads, %g without", b->day[after].lai, a->day[after].lai);
    trial_free(a);
    trial_free(b);
}
