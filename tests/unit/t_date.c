/* Days, weeks, clocks and the reading of times.
 *
 * Truth: published dates where named; for the sweeps the C library's calendar, which the library
 * itself never uses.
 */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "vh_date.h"

static int64_t day(int year, int month, int day_of_month)
{
    return vh_day_from_civil((struct vh_civil){year, month, day_of_month});
}

static int64_t minute(int year, int month, int day_of_month, int hour, int min)
{
    return day(year, month, day_of_month) * 1440 + hour * 60 + min;
}

Test(date, days_count_up_one_by_one_from_1600_to_2500)
{
    const int lengths[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    int64_t expected = -135140; /* 1600-01-01: 370 years, 90 leap days before 1970 */
    for (int y = 1600; y <= 2500; y++) {
        const bool leap = (y % 4 == 0 && y % 100 != 0) || y % 400 == 0;
        int of_year = 0;
        for (int m = 1; m <= 12; m++) {
            for (int d = 1; d <= lengths[m - 1] + (m == 2 && leap); d++, expected++) {
                const struct vh_civil back = vh_civil_from_day(expected);
                cr_assert(day(y, m, d) == expected, "%d-%d-%d", y, m, d);
                cr_assert(back.year == y && back.month == m && back.day == d, "%d-%d-%d", y, m, d);
                cr_assert(vh_day_of_year(expected) == ++of_year);
            }
        }
    }
}

Test(date, days_hold_before_the_year_0)
{
    for (int64_t d = -1000000; d < -600000; d += 7) {
        const struct vh_civil c = vh_civil_from_day(d);
        cr_assert(vh_day_from_civil(c) == d && c.month >= 1 && c.month <= 12 && c.day >= 1);
    }
}

Test(date, a_date_exists_between_1900_and_2199_only)
{
    const struct vh_civil good[] = {
        {1900, 1, 1}, {2199, 12, 31}, {2000, 2, 29}, {2024, 2, 29}, {2026, 2, 28}};
    const struct vh_civil bad[] = {{1899, 12, 31}, {2200, 1, 1},  {1900, 2, 29}, {2100, 2, 29},
                                   {2026, 2, 29},  {2026, 4, 31}, {2026, 0, 1},  {2026, 13, 1},
                                   {2026, 1, 0},   {2026, 1, 32}, {-1, 1, 1}};
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        cr_expect(vh_civil_is_date(good[i]), "good %zu", i);
    }
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        cr_expect(vh_civil_is_date(bad[i]) == false, "bad %zu", i);
    }
}

Test(date, a_date_text_is_read_and_written)
{
    int64_t d = 99;
    char text[11];
    cr_expect(vh_date_parse("1970-01-01", &d) == VH_OK && d == 0);
    cr_expect(vh_date_parse("2000-03-01", &d) == VH_OK &&
              d == 11017); /* 946684800 s / 86400 + 60 */
    vh_date_format(11017, text);
    cr_expect(strcmp(text, "2000-03-01") == 0);
    vh_date_format(-1, text);
    cr_expect(strcmp(text, "1969-12-31") == 0);
    vh_date_format(INT64_MAX, text);
    cr_expect(strcmp(text, "0000-00-00") == 0);
    vh_date_format(INT64_MIN, text);
    cr_expect(strcmp(text, "0000-00-00") == 0);
}

Test(date, a_bad_date_text_is_refused_and_leaves_the_day)
{
    const char *const bad[] = {
        "",           "2026-3-1",    "2026-03-011", "2026-02-29",      "2026/03/01", "2026-03/01",
        "2026-13-01", " 2026-03-01", "2026-03-01 ", "2026-0a-01",      "+026-03-01", "1899-12-31",
        "2200-01-01", "2026-03",     "20260301",    "2026-03-01T00:00"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        int64_t d = 77;
        cr_expect(vh_date_parse(bad[i], &d) == VH_BAD_INPUT && d == 77, "\"%s\"", bad[i]);
    }
    int64_t d = 77;
    cr_expect(vh_date_parse(NULL, &d) == VH_BAD_INPUT && d == 77);
}

/* Weekdays from memory: the first days of 1900, 1970, 2000; the first landing on the moon. */
Test(date, known_weekdays_come_out)
{
    enum { MONDAY, THURSDAY = 3, SATURDAY = 5, SUNDAY };

    cr_expect(eq(int, vh_date_weekday(day(1900, 1, 1)), MONDAY));
    cr_expect(eq(int, vh_date_weekday(day(1969, 7, 20)), SUNDAY));
    cr_expect(eq(int, vh_date_weekday(day(1970, 1, 1)), THURSDAY));
    cr_expect(eq(int, vh_date_weekday(day(2000, 1, 1)), SATURDAY));
    cr_expect(eq(int, vh_date_weekday(day(2026, 3, 1)), SUNDAY));
    cr_expect(strcmp(vh_month_name(7), "July") == 0 && strcmp(vh_month_short(7), "Jul") == 0);
}

struct week_row {
    int year, month, day, week_year, week, weekday;
};

/* Examples of ISO 8601 week dates as commonly published with the standard (from memory). */
static const struct week_row week_rows[] = {
    {2005, 1, 1, 2004, 53, 6},   {2005, 1, 2, 2004, 53, 7},   {2005, 12, 31, 2005, 52, 6},
    {2006, 1, 1, 2005, 52, 7},   {2006, 1, 2, 2006, 1, 1},    {2006, 12, 31, 2006, 52, 7},
    {2007, 1, 1, 2007, 1, 1},    {2007, 12, 30, 2007, 52, 7}, {2007, 12, 31, 2008, 1, 1},
    {2008, 1, 1, 2008, 1, 2},    {2008, 12, 28, 2008, 52, 7}, {2008, 12, 29, 2009, 1, 1},
    {2009, 12, 31, 2009, 53, 4}, {2010, 1, 3, 2009, 53, 7},   {2010, 1, 4, 2010, 1, 1},
};

Test(date, published_iso_weeks_come_out)
{
    for (size_t i = 0; i < sizeof week_rows / sizeof *week_rows; i++) {
        const struct week_row *r = &week_rows[i];
        const int64_t d = day(r->year, r->month, r->day);
        int year = 0, week = 0;
        vh_date_iso_week(d, &year, &week);
        cr_expect(year == r->week_year && week == r->week, "row %zu: %d-W%d", i, year, week);
        cr_expect(vh_date_weekday(d) == r->weekday - 1, "row %zu", i);
    }
}

Test(date, every_day_from_1900_to_2199_agrees_with_the_c_library)
{
    for (int64_t d = day(1900, 1, 1); d <= day(2199, 12, 31); d++) {
        const time_t t = (time_t)(d * 86400);
        struct tm tm;
        char expected[40], date[11], got[40];
        int year = 0, week = 0;
        gmtime_r(&t, &tm);
        strftime(expected, sizeof expected, "%Y-%m-%d %G-W%V-%u %j", &tm);
        vh_date_format(d, date);
        vh_date_iso_week(d, &year, &week);
        snprintf(got, sizeof got, "%s %d-W%02d-%d %03d", date, year, week, vh_date_weekday(d) + 1,
                 vh_day_of_year(d));
        cr_assert(strcmp(got, expected) == 0, "%s, not %s", got, expected);
    }
}

/* ---- daylight saving ---- */

static int ahead(enum vh_clock_rule rule, int offset_min, int64_t wall, bool *doubled,
                 bool *missing)
{
    return vh_clock_ahead_min(rule, offset_min, wall, doubled, missing);
}

static void expect_clock(enum vh_clock_rule rule, int offset_min, int64_t wall, int expected,
                         bool expect_doubled, bool expect_missing, const char *what)
{
    bool doubled = true, missing = true;
    cr_expect(ahead(rule, offset_min, wall, &doubled, &missing) == expected, "%s", what);
    cr_expect(doubled == expect_doubled, "%s: doubled", what);
    cr_expect(missing == expect_missing, "%s: missing", what);
}

/* Dates of the change in 2026 by 15 U.S.C. 260a: 8 March and 1 November (from memory). */
Test(date, clocks_of_the_us_rule_change_at_two)
{
    const enum vh_clock_rule us = VH_CLOCK_US;
    expect_clock(us, -300, minute(2026, 3, 8, 1, 59), 0, false, false, "before");
    expect_clock(us, -300, minute(2026, 3, 8, 2, 0), 0, false, true, "missing hour begins");
    expect_clock(us, -300, minute(2026, 3, 8, 2, 59), 0, false, true, "missing hour ends");
    expect_clock(us, -300, minute(2026, 3, 8, 3, 0), 60, false, false, "after");
    expect_clock(us, -300, minute(2026, 7, 1, 12, 0), 60, false, false, "summer");
    expect_clock(us, -300, minute(2026, 11, 1, 0, 59), 60, false, false, "before");
    expect_clock(us, -300, minute(2026, 11, 1, 1, 0), 60, true, false, "doubled hour begins");
    expect_clock(us, -300, minute(2026, 11, 1, 1, 59), 60, true, false, "doubled hour ends");
    expect_clock(us, -300, minute(2026, 11, 1, 2, 0), 0, false, false, "after");
    expect_clock(us, -300, minute(2026, 12, 31, 23, 59), 0, false, false, "winter");
}

/* Dates of the change in 2026 by Directive 2000/84/EC: 29 March and 25 October (from memory). */
Test(date, clocks_of_the_eu_rule_change_at_one_utc)
{
    const enum vh_clock_rule eu = VH_CLOCK_EU;
    expect_clock(eu, 60, minute(2026, 3, 29, 1, 59), 0, false, false, "before");
    expect_clock(eu, 60, minute(2026, 3, 29, 2, 0), 0, false, true, "missing hour");
    expect_clock(eu, 60, minute(2026, 3, 29, 3, 0), 60, false, false, "after");
    expect_clock(eu, 60, minute(2026, 10, 25, 1, 59), 60, false, false, "before");
    expect_clock(eu, 60, minute(2026, 10, 25, 2, 0), 60, true, false, "doubled hour");
    expect_clock(eu, 60, minute(2026, 10, 25, 3, 0), 0, false, false, "after");
    expect_clock(eu, 0, minute(2026, 3, 29, 1, 0), 0, false, true, "west: an hour earlier");
    expect_clock(eu, 120, minute(2026, 10, 25, 3, 30), 60, true, false, "east: an hour later");
    expect_clock(eu, -60, minute(2026, 3, 29, 0, 30), 0, false, true, "islands: at midnight");
}

/* The first Sunday of April and of October 2026 are the 5th and the 4th, the last of September the 27th;
 * the rules from memory (vh_date.h). */
Test(date, clocks_of_the_south_are_ahead_over_the_turn_of_the_year)
{
    const enum vh_clock_rule au = VH_CLOCK_AU, nz = VH_CLOCK_NZ;
    expect_clock(au, 600, minute(2026, 1, 1, 0, 0), 60, false, false, "summer");
    expect_clock(au, 600, minute(2026, 4, 5, 1, 59), 60, false, false, "before");
    expect_clock(au, 600, minute(2026, 4, 5, 2, 0), 60, true, false, "doubled hour begins");
    expect_clock(au, 600, minute(2026, 4, 5, 3, 0), 0, false, false, "after");
    expect_clock(au, 600, minute(2026, 10, 4, 1, 59), 0, false, false, "before");
    expect_clock(au, 600, minute(2026, 10, 4, 2, 0), 0, false, true, "missing hour begins");
    expect_clock(au, 600, minute(2026, 10, 4, 3, 0), 60, false, false, "after");
    expect_clock(au, 600, minute(2026, 12, 31, 23, 59), 60, false, false, "summer");
    expect_clock(nz, 720, minute(2026, 9, 27, 2, 30), 0, false, true, "missing hour");
    expect_clock(nz, 720, minute(2026, 9, 27, 3, 0), 60, false, false, "after");
    expect_clock(nz, 720, minute(2026, 4, 5, 2, 30), 60, true, false, "doubled hour");
}

Test(date, without_a_rule_no_clock_is_ahead)
{
    expect_clock(VH_CLOCK_STANDARD, 60, minute(2026, 7, 1, 12, 0), 0, false, false, "summer");
    expect_clock(VH_CLOCK_STANDARD, 60, minute(2026, 3, 8, 2, 30), 0, false, false, "us hour");
}

/* Each half hour of 30 years through the C library with the rule spelled out in POSIX form. */
static void agree_with_c_library(const char *zone, enum vh_clock_rule rule, int offset_min)
{
    setenv("TZ", zone, 1);
    tzset();
    int doubled_n = 0, missing_n = 0;
    for (int64_t utc = minute(2010, 1, 1, 12, 0); utc < minute(2040, 1, 1, 0, 0); utc += 30) {
        const time_t t = (time_t)(utc * 60);
        struct tm tm;
        bool doubled = false, missing = false;
        localtime_r(&t, &tm);
        const int64_t wall =
            minute(tm.tm_year + 1900, tm.tm_mon + 1, tm.tm_mday, tm.tm_hour, tm.tm_min);
        const int got = ahead(rule, offset_min, wall, &doubled, &missing);
        cr_assert(missing == false, "a clock that was shown does exist");
        cr_assert(doubled || got == (tm.tm_isdst > 0 ? 60 : 0), "%s, minute %lld", zone,
                  (long long)utc);
        doubled_n += doubled;
    }
    for (int64_t wall = minute(2010, 1, 1, 0, 0); wall < minute(2040, 1, 1, 0, 0); wall += 30) {
        bool doubled = false, missing = false;
        ahead(rule, offset_min, wall, &doubled, &missing);
        missing_n += missing;
    }
    cr_expect(eq(int, doubled_n, 30 * 4), "two half hours, both times, 30 years");
    cr_expect(eq(int, missing_n, 30 * 2));
}

Test(date, thirty_years_of_us_clocks_agree_with_the_c_library)
{
    agree_with_c_library("AAA5BBB,M3.2.0,M11.1.0", VH_CLOCK_US, -300);
}

Test(date, thirty_years_of_eu_clocks_agree_with_the_c_library)
{
    agree_with_c_library("AAA-1BBB,M3.5.0,M10.5.0/3", VH_CLOCK_EU, 60);
}

Test(date, thirty_years_of_southern_clocks_agree_with_the_c_library)
{
    agree_with_c_library("AAA-10BBB,M10.1.0,M4.1.0/3", VH_CLOCK_AU, 600);
    agree_with_c_library("AAA-12BBB,M9.5.0,M4.1.0/3", VH_CLOCK_NZ, 720);
}

/* ---- reading times ---- */

struct time_row {
    const char *text, *pattern;
    int64_t days, minutes; /* of 2026-03-01 on, from there */
    bool has_time, has_offset;
    int offset_min;
};

static const struct time_row good_times[] = {
    {"2026-03-01", NULL, 0, 0, false, false, 0},
    {"2026-03-01T14:00", NULL, 0, 840, true, false, 0},
    {"2026-03-01 14:00:30", NULL, 0, 840, true, false, 0},
    {"2026-03-01T14:00:30.250", NULL, 0, 840, true, false, 0},
    {"2026-03-01T14:00:30,250", NULL, 0, 840, true, false, 0},
    {"2026-03-01T14:00Z", NULL, 0, 840, true, true, 0},
    {"2026-03-01T14:00:59+02:00", NULL, 0, 840, true, true, 120},
    {"2026-03-01T14:00-0330", NULL, 0, 840, true, true, -210},
    {"2026-03-01T14:00-05", NULL, 0, 840, true, true, -300},
    {"2026-03-01T24:00", NULL, 1, 0, true, false, 0},
    {"2026-03-01T23:59:60", NULL, 0, 1439, true, false, 0},
    {"03/01/26 02:05 PM", "%m/%d/%y %I:%M %p", 0, 845, true, false, 0},
    {"3/1/26 2:05 pm", "%m/%d/%y %I:%M %p", 0, 845, true, false, 0},
    {"3/1/26 12:05 AM", "%m/%d/%y %I:%M %p", 0, 5, true, false, 0},
    {"3/1/26 12:05 PM", "%m/%d/%y %I:%M %p", 0, 725, true, false, 0},
    {"01.03.2026 07:30:15", "%d.%m.%Y %T", 0, 450, true, false, 0},
    {"01-Mar-2026 07:30", "%d-%b-%Y %H:%M", 0, 450, true, false, 0},
    {"01-MAR-2026 07", "%d-%b-%Y %H", 0, 420, true, false, 0},
    {"202603010730", "%Y%m%d%H%M", 0, 450, true, false, 0},
    {"2026060", "%Y%j", 0, 0, false, false, 0},
    {"2026/60", "%Y/%j", 0, 0, false, false, 0},
    {"03/02/26", "%D", 1, 0, false, false, 0},
    {"2026-03-02 100%", "%F 100%%", 1, 0, false, false, 0},
    {"2026-03-02T07:30:00+0100", "%FT%T%z", 1, 450, true, true, 60},
};

Test(date, times_are_read)
{
    for (size_t i = 0; i < sizeof good_times / sizeof *good_times; i++) {
        const struct time_row *r = &good_times[i];
        int64_t wall = -1;
        bool has_offset = !r->has_offset, has_time = !r->has_time;
        int offset_min = 9999;
        cr_expect(vh_time_parse(r->text, strlen(r->text), r->pattern, &wall, &has_offset,
                                &offset_min, &has_time) == VH_OK,
                  "%s", r->text);
        cr_expect(wall == minute(2026, 3, 1, 0, 0) + r->days * 1440 + r->minutes, "%s", r->text);
        cr_expect(has_time == r->has_time, "%s", r->text);
        cr_expect(has_offset == r->has_offset && offset_min == r->offset_min, "%s", r->text);
        cr_expect(r->pattern == NULL || vh_time_pattern_is_good(r->pattern), "%s", r->pattern);
    }
}

struct bad_time {
    const char *text, *pattern;
};

static const struct bad_time bad_times[] = {
    {"", NULL},
    {"2026-3-1", NULL},
    {"2026-03-01T", NULL},
    {"2026", NULL},
    {"20260301", NULL},
    {"2026-0x-01", NULL},
    {"2026-03x01", NULL},
    {"2026-03-0x", NULL},
    {"2026-03-01x14:00", NULL},
    {"2026-03-01T14.00", NULL},
    {"2026-03-01T14:0", NULL},
    {"2026-03-01T14:00:3", NULL},
    {"2026-03-01T14:00:30x", NULL},
    {"2026-03-01T24:00:01", NULL},
    {"2026-03-01T14:00+02:00x", NULL},
    {"2026-03-01T14", NULL},
    {"2026-03-01T1:00", NULL},
    {"2026-03-01T14:60", NULL},
    {"2026-03-01T24:01", NULL},
    {"2026-03-01T25:00", NULL},
    {"2026-03-01T14:00:61", NULL},
    {"2026-03-01T14:00:30.", NULL},
    {"2026-03-01T14:00 ", NULL},
    {" 2026-03-01", NULL},
    {"2026-03-01Z", NULL},
    {"2026-03-01T14:00+2", NULL},
    {"2026-03-01T14:00+02:", NULL},
    {"2026-03-01T14:00+02x", NULL},
    {"2026-03-01T14:00:30.5x", NULL},
    {"01-Ma", "%d-%b"},
    {"01-1ar-2026", "%d-%b-%Y"},
    {"2026-03-01T14:00+02:60", NULL},
    {"2026-03-01T14:00+14:01", NULL},
    {"2026-02-29", NULL},
    {"1899-12-31", NULL},
    {"2200-01-01", NULL},
    {"03/01/2026", NULL},
    {"03/01/2026", "%m/%d/%y"},
    {"13/01/26", "%m/%d/%y"},
    {"3/1/6", "%m/%d/%y"},
    {"3/1/26 0:05 AM", "%m/%d/%y %I:%M %p"},
    {"3/1/26 13:05 PM", "%m/%d/%y %I:%M %p"},
    {"3/1/26 2:05", "%m/%d/%y %I:%M %p"},
    {"3/1/26 2:05", "%m/%d/%y %I:%M"},
    {"3/1/26  2:05 PM", "%m/%d/%y %I:%M %p"},
    {"3/1/26 2:05 PMx", "%m/%d/%y %I:%M %p"},
    {"2026311", "%Y%m%d"},
    {"2026111", "%Y%m%d"},
    {"202660", "%Y%j"},
    {"2026-03-01 123", "%F %H%M"},
    {"2026366", "%Y%j"},
    {"2026000", "%Y%j"},
    {"01-Mrz-2026", "%d-%b-%Y"},
    {"2026-03-01 30", "%F %M"},
    {"2026-03", "%Y-%m"},
    {"2026-03-01 x", "%F %q"},
    {"2026-03-01", "%F%"},
};

Test(date, bad_times_are_refused_and_leave_the_outputs)
{
    for (size_t i = 0; i < sizeof bad_times / sizeof *bad_times; i++) {
        const struct bad_time *b = &bad_times[i];
        int64_t wall = 7;
        bool has_offset = true, has_time = true;
        int offset_min = 9;
        const enum vh_status status = vh_time_parse(b->text, strlen(b->text), b->pattern, &wall,
                                                    &has_offset, &offset_min, &has_time);
        cr_expect(status == VH_BAD_INPUT, "\"%s\" by %s", b->text,
                  b->pattern == NULL ? "ISO 8601" : b->pattern);
        cr_expect(wall == 7 && has_offset && has_time && offset_min == 9, "\"%s\"", b->text);
    }
}

Test(date, a_time_is_read_by_its_length_and_not_to_a_0)
{
    int64_t wall = 0;
    bool has_offset, has_time;
    int offset_min;
    const char *text = "2026-03-01T14:00,21.5";
    cr_expect(vh_time_parse(text, 16, NULL, &wall, &has_offset, &offset_min, &has_time) == VH_OK);
    cr_expect(wall == minute(2026, 3, 1, 14, 0));
    cr_expect(vh_time_parse("2026-03-01\0", 11, NULL, &wall, &has_offset, &offset_min, &has_time) ==
              VH_BAD_INPUT);
}

Test(date, years_of_two_digits_turn_at_69)
{
    int64_t wall = 0;
    bool has_offset, has_time;
    int offset_min;
    vh_time_parse("01/01/68", 8, "%D", &wall, &has_offset, &offset_min, &has_time);
    cr_expect(wall == minute(2068, 1, 1, 0, 0));
    vh_time_parse("01/01/69", 8, "%D", &wall, &has_offset, &offset_min, &has_time);
    cr_expect(wall == minute(1969, 1, 1, 0, 0));
}

Test(date, patterns_that_tell_no_time_are_refused)
{
    const char *const bad[] = {"",
                               "%",
                               "%Y-%m",
                               "%m/%d",
                               "%Y-%m-%d %q",
                               "%F %F",
                               "%F %I:%M",
                               "%F %H:%M %p",
                               "%F %M",
                               "%F %H:%S",
                               "%Y %y %m %d",
                               "%Y-%j-%d",
                               "%Y-%m-%d %j",
                               "%Y-%m %j",
                               "%Y-%m-%b-%d",
                               "%F %H %I %p",
                               "%F %z",
                               "%F %H:%M%"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        cr_expect(vh_time_pattern_is_good(bad[i]) == false, "\"%s\"", bad[i]);
    }
    char longest[400];
    memset(longest, ' ', sizeof longest);
    memcpy(longest, "%F", 2);
    longest[399] = '\0';
    cr_expect(vh_time_pattern_is_good(longest) == false, "a pattern has at most 127 letters");
}

/* 13 July 2026 is a Monday, by any calendar; 1969-12-29 the last before the count begins. */
Test(date, a_week_begins_on_its_monday)
{
    const int64_t monday = vh_day_from_civil((struct vh_civil){2026, 7, 13});

    for (int64_t d = 0; d < 7; d++)
        cr_expect(eq(i64, vh_date_monday(monday + d), monday));
    cr_expect(eq(i64, vh_date_monday(monday - 1), monday - 7));
    cr_expect(eq(i64, vh_date_monday(0), -3));
    cr_expect(eq(i64, vh_date_monday(-4), -10));
}
