/* Every leaf, truss and axil of the average stem, the first and the last too: what holds of one
 * holds of each. Laws; no source. */
#include "../reference/plant_trial.h"
#include "vh_plant_state.h"

static const double hair = 1e-12;

/* Twice the heads, and the new ones carry nothing yet: on the average stem half of each is left.
 * But stems stand at different points between two leaves: some have the one that is being born. */
Test(every_organ, new_heads_thin_the_average_stem_evenly)
{
    enum { LEAVES = 60, TRUSSES = 20 };
    struct trial t = trial_usual("tomato-cluster");
    double leaf_m2[LEAVES], fruits[TRUSSES], dm_g[TRUSSES];

    t.days = 60;
    t.leaves_keep = 100.0;
    t.sucker_visit_d = 1000;
    struct trial_result *r = trial_run(&t);
    struct vh_plant *p = r->plant;
    const int leaves = (int)p->plastochron[0], trusses = p->trusses[0];
    const struct vh_acts acts = {.heads_factor = 2.0, .new_stem_age_d = -10.0};
    const double own_dm_g = p->leaf_dm_g[0], own_m2 = p->leaf_area_m2[0];
    cr_assert(leaves > 15 && leaves < LEAVES && trusses > 2 && trusses < TRUSSES);
    for (int i = 1; i <= leaves; i++)
        leaf_m2[i] = p->leaf_m2[vh_at(p, i, 0)];
    for (int i = 1; i <= trusses; i++) {
        fruits[i] = p->fruits[vh_at(p, i, 0)];
        dm_g[i] = p->dm_g[vh_at(p, i, 0)];
    }
    cr_assert(leaf_m2[1] > 0.0 && fruits[1] > 0.0 && dm_g[1] > 0.0, "%g m2, %g fruits, %g g",
              leaf_m2[1], fruits[1], dm_g[1]);
    vh_plant_change_heads(p, 0, &acts, 0.3);
    for (int i = 1; i <= leaves; i++) {
        const double share = vh_clamp(0.5 + 0.5 * (i - (p->plastochron[0] - 0.5)), 0.5, 1.0);
        cr_expect(fabs(p->leaf_m2[vh_at(p, i, 0)] - share * leaf_m2[i]) <= hair, "leaf %d", i);
    }
    for (int i = 1; i <= trusses; i++) {
        cr_expect(fabs(p->fruits[vh_at(p, i, 0)] - 0.5 * fruits[i]) <= hair, "truss %d", i);
        cr_expect(fabs(p->dm_g[vh_at(p, i, 0)] - 0.5 * dm_g[i]) <= hair, "truss %d", i);
    }
    cr_expect(fabs(p->leaf_dm_g[0] / own_dm_g - p->leaf_area_m2[0] / own_m2) <= hair, "%g of %g g",
              p->leaf_dm_g[0], own_dm_g);
    cr_expect(fabs(p->leaf_area_m2[0] / own_m2 - 0.5) < 0.001, "%g of %g m2", p->leaf_area_m2[0],
              own_m2);
    trial_free(r);
}

/* Stems that lack a truss, of those from the next one on. */
static double lacking(const struct vh_plant *p, int next)
{
    double sum = 0.0;

    for (int n = next; n < next + 40; n++)
        sum += 1.0 - vh_plant_heads_on(p, 0, n);
    return sum;
}

/* Half of the stems flower late, from two trusses behind the next one on, so that they lack two and
 * a half. As many stems again halve what the average stem lacks, if they flower already; if not,
 * they lack as many as they would alone besides. Nobody's flowers come sooner or later for it. */
Test(every_organ, stems_that_follow_one_another_flower_in_their_own_time)
{
    struct trial t = trial_usual("tomato-cluster");
    struct vh_acts acts = {.heads_factor = 2.0, .new_stem_age_d = 30.0};

    t.days = 60;
    struct trial_result *r = trial_run(&t);
    struct vh_plant *p = r->plant;
    const int next = vh_plant_next_truss(p, 0);
    vh_plant_change_heads(p, 0, &acts, 0.3);
    cr_expect(fabs(lacking(p, next)) <= hair, "all flower");
    p->late_share[0] = 0.5;
    p->late_from[0] = next + 2;
    cr_assert(fabs(lacking(p, next) - 1.25) <= hair);
    vh_plant_change_heads(p, 0, &acts, 0.3);
    cr_expect(fabs(lacking(p, next) - 0.625) <= hair, "%g of a truss", lacking(p, next));
    cr_expect(fabs(vh_plant_heads_on(p, 0, next + 1) - 0.75) <= hair);
    cr_expect(fabs(vh_plant_heads_on(p, 0, next + 3) - 1.0) <= hair);
    p->late_share[0] = 0.5;
    p->late_from[0] = next; /* half of them have the next one already */
    vh_plant_change_heads(p, 0, &acts, 0.3);
    cr_expect(fabs(vh_plant_heads_on(p, 0, next) - 0.875) <= hair);
    acts.new_stem_age_d = -30.0;
    p->late_share[0] = 0.0;
    vh_plant_change_heads(p, 0, &acts, 0.3);
    const double alone = lacking(p, next);
    p->late_share[0] = 0.5;
    p->late_from[0] = next + 2;
    vh_plant_change_heads(p, 0, &acts, 0.3);
    cr_expect(alone > 1.0 && fabs(lacking(p, next) - alone - 0.625) <= hair, "%g, alone %g",
              lacking(p, next), alone);
    trial_free(r);
}

static double air_that_day_c;

static void hours_with_a_day(const struct trial *t, int day, struct trial_hours *out)
{
    *out = trial_square_hours(&t->square);
    for (int h = 0; day == t->heads_on && h < VH_DAY_HOURS; h++)
        out->t_c[h] = air_that_day_c;
}

/* Trusses that new stems of three weeks to their first flower are behind, let grow on a day of that
 * air after forty usual ones. */
static double trusses_behind(double air_c)
{
    struct trial t = trial_usual("tomato-cluster");

    air_that_day_c = air_c;
    t.hours = hours_with_a_day;
    t.heads_on = 40;
    t.days = t.heads_on + 1;
    t.heads_factor = 2.0;
    t.new_stem_age_d = -21.0;
    struct trial_result *r = trial_run(&t);
    const double behind = r->plant->late_from[0] - vh_plant_flowering(r->plant, 0);
    trial_free(r);
    return behind;
}

/* Three weeks are three weeks, whatever the weather of the day: of forty-one days one weighs no
 * more than its share. */
Test(every_organ, one_cold_or_hot_day_hardly_moves_the_first_flower_of_new_stems)
{
    const double usual = trusses_behind(19.5), share = 1.0 / 41.0;

    cr_expect(usual > 2.0 && usual < 4.0, "%g", usual);
    cr_expect(fabs(trusses_behind(6.0) / usual - 1.0) <= share, "%g", trusses_behind(6.0));
    cr_expect(fabs(trusses_behind(30.0) / usual - 1.0) <= share, "%g", trusses_behind(30.0));
}

/* A stem that was topped and never cleared: a sucker grows in each axil, the older the larger. */
Test(every_organ, a_sucker_grows_in_each_axil)
{
    struct trial t = trial_usual("tomato-cluster");

    t.days = 90;
    t.top_on = 40;
    t.sucker_visit_d = 1000;
    struct trial_result *r = trial_run(&t);
    const struct vh_plant *p = r->plant;
    const double start_g = t.crop.sucker.start_g;
    int grown = 0;
    double older = HUGE_VAL;
    for (int i = p->first_sucker[0]; i <= p->last_axil[0]; i++) {
        if (p->sucker_on[vh_at(p, i, 0)] <= 0.0)
            continue;
        const double g = p->sucker_g[vh_at(p, i, 0)];
        cr_expect(g > 2.0 * start_g && g <= older, "axil %d of %d: %g g after %g", i,
                  p->last_axil[0], g, older);
        older = g;
        grown++;
    }
    cr_expect(grown > 10, "%d", grown);
    trial_free(r);
}
