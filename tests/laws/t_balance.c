/* Dry matter: what comes in goes out, every day, whatever the climate. */
#include "../reference/plant_trial.h"
#include "vh_random.h"

enum { CLIMATES = 50 };
enum purpose { OF_SEASON, OF_DAY, OF_HOUR };

/* Anything a house can show: dull and bright, hot and cold spells, thin and rich air. */
static void any_weather(const struct trial *t, int day, struct trial_hours *out)
{
    const uint32_t d = (uint32_t)day;
    const double mean_c = 12.0 + 16.0 * vh_uniform(t->draw, 0, 0, OF_SEASON, 0);
    const double bright = 2000.0 * vh_uniform(t->draw, 0, 0, OF_SEASON, 1);
    const double ppm = 200.0 + 1300.0 * vh_uniform(t->draw, 0, 0, OF_SEASON, 2);
    const double clear = vh_uniform(t->draw, 0, d, OF_DAY, 0);
    const double spell_c = 4.0 * vh_normal(t->draw, 0, d / 9, OF_DAY, 1);

    for (int h = 0; h < VH_DAY_HOURS; h++) {
        const double sun = vh_max(0.0, sin(VH_PI * (h - 5.0) / 15.0));
        out->t_c[h] = vh_clamp(mean_c + spell_c + 6.0 * clear * sun, -5.0, 45.0);
        out->par[h] = bright * clear * sun * vh_uniform(t->draw, 0, d, OF_HOUR, (uint32_t)h);
        out->co2[h] = ppm;
    }
}

static struct trial any_season(const char *crop, uint64_t draw)
{
    struct trial t = trial_usual(crop);

    t.days = 150;
    t.hours = any_weather;
    t.draw = draw;
    t.kept *= 0.5 + vh_uniform(draw, 1, 0, OF_SEASON, 0);
    t.setup.plants_per_m2 = 1.0 + 3.0 * vh_uniform(draw, 1, 0, OF_SEASON, 1);
    t.setup.whole_truss = vh_uniform(draw, 1, 0, OF_SEASON, 2) < 0.5;
    return t;
}

/* The account by its terms, per m2 of floor, relative to what there was to share. */
static double account_error(const struct trial *t, const struct trial_result *r, int day)
{
    const struct vh_plant_day *d = &r->day[day];
    const double before = day ? r->day[day - 1].reserve_g_m2 : 0.0;
    const double in = d->assimilate_g_m2 + before;
    const double out =
        t->crop.upkeep.fruit_cost * d->fruit_dm_g_m2 +
        t->crop.upkeep.other_cost * (d->leaf_dm_g_m2 + d->stem_dm_g_m2 + d->sucker_dm_g_m2) +
        d->maintenance_g_m2 + d->reserve_g_m2;

    return fabs(in - out) / vh_max(in, 1.0);
}

Test(balance, the_account_closes_every_day_in_fifty_climates_and_every_crop)
{
    const double closes = 1e-9;
    double worst = 0.0, shared = 0.0;

    for (size_t c = 0; c < TRIAL_CROPS; c++)
        for (uint64_t draw = 0; draw < CLIMATES; draw++) {
            struct trial t = any_season(trial_crops[c], draw);
            t.thin_stage = draw % 3 ? 0.0 : t.crop.habit.thin_stage_marble;
            t.heads_on = draw % 4 ? -1 : 60;
            t.heads_factor = 1.5;
            t.new_stem_age_d = 20.0;
            t.top_on = draw % 5 ? -1 : 110;
            struct trial_result *r = trial_run(&t);
            for (int d = 0; d < r->days; d++) {
                const double error = account_error(&t, r, d);
                cr_expect(error <= closes, "%s, climate %d, day %d: off by %.3g", trial_crops[c],
                          (int)draw, d, error);
                cr_expect(fabs(r->day[d].balance_error) <= closes, "%s, climate %d, day %d",
                          trial_crops[c], (int)draw, d);
                worst = vh_max(worst, error);
                shared += r->day[d].fruit_dm_g_m2;
            }
            trial_free(r);
        }
    cr_expect(shared > 0.0);
    cr_expect(worst < closes);
}

/* Nothing is lost between the account and the plant: fruit grown hangs or was picked, stem and
 * leaf mass grow by what the account says. Without thinning, dropping or leaf removal. */
static void expect_kept(const struct trial *t, const struct trial_result *r, const char *name)
{
    const double closes = 1e-9, stems = t->setup.plants_per_m2 * t->setup.heads_per_plant;
    double fruit = 0.0, picked = 0.0;

    for (int d = 0; d < r->days; d++) {
        fruit += r->day[d].fruit_dm_g_m2 / stems;
        picked += r->picked[d].dm_g;
        cr_expect(fabs(fruit - picked - r->fruit_dm[d]) <= closes * vh_max(fruit, 1.0),
                  "%s, day %d: %.12g g grown, %.12g picked, %.12g on the plant", name, d, fruit,
                  picked, r->fruit_dm[d]);
        if (d == 0)
            continue;
        const double stem = r->day[d].stem_dm_g_m2 / stems, leaf = r->day[d].leaf_dm_g_m2 / stems;
        cr_expect(fabs(r->stem_dm[d] - r->stem_dm[d - 1] - stem) <= closes * r->stem_dm[d],
                  "%s, day %d: stem", name, d);
        cr_expect(fabs(r->leaf_dm[d] - r->leaf_dm[d - 1] - leaf) <= closes * r->leaf_dm[d],
                  "%s, day %d: leaf", name, d);
    }
}

Test(balance, what_has_grown_hangs_on_the_plant_or_has_been_picked)
{
    const double never_enough_leaves = 1e6;

    for (size_t c = 0; c < TRIAL_CROPS; c++)
        for (uint64_t draw = 0; draw < CLIMATES; draw++) {
            struct trial t = any_season(trial_crops[c], draw);
            t.crop.flower.abort_per_cd = 0.0;
            t.leaves_keep = never_enough_leaves;
            struct trial_result *r = trial_run(&t);
            expect_kept(&t, r, trial_crops[c]);
            trial_free(r);
        }
}

/* The fruits counted at the pick are those counted on the trusses. */
Test(balance, picked_fruits_and_mass_are_those_of_the_trusses)
{
    const double closes = 1e-9;

    for (size_t c = 0; c < TRIAL_CROPS; c++) {
        struct trial t = trial_usual(trial_crops[c]);
        struct trial_result *r = trial_run(&t);
        const struct vh_picked total = trial_total(r);
        double fruits = 0.0, dm_g = 0.0, fresh_g = 0.0;

        for (int n = 1; n <= vh_plant_trusses(r->plant, 0); n++) {
            const struct vh_truss_view v = vh_plant_truss(r->plant, 0, n);
            fruits += v.picked_fruits;
            dm_g += v.picked_dm_g;
            fresh_g += v.picked_g;
            cr_expect(v.picked_fruits <= v.set * (1.0 + closes), "%s: more picked than set",
                      trial_crops[c]);
        }
        cr_expect(total.fruits > 0.0, "%s", trial_crops[c]);
        cr_expect(fabs(fruits / total.fruits - 1.0) <= closes, "%s", trial_crops[c]);
        cr_expect(fabs(dm_g / total.dm_g - 1.0) <= closes, "%s", trial_crops[c]);
        cr_expect(fabs(fresh_g / total.fresh_g - 1.0) <= closes, "%s", trial_crops[c]);
        trial_free(r);
    }
}
