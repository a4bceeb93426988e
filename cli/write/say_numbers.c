#include "vh_say_numbers.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vinehand.h"

/* Exact by definition (NIST SP 811, 2008, B.8): avoirdupois pound and ounce, inch, foot. */
static const double kg_per_lb = 0.45359237;
static const double g_per_oz = 28.349523125;
static const double cm_per_in = 2.54;
static const double m_per_ft = 0.3048;

double vh_say_lb(double kg)
{
    return kg / kg_per_lb;
}

double vh_say_ft2(double m2)
{
    return m2 / (m_per_ft * m_per_ft);
}

/* Digits with a blank in the thousands: "1 150". */
static void say_whole(double value, char *said)
{
    char digits[VH_SAY_ROOM];
    size_t out = 0;
    const int n = snprintf(digits, sizeof digits, "%.0f", fabs(value));

    if (n <= 0 || n > 24) { /* no crop weighs that much */
        snprintf(said, VH_SAY_ROOM, "%.3g", value);
        return;
    }
    if (value <= -0.5)
        said[out++] = '-';
    for (int i = 0; i < n; i++) {
        if (i > 0 && (n - i) % 3 == 0)
            said[out++] = ' ';
        said[out++] = digits[i];
    }
    said[out] = 0;
}

static void say_rounded(double value, double tens_from, bool decimal, char *said)
{
    said[0] = 0;
    if (!isfinite(value))
        return;
    if (fabs(value) >= tens_from)
        say_whole(10.0 * round(value / 10.0), said);
    else if (decimal && fabs(value) < 9.95) /* 9.95 would be said as 10.0 */
        snprintf(said, VH_SAY_ROOM, "%.1f", value + 0.0);
    else
        say_whole(value, said);
}

void vh_say_amount(double value, char *said)
{
    say_rounded(value, 1000.0, true, said);
}

void vh_say_season_amount(double value, char *said)
{
    say_rounded(value, 100.0, true, said);
}

void vh_say_pieces(double value, char *said)
{
    say_rounded(value, 1000.0, false, said);
}

/* Adds a unit behind what is said; nothing behind nothing. */
static void add_unit(char *said, const char *unit)
{
    const size_t n = strlen(said);

    if (n > 0)
        snprintf(said + n, VH_SAY_ROOM - n, " %s", unit);
}

/* To halves, with the half only where there is one. */
static void say_halves(double value, char *said)
{
    const double halves = round(value * 2.0);

    snprintf(said, VH_SAY_ROOM, fmod(halves, 2.0) == 0.0 ? "%.0f" : "%.1f", halves / 2.0);
}

void vh_say_length(double cm, enum vh_say_units units, char *said)
{
    said[0] = 0;
    if (!isfinite(cm))
        return;
    if (units == VH_SAY_US)
        say_halves(cm / cm_per_in, said);
    else
        say_whole(cm, said);
    add_unit(said, units == VH_SAY_US ? "in" : "cm");
}

void vh_say_fruit_mass(double g, enum vh_say_units units, char *said)
{
    const double step = g < 150.0 ? 1.0 : g < 300.0 ? 5.0 : 10.0; /* what can be seen on a scale */

    said[0] = 0;
    if (!isfinite(g))
        return;
    if (units == VH_SAY_US)
        say_halves(g / g_per_oz, said);
    else
        say_whole(step * round(g / step), said);
    add_unit(said, units == VH_SAY_US ? "oz" : "g");
}

static const char *const months[] = {"January",   "February", "March",    "April",
                                     "May",       "June",     "July",     "August",
                                     "September", "October",  "November", "December"};

/* Two digits of an ISO date as a number. */
static int two_digits(const char *at)
{
    return (at[0] - '0') * 10 + (at[1] - '0');
}

static void say_day(double day, bool with_year, char *said)
{
    char iso[11];
    int month;

    said[0] = 0;
    if (!isfinite(day))
        return;
    vh_date_format((int64_t)day, iso);
    month = two_digits(iso + 5);
    if (month < 1 || month > 12)
        return;
    if (with_year)
        snprintf(said, VH_SAY_ROOM, "%d %s %.4s", two_digits(iso + 8), months[month - 1], iso);
    else
        snprintf(said, VH_SAY_ROOM, "%d %s", two_digits(iso + 8), months[month - 1]);
}

void vh_say_date(double day, char *said)
{
    say_day(day, false, said);
}

void vh_say_date_with_year(double day, char *said)
{
    say_day(day, true, said);
}
