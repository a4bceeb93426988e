/* Parts of the report: the next market, gaps, weeks, choices, how far off. */
#include "report_trial.h"

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

/* Half is much less, not a little: 15 of 30; 24 of 30 is a little less. */
Test(report_parts, the_sentence_for_customers_says_how_much_less_comes_next)
{
    for (int half = 0; half < 2; half++) {
        struct made m;
        struct vh_table *t = saturday("cucumbers", 30.0, 26.9);

        market_row(t, "2026-07-25", "cucumbers", half ? 15.0 : 24.0, 12.0);
        make(&m, t, VH_SAY_METRIC);
        vh_report_market(&m.page);
        cr_expect(says(&m, half ? " Much less on 25 July." : " A little less on 25 July."));
        clear(&m);
    }
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
    choice(t,
           "leave 1 on every second node, nodes 5 to 22, 1 on two nodes of three from node 23 on",
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

Test(report_parts, a_long_name_is_cut_at_a_word)
{
    char room[VH_PAGE_SHORT];

    cr_expect(eq(str, (char *)vh_page_short("slicers", room), (char *)"slicers"));
    cr_expect(eq(str, (char *)vh_page_short("slicers of the second bay, late", room),
                 (char *)"slicers of the second\xE2\x80\xA6"));
    cr_expect(eq(str, (char *)vh_page_short("oneveryverylongwordwithoutanyblank", room),
                 (char *)"oneveryverylongwordwithoutanyblank"));
}
