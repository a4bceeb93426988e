/* Side shoots: how long they get between two visits, and what they take. */
#include "../reference/plant_trial.h"
#include "vh_sucker.h"

enum { LEAVES = 200, DAYS = 420, SETTLED = 210 };

static void near(double got, double wanted)
{
    cr_expect(fabs(got - wanted) < 1e-12, "%.15g, not %.15g", got, wanted);
}

struct rhythm_result {
    double longest_cm, g_per_d;
};

/* Even 22 degC, all visits complete, all growth fed. */
static struct rhythm_result pulled_every(const struct vh_crop *crop, int every_d)
{
    const struct vh_sucker_params *s = &crop->sucker;
    const double cd = 22.0 - s->base_c, fed_cost = crop->upkeep.other_cost;
    const double leaves_per_d =
        crop->truss.leaves_per_truss * vh_truss_rate_per_d(&crop->truss, 22.0, 1.0);
    const double rise = vh_sucker_rise(s, cd);
    double w[LEAVES] = {0.0}, on[LEAVES], asked = 0.0, longest = 0.0;

    for (int i = 0; i < LEAVES; i++)
        on[i] = 1.0;
    for (int d = 0; d < DAYS; d++)
        for (int i = 0; i < LEAVES; i++) {
            const double age_cd = cd * (d - i / leaves_per_d) - s->start_cd;
            if (age_cd < 0.0 || on[i] <= 0.0)
                continue;
            w[i] = w[i] > 0.0 ? w[i] : s->start_g * (1.0 + vh_sucker_rise(s, age_cd));
            const double cm = vh_sucker_length_cm(s, w[i]);
            if (d % every_d == 0) {
                longest = d >= SETTLED && on[i] > 0.5 ? vh_max(longest, cm) : longest;
                on[i] -= on[i] * vh_sucker_long_enough(s, cm);
            }
            const double gain = vh_sucker_gain_g(s, w[i], rise, cd);
            if (d >= SETTLED)
                asked += on[i] * fed_cost * gain * (1.0 - vh_sucker_own(s, w[i]));
            w[i] += gain;
        }
    return (struct rhythm_result){longest, asked / (DAYS - SETTLED)};
}

/* model.md section 8: our own figures for these parameters, no measurement; lengths are given to
 * two digits, the cost as "about". */
Test(sucker, longest_and_cost_by_the_days_between_visits)
{
    const struct vh_crop crop = trial_read_crop("tomato-cluster");
    const struct {
        int every_d;
        double longest_cm, g_per_d;
    } said[] = {{7, 4.6, 0.07}, {10, 6.2, 0.10}, {14, 10.7, 0.19}, {21, 25.0, 0.39}};

    for (size_t k = 0; k < sizeof said / sizeof said[0]; k++) {
        const struct rhythm_result r = pulled_every(&crop, said[k].every_d);
        cr_expect(fabs(r.longest_cm / said[k].longest_cm - 1.0) < 0.1, "every %d d: %.2f cm",
                  said[k].every_d, r.longest_cm);
        cr_expect(fabs(r.g_per_d / said[k].g_per_d - 1.0) < 0.2, "every %d d: %.3f g",
                  said[k].every_d, r.g_per_d);
    }
}

Test(sucker, the_limit_of_length_is_crossed_over_its_width)
{
    const struct vh_sucker_params s = {.pulled_cm = 2.0, .pull_width_cm = 0.5};
    near(vh_sucker_long_enough(&s, 1.75), 0.0);
    near(vh_sucker_long_enough(&s, 2.0), 0.5);
    near(vh_sucker_long_enough(&s, 2.25), 1.0);
}

Test(sucker, a_large_one_grows_no_faster_than_a_stem)
{
    const struct vh_sucker_params s = {.growth_per_cd = 0.02, .fastest_g_cd = 0.3};
    const double rise = vh_sucker_rise(&s, 10.0);
    near(vh_sucker_gain_g(&s, 1000.0, rise, 10.0), 3.0);
    near(vh_sucker_gain_g(&s, 1.0, rise, 10.0), vh_exp(0.2) - 1.0);
}

static struct trial_result *season(const char *crop, int every_d, int top_on, double pace)
{
    struct trial t = trial_usual(crop);
    t.sucker_visit_d = every_d;
    t.top_on = top_on;
    t.factors.sucker_pace = pace;
    return trial_run(&t);
}

static double off(const struct trial_result *r, int from)
{
    double sum = 0.0;
    for (int d = from; d < r->days; d++)
        sum += r->day[d].suckers_off;
    return sum;
}

Test(sucker, every_leaf_gives_one_and_visits_take_them)
{
    struct trial_result *r = season("tomato-cluster", 7, -1, 1.0);
    const double made = r->day[r->days - 1].leaves_made -
                        8.0; /* set out with 8; two to three weeks from leaf to pulling */
    cr_expect(off(r, 0) > made - 12.0 && off(r, 0) < made, "%g pulled of %g", off(r, 0), made);
    for (int d = 0; d < r->days; d++)
        if (r->day[d].suckers_off > 0.0) {
            cr_expect(d % 7 == 0);
            cr_expect(r->day[d].sucker_pulled_cm > 1.75 && r->day[d].sucker_pulled_cm < 12.0);
            cr_expect(r->day[d].sucker_longest_cm >= r->day[d].sucker_pulled_cm - 1e-9);
        } else {
            cr_expect(isnan(r->day[d].sucker_pulled_cm));
        }
    cr_expect(isnan(r->day[0].sucker_longest_cm));
    trial_free(r);
}

Test(sucker, a_topped_crop_goes_on_making_them_for_a_while)
{
    struct trial_result *r = season("tomato-cluster", 7, 80, 1.0);
    cr_expect(off(r, 84) > 1.0, "%g pulled after topping", off(r, 84));
    cr_expect(off(r, 140) < 0.1, "%g pulled two months after", off(r, 140));
    trial_free(r);
}

Test(sucker, a_members_pace_makes_them_longer)
{
    struct trial_result *slow = season("tomato-cluster", 7, -1, 0.9),
                        *fast = season("tomato-cluster", 7, -1, 1.1);
    cr_expect(fast->day[140].sucker_longest_cm > 1.05 * slow->day[140].sucker_longest_cm);
    trial_free(slow);
    trial_free(fast);
}

Test(sucker, a_pepper_has_none_to_pull)
{
    struct trial_result *r = season("pepper-large", 7, -1, 1.0);
    for (int d = 0; d < r->days; d++) {
        cr_expect(isnan(r->day[d].sucker_longest_cm));
        cr_expect(r->day[d].suckers_off == 0.0 && r->day[d].sucker_dm_g_m2 == 0.0);
    }
    trial_free(r);
}
