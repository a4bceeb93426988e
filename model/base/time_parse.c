#include "vh_date.h"

#include <string.h>

enum { DAY_MIN = 24 * 60, HOUR_MIN = 60, UNKNOWN = -1, OFFSET_HOURS_MOST = 14 };

/* What a text told so far; UNKNOWN where it told nothing. */
struct parts {
    int year, month, day, day_of_year, hour, hour_of_12, minute, second, afternoon;
    bool has_offset;
    int offset_min;
};

struct reader {
    const char *at, *end;
};

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Reads least..most digits into *value; false: fewer are there. */
static bool take_digits(struct reader *r, int least, int most, int *value)
{
    int n = 0, sum = 0;
    while (n < most && r->at < r->end && is_digit(*r->at)) {
        sum = 10 * sum + (*r->at++ - '0');
        n++;
    }
    if (n < least) {
        return false;
    }
    *value = sum;
    return true;
}

static bool take_letter(struct reader *r, char letter)
{
    if (r->at >= r->end || *r->at != letter) {
        return false;
    }
    r->at++;
    return true;
}

/* Reads an English word, capitals or not. */
static bool take_word(struct reader *r, const char *word)
{
    const char capital = 'a' ^ 'A'; /* the one bit that tells a letter's two forms apart */
    const size_t n = strlen(word);
    if ((size_t)(r->end - r->at) < n) {
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        if ((r->at[i] | capital) != (word[i] | capital)) {
            return false;
        }
    }
    r->at += n;
    return true;
}

/* Z, +02:00, +0200 or +02. */
static bool take_offset(struct reader *r, struct parts *p)
{
    int hours = 0, minutes = 0;
    p->has_offset = true;
    p->offset_min = 0;
    if (take_letter(r, 'Z')) {
        return true;
    }
    const bool west = take_letter(r, '-');
    if (!(west || take_letter(r, '+')) || !take_digits(r, 2, 2, &hours)) {
        return false;
    }
    const bool colon = take_letter(r, ':');
    if (colon || (r->at < r->end && is_digit(*r->at))) {
        if (!take_digits(r, 2, 2, &minutes)) {
            return false;
        }
    }
    const int offset_min = HOUR_MIN * hours + minutes;
    p->offset_min = west ? -offset_min : offset_min;
    return minutes < HOUR_MIN && offset_min <= OFFSET_HOURS_MOST * HOUR_MIN;
}

static bool take_month_name(struct reader *r, int *month)
{
    for (int m = 1; m <= 12; m++) {
        if (take_word(r, vh_month_short(m))) {
            *month = m;
            return true;
        }
    }
    return false;
}

static bool take_half_day(struct reader *r, int *afternoon)
{
    if (take_word(r, "AM")) {
        *afternoon = 0;
        return true;
    }
    *afternoon = 1;
    return take_word(r, "PM");
}

/* Years of two digits: 69..99 are 1969..1999, 00..68 are 2000..2068, as POSIX has it. */
static bool take_short_year(struct reader *r, int *year)
{
    if (!take_digits(r, 2, 2, year)) {
        return false;
    }
    *year += *year < 69 ? 2000 : 1900;
    return true;
}

/* One % letter. tight: the number begins where another ended, so only its full width is clear.
 */
static bool take_field(struct reader *r, char letter, bool tight, struct parts *p)
{
    const int least = tight ? 2 : 1;
    switch (letter) {
    case 'Y':
        return take_digits(r, 4, 4, &p->year);
    case 'y':
        return take_short_year(r, &p->year);
    case 'm':
        return take_digits(r, least, 2, &p->month);
    case 'd':
        return take_digits(r, least, 2, &p->day);
    case 'j':
        return take_digits(r, tight ? 3 : 1, 3, &p->day_of_year);
    case 'H':
        return take_digits(r, least, 2, &p->hour);
    case 'I':
        return take_digits(r, least, 2, &p->hour_of_12);
    case 'M':
        return take_digits(r, least, 2, &p->minute);
    case 'S':
        return take_digits(r, least, 2, &p->second);
    case 'p':
        return take_half_day(r, &p->afternoon);
    case 'b':
        return take_month_name(r, &p->month);
    case 'z':
        return take_offset(r, p);
    case '%':
        return take_letter(r, '%');
    default:
        return false;
    }
}

/* The letters that stand for others; NULL: none. */
static const char *spelled_out(char letter)
{
    return letter == 'T'   ? "%H:%M:%S"
           : letter == 'D' ? "%m/%d/%y"
           : letter == 'F' ? "%Y-%m-%d"
                           : NULL;
}

/* Writes the pattern without T, D, F; false: longer than any sensible one, or a bare % at the end.
 */
static bool expand(const char *pattern, char out[], size_t room)
{
    size_t n = 0;
    for (const char *c = pattern; *c != '\0'; c++) {
        const char *longer = *c == '%' ? spelled_out(c[1]) : NULL;
        const size_t part = longer != NULL ? strlen(longer) : *c == '%' ? 2 : 1;
        if ((*c == '%' && c[1] == '\0') || n + part >= room) {
            return false;
        }
        memcpy(out + n, longer != NULL ? longer : c, part);
        n += part;
        c += *c == '%';
    }
    out[n] = '\0';
    return true;
}

enum { PATTERN_ROOM = 128 };

static bool is_number_field(char letter)
{
    return strchr("YymdjHIMS", letter) != NULL;
}

static int times_given(const char *pattern, const char *letters)
{
    int n = 0;
    for (const char *c = pattern; *c != '\0'; c++) {
        if (*c == '%') {
            c++;
            n += strchr(letters, *c) != NULL;
        }
    }
    return n;
}

/* Each thing at most once, a whole date, and no minute without its hour. */
static bool makes_a_time(const char *pattern)
{
    const int months = times_given(pattern, "mb"), days = times_given(pattern, "d");
    const int year_days = times_given(pattern, "j"), halves = times_given(pattern, "p");
    const int hours = times_given(pattern, "HI"), minutes = times_given(pattern, "M");
    const int seconds = times_given(pattern, "S"), offsets = times_given(pattern, "z");
    const bool dated = (months == 1 && days == 1 && year_days == 0) ||
                       (months == 0 && days == 0 && year_days == 1);
    return dated && times_given(pattern, "Yy") == 1 && hours <= 1 && minutes <= hours &&
           seconds <= minutes && offsets <= hours && halves == times_given(pattern, "I");
}

bool vh_time_pattern_is_good(const char *pattern)
{
    char full[PATTERN_ROOM];
    if (!expand(pattern, full, sizeof full)) {
        return false;
    }
    for (const char *c = full; *c != '\0'; c++) {
        if (*c == '%' && strchr("YymdjHIMSpbz%", *++c) == NULL) {
            return false;
        }
    }
    return makes_a_time(full);
}

static bool read_by_pattern(struct reader *r, const char *pattern, struct parts *p)
{
    char full[PATTERN_ROOM];
    if (!expand(pattern, full, sizeof full)) {
        return false;
    }
    bool after_number = false;
    for (const char *c = full; *c != '\0'; c++) {
        if (*c != '%') {
            after_number = false;
            if (!take_letter(r, *c)) {
                return false;
            }
            continue;
        }
        if (!take_field(r, *++c, after_number, p)) {
            return false;
        }
        after_number = is_number_field(*c);
    }
    return true;
}

/* A decimal fraction of a second is read and dropped. */
static bool skip_fraction(struct reader *r)
{
    if (!take_letter(r, '.') && !take_letter(r, ',')) {
        return true;
    }
    const char *first = r->at;
    while (r->at < r->end && is_digit(*r->at)) {
        r->at++;
    }
    return r->at > first;
}

/* "2026-03-01", "2026-03-01T14:00", "2026-03-01 14:00:30", each with a time also with an offset. */
static bool read_iso(struct reader *r, struct parts *p)
{
    if (!take_digits(r, 4, 4, &p->year) || !take_letter(r, '-') ||
        !take_digits(r, 2, 2, &p->month) || !take_letter(r, '-') ||
        !take_digits(r, 2, 2, &p->day)) {
        return false;
    }
    if (r->at == r->end) {
        return true;
    }
    if (!(take_letter(r, 'T') || take_letter(r, ' ')) || !take_digits(r, 2, 2, &p->hour) ||
        !take_letter(r, ':') || !take_digits(r, 2, 2, &p->minute)) {
        return false;
    }
    if (take_letter(r, ':') && !(take_digits(r, 2, 2, &p->second) && skip_fraction(r))) {
        return false;
    }
    return r->at == r->end || take_offset(r, p);
}

/* The day told by month and day or by the day of the year; false: no date between 1900 and 2199. */
static bool day_of(const struct parts *p, int64_t *day)
{
    const bool by_year_day = p->day_of_year != UNKNOWN;
    const struct vh_civil c = {p->year, by_year_day ? 1 : p->month, by_year_day ? 1 : p->day};
    if (!vh_civil_is_date(c)) {
        return false;
    }
    *day = vh_day_from_civil(c) + (by_year_day ? p->day_of_year - 1 : 0);
    return vh_civil_from_day(*day).year == p->year;
}

/* The minute of the day, 0 .. 1440 (24:00 is the end of a day); false: no time of day. */
static bool minute_of(const struct parts *p, int *minute_of_day)
{
    const int minute = p->minute == UNKNOWN ? 0 : p->minute;
    const int second = p->second == UNKNOWN ? 0 : p->second;
    int hour = p->hour == UNKNOWN ? 0 : p->hour;
    if (p->hour_of_12 != UNKNOWN) {
        if (p->hour_of_12 < 1 || p->hour_of_12 > 12 || p->afternoon == UNKNOWN) {
            return false;
        }
        hour = p->hour_of_12 % 12 + 12 * p->afternoon; /* 12 AM is midnight, 12 PM is noon */
    }
    if (p->hour == UNKNOWN && p->hour_of_12 == UNKNOWN && p->minute != UNKNOWN) {
        return false;
    }
    *minute_of_day = HOUR_MIN * hour + minute;
    const bool end_of_day = hour == 24 && minute == 0 && second == 0;
    return (hour < 24 || end_of_day) && minute < HOUR_MIN && second <= 60; /* 60: leap second */
}

enum vh_status vh_time_parse(const char *text, size_t length, const char *pattern,
                             int64_t *wall_minute, bool *has_offset, int *offset_min,
                             bool *has_time)
{
    struct reader r = {text, text + length};
    struct parts p = {.year = UNKNOWN,
                      .month = UNKNOWN,
                      .day = UNKNOWN,
                      .day_of_year = UNKNOWN,
                      .hour = UNKNOWN,
                      .hour_of_12 = UNKNOWN,
                      .minute = UNKNOWN,
                      .second = UNKNOWN,
                      .afternoon = UNKNOWN};
    int64_t day = 0;
    int minute_of_day = 0;
    const bool read = pattern == NULL ? read_iso(&r, &p) : read_by_pattern(&r, pattern, &p);
    if (!read || r.at != r.end || !day_of(&p, &day) || !minute_of(&p, &minute_of_day)) {
        return VH_BAD_INPUT;
    }
    *wall_minute = day * DAY_MIN + minute_of_day;
    *has_offset = p.has_offset;
    *offset_min = p.has_offset ? p.offset_min : 0;
    *has_time = p.hour != UNKNOWN || p.hour_of_12 != UNKNOWN;
    return VH_OK;
}
