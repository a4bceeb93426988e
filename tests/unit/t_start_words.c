/* What people type when they start a house: each way that the questions promise to understand, and
 * what is no answer. Inches and feet: 12 to a foot, a foot 0.3048 m (NIST Special Publication 811,
 * 2008, appendix B.8). */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <string.h>

#include "vh_start.h"

#define CLOSE 1e-9 /* of a number that was typed */

static struct vh_start_answers a;
static char why[VH_START_WHY];

static void start(void)
{
    int64_t today;

    cr_assert(vh_date_parse("2026-07-14", &today) == VH_OK);
    vh_start_nothing(&a, today, VH_SAY_METRIC);
}

TestSuite(start_words, .init = start);

static bool reads(enum vh_start_question q, const char *text)
{
    why[0] = 0;
    return vh_start_read(q, text, &a, why);
}

static void refused(enum vh_start_question q, const char *const *text)
{
    for (; *text; text++) {
        cr_expect(reads(q, *text) == false, "%s is taken", *text);
        cr_expect(strncmp(why, "write ", 6) == 0, "%s: %s", *text, why);
    }
}

Test(start_words, a_wire_in_every_unit)
{
    static const struct {
        const char *text;
        double value;
        bool us;
    } wire[] = {{"2.2", 2.2, false},   {"2,2 m", 2.2, false},       {"220 cm", 2.2, false},
                {"84 in", 7.0, true},  {"7 feet", 7.0, true},       {"7'", 7.0, true},
                {"7' 6\"", 7.5, true}, {" 7  FT 6 in ", 7.5, true}, {"7 foot 3", 7.25, true}};
    static const char *const no[] = {"0.9 m",  "8.1",  "7 yards", "7 ft 12 in",
                                     "7 ft x", "high", NULL};

    for (size_t i = 0; i < sizeof wire / sizeof wire[0]; i++) {
        cr_expect(reads(VH_START_WIRE, wire[i].text), "%s", wire[i].text);
        cr_expect(fabs(a.wire - wire[i].value) < CLOSE && a.wire_us == wire[i].us, "%s: %g",
                  wire[i].text, a.wire);
    }
    refused(VH_START_WIRE, no);
}

Test(start_words, a_latitude_with_minutes_seconds_and_side)
{
    static const struct {
        const char *text;
        double deg;
    } latitude[] = {{"44.5", 44.5},
                    {"44 30 N", 44.5},
                    {"44\xC2\xB0"
                     "30\xE2\x80\xB2N",
                     44.5},
                    {"44 deg 30' 36\" s", -44.51},
                    {"-33", -33.0},
                    {"+33", 33.0},
                    {"33 south", -33.0}};
    static const char *const no[] = {"66.1", "44 60 N", "-33 S", "44 e", "here", NULL};

    for (size_t i = 0; i < sizeof latitude / sizeof latitude[0]; i++) {
        cr_expect(reads(VH_START_LATITUDE, latitude[i].text), "%s", latitude[i].text);
        cr_expect(fabs(a.latitude_deg - latitude[i].deg) < CLOSE, "%s: %g", latitude[i].text,
                  a.latitude_deg);
    }
    refused(VH_START_LATITUDE, no);
}

Test(start_words, a_heater_in_either_scale_and_none)
{
    static const char *const no[] = {"-1 C", "30.1 c", "31 F", "13 k", "warm", "-", NULL};

    cr_expect(reads(VH_START_HEAT, "no heater") && a.knows_heat && !a.heated);
    cr_expect(reads(VH_START_HEAT, "13 deg C") && a.heated && !a.heat_us && a.heat == 13.0);
    cr_expect(reads(VH_START_HEAT, "55F") && a.heated && a.heat_us && a.heat == 55.0);
    cr_expect(reads(VH_START_HEAT, "+12") && !a.heat_us && a.heat == 12.0);
    a.units = VH_SAY_US;
    cr_expect(reads(VH_START_HEAT, "55") && a.heat_us);
    a.units = VH_SAY_METRIC;
    refused(VH_START_HEAT, no);
}

Test(start_words, a_day_by_its_name_near_today)
{
    static const struct {
        const char *text, *date;
    } day[] = {{"2026-05-15", "2026-05-15"}, {"15 May", "2026-05-15"},
               {"may 15th", "2026-05-15"},   {"mid-May", "2026-05-15"},
               {"early may", "2026-05-05"},  {"late sept", "2026-09-25"},
               {"1 dec", "2026-12-01"},      {"15 jan", "2026-01-15"},
               {"16 jan", "2026-01-16"},     {"today", "2026-07-14"}};
    static const char *const no[] = {"5/6",   "31 feb", "32 may",     "0 may",   "15 moo",
                                     "15 ma", "may",    "2020-01-01", "xth may", NULL};

    for (size_t i = 0; i < sizeof day / sizeof day[0]; i++) {
        char said[11] = "";

        cr_expect(reads(VH_START_SET_OUT, day[i].text), "%s", day[i].text);
        vh_date_format(a.set_out, said);
        cr_expect(strcmp(said, day[i].date) == 0, "%s: %s", day[i].text, said);
    }
    refused(VH_START_SET_OUT, no);
}

Test(start_words, market_days_in_any_number)
{
    static const bool wed_sat[7] = {false, false, true, false, false, true, false};
    static const char *const same[] = {"wed, sat", "Saturdays and wednesday", "sat+wed",
                                       "wed & sat"};
    static const char *const no[] = {"saturn", "wed or so", "sa", ",", NULL};

    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        cr_expect(reads(VH_START_MARKET, same[i]), "%s", same[i]);
        cr_expect(memcmp(a.market, wed_sat, sizeof wed_sat) == 0, "%s", same[i]);
    }
    cr_expect(reads(VH_START_MARKET, "none"));
    refused(VH_START_MARKET, no);
}

Test(start_words, a_crop_and_its_plants_in_either_order)
{
    static const char *const either[] = {"48 eggplants", "eggplants 48", " Eggplant  48"};
    static const char *const no[] = {"0 tomatoes", "tomatoes48", "1234567 tomatoes",
                                     "48 pineapples", NULL};

    for (size_t i = 0; i < sizeof either / sizeof either[0]; i++) {
        a.plants = 0;
        a.crop = NULL;
        cr_expect(reads(VH_START_CROP, either[i]) && a.plants == 48, "%s: %d", either[i], a.plants);
        cr_expect(a.crop && strcmp(a.crop->name, "aubergine-large") == 0, "%s", either[i]);
    }
    refused(VH_START_CROP, no);
    cr_expect(vh_start_read_plants("36", &a, why) && a.plants == 36);
    cr_expect(vh_start_read_plants("?", &a, why) && a.plants == 36);
    cr_expect(vh_start_read_plants("3.5", &a, why) == false);
    cr_expect(eq(str, why, (char *)"write a whole number of plants, as in 48"));
}

Test(start_words, what_is_not_known_is_an_answer_and_what_is_too_long_is_none)
{
    static const char *const no[] = {"imperial", "a long story about which units were used here",
                                     NULL};

    for (int q = 0; q < VH_START_QUESTIONS; q++)
        cr_expect(reads((enum vh_start_question)q, " Don't  know "), "question %d", q);
    cr_expect(isnan(a.wire) && isnan(a.latitude_deg) && !a.crop && !a.cover && !a.knows_heat);
    refused(VH_START_UNITS, no);
    cr_expect(eq(str, why, (char *)"write metric or us"));
    cr_expect(reads(VH_START_UNITS, "pounds") && a.units == VH_SAY_US);
    cr_expect(reads(VH_START_COVER, "two layers of film") && strcmp(a.cover, "film-double") == 0);
}
