/* vh_date.h - whole days, minutes and clocks, without the C library's calendar.
 *
 * A day is an int64_t count from 1970-01-01 (proleptic Gregorian). A minute is an int64_t count of
 * minutes from 1970-01-01T00:00 UTC. Public calls (parse, format, weekday, ISO week) stand in
 * vinehand.h.
 */
#ifndef VH_DATE_H
#define VH_DATE_H

#include "vinehand.h"

struct vh_civil {
    int year, month, day;
}; /* month 1..12, day 1..31 */

int64_t vh_day_from_civil(struct vh_civil c); /* c must be a date */
struct vh_civil vh_civil_from_day(int64_t day);
bool vh_civil_is_date(struct vh_civil c); /* 1900..2199 and a day that exists */
int vh_day_of_year(int64_t day);          /* 1..366 */
int64_t vh_date_monday(int64_t day);      /* of the week that holds it */

/* When clocks of a region are ahead by an hour: none; us: second Sunday of March 02:00 to first
 * Sunday of November 02:00 local (15 U.S.C. 260a); eu: last Sunday of March to last Sunday of
 * October, 01:00 UTC (Directive 2000/84/EC); au: first Sunday of October to first Sunday of April,
 * nz: last Sunday of September to first Sunday of April, both 02:00 standard time (from memory:
 * Standard Time Act 1987 of New South Wales as amended 2007; New Zealand Daylight Time Order 2007).
 */
enum vh_clock_rule { VH_CLOCK_STANDARD, VH_CLOCK_US, VH_CLOCK_EU, VH_CLOCK_AU, VH_CLOCK_NZ };

/* Minutes the clock is ahead of standard time (0 or 60) for a wall-clock minute count.
 * utc_offset_min: standard time. *doubled is set when that wall-clock hour occurs twice (autumn;
 * the answer is then 60, its first time), *missing when it does not exist (spring; the answer is
 * then 0: a clock that was not yet put ahead). The rules are those in force since 2007 (us, nz),
 * 1996 (eu) and 2008 (au), for every year. */
int vh_clock_ahead_min(enum vh_clock_rule rule, int utc_offset_min, int64_t wall_minute,
                       bool *doubled, bool *missing);

/* Reads a time by a pattern of % letters: %Y %y %m %d %H %I %M %S %p %b %j %T %D %F %z %%; NULL
 * pattern: ISO 8601
 * ("2026-03-01", "2026-03-01T14:00", "2026-03-01 14:00:30", "...Z", "...+02:00"). Never uses the
 * locale. *wall_minute counts minutes of the wall clock since 1970-01-01T00:00 (as if it were UTC),
 * seconds dropped; *has_offset and *offset_min tell an offset given in the text; *has_time is false
 * for a bare date. VH_BAD_INPUT: text does not fit or is no date between 1900 and 2199. */
enum vh_status vh_time_parse(const char *text, size_t length, const char *pattern,
                             int64_t *wall_minute, bool *has_offset, int *offset_min,
                             bool *has_time);

/* Whether a pattern tells a time: known letters, each thing once, a year, month and day (or %j), %p
 * with %I and only so, no minute without its hour. To be asked once per file: vh_time_parse does
 * not look again at each row. Numbers may have one digit or two ("3/1/26 2:05 PM"), but two where
 * they touch another number ("%Y%m%d"). 24:00 ends a day. */
bool vh_time_pattern_is_good(const char *pattern);

enum { VH_WEEK_TEXT = 9 };
/* "2026-W29", the ISO week of a day. */
void vh_date_week_format(int64_t day, char text[VH_WEEK_TEXT]);

/* "July", "Jul"; English, static storage. */
const char *vh_month_name(int month);
const char *vh_month_short(int month);

#endif
