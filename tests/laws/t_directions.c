/* Directions that hold for any parameter value in reach: more light, fewer fruits, more warmth. */
#include "../reference/plant_trial.h"

static const double hair = 1.0 - 1e-12; /* rounding of sums */

Test(directions, more_light_never_gives_a_canopy_less_assimilate)
{
    for (size_t c = 0; c < TRIAL_CROPS; c++) {
        const struct vh_crop crop = trial_read_crop(trial_crops[c]);
        for (double t_c = -5.0; t_c <= 45.0; t_c += 2.5)
            for (double co2 = 100.0; co2 <= 2000.0; co2 += 380.0)
                for (double lai = 0.0; lai <= 6.0; lai += 1.5) {
                    double before = 0.0;
                    for (double par = 0.0; par <= 2000.0; par += 20.0) {
                        const struct vh_leaf_hours lit =
                            trial_lit_hour(&crop.light, t_c, par, co2);
                        const double now = trial_canopy_g_m2(&crop.light, &lit, lai);
                        cr_expect(now >= before * hair, "%s, %g degC, %g umol: %.12g after %.12g",
                                  trial_crops[c], t_c, par, now, before);
                        before = now;
                    }
                }
    }
}

/* Over a season too, where light also makes leaves that shade each other. */
Test(directions, more_light_never_gives_a_season_less_assimilate)
{
    for (size_t c = 0; c < TRIAL_CROPS; c++) {
        double before = 0.0;
        for (double light = 0.1; light <= 2.5; light += 0.1) {
            struct trial t = trial_usual(trial_crops[c]);
            double sum = 0.0;
            t.factors.light = light;
            struct trial_result *r = trial_run(&t);
            for (int d = 0; d < r->days; d++)
                sum += r->day[d].assimilate_g_m2;
            cr_expect(sum >= before * hair, "%s, light x %g: %.9g g m-2 after %.9g", trial_crops[c],
                      light, sum, before);
            before = sum;
            trial_free(r);
        }
    }
}

/* Cockshull & Ho 1995, J. Hort. Sci. 70:395-407, abstract: fruit taken off makes the rest larger.
 * Where light feeds every fruit in full the rest cannot grow larger, and the pick hides up to 0.3
 * %: a short truss is ripe earlier, so that more of its fruit goes before its last gram. */
Test(directions, fewer_fruits_kept_never_give_smaller_fruit)
{
    static const struct {
        double par, allowed;
    } light[] = {{100, 0.0}, {300, 0.0}, {700, 0.003}};

    for (size_t c = 0; c < TRIAL_TOMATOES; c++)
        for (size_t i = 0; i < sizeof light / sizeof light[0]; i++) {
            double largest_g = 0.0;
            const double most = trial_read_crop(trial_crops[c]).flower.flowers;
            for (double kept = most; kept >= 1.0; kept -= 0.5) {
                struct trial t = trial_usual(trial_crops[c]);
                t.kept = kept;
                t.square.par_umol_m2_s = light[i].par;
                struct trial_result *r = trial_run(&t);
                const struct vh_picked sum = trial_total(r);
                cr_assert(sum.fruits > 0.0, "%s, %g umol: no fruit", trial_crops[c], light[i].par);
                const double mean_g = sum.fresh_g / sum.fruits;
                cr_expect(mean_g >= largest_g * (1.0 - light[i].allowed) * hair,
                          "%s, %g umol, %g kept: %.9g g after %.9g", trial_crops[c], light[i].par,
                          kept, mean_g, largest_g);
                largest_g = vh_max(largest_g, mean_g);
                trial_free(r);
            }
        }
}

/* Between types growers pick 0.63 to 0.75 for each halving of the fruit mass, 0.72 to 0.85 of the
 * dry matter (from memory: cherry 20, cluster 65, large 75 kg m-2 in lit houses). */
Test(directions, a_variety_of_half_the_fruit_mass_yields_a_little_less)
{
    for (size_t c = 0; c < TRIAL_TOMATOES; c++) {
        struct vh_picked sum[2];
        for (int half = 0; half < 2; half++) {
            struct trial t = trial_usual(trial_crops[c]);
            const double share = half ? 0.5 : 1.0, many = vh_flower_many(&t.crop.flower, share);
            t.setup.usual_fruit_g *= share;
            t.setup.flowers = many * t.crop.flower.flowers;
            t.kept *= many;
            struct trial_result *r = trial_run(&t);
            sum[half] = trial_total(r);
            trial_free(r);
        }
        const double yield = sum[1].fresh_g / sum[0].fresh_g,
                     number = sum[1].fruits / sum[0].fruits;
        cr_expect(yield > 0.72 && yield < 0.9, "%s: %.3f of the yield", trial_crops[c], yield);
        cr_expect(number > 1.3 && number < 1.5, "%s: %.3f of the fruits", trial_crops[c], number);
    }
}

Test(directions, warmer_between_17_and_25_degc_is_never_ripe_later)
{
    for (size_t c = 0; c < TRIAL_TOMATOES; c++) {
        const struct vh_crop crop = trial_read_crop(trial_crops[c]);
        for (double rad = 1.0; rad <= 20.0; rad += 1.0)
            for (double truss = 1.0; truss <= 31.0; truss += 10.0) {
                double before = INFINITY;
                for (double t_c = 17.0; t_c <= 25.0; t_c += 0.1) {
                    const double days = vh_clock_days_to_ripe(&crop.clock, t_c, rad, truss);
                    cr_expect(days <= before, "%s, %g degC, %g MJ: %.6f d after %.6f",
                              trial_crops[c], t_c, rad, days, before);
                    before = days;
                }
            }
    }
}

/* On the plant: the dates of the first ripe fruit of the first trusses, from set-out. */
Test(directions, a_warmer_house_never_has_its_first_trusses_ripe_later)
{
    for (size_t c = 0; c < TRIAL_TOMATOES; c++) {
        double before[4] = {INFINITY, INFINITY, INFINITY, INFINITY};
        for (double t_c = 17.0; t_c <= 25.0; t_c += 0.25) {
            struct trial t = trial_usual(trial_crops[c]);
            t.square.day_c = t.square.night_c = t_c;
            struct trial_result *r = trial_run(&t);
            for (int n = 0; n < 4; n++) {
                const double ripe_d = vh_plant_truss(r->plant, 0, n + 1).ripe_first_d;
                cr_assert(isfinite(ripe_d), "%s, %g degC: truss %d never ripe", trial_crops[c], t_c,
                          n + 1);
                cr_expect(ripe_d <= before[n] / hair, "%s, %g degC, truss %d: %.6f d after %.6f",
                          trial_crops[c], t_c, n + 1, ripe_d, before[n]);
                before[n] = ripe_d;
            }
            trial_free(r);
        }
    }
}

/* A node crop with two flowers a node of which one is kept: taken later, more of them have grown
 * for nothing, and none the less one is left. */
Test(directions, fruit_of_nodes_taken_at_marble_size_costs_more_than_at_bud)
{
    static const char *const crops[] = {"cucumber-long", "pepper-large"};

    for (size_t c = 0; c < 2; c++) {
        struct trial t = trial_usual(crops[c]);
        double fresh[2];
        t.crop.flower.flowers = 2.0;
        t.crop.flower.abort_per_cd = 0.0;
        t.kept = 1.0;
        for (int late = 0; late < 2; late++) {
            t.thin_stage = late ? t.crop.habit.thin_stage_marble : 0.0;
            struct trial_result *r = trial_run(&t);
            const struct vh_truss_view v = vh_plant_truss(r->plant, 0, 10);
            cr_expect(fabs(v.kept / v.set - (late ? 0.5 : 1.0)) < 1e-9, "%s: %g of %g kept",
                      crops[c], v.kept, v.set);
            cr_expect(late ? v.thinned_d > v.opened_d + 1.0 : isnan(v.thinned_d),
                      "%s: thinned %.2f d after the flower", crops[c], v.thinned_d - v.opened_d);
            fresh[late] = trial_total(r).fresh_g;
            trial_free(r);
        }
        cr_expect(fresh[1] < fresh[0] / hair, "%s: %.1f g at marble, %.1f at bud", crops[c],
                  fresh[1], fresh[0]);
    }
}
