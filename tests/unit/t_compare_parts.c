/* What a comparison is made of: how income hangs on a price and on what sells, the price that turns
 * a choice, and the market days of a longer season. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_compare.h"
#include "vh_date.h"

enum { TEXT_ROOM = 2000 };

static struct vh_parameters *params;

static void read_params(void)
{
    cr_assert(vh_parameters_read(VINEHAND_PARAMS, &params, NULL) == VH_OK);
}

static void free_params(void)
{
    vh_parameters_free(params);
}

TestSuite(compare_parts, .init = read_params, .fini = free_params, .timeout = 60);

static int64_t day(const char *text)
{
    int64_t d = 0;
    cr_assert(eq(int, vh_date_parse(text, &d), VH_OK));
    return d;
}

/* A bay with a market; the price of small fruit and what sells on a day as given. */
static struct vh_scenario *bay(double small_per_kg, double sells_kg, const char *market)
{
    const struct vh_run_options o = {.today = day("2026-01-10"), .members = 1, .draw = 1};
    struct vh_messages *m = vh_messages_create();
    struct vh_scenario *s = NULL;
    char text[TEXT_ROOM];

    snprintf(text, sizeof text,
             "[house]\nname = \"Bay\"\nlatitude_deg = 44.5\n[climate]\nheat_c = 17\n"
             "[climate.roughly]\nwarmest_high_c = 28\nwarmest_low_c = 16\ncoldest_high_c = -2\n"
             "coldest_low_c = -12\n[[planting]]\nname = \"slicers\"\ncrop = \"tomato-large\"\n"
             "plants = 48\nplants_per_m2 = 2.5\nset_out = 2026-02-20\npull_out = 2026-08-10\n"
             "[market]\n%s\n[[market.price]]\ncrop = \"tomato-large\"\ngrades = \"tomato-us\"\n"
             "per_kg = { small = %.6f, medium = 6.0, large = 7.5, extra-large = 7.5 }\n"
             "sold_by = \"kg\"\nsells_kg = %.6f\nprice_share_beyond = 0.4\n",
             market, small_per_kg, sells_kg);
    const enum vh_status status =
        vh_scenario_parse(text, strlen(text), "bay.toml", ".", params, &o, &s, m);
    for (size_t i = 0; status < 0 && i < vh_messages_count(m); i++)
        cr_log_error("%s", vh_messages_at(m, i)->text);
    cr_assert(status >= 0);
    vh_messages_free(m);
    return s;
}

static void parts_of(double small_per_kg, double sells_kg, double part[VH_PARTS])
{
    struct vh_scenario *s = bay(small_per_kg, sells_kg, "days = [\"sat\"]");
    const struct vh_compare_request q = {
        .scenario = s, .members = 1, .draw = 1, .threads = 1, .mean_run = true};
    struct vh_parts p;

    cr_assert(eq(int, vh_parts_of_plan(&q, &p, NULL), VH_OK));
    memcpy(part, p.part, VH_PARTS * sizeof *part);
    vh_parts_clear(&p);
    vh_scenario_free(s);
}

/* The whole season again with the price of small fruit, or what sells, a tenth higher. */
Test(compare_parts, income_goes_with_a_price_and_with_what_sells_as_another_run_says)
{
    const double more = 0.1, price = 4.0, sells = 14.0;
    double plan[VH_PARTS], dearer[VH_PARTS], busier[VH_PARTS];

    parts_of(price, sells, plan);
    parts_of(price * (1.0 + more), sells, dearer);
    parts_of(price, sells * (1.0 + more), busier);
    cr_assert(lt(dbl, 1.0, plan[VH_PART_SELLS]));
    cr_assert(lt(dbl, 1e-3, plan[VH_PART_SMALL]));
    cr_expect(epsilon_eq(dbl, plan[VH_PART_SMALL],
                         (dearer[VH_PART_INCOME] - plan[VH_PART_INCOME]) / more, 1e-6));
    cr_expect(epsilon_eq(dbl, plan[VH_PART_SELLS],
                         (busier[VH_PART_INCOME] - plan[VH_PART_INCOME]) / more, 1e-6));
    cr_expect(eq(dbl, dearer[VH_PART_MARKET_KG], plan[VH_PART_MARKET_KG]));
    cr_expect(eq(dbl, busier[VH_PART_HOURS], plan[VH_PART_HOURS]));
}

/* By hand, of one future: a choice that gains 10 and saves supplies of 5, of which so much hangs on
 * each assumption; f = 1 - 10/part, and the nearest to 1 is told. */
Test(compare_parts, the_assumption_that_turns_a_choice_soonest_is_told)
{
    static const struct {
        double hours, sells, small;
        const char *told;
    } cases[] = {
        {1.0, 0.0, 0.0, "labour above 30.00 an hour"},           /* part -20: f = 1.5 */
        {1.0, 40.0, 0.0, "sales of a market day below 9 kg"},    /* 40: f = 0.75 */
        {1.0, 40.0, -50.0, "grade small above 4.80 a kg"},       /* -50: f = 1.2 */
        {-1.0, -30.0, 0.0, "sales of a market day above 16 kg"}, /* -30: f = 4/3 */
        {0.0, 11.0, 12.0, ""},                                   /* 0.09, 0.17: out of reach */
    };
    struct vh_scenario *s = bay(4.0, 12.0, "days = [\"sat\"]");
    double plan_part[VH_PARTS] = {0}, part[VH_PARTS], plants = 48.0;
    const struct vh_parts plan = {1, 1, plan_part, &plants}, choice = {1, 1, part, &plants};
    const double per_h = 20.0, saved = 5.0;
    char text[VH_FLIPS_TEXT];

    s->house.labour.per_h = per_h;
    s->house.stock.cost_plant = 1.0;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        memset(part, 0, sizeof part);
        part[VH_PART_HOURS] = cases[i].hours;
        part[VH_PART_SELLS] = cases[i].sells;
        part[VH_PART_SMALL] = cases[i].small;
        part[VH_PART_SUPPLIES] = -saved;
        part[VH_PART_INCOME] = 10.0 + per_h * cases[i].hours - saved;
        vh_flips_if(s, &plan, &choice, 0, text);
        cr_expect(eq(str, text, (char *)(uintptr_t)cases[i].told), "case %zu", i);
    }
    vh_scenario_free(s);
}

/* Selling goes on, day of the week by day of the week, while the plants stand longer, and begins
 * with them; but not before `from` or after `until`, nor on single dates that are not given. The
 * first day after the last pull-out, within a week, sells what was picked last. The plants stand
 * from 20 February, a Friday, to 10 August, a Monday. */
Test(compare_parts, a_longer_season_has_more_market_days)
{
    static const struct {
        const char *market;
        size_t before, after, a_week;
        const char *last;
    } cases[] = {
        /* 30 January, a Friday, to 19 February, a Thursday: 3 and 3 days; 13 August, a Thursday,
         * to 31 August, a Monday: 2 and 3, and the Wednesday after it (a calendar of 2026) */
        {"days = [\"wed\", \"sat\"]", 6, 6, 2, "2026-09-02"},
        {"days = [\"sat\"]", 3, 3, 1, "2026-09-05"},
        {"days = [\"sat\"]\nfrom = 2026-05-01\nuntil = 2026-07-15", 0, 0, 1, "2026-07-11"},
        {"days = [\"sat\"]\nfrom = 2026-02-20\nuntil = 2026-08-15", 0, 0, 1, "2026-08-15"},
        {"days = [\"sat\"]\nfrom = 2026-02-14\nuntil = 2026-08-24", 1, 1, 1, "2026-08-22"},
        {"dates = [2026-08-01, 2026-08-08]", 0, 0, 1, "2026-08-08"},
    };
    struct vh_choice choice = {0};

    choice.has[VH_LEVER_SET_OUT] = choice.has[VH_LEVER_PULL_OUT] = true;
    choice.value[VH_LEVER_SET_OUT] = (double)day("2026-01-30");
    choice.value[VH_LEVER_PULL_OUT] = (double)day("2026-08-31");
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct vh_scenario *s = bay(4.0, 14.0, cases[i].market);
        const struct vh_market *was = &s->house.market;
        struct vh_changed changed;

        cr_assert(eq(int, vh_changed_init(s, &changed), VH_OK));
        cr_assert(eq(int, vh_lever_apply(s, &choice, 0, &changed), VH_OK));
        const struct vh_market *is = &changed.scenario.house.market;
        cr_assert(eq(sz, is->days, cases[i].before + was->days + cases[i].after), "case %zu", i);
        for (size_t d = 0; d < was->days; d++)
            cr_assert(eq(i64, is->day[cases[i].before + d], was->day[d]));
        for (size_t d = cases[i].a_week; d < is->days; d++)
            cr_assert(eq(i64, is->day[d], is->day[d - cases[i].a_week] + 7));
        cr_expect(le(i64, day("2026-01-30"), is->day[0]));
        cr_expect(eq(i64, is->day[is->days - 1], day(cases[i].last)), "case %zu", i);
        vh_changed_clear(&changed);
        vh_scenario_free(s);
    }
}

/* What the program says; the plan keeps one on each node. */
Test(compare_parts, a_choice_by_trusses_is_named_in_plain_words)
{
    static const struct {
        struct vh_choice choice;
        const char *name;
    } cases[] = {
        {{.range = {{7, 11, 1.0}, {12, 17, 1.0}, {18, 0, 1.0}}, .ranges = 3},
         "leave 1 from truss 7 on"},
        {{.range = {{7, 11, 3.0}, {12, 17, 3.0}, {18, 0, 2.5}}, .ranges = 3},
         "leave 3 on trusses 7 to 17, 2.5 from truss 18 on"},
        {{.range = {{7, 7, 3.0}, {8, 0, 2.0}}, .ranges = 2},
         "leave 3 on truss 7, 2 from truss 8 on"},
        {{.range = {{5, 22, 0.67}, {23, 40, 0.67}, {41, 0, 0.5}}, .ranges = 3, .by_node = true},
         "leave 1 on two nodes of three, nodes 5 to 40, 1 on every second node from node 41 on"},
        {{.range = {{5, 0, 0.33}}, .ranges = 1, .by_node = true},
         "leave 1 on every third node from node 5 on"},
    };

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char name[VH_CHOICE_NAME];
        vh_choice_name(&cases[i].choice, name);
        cr_expect(eq(str, name, (char *)(uintptr_t)cases[i].name));
    }
}
