/* What a day's fruit went through: windows over a season and a climate filled by hand. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <string.h>

#include "vh_math.h"
#include "vh_season.h"

enum { DAYS = 100, SET_OUT = 5, FIRST_DAY = 20000 };

struct made {
    struct vh_crop crop;
    struct vh_planting planting;
    struct vh_house house;
    struct vh_season season;
    struct vh_season_day day[DAYS];
    struct vh_truss_view truss[2];
    double tmean_c[DAYS], tmin_c[DAYS], tmax_c[DAYS], dli_mol_m2_d[DAYS];
};

/* 18 to 26 degC and 20 mol every day, nothing cold or hot; picked on every third day; on day 80
 * truss 1 is being picked that flowered on day 40. */
static void make(struct made *m)
{
    *m = (struct made){0};
    m->crop.spoil = (struct vh_spoil_params){.crack_share = 0.04,
                                             .crack_more = 2,
                                             .crack_from = 0.8,
                                             .crack_width = 0.4,
                                             .crack_most = 0.4,
                                             .crack_window_d = 7,
                                             .cold_night_c = 13,
                                             .cold_from_d = 28,
                                             .cold_to_d = 21,
                                             .rot_hot_c = 30,
                                             .rot_dull_d = 5,
                                             .rot_from_d = 20,
                                             .rot_to_d = 11,
                                             .hang_d = 6,
                                             .hang_cv = 0.3};
    /* a clock of 0.02 a day at any temperature */
    m->crop.clock = (struct vh_clock_params){.low_c = 99,
                                             .blend_c = 98,
                                             .cool_a_per_d = 0.02,
                                             .std_rad_mj_m2_d = 8,
                                             .last_fruit_d = 0.35};
    m->crop.fruit.weight_norm = 4;
    m->planting.crop = &m->crop;
    m->planting.feed_ec_ms_cm = 3.0;
    m->planting.policy.pick_stage = 1.0;
    m->house.colours = (struct vh_colours){0.89, 0.92, 0.96, 1.00, 1.04};
    m->house.climate = (struct vh_climate){.first_day = FIRST_DAY - SET_OUT,
                                           .days = DAYS,
                                           .tmean_c = m->tmean_c,
                                           .tmin_c = m->tmin_c,
                                           .tmax_c = m->tmax_c,
                                           .dli_mol_m2_d = m->dli_mol_m2_d};
    for (size_t i = 0; i < DAYS; i++) {
        m->tmean_c[i] = 22;
        m->tmin_c[i] = 18;
        m->tmax_c[i] = 26;
        m->dli_mol_m2_d[i] = 20;
        m->day[i].plant.ratio = 0.7;
        m->day[i].plant.picking_truss = 1.4;
        m->day[i].pick_day = i % 3 == 2;
    }
    m->truss[0] = (struct vh_truss_view){.opened_d = 40.6, .kept = 4};
    m->truss[1] = (struct vh_truss_view){.opened_d = 50.0, .kept = 4};
    m->season = (struct vh_season){.planting = &m->planting,
                                   .first_day = FIRST_DAY,
                                   .days = DAYS - SET_OUT,
                                   .day = m->day,
                                   .truss = m->truss,
                                   .trusses = 2};
}

static struct made made;

Test(season_spoil, supply_counts_over_the_week_before_the_pick)
{
    make(&made);
    made.day[80].plant.ratio = 1.4;
    made.day[73].plant.ratio = 99.0; /* the eighth day back */
    cr_assert(epsilon_eq(dbl, vh_season_spoil_day(&made.house, &made.season, 80).ratio,
                         (6 * 0.7 + 1.4) / 7, 1e-12));
    struct vh_spoil_shares s;
    vh_season_spoil(&made.house, &made.season, 80, &s);
    /* r is exactly 0.8: from there on it would be more */
    cr_assert(epsilon_eq(dbl, s.cracked, 0.04, 1e-12));
}

Test(season_spoil, heat_counts_about_two_weeks_before_and_more_after_dull_days)
{
    make(&made);
    const size_t at = 80 + SET_OUT; /* climate day of the pick */
    made.tmax_c[at - 15] = 35;      /* 5 K, in the window of 10 days */
    made.tmax_c[at - 10] = 40;      /* after it */
    made.tmax_c[at - 21] = 40;      /* before it */
    struct vh_spoil_day d = vh_season_spoil_day(&made.house, &made.season, 80);
    cr_assert(epsilon_eq(dbl, d.hot_k, 0.5, 1e-12));
    cr_assert(epsilon_eq(dbl, d.hot_after_dull_k, 0.0, 1e-12));
    for (size_t i = 16; i <= 20; i++)
        made.dli_mol_m2_d[at - i] = 16; /* five dull days: the hot one is 1.25 times as bright */
    d = vh_season_spoil_day(&made.house, &made.season, 80);
    cr_assert(epsilon_eq(dbl, d.hot_after_dull_k, 0.5 * 0.25, 1e-12));
    cr_assert(eq(dbl, d.feed_ec_ms_cm, 3.0));
}

Test(season_spoil, cold_nights_count_three_to_four_weeks_before_the_flower)
{
    make(&made);
    const size_t flower = 40 + SET_OUT;
    made.tmin_c[flower - 28] = made.tmin_c[flower - 21] = 12;
    made.tmin_c[flower - 29] = made.tmin_c[flower - 20] = 5; /* outside */
    cr_assert(epsilon_eq(dbl, vh_season_spoil_day(&made.house, &made.season, 80).cold_nights,
                         2.0 / 8.0, 1e-12));
}

Test(season_spoil, fruit_ripens_on_between_two_picks)
{
    make(&made);
    struct vh_spoil_day d = vh_season_spoil_day(&made.house, &made.season, 80);
    cr_assert(epsilon_eq(dbl, d.gap_d, 3.0, 1e-12));
    cr_assert(epsilon_eq(dbl, d.red_wait_d, 2.0, 1e-9)); /* 0.04 at 0.02 a day */
    made.planting.policy.whole_truss = true;
    d = vh_season_spoil_day(&made.house, &made.season, 80);
    cr_assert(epsilon_eq(dbl, d.gap_d, 3.0 + 3 * 0.35, 1e-12));
    made.house.colours = (struct vh_colours){0};
    struct vh_spoil_shares s;
    vh_season_spoil(&made.house, &made.season, 80, &s);
    cr_assert(eq(dbl, s.overripe, 0.0));
}

Test(season_spoil, size_picked_fruit_is_weighed_and_bees_spoil_seedless_fruit)
{
    make(&made);
    made.crop.fruit.pick_by = VH_PICK_BY_MASS;
    made.crop.fruit.mass_cv = 0.08;
    made.crop.flower.unvisited_share = 1.0;
    made.crop.spoil.misshapen_bees = 0.3;
    made.planting.policy.largest_g = 700;
    made.planting.policy.pollination = VH_POLLINATION_BEES;
    made.day[80].picked = (struct vh_picked){.fruits = 0.5, .fresh_g = 200};
    const struct vh_spoil_day d = vh_season_spoil_day(&made.house, &made.season, 80);
    cr_assert(eq(dbl, d.mass_g, 400.0));
    cr_assert(eq(dbl, d.largest_g, 700.0));
    cr_assert(eq(dbl, d.bees, 1.0));
    cr_assert(isnan(d.red_wait_d));
}

/* The flower of what is picked on day 80 opened on day 40. */
Test(season_spoil, bees_of_a_neighbour_reach_seedless_fruit_while_it_flowers)
{
    struct vh_crop tomato = {.flower.unvisited_share = 0.4};
    struct vh_planting both[2];

    make(&made);
    made.crop.flower.unvisited_share = 1.0;
    made.crop.spoil.misshapen_bees = 0.3;
    made.crop.spoil.misshapen_share = 0.05;
    made.planting.policy.pollination = VH_POLLINATION_NONE;
    both[0] = (struct vh_planting){.crop = &tomato,
                                   .set_out = FIRST_DAY + 40,
                                   .pull_out = FIRST_DAY + 60,
                                   .policy.pollination = VH_POLLINATION_BEES};
    both[1] = made.planting;
    made.house.planting = both;
    made.house.plantings = 2;
    struct vh_spoil_shares s;
    vh_season_spoil(&made.house, &made.season, 80, &s);
    cr_assert(epsilon_eq(dbl, s.misshapen, 0.35, 1e-12));
    both[0].set_out = FIRST_DAY + 41; /* too late for that flower */
    vh_season_spoil(&made.house, &made.season, 80, &s);
    cr_assert(epsilon_eq(dbl, s.misshapen, 0.05, 1e-12));
    both[0].set_out = FIRST_DAY + 20;
    both[0].policy.pollination = VH_POLLINATION_HAND;
    vh_season_spoil(&made.house, &made.season, 80, &s);
    cr_assert(epsilon_eq(dbl, s.misshapen, 0.05, 1e-12));
}

Test(season_spoil, the_first_days_of_a_season_look_at_what_there_is)
{
    make(&made);
    made.day[0].plant.picking_truss = VH_UNKNOWN;
    const struct vh_spoil_day d = vh_season_spoil_day(&made.house, &made.season, 0);
    cr_assert(isnan(d.hot_k));
    cr_assert(isnan(d.cold_nights));
    cr_assert(eq(dbl, d.ratio, 0.7));
    cr_assert(eq(dbl, d.gap_d, 1.0));
}
