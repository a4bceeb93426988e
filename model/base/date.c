#include "vh_date.h"

#include <assert.h>
#include <string.h>

/* Years begin on 1 March here, so that the leap day is the last of its year and months count alike:
 * (153 m + 2) / 5 days lie before month m (0 March ... 11 February). 400 such years have 146097
 * days. */
enum {
    CYCLE_YEARS = 400,
    CYCLE_DAYS = 146097,
    CENTURY_DAYS = 36524,
    FOUR_YEAR_DAYS = 1461,
    YEAR_DAYS = 365,
    MARCH_0000_TO_1970 = 719468,
    FIRST_YEAR = 1900,
    LAST_YEAR = 2199
};

static int64_t floor_div(int64_t a, int64_t b)
{
    return a / b - (a % b < 0);
}

int64_t vh_day_from_civil(struct vh_civil c)
{
    const int64_t year = (int64_t)c.year - (c.month <= 2);
    const int64_t cycle = floor_div(year, CYCLE_YEARS);
    const int64_t y = year - cycle * CYCLE_YEARS;
    const int64_t m = c.month > 2 ? c.month - 3 : c.month + 9;
    const int64_t day_of_cycle = y * YEAR_DAYS + y / 4 - y / 100 + (153 * m + 2) / 5 + c.day - 1;
    return cycle * CYCLE_DAYS + day_of_cycle - MARCH_0000_TO_1970;
}

struct vh_civil vh_civil_from_day(int64_t day)
{
    const int64_t from_0000 = day + MARCH_0000_TO_1970;
    const int64_t cycle = floor_div(from_0000, CYCLE_DAYS);
    const int64_t d = from_0000 - cycle * CYCLE_DAYS;
    /* leap days before d taken out: what is left counts whole years of 365 days */
    const int64_t y =
        (d - d / (FOUR_YEAR_DAYS - 1) + d / CENTURY_DAYS - d / (CYCLE_DAYS - 1)) / YEAR_DAYS;
    const int64_t day_of_year = d - (y * YEAR_DAYS + y / 4 - y / 100);
    const int64_t m = (5 * day_of_year + 2) / 153;
    struct vh_civil c;
    c.day = (int)(day_of_year - (153 * m + 2) / 5) + 1;
    c.month = (int)(m < 10 ? m + 3 : m - 9);
    c.year = (int)(cycle * CYCLE_YEARS + y + (c.month <= 2));
    return c;
}

static int days_of_month(int year, int month)
{
    static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return days[month - 1] + (month == 2 && leap);
}

bool vh_civil_is_date(struct vh_civil c)
{
    return c.year >= FIRST_YEAR && c.year <= LAST_YEAR && c.month >= 1 && c.month <= 12 &&
           c.day >= 1 && c.day <= days_of_month(c.year, c.month);
}

int vh_day_of_year(int64_t day)
{
    const struct vh_civil first = {vh_civil_from_day(day).year, 1, 1};
    return (int)(day - vh_day_from_civil(first)) + 1;
}

/* ---- public calls of vinehand.h ---- */

/* Value of n digits, -1 if one of them is none. */
static int digits(const char *text, int n)
{
    int value = 0;
    for (int i = 0; i < n; i++) {
        if (text[i] < '0' || text[i] > '9') {
            return -1;
        }
        value = 10 * value + (text[i] - '0');
    }
    return value;
}

enum vh_status vh_date_parse(const char *text, int64_t *day)
{
    if (text == NULL || strnlen(text, 11) != 10 || text[4] != '-' || text[7] != '-') {
        return VH_BAD_INPUT;
    }
    const struct vh_civil c = {digits(text, 4), digits(text + 5, 2), digits(text + 8, 2)};
    if (!vh_civil_is_date(c)) {
        return VH_BAD_INPUT;
    }
    *day = vh_day_from_civil(c);
    return VH_OK;
}

static void put_digits(char *text, int n, int value)
{
    for (int i = n - 1; i >= 0; i--) {
        text[i] = (char)('0' + value % 10);
        value /= 10;
    }
}

void vh_date_format(int64_t day, char text[11])
{
    const int64_t first = vh_day_from_civil((struct vh_civil){0, 1, 1});
    const int64_t last = vh_day_from_civil((struct vh_civil){9999, 12, 31});
    memcpy(text, "0000-00-00", 11);
    if (day < first || day > last) {
        return; /* no year of four digits: a text that no reader takes for a date */
    }
    const struct vh_civil c = vh_civil_from_day(day);
    put_digits(text, 4, c.year);
    put_digits(text + 5, 2, c.month);
    put_digits(text + 8, 2, c.day);
}

int64_t vh_date_monday(int64_t day)
{
    return day - vh_date_weekday(day);
}

int vh_date_weekday(int64_t day)
{
    const int thursday = 3; /* 1970-01-01 */
    return (int)((day % 7 + thursday + 7) % 7);
}

void vh_date_iso_week(int64_t day, int *year, int *week)
{
    /* a week belongs to the year that holds its Thursday */
    const int64_t thursday = day - vh_date_weekday(day) + 3;
    *year = vh_civil_from_day(thursday).year;
    *week = (vh_day_of_year(thursday) - 1) / 7 + 1;
}

void vh_date_week_format(int64_t day, char text[VH_WEEK_TEXT])
{
    int year, week;

    vh_date_iso_week(day, &year, &week);
    memcpy(text, "0000-W00", VH_WEEK_TEXT);
    put_digits(text, 4, year);
    put_digits(text + 6, 2, week);
}

/* ---- names ---- */

const char *vh_month_name(int month)
{
    static const char *const names[12] = {"January",   "February", "March",    "April",
                                          "May",       "June",     "July",     "August",
                                          "September", "October",  "November", "December"};
    assert(month >= 1 && month <= 12);
    return names[month - 1];
}

const char *vh_month_short(int month)
{
    static const char *const names[12] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                          "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    assert(month >= 1 && month <= 12);
    return names[month - 1];
}
