/* A crop that is first seen as it stands: the rest of its season against the season that led there
 * (issue of the plant: within 3 % and 1 day). The truth here is our own whole season; what is
 * tested is that the way in does not matter. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdlib.h>

#include "vh_parameters.h"
#include "vh_season.h"

enum { DAYS = 240 };

static struct vh_parameters *params(void)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_parameters *p = NULL;
    cr_assert(eq(int, (int)vh_parameters_read(VINEHAND_PARAMS, &p, m), (int)VH_OK));
    vh_messages_free(m);
    return p;
}

/* Spring to autumn of no real year: light and warmth rise and fall. */
static void make_climate(struct vh_climate *c)
{
    const size_t hours = DAYS * VH_HOURS_PER_DAY;
    *c = (struct vh_climate){.days = DAYS};
    c->t_c = malloc(hours * sizeof *c->t_c);
    c->par_umol_m2_s = malloc(hours * sizeof *c->par_umol_m2_s);
    c->co2_ppm = malloc(hours * sizeof *c->co2_ppm);
    for (size_t i = 0; i < hours; i++) {
        const double day = (double)i / VH_HOURS_PER_DAY, h = (double)(i % VH_HOURS_PER_DAY),
                     x = (h - 5.0) / 14.0;
        const double rise = sin(3.14159265 * day / DAYS);
        c->t_c[i] = 17.5 + 3.0 * rise + (h > 6 && h < 20 ? 3.0 : 0.0);
        c->par_umol_m2_s[i] = x > 0.0 && x < 1.0 ? (1500.0 + 2200.0 * rise) * x * (1.0 - x) : 0.0;
        c->co2_ppm[i] = 420.0;
    }
}

static struct vh_season run(const struct vh_house *house, const struct vh_planting *p,
                            const struct vh_parameters *q)
{
    const struct vh_factors one = {1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0};
    struct vh_season s;
    cr_assert(eq(int, (int)vh_season_run(house, p, 1.0, q->colours.breaker, &one, &s), (int)VH_OK));
    return s;
}

static double picked_after(const struct vh_season *s, int64_t day)
{
    double g = 0.0;
    for (size_t d = 0; d < s->days; d++)
        if (s->first_day + (int64_t)d > day)
            g += s->day[d].picked.fresh_g;
    return g;
}

/* Sees the crop on `day` as the season up to then left it, and runs the rest. */
static void begin_again(const char *crop, int64_t day)
{
    struct vh_parameters *q = params();
    const struct vh_crop_file *file = vh_parameters_crop(q, crop);
    const struct vh_habit_params *habit = &file->crop.habit;
    struct vh_fruits_rule rule[] = {
        {1, 0, habit->fruits_kept, (enum vh_thin_stage)habit->thin_at, INT64_MIN, INT64_MAX},
        {1, (int)habit->stripped_nodes, 0.0, VH_THIN_BUD, INT64_MIN, INT64_MAX},
    };
    struct vh_house house = {0};
    make_climate(&house.climate);
    struct vh_planting p = {.crop = &file->crop,
                            .plants = 100,
                            .plants_per_m2 = 2.5,
                            .heads_per_plant = 1,
                            .pull_out = DAYS - 1,
                            .seedling_leaves = habit->seedling_leaves,
                            .usual_fruit_g = habit->usual_fruit_g,
                            .feed_ec_ms_cm = habit->feed_ec_ms_cm,
                            .policy = {.fruits = rule,
                                       .fruits_rules = habit->stripped_nodes > 0.0 ? 2 : 1,
                                       .leaves_keep = habit->leaves_kept,
                                       .leaf_visit = {.every_d = 1},
                                       .suckers = {.visit = {.every_d = 1}},
                                       .leaves_most_per_visit = 10.0,
                                       .pick = {.every_d = 1},
                                       .pick_stage = q->colours.light_red,
                                       .pick_from_g = habit->pick_from_g,
                                       .bees_share = 1.0}};
    struct vh_season all = run(&house, &p, q);
    p.pull_out = day;
    struct vh_season before = run(&house, &p, q);
    p.pull_out = DAYS - 1;

    const struct vh_plant_day *seen = &before.day[before.days - 1].plant;
    const int picking = (int)seen->picking_truss;
    double fruits[256];
    p.set_out = day + 1;
    p.standing = (struct vh_standing){.given = true,
                                      .flowering_truss = seen->flowering_truss,
                                      .picking_truss = picking,
                                      .stem_cm = seen->stem_cm,
                                      .leaves = seen->leaves,
                                      .fruits = fruits};
    for (size_t t = (size_t)picking; t <= before.trusses; t++)
        fruits[p.standing.trusses++] = before.truss[t - 1].fruits_on;
    struct vh_season after = run(&house, &p, q);

    const double whole = picked_after(&all, day), rest = picked_after(&after, day);
    cr_log_info("%s seen on day %d: %.0f g a stem left, %.0f g reckoned from there (%+.1f %%)",
                crop, (int)day, whole, rest, 100.0 * (rest / whole - 1.0));
    cr_expect(epsilon_eq(dbl, rest / whole, 1.0, 0.03), "%s day %d: %g against %g", crop, (int)day,
              rest, whole);
    const size_t most = all.trusses < after.trusses ? all.trusses : after.trusses;
    for (size_t t = (size_t)seen->flowering_truss; t < most; t++) {
        const double opened = after.truss[t].opened_d + (double)(day + 1),
                     ripe = after.truss[t].ripe_first_d + (double)(day + 1);
        cr_expect(epsilon_eq(dbl, opened, all.truss[t].opened_d, 1.0), "%s day %d truss %zu opens",
                  crop, (int)day, t + 1);
        if (!isnan(all.truss[t].ripe_first_d) && !isnan(ripe))
            cr_expect(epsilon_eq(dbl, ripe, all.truss[t].ripe_first_d, 1.0),
                      "%s day %d truss %zu ripens", crop, (int)day, t + 1);
    }
    vh_season_clear(&all);
    vh_season_clear(&before);
    vh_season_clear(&after);
    free(house.climate.t_c);
    free(house.climate.par_umol_m2_s);
    free(house.climate.co2_ppm);
    vh_parameters_free(q);
}

Test(standing, a_tomato_crop_seen_before_its_first_pick)
{
    begin_again("tomato-cluster", 45);
}
Test(standing, a_tomato_crop_seen_in_the_middle)
{
    begin_again("tomato-cluster", 110);
}
Test(standing, a_tomato_crop_seen_late)
{
    begin_again("tomato-large", 170);
}
Test(standing, a_cucumber_crop_seen_in_the_middle)
{
    begin_again("cucumber-long", 100);
}
