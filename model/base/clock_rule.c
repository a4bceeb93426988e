#include "vh_date.h"

enum { DAY_MIN = 24 * 60, HOUR_MIN = 60, SUNDAY = 6 };

/* The first Sunday on or after a date. */
static int64_t sunday_from(int year, int month, int day)
{
    const int64_t from = vh_day_from_civil((struct vh_civil){year, month, day});
    return from + (SUNDAY - vh_date_weekday(from));
}

/* Minutes of standard time at which clocks go ahead and back. */
struct span {
    int64_t ahead, back;
};

/* Second Sunday of March to first Sunday of November; both at 02:00 of the clock then shown, so
 * the second is 01:00 standard time. */
static struct span us_span(int year)
{
    const int64_t first = sunday_from(year, 3, 8), last = sunday_from(year, 11, 1);
    return (struct span){first * DAY_MIN + 2 * HOUR_MIN, last * DAY_MIN + HOUR_MIN};
}

/* Last Sundays of March and October (both months have 31 days), 01:00 UTC everywhere. */
static struct span eu_span(int year, int utc_offset_min)
{
    const int64_t first = sunday_from(year, 3, 25), last = sunday_from(year, 10, 25);
    return (struct span){first * DAY_MIN + HOUR_MIN + utc_offset_min,
                         last * DAY_MIN + HOUR_MIN + utc_offset_min};
}

/* First Sunday of October to first Sunday of April, 02:00 standard time. */
static struct span au_span(int year)
{
    return (struct span){sunday_from(year, 10, 1) * DAY_MIN + 2 * HOUR_MIN,
                         sunday_from(year, 4, 1) * DAY_MIN + 2 * HOUR_MIN};
}

/* Last Sunday of September (it has 30 days) to first Sunday of April, 02:00 standard time. */
static struct span nz_span(int year)
{
    return (struct span){sunday_from(year, 9, 24) * DAY_MIN + 2 * HOUR_MIN,
                         sunday_from(year, 4, 1) * DAY_MIN + 2 * HOUR_MIN};
}

static struct span span_of(enum vh_clock_rule rule, int year, int utc_offset_min)
{
    switch (rule) {
    case VH_CLOCK_EU:
        return eu_span(year, utc_offset_min);
    case VH_CLOCK_AU:
        return au_span(year);
    case VH_CLOCK_NZ:
        return nz_span(year);
    case VH_CLOCK_STANDARD:
    case VH_CLOCK_US:
        break;
    }
    return us_span(year);
}

static int64_t day_of_minute(int64_t minute)
{
    return minute / DAY_MIN - (minute % DAY_MIN < 0);
}

int vh_clock_ahead_min(enum vh_clock_rule rule, int utc_offset_min, int64_t wall_minute,
                       bool *doubled, bool *missing)
{
    *doubled = false;
    *missing = false;
    if (rule == VH_CLOCK_STANDARD) {
        return 0;
    }
    const int year = vh_civil_from_day(day_of_minute(wall_minute)).year;
    const struct span s = span_of(rule, year, utc_offset_min);
    /* at s.ahead the clock jumps an hour on; at s.back it shows one hour a second time */
    *missing = wall_minute >= s.ahead && wall_minute < s.ahead + HOUR_MIN;
    *doubled = wall_minute >= s.back && wall_minute < s.back + HOUR_MIN;
    const bool went_ahead = wall_minute >= s.ahead + HOUR_MIN,
               to_go_back = wall_minute < s.back + HOUR_MIN;
    /* a summer of the south lies over the turn of the year */
    const bool summer = s.ahead < s.back ? went_ahead && to_go_back : went_ahead || to_go_back;
    return summer ? HOUR_MIN : 0;
}
