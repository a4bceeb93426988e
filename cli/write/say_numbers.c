#include "vh_say_numbers.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vinehand.h"

/* Exact by definition (NIST SP 811, 2008, B.8): avoirdupois pound and ounce, inch, foot. */
#define KG_PER_LB 0.45359237
#define G_PER_OZ 28.349523125
#define CM_PER_IN 2.54
#define M_PER_FT 0.3048
static const double min_per_h = 60.0;

double vh_say_lb(double kg)
{
    return kg / KG_PER_LB;
}

double vh_say_oz(double g)
{
    return g / G_PER_OZ;
}

double vh_say_in(double cm)
{
    return cm / CM_PER_IN;
}

double vh_say_f(double c)
{
    return c * 1.8 + 32.0;
}

double vh_say_ft(double m)
{
    return m / M_PER_FT;
}

double vh_say_ft2(double m2)
{
    return m2 / (M_PER_FT * M_PER_FT);
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
    else if (decimal && fabs(value) >= 0.05 && fabs(value) < 9.95) /* that would be said as 10.0 */
        snprintf(said, VH_SAY_ROOM, "%.1f", value);
    else
        say_whole(value, said);
}

void vh_say_amount(double value, char *said)
{
    say_rounded(value, 1000.0, true, said);
}

bool vh_say_is_none(const char *said)
{
    return strcmp(said, "0") == 0;
}

void vh_say_crop(const char *crop, char *said)
{
    const char *dash = strchr(crop, '-');
    const int kind = dash ? (int)(dash - crop) : (int)strlen(crop);
    const char *many = kind > 0 && crop[kind - 1] == 'o' ? "es" : "s";

    snprintf(said, VH_SAY_ROOM, "%.24s%s%.*s%s", dash ? dash + 1 : "", dash ? " " : "",
             kind < 24 ? kind : 24, crop, many);
}

void vh_say_pieces(double value, char *said)
{
    say_rounded(value, 1000.0, false, said);
}

void vh_say_much(double value, bool pieces, char *said)
{
    if (pieces)
        vh_say_pieces(value, said);
    else
        vh_say_amount(value, said);
}

void vh_say_season_much(double value, bool pieces, char *said)
{
    say_rounded(value, 100.0, !pieces, said);
}

/* Steps of what is said, in one. */
static double steps_of(double value, bool pieces)
{
    return value >= 1000.0 ? 0.1 : value < 10.0 && !pieces ? 10.0 : 1.0;
}

double vh_safe_amount(double value, bool pieces)
{
    const double nearly = 1e-9; /* 8.9 may be kept as 8.8999999... */
    const double steps = steps_of(value, pieces);

    return floor(value * steps + nearly) / steps;
}

bool vh_promise_is_kept(double promise, double came, bool pieces, enum vh_say_units units)
{
    const bool in_lb = !pieces && units == VH_SAY_US;
    const double steps = pieces ? 1.0 : 10.0; /* as a scale shows it */

    return round((in_lb ? vh_say_lb(came) : came) * steps) >=
           round(vh_safe_amount(in_lb ? vh_say_lb(promise) : promise, pieces) * steps);
}

void vh_say_came(const struct vh_promise_past *past, enum vh_say_units units,
                 char said[VH_SAY_CAME])
{
    const bool by_piece = past->by_piece, in_lb = !by_piece && units == VH_SAY_US;
    const double came = in_lb ? vh_say_lb(past->came) : past->came;
    const double promise = in_lb ? vh_say_lb(past->promise) : past->promise;
    const char *unit = by_piece ? "" : in_lb ? " lb" : " kg";
    char text[VH_SAY_ROOM], safe[VH_SAY_ROOM], picked[VH_SAY_ROOM];

    vh_say_much(came, by_piece, text);
    vh_say_much(vh_safe_amount(promise, by_piece), by_piece, safe);
    vh_say_much(in_lb ? vh_say_lb(past->picked) : past->picked, by_piece, picked);
    const bool is_all = strcmp(picked, text) == 0;
    if (!vh_promise_is_kept(past->promise, past->came, by_piece, units) && strcmp(text, safe) == 0)
        snprintf(text, sizeof text, by_piece ? "%.0f" : "%.1f", came);
    snprintf(said, VH_SAY_CAME, "%s%s%s%s%s", text, unit, is_all ? "" : " of ",
             is_all ? "" : picked, is_all ? "" : " picked");
}

void vh_say_promised(const struct vh_promise_past *past, enum vh_say_units units, char *said)
{
    const bool by_piece = past->by_piece, in_lb = !by_piece && units == VH_SAY_US;

    vh_say_much(vh_safe_amount(in_lb ? vh_say_lb(past->promise) : past->promise, by_piece),
                by_piece, said);
    if (!by_piece)
        strcat(said, in_lb ? " lb" : " kg");
}

bool vh_promise_is_any(double promise, bool pieces, enum vh_say_units units)
{
    const bool in_lb = !pieces && units == VH_SAY_US;

    return vh_safe_amount(in_lb ? vh_say_lb(promise) : promise, pieces) > 0.0;
}

double vh_said_amount(double value, bool pieces)
{
    const double steps = steps_of(value, pieces);

    return round(value * steps) / steps;
}

double vh_left_amount(double safe, double ordered, bool pieces)
{
    return vh_safe_amount(safe - vh_said_amount(ordered, pieces), pieces);
}

void vh_say_packs(double promise, double pack, char *said)
{
    const double nearly = 1e-9;
    const double packs = floor(promise / pack + nearly);

    said[0] = 0;
    if (!(packs >= 1.0))
        return;
    vh_say_pieces(packs, said);
    snprintf(said + strlen(said), VH_SAY_ROOM - strlen(said), packs < 2.0 ? " pack" : " packs");
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
        say_halves(cm / CM_PER_IN, said);
    else
        say_whole(cm, said);
    add_unit(said, units == VH_SAY_US ? "in" : "cm");
}

void vh_say_fruit_mass(double g, enum vh_say_units units, char *said)
{
    const double step = g < 150.0 ? 1.0 : g < 300.0 ? 5.0 : 10.0; /* what can be seen on a scale */
    const double small_oz = 4.0; /* half an ounce is much of a cherry */

    said[0] = 0;
    if (!isfinite(g))
        return;
    if (units == VH_SAY_US && g < small_oz * G_PER_OZ)
        snprintf(said, VH_SAY_ROOM, "%.1f", g / G_PER_OZ);
    else if (units == VH_SAY_US)
        say_halves(g / G_PER_OZ, said);
    else
        say_whole(step * round(g / step), said);
    add_unit(said, units == VH_SAY_US ? "oz" : "g");
}

void vh_say_degrees(double c, enum vh_say_units units, const char *degree, char *said)
{
    const bool us = units == VH_SAY_US;

    said[0] = 0;
    if (isfinite(c))
        snprintf(said, VH_SAY_ROOM, "%.0f %s%c", us ? vh_say_f(c) : c, degree, us ? 'F' : 'C');
}

void vh_say_time(double minutes, char *said)
{
    const double whole = fmax(1.0, round(minutes)), hours = floor(whole / min_per_h);

    said[0] = 0;
    if (!(isfinite(minutes) && minutes > 0.0))
        return;
    if (hours > 0.0)
        snprintf(said, VH_SAY_ROOM, "%.0f h", hours);
    const size_t n = strlen(said);
    if (whole > min_per_h * hours)
        snprintf(said + n, VH_SAY_ROOM - n, "%s%.0f min", n ? " " : "", whole - min_per_h * hours);
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

const char *vh_say_name_end(const char *name)
{
    const size_t n = strlen(name);

    return n > 0 && name[n - 1] >= '0' && name[n - 1] <= '9' ? ":" : "";
}

void vh_say_list(char *list, size_t room, const char *word)
{
    char *last = NULL;
    const size_t more = strlen(word);

    for (char *at = strstr(list, ", "); at; at = strstr(at + 1, ", "))
        last = at;
    if (!last || strlen(list) + more + 1 > room)
        return;
    memmove(last + more + 2, last + 2, strlen(last + 2) + 1);
    last[0] = ' ';
    memcpy(last + 1, word, more);
    last[more + 1] = ' ';
}

void vh_say_date(double day, char *said)
{
    say_day(day, false, said);
}

void vh_say_date_with_year(double day, char *said)
{
    say_day(day, true, said);
}

/* The number right before `end`, "15" or "0.3"; -1: none. *from: where it begins. */
static double number_before(const char *text, const char *end, const char **from)
{
    double value = 0.0, place = 1.0, point = 1.0;
    const char *p = end;

    while (p > text && ((p[-1] >= '0' && p[-1] <= '9') || p[-1] == '.')) {
        p--;
        if (*p == '.') {
            point = place;
            continue;
        }
        value += place * (*p - '0');
        place *= 10.0;
    }
    *from = p;
    return p < end ? value / point : -1.0;
}

/* Measures as they stand in sentences, and as readers of US units say them. */
static const struct measure {
    const char *metric, *us;
    double per;
    bool halves; /* else one decimal */
} measures[] = {{" cm", "in", CM_PER_IN, true},
                {" kg", "lb", KG_PER_LB, false},
                {" m", "ft", M_PER_FT, false},
                {" g", "oz", G_PER_OZ, false}};

static void say_measure(double metric, const struct measure *m, char *said)
{
    if (m->halves)
        say_halves(metric / m->per, said);
    else
        snprintf(said, VH_SAY_ROOM, "%.1f", metric / m->per);
}

static bool is_letter_or_digit(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

/* The first number of the text with a unit behind it; NULL: there is none. */
static const struct measure *first_measure(const char *text, const char **at)
{
    for (const char *p = text; *p; p++)
        for (size_t i = 0; *p == ' ' && i < sizeof measures / sizeof measures[0]; i++) {
            const size_t n = strlen(measures[i].metric);
            const char *from;
            if (strncmp(p, measures[i].metric, n) == 0 && !is_letter_or_digit(p[n]) &&
                number_before(text, p, &from) >= 0.0) {
                *at = p;
                return &measures[i];
            }
        }
    return NULL;
}

void vh_say_measures_in(const char *text, enum vh_say_units units, char *said, size_t room)
{
    const char *at = text, *from = text, *first = text;
    const struct measure *m = units == VH_SAY_US ? first_measure(text, &at) : NULL;
    double low = -1.0;

    if (!m) {
        snprintf(said, room, "%s", text);
        return;
    }
    const double value = number_before(text, at, &from);
    if (from - text > 4 && !strncmp(from - 4, " to ", 4))
        low = number_before(text, from - 4, &first);
    const int plain = (int)((low >= 0.0 ? first : from) - text);
    char least[VH_SAY_ROOM], most[VH_SAY_ROOM];
    say_measure(low, m, least);
    say_measure(value, m, most);
    snprintf(said, room, "%.*s%s%s%s %s", plain, text, low >= 0.0 ? least : "",
             low >= 0.0 ? " to " : "", most, m->us);
    const size_t n = strlen(said);
    if (n + 1 < room)
        vh_say_measures_in(at + strlen(m->metric), units, said + n, room - n);
}

void vh_say_price_in(const char *text, enum vh_say_units units, char *said, size_t room)
{
    static const char a_kg[] = " a kg";
    const size_t n = strlen(text), behind = sizeof a_kg - 1;
    const char *end = text + n, *from = text;

    while (end > text && !(end[-1] >= '0' && end[-1] <= '9'))
        end--;
    const double price = number_before(text, end, &from);
    if (units != VH_SAY_US || n < behind || strcmp(text + n - behind, a_kg) != 0 || price < 0.0)
        vh_say_measures_in(text, units, said, room);
    else
        snprintf(said, room, "%.*s%.2f%.*s a lb", (int)(from - text), text, price * KG_PER_LB,
                 (int)(text + n - behind - end), end);
}
