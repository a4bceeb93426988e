/* Suckers left longer take more: random climates, the interval between visits doubled and more. */
#include "../reference/plant_trial.h"
#include "vh_random.h"

enum { CLIMATES = 25, INTERVALS = 4 };

static void any_weather(const struct trial *t, int day, struct trial_hours *out)
{
    const uint32_t d = (uint32_t)day;
    const double mean_c = 16.0 + 8.0 * vh_uniform(t->draw, 0, 0, 0, 0);
    const double bright = 500.0 + 1500.0 * vh_uniform(t->draw, 0, 0, 0, 1);
    const double clear = vh_uniform(t->draw, 0, d, 1, 0);

    for (int h = 0; h < VH_DAY_HOURS; h++) {
        const double sun = vh_max(0.0, sin(VH_PI * (h - 5.0) / 15.0));
        out->t_c[h] = mean_c + 5.0 * clear * sun;
        out->par[h] = bright * clear * sun;
        out->co2[h] = 420.0;
    }
}

static double longest(const struct trial_result *r)
{
    double cm = 0.0;
    for (int d = 0; d < r->days; d++)
        if (r->day[d].sucker_longest_cm > cm)
            cm = r->day[d].sucker_longest_cm;
    return cm;
}

Test(suckers, a_longer_interval_never_gives_more_and_leaves_longer_shoots)
{
    const int every_d[INTERVALS] = {5, 10, 20, 40}; /* each falls on the visits of the shorter */
    const char *crops[] = {"tomato-large", "tomato-cherry", "cucumber-long"};

    for (size_t c = 0; c < sizeof crops / sizeof crops[0]; c++)
        for (uint64_t draw = 0; draw < CLIMATES; draw++) {
            double dm = INFINITY, cm = 0.0, total = INFINITY;
            for (int k = 0; k < INTERVALS; k++) {
                struct trial t = trial_usual(crops[c]);
                t.hours = any_weather;
                t.draw = draw;
                t.sucker_visit_d = every_d[k];
                struct trial_result *r = trial_run(&t);
                const struct vh_picked sum = trial_total(r);
                double grown = 0.0;
                for (int d = 0; d < r->days; d++)
                    grown += r->day[d].fruit_dm_g_m2;
                cr_expect(sum.fresh_g <= total * (1.0 + 1e-9), "%s, climate %d, every %d d: %.6g g",
                          crops[c], (int)draw, every_d[k], sum.fresh_g / total);
                cr_expect(grown <= dm * (1.0 + 1e-9), "%s, climate %d, every %d d: dry matter %.6g",
                          crops[c], (int)draw, every_d[k], grown / dm);
                cr_expect(longest(r) > cm, "%s, climate %d, every %d d: %.3g cm after %.3g",
                          crops[c], (int)draw, every_d[k], longest(r), cm);
                total = sum.fresh_g;
                dm = grown;
                cm = longest(r);
                trial_free(r);
            }
        }
}
