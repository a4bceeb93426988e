/* Laws over seasons drawn at random: crop, climate, stand and what the grower does, all at once.
 * 200 seasons; VINEHAND_LAWS=1000 in the environment draws so many. Each is drawn by its number, so
 * that a season that fails can be run again alone: VINEHAND_LAWS=1 VINEHAND_LAWS_FROM=number. */
#include "../reference/plant_trial.h"
#include "vh_random.h"

enum purpose { OF_SEASON = 20, OF_DAY, OF_HOUR };
enum { USUAL_COUNT = 200, NUMBERS = 17 };

static const double hair = 1e-12; /* rounding of sums */

static uint64_t from_environment(const char *name, uint64_t usual)
{
    const char *text = getenv(name);
    uint64_t n = 0;

    if (!text || !*text)
        return usual;
    for (; *text >= '0' && *text <= '9'; text++)
        n = 10 * n + (uint64_t)(*text - '0');
    cr_assert(!*text, "%s is no whole number", name);
    return n;
}

static double drawn(uint64_t season, uint32_t row, double low, double high)
{
    return low + (high - low) * vh_uniform(season, 0, 0, OF_SEASON, row);
}

/* Weather around the house's own days and nights (t->square): spells of nine days of warmth, clear
 * and dull days, clouds by the hour, within the ends the program must stand. */
static void any_hours(const struct trial *t, int day, struct trial_hours *out)
{
    const uint32_t d = (uint32_t)day;
    const double spell_k = 3.0 * vh_normal(t->draw, 0, d / 9, OF_DAY, 0);
    const double clear = 0.15 + 0.85 * vh_uniform(t->draw, 0, d, OF_DAY, 1);
    const double midday = 0.5 * (VH_DAY_HOURS - 1), half = 0.5 * t->square.light_hours;

    for (int h = 0; h < VH_DAY_HOURS; h++) {
        const double away = (h - midday) / half, sun = vh_max(0.0, 1.0 - away * away);
        const double cloud = 0.5 + 0.5 * vh_uniform(t->draw, 0, d, OF_HOUR, (uint32_t)h);
        const double air_c = sun > 0.0 ? t->square.day_c : t->square.night_c;
        out->t_c[h] = vh_clamp(air_c + spell_k, -5.0, 45.0);
        out->par[h] = vh_clamp(t->square.par_umol_m2_s * sun * clear * cloud, 0.0, 2000.0);
        out->co2[h] = t->square.co2_ppm;
    }
}

/* The same, every hour within 17 to 25 degC: the range of the ripening equation. */
static void mild_hours(const struct trial *t, int day, struct trial_hours *out)
{
    any_hours(t, day, out);
    for (int h = 0; h < VH_DAY_HOURS; h++)
        out->t_c[h] = vh_clamp(out->t_c[h], 17.0, 25.0);
}

/* What growers do, and what they might. */
static struct trial any_trial(uint64_t season, size_t crops)
{
    const size_t crop = (size_t)drawn(season, 0, 0.0, (double)crops);
    struct trial t = trial_usual(trial_crops[crop]);
    const double night_c = drawn(season, 1, 10.0, 22.0);

    t.days = (int)drawn(season, 2, 120.0, 220.0);
    t.draw = season;
    t.hours = any_hours;
    t.square = (struct trial_square){.day_c = night_c + drawn(season, 3, -3.0, 10.0),
                                     .night_c = night_c,
                                     .light_hours = (int)drawn(season, 4, 8.0, 18.0),
                                     .par_umol_m2_s = drawn(season, 5, 80.0, 1600.0),
                                     .co2_ppm = drawn(season, 6, 250.0, 1200.0)};
    t.kept *= drawn(season, 7, 0.4, 1.5);
    t.thin_stage = drawn(season, 8, 0.0, 1.0) < 0.5 ? 0.0 : t.crop.habit.thin_stage_pea;
    t.leaves_keep *= drawn(season, 9, 0.6, 1.6);
    t.setup.plants_per_m2 = drawn(season, 10, 1.0, 5.0);
    t.setup.seedling_leaves *= drawn(season, 11, 0.5, 1.5);
    t.setup.usual_fruit_g *= drawn(season, 12, 0.7, 1.4);
    t.setup.whole_truss = drawn(season, 13, 0.0, 1.0) < 0.3;
    t.top_on = drawn(season, 14, 0.0, 1.0) < 0.25 ? t.days - 40 : -1;
    t.heads_on = drawn(season, 15, 0.0, 1.0) < 0.25 ? 50 : -1;
    t.heads_factor = drawn(season, 16, 1.0, 2.0);
    t.new_stem_age_d = drawn(season, 18, -25.0, 10.0);
    return t;
}

/* Calls `law` for every season, with what can be said of it should it break. */
static void over_seasons(size_t crops, void (*law)(struct trial *t, const char *of))
{
    const uint64_t from = from_environment("VINEHAND_LAWS_FROM", 0);
    const uint64_t until = from + from_environment("VINEHAND_LAWS", USUAL_COUNT);

    for (uint64_t season = from; season < until; season++) {
        struct trial t = any_trial(season, crops);
        char of[128];
        snprintf(of, sizeof of, "season %d (%s)", (int)season,
                 trial_crops[(size_t)drawn(season, 0, 0.0, (double)crops)]);
        law(&t, of);
    }
}

static void expect_sound(struct trial *t, const char *of)
{
    const double closes = 1e-9;
    struct trial_result *r = trial_run(t);

    for (int i = 0; i < r->days; i++) {
        const struct vh_plant_day *d = &r->day[i];
        const double numbers[] = {d->assimilate_g_m2,
                                  d->maintenance_g_m2,
                                  d->maintenance_unpaid_g_m2,
                                  d->demand_g_m2,
                                  d->ratio,
                                  d->reserve_g_m2,
                                  d->fruit_dm_g_m2,
                                  d->leaf_dm_g_m2,
                                  d->stem_dm_g_m2,
                                  d->absorbed_mol_m2,
                                  d->lai,
                                  d->stem_cm,
                                  d->leaves,
                                  d->flowering_truss,
                                  r->picked[i].fruits,
                                  r->picked[i].dm_g,
                                  r->picked[i].fresh_g};
        for (int k = 0; k < NUMBERS; k++)
            cr_expect(isfinite(numbers[k]) && numbers[k] >= 0.0, "%s, day %d: number %d is %g", of,
                      i, k, numbers[k]);
        cr_expect(fabs(d->balance_error) <= closes, "%s, day %d: off by %g", of, i,
                  d->balance_error);
    }
    trial_free(r);
}

Test(random_seasons, nothing_is_negative_or_unknown_and_the_account_closes)
{
    over_seasons(TRIAL_CROPS, expect_sound);
}

/* -5 to 45 degC, no light to 2000 umol m-2 s-1, 100 to 2000 ppm. */
static void expect_sound_at_the_ends(struct trial *t, const char *of)
{
    t->square.night_c = drawn(t->draw, 30, -5.0, 45.0);
    t->square.day_c = drawn(t->draw, 31, -5.0, 45.0);
    t->square.par_umol_m2_s = drawn(t->draw, 32, 0.0, 4000.0);
    t->square.co2_ppm = drawn(t->draw, 33, 100.0, 2000.0);
    expect_sound(t, of);
}

Test(random_seasons, nothing_is_negative_or_unknown_at_the_ends_of_all_climates)
{
    over_seasons(TRIAL_CROPS, expect_sound_at_the_ends);
}

static double assimilate(struct trial *t)
{
    struct trial_result *r = trial_run(t);
    double sum = 0.0;

    for (int d = 0; d < r->days; d++)
        sum += r->day[d].assimilate_g_m2;
    trial_free(r);
    return sum;
}

static void expect_light_to_feed(struct trial *t, const char *of)
{
    const double before = assimilate(t);

    t->factors.light = drawn(t->draw, 40, 1.01, 1.5);
    const double now = assimilate(t);
    cr_expect(now >= before * (1.0 - hair), "%s: %.6g g m-2 of %.3f of the light, %.6g before", of,
              now, t->factors.light, before);
}

Test(random_seasons, more_light_never_gives_less_assimilate)
{
    over_seasons(TRIAL_CROPS, expect_light_to_feed);
}

static int picked_trusses(const struct trial_result *r)
{
    int n = 0;
    while (n < vh_plant_trusses(r->plant, 0) && vh_plant_truss(r->plant, 0, n + 1).fruits_on <= 0.0)
        n++;
    return n;
}

/* Mean over the trusses that carry fruit in both, each weighed by what it carries where more are
 * kept: a plain mean also moves with which trusses carry the fruit, and of single trusses a later
 * one may set more where the earlier ones were thinned. Where light feeds every fruit in full up
 * to 0.3 % may hide: tests/laws/t_directions.c says why. */
static void expect_fewer_to_be_larger(struct trial *t, const char *of)
{
    const double hidden = 0.003;
    double few_g = 0.0, many_g = 0.0;
    struct trial_result *many = trial_run(t);
    t->kept *= drawn(t->draw, 41, 0.4, 0.95);
    struct trial_result *few = trial_run(t);

    for (int n = 1; n <= picked_trusses(many) && n <= picked_trusses(few); n++) {
        const struct vh_truss_view m = vh_plant_truss(many->plant, 0, n),
                                   f = vh_plant_truss(few->plant, 0, n);
        if (m.picked_fruits <= 0.0 || f.picked_fruits <= 0.0)
            continue;
        many_g += m.picked_g;
        few_g += f.picked_g / f.picked_fruits * m.picked_fruits;
    }
    cr_expect(few_g >= many_g * (1.0 - hidden), "%s: %.6g g, %.6g g where more were kept", of,
              few_g, many_g);
    trial_free(many);
    trial_free(few);
}

Test(random_seasons, fewer_fruits_never_are_smaller_fruits)
{
    over_seasons(TRIAL_TOMATOES, expect_fewer_to_be_larger);
}

static void expect_warmth_to_hasten(struct trial *t, const char *of)
{
    t->hours = mild_hours;
    t->heads_on = -1; /* trusses of new stems are dated by the truss rate of that day */
    struct trial_result *cool = trial_run(t);
    const double warmer_k = drawn(t->draw, 42, 0.25, 4.0);
    t->square.day_c += warmer_k;
    t->square.night_c += warmer_k;
    struct trial_result *warm = trial_run(t);

    for (int n = 1; n <= vh_plant_trusses(cool->plant, 0); n++) {
        const double before = vh_plant_truss(cool->plant, 0, n).ripe_first_d;
        if (!isfinite(before))
            continue;
        const double now = n <= vh_plant_trusses(warm->plant, 0)
                               ? vh_plant_truss(warm->plant, 0, n).ripe_first_d
                               : (double)NAN;
        cr_expect(now <= before * (1.0 + hair),
                  "%s, %.2f K warmer: truss %d ripe on day %.4f, %.4f "
                  "before",
                  of, warmer_k, n, now, before);
    }
    trial_free(cool);
    trial_free(warm);
}

Test(random_seasons, warmer_between_17_and_25_degc_is_never_ripe_later)
{
    over_seasons(TRIAL_TOMATOES, expect_warmth_to_hasten);
}
