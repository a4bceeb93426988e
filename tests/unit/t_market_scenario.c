/* The scenario's [market]: which days, which goods, which prices. Broken ones are tested from
 * outside (tests/cli/bad). Truth: interface.md section 2; the pound is 0.45359237 kg exactly (1959
 * agreement, NIST SP 811, 2008, appendix B). Weekdays of 2026: 4 July is a Saturday. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "scenario_parts.h"
#include "scenario_trial.h"
#include "vh_math.h"

#define HOUSE                                                                                      \
    "[house]\nname = \"Bays\"\nlatitude_deg = 44.5\n"                                              \
    "[climate.roughly]\nwarmest_high_c = 28\nwarmest_low_c = 16\n"                                 \
    "coldest_high_c = -2\ncoldest_low_c = -12\n"
#define PLANTING(name, crop, set_out, pull_out)                                                    \
    "[[planting]]\nname = \"" name "\"\ncrop = \"" crop "\"\nplants = 48\n"                        \
    "plants_per_m2 = 2.5\nset_out = " set_out "\npull_out = " pull_out "\n"
#define SLICERS PLANTING("slicers", "tomato-large", "2026-06-01", "2026-07-31")
#define LATE PLANTING("late", "tomato-large", "2026-07-01", "2026-08-31")
#define CUCUMBERS PLANTING("cucumbers", "cucumber-long", "2026-06-01", "2026-07-31")
#define SATURDAYS "[market]\ndays = [\"sat\"]\n"
#define PRICE "[[market.price]]\ncrop = \"tomato-large\"\n"

static const double kg_per_lb = 0.45359237;

/* Reads what must be good, its files in that folder; its market. */
static const struct vh_market *market_in(const char *folder, const char *text)
{
    const enum vh_status status = trial_parse(folder, text);

    for (size_t i = 0; status < 0 && i < vh_messages_count(messages); i++)
        cr_log_error("%s", vh_messages_at(messages, i)->text);
    cr_assert(ge(int, status, VH_OK));
    return &scenario->house.market;
}

static const struct vh_market *market(const char *text)
{
    return market_in(in_tree("tests/unit"), text);
}

static int warned(const char *text)
{
    int n = 0;

    for (size_t i = 0; i < vh_messages_count(messages); i++)
        n += strstr(vh_messages_at(messages, i)->text, text) != NULL;
    return n;
}

static const char *default_value(const char *key)
{
    const struct vh_table *t = vh_scenario_table(scenario, 0);

    for (size_t i = 0; i < vh_table_rows(t); i++)
        if (strcmp(vh_table_text(t, i, 0), key) == 0)
            return vh_table_text(t, i, 1);
    return "";
}

TestSuite(market_scenario, .init = trial_start, .fini = trial_stop);

/* ---- days ---- */

Test(market_scenario, a_scenario_without_a_market_has_none)
{
    const struct vh_market *m = market(HOUSE SLICERS);

    cr_assert(not(m->given));
    cr_assert(eq(sz, m->goods, 0));
    cr_assert(eq(sz, m->days, 0));
}

Test(market_scenario, weekdays_and_single_dates_come_in_order_and_once)
{
    const struct vh_market *m =
        market(HOUSE SLICERS "[market]\ndays = [\"wed\", \"sat\"]\nfrom = 2026-07-02\n"
                             "until = 2026-07-11\ndates = [2026-07-30, 2026-07-04, 2026-06-01]\n");
    const char *const want[] = {"2026-06-01", "2026-07-04", "2026-07-08", "2026-07-11",
                                "2026-07-30"};

    cr_assert(eq(sz, m->days, 5));
    for (size_t i = 0; i < m->days; i++)
        cr_assert(eq(i64, m->day[i], day(want[i])));
    cr_assert(eq(str, (char *)default_value("market.from"), ""));
}

/* And the first one after each pull-out, within a week of it: what is picked last is sold there.
 * (Until then it was "while a planting stands": a pull-out on a Friday threw its last pick away.)
 */
Test(market_scenario, silence_means_every_such_weekday_while_there_is_fruit_to_sell)
{
    const struct vh_market *m =
        market(HOUSE PLANTING("early", "tomato-large", "2026-06-01", "2026-06-12")
                   PLANTING("late", "tomato-large", "2026-06-22", "2026-07-03") SATURDAYS);

    const char *const want[] = {"2026-06-06", "2026-06-13", "2026-06-27", "2026-07-04"};
    cr_assert(eq(sz, m->days, 4)); /* 20 June finds the house empty */
    for (size_t i = 0; i < m->days; i++)
        cr_assert(eq(i64, m->day[i], day(want[i])));
    cr_assert(eq(str, (char *)default_value("market.from"), "2026-06-01"));
    cr_assert(eq(str, (char *)default_value("market.until"), "2026-07-10"));
    cr_assert(eq(i64, m->sold_after_d, 7));
}

/* Pulled out on Friday 31 July: Saturday takes all that is left, not Wednesday too; on a Saturday,
 * that morning does. Her own dates of that week stand; what she ends earlier ends. */
Test(market_scenario, after_a_pull_out_the_first_market_day_alone_unless_she_names_more)
{
    static const struct {
        const char *pull_out, *days, *last;
    } cases[] = {
        {"2026-07-31", "[\"wed\", \"sat\"]", "2026-08-01"},
        {"2026-08-01", "[\"sat\"]", "2026-08-01"},
        {"2026-08-02", "[\"sat\"]", "2026-08-08"},
        {"2026-07-31", "[\"sat\"]\nuntil = 2026-07-31", "2026-07-25"},
        {"2026-07-31", "[\"sat\"]\ndates = [2026-08-01, 2026-08-07]", "2026-08-07"},
    };
    char text[2000];

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        snprintf(
            text, sizeof text,
            HOUSE PLANTING("slicers", "tomato-large", "2026-06-01", "%s") "[market]\ndays = %s\n",
            cases[i].pull_out, cases[i].days);
        const struct vh_market *m = market(text);
        cr_expect(eq(i64, m->day[m->days - 1], day(cases[i].last)), "case %zu", i);
    }
}

Test(market_scenario, the_promise_is_her_own_or_the_one_of_the_rows)
{
    cr_assert(eq(dbl, market(HOUSE SLICERS SATURDAYS "promise = 0.9\n")->promise, 0.9));
    cr_assert(eq(str, (char *)default_value("market.promise"), ""));
    cr_assert(eq(dbl, market(HOUSE SLICERS SATURDAYS)->promise, params->house.market_promise));
    cr_assert(eq(str, (char *)default_value("market.promise"), "0.8"));
}

/* ---- goods ---- */

Test(market_scenario, plantings_of_a_crop_are_one_good_priced_or_not)
{
    const struct vh_market *m = market(HOUSE SLICERS CUCUMBERS LATE SATURDAYS PRICE "per_kg = 6\n");

    cr_assert(eq(sz, m->goods, 2));
    cr_assert(eq(str, m->good[0].name, "tomato-large"));
    cr_assert(eq(sz, m->good[0].plantings, 2));
    cr_assert(eq(sz, m->good_of[0], 0));
    cr_assert(eq(sz, m->good_of[1], 1));
    cr_assert(eq(sz, m->good_of[2], 0));
    cr_assert(eq(sz, m->good[0].planting[0], 0));
    cr_assert(eq(sz, m->good[0].planting[1], 2));
    cr_assert(eq(sz, m->good[1].planting[0], 1));
    cr_assert(m->good[0].priced);
    cr_assert(eq(dbl, m->good[0].per_kg[0], 6.0));
    cr_assert(isnan(m->good[0].per_fruit[0]));
    cr_assert(not(m->good[1].priced));
    cr_assert(isnan(m->good[1].per_kg[0]));
    cr_assert(eq(int, (int)m->good[1].sold_by, VH_SELL_EACH)); /* habit.sold_by of cucumber-long */
    cr_assert(eq(int, (int)m->good[0].sold_by, VH_SELL_KG));
}

Test(market_scenario, a_planting_with_its_own_price_is_sold_alone_wherever_that_price_stands)
{
    const char *const own = "[[market.price]]\nplanting = \"slicers\"\nper_kg = 9\n";
    char text[4000];

    for (int first = 0; first < 2; first++) {
        snprintf(text, sizeof text, "%s%s%s", HOUSE SLICERS LATE SATURDAYS,
                 first ? own : PRICE "per_kg = 6\n", first ? PRICE "per_kg = 6\n" : own);
        const struct vh_market *m = market(text);
        cr_assert(eq(sz, m->goods, 2));
        cr_assert(eq(str, m->good[m->good_of[0]].name, "slicers"));
        cr_assert(eq(dbl, m->good[m->good_of[0]].per_kg[0], 9.0));
        cr_assert(eq(str, m->good[m->good_of[1]].name, "tomato-large"));
        cr_assert(eq(dbl, m->good[m->good_of[1]].per_kg[0], 6.0));
        cr_assert(eq(sz, m->good[m->good_of[1]].plantings, 1));
    }
}

/* ---- prices ---- */

Test(market_scenario, a_price_in_pounds_is_kept_in_kilograms)
{
    const struct vh_market *m =
        market(HOUSE SLICERS SATURDAYS PRICE "per_lb = 3.5\nsells_lb = 100\nwants_lb = 60\n");
    const struct vh_good *g = &m->good[0];

    cr_assert(epsilon_eq(dbl, g->per_kg[0], 3.5 / kg_per_lb, 1e-12));
    cr_assert(epsilon_eq(dbl, g->sells_kg, 100 * kg_per_lb, 1e-12));
    cr_assert(epsilon_eq(dbl, g->wants_kg, 60 * kg_per_lb, 1e-12));
    cr_assert(eq(int, (int)g->sold_by, VH_SELL_LB));
    cr_assert(eq(str, (char *)default_value("market.price.sold_by (slicers)"), "lb"));
    cr_assert(eq(dbl, g->sells_fruits, VH_ENDLESS));
    cr_assert(eq(dbl, g->price_share_beyond, params->house.market_share_beyond));
    cr_assert(eq(str, (char *)default_value("market.price.price_share_beyond (slicers)"), "0"));
}

Test(market_scenario, prices_by_grade_stand_in_the_order_of_the_table)
{
    const struct vh_market *m =
        market(HOUSE SLICERS SATURDAYS PRICE
               "grades = \"tomato-us\"\nsold_by = \"lb\"\nprice_share_beyond = 0.6\nsells_kg = 60\n"
               "per_kg = { extra-large = 8, small = 4.0, large = 7.5, medium = 6.0 }\n");
    const double want[] = {4.0, 6.0, 7.5, 8.0};

    cr_assert(eq(sz, m->good[0].grades->grades, 4));
    for (size_t i = 0; i < 4; i++)
        cr_assert(eq(dbl, m->good[0].per_kg[i], want[i]));
    cr_assert(eq(dbl, m->good[0].price_share_beyond, 0.6));
    cr_assert(eq(dbl, m->good[0].sells_kg, 60));
    cr_assert(eq(sz, vh_messages_count(messages), 0));
}

Test(market_scenario, a_grade_without_a_price_takes_the_next_smaller_ones_and_it_is_said)
{
    const struct vh_market *m =
        market(HOUSE SLICERS SATURDAYS PRICE "grades = \"tomato-us\"\nper_kg = { medium = 6.0 }\n");
    const double want[] = {0.0, 6.0, 6.0, 6.0};

    for (size_t i = 0; i < 4; i++)
        cr_assert(eq(dbl, m->good[0].per_kg[i], want[i]));
    cr_assert(eq(int, warned("no price for small; it is counted, but brings nothing"), 1));
    cr_assert(eq(int, warned("no price for extra-large; that of medium holds for it"), 1));
}

Test(market_scenario, one_number_holds_for_all_grades_of_her_own_table_which_is_read_once)
{
    const struct vh_market *m =
        market(HOUSE SLICERS LATE SATURDAYS
               "[[market.price]]\nplanting = \"slicers\"\ngrades = \"my-grades.csv\"\nper_kg = 5\n"
               "[[market.price]]\nplanting = \"late\"\ngrades = \"my-grades.csv\"\nper_kg = 6\n");

    cr_assert(eq(sz, m->tables, 1));
    cr_assert(eq(sz, m->table[0].grades, 2));
    cr_assert(eq(str, m->table[0].grade[1].name, "stall"));
    cr_assert(eq(ptr, (void *)m->good[0].grades, (void *)m->good[1].grades));
    cr_assert(eq(dbl, m->good[1].per_kg[0], 6.0));
    cr_assert(eq(dbl, m->good[1].per_kg[1], 6.0));
}

static void write_grades(const char *folder, const char *limit)
{
    char path[100];

    snprintf(path, sizeof path, "%s/sizes.csv", folder);
    FILE *f = fopen(path, "w");
    cr_assert(f != NULL);
    fprintf(f, "grade,measure,from,to\nsauce,mass_g,0,%s\nstall,mass_g,%s,\n", limit, limit);
    fclose(f);
}

Test(market_scenario, another_limit_in_her_grade_table_makes_another_digest)
{
    const char *const text = HOUSE SLICERS SATURDAYS PRICE "grades = \"sizes.csv\"\nper_kg = 5\n";
    const char *const limit[] = {"120", "120", "130"};
    char folder[] = "/tmp/vh-market-XXXXXX", path[100], digest[3][65];

    cr_assert(mkdtemp(folder) != NULL);
    for (size_t i = 0; i < 3; i++) {
        write_grades(folder, limit[i]);
        cr_assert(eq(dbl, market_in(folder, text)->table[0].grade[1].from, i == 2 ? 130 : 120));
        snprintf(digest[i], sizeof digest[i], "%s", vh_scenario_digest(scenario));
    }
    snprintf(path, sizeof path, "%s/sizes.csv", folder);
    remove(path);
    remove(folder);
    cr_assert(eq(str, digest[0], digest[1]));
    cr_assert(ne(str, digest[0], digest[2]));
}

Test(market_scenario, fruit_sold_by_the_piece_and_by_the_pack)
{
    const struct vh_market *m =
        market(HOUSE SLICERS CUCUMBERS SATURDAYS
               "[[market.price]]\ncrop = \"cucumber-long\"\nper_fruit = 1.5\nsells_fruits = 60\n"
               "wants_fruits = 30\n" PRICE "per_kg = 8\nsold_by = \"pack\"\npack_lb = 1\n");

    cr_assert(eq(int, (int)m->good[m->good_of[1]].sold_by, VH_SELL_EACH));
    cr_assert(eq(dbl, m->good[m->good_of[1]].per_fruit[0], 1.5));
    cr_assert(eq(dbl, m->good[m->good_of[1]].sells_fruits, 60));
    cr_assert(eq(dbl, m->good[m->good_of[1]].wants_fruits, 30));
    cr_assert(eq(int, (int)m->good[m->good_of[0]].sold_by, VH_SELL_PACK));
    cr_assert(epsilon_eq(dbl, m->good[m->good_of[0]].pack_g, 453.59237, 1e-9));
    cr_assert(eq(dbl, m->good[m->good_of[0]].sells_kg, VH_ENDLESS));
    cr_assert(eq(str, (char *)default_value("market.price.sells_kg (slicers)"), "all there is"));
}

/* ---- orders ---- */

Test(market_scenario, an_order_goes_to_the_good_of_its_planting_or_crop)
{
    const struct vh_market *m =
        market(HOUSE SLICERS LATE CUCUMBERS SATURDAYS
               "[[market.price]]\nplanting = \"late\"\nper_kg = 6\n"
               "[[market.order]]\nwho = \"restaurant\"\nplanting = \"late\"\nlb = 40\n"
               "from = 2026-07-04\nuntil = 2026-07-18\n"
               "[[market.order]]\nwho = \"box scheme\"\ncrop = \"tomato-large\"\nkg = 12\n"
               "[[market.order]]\nwho = \"school\"\ncrop = \"cucumber-long\"\nfruits = 20\n");

    cr_assert(eq(sz, m->orders, 3));
    cr_assert(eq(str, m->order[0].who, "restaurant"));
    cr_assert(eq(sz, m->order[0].good, m->good_of[1]));
    cr_assert(epsilon_eq(dbl, m->order[0].kg, 40 * kg_per_lb, 1e-12));
    cr_assert(eq(dbl, m->order[0].fruits, 0));
    cr_assert(eq(i64, m->order[0].from, day("2026-07-04")));
    cr_assert(eq(i64, m->order[0].until, day("2026-07-18")));
    cr_assert(eq(sz, m->order[1].good, m->good_of[0]));
    cr_assert(eq(dbl, m->order[1].kg, 12));
    cr_assert(eq(i64, m->order[1].from, INT64_MIN)); /* always, also in a longer season */
    cr_assert(eq(i64, m->order[1].until, INT64_MAX));
    cr_assert(eq(sz, m->order[2].good, m->good_of[2]));
    cr_assert(eq(dbl, m->order[2].fruits, 20));
    cr_assert(eq(dbl, m->order[2].kg, 0));
}

Test(market_scenario, the_only_planting_of_a_crop_takes_the_crops_order_though_it_is_sold_alone)
{
    const struct vh_market *m =
        market(HOUSE SLICERS SATURDAYS "[[market.price]]\nplanting = \"slicers\"\nper_kg = 6\n"
                                       "[[market.order]]\nwho = \"inn\"\ncrop = \"tomato-large\"\n"
                                       "kg = 12\n");

    cr_assert(eq(sz, m->order[0].good, 0));
    cr_assert(eq(str, m->good[0].name, "slicers"));
}

/* By hand: 30 packs of 500 g are 15 kg, 30 packs of 3 are 90 pieces, sold by each. */
Test(market_scenario, an_order_of_packs_is_of_the_mass_or_the_fruits_in_them)
{
    const struct vh_market *m = market(
        HOUSE SLICERS CUCUMBERS SATURDAYS
        "[[market.price]]\nplanting = \"slicers\"\nper_kg = 6\nsold_by = \"pack\"\npack_g = 500\n"
        "[[market.price]]\nplanting = \"cucumbers\"\nper_fruit = 1\nsold_by = \"pack\"\npack_fruits = 3\n"
        "[[market.order]]\nwho = \"boxes\"\nplanting = \"slicers\"\npacks = 30\n"
        "[[market.order]]\nwho = \"boxes\"\nplanting = \"cucumbers\"\npacks = 30\n");

    cr_assert(epsilon_eq(dbl, m->order[0].kg, 15, 1e-12));
    cr_assert(eq(dbl, m->order[0].fruits, 0));
    cr_assert(eq(dbl, m->order[1].fruits, 90));
    cr_assert(eq(dbl, m->order[1].kg, 0));
    cr_assert(eq(int, (int)m->good[m->order[1].good].sold_by, VH_SELL_EACH));
}

/* ---- store ---- */

Test(market_scenario, the_store_is_as_warm_as_she_says_or_not_known)
{
    market(HOUSE SLICERS "[planting.pick]\nhold_f = 55.4\n" LATE);
    cr_assert(epsilon_eq(dbl, scenario->house.planting[0].policy.hold_c, 13.0, 1e-12));
    cr_assert(isnan(scenario->house.planting[1].policy.hold_c));
}

Test(market_scenario, the_sign_of_her_money_is_kept)
{
    market(HOUSE SLICERS);
    cr_assert(eq(ptr, scenario->house.currency, NULL));
    market("[house]\nname = \"Bays\"\ncurrency = \"\xE2\x82\xAC\"\nlatitude_deg = 44.5\n"
           "[climate.roughly]\nwarmest_high_c = 28\nwarmest_low_c = 16\n"
           "coldest_high_c = -2\ncoldest_low_c = -12\n" SLICERS);
    cr_assert(eq(str, scenario->house.currency, "\xE2\x82\xAC"));
}
