/* Numbers, dates and words as people read them. Rules: how DEVELOPERS.md says numbers are shown. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_say.h"
#include "vinehand.h"

static const char *amount(double value)
{
    static char said[VH_SAY_ROOM];

    vh_say_amount(value, said);
    return said;
}

static const char *season(double value)
{
    static char said[VH_SAY_ROOM];

    vh_say_season_much(value, false, said);
    return said;
}

Test(say, amounts_are_whole_with_one_decimal_under_ten_and_tens_from_a_thousand)
{
    cr_expect(eq(str, (char *)amount(9.94), "9.9"));
    cr_expect(eq(str, (char *)amount(9.96), "10"));
    cr_expect(eq(str, (char *)amount(0.0), "0")); /* never 0.0: it is none, and says so alone */
    cr_expect(eq(str, (char *)amount(0.049), "0"));
    cr_expect(eq(str, (char *)amount(0.051), "0.1"));
    cr_expect(eq(str, (char *)amount(41.4), "41"));
    cr_expect(eq(str, (char *)amount(893.0), "893"));
    cr_expect(eq(str, (char *)amount(1146.0), "1 150"));
    cr_expect(eq(str, (char *)amount(1234567.0), "1 234 570"));
    cr_expect(eq(str, (char *)amount((double)NAN), ""));
    cr_expect(eq(str, (char *)season(893.0), "890"));
    cr_expect(eq(str, (char *)season(99.4), "99"));
}

/* One rule for screen and pages: down, to what is said of it; nobody sells parts of a cucumber. */
Test(say, what_is_safe_is_rounded_down_to_the_digit_that_is_said)
{
    static const struct {
        double value;
        bool pieces;
        const char *said;
    } safe[] = {{8.99, false, "8.9"}, {8.9, false, "8.9"}, {10.96, false, "10"},
                {9.96, false, "9.9"}, {0.09, false, "0"},  {1009.0, false, "1 000"},
                {7.6, true, "7"},     {0.9, true, "0"},    {59.99, true, "59"},
                {0.3, false, "0.3"},  {1.1, false, "1.1"}, {1996.0, true, "1 990"}};

    for (size_t i = 0; i < sizeof safe / sizeof safe[0]; i++) {
        char said[VH_SAY_ROOM];
        vh_say_much(vh_safe_amount(safe[i].value, safe[i].pieces), safe[i].pieces, said);
        cr_expect(strcmp(said, safe[i].said) == 0, "%g is said as %s, not %s", safe[i].value, said,
                  safe[i].said);
    }
    char said[VH_SAY_ROOM];
    vh_say_much((double)NAN, true, said);
    cr_expect(eq(str, said, ""));
    vh_say_much(vh_safe_amount((double)NAN, false), false, said);
    cr_expect(eq(str, said, ""));
    vh_say_season_much(7.6, true, said);
    cr_expect(eq(str, said, "8"));
}

Test(say, lengths_and_fruit_have_their_units)
{
    char said[VH_SAY_ROOM];

    vh_say_length(412.4, VH_SAY_METRIC, said);
    cr_expect(eq(str, said, "412 cm"));
    vh_say_length(254.0, VH_SAY_US, said); /* 100 inches of 2.54 cm */
    cr_expect(eq(str, said, "100 in"));
    vh_say_fruit_mass(148.6, VH_SAY_METRIC, said);
    cr_expect(eq(str, said, "149 g"));
    vh_say_fruit_mass(35.0, VH_SAY_US,
                      said); /* 1.23 oz: halves would say of all cherries the same */
    cr_expect(eq(str, said, "1.2 oz"));
    vh_say_fruit_mass(183.0, VH_SAY_METRIC, said);
    cr_expect(eq(str, said, "185 g"));
    vh_say_fruit_mass(486.0, VH_SAY_METRIC, said);
    cr_expect(eq(str, said, "490 g"));
    vh_say_fruit_mass(184.3, VH_SAY_US, said); /* 6.5 avoirdupois ounces */
    cr_expect(eq(str, said, "6.5 oz"));
    vh_say_fruit_mass((double)NAN, VH_SAY_US, said);
    cr_expect(eq(str, said, ""));
}

Test(say, pounds_and_square_feet_are_those_of_nist_sp_811)
{
    cr_expect(epsilon_eq(dbl, vh_say_lb(0.45359237), 1.0, 1e-15));
    cr_expect(epsilon_eq(dbl, vh_say_ft2(0.09290304), 1.0, 1e-14));
}

Test(say, dates_are_a_day_and_a_month_in_words)
{
    int64_t day = 0;
    char said[VH_SAY_ROOM];

    cr_assert(vh_date_parse("2026-07-04", &day) == VH_OK);
    vh_say_date((double)day, said);
    cr_expect(eq(str, said, "4 July"));
    vh_say_date_with_year((double)day, said);
    cr_expect(eq(str, said, "4 July 2026"));
    vh_say_date((double)NAN, said);
    cr_expect(eq(str, said, ""));
}

static bool block_is(const char *head, const char *text, const char *expected)
{
    char got[1000];
    FILE *f = tmpfile();
    size_t n;

    if (!f)
        return false;
    vh_say_block(f, head, 11, text);
    rewind(f);
    n = fread(got, 1, sizeof got - 1, f);
    got[n] = 0;
    fclose(f);
    if (strcmp(got, expected) != 0)
        fprintf(stderr, "is:\n%sshould be:\n%s", got, expected);
    return strcmp(got, expected) == 0;
}

Test(say, a_block_wraps_under_its_first_word_and_keeps_numbers_with_what_they_count)
{
    cr_expect(block_is("FRUIT", "slicers about 200 g", "FRUIT      slicers about 200 g\n"));
    cr_expect(block_is(
        "FRUIT", "slicers about 200 g, smallest on truss 9, 185 g; cucumbers in all about 490 g",
        "FRUIT      slicers about 200 g, smallest on truss 9, 185 g; cucumbers in all\n"
        "           about 490 g\n"));
    cr_expect(block_is("A long head of it", "word", "A long head of it word\n"));
    cr_expect(block_is("X", "", "X\n"));
}

/* 5.93 a kg x 0.45359237 kg a lb = 2.69 a lb; what is no price stays a measure */
Test(say, a_price_at_the_end_of_a_sentence_is_the_readers)
{
    static const struct {
        const char *text, *us;
    } said[] = {{"grade small above 5.93 USD a kg", "grade small above 2.69 USD a lb"},
                {"grade small above 5.93 a kg", "grade small above 2.69 a lb"},
                {"sales of a market day below 10 kg", "sales of a market day below 22.0 lb"},
                {"labour above 30.00 an hour", "labour above 30.00 an hour"},
                {"", ""}};
    char room[100];

    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        vh_say_price_in(said[i].text, VH_SAY_US, room, sizeof room);
        cr_expect(strcmp(room, said[i].us) == 0, "%s", room);
        vh_say_price_in(said[i].text, VH_SAY_METRIC, room, sizeof room);
        cr_expect(strcmp(room, said[i].text) == 0, "%s", room);
    }
}

Test(say, measures_in_a_sentence_are_the_readers)
{
    const struct {
        char *text, *us;
    } said[] = {{"over 15 cm", "over 6 in"},
                {"else a wire at 3.8 m would give room", "else a wire at 12.5 ft would give room"},
                {"19 cm, 1 turn; 2 to 5 cm", "7.5 in, 1 turn; 1 to 2 in"},
                {"12 min, 24 m2, 3 more", "12 min, 24 m2, 3 more"},
                {"0.3 kg from 15 cm under 2.4 m", "0.7 lb from 6 in under 7.9 ft"}};
    char room[200];

    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        vh_say_measures_in(said[i].text, VH_SAY_US, room, sizeof room);
        cr_expect(eq(str, room, said[i].us));
        vh_say_measures_in(said[i].text, VH_SAY_METRIC, room, sizeof room);
        cr_expect(eq(str, room, said[i].text));
    }
}

Test(say, the_nearest_word_is_offered_and_no_far_one)
{
    static const char *const words[] = {"check", "forecast", "--out", "note", NULL};

    cr_expect(eq(str, (char *)vh_nearest_word("forcast", words), "forecast"));
    cr_expect(eq(str, (char *)vh_nearest_word("chekc", words), "check"));
    cr_expect(eq(str, (char *)vh_nearest_word("--otu", words), "--out"));
    cr_expect(vh_nearest_word("harvest", words) == NULL);
    cr_expect(vh_nearest_word("a", words) == NULL);
    cr_expect(vh_nearest_word("a word longer than any that could be meant here", words) == NULL);
}

Test(say, times_are_minutes_and_from_an_hour_on_hours_and_minutes)
{
    const struct {
        double minutes;
        char *said;
    } time[] = {{25.0, "25 min"},     {59.4, "59 min"}, {59.6, "1 h"},    {80.0, "1 h 20 min"},
                {125.0, "2 h 5 min"}, {0.2, "1 min"},   {1440.0, "24 h"}, {0.0, ""},
                {(double)NAN, ""}};
    char said[VH_SAY_ROOM];

    for (size_t i = 0; i < sizeof time / sizeof time[0]; i++) {
        vh_say_time(time[i].minutes, said);
        cr_expect(eq(str, said, time[i].said));
    }
}

Test(say, a_crop_is_called_as_growers_do)
{
    static const char *const crop[][2] = {{"tomato-large", "large tomatoes"},
                                          {"cucumber-long", "long cucumbers"},
                                          {"pepper-small", "small peppers"},
                                          {"aubergine-large", "large aubergines"},
                                          {"melon", "melons"}};
    char said[VH_SAY_ROOM];

    for (size_t i = 0; i < sizeof crop / sizeof crop[0]; i++) {
        vh_say_crop(crop[i][0], said);
        cr_expect(eq(str, said, (char *)crop[i][1]));
    }
}

/* By hand: 11.17 kg make 44 packs of 250 g and 170 g more; 0.3 kg of 0.1 kg packs are three; 29
 * peppers nine packs of 3. */
Test(say, packs_are_whole)
{
    char said[VH_SAY_ROOM];

    vh_say_packs(11.17, 0.25, said);
    cr_expect(eq(str, said, "44 packs"));
    vh_say_packs(0.3, 0.1, said);
    cr_expect(eq(str, said, "3 packs"));
    vh_say_packs(0.3, 0.25, said);
    cr_expect(eq(str, said, "1 pack"));
    vh_say_packs(0.2, 0.25, said);
    cr_expect(eq(str, said, ""));
    vh_say_packs(29.0, 3.0, said);
    cr_expect(eq(str, said, "9 packs"));
    vh_say_packs((double)NAN, 0.25, said);
    cr_expect(eq(str, said, ""));
    vh_say_packs(11.17, (double)NAN, said);
    cr_expect(eq(str, said, ""));
}

static void list_is(const char *given, size_t room, const char *word, char *wanted)
{
    char list[64];

    snprintf(list, sizeof list, "%s", given);
    vh_say_list(list, room, word);
    cr_expect(eq(str, list, wanted));
}

Test(say, a_list_ends_with_its_word)
{
    list_is("slicers", 64, "or", "slicers");
    list_is("slicers, plums", 64, "or", "slicers or plums");
    list_is("slicers, plums, late plums", 64, "and", "slicers, plums and late plums");
    list_is("", 64, "and", "");
    list_is("a, b", 7, "or", "a or b");
    list_is("a, b", 6, "or", "a, b"); /* no room for one letter more */
}
