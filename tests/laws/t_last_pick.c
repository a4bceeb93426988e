/* The last pick: what it takes was on the stem, what it leaves is what else was, and it takes the
 * more the less ripe or heavy the fruit may be. Conservation of mass; nothing published. */
#include "../reference/plant_trial.h"

enum { DAYS = 120 }; /* the last of them is no day of picking */
static const bool every_lane = true;

struct last {
    double hung_g, left_g; /* dry matter of fruit, a stem, before and after */
    struct vh_picked all, early;
};

static struct trial usual(const char *crop, bool whole_truss)
{
    struct trial t = trial_usual(crop);

    t.days = DAYS;
    t.pick_every_d = 7;
    t.setup.whole_truss = whole_truss;
    t.setup.pick_stage = 1.04;
    return t;
}

static struct last last_pick(struct trial *t, double stage, double from_g)
{
    struct trial_result *r = trial_run(t);
    struct last out = {.hung_g = r->fruit_dm[DAYS - 1]};

    vh_plant_pick_last(r->plant, stage, from_g, &every_lane, &out.all, &out.early);
    out.left_g = vh_plant_fruit_dm(r->plant, 0);
    trial_free(r);
    return out;
}

/* Before it, by an ordinary pick. */
static struct vh_picked ordinary(struct trial *t)
{
    struct trial_result *r = trial_run(t);
    const struct vh_picked picked = vh_plant_pick(r->plant);

    trial_free(r);
    return picked;
}

static void takes_what_hangs(const char *crop, bool whole_truss, const double *stage,
                             const double *share_of_mass, int n)
{
    struct trial t = usual(crop, whole_truss);
    const struct vh_picked before = ordinary(&t);
    double taken = before.dm_g, fruits = before.fruits;

    for (int i = 0; i < n; i++) {
        const double from_g = share_of_mass[i] * t.setup.pick_from_g;
        const struct last l = last_pick(&t, stage[i], from_g);
        cr_assert(fabs(l.hung_g - l.left_g - l.all.dm_g) <= 1e-9 * l.hung_g,
                  "%s: %.9g g hung, %.9g g picked, %.9g g left", crop, l.hung_g, l.all.dm_g,
                  l.left_g);
        cr_assert(l.left_g >= 0.0 && l.early.fruits >= 0.0 && l.early.fresh_g >= 0.0);
        cr_assert(fabs(l.all.fruits - l.early.fruits - before.fruits) < 1e-9,
                  "%s: %.6f fruits, %.6f of them early, %.6f by an ordinary pick", crop,
                  l.all.fruits, l.early.fruits, before.fruits);
        cr_assert(l.all.dm_g >= taken && l.all.fruits >= fruits,
                  "%s: at stage %.2f or %.0f g %.6f g, at a later one %.6f", crop, stage[i], from_g,
                  l.all.dm_g, taken);
        taken = l.all.dm_g;
        fruits = l.all.fruits;
    }
    cr_assert(taken > 1.05 * before.dm_g, "%s: %.3f g at the last for %.3f", crop, taken,
              before.dm_g);
}

static const double stage[] = {1.04, 1.0, 0.96, 0.92, 0.89}, all_mass[] = {1, 1, 1, 1, 1};
static const double one_stage[] = {1, 1, 1, 1}, mass[] = {1.0, 0.8, 0.6, 0.2};

Test(last_pick, of_fruit_by_its_colour)
{
    takes_what_hangs("tomato-cluster", false, stage, all_mass, 5);
}

Test(last_pick, of_whole_trusses)
{
    takes_what_hangs("tomato-cherry", true, stage, all_mass, 5);
}

Test(last_pick, of_fruit_by_its_mass)
{
    takes_what_hangs("cucumber-long", false, one_stage, mass, 4);
}

Test(last_pick, at_the_colour_of_all_picks_takes_no_more)
{
    struct trial t = usual("tomato-cluster", false);
    const struct last l = last_pick(&t, t.setup.pick_stage, t.setup.pick_from_g);

    cr_assert(l.early.fruits == 0.0 && l.all.fruits == ordinary(&t).fruits);
}
