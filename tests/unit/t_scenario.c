/* The scenario reader: what a file becomes. Broken files are tested from outside (tests/cli/bad).
 * Truth: interface.md section 2; unit factors exact by the 1959 yard and pound and by the
 * definition of the Fahrenheit degree (NIST SP 811, 2008, appendix B). */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "scenario_parts.h"
#include "scenario_trial.h"
#include "vh_season.h"

#define HOUSE "[house]\nname = \"Bays\"\nlatitude_deg = 44.5\n"
#define ROUGHLY                                                                                    \
    "[climate.roughly]\nwarmest_high_c = 28\nwarmest_low_c = 16\n"                                 \
    "coldest_high_c = -2\ncoldest_low_c = -12\n"
#define TOMATO                                                                                     \
    "[[planting]]\nname = \"slicers\"\ncrop = \"tomato-large\"\nplants = 48\n"                     \
    "plants_per_m2 = 2.5\nset_out = 2026-02-20\npull_out = 2026-10-10\n"
#define CUCUMBER                                                                                   \
    "[[planting]]\nname = \"cucumbers\"\ncrop = \"cucumber-long\"\nplants = 24\n"                  \
    "plants_per_m2 = 1.6\nset_out = 2026-05-01\npull_out = 2026-10-10\n"
#define PEPPER                                                                                     \
    "[[planting]]\nname = \"bells\"\ncrop = \"pepper-large\"\nplants = 24\n"                       \
    "plants_per_m2 = 2.5\nset_out = 2026-05-01\npull_out = 2026-10-10\n"
#define AUBERGINE                                                                                  \
    "[[planting]]\nname = \"aubs\"\ncrop = \"aubergine-large\"\nplants = 24\n"                     \
    "plants_per_m2 = 2\nset_out = 2026-05-01\npull_out = 2026-10-10\n"
#define SMALLEST HOUSE ROUGHLY TOMATO

static enum vh_status parse(const char *text)
{
    return trial_parse(in_tree("tests/unit"), text);
}

/* Parses what must be good; the first planting. */
static const struct vh_planting *good(const char *text)
{
    const enum vh_status status = parse(text);

    for (size_t i = 0; status < 0 && i < vh_messages_count(messages); i++)
        cr_log_error("%s", vh_messages_at(messages, i)->text);
    cr_assert(ge(int, status, VH_OK));
    cr_assert(scenario != NULL);
    return &scenario->house.planting[0];
}

/* How many messages of that kind hold the text. */
static int told(enum vh_severity severity, const char *text)
{
    int n = 0;

    for (size_t i = 0; i < vh_messages_count(messages); i++) {
        const struct vh_message *m = vh_messages_at(messages, i);
        n += m->severity == severity && strstr(m->text, text) != NULL;
    }
    return n;
}

/* The value of a default in use, or "". */
static const char *default_value(const char *key)
{
    const struct vh_table *t = vh_scenario_table(scenario, 0);

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (strcmp(vh_table_text(t, i, 0), key) == 0)
            return vh_table_text(t, i, 1);
    }
    return "";
}

TestSuite(scenario, .init = trial_start, .fini = trial_stop);

/* Without both, a log whose times carry their own offset is read all the same. */
Test(scenario, the_clock_is_the_offset_given_or_the_hour_of_the_longitude_or_utc)
{
    good(SMALLEST);
    cr_expect(eq(int, scenario->house.climate_request.utc_offset_min, 0));
    good(HOUSE "longitude_deg = -72.6\n" ROUGHLY TOMATO);
    cr_expect(eq(int, scenario->house.climate_request.utc_offset_min, -300));
    good(HOUSE "utc_offset_h = 5.75\n" ROUGHLY TOMATO);
    cr_expect(eq(int, scenario->house.climate_request.utc_offset_min, 345));
}

Test(scenario, the_smallest_file_becomes_a_house_with_one_planting)
{
    const struct vh_planting *p = good(SMALLEST);
    const struct vh_house *h = &scenario->house;

    cr_assert(eq(str, h->name, "Bays"));
    cr_assert(eq(sz, h->plantings, 1));
    cr_assert(eq(str, p->name, "slicers"));
    cr_assert(eq(str, p->crop_name, "tomato-large"));
    cr_assert(eq(dbl, p->plants, 48));
    cr_assert(eq(dbl, p->plants_per_m2, 2.5));
    cr_assert(eq(dbl, p->heads_per_plant, 1));
    cr_assert(eq(i64, p->set_out, day("2026-02-20")));
    cr_assert(eq(i64, p->pull_out, day("2026-10-10")));
    cr_assert(eq(i64, h->first_day, p->set_out));
    cr_assert(eq(i64, h->last_day, p->pull_out));
    cr_assert(eq(i64, h->today, day("2026-07-14")));
    cr_assert(not(p->has_first_flower));
    cr_assert(not(h->light_factor_given));
    cr_assert(eq(sz, h->climate.days, (size_t)(p->pull_out - p->set_out + 1)));
    cr_assert(eq(sz, vh_messages_count(messages), 0));
}

Test(scenario, what_the_file_does_not_say_comes_from_the_rows_and_is_listed)
{
    const struct vh_planting *p = good(SMALLEST);
    const struct vh_habit_params *habit = &p->crop->habit;

    cr_assert(eq(dbl, p->usual_fruit_g, habit->usual_fruit_g));
    cr_assert(eq(dbl, p->policy.leaves_keep, habit->leaves_kept));
    cr_assert(eq(dbl, p->policy.pick_stage, params->colours.light_red));
    cr_assert(eq(dbl, scenario->house.climate_request.vent_c, params->house.vent_c));
    cr_assert(eq(dbl, scenario->house.climate_request.cover_transmission,
                 params->house.cover_film_double));
    cr_assert(eq(str, (char *)default_value("climate.vent_c"),
                 vh_param_find(&params->house_rows, "house.vent_c")->value_text));
    cr_assert(eq(str, (char *)default_value("house.cover"), "film-double"));
    cr_assert(eq(str, (char *)default_value("planting.pollination.by (slicers)"), "bees"));
    cr_assert(eq(str, (char *)default_value("planting.pull_out after set_out (slicers)"), ""));
}

Test(scenario, a_missing_pull_out_lies_the_usual_season_after_set_out)
{
    const struct vh_planting *p =
        good(HOUSE ROUGHLY "[[planting]]\nname = \"a\"\ncrop = \"tomato-large\"\nplants = 4\n"
                           "plants_per_m2 = 2\nset_out = 2026-02-20\n");

    cr_assert(eq(i64, p->pull_out, p->set_out + (int64_t)params->house.default_season_d));
}

Test(scenario, a_sown_planting_is_set_out_after_its_nursery)
{
    const struct vh_planting *p =
        good(HOUSE ROUGHLY "[[planting]]\nname = \"a\"\ncrop = \"cucumber-long\"\nplants = 4\n"
                           "plants_per_m2 = 2\nsow = 2026-04-01\npull_out = 2026-09-01\n");

    cr_assert(eq(i64, p->set_out, day("2026-04-01") + (int64_t)p->crop->habit.nursery_d));
}

/* What hangs on a crop that is seen standing grew in the weeks before, so their climate is asked
 * for, whichever planting of the file it is; a crop that is set out needs none. */
Test(scenario, the_weeks_before_a_standing_crop_need_a_climate)
{
#define STANDING                                                                                   \
    "[[planting]]\nname = \"plums\"\ncrop = \"tomato-plum\"\nplants = 10\nplants_per_m2 = 2.5\n"   \
    "[planting.standing]\non = 2026-05-12\nflowering_truss = 9\npicking_truss = 2\n"
    static const char *const texts[] = {HOUSE ROUGHLY STANDING, HOUSE ROUGHLY STANDING CUCUMBER,
                                        HOUSE ROUGHLY CUCUMBER STANDING};

    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        const struct vh_planting *p = good(texts[i]) + (i == 2 ? 1 : 0);
        const int64_t warm_up = (int64_t)p->crop->habit.warm_up_d;
        cr_assert(warm_up > 30);
        cr_expect(eq(i64, scenario->house.climate_request.first_day, day("2026-05-12") - warm_up),
                  "%zu", i);
    }
    good(HOUSE ROUGHLY CUCUMBER);
    cr_expect(eq(i64, scenario->house.climate_request.first_day, day("2026-05-01")));
}

Test(scenario, rows_and_distances_give_the_density)
{
    const struct vh_planting *p =
        good(HOUSE ROUGHLY "[[planting]]\nname = \"a\"\ncrop = \"tomato-large\"\nplants = 4\n"
                           "rows_apart_cm = 100\nplants_apart_cm = 40\nset_out = 2026-02-20\n");

    cr_assert(eq(dbl, p->plants_per_m2, 2.5)); /* 1 / (1 m x 0.4 m) */
    cr_assert(eq(dbl, p->plants_apart_cm, 40));
}

Test(scenario, keys_may_be_given_in_the_other_system_of_units)
{
    const struct vh_planting *p =
        good("[house]\nname = \"B\"\nlatitude_deg = 44.5\nwire_height_ft = 10\n"
             "floor_area_ft2 = 1000\n" ROUGHLY "[climate]\nheat_f = 59\nvent_f = 77\n"
             "log_offset_f = 1.8\n[[planting]]\nname = \"a\"\ncrop = \"tomato-large\"\nplants = 4\n"
             "plants_per_ft2 = 0.25\nset_out = 2026-02-20\nusual_fruit_oz = 6\n");
    const struct vh_house *h = &scenario->house;

    cr_assert(ieee_ulp_eq(dbl, h->wire_height_m, 3.048, 4));
    cr_assert(ieee_ulp_eq(dbl, h->floor_area_m2, 92.90304, 4));
    cr_assert(epsilon_eq(dbl, h->climate_request.heat_day_c, 15.0, 1e-12));
    cr_assert(epsilon_eq(dbl, h->climate_request.heat_night_c, 15.0, 1e-12));
    cr_assert(epsilon_eq(dbl, h->climate_request.vent_c, 25.0, 1e-12));
    cr_assert(epsilon_eq(dbl, h->climate_request.log_offset_c, 1.0, 1e-12)); /* no shift */
    cr_assert(ieee_ulp_eq(dbl, p->plants_per_m2, 0.25 / 0.09290304, 4));
    cr_assert(ieee_ulp_eq(dbl, p->usual_fruit_g, 170.09713875, 4));
}

Test(scenario, a_range_is_told_in_the_unit_that_was_typed)
{
    cr_assert(eq(int, parse("[house]\nname = \"B\"\nwire_height_ft = 290\n" ROUGHLY TOMATO),
                 VH_BAD_INPUT));
    cr_assert(eq(int, told(VH_ERROR, "between 3.281 and 26.25"), 1));
    cr_assert(eq(ptr, scenario, NULL));
}

/* ---- fruits kept ---- */

static void rule_is(const struct vh_planting *p, size_t i, int first, int last, double fruits,
                    enum vh_thin_stage at)
{
    cr_assert(lt(sz, i, p->policy.fruits_rules));
    cr_expect(eq(int, p->policy.fruits[i].first_truss, first));
    cr_expect(eq(int, p->policy.fruits[i].last_truss, last));
    cr_expect(eq(dbl, p->policy.fruits[i].fruits, fruits));
    cr_expect(eq(int, p->policy.fruits[i].at, at));
}

Test(scenario, without_rules_the_habit_of_the_crop_holds)
{
    const struct vh_planting *p = good(SMALLEST);

    cr_assert(eq(sz, p->policy.fruits_rules, 1));
    rule_is(p, 0, 1, 0, p->crop->habit.fruits_kept, (enum vh_thin_stage)p->crop->habit.thin_at);

    p = good(HOUSE ROUGHLY CUCUMBER);
    cr_assert(eq(sz, p->policy.fruits_rules, 2));
    rule_is(p, 0, 1, 0, p->crop->habit.fruits_kept, (enum vh_thin_stage)p->crop->habit.thin_at);
    rule_is(p, 1, 1, (int)p->crop->habit.stripped_nodes, 0.0, VH_THIN_BUD);
}

/* By the square root of the mass; what a row of the scenario says holds as it stands. */
Test(scenario, smaller_fruit_comes_with_more_flowers_unless_they_are_given)
{
    static const char flowers[] = "[[parameters.row]]\ncrop = \"tomato-large\"\n"
                                  "name = \"flower.flowers\"\nvalue = 5\n";
    char text[2000];
    const struct vh_planting *p = good(SMALLEST);
    const double usual_g = p->usual_fruit_g, kept = p->crop->habit.fruits_kept,
                 of_type = p->crop->flower.flowers, narrow = 1e-9;

    cr_assert(eq(dbl, p->flowers, of_type));
    snprintf(text, sizeof text, "%susual_fruit_g = %g\n", SMALLEST, usual_g / 4.0);
    p = good(text);
    cr_expect(epsilon_eq(dbl, p->flowers, 2.0 * of_type, narrow));
    cr_expect(epsilon_eq(dbl, p->policy.fruits[0].fruits, 2.0 * kept, narrow));
    cr_expect(eq(str, (char *)default_value("planting.fruits_kept.fruits (slicers)"), "8"));
    snprintf(text, sizeof text, "%susual_fruit_g = %g\n%s", SMALLEST, usual_g / 4.0, flowers);
    p = good(text);
    cr_expect(eq(dbl, p->flowers, 5.0));
    cr_expect(epsilon_eq(dbl, p->policy.fruits[0].fruits, 2.0 * kept, narrow));
}

Test(scenario, rules_of_the_file_follow_in_their_order)
{
    const struct vh_planting *p =
        good(SMALLEST "[[planting.fruits_kept]]\ntrusses = \"1-\"\nfruits = 3\nat = \"pea\"\n"
                      "[[planting.fruits_kept]]\ntrusses = \"1-2\"\nfruits = 4\n"
                      "[[planting.fruits_kept]]\ntrusses = \"5\"\nfruits = 0\nat = \"marble\"\n"
                      "[[planting.fruits_kept]]\nfrom = 2026-06-01\nuntil = 2026-08-10\n"
                      "fruits = 2.5\n");
    const enum vh_thin_stage usual = (enum vh_thin_stage)p->crop->habit.thin_at;

    cr_assert(eq(sz, p->policy.fruits_rules, 5));
    rule_is(p, 1, 1, 0, 3.0, VH_THIN_PEA);
    rule_is(p, 2, 1, 2, 4.0, usual);
    rule_is(p, 3, 5, 5, 0.0, VH_THIN_MARBLE);
    rule_is(p, 4, 1, 0, 2.5, usual);
    cr_assert(eq(i64, p->policy.fruits[3].from, INT64_MIN));
    cr_assert(eq(i64, p->policy.fruits[3].until, INT64_MAX));
    cr_assert(eq(i64, p->policy.fruits[4].from, day("2026-06-01")));
    cr_assert(eq(i64, p->policy.fruits[4].until, day("2026-08-10")));
}

Test(scenario, stripped_nodes_stay_stripped_unless_a_rule_names_them)
{
    const struct vh_planting *p =
        good(HOUSE ROUGHLY CUCUMBER "[[planting.fruits_kept]]\nfruits = 0.5\n"
                                    "[[planting.fruits_kept]]\ntrusses = \"20-\"\nfruits = 1\n");
    const int stripped = (int)p->crop->habit.stripped_nodes;

    cr_assert(eq(sz, p->policy.fruits_rules, 4));
    rule_is(p, 1, 1, stripped, 0.0, VH_THIN_BUD);
    rule_is(p, 2, stripped + 1, 0, 0.5, VH_THIN_BUD);
    rule_is(p, 3, 20, 0, 1.0, VH_THIN_BUD);

    p = good(HOUSE ROUGHLY CUCUMBER "[[planting.fruits_kept]]\ntrusses = \"1-4\"\nfruits = 0\n"
                                    "[[planting.fruits_kept]]\nfruits = 0.5\n");
    cr_assert(eq(sz, p->policy.fruits_rules, 3));
    rule_is(p, 1, 1, 4, 0.0, VH_THIN_BUD);
    rule_is(p, 2, 1, 0, 0.5, VH_THIN_BUD);
}

/* ---- other work ---- */

Test(scenario, extra_heads_come_in_date_order)
{
    const struct vh_planting *p =
        good(SMALLEST "[[planting.extra_head]]\nfrom = 2026-06-01\nheads_per_plant = 3\n"
                      "[[planting.extra_head]]\nfrom = 2026-04-01\nheads_per_plant = 2\n"
                      "new_stem_age_d = 10\n");

    cr_assert(eq(sz, p->policy.head_changes, 2));
    cr_assert(eq(i64, p->policy.heads[0].from, day("2026-04-01")));
    cr_assert(eq(dbl, p->policy.heads[0].new_stem_age_d, 10));
    cr_assert(eq(dbl, p->policy.heads[1].heads_per_plant, 3));
    cr_assert(eq(dbl, p->policy.heads[1].new_stem_age_d, -p->crop->habit.shoot_flowers_d));
}

Test(scenario, the_last_pick_is_told_of_only_where_it_takes_more)
{
    const struct vh_planting *p = good(SMALLEST);

    cr_assert(not(p->policy.has_last));
    p = good(SMALLEST "[planting.pick]\nlast_stage = \"turning\"\n");
    cr_assert(p->policy.has_last);
    cr_assert(eq(i64, p->policy.last_on, day("2026-10-10")));
    cr_assert(eq(dbl, p->policy.last_stage, params->colours.turning));
    cr_assert(eq(dbl, p->policy.pick_stage, params->colours.light_red)); /* of others, as ever */
    p = good(HOUSE ROUGHLY CUCUMBER "[planting.pick]\nlast_from_g = 200\n");
    cr_assert(p->policy.has_last);
    cr_assert(eq(dbl, p->policy.last_from_g, 200));
}

/* g a stem on the last day of a season that is run to `last`. */
static double picked_on_g(struct vh_planting p, int64_t last)
{
    const struct vh_factors one = {1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0};
    struct vh_season s;

    p.pull_out = last;
    cr_assert(eq(int, vh_season_run(&scenario->house, &p, 1.0, params->colours.breaker, &one, &s),
                 VH_OK));
    const double g = s.day[s.days - 1].picked.fresh_g;
    vh_season_clear(&s);
    return g;
}

Test(scenario, a_season_cut_short_comes_to_no_last_pick)
{
    struct vh_planting with = *good(SMALLEST "[planting.pick]\nlast_stage = \"breaker\"\n"),
                       without = with;

    without.policy.has_last = false;
    cr_assert(lt(dbl, picked_on_g(without, with.pull_out), picked_on_g(with, with.pull_out)));
    const int64_t cut = with.pull_out - 60;
    cr_assert(lt(dbl, 0.0, picked_on_g(with, cut)));
    cr_assert(eq(dbl, picked_on_g(with, cut), picked_on_g(without, cut)));
}

Test(scenario, works_have_weekdays_or_a_number_of_days)
{
    const struct vh_planting *p =
        good(SMALLEST "[planting.pick]\ndays = [\"mon\", \"sat\"]\nstage = \"pink\"\n"
                      "whole_truss = true\n[planting.leaves]\nevery_d = 10\nkeep = 14\n"
                      "[planting.top]\non = 2026-08-20\n");
    const int64_t start_day = p->set_out, monday = day("2026-07-13");

    cr_assert(p->policy.pick.by_weekday);
    cr_assert(vh_rhythm_due(&p->policy.pick, start_day, monday));
    cr_assert(vh_rhythm_due(&p->policy.pick, start_day, monday + 5));
    cr_assert(not(vh_rhythm_due(&p->policy.pick, start_day, monday + 6)));
    cr_assert(p->policy.whole_truss);
    cr_assert(eq(dbl, p->policy.pick_stage, params->colours.pink));
    cr_assert(vh_rhythm_due(&p->policy.leaf_visit, start_day, start_day));
    cr_assert(not(vh_rhythm_due(&p->policy.leaf_visit, start_day, start_day + 9)));
    cr_assert(vh_rhythm_due(&p->policy.leaf_visit, start_day, start_day + 20));
    cr_assert(not(vh_rhythm_due(&p->policy.leaf_visit, start_day, start_day - 10)));
    cr_assert(eq(dbl, p->policy.leaves_keep, 14));
    cr_assert(p->policy.has_top);
    cr_assert(eq(i64, p->policy.top_on, day("2026-08-20")));
}

Test(scenario, a_small_stand_has_fewer_bees_and_cucumbers_have_none)
{
    const struct vh_planting *p = good(SMALLEST);

    cr_assert(eq(dbl, p->policy.bees_share, p->crop->flower.bees_small_share));
    cr_assert(eq(int, p->policy.pollination, VH_POLLINATION_BEES));
    p = good(HOUSE ROUGHLY "[[planting]]\nname = \"a\"\ncrop = \"tomato-large\"\nplants = 1000\n"
                           "plants_per_m2 = 2\nset_out = 2026-02-20\n");
    cr_assert(eq(dbl, p->policy.bees_share, 1.0));
    p = good(HOUSE ROUGHLY CUCUMBER);
    cr_assert(eq(int, p->policy.pollination, VH_POLLINATION_NONE));
}

/* Seedless cucumber must have no bees (Hochmuth, UF/IFAS CV268): who grows both and says nothing
 * of pollination has none for the tomatoes either. */
Test(scenario, tomatoes_beside_seedless_cucumbers_are_taken_to_be_pollinated_by_hand)
{
    const struct vh_planting *p = good(SMALLEST CUCUMBER);

    cr_assert(eq(int, p[0].policy.pollination, VH_POLLINATION_HAND));
    cr_assert(eq(dbl, p[0].policy.pollination_visit.every_d, p[0].crop->habit.pollination_d));
    cr_assert(eq(str, (char *)default_value("planting.pollination.by (slicers)"), "hand"));
    cr_assert(eq(str, (char *)default_value("planting.pollination.every_d (slicers)"), "2"));
    cr_assert(eq(int, p[1].policy.pollination, VH_POLLINATION_NONE));
    p = good(HOUSE ROUGHLY CUCUMBER TOMATO "[planting.pollination]\nevery_d = 3\n");
    cr_assert(eq(int, p[1].policy.pollination, VH_POLLINATION_HAND));
    cr_assert(eq(int, p[1].policy.pollination_visit.every_d, 3));
    cr_assert(eq(int, told(VH_WARNING, "only with by"), 0));
    p = good(SMALLEST "[[planting]]\nname = \"late\"\ncrop = \"cucumber-long\"\nplants = 24\n"
                      "plants_per_m2 = 1.6\nset_out = 2026-10-10\npull_out = 2026-11-10\n");
    cr_assert(eq(int, p[0].policy.pollination, VH_POLLINATION_BEES), "never together");
    p = good(SMALLEST PEPPER);
    cr_assert(eq(int, p[0].policy.pollination, VH_POLLINATION_BEES), "bees do pepper no harm");
}

Test(scenario, bees_beside_cucumbers_are_warned_of)
{
    good(SMALLEST CUCUMBER);
    cr_assert(eq(int, told(VH_WARNING, "bees in a house with cucumbers"), 0));
    good(SMALLEST "[planting.pollination]\nby = \"bees\"\n" CUCUMBER);
    cr_assert(eq(int, told(VH_WARNING, "bees in a house with cucumbers"), 1));
    good(HOUSE ROUGHLY CUCUMBER "[planting.pollination]\nby = \"bees\"\n");
    cr_assert(eq(int, told(VH_WARNING, "bees in a house with cucumbers"), 1));
    /* pepper sets its own pollen and bees make it larger, aubergine is glad of them */
    good(SMALLEST "[planting.pollination]\nby = \"bees\"\n" PEPPER AUBERGINE);
    cr_assert(eq(int, told(VH_WARNING, "bees in a house"), 0));
}

Test(scenario, pollination_by_hand_has_a_rhythm_and_no_other_has)
{
    const struct vh_planting *p =
        good(SMALLEST "[planting.pollination]\nby = \"hand\"\nevery_d = 4\n");

    cr_assert(eq(int, p->policy.pollination, VH_POLLINATION_HAND));
    cr_assert(eq(int, p->policy.pollination_visit.every_d, 4));
    cr_assert(eq(sz, vh_messages_count(messages), 0));
    good(SMALLEST "[planting.pollination]\nby = \"bees\"\nevery_d = 4\n");
    cr_assert(eq(int, told(VH_WARNING, "only with by = \"hand\""), 1));
}

/* ---- the whole interface ---- */

/* A file with all keys. */
Test(scenario, every_key_of_the_interface_is_known)
{
    const struct vh_run_options options = {.today = day("2026-07-14"), .members = 1};
    const enum vh_status status = vh_scenario_read(in_tree("tests/unit/every-key.toml"), params,
                                                   &options, &scenario, messages);

    for (size_t i = 0; i < vh_messages_count(messages); i++) {
        if (vh_messages_at(messages, i)->severity == VH_ERROR)
            cr_log_error("%s", vh_messages_at(messages, i)->text);
    }
    cr_assert(ge(int, status, VH_OK));
}

/* Every item of every list, the first and the last too. */
Test(scenario, lists_are_read_whole)
{
    static const struct {
        enum vh_lever lever;
        double value[4];
        size_t values;
    } given[] = {{VH_LEVER_FRUITS_KEPT, {2, 3, 4}, 3}, {VH_LEVER_SUCKERS, {4, 7, 14, 21}, 4},
                 {VH_LEVER_LEAVES, {12, 16}, 2},       {VH_LEVER_LOWER, {7, 14}, 2},
                 {VH_LEVER_HEADS, {1, 2}, 2},          {VH_LEVER_POLLINATION, {2, 4}, 2},
                 {VH_LEVER_DENSITY, {2.2, 2.8}, 2},    {VH_LEVER_STRIPPED, {0, 4}, 2}};
    const struct vh_planting *p = good(
        HOUSE
        "wire_height_m = 3\n" ROUGHLY
        "[[planting]]\nname = \"seen\"\ncrop = \"tomato-large\"\nplants = 48\n"
        "plants_per_m2 = 2.5\npull_out = 2026-11-10\n"
        "[planting.standing]\non = 2026-07-01\nflowering_truss = 6\n"
        "picking_truss = 2\nstem_cm = 210\nleaves = 18\n"
        "fruits_on_trusses = [1.5, 3, 4, 2.5]\n"
        "[planting.pollination]\nby = \"hand\"\n"
        "[market]\ndates = [2026-07-18, 2026-08-01, 2026-08-22]\n"
        "[compare]\nfruits_kept = [2, 3, 4]\nsuckers_every_d = [4, 7, 14, 21]\n"
        "leaves_kept = [12, 16]\nlower_every_d = [7, 14]\n"
        "heads_per_plant = [1, 2]\npollination_every_d = [2, 4]\n"
        "plants_per_m2 = [2.2, 2.8]\nstripped_nodes = [0, 4]\npull_out = [2026-10-15, 2026-11-01]\n");
    const double fruits[] = {1.5, 3.0, 4.0, 2.5};
    const char *const market[] = {"2026-07-18", "2026-08-01", "2026-08-22"};

    cr_assert(eq(sz, p->standing.trusses, 4));
    for (size_t i = 0; i < 4; i++)
        cr_expect(eq(dbl, p->standing.fruits[i], fruits[i]), "truss %zu", i + 1);
    cr_assert(eq(sz, scenario->house.market.days, 3));
    for (size_t i = 0; i < 3; i++)
        cr_expect(eq(i64, scenario->house.market.day[i], day(market[i])));
    for (size_t k = 0; k < sizeof given / sizeof given[0]; k++) {
        const struct vh_lever_values *v = &scenario->choices.lever[given[k].lever];
        cr_assert(eq(sz, v->values, given[k].values), "lever %d", (int)given[k].lever);
        for (size_t i = 0; i < v->values; i++)
            cr_expect(eq(dbl, v->value[i], given[k].value[i]), "lever %d", (int)given[k].lever);
    }
    const struct vh_lever_values *out = &scenario->choices.lever[VH_LEVER_PULL_OUT];
    cr_assert(eq(sz, out->values, 2));
    cr_expect(eq(dbl, out->value[0], (double)day("2026-10-15")));
    cr_expect(eq(dbl, out->value[1], (double)day("2026-11-01")));
}

/* Each task has its own stopwatch, the first and the last of the list too. */
Test(scenario, her_seconds_go_to_the_task_they_are_named_for)
{
    char text[1000];
    int n = snprintf(text, sizeof text, SMALLEST "[labour.seconds]\n");

    for (int t = 0; t < VH_TASKS; t++)
        n += snprintf(text + n, sizeof text - (size_t)n, "%s = %d.5\n", vh_task_name(t), t + 1);
    good(text);
    for (int t = 0; t < VH_TASKS; t++)
        cr_expect(eq(dbl, scenario->house.labour.seconds[t], t + 1.5), "%s", vh_task_name(t));
}

/* ---- parameters ---- */

Test(scenario, a_row_changes_this_scenario_alone)
{
    const double shared = vh_parameters_crop(params, "tomato-large")->crop.leaf.potential_area_m2;
    const double gain = params->house.gain_k_m2_w;
    const struct vh_planting *p =
        good(SMALLEST CUCUMBER
             "[[parameters.row]]\ncrop = \"tomato-large\"\nname = \"leaf.potential_area_m2\"\n"
             "value = 0.095\n"
             "[[parameters.row]]\ncrop = \"house\"\nname = \"house.gain_k_m2_w\"\nvalue = 0.03\n");

    cr_assert(ne(dbl, shared, 0.095));
    cr_assert(eq(dbl, p->crop->leaf.potential_area_m2, 0.095));
    cr_assert(eq(dbl, p->crop->fruit.dm_content_20,
                 vh_parameters_crop(params, "tomato-large")->crop.fruit.dm_content_20));
    cr_assert(
        eq(dbl, vh_parameters_crop(params, "tomato-large")->crop.leaf.potential_area_m2, shared));
    cr_assert(eq(dbl, scenario->house_params.gain_k_m2_w, 0.03));
    cr_assert(eq(dbl, params->house.gain_k_m2_w, gain));
    cr_assert(eq(ptr, (void *)scenario->house.planting[1].crop,
                 (void *)&vh_parameters_crop(params, "cucumber-long")->crop));
}

Test(scenario, a_row_of_a_crop_that_nobody_grows_is_warned_of)
{
    good(SMALLEST
         "[[parameters.row]]\ncrop = \"cucumber-long\"\nname = \"leaf.potential_area_m2\"\n"
         "value = 0.06\n");
    cr_assert(eq(int, told(VH_WARNING, "no planting grows cucumber-long"), 1));
}

Test(scenario, eggplant_is_read_as_aubergine)
{
    char name[] = "aubergine-large";
    struct vh_crop_file file = {.name = name};
    const struct vh_parameters one = {.crop = &file, .crops = 1};

    cr_assert(eq(ptr, (void *)vh_parameters_crop(&one, "eggplant-large"), (void *)&file));
    cr_assert(eq(ptr, (void *)vh_parameters_crop(&one, "aubergine-large"), (void *)&file));
    cr_assert(eq(ptr, (void *)vh_parameters_crop(&one, "eggplant-small"), NULL));
}

/* ---- together ---- */

Test(scenario, plantings_that_need_more_than_the_floor_are_warned_of_with_their_days)
{
    good("[house]\nname = \"B\"\nlatitude_deg = 44.5\nfloor_area_m2 = 30\n" ROUGHLY TOMATO
             CUCUMBER); /* 19.2 m2, and 15 m2 from 1 May on */
    cr_assert(eq(int, told(VH_WARNING, "from 2026-05-01 to 2026-10-09 need 34.2 m2"), 1));
    good("[house]\nname = \"B\"\nlatitude_deg = 44.5\nfloor_area_m2 = 34.2\n" ROUGHLY TOMATO
             CUCUMBER);
    cr_assert(eq(sz, vh_messages_count(messages), 0));
}

Test(scenario, one_planting_may_follow_another_on_the_same_day)
{
    good("[house]\nname = \"B\"\nlatitude_deg = 44.5\nfloor_area_m2 = 20\n" ROUGHLY TOMATO
         "[[planting]]\nname = \"late\"\ncrop = \"tomato-large\"\nplants = 48\n"
         "plants_per_m2 = 2.5\nset_out = 2026-10-10\npull_out = 2026-12-20\n");
    cr_assert(eq(sz, vh_messages_count(messages), 0));
    cr_assert(eq(i64, scenario->house.first_day, day("2026-02-20")));
    cr_assert(eq(i64, scenario->house.last_day, day("2026-12-20")));
}

Test(scenario, a_mistyped_key_is_not_missing_as_well)
{
    cr_assert(eq(int,
                 parse(HOUSE ROUGHLY "[[planting]]\nname = \"a\"\ncrop = \"tomato-large\"\n"
                                     "plnats = 48\nplants_per_m = 2.5\ntransplant = 2026-02-20\n"),
                 VH_BAD_INPUT));
    cr_assert(eq(sz, vh_messages_count_of(messages, VH_ERROR), 3));
}

Test(scenario, all_troubles_are_told_in_one_run)
{
    cr_assert(eq(int,
                 parse("[house]\nname = 7\nlatitude_deg = 99\n" ROUGHLY "[[planting]]\n"
                       "name = \"a\"\ncrop = \"kale\"\nplants = 0\nset_out = 2026-02-20\n"
                       "pull_out = 2026-01-20\n"),
                 VH_BAD_INPUT));
    cr_assert(eq(int, told(VH_ERROR, "`name` is a number"), 1));
    cr_assert(eq(int, told(VH_ERROR, "`latitude_deg` is 99"), 1));
    cr_assert(eq(int, told(VH_ERROR, "unknown crop \"kale\""), 1));
    cr_assert(eq(int, told(VH_ERROR, "`plants` is 0"), 1));
    cr_assert(eq(int, told(VH_ERROR, "has no density"), 1));
    cr_assert(eq(int, told(VH_ERROR, "`pull_out` is before `set_out`"), 1));
    cr_assert(eq(sz, vh_messages_count_of(messages, VH_ERROR), 6));
}

Test(scenario, the_digest_follows_the_text_and_nothing_else)
{
    char first[65];

    good(SMALLEST);
    snprintf(first, sizeof first, "%s", vh_scenario_digest(scenario));
    cr_assert(eq(sz, strlen(first), 64));
    good(SMALLEST);
    cr_assert(eq(str, (char *)vh_scenario_digest(scenario), first));
    good(SMALLEST "# a note\n");
    cr_assert(ne(str, (char *)vh_scenario_digest(scenario), first));
}

Test(scenario, a_folder_stands_for_the_scenario_in_it)
{
    const struct vh_run_options options = {.today = day("2026-07-14"), .members = 1};
    struct vh_scenario *of_file = NULL;

    cr_assert(ge(
        int, vh_scenario_read(in_tree("scenarios/two-bays"), params, &options, &scenario, messages),
        VH_OK));
    cr_assert(ge(int,
                 vh_scenario_read(in_tree("scenarios/two-bays/scenario.toml"), params, &options,
                                  &of_file, messages),
                 VH_OK));
    cr_assert(eq(str, (char *)vh_scenario_digest(scenario), (char *)vh_scenario_digest(of_file)));
    cr_assert(eq(sz, vh_scenario_table_count(scenario), 4));
    cr_assert(eq(str, (char *)vh_table_name(vh_scenario_table(scenario, 2)), "log"));
    vh_scenario_free(of_file);
}

Test(scenario, freeing_nothing_is_fine)
{
    vh_scenario_free(NULL);
    vh_parameters_free(NULL);
    vh_house_clear(NULL);
}

/* ---- names ---- */

Test(scenario, names_take_letters_of_all_scripts_and_few_signs)
{
    static const char *const fine[] = {"slicers",
                                       "Bay 2 (north)",
                                       "Fr\xC3\xBCh-Tomaten",
                                       "7.a_b",
                                       "\xE7\x95\xAA\xE8\x8C\x84",
                                       "\xC3\x89t\xC3\xA9"};
    static const char *const wrong[] = {"",
                                        " x",
                                        "-x",
                                        "=1+1",
                                        "@x",
                                        "a,b",
                                        "a\"b",
                                        "a/b",
                                        "x ",
                                        "a\xE2\x80\xAE"
                                        "b" /* right to left */,
                                        "\xF0\x9F\x8D\x85" /* a picture */,
                                        "a\xC2\xA0"
                                        "b"};

    for (size_t i = 0; i < sizeof fine / sizeof fine[0]; i++)
        cr_expect(eq(ptr, (void *)vh_name_fault(fine[i]), NULL), "%s", fine[i]);
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++)
        cr_expect(ne(ptr, (void *)vh_name_fault(wrong[i]), NULL), "%s", wrong[i]);
}

/* ---- values of another kind than their key's ---- */

Test(scenario, what_a_key_cannot_hold_is_told_with_what_it_can)
{
    static const struct {
        const char *text, *part;
    } bad[] = {
        {HOUSE "wire_height_m = \"2,5\"\n" ROUGHLY TOMATO, "is text; write wire_height_m = 2.5"},
        {HOUSE "wire_height_m = \"high\"\n" ROUGHLY TOMATO,
         "`wire_height_m` is text; it must be a number"},
        {HOUSE "wire_height_m = \"seven\"\n" ROUGHLY TOMATO, "write wire_height_m = 7"},
        {HOUSE "[climate]\nheat_c = true\n" ROUGHLY TOMATO, "`heat_c` is true or false; it must"},
        {HOUSE "[climate]\nheat_c = false\n" ROUGHLY TOMATO, "write heat_c = 0 for none"},
        {HOUSE "[climate]\nheat_c = []\n" ROUGHLY TOMATO, "`heat_c` is a list; it must"},
        {HOUSE "wire_height_m = true\n" ROUGHLY TOMATO,
         "`wire_height_m` is true or false; it must be a number"},
        {HOUSE "wire_height_m = [1]\n" ROUGHLY TOMATO, "`wire_height_m` is a list"},
        {HOUSE "wire_height_m = {}\n" ROUGHLY TOMATO, "`wire_height_m` is a table"},
        {HOUSE "wire_height_m = 2026-01-01\n" ROUGHLY TOMATO, "`wire_height_m` is a date"},
        {HOUSE ROUGHLY TOMATO "sow = \"some day\"\n", "`sow` is text; it must be a date"},
        {HOUSE ROUGHLY TOMATO "sow = \"2026-01-01\"\n", "write sow = 2026-01-01"},
        {HOUSE ROUGHLY TOMATO "[planting.pick]\ndays = \"mon\"\n", "write days = [\"mon\"]"},
        {HOUSE ROUGHLY TOMATO "[planting.pick]\ndays = \"noon\"\n",
         "`days` is text; it must be a list of words in quotes: "},
        {HOUSE ROUGHLY TOMATO "[planting.pick]\ndays = [1]\n", "it must be text in quotes: "},
        {HOUSE ROUGHLY TOMATO "[planting.pick]\ndays = [tue]\n", "quotes; write \"tue\""},
        {HOUSE ROUGHLY TOMATO "[planting.pick]\ndays = [\"noon\", \"sat\"]\n",
         "`days` is \"noon\"; it must be"},
        {HOUSE ROUGHLY TOMATO "[planting.pick]\ndays = [\"mon\", \"mon\"]\n", "this stands twice"},
        {HOUSE ROUGHLY TOMATO "[planting.pick]\n[[planting.pick.days]]\n",
         "`days` is a list; it must be"},
        {HOUSE ROUGHLY TOMATO "spray = 1\n",
         "`spray` is a number; write [[planting.spray]] and its keys"},
        {HOUSE ROUGHLY TOMATO "[planting.spray]\n",
         "[planting.spray] may stand more than once; write [[planting.spray]]"},
        {HOUSE ROUGHLY TOMATO "[[planting.pick]]\n", "[[planting.pick]] stands once only"},
        {HOUSE ROUGHLY TOMATO "pick = 1\n", "`pick` is a number; write [planting.pick]"},
        {HOUSE ROUGHLY TOMATO "pick = [1]\n", "`pick` is a list; write [planting.pick]"},
        {HOUSE ROUGHLY TOMATO "[records]\nfile = \"\"\n", "`file` is empty; name a file"},
        {HOUSE ROUGHLY TOMATO "[records]\nfile = \"records.csv\"\n[records.columns]\n"
                              "picked_kg = 1\nstem_cm = \"\"\n",
         "`picked_kg` is a number; it must be text in quotes"},
        {HOUSE ROUGHLY TOMATO "[records]\nfile = \"records.csv\"\n[records.columns]\n"
                              "picked_kg = 1\nstem_cm = \"\"\n",
         "`stem_cm` is empty; write something"},
        {HOUSE ROUGHLY TOMATO "[records]\nfile = \"records.csv\"\n[records.columns]\n"
                              "picked_kg = 1\nstem_cm = \"Stem\"\n",
         "`picked_kg` is a number; it must be text in quotes"},
        {HOUSE ROUGHLY TOMATO "plnts = 3\n", "unknown key `plnts`"},
        {HOUSE ROUGHLY TOMATO "[[planting.spary]]\n", "unknown table [planting.spary]"},
        {HOUSE ROUGHLY TOMATO "[market]\ndates = [1, 2026-05-01]\n",
         "`dates` is a number; it must be a date"},
        {HOUSE ROUGHLY TOMATO "[records]\nfile = \"records.csv\"\ncolumns = 1\n",
         "`columns` is a number; it must be a table"},
    };

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        cr_expect(eq(int, parse(bad[i].text), VH_BAD_INPUT), "%s", bad[i].text);
        cr_expect(eq(int, told(VH_ERROR, bad[i].part), 1), "%s: %s", bad[i].text,
                  vh_messages_count(messages) ? vh_messages_at(messages, 0)->text : "");
    }
}

Test(scenario, the_worst_status_stays)
{
    struct vh_reading r = {.status = VH_OK};

    vh_spoil(&r, VH_FILLED);
    cr_expect(eq(int, r.status, VH_FILLED));
    vh_spoil(&r, VH_BAD_INPUT);
    vh_spoil(&r, VH_FILLED);
    vh_spoil(&r, VH_OK);
    cr_expect(eq(int, r.status, VH_BAD_INPUT));
    vh_spoil(&r, VH_NO_MEMORY);
    vh_spoil(&r, VH_BAD_INPUT);
    cr_expect(eq(int, r.status, VH_NO_MEMORY));
}
