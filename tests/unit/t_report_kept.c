/* Which promises of the past were kept, as the report says. */
#include "report_trial.h"
#include "vh_unpromised.h"

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

Test(report_kept, a_promise_is_kept_by_what_was_weighed_in_the_week_to_its_day)
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
Test(report_kept, a_pick_keeps_one_promise_only)
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
Test(report_kept, what_was_all_thrown_away_was_picked_all_the_same)
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
Test(report_kept, a_pick_of_two_weeks_is_summed_once)
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
Test(report_kept, what_is_short_can_be_seen_to_be_and_what_was_not_promised_is_told)
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
Test(report_kept, what_was_never_begun_is_not_missing)
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
Test(report_kept, a_promise_is_kept_by_what_can_be_sold)
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

Test(report_kept, what_is_sold_by_the_piece_is_held_against_the_fruits_that_were_counted)
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

/* The file need not be in the order of market days: what is weighed stands before what is counted.
 */
Test(report_kept, promises_stand_by_their_market_day)
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
