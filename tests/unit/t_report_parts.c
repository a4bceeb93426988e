#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "vh_report.h"
#include "vh_table.h"
#include "vh_unpromised.h"

/* Parts of the report, drawn from tables made by hand. Every number is invented. */

enum { TABLES_MOST = 5 };

static const struct vh_column summary[] = {
    {"planting", VH_CELL_TEXT, "", ""},
    {"crop", VH_CELL_TEXT, "", ""},
    {"unit_word", VH_CELL_TEXT, "", ""},
};
static const struct vh_column market_days[] = {
    {"date", VH_CELL_DATE, "", ""},
    {"planting", VH_CELL_TEXT, "", ""},
    {"grade", VH_CELL_TEXT, "", ""},
    {"kg_p10", VH_CELL_NUMBER, "kg", ""},
    {"kg_p50", VH_CELL_NUMBER, "kg", ""},
    {"kg_p90", VH_CELL_NUMBER, "kg", ""},
    {"promise_kg", VH_CELL_NUMBER, "kg", ""},
    {"orders_kg", VH_CELL_NUMBER, "kg", ""},
    {"orders_fruits", VH_CELL_NUMBER, "", ""},
    {"fruits_p50", VH_CELL_NUMBER, "1", ""},
    {"promise_fruits", VH_CELL_NUMBER, "1", ""},
};
static const struct vh_column gaps[] = {
    {"crop", VH_CELL_TEXT, "", ""},   {"from", VH_CELL_DATE, "", ""},
    {"until", VH_CELL_DATE, "", ""},  {"short_kg", VH_CELL_NUMBER, "kg", ""},
    {"sow_by", VH_CELL_DATE, "", ""}, {"plants", VH_CELL_NUMBER, "1", ""},
};
static const struct vh_column weeks[] = {
    {"monday", VH_CELL_DATE, "", ""},        {"planting", VH_CELL_TEXT, "", ""},
    {"kg", VH_CELL_NUMBER, "kg", ""},        {"kg_p10", VH_CELL_NUMBER, "kg", ""},
    {"kg_p90", VH_CELL_NUMBER, "kg", ""},    {"fruits", VH_CELL_NUMBER, "1", ""},
    {"picked_kg", VH_CELL_NUMBER, "kg", ""}, {"picked_fruits", VH_CELL_NUMBER, "1", ""},
};
static const struct vh_column season_days[] = {
    {"first_day", VH_CELL_DATE, "", ""},
    {"last_day", VH_CELL_DATE, "", ""},
};
static const struct vh_column choices[] = {
    {"choice", VH_CELL_TEXT, "", ""},
    {"planting", VH_CELL_TEXT, "", ""},
    {"margin_diff", VH_CELL_NUMBER, "", ""},
    {"margin_diff_p10", VH_CELL_NUMBER, "", ""},
    {"margin_diff_p90", VH_CELL_NUMBER, "", ""},
    {"better_chance", VH_CELL_NUMBER, "1", ""},
    {"flips_if", VH_CELL_TEXT, "", ""},
};
static const struct vh_column hindcast[] = {
    {"week", VH_CELL_TEXT, "", ""},
    {"weeks_ahead", VH_CELL_INTEGER, "1", ""},
    {"planting", VH_CELL_TEXT, "", ""},
    {"observed_kg", VH_CELL_NUMBER, "kg", ""},
    {"forecast_kg_p50", VH_CELL_NUMBER, "kg", ""},
    {"forecast_kg_p10", VH_CELL_NUMBER, "kg", ""},
    {"forecast_kg_p90", VH_CELL_NUMBER, "kg", ""},
    {"naive_last_kg", VH_CELL_NUMBER, "kg", ""},
};

static const struct vh_column said[] = {
    {"said_on", VH_CELL_DATE, "", ""},        {"date", VH_CELL_DATE, "", ""},
    {"planting", VH_CELL_TEXT, "", ""},       {"grade", VH_CELL_TEXT, "", ""},
    {"promise_kg", VH_CELL_NUMBER, "kg", ""},
};
static const struct vh_column picks[] = {
    {"date", VH_CELL_DATE, "", ""},          {"planting", VH_CELL_TEXT, "", ""},
    {"picked_kg", VH_CELL_NUMBER, "kg", ""}, {"picked_fruits", VH_CELL_NUMBER, "1", ""},
    {"kg", VH_CELL_NUMBER, "kg", ""},        {"unmarketable_kg", VH_CELL_NUMBER, "kg", ""},
    {"thrown_kg", VH_CELL_NUMBER, "kg", ""},
};

/* Judged are promises made three days from a week before at most. */
static const struct vh_column house[] = {{"said_near_d", VH_CELL_NUMBER, "d", ""}};

struct made {
    struct vh_table *table[TABLES_MOST];
    const struct vh_table *view[TABLES_MOST];
    struct vh_page_facts facts;
    struct vh_draft out;
    struct vh_page page;
};

#define TABLE(name, columns)                                                                       \
    vh_table_create(name, "", true, columns, sizeof columns / sizeof *columns)

static int64_t day(const char *iso)
{
    int64_t d = 0;

    cr_assert(vh_date_parse(iso, &d) == VH_OK);
    return d;
}

static void row(struct vh_table *t)
{
    cr_assert(vh_table_add_row(t) == VH_OK);
}

static void text(struct vh_table *t, const char *column, const char *value)
{
    cr_assert(vh_table_set_text(t, (size_t)vh_table_find(t, column), value) == VH_OK);
}

static void number(struct vh_table *t, const char *column, double value)
{
    vh_table_set_number(t, (size_t)vh_table_find(t, column), value);
}

static void plantings(struct vh_table *t)
{
    static const char *const line[][3] = {{"slicers", "tomato-large", "kg"},
                                          {"late slicers", "tomato-large", "kg"},
                                          {"cucumbers", "cucumber-long", "fruits"}};

    for (size_t i = 0; i < 3; i++) {
        row(t);
        text(t, "planting", line[i][0]);
        text(t, "crop", line[i][1]);
        text(t, "unit_word", line[i][2]);
    }
}

/* A page of today, Tuesday 14 July 2026, with the plantings and one table more. */
static void make(struct made *m, struct vh_table *more, enum vh_say_units units)
{
    memset(m, 0, sizeof *m);
    m->table[0] = TABLE("summary", summary);
    plantings(m->table[0]);
    m->table[1] = more;
    m->view[0] = m->table[0];
    m->view[1] = more;
    m->facts = (struct vh_page_facts){.more = m->view,
                                      .more_tables = 2,
                                      .name = "house",
                                      .today = day("2026-07-14"),
                                      .units = units};
    m->page = vh_page_of(&m->out, &m->facts);
}

/* One table more for a page that was made. */
static struct vh_table *add(struct made *m, struct vh_table *t)
{
    const size_t at = m->facts.more_tables++;

    cr_assert(at < TABLES_MOST);
    m->view[at] = m->table[at] = t;
    return t;
}

/* Where the words stand; SIZE_MAX: nowhere. */
static size_t place_of(const struct made *m, const char *words)
{
    const size_t n = strlen(words);

    for (size_t i = 0; i + n <= m->out.n; i++)
        if (!memcmp(m->out.bytes + i, words, n))
            return i;
    return SIZE_MAX;
}

static bool says(const struct made *m, const char *words)
{
    return place_of(m, words) != SIZE_MAX;
}

static void clear(struct made *m)
{
    vh_draft_clear(&m->out);
    for (size_t i = 0; i < TABLES_MOST; i++)
        vh_table_free(m->table[i]);
}

static struct vh_table *market_row(struct vh_table *t, const char *date, const char *planting,
                                   double likely, double safe)
{
    row(t);
    number(t, "date", (double)day(date));
    text(t, "planting", planting);
    text(t, "grade", "all");
    number(t, "kg_p10", likely - 8.0);
    number(t, "kg_p50", likely);
    number(t, "kg_p90", likely + 8.0);
    number(t, "promise_kg", safe);
    number(t, "orders_kg", (double)NAN);
    number(t, "fruits_p50", 2.0 * likely);
    number(t, "promise_fruits", 2.0 * safe);
    return t;
}

/* The market of Saturday 18 July with one good. */
static struct vh_table *saturday(const char *planting, double likely, double safe)
{
    return market_row(TABLE("market_days", market_days), "2026-07-18", planting, likely, safe);
}

Test(report_parts, a_promise_is_rounded_down_and_what_is_left_is_for_the_stall)
{
    struct made m;
    struct vh_table *t = saturday("slicers", 41.0, 36.9);

    number(t, "orders_kg", 18.0);
    make(&m, t, VH_SAY_METRIC);
    vh_report_market(&m.page);
    cr_expect(says(&m, "Next market day: Saturday 18 July"));
    cr_expect(says(&m, "Safe to promise: 36"));
    cr_expect(says(&m, "18 ordered, 18 for the stall"));
    cr_expect(says(&m, "likely 41, 33 to 49"));
    clear(&m);
}

/* 5 kg are 11.02 lb, and 21 kg 46.3: what is said adds up to the 46 that are safe. Arithmetic. */
Test(report_parts, what_is_ordered_and_the_stall_add_up_to_what_is_safe)
{
    struct made m;
    struct vh_table *t = saturday("slicers", 41.0, 21.0);

    number(t, "orders_kg", 5.0);
    make(&m, t, VH_SAY_US);
    vh_report_market(&m.page);
    cr_expect(says(&m, "Safe to promise: 46"));
    cr_expect(says(&m, "11 ordered, 35 for the stall"));
    clear(&m);
}

Test(report_parts, orders_above_the_promise_are_said)
{
    struct made m;
    struct vh_table *t = saturday("slicers", 41.0, 36.0);

    number(t, "orders_kg", 40.0);
    make(&m, t, VH_SAY_METRIC);
    vh_report_market(&m.page);
    cr_expect(says(&m, "4.0 kg more is ordered than is safe"));
    clear(&m);
}

/* 16.35 kg are 36.05 lb, said as 36; of 16.33 kg 36.0 lb are safe. Arithmetic. */
Test(report_parts, an_order_that_reads_as_what_is_safe_is_not_short)
{
    struct made m;
    struct vh_table *t = saturday("slicers", 41.0, 16.33);

    number(t, "orders_kg", 16.35);
    make(&m, t, VH_SAY_US);
    vh_report_market(&m.page);
    cr_expect(says(&m, "Safe to promise: 36"));
    cr_expect(says(&m, "36 ordered, 0 for the stall"));
    cr_expect(not(says(&m, "more is ordered than is safe")));
    clear(&m);
}

Test(report_parts, the_sentence_for_customers_never_says_more_than_is_safe)
{
    struct made m;
    struct vh_table *t = saturday("cucumbers", 30.0, 26.9); /* 53 are safe */

    market_row(t, "2026-07-25", "cucumbers", 40.0, 35.0);
    make(&m, t, VH_SAY_METRIC);
    vh_report_market(&m.page);
    cr_expect(says(&m, "On Saturday 18 July we have about 50 cucumbers. More from 25 July."));
    clear(&m);
}

/* What is weighed has its weight, too: 36.9 kg are safe. */
Test(report_parts, the_sentence_for_customers_tells_weights)
{
    struct made m;

    make(&m, saturday("slicers", 41.0, 36.9), VH_SAY_METRIC);
    vh_report_market(&m.page);
    cr_expect(says(&m, "On Saturday 18 July we have about 35 kg of slicers."));
    clear(&m);
}

Test(report_parts, what_is_ordered_is_not_offered_to_all_customers)
{
    for (int all = 0; all <= 1; all++) {
        struct made m;
        struct vh_table *t = saturday("cucumbers", 30.0, 26.9); /* 53 are safe */

        number(t, "orders_fruits", all ? 53.0 : 20.0);
        make(&m, t, VH_SAY_METRIC);
        vh_report_market(&m.page);
        cr_expect(says(&m, all ? "What we have on Saturday 18 July is ordered already."
                               : "On Saturday 18 July we have about 30 cucumbers."));
        clear(&m);
    }
}

Test(report_parts, plantings_that_are_sold_together_stand_as_one)
{
    struct made m;
    struct vh_table *t = saturday("slicers", 20.0, 18.0);

    market_row(t, "2026-07-18", "late slicers", 20.0, 18.0);
    market_row(t, "2026-07-18", "all tomato-large", 40.0, 37.0);
    make(&m, t, VH_SAY_METRIC);
    vh_report_market(&m.page);
    cr_expect(says(&m, "<h3>Large tomatoes</h3>"));
    cr_expect(not(says(&m, "<h3>Slicers</h3>")));
    clear(&m);
}

Test(report_parts, pounds_are_safe_too_when_rounded)
{
    struct made m;
    /* 16.7 kg are 36.8 lb */
    struct vh_table *t = saturday("slicers", 20.0, 16.7);

    make(&m, t, VH_SAY_US);
    vh_report_market(&m.page);
    cr_expect(says(&m, ">36 <small>lb safe to promise"));
    clear(&m);
}

/* 24 weeks of 30 kg written down, then `coming` weeks of 6 to 10 kg. */
static struct vh_table *weeks_to_the_end(int coming)
{
    struct vh_table *t = TABLE("weeks", weeks);
    const double monday = (double)day("2026-07-13");

    for (int i = -24; i < coming; i++) {
        const bool past = i < 0;
        row(t);
        number(t, "monday", monday + 7.0 * i);
        text(t, "planting", "slicers");
        number(t, "kg", past ? 30.0 : 8.0);
        number(t, "kg_p10", past ? (double)NAN : 6.0);
        number(t, "kg_p90", past ? (double)NAN : 10.0);
        number(t, "fruits", (double)NAN);
        number(t, "picked_kg", past ? 30.0 : (double)NAN);
        number(t, "picked_fruits", (double)NAN);
    }
    return t;
}

/* The lowest edge of the label, and the top of the bars, both from the top of the drawing. */
static void label_and_bars(const struct made *m, double *label, double *bar)
{
    const char *page = m->out.bytes, *at = strstr(page, "class=\"halo n");

    cr_assert(at != NULL);
    while (at > page && strncmp(at, "<text", 5) != 0)
        at--;
    *label = strtod(strstr(at, "y=\"") + 3, NULL);
    at = strstr(page, "class=\"known\"");
    cr_assert(at != NULL);
    while (at > page && strncmp(at, "<rect", 5) != 0)
        at--;
    *bar = strtod(strstr(at, "y=\"") + 3, NULL);
}

Test(report_parts, the_label_of_the_last_week_stands_above_the_bars_before_it)
{
    struct made m;
    double label, bar;

    make(&m, weeks_to_the_end(1), VH_SAY_METRIC);
    struct vh_table *house = add(&m, TABLE("house", season_days));
    row(house);
    number(house, "first_day", (double)day("2026-01-26"));
    number(house, "last_day", (double)day("2026-07-19"));
    vh_report_picks(&m.page);
    vh_draft_add_bytes(&m.out, "", 1); /* its end, for strstr */
    label_and_bars(&m, &label, &bar);
    cr_expect(lt(dbl, label, bar));
    cr_expect(says(&m, "The last week of picks: "));
    cr_expect(not(says(&m, "Best week to come")));
    clear(&m);
    make(&m, weeks_to_the_end(3), VH_SAY_METRIC);
    vh_report_picks(&m.page);
    cr_expect(says(&m, "Best week to come: "));
    clear(&m);
}

Test(report_parts, a_gap_says_when_to_sow_or_that_it_is_too_late)
{
    for (int late = 0; late <= 1; late++) {
        struct made m;
        struct vh_table *t = TABLE("gaps", gaps);

        row(t);
        text(t, "crop", "cucumber-long");
        number(t, "from", (double)day("2026-09-12"));
        number(t, "until", (double)day("2026-10-10"));
        number(t, "short_kg", 84.7);
        number(t, "sow_by", (double)day(late ? "2026-07-01" : "2026-07-18"));
        number(t, "plants", late ? (double)NAN : 18.0);
        make(&m, t, VH_SAY_METRIC);
        add(&m, saturday("slicers", 41.0, 36.0));
        vh_report_market(&m.page);
        cr_expect(says(&m,
                       "Too few:</b> cucumbers: 12 September to 10 October, 85 kg less than you "
                       "want, "));
        cr_expect(says(&m, late ? "too late to sow" : "sow 18 by 18 July"));
        clear(&m);
    }
}

static void choice(struct vh_table *t, const char *name, double diff, double low, double high)
{
    row(t);
    text(t, "choice", name);
    text(t, "planting", "slicers");
    number(t, "margin_diff", diff);
    number(t, "margin_diff_p10", low);
    number(t, "margin_diff_p90", high);
    number(t, "better_chance", 0.8);
}

Test(report_parts, only_a_clear_difference_has_a_filled_dot)
{
    struct made m;
    struct vh_table *t = TABLE("choices", choices);

    choice(t, "as planned", 0.0, 0.0, 0.0);
    choice(t, "leave 2 <fruits>", -310.0, -420.0, -205.0);
    make(&m, t, VH_SAY_METRIC);
    vh_report_choices(&m.page);
    cr_expect(says(&m, "class=\"dot\""));
    cr_expect(not(says(&m, "class=\"ring\"")));
    cr_expect(says(&m, "&lt;fruits&gt; is clearly worse"));
    cr_expect(says(&m, "\xE2\x88\x92"
                       "310, better in 8 of 10"));
    clear(&m);

    /* a name too long for one line is broken, and what it comes to stays: how often it is better as
     * the table says */
    t = TABLE("choices", choices);
    choice(t, "as planned", 0.0, 0.0, 0.0);
    choice(t, "leave 1 on every second node, nodes 5 to 22, 1 on two nodes of three from node 23 on",
           120.0, 60.0, 290.0);
    number(t, "better_chance", 0.98);
    make(&m, t, VH_SAY_METRIC);
    vh_report_choices(&m.page);
    cr_expect(says(&m, ">+120, nearly always better<"));
    cr_expect(says(&m, "is nearly always better than"));
    cr_expect(says(&m, "from node 23 on</text>"));
    cr_expect(not(says(&m, "1 on two nodes of three from node 23 on</text>")));
    clear(&m);

    t = TABLE("choices", choices);
    choice(t, "as planned", 0.0, 0.0, 0.0);
    choice(t, "leave 4", 120.0, -60.0, 290.0);
    text(t, "flips_if", "small fruit sells above 5.20 a kg");
    make(&m, t, VH_SAY_METRIC);
    vh_report_choices(&m.page);
    cr_expect(says(&m, "class=\"ring\""));
    cr_expect(says(&m, "Nothing is clearly better or worse than the plan"));
    cr_expect(says(&m, "Leave 4: small fruit sells above 5.20 a kg."));
    clear(&m);
}

Test(report_parts, how_far_off_is_of_what_was_picked)
{
    struct made m;
    struct vh_table *t = TABLE("hindcast", hindcast);
    const double came[] = {40.0, 60.0}, said[] = {44.0, 54.0}, last[] = {30.0, 40.0};

    for (int i = 0; i < 2; i++) {
        row(t);
        text(t, "week", i ? "2026-W24" : "2026-W23");
        number(t, "weeks_ahead", 1.0);
        text(t, "planting", "slicers");
        number(t, "observed_kg", came[i]);
        number(t, "forecast_kg_p50", said[i]);
        number(t, "forecast_kg_p10", said[i] - 5.0);
        number(t, "forecast_kg_p90", said[i] + 5.0);
        number(t, "naive_last_kg", last[i]);
    }
    row(t); /* a week that nothing picked before could foretell is not compared */
    text(t, "week", "2026-W22");
    number(t, "weeks_ahead", 1.0);
    text(t, "planting", "slicers");
    number(t, "observed_kg", 20.0);
    number(t, "forecast_kg_p50", 60.0);
    make(&m, t, VH_SAY_METRIC);
    vh_report_kept(&m.page);
    /* (4 + 6) of 100 kg; (10 + 20) of 100 kg; 40 lies within 39 to 49, 60 not within 49 to 59 */
    cr_expect(says(&m, "off by 10"));
    cr_expect(says(&m, "by 30"));
    cr_expect(says(&m, "1 of 2 weeks ended inside their range"));
    clear(&m);
}

Test(report_parts, what_has_no_table_is_left_out_or_says_how_to_get_it)
{
    struct made m;

    make(&m, NULL, VH_SAY_METRIC);
    vh_report_market(&m.page);
    vh_report_choices(&m.page);
    cr_expect(eq(sz, m.out.n, 0));
    vh_report_kept(&m.page);
    cr_expect(says(&m, "write down picks"));
    clear(&m);
}

Test(report_parts, names_and_words_of_a_table_never_become_markup)
{
    struct made m;
    struct vh_table *t = saturday("</svg><script>x</script>\"'&", 41.0, 36.0);

    make(&m, t, VH_SAY_METRIC);
    vh_report_market(&m.page);
    cr_expect(not(says(&m, "<script>")));
    cr_expect(says(&m, "&lt;/svg&gt;&lt;script&gt;"));
    clear(&m);
}

static void promise(struct vh_table *t, const char *said_on, const char *date, double kg)
{
    row(t);
    number(t, "said_on", (double)day(said_on));
    number(t, "date", (double)day(date));
    text(t, "planting", "slicers");
    text(t, "grade", "all");
    number(t, "promise_kg", kg);
}

/* A page of promises that are judged, with a table of picks, which is given back empty. */
static struct vh_table *make_judged(struct made *m, struct vh_table *promises)
{
    make(m, promises, VH_SAY_METRIC);
    struct vh_table *pick = add(m, TABLE("picks", picks)), *t = add(m, TABLE("house", house));

    row(t);
    number(t, "said_near_d", 3.0);
    return pick;
}

static void weighed(struct vh_table *t, const char *date, double kg)
{
    row(t);
    number(t, "date", (double)day(date));
    text(t, "planting", "slicers");
    number(t, "picked_kg", kg);
}

Test(report_parts, a_promise_is_kept_by_what_was_weighed_in_the_week_to_its_day)
{
    struct made m;
    struct vh_table *t = TABLE("said", said);

    promise(t, "2026-06-20", "2026-06-27", 24.0); /* 12 + 13 came */
    promise(t, "2026-06-26", "2026-06-27", 99.0); /* said a day before: not the one that counts */
    promise(t, "2026-06-27", "2026-07-04", 26.0); /* 25 came */
    promise(t, "2026-07-04", "2026-07-11", 20.0); /* nothing was written down */
    promise(t, "2026-07-11", "2026-07-18", 20.0); /* its day is to come */
    struct vh_table *pick = make_judged(&m, t);
    weighed(pick, "2026-06-20", 50.0); /* of the week before */
    weighed(pick, "2026-06-21", 12.0);
    weighed(pick, "2026-06-27", 13.0);
    weighed(pick, "2026-07-02", 25.0);
    vh_report_kept(&m.page);
    cr_expect(says(&m, "1\xC2\xA0of 2\xC2\xA0promises were kept"));
    cr_expect(says(&m, "<td>24 kg</td><td>25 kg</td><td>kept</td>"));
    cr_expect(says(&m, "<td>26 kg</td><td>25 kg</td><td><b>short</b></td>"));
    cr_expect(says(&m, "not known: no pick written down between 5 July and 11 July"));
    clear(&m);
}

/* Two market days a week, Wednesday and Saturday. Of 11.6 kg of Tuesday 23 June the Wednesday takes
 * its 4 and 7.6 are left: short of 8 on Saturday, with a pick of 0.3 of the Friday 7.9. Of 7.5 kg
 * of Friday 3 July the Saturday takes 4; for the Wednesday behind it nothing was written though the
 * Tuesday is a pick day: not known, and what was left is no answer. Arithmetic. */
Test(report_parts, a_pick_keeps_one_promise_only)
{
    struct made m;
    struct vh_table *t = TABLE("said", said);

    promise(t, "2026-06-17", "2026-06-24", 4.0);
    promise(t, "2026-06-20", "2026-06-27", 8.0);
    promise(t, "2026-06-27", "2026-07-04", 4.0);
    promise(t, "2026-07-01", "2026-07-08", 3.0);
    struct vh_table *pick = make_judged(&m, t);
    weighed(pick, "2026-06-23", 11.6);
    weighed(pick, "2026-06-26", 0.3);
    weighed(pick, "2026-07-03", 7.5);
    weighed(pick, "2026-07-07", (double)NAN); /* foreseen, not written */
    number(pick, "kg", 5.0);
    weighed(pick, "2026-07-10", 6.0);
    m.page.today = day("2026-07-12");
    vh_report_kept(&m.page);
    cr_expect(says(&m, "2\xC2\xA0of 3\xC2\xA0promises were kept"));
    cr_expect(says(&m, "<td>8.0 kg</td><td>7.9 kg</td><td><b>short</b></td>"));
    cr_expect(says(&m, "<td>4.0 kg</td><td>7.5 kg</td><td>kept</td>"));
    cr_expect(says(&m, "not known: no pick written down between 4 July and 8 July"));
    clear(&m);
}

/* 9 kg were picked and thrown away: nothing came of 9, and 2 more of the day after are all there
 * is. Arithmetic. */
Test(report_parts, what_was_all_thrown_away_was_picked_all_the_same)
{
    struct made m;
    struct vh_table *t = TABLE("said", said);

    promise(t, "2026-06-20", "2026-06-27", 8.0);
    struct vh_table *pick = make_judged(&m, t);
    weighed(pick, "2026-06-26", 9.0);
    number(pick, "thrown_kg", 9.0);
    weighed(pick, "2026-06-27", 2.0);
    number(pick, "thrown_kg", 0.0);
    m.page.today = day("2026-07-01");
    vh_report_kept(&m.page);
    cr_expect(says(&m, "<td>8.0 kg</td><td>2.0 kg of 11 picked</td><td><b>short</b></td>"));
    clear(&m);
}

/* Of two market days a week each has the Tuesday's 11.6 kg in its week; with 0.3 and 7.5 of other
 * days 19.4 were picked. Arithmetic. */
Test(report_parts, a_pick_of_two_weeks_is_summed_once)
{
    struct made m;
    struct vh_table *t = TABLE("said", said);
    bool counted[4] = {false};
    double sum = 0.0;

    struct vh_table *pick = make_judged(&m, t);
    weighed(pick, "2026-06-23", 11.6);
    weighed(pick, "2026-06-26", 0.3);
    weighed(pick, "2026-07-03", 7.5);
    weighed(pick, "2026-07-07", (double)NAN);
    const struct vh_promise_tables tables = {.said = t, .picks = pick};
    const char *const days[] = {"2026-06-24", "2026-06-27", "2026-07-04"};
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        const struct vh_promise_past past = {.planting = "slicers", .date = (double)day(days[i])};
        sum += vh_promise_picked_once(&tables, &past, counted);
    }
    cr_expect(epsilon_eq(dbl, sum, 11.6 + 0.3 + 7.5, 1e-9));
    clear(&m);
}

/* 12.4 kg are said as 12: 11.6 would be said so too, so it is said to a tenth; 11.96 is 12.0 on her
 * scale. Nothing is no promise. Of two Saturdays without a promise one has no pick. Arithmetic. */
Test(report_parts, what_is_short_can_be_seen_to_be_and_what_was_not_promised_is_told)
{
    struct made m;
    struct vh_table *t = TABLE("said", said);

    promise(t, "2026-06-06", "2026-06-13", 0.04);
    promise(t, "2026-06-13", "2026-06-20", 12.4);
    promise(t, "2026-06-20", "2026-06-27", 12.4);
    struct vh_table *pick = make_judged(&m, t);
    weighed(pick, "2026-06-12", 3.0);
    weighed(pick, "2026-06-19", 11.6);
    weighed(pick, "2026-06-26", 11.96);
    weighed(pick, "2026-07-03", 9.0);
    struct vh_table *days = add(&m, TABLE("market_days", market_days));
    for (int i = 0; i < 6; i++)
        market_row(days,
                   (const char *[]){"2026-06-06", "2026-06-13", "2026-06-20", "2026-06-27",
                                    "2026-07-04", "2026-07-11"}[i],
                   "slicers", 12.0, 11.0);
    /* plums came later: the day was promised, though not of them */
    market_row(days, "2026-06-27", "plums", 5.0, 4.0);
    weighed(pick, "2026-06-26", 5.0);
    text(pick, "planting", "plums");
    vh_report_kept(&m.page);
    cr_expect(says(&m, "1\xC2\xA0of 2\xC2\xA0promises were kept"));
    cr_expect(says(&m, "<td>12 kg</td><td>11.6 kg</td><td><b>short</b></td>"));
    cr_expect(says(&m, "<td>12 kg</td><td>12 kg</td><td>kept</td>"));
    cr_expect(not(says(&m, "<td>0 kg</td>")));
    cr_expect(says(&m, "nothing was promised about a week before 4 July."));
    clear(&m);
}

/* Before the first promise none is missing: not where none was ever made, nor of its own day. */
Test(report_parts, what_was_never_begun_is_not_missing)
{
    for (int is_said = 0; is_said <= 1; is_said++) {
        struct made m;
        struct vh_table *t = TABLE("said", said);
        char told[200];

        if (is_said)
            promise(t, "2026-07-04", "2026-07-04", 12.0);
        struct vh_table *pick = make_judged(&m, t),
                        *days = add(&m, TABLE("market_days", market_days));
        for (int i = 0; i < 3; i++) {
            const char *const date[] = {"2026-06-27", "2026-07-04", "2026-07-11"};
            market_row(days, date[i], "slicers", 12.0, 11.0);
            weighed(pick, date[i], 9.0);
        }
        const struct vh_promise_tables tables = {m.view[1], NULL, m.view[2], m.view[0], m.view[3]};
        vh_unpromised(&tables, days, m.facts.today, told, sizeof told);
        cr_expect(
            eq(str, told,
               is_said ? (char *)"nothing was promised about a week before 11 July" : (char *)""));
        clear(&m);
    }
}

/* 25 kg picked, 24 promised: with 2 thrown away it is short, whatever the model has; with half a kg
 * it is kept; where nothing is noted the model's tenth leaves 22.5. Arithmetic. */
Test(report_parts, a_promise_is_kept_by_what_can_be_sold)
{
    const double thrown[] = {2.0, 0.5, (double)NAN};
    const char *const told[] = {"<td>23 kg of 25 picked</td><td><b>short</b></td>", "<td>kept</td>",
                                "<td>22 kg of 25 picked</td><td><b>short</b></td>"};

    for (int i = 0; i < 3; i++) {
        struct made m;
        struct vh_table *t = TABLE("said", said);
        promise(t, "2026-06-20", "2026-06-27", 24.0);
        struct vh_table *pick = make_judged(&m, t);
        weighed(pick, "2026-06-26", 25.0);
        number(pick, "kg", 20.0);
        number(pick, "unmarketable_kg", 2.0);
        number(pick, "thrown_kg", thrown[i]);
        vh_report_kept(&m.page);
        cr_expect(says(&m, told[i]), "%s", told[i]);
        clear(&m);
    }
}

Test(report_parts, what_is_sold_by_the_piece_is_held_against_the_fruits_that_were_counted)
{
    static const struct vh_column said_fruits[] = {
        {"said_on", VH_CELL_DATE, "", ""},          {"date", VH_CELL_DATE, "", ""},
        {"planting", VH_CELL_TEXT, "", ""},         {"grade", VH_CELL_TEXT, "", ""},
        {"promise_fruits", VH_CELL_NUMBER, "", ""},
    };
    struct made m;
    struct vh_table *t = TABLE("said_fruits", said_fruits), *kg = TABLE("said", said);
    const char *date[] = {"2026-06-27", "2026-07-04"};
    const double promised[] = {64.73, 70.0}, came[] = {64.0, 69.0}; /* 64 were said to be safe */

    struct vh_table *pick = make_judged(&m, t);
    add(&m, kg);
    for (int i = 0; i < 2; i++) {
        row(t);
        number(t, "said_on", (double)day(date[i]) - 7.0);
        number(t, "date", (double)day(date[i]));
        text(t, "planting", "cucumbers");
        text(t, "grade", "all");
        number(t, "promise_fruits", promised[i]);
        row(pick);
        number(pick, "date", (double)day(date[i]) - 1.0);
        text(pick, "planting", "cucumbers");
        number(pick, "picked_fruits", came[i]);
        number(pick, "picked_kg", 20.0);
        promise(kg, i ? "2026-06-27" : "2026-06-20", date[i], 21.0);
        vh_table_put_text(kg, (size_t)i, 2, "cucumbers"); /* in kg it is not judged */
    }
    vh_report_kept(&m.page);
    cr_expect(says(&m, "1\xC2\xA0of 2\xC2\xA0promises were kept"));
    cr_expect(says(&m, "<td>64</td><td>64</td><td>kept</td>"));
    cr_expect(says(&m, "<td>70</td><td>69</td><td><b>short</b></td>"));
    clear(&m);
}

/* The file need not be in the order of market days: what is weighed stands before what is counted. */
Test(report_parts, promises_stand_by_their_market_day)
{
    struct made m;
    struct vh_table *kg = TABLE("said", said);

    weighed(make_judged(&m, kg), "2026-07-02", 11.0);
    promise(kg, "2026-06-27", "2026-07-04", 11.0);
    promise(kg, "2026-06-20", "2026-06-27", 12.0);
    vh_report_kept(&m.page);
    cr_expect(says(&m, "<td>11 kg</td>"));
    cr_expect(lt(sz, place_of(&m, "<td>12 kg</td>"), place_of(&m, "<td>11 kg</td>")));
    clear(&m);
}

Test(report_parts, a_long_name_is_cut_at_a_word)
{
    char room[VH_PAGE_SHORT];

    cr_expect(eq(str, (char *)vh_page_short("slicers", room), (char *)"slicers"));
    cr_expect(eq(str, (char *)vh_page_short("slicers of the second bay, late", room),
                 (char *)"slicers of the second\xE2\x80\xA6"));
    cr_expect(eq(str, (char *)vh_page_short("oneveryverylongwordwithoutanyblank", room),
                 (char *)"oneveryverylongwordwithoutanyblank"));
}
