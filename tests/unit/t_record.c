/* What the records reader takes, doubts and leaves out, on files whose right answer is plain. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "record_parts.h"
#include "vh_house.h"
#include "vh_parameters.h"
#include "vh_visits.h"

static struct vh_parameters *params;
static struct vh_messages *messages;
static struct vh_house house;

static int64_t day(const char *text)
{
    int64_t d;

    cr_assert(eq(int, vh_date_parse(text, &d), VH_OK));
    return d;
}

static void begin(void)
{
    messages = vh_messages_create();
    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &params, messages), VH_OK));
    house = (struct vh_house){.today = day("2026-07-14"), .plantings = 2};
    house.planting = calloc(2, sizeof *house.planting);
    house.records.file.shown = strdup("records.csv");
    const char *name[] = {"slicers", "cucumbers"};
    for (size_t i = 0; i < 2; i++) {
        house.planting[i].name = strdup(name[i]);
        house.planting[i].plants = 48;
        house.planting[i].set_out = day("2026-02-20");
        house.planting[i].pull_out = day("2026-11-10");
    }
}

static void end(void)
{
    vh_house_clear(&house);
    vh_parameters_free(params);
    vh_messages_free(messages);
}

TestSuite(record, .init = begin, .fini = end);

static enum vh_status read_text(const char *text)
{
    return vh_records_read_memory(&house, &params->record, text, strlen(text), messages);
}

static void map(const char *ours, const char *theirs)
{
    struct vh_records *r = &house.records;

    r->map = realloc(r->map, (r->maps + 1) * sizeof *r->map);
    r->map[r->maps++] = (struct vh_column_map){.ours = strdup(ours), .theirs = strdup(theirs)};
}

static bool is_told(enum vh_severity severity, int64_t line, const char *part)
{
    for (size_t i = 0; i < vh_messages_count(messages); i++) {
        const struct vh_message *m = vh_messages_at(messages, i);
        if (m->severity == severity && (line == 0 || m->line == line) && strstr(m->text, part))
            return true;
    }
    return false;
}

static const struct vh_record *at(size_t i)
{
    cr_assert(lt(sz, i, house.records.rows));
    return &house.records.row[i];
}

#define HEADER "date,planting,item,value,truss,of,note\n"

Test(record, long_rows_are_read_in_date_order)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-12,cucumbers,fruits_left,3,12,6,\n"
                                  "2026-07-01,slicers,picked_kg,12.5,,,\n"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 2));
    cr_assert(eq(dbl, at(0)->value, 12.5));
    cr_assert(eq(int, at(0)->item, VH_RECORD_PICKED_KG));
    cr_assert(eq(sz, at(1)->planting, 1));
    cr_assert(eq(int, at(1)->truss, 12));
    cr_assert(eq(int, at(1)->of, 6));
    cr_assert(eq(i64, at(1)->line, 2));
    cr_assert(eq(i64, house.records.last_day, day("2026-07-12")));
}

Test(record, a_wide_line_gives_one_record_for_each_filled_cell)
{
    cr_assert(eq(int,
                 read_text("\xEF\xBB\xBF"
                           "Date;Planting;picked_lb;done_lower;note\r\n"
                           "2026-07-01;slicers;10;;\r\n2026-07-02;slicers;;0,5;windy"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 2));
    cr_assert(ieee_ulp_eq(dbl, at(0)->value, 4.5359237, 2)); /* the pound, exact by definition */
    cr_assert(eq(int, at(1)->item, VH_RECORD_DONE));
    cr_assert(eq(int, at(1)->task, VH_TASK_LOWER));
    cr_assert(eq(dbl, at(1)->value, 0.5));
}

Test(record, no_more_stems_are_looked_at_than_stand)
{
    house.planting[0].plants = 10;
    house.planting[0].heads_per_plant = 2;
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-01,slicers,stem_mm,11,,20,\n"
                                  "2026-07-02,slicers,fruit_g,180,,30,\n"),
                 VH_OK));
    cr_assert(eq(int, read_text(HEADER "2026-07-01,slicers,stem_mm,11,,21,\n"), VH_BAD_INPUT));
    cr_assert(is_told(VH_ERROR, 2, "`of` is 21, but slicers is 10 plants with 20 stems"));
    cr_assert(eq(int,
                 read_text("date,planting,stem_mm,leaves_on_stem,of\n"
                           "2026-07-01,slicers,11,15,21\n"),
                 VH_BAD_INPUT));
    cr_assert(eq(sz, vh_messages_count_of(messages, VH_ERROR), 2), "once a line");
}

Test(record, headers_and_items_of_hers_are_mapped)
{
    map("planting", "Bed");
    map("picked_kg", "Harvest");
    cr_assert(eq(int, read_text("date,Bed,item,value\n2026-07-01,slicers,Harvest,3\n"), VH_OK));
    cr_assert(eq(int, at(0)->item, VH_RECORD_PICKED_KG));
    house.records.map[1].used = false;
    cr_assert(eq(int, read_text("date,Bed,Harvest\n2026-07-01,slicers,3\n"), VH_OK));
    cr_assert(eq(int, read_text("date,Bed,picked_kg\n2026-07-01,slicers,3\n"), VH_BAD_INPUT));
    cr_assert(is_told(VH_ERROR, 0, "no header `Harvest`"));
    cr_assert(eq(sz, house.records.rows, 0));
}

Test(record, every_wrong_row_is_told_by_its_line)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-01,slicer,picked_kg,3,,,\n"
                                  "2026-07-01,slicers,picked,3,,,\n"
                                  "2026-02-01,slicers,picked_kg,3,,,\n"
                                  "2026-07-01,slicers,picked_kg,-3,,,\n"
                                  "2026-07-01,slicers,picked_kg,lots,,,\n"
                                  "14/7/2026,slicers,picked_kg,3,,,\n"
                                  "7/8/2026,slicers,picked_kg,3,,,\n"
                                  "2026-07-01,slicers,done_lower,1.5,,,\n"
                                  "2026-07-01,slicers,fruits_left,3,0,,\n"
                                  "2026-07-01,slicers,stem_in,90,,,\n"
                                  "2026-07-01,slicers,picked_kg,\"3,5\",,,\n"),
                 VH_BAD_INPUT));
    cr_assert(is_told(VH_ERROR, 2, "did you mean slicers?"));
    cr_assert(is_told(VH_ERROR, 3, "did you mean picked_kg?"));
    cr_assert(is_told(VH_ERROR, 4, "before slicers was set out (2026-02-20)"));
    cr_assert(is_told(VH_ERROR, 5, "never below 0"));
    cr_assert(is_told(VH_ERROR, 6, "no number"));
    cr_assert(is_told(VH_ERROR, 7, "write 2026-07-14"));
    cr_assert(is_told(VH_ERROR, 8, "write 2026-08-07 or 2026-07-08"));
    cr_assert(is_told(VH_ERROR, 9, "a share such as 0.5"));
    cr_assert(is_told(VH_ERROR, 10, "`truss` is 0"));
    cr_assert(is_told(VH_ERROR, 11, "stem_cm or stem_mm"));
    cr_assert(is_told(VH_ERROR, 12, "write 3.5"));
    cr_assert(eq(sz, vh_messages_count_of(messages, VH_ERROR), 11));
}

Test(record, ten_times_its_neighbours_is_doubted_and_kept)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-01,slicers,picked_kg,12,,,\n"
                                  "2026-07-03,slicers,picked_kg,0,,,\n"
                                  "2026-07-05,slicers,picked_kg,125,,,\n"
                                  "2026-07-07,slicers,picked_kg,11,,,\n"
                                  "2026-07-09,slicers,picked_kg,1.0,,,\n"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 5));
    for (size_t i = 0; i < 5; i++)
        cr_assert(eq(int, at(i)->doubt, i == 2));
    cr_assert(is_told(VH_WARNING, 4, "picked_kg of slicers is 125"));
    struct vh_record sure = *at(2);
    sure.doubt = false;
    cr_assert(lt(dbl, vh_record_sd(&params->record, &sure), vh_record_sd(&params->record, at(2))));
    struct vh_record_picks *p;
    size_t n;
    cr_assert(eq(int, vh_record_picks_of(&house.records, 0, day("2026-02-20"), &p, &n), VH_OK));
    cr_assert(eq(sz, n, 5));
    for (size_t i = 0; i < 5; i++) {
        cr_assert(eq(int, p[i].kg_doubt, i == 2));
        cr_assert(eq(int, p[i].fruits_doubt, 0));
    }
    free(p);
}

/* The same, and she has looked at it: a note that begins with the word, not with one like it. */
Test(record, a_note_that_begins_with_right_takes_the_doubt_away)
{
    static const struct {
        const char *note;
        int doubt;
    } want[] = {{"right", 0},
                {" Right: two crates", 0},
                {"rightly so", 1},
                {"it is right", 1},
                {"right row only", 1}};
    char text[400];

    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        snprintf(text, sizeof text,
                 HEADER "2026-07-01,slicers,picked_kg,12,,,\n"
                        "2026-07-05,slicers,picked_kg,125,,,%s\n"
                        "2026-07-07,slicers,picked_kg,11,,,\n",
                 want[i].note);
        cr_assert(eq(int, read_text(text), VH_OK));
        cr_expect(eq(int, at(1)->doubt, want[i].doubt), "%s", want[i].note);
    }
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-01,slicers,picked_kg,12,,,\n"
                                  "2026-07-05,slicers,picked_kg,125,,,\n"
                                  "2026-07-05,slicers,picked_kg,125,,,right\n"
                                  "2026-07-07,slicers,picked_kg,11,,,\n"),
                 VH_OK));
    cr_expect(eq(int, at(1)->doubt, 0), "of a copy");
}

Test(record, a_file_without_notes_is_told_how_to_have_them)
{
    cr_assert(eq(int,
                 read_text("date,planting,item,value\n2026-07-01,slicers,picked_kg,12\n"
                           "2026-07-05,slicers,picked_kg,125\n2026-07-07,slicers,picked_kg,11\n"),
                 VH_OK));
    cr_expect(not(is_told(VH_WARNING, 3, "begin its note")));
    cr_expect(is_told(VH_WARNING, 3,
                      "in a column `note`: add it to the header, and a separator to every line"));
}

/* 20 to 30 kg twice a week. */
#define USUAL                                                                                      \
    HEADER "2026-06-01,slicers,picked_kg,22,,,\n"                                                  \
           "2026-06-05,slicers,picked_kg,30,,,\n"                                                  \
           "2026-06-08,slicers,picked_kg,20,,,\n"                                                  \
           "2026-06-12,slicers,picked_kg,26,,,\n"

Test(record, ten_times_what_she_usually_picks_is_doubted)
{
    cr_assert(eq(int, read_text(USUAL "2026-06-15,slicers,picked_kg,280,,,\n"), VH_OK));
    for (size_t i = 0; i < house.records.rows; i++)
        cr_assert(eq(int, at(i)->doubt, i == 4));
    cr_assert(is_told(VH_WARNING, 6, "you usually pick 21.5 to 27.0; is 280 right?"));
}

/* Flushes of two to three times the usual, and a pick after three weeks away, are what they are. */
Test(record, a_flush_and_a_pick_after_weeks_are_not_doubted)
{
    cr_assert(eq(int,
                 read_text(USUAL "2026-06-15,slicers,picked_kg,72,,,\n"
                                 "2026-06-19,slicers,picked_kg,64,,,\n"
                                 "2026-07-10,slicers,picked_kg,140,,,\n"),
                 VH_OK));
    cr_assert(eq(i64, house.records.doubtful, 0));
}

Test(record, a_season_that_doubles_from_pick_to_pick_is_not_doubted)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-05-01,slicers,picked_kg,0.5,,,\n"
                                  "2026-05-04,slicers,picked_kg,1,,,\n"
                                  "2026-05-08,slicers,picked_kg,2,,,\n"
                                  "2026-05-11,slicers,picked_kg,4,,,\n"
                                  "2026-05-15,slicers,picked_kg,8,,,\n"
                                  "2026-05-18,slicers,picked_kg,16,,,\n"),
                 VH_OK));
    cr_assert(eq(i64, house.records.doubtful, 0));
}

Test(record, a_season_that_begins_small_is_not_doubted)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-05-01,slicers,picked_kg,0.3,,,\n"
                                  "2026-05-04,slicers,picked_kg,1.5,,,\n"
                                  "2026-05-08,slicers,picked_kg,6,,,\n"
                                  "2026-05-12,slicers,picked_kg,14,,,\n"),
                 VH_OK));
    cr_assert(eq(i64, house.records.doubtful, 0));
}

/* Four picks of 24 kg every fourth day; then one after so many days. Beyond four times the usual,
 * and once the usual more for each usual gap beyond the first, it is doubted; below a sixth it is
 * asked (params/records.csv: pick_doubt_ratio 4, pick_low_ratio 6). At the limit it is believed. */
Test(record, a_pick_is_doubted_beyond_its_limit_and_asked_below_its_own)
{
    static const struct {
        int gap_d;
        double kg;
        bool doubt, asked;
    } last[] = {{4, 96.0, false, false},   {4, 96.1, true, true},    {2, 96.0, false, false},
                {2, 96.1, true, true},     {8, 120.0, false, false}, {8, 120.1, true, true},
                {20, 192.0, false, false}, {20, 192.1, true, true},  {4, 4.0, false, false},
                {4, 3.9, false, true}};

    for (size_t i = 0; i < sizeof last / sizeof last[0]; i++) {
        char text[400], date[11];
        vh_messages_free(messages);
        messages = vh_messages_create();
        vh_date_format(day("2026-06-13") + last[i].gap_d, date);
        snprintf(text, sizeof text,
                 HEADER "2026-06-01,slicers,picked_kg,24,,,\n2026-06-05,slicers,picked_kg,24,,,\n"
                        "2026-06-09,slicers,picked_kg,24,,,\n2026-06-13,slicers,picked_kg,24,,,\n"
                        "%s,slicers,picked_kg,%.1f,,,\n",
                 date, last[i].kg);
        cr_assert(eq(int, read_text(text), VH_OK));
        cr_expect(eq(int, at(4)->doubt, last[i].doubt), "%g kg after %d days", last[i].kg,
                  last[i].gap_d);
        cr_expect(eq(int, is_told(VH_WARNING, 6, "right?"), last[i].asked), "%g kg after %d days",
                  last[i].kg, last[i].gap_d);
    }
}

/* 240 typed for 24, and the 24 after it: the slip counts for nothing, here as in the sums by day;
 * two good entries of a day are added, and of doubted ones alone the sum is doubted. */
Test(record, a_doubted_entry_counts_for_nothing_beside_another_of_its_day)
{
    static const struct {
        const char *last;
        double kg;
        bool doubt;
    } said[] = {
        {"2026-06-17,slicers,picked_kg,240,,,\n2026-06-17,slicers,picked_kg,24,,,\n", 24.0, false},
        {"2026-06-17,slicers,picked_kg,24,,,\n2026-06-17,slicers,picked_kg,240,,,\n", 24.0, false},
        {"2026-06-17,slicers,picked_kg,20,,,\n2026-06-17,slicers,picked_kg,4,,,\n", 24.0, false},
        {"2026-06-17,slicers,picked_kg,240,,,\n", 240.0, true}};

    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        struct vh_record_picks *p = NULL;
        size_t n = 0;
        char text[500];
        snprintf(text, sizeof text,
                 HEADER
                 "2026-06-01,slicers,picked_kg,24,,,\n2026-06-05,slicers,picked_kg,24,,,\n"
                 "2026-06-09,slicers,picked_kg,24,,,\n2026-06-13,slicers,picked_kg,24,,,\n%s",
                 said[i].last);
        cr_assert(eq(int, read_text(text), VH_OK));
        cr_assert(eq(int, vh_record_picks_of(&house.records, 0, day("2026-02-20"), &p, &n), VH_OK));
        cr_assert(eq(sz, n, 5));
        cr_expect(eq(dbl, p[4].kg, said[i].kg), "%zu", i);
        cr_expect(eq(int, p[4].kg_doubt, said[i].doubt), "%zu", i);
        free(p);
    }
}

/* What the planting itself speaks against: 48 plants on 19.2 m2 of which such crops reach 1.6 kg a
 * m2 and week, of 200 g a fruit. Bounds: params/records.csv. */
static struct vh_crop known;

static void know_the_crop(void)
{
    known.habit.reach_high_kg_m2_week = 1.6;
    house.planting[0].crop = &known;
    house.planting[0].plants_per_m2 = 2.5;
    house.planting[0].usual_fruit_g = 200.0;
}

/* 1.6 * 3.5 * 19.2 = 107.5 kg in one week, twice that after two. */
Test(record, a_first_pick_beyond_what_such_crops_give_is_doubted)
{
    know_the_crop();
    cr_assert(eq(int, read_text(HEADER "2026-06-01,slicers,picked_kg,110,,,\n"), VH_OK));
    cr_assert(eq(int, at(0)->doubt, 1));
    cr_assert(is_told(VH_WARNING, 2, "2.3 kg a plant, and such crops give 2.2 at most"));
    cr_assert(isnan(vh_record_picked_kg(&house.records, 0, day("2026-06-01"), day("2026-06-01"))));
    cr_assert(eq(int,
                 read_text(HEADER "2026-06-01,slicers,picked_kg,90,,,\n"
                                  "2026-06-15,slicers,picked_kg,200,,,\n"),
                 VH_OK));
    cr_assert(eq(i64, house.records.doubtful, 0));
    cr_assert(eq(int, read_text(HEADER "2026-06-01,slicers,picked_fruits,600,,,\n"), VH_OK));
    cr_assert(eq(int, at(0)->doubt, 1));
}

/* Of 280 fruits and 10.9 kg nobody knows which is wrong: 39 g a fruit. */
Test(record, weight_and_number_that_do_not_fit_are_both_doubted)
{
    know_the_crop();
    cr_assert(eq(int,
                 read_text(HEADER "2026-06-01,slicers,picked_kg,10.9,,,\n"
                                  "2026-06-01,slicers,picked_fruits,280,,,\n"
                                  "2026-06-05,slicers,picked_kg,10.9,,,\n"
                                  "2026-06-05,slicers,picked_fruits,70,,,\n"),
                 VH_OK));
    for (size_t i = 0; i < 4; i++)
        cr_assert(eq(int, at(i)->doubt, i < 2), "row %zu", i);
    cr_assert(is_told(VH_WARNING, 3, "39 g a fruit where 200 are usual"));
}

/* 80 kg for 8 among eights: the 40 fruits beside it are no slip, in whatever order they stand. */
Test(record, what_stands_beside_a_slip_is_not_held_against_it)
{
    static const char *const both[] = {
        "2026-06-18,slicers,picked_kg,80,,,\n2026-06-18,slicers,picked_fruits,40,,,\n",
        "2026-06-18,slicers,picked_fruits,40,,,\n2026-06-18,slicers,picked_kg,80,,,\n"};

    know_the_crop();
    for (int order = 0; order < 2; order++) {
        char text[700] = HEADER;
        for (int d = 1; d <= 13; d += 3)
            snprintf(
                text + strlen(text), sizeof text - strlen(text),
                "2026-06-%02d,slicers,picked_kg,8,,,\n2026-06-%02d,slicers,picked_fruits,40,,,\n",
                d, d);
        strcat(text, both[order]);
        cr_assert(eq(int, read_text(text), VH_OK));
        for (size_t i = 0; i < house.records.rows; i++)
            cr_expect(eq(int, at(i)->doubt, at(i)->value == 80.0), "row %zu of %s", i, text);
    }
}

/* Counted for weeks, 40 of 200 g: 8 kg a pick, by which the first weight is held, and the other way
 * round. Her own weights of a fruit go before what is usual. Arithmetic, by pick_doubt_ratio 4 and
 * pick_low_ratio 6 of params/records.csv. */
#define PICKS_OF(what)                                                                             \
    HEADER "2026-06-01,slicers," what ",,,\n2026-06-04,slicers," what ",,,\n"                      \
           "2026-06-08,slicers," what ",,,\n2026-06-11,slicers," what ",,,\n"                      \
           "2026-06-15,slicers," what ",,,\n"

Test(record, a_mass_among_counts_is_held_against_them_and_a_count_among_masses)
{
    static const struct {
        const char *before, *last;
        bool doubt, asked;
    } said[] = {
        {PICKS_OF("picked_fruits,40"), "picked_kg,31.9,,,\n", false, false},
        {PICKS_OF("picked_fruits,40"), "picked_kg,32.1,,,\n", true, true},
        {PICKS_OF("picked_fruits,40"), "picked_kg,1.4,,,\n", false, false},
        {PICKS_OF("picked_fruits,40"), "picked_kg,1.3,,,\n", false, true},
        {PICKS_OF("picked_kg,8"), "picked_fruits,159,,,\n", false, false},
        {PICKS_OF("picked_kg,8"), "picked_fruits,161,,,\n", true, true},
        {PICKS_OF("picked_fruits,40") "2026-06-15,slicers,fruit_g,100,,10,\n",
         "picked_kg,15.9,,,\n", false, false},
        {PICKS_OF("picked_fruits,40") "2026-06-15,slicers,fruit_g,100,,10,\n",
         "picked_kg,16.1,,,\n", true, true},
    };

    know_the_crop();
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        char text[600];
        vh_messages_free(messages);
        messages = vh_messages_create();
        snprintf(text, sizeof text, "%s2026-06-18,slicers,%s", said[i].before, said[i].last);
        cr_assert(eq(int, read_text(text), VH_OK));
        const struct vh_record *last = at(house.records.rows - 1);
        cr_expect(eq(int, last->doubt, said[i].doubt), "%s", text);
        cr_expect(eq(int, is_told(VH_WARNING, last->line, "right?"), said[i].asked), "%s", text);
        cr_expect(eq(i64, house.records.doubtful, said[i].doubt), "%s", text);
    }
    cr_assert(is_told(VH_WARNING, 8, "you usually pick 4 (as you counted, at 100 g a fruit)"));
}

/* 3.53 oz are 100 g (28.3495 g an ounce, NIST SP 811). */
Test(record, a_house_in_pounds_is_told_of_fruits_in_ounces)
{
    know_the_crop();
    house.us_units = true;
    cr_assert(eq(int,
                 read_text(PICKS_OF("picked_fruits,40") "2026-06-15,slicers,fruit_g,100,,10,\n"
                                                        "2026-06-18,slicers,picked_lb,50,,,\n"),
                 VH_OK));
    cr_expect(is_told(VH_WARNING, 8, "(as you counted, at 3.53 oz a fruit)"));
}

/* A slip and what was to mend it, ten times the usual both, do not speak for each other, in any
 * number; a second lot of a day is believed. */
Test(record, a_slip_noted_again_on_its_day_is_doubted_too)
{
    static const struct {
        const char *of_day[3];
        size_t doubted;
    } said[] = {{{"140", "150", NULL}, 2},
                {{"140", "150", "160"}, 3},
                {{"140", "150", "15"}, 2},
                {{"13", "15", NULL}, 0}};

    for (size_t k = 0; k < sizeof said / sizeof said[0]; k++) {
        char text[600] = PICKS_OF("picked_kg,14");
        for (size_t i = 0; i < 3 && said[k].of_day[i]; i++)
            snprintf(text + strlen(text), sizeof text - strlen(text),
                     "2026-06-18,slicers,picked_kg,%s,,,\n", said[k].of_day[i]);
        cr_assert(eq(int, read_text(text), VH_OK));
        cr_expect(eq(i64, house.records.doubtful, (int64_t)said[k].doubted), "%s", text);
        for (size_t i = 0; i < house.records.rows; i++)
            cr_expect(eq(int, at(i)->doubt, at(i)->value > 100.0), "row %zu of %s", i, text);
    }
}

/* An item that is none: what is asked for is in the unit that she wrote, else in that of the house:
 * 40 piced_lb are no 40 kg. */
Test(record, a_hint_is_in_her_unit_or_in_that_of_the_house)
{
    static const char *const said[][3] = {
        {"picked", "did you mean picked_kg?", "did you mean picked_lb?"},
        {"sold_fruits", "and write sold_kg", "and write sold_lb"},
        {"thrown", "and write unmarketable_kg", "and write unmarketable_lb"},
        {"piced_lb", "did you mean picked_lb?", "did you mean picked_lb?"},
        {"piced_kg", "did you mean picked_kg?", "did you mean picked_kg?"},
        {"thrown_lb", "and write unmarketable_lb", "and write unmarketable_lb"},
        {"stem_growth", "did you mean stem_growth_cm?", "did you mean stem_growth_cm?"},
    };

    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++)
        for (int us = 0; us < 2; us++) {
            char hint[VH_ITEM_HINT];
            cr_assert(vh_item_hint(said[i][0], us, hint, sizeof hint));
            cr_expect(strstr(hint, said[i][1 + us]) != NULL, "%s", hint);
        }
    house.us_units = true;
    cr_assert(eq(int, read_text(HEADER "2026-07-01,slicers,picked,14,,,\n"), VH_BAD_INPUT));
    cr_expect(is_told(VH_ERROR, 2, "did you mean picked_lb?"));
    cr_assert(eq(int, read_text("date,planting,sold\n2026-07-01,slicers,3\n"), VH_BAD_INPUT));
    cr_expect(is_told(VH_ERROR, 1, "did you mean sold_lb?"));
}

/* kg typed for lb is 2.2 times as much, and no neighbour speaks against it. Where enough was picked
 * before, pounds are asked about where their number would do better as kilograms; kilograms in a
 * house in pounds always, even 24.5 that are 54 lb. */
#define PICKED_8                                                                                   \
    "picked_kg,8,,,\n2026-06-04,slicers,picked_kg,8,,,\n2026-06-08,slicers,picked_kg,8,,,\n"       \
    "2026-06-11,slicers,picked_kg,8,,,\n2026-06-15,slicers,"
#define PICKED_54_LB                                                                               \
    "picked_lb,54,,,\n2026-06-04,slicers,picked_lb,54,,,\n2026-06-08,slicers,picked_lb,54,,,\n"    \
    "2026-06-11,slicers,picked_lb,54,,,\n2026-06-15,slicers,"

Test(record, a_mass_in_another_unit_than_all_before_it_is_asked_about)
{
    static const struct {
        bool us;
        const char *text;
        size_t doubted; /* bits, a row each */
    } said[] = {
        {true,
         "picked_lb,20,,,\n2026-06-04,slicers,picked_kg,24,,,\n2026-06-08,slicers,picked_kg,25", 6},
        {true,
         "picked_lb,20,,,\n2026-06-04,slicers,picked_kg,24,,,right\n"
         "2026-06-08,slicers,picked_kg,25",
         0},
        {true, "picked_kg,9,,,\n2026-06-04,slicers,picked_lb,20,,,\n2026-06-08,slicers,picked_kg,9",
         0},
        {true,
         "picked_lb,20,,,\n2026-06-04,cucumbers,picked_fruits,24,,,\n"
         "2026-06-08,cucumbers,picked_kg,5",
         4},
        {true, "picked_kg,9,,,\n2026-06-04,slicers,unmarketable_kg,1", 0},
        {false, "picked_kg,9,,,\n2026-06-04,slicers,picked_lb,9", 2},
        {false, "picked_kg,9,,,\n2026-06-04,slicers,picked_kg,9", 0},
        {false, PICKED_8 "picked_lb,18", 0},
        {false, PICKED_8 "picked_lb,9", 16},
        {true, PICKED_54_LB "picked_kg,24.5", 16},
        {true, PICKED_54_LB "picked_kg,54.3", 16},
        {false, "sold_kg,9,,,\n2026-06-04,slicers,sold_lb,9", 0},
    };
    bool told = false;

    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        char text[400];
        house.us_units = said[i].us;
        snprintf(text, sizeof text, HEADER "2026-06-01,slicers,%s,,,\n", said[i].text);
        cr_assert(eq(int, read_text(text), VH_OK));
        for (size_t k = 0; k < house.records.rows; k++)
            cr_expect(eq(int, at(k)->doubt, said[i].doubted >> k & 1), "row %zu of %s", k, text);
        told |= is_told(VH_WARNING, 3,
                        "is 24, and all of that planting before it is in lb (did you mean "
                        "picked_lb?); it counts for nothing: mend it, or begin its note with");
    }
    cr_expect(told);
}

/* A slip that she mended with a further line of the same day stands alone in doubt, whichever comes
 * first: 10.9 kg and 70 fruits fit each other, 109 kg and 280 fruits fit nothing. */
Test(record, what_a_slip_was_mended_with_is_not_doubted_with_it)
{
    static const char *const day_of[][3] = {
        {"picked_kg,109", "picked_kg,10.9", "picked_fruits,70"},
        {"picked_kg,10.9", "picked_kg,109", "picked_fruits,70"},
        {"picked_fruits,70", "picked_kg,10.9", "picked_kg,109"},
        {"picked_kg,10.9", "picked_fruits,280", "picked_fruits,70"},
        {"picked_fruits,70", "picked_fruits,280", "picked_kg,10.9"},
    };
    char text[400];

    know_the_crop();
    for (size_t k = 0; k < sizeof day_of / sizeof day_of[0]; k++)
        for (int more = 0; more < 2; more++) {
            snprintf(text, sizeof text,
                     "%s2026-06-15,slicers,%s,,,\n2026-06-15,slicers,%s,,,\n"
                     "2026-06-15,slicers,%s,,,\n",
                     more ? HEADER "2026-06-01,slicers,picked_kg,10,,,\n"
                                   "2026-06-05,slicers,picked_kg,11,,,\n"
                                   "2026-06-08,slicers,picked_kg,10,,,\n"
                                   "2026-06-12,slicers,picked_kg,11,,,\n"
                          : HEADER,
                     day_of[k][0], day_of[k][1], day_of[k][2]);
            cr_assert(eq(int, read_text(text), VH_OK));
            for (size_t i = 0; i < house.records.rows; i++)
                cr_expect(eq(int, at(i)->doubt, at(i)->value == 109.0 || at(i)->value == 280.0),
                          "day %zu, %g", k, at(i)->value);
        }
}

/* A weight without fruits, and fruits that weigh nothing. */
Test(record, something_of_one_and_nothing_of_the_other_are_both_doubted)
{
    know_the_crop();
    cr_assert(eq(int,
                 read_text(HEADER "2026-06-01,slicers,picked_kg,11,,,\n"
                                  "2026-06-01,slicers,picked_fruits,0,,,\n"
                                  "2026-06-05,slicers,picked_kg,0,,,\n"
                                  "2026-06-05,slicers,picked_fruits,60,,,\n"
                                  "2026-06-09,slicers,picked_kg,0,,,\n"
                                  "2026-06-09,slicers,picked_fruits,0,,,\n"),
                 VH_OK));
    for (size_t i = 0; i < 6; i++)
        cr_assert(eq(int, at(i)->doubt, i < 4), "row %zu", i);
    cr_assert(is_told(VH_WARNING, 2, "with 11 kg and 0 fruits picked that day"));
}

Test(record, a_count_far_from_what_the_planting_has_is_doubted)
{
    struct vh_fruits_rule four = {.first_truss = 1, .fruits = 4.0, .until = INT64_MAX};

    know_the_crop();
    house.planting[0].crop = NULL; /* its clock would ask which trusses there can be */
    house.planting[0].policy.fruits = &four;
    house.planting[0].policy.fruits_rules = 1;
    const enum vh_status status = read_text(HEADER "2026-06-01,slicers,fruits_left,0.4,1,6,\n"
                                                   "2026-06-02,slicers,fruits_left,0,2,6,\n"
                                                   "2026-06-03,slicers,fruits_left,1,3,6,\n"
                                                   "2026-06-04,slicers,fruits_set,48,1,6,\n"
                                                   "2026-06-05,slicers,fruits_set,0.5,2,6,\n"
                                                   "2026-06-06,slicers,fruit_g,900,,20,\n"
                                                   "2026-06-07,slicers,fruit_g,110,,20,\n"
                                                   "2026-06-08,slicers,picked_kg,12,,,\n"
                                                   "2026-06-08,slicers,unmarketable_kg,10,,,\n"
                                                   "2026-06-09,slicers,unmarketable_kg,10,,,\n");
    house.planting[0].policy.fruits = NULL;
    house.planting[0].policy.fruits_rules = 0;
    cr_assert(eq(int, status, VH_OK));
    for (size_t i = 0; i < house.records.rows; i++)
        cr_assert(eq(int, at(i)->doubt, i == 0 || i == 3 || i == 5 || i == 8), "row %zu", i);
    cr_assert(
        is_told(VH_WARNING, 2, "and the plan leaves 4 on that truss; it hardly counts: mend"));
}

/* Half of a pick may be thrown away after a hot spell, and may be a slip: it is asked, and
 * believed; a tenth is not asked, nor is the first once another follows. */
Test(record, much_thrown_away_of_a_pick_is_asked_and_believed)
{
    const char *const picked = HEADER "2026-06-08,slicers,picked_kg,11.5,,,\n";
    char text[400];

    for (int later = 1; later >= 0; later--) {
        snprintf(text, sizeof text, "%s2026-06-08,slicers,unmarketable_kg,6,,,\n%s", picked,
                 later ? "2026-06-12,slicers,picked_kg,12,,,\n"
                         "2026-06-12,slicers,unmarketable_kg,1.1,,,\n"
                       : "");
        cr_assert(eq(int, read_text(text), VH_OK));
        for (size_t i = 0; i < house.records.rows; i++)
            cr_expect(eq(int, at(i)->doubt, 0));
        cr_expect(eq(int, later == 0,
                     is_told(VH_WARNING, 3,
                             "unmarketable_kg of slicers is 6 of the 11.5 picked that day; is 6 "
                             "right?")));
    }
}

/* The next promise counts on it, so it is asked; once another pick follows it is not. */
Test(record, a_last_pick_far_below_the_usual_is_questioned_and_believed)
{
    cr_assert(eq(int, read_text(USUAL "2026-06-15,slicers,picked_kg,2.4,,,\n"), VH_OK));
    cr_assert(eq(int, at(4)->low, 1));
    cr_assert(eq(int, at(4)->doubt, 0));
    cr_assert(is_told(VH_WARNING, 6, "you usually pick 21.5 to 27.0; is 2.4 right?"));
    cr_assert(eq(int,
                 read_text(USUAL "2026-06-15,slicers,picked_kg,2.4,,,\n"
                                 "2026-06-19,slicers,picked_kg,22,,,\n"),
                 VH_OK));
    for (size_t i = 0; i < house.records.rows; i++)
        cr_assert(eq(int, at(i)->low, 0));
}

Test(record, a_stem_that_shrinks_or_shoots_up_is_doubted_alone)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-06-01,slicers,stem_cm,200,,5,\n"
                                  "2026-06-08,slicers,stem_cm,225,,5,\n"
                                  "2026-06-15,slicers,stem_cm,25,,5,\n"
                                  "2026-06-22,slicers,stem_cm,270,,5,\n"
                                  "2026-06-29,slicers,stem_cm,2900,,5,\n"
                                  "2026-07-06,slicers,stem_cm,315,,5,\n"),
                 VH_OK));
    for (size_t i = 0; i < 6; i++)
        cr_assert(eq(int, at(i)->doubt, i == 2 || i == 4), "row %zu", i);
}

Test(record, rows_after_today_and_rows_twice_are_counted_and_not_used)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-20,slicers,picked_kg,12,,,\n"
                                  "2026-07-10,slicers,picked_kg,12,,,\n"
                                  "2026-07-10,slicers,picked_kg,12,,,\n"
                                  "2026-07-10,slicers,fruits_left,3,,,\n"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 1));
    cr_assert(is_told(VH_WARNING, 2, "rows after today: 1"));
    cr_assert(is_told(VH_WARNING, 4, "rows equal to an earlier row: 1"));
    cr_assert(is_told(VH_WARNING, 5, "rows of one truss without its number: 1"));
}

/* Twice in the file, `right` behind one of the two: it holds for what is kept. */
Test(record, right_behind_a_copy_holds)
{
    static const char *const notes[][2] = {{"right", ""}, {"", "right"}, {"right", "right"}};

    for (size_t i = 0; i < sizeof notes / sizeof notes[0]; i++) {
        char text[200];
        snprintf(text, sizeof text,
                 HEADER "2026-07-10,slicers,picked_kg,12,,,%s\n"
                        "2026-07-10,slicers,picked_kg,12,,,%s\n",
                 notes[i][0], notes[i][1]);
        cr_assert(eq(int, read_text(text), VH_OK));
        cr_assert(eq(sz, house.records.rows, 1));
        cr_expect(at(0)->sure, "%s", text);
    }
}

Test(record, picks_are_sums_since_the_last_entry)
{
    struct vh_record_picks *p;
    size_t n;

    cr_assert(eq(int,
                 read_text(HEADER "2026-05-05,slicers,picked_kg,5,,,\n"
                                  "2026-05-08,slicers,picked_kg,6,,,\n"
                                  "2026-05-08,slicers,picked_kg,2,,,plums' crate\n"
                                  "2026-05-08,slicers,picked_fruits,40,,,\n"
                                  "2026-05-12,slicers,picked_kg,0,,,\n"
                                  "2026-06-02,slicers,picked_kg,30,,,\n"),
                 VH_OK));
    cr_assert(eq(int, vh_record_picks_of(&house.records, 0, day("2026-02-20"), &p, &n), VH_OK));
    cr_assert(eq(sz, n, 4));
    cr_assert(eq(i64, p[0].from, day("2026-05-02"))); /* usually 4 days lie between two entries */
    cr_assert(eq(i64, p[1].from, day("2026-05-06")));
    cr_assert(eq(dbl, p[1].kg, 8));
    cr_assert(eq(dbl, p[1].fruits, 40));
    cr_assert(eq(dbl, p[2].kg, 0)); /* nothing ripe: zero, not unknown */
    cr_assert(isnan(p[2].fruits));
    cr_assert(eq(i64, p[3].from, day("2026-05-13")));
    cr_assert(eq(int, p[3].gap, 1)); /* an entry may be missing */
    cr_assert(eq(int, p[3].kg_doubt, 0));
    cr_assert(eq(i64, p[3].stands_from, day("2026-05-30")));
    cr_assert(eq(int, p[1].gap, 0));
    cr_assert(eq(i64, p[1].stands_from, day("2026-05-06")));
    cr_assert(
        eq(dbl, vh_record_picked_kg(&house.records, 0, day("2026-05-04"), day("2026-05-10")), 13));
    cr_assert(isnan(vh_record_picked_kg(&house.records, 0, day("2026-05-18"), day("2026-05-24"))));
    free(p);
    cr_assert(eq(int, vh_record_picks_of(&house.records, 1, day("2026-02-20"), &p, &n), VH_OK));
    cr_assert(eq(sz, n, 0));
}

Test(record, a_first_pick_never_reaches_before_set_out)
{
    struct vh_record_picks *p;
    size_t n;

    cr_assert(eq(int, read_text(HEADER "2026-02-22,slicers,picked_kg,5,,,\n"), VH_OK));
    cr_assert(eq(int, vh_record_picks_of(&house.records, 0, day("2026-02-20"), &p, &n), VH_OK));
    cr_assert(eq(i64, p[0].from, day("2026-02-20")));
    free(p);
}

Test(record, work_done_takes_the_place_of_the_plan)
{
    cr_assert(eq(int,
                 read_text(HEADER "2026-07-03,slicers,done_sucker,1,,,\n"
                                  "2026-07-10,slicers,done_sucker,0,,,\n"
                                  "2026-07-10,slicers,done_sucker,0.5,,,\n"
                                  "2026-07-04,slicers,lowered_cm,40,,,\n"
                                  "2026-07-11,slicers,lowered_cm,0,,,\n"
                                  "2026-07-05,slicers,fruits_left,3,12,,\n"
                                  "2026-07-05,slicers,minutes_leaf,30,,,\n"),
                 VH_OK));
    const struct vh_done *done = house.planting[0].policy.done;
    cr_assert(done != NULL);
    cr_assert(eq(dbl, vh_done_share(done, VH_TASK_SUCKER, day("2026-07-03"), 0), 1));
    cr_assert(eq(dbl, vh_done_share(done, VH_TASK_SUCKER, day("2026-07-10"), 1), 0.5));
    cr_assert(eq(dbl, vh_done_share(done, VH_TASK_LOWER, day("2026-07-11"), 1), 0));
    cr_assert(eq(dbl, vh_done_share(done, VH_TASK_LOWER, day("2026-07-04"), 1), 1));
    cr_assert(eq(sz, done->lowered_rows, 1));
    cr_assert(eq(dbl, done->lowered[0].cm, 40));
    cr_assert(eq(int, done->fruits[0].truss, 12));
    cr_assert(eq(dbl, done->minutes[0].minutes, 30));
    cr_assert(eq(i64, done->last_day, day("2026-07-11")));
    cr_assert(eq(int, house.planting[1].policy.done->any, 0));
}

Test(record, more_stems_looked_at_narrow_what_differs_between_stems_alone)
{
    const struct vh_record_params *p = &params->record;
    struct vh_record a = {.item = VH_RECORD_FLOWERING_TRUSS, .value = 14, .of = 1}, b = a;

    b.of = 100;
    cr_assert(lt(dbl, 2 * vh_record_sd(p, &b), vh_record_sd(p, &a)));
    cr_assert(lt(dbl, p->error[VH_RECORD_FLOWERING_TRUSS].own, vh_record_sd(p, &b)));
    a.of = 0; /* silent: as many as the parameter says */
    b.of = (int)p->stems_silent;
    cr_assert(ieee_ulp_eq(dbl, vh_record_sd(p, &a), vh_record_sd(p, &b), 2));
    a.item = VH_RECORD_PICKED_KG;
    b = a;
    b.of = 100;
    cr_assert(eq(dbl, vh_record_sd(p, &a), vh_record_sd(p, &b)));
    a.item = VH_RECORD_DONE;
    cr_assert(isnan(vh_record_sd(p, &a)));
}

Test(record, entries_as_frequent_as_the_plan_are_its_pick_days)
{
    const struct vh_planting *p = &house.planting[0];

    house.planting[0].policy.pick = (struct vh_rhythm){.every_d = 5};
    cr_assert(eq(int,
                 read_text(HEADER "2026-04-20,slicers,flowering_truss,5,,,\n"
                                  "2026-05-05,slicers,picked_kg,5,,,\n"
                                  "2026-05-09,slicers,picked_kg,6,,,\n"
                                  "2026-05-14,slicers,picked_kg,6,,,\n"
                                  "2026-05-18,slicers,picked_kg,6,,,\n"
                                  "2026-05-27,slicers,picked_kg,9,,,\n"),
                 VH_OK));
    const char *const picked[] = {"2026-05-05", "2026-05-09", "2026-05-14", "2026-05-18",
                                  "2026-05-21", /* of the plan: nine days were too long */
                                  "2026-05-26", "2026-05-27", "2026-06-01", "2026-06-06"};
    size_t k = 0;
    /* a rhythm from 1 April on: but she noted a flower on 20 April, and no pick until May */
    for (int64_t d = day("2026-04-20"); d <= day("2026-06-08"); d++) {
        const bool wanted = k < sizeof picked / sizeof *picked && d == day(picked[k]);
        k += wanted;
        cr_expect(eq(int, vh_pick_planned(&p->policy, day("2026-04-01"), d), wanted),
                  "day %lld after 20 April", (long long)(d - day("2026-04-20")));
    }
    cr_expect(vh_pick_planned(&p->policy, day("2026-04-01"), day("2026-04-16")));
}

/* She looked on the 9th and wrote 0: nothing came off, and what is ripe waits for the 14th. */
Test(record, nothing_picked_is_no_pick_day)
{
    struct vh_planting *p = &house.planting[0];

    p->policy.pick = (struct vh_rhythm){.every_d = 5};
    cr_assert(eq(int,
                 read_text(HEADER "2026-05-05,slicers,picked_kg,5,,,\n"
                                  "2026-05-09,slicers,picked_kg,0,,,\n"
                                  "2026-05-14,slicers,picked_kg,6,,,\n"),
                 VH_OK));
    for (int64_t d = day("2026-05-05"); d <= day("2026-05-14"); d++)
        cr_expect(eq(int, vh_pick_planned(&p->policy, day("2026-04-01"), d),
                     d == day("2026-05-05") || d == day("2026-05-14")),
                  "day %lld of May", (long long)(d - day("2026-04-30")));
}

/* Twice the usual time lies before a 0: no pick of the plan was made in it, for nothing came of
 * any. After longer an entry may be missing. */
Test(record, nothing_picked_in_a_long_time_is_no_pick_of_the_plan)
{
    struct vh_planting *p = &house.planting[0];

    p->policy.pick = (struct vh_rhythm){.every_d = 3};
    for (int late = 0; late <= 1; late++) {
        cr_assert(eq(int,
                     read_text(late ? HEADER "2026-05-02,slicers,picked_kg,5,,,\n"
                                             "2026-05-05,slicers,picked_kg,5,,,\n"
                                             "2026-05-08,slicers,picked_kg,5,,,\n"
                                             "2026-05-17,slicers,picked_kg,0,,,\n"
                                    : HEADER "2026-05-02,slicers,picked_kg,5,,,\n"
                                             "2026-05-05,slicers,picked_kg,5,,,\n"
                                             "2026-05-08,slicers,picked_kg,5,,,\n"
                                             "2026-05-14,slicers,picked_kg,0,,,\n"),
                     VH_OK));
        int picks = 0;
        for (int64_t d = day("2026-05-09"); d <= day(late ? "2026-05-17" : "2026-05-14"); d++)
            picks += vh_pick_planned(&p->policy, day("2026-04-01"), d);
        cr_expect(eq(int, picks, late ? 2 : 0));
    }
}

Test(record, one_weighing_of_several_picks_leaves_the_plan)
{
    house.planting[0].policy.pick = (struct vh_rhythm){.every_d = 2};
    cr_assert(eq(int,
                 read_text(HEADER "2026-05-05,slicers,picked_kg,5,,,\n"
                                  "2026-05-12,slicers,picked_kg,6,,,\n"
                                  "2026-05-19,slicers,picked_kg,6,,,\n"),
                 VH_OK));
    cr_assert(eq(sz, house.planting[0].done.picks, 0));
}

/* ---- rare cells and headers ---- */

Test(record, blanks_around_cells_and_headers_do_not_matter)
{
    cr_assert(eq(int,
                 read_text("\n\r\n\" \tDATE \t\",planting,\"\t Item\",value,note\n"
                           "\" 2026-07-12 \",\"\tslicers \",\" Picked_KG \",\"\t12.5 \t\",\n"
                           "2026-07-13,slicers,picked_kg,\" \t \",\n"),
                 VH_OK),
              "%s", vh_messages_count(messages) ? vh_messages_at(messages, 0)->text : "");
    cr_assert(eq(sz, house.records.rows, 1));
    cr_assert(eq(dbl, at(0)->value, 12.5));
}

Test(record, a_date_may_have_the_time_of_day_behind_it)
{
    cr_assert(eq(int, read_text(HEADER "2026-07-12T23:30,slicers,picked_kg,12.5,,,\n"), VH_OK));
    cr_assert(eq(i64, at(0)->day, day("2026-07-12")));
}

/* Each row alone, with a part of the one complaint. */
Test(record, rare_cells_are_refused)
{
    static const struct {
        const char *row, *part;
    } bad[] = {
        {"2026-13-12,slicers,picked_kg,1,,,", "\"2026-13-12\" is no date"},
        {"12/7/26,slicers,picked_kg,1,,,", "write 2026-07-12 or 2026-12-07"},
        {"123456/7/26,slicers,picked_kg,1,,,", "\"123456/7/26\" is no date"},
        {"12/7,slicers,picked_kg,1,,,", "\"12/7\" is no date"},
        {"12/7.26,slicers,picked_kg,1,,,", "\"12/7.26\" is no date"},
        {"12x7x26,slicers,picked_kg,1,,,", "\"12x7x26\" is no date"},
        {"12/x/26,slicers,picked_kg,1,,,", "\"12/x/26\" is no date"},
        {"12/7/26 10:00,slicers,picked_kg,1,,,", "write 2026-07-12 or 2026-12-07"},
        {"12/7/26x,slicers,picked_kg,1,,,", "\"12/7/26x\" is no date"},
        {",slicers,picked_kg,1,,,", "the date is missing"},
        {"2026-07-12,,picked_kg,1,,,", "the planting is missing"},
        {"2026-07-12,slicers,,1,,,", "the item is missing"},
        {"2026-07-12,slicers,fruits_left,1,x,,", "`truss` is x"},
        {"2026-07-12,slicers,fruits_left,1,0,,", "`truss` is 0"},
        {"2026-07-12,slicers,fruits_left,1,1001,,", "`truss` is 1001"},
        {"2026-07-12,slicers,fruits_left,1,1.5,,", "`truss` is 1.5"},
        {"2026-07-12,slicers,1st pick?,1,,,", "no item is called `1st pick?`"},
        {"2026-07-12,slicers,picked_[kg,1,,,", "no item is called `picked_[kg`"},
        {"2026-07-12,slicers,PICKED_QQQQQQQQ,1,,,", "no item is called `PICKED_QQQQQQQQ`"},
        {"2026-07-12,slicers,picked_kg,31lb,,,", "no number; write 31 as picked_lb"},
        {"2026-07-12,slicers,picked_kg,31.5 LBS,,,", "no number; write 31.5 as picked_lb"},
        {"2026-07-12,slicers,picked_kg,31kg,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,31 stone,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,31 kilograms,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,31 fruits,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,lots,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,31 l2,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_fruits,lots,,,", "digits alone, as in 12,"},
        {"2026-07-12,slicers,minutes_pick,31lb,,,", "digits alone, as in 12.5"},
        {"2026-07-12,slicers,picked_kg,nothing,,,", "write 0 for none"},
    };

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        char text[300];
        vh_messages_free(messages);
        messages = vh_messages_create();
        snprintf(text, sizeof text, HEADER "%s\n", bad[i].row);
        cr_expect(eq(int, read_text(text), VH_BAD_INPUT), "%s", text);
        cr_expect(eq(sz, vh_messages_count(messages), 1), "%s", text);
        cr_expect(is_told(VH_ERROR, 2, bad[i].part), "%s: %s", text,
                  vh_messages_at(messages, 0)->text);
    }
}

Test(record, rare_headers)
{
    static const struct {
        const char *text, *part;
    } bad[] = {
        {"date,item,value\n2026-07-12,picked_kg,1\n", "no column `planting`"},
        {"day,planting,item,value\n2026-07-12,slicers,picked_kg,1\n", "no column `date`"},
        {"date,planting,item\n2026-07-12,slicers,picked_kg\n", "no column `value`"},
        {"date,planting,picked_kg,picked_lb\n2026-07-12,slicers,1,\n", "hold the same"},
        {"date,planting,minutes_lower,minutes_lower\n2026-07-12,slicers,1,\n", "hold the same"},
        {"date,date,planting,item,value\n2026-07-12,,slicers,picked_kg,1\n", "hold the same"},
        {"\n\n", "nothing but blanks"},
    };
    char text[400];

    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        cr_expect(eq(int, read_text(bad[i].text), VH_BAD_INPUT), "%s", bad[i].text);
        cr_expect(is_told(VH_ERROR, 0, bad[i].part), "%s", bad[i].text);
    }
    /* two tasks, two notes, a column without a name, one far too long */
    snprintf(text, sizeof text, "date,planting,minutes_lower,minutes_pick,note,note,,%0100d\n%s", 0,
             "2026-07-12,slicers,10,20,,,,\n");
    cr_assert(eq(int, read_text(text), VH_OK));
    cr_assert(eq(sz, house.records.rows, 2));
    cr_assert(ne(int, at(0)->task, at(1)->task));
    cr_assert(eq(int,
                 read_text("date,planting,item,value,,also\n2026-07-12,slicers,picked_kg,1,,\n"),
                 VH_OK));
    cr_expect(is_told(VH_WARNING, 1, "column `also` is none of ours"));
    map("also_mine", "also"); /* a line of the map that names no column of ours */
    cr_assert(eq(int, read_text("date,planting,item,value,also\n2026-07-12,slicers,picked_kg,1,\n"),
                 VH_OK));
    map("picked_kg", "Harvest"); /* an item's word of hers that has not come yet */
    cr_assert(eq(int, read_text("date,planting,item,value,also\n2026-07-12,slicers,stem_cm,1,\n"),
                 VH_OK));
}

/* Counted by rows, however many values a row has; after today it may lie after the pull-out too. */
Test(record, wide_rows_after_today)
{
    cr_assert(eq(int,
                 read_text("date,planting,picked_kg,stem_cm\n2026-08-01,slicers,10,200\n"
                           "2026-12-01,slicers,10,200\n"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 0));
    cr_expect(is_told(VH_WARNING, 0, "rows after today: 2 (last at line 3)"), "%s",
              vh_messages_count(messages) ? vh_messages_at(messages, 0)->text : "");
}

Test(record, a_file_that_is_gone_is_told)
{
    house.records.file.path = strdup("/nowhere/records.csv");
    cr_expect(eq(int, vh_records_read(&house, &params->record, NULL, messages), VH_BAD_INPUT));
    cr_expect(is_told(VH_ERROR, 0, "there is no such file"));
}

Test(record, a_new_file_has_her_names)
{
    map("date", "Day");
    map("value", "How much, or \"many\"");
    map("value", "Amount; all");
    char *const header = vh_record_new_header(house.records.map, 3);
    cr_assert(eq(str, header, "Day,planting,item,\"Amount; all\",truss,of,note\n"));
    free(header);
}

/* What differs in one thing alone is no repetition. */
Test(record, what_stands_twice_is_the_same_in_all)
{
    static char text[30000] = "date,planting,item,value,truss,of\n";
    size_t n = strlen(text);

    cr_assert(eq(int,
                 read_text("date,planting,item,value,truss,of\n"
                           "2026-07-12,slicers,fruits_left,3,12,6\n"
                           "2026-07-11,slicers,fruits_left,3,12,6\n"
                           "2026-07-12,cucumbers,fruits_left,3,12,6\n"
                           "2026-07-12,slicers,fruits_set,3,12,6\n"
                           "2026-07-12,slicers,fruits_left,2,12,6\n"
                           "2026-07-12,slicers,fruits_left,3,11,6\n"
                           "2026-07-12,slicers,fruits_left,3,12,5\n"
                           "2026-07-12,slicers,minutes_pick,3,,\n"
                           "2026-07-12,slicers,minutes_lower,3,,\n"),
                 VH_OK));
    cr_assert(eq(sz, house.records.rows, 9));
    /* a copy is looked for among the 200 rows before */
    n += (size_t)snprintf(text + n, sizeof text - n, "2026-07-12,slicers,stem_cm,99,,\n");
    for (int i = 0; i < 250; i++)
        n += (size_t)snprintf(text + n, sizeof text - n, "2026-07-12,slicers,stem_cm,%d,,\n",
                              100 + i);
    snprintf(text + n, sizeof text - n,
             "2026-07-12,slicers,stem_cm,99,,\n"
             "2026-07-12,slicers,stem_cm,99,,\n");
    cr_assert(ge(int, read_text(text), VH_OK));
    cr_assert(eq(sz, house.records.rows, 252));
}

Test(record, heads_that_come_later_count_among_the_stems)
{
    struct vh_head_change later = {.heads_per_plant = 2};

    house.planting[0].policy.heads = &later;
    house.planting[0].policy.head_changes = 1;
    const enum vh_status status = read_text(
        HEADER "2026-07-12,slicers,stem_cm,100,,96,\n2026-07-13,slicers,stem_cm,100,,97,\n");
    house.planting[0].policy.heads = NULL;
    house.planting[0].policy.head_changes = 0;
    cr_expect(eq(int, status, VH_BAD_INPUT));
    cr_expect(is_told(VH_ERROR, 3, "`of` is 97"));
    cr_expect(eq(sz, vh_messages_count_of(messages, VH_ERROR), 1));
}

/* Asked for again on each day after it, as long as the parameter says. */
Test(record, what_was_left_undone_is_asked_for_until_it_is_given_up)
{
    static const char text[] = HEADER "2026-07-06,slicers,done_sucker,0,,,\n";
    struct vh_record_params p = params->record;
    const int64_t undone = day("2026-07-06");

    for (int days = 3; days < 15; days++) {
        p.given_up_d = (double)days;
        cr_assert(eq(int, vh_records_read_memory(&house, &p, text, strlen(text), messages), VH_OK));
        const struct vh_done *done = &house.planting[0].done;
        cr_expect(eq(i64, vh_done_again(done, VH_TASK_SUCKER, undone + days), undone + days));
        cr_expect(eq(i64, vh_done_again(done, VH_TASK_SUCKER, undone + days + 1), INT64_MAX));
    }
}

/* The mean of whole numbers on stems whose clocks lie anywhere within the two trusses about it. */
Test(record, whole_trusses_are_counted_half_a_truss_behind_the_clock)
{
    enum { STEMS = 1000 };

    for (double clock = 2.0; clock < 3.0; clock += 0.125) {
        double sum = 0.0;
        for (int i = 0; i < STEMS; i++)
            sum += floor(clock + (i + 0.5) / STEMS - 0.5);
        cr_expect(epsilon_eq(dbl, vh_record_counted_truss(clock), sum / STEMS, 1e-2));
    }
    cr_expect(eq(dbl, vh_record_counted_truss(0.2), 0.0));
    cr_expect(isnan(vh_record_counted_truss(NAN)));
}

/* Each item but minutes and done ends in "_" and its unit or what is counted, for which another
 * unit is put where a number has its own: "31lb" of picked_kg is answered with picked_lb. */
Test(record, each_item_ends_in_what_it_is_counted_in)
{
    for (int item = 0; item < VH_RECORD_MINUTES; item++) {
        const char *name = vh_item_kind((enum vh_record_item)item)->name, *own = strrchr(name, '_');
        cr_expect(own != NULL && own > name && own[1] != '\0', "%s", name);
    }
}
