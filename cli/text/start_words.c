/* What she typed: numbers with or without a unit, words, dates. The C library's own readers of
 * numbers follow the locale, so they are not used. */
#include "vh_start.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct vh_start_crop crops[] = {
    {"tomato-large|tomatoes|tomato|large tomatoes|large tomato|slicers|slicer|beefsteak|"
     "beefsteaks|beefsteak tomatoes|beefsteak tomato|beef tomatoes|beef tomato",
     "tomato-large", "tomatoes", false},
    {"tomato-plum|plum tomatoes|plum tomato|plums|plum", "tomato-plum", "plums", false},
    {"tomato-cherry|cherry tomatoes|cherry tomato|cherries|cherry", "tomato-cherry", "cherries",
     false},
    {"tomato-cluster|cluster tomatoes|cluster tomato|truss tomatoes|truss tomato|on the vine",
     "tomato-cluster", "tomatoes", false},
    {"tomato-cocktail|cocktail tomatoes|cocktail tomato|cocktail", "tomato-cocktail", "cocktails",
     false},
    {"cucumber-long|cucumbers|cucumber|long cucumbers|long cucumber", "cucumber-long", "cucumbers",
     true},
    {"cucumber-mini|mini cucumbers|mini cucumber|small cucumbers|small cucumber", "cucumber-mini",
     "cucumbers", false},
    {"pepper-large|peppers|pepper|large peppers|large pepper|sweet peppers|sweet pepper|bell peppers|"
     "bell pepper",
     "pepper-large", "peppers", false},
    {"pepper-small|small peppers|small pepper|snack peppers|snack pepper|mini peppers|mini pepper",
     "pepper-small", "peppers", false},
    {"aubergine-large|aubergines|aubergine|eggplant-large|eggplants|eggplant", "aubergine-large",
     "aubergines", false},
};

static const struct {
    const char *words, *name;
} covers[] = {
    {"glass", "glass"},
    {"film-single|single film|film|plastic|one layer|one layer of film|single|1 layer",
     "film-single"},
    {"film-double|double film|two layers|two layers of film|double|2 layers|inflated",
     "film-double"},
    {"polycarbonate|twin wall|panels", "polycarbonate"},
};

static char lower_case(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* Small letters, single blanks, none at the ends; false if it is too long for an answer. */
static bool tidy(const char *text, char *out, size_t room)
{
    size_t n = 0;

    for (; *text; text++) {
        const bool blank = *text == ' ' || *text == '\t';

        if (blank && (n == 0 || out[n - 1] == ' '))
            continue;
        if (n + 1 >= room)
            return false;
        out[n++] = blank ? ' ' : lower_case(*text);
    }
    if (n > 0 && out[n - 1] == ' ')
        n--;
    out[n] = 0;
    return true;
}

static bool is_one_of(const char *text, const char *words)
{
    const size_t n = strlen(text);

    while (n > 0 && *words) {
        const size_t part = strcspn(words, "|");

        if (part == n && strncmp(words, text, n) == 0)
            return true;
        words += part + (words[part] == '|');
    }
    return false;
}

/* An unsigned decimal, "44.5" or "44,5"; moves *p behind it and the blanks after it. */
static bool read_decimal(const char **p, double *value)
{
    const char *at = *p;
    double v = 0.0, place = 1.0;
    int digits = 0;

    for (; *at >= '0' && *at <= '9' && digits < 12; at++, digits++)
        v = v * 10.0 + (*at - '0');
    if (digits > 0 && (*at == '.' || *at == ',') && at[1] >= '0' && at[1] <= '9')
        for (at++; *at >= '0' && *at <= '9' && digits < 12; at++, digits++)
            v += (*at - '0') * (place /= 10.0);
    while (*at == ' ')
        at++;
    *p = at;
    *value = v;
    return digits > 0;
}

/* The same for a sign in front. */
static bool read_signed(const char **p, double *value)
{
    const double sign = **p == '-' ? -1.0 : 1.0;

    if (**p == '-' || **p == '+')
        (*p)++;
    if (!read_decimal(p, value))
        return false;
    *value *= sign;
    return true;
}

/* Skips one of the marks of degrees and minutes, in bytes of UTF-8 where it has several. */
static void skip_marks(const char **p)
{
    static const char *const marks[] = {
        "\xC2\xB0", "\xE2\x80\xB2", "\xE2\x80\xB3", "'", "\"", "deg", " "};
    bool found = true;

    while (found) {
        found = false;
        for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++)
            if (strncmp(*p, marks[i], strlen(marks[i])) == 0) {
                *p += strlen(marks[i]);
                found = true;
            }
    }
}

static bool read_latitude(const char *t, struct vh_start_answers *a)
{
    double deg, part, unit = 60.0;
    const bool minus = *t == '-';
    const char *p = t + (minus || *t == '+');

    if (!read_decimal(&p, &deg))
        return false;
    for (skip_marks(&p); unit <= 3600.0 && read_decimal(&p, &part); unit *= 60.0) {
        if (part >= 60.0)
            return false;
        deg += part / unit;
        skip_marks(&p);
    }
    const bool south = is_one_of(p, "s|south"), north = is_one_of(p, "n|north");
    if ((*p && !south && !north) || (minus && (south || north)) || deg > 66.0)
        return false;
    a->latitude_deg = minus || south ? -deg : deg;
    return true;
}

static bool read_heat(const char *t, struct vh_start_answers *a)
{
    const char *p = t;
    double v;

    if (is_one_of(t, "no|none|not|unheated|not heated|no heater|0 heat")) {
        a->knows_heat = true;
        a->heated = false;
        return true;
    }
    if (!read_signed(&p, &v))
        return false;
    skip_marks(&p);
    const bool f = is_one_of(p, "f|fahrenheit"), c = is_one_of(p, "c|celsius");
    if (*p && !f && !c)
        return false;
    const bool us = f || (!c && a->units == VH_SAY_US);
    const double v_c = us ? (v - 32.0) / 1.8 : v;
    if (v_c < 0.0 || v_c > 30.0)
        return false;
    a->knows_heat = a->heated = true;
    a->heat = v;
    a->heat_us = us;
    return true;
}

static bool read_wire(const char *t, struct vh_start_answers *a)
{
    const char *p = t;
    double v, inches = 0.0;
    bool us = a->units == VH_SAY_US;

    if (!read_decimal(&p, &v))
        return false;
    if (is_one_of(p, "in|inch|inches|\"")) {
        v /= 12.0;
        us = true;
    } else if (is_one_of(p, "cm|centimetres|centimeters")) {
        v /= 100.0;
        us = false;
    } else if (is_one_of(p, "m|metres|meters|metre|meter")) {
        us = false;
    } else if (*p) {
        const size_t word = strncmp(p, "feet", 4) == 0   ? 4
                            : strncmp(p, "foot", 4) == 0 ? 4
                            : strncmp(p, "ft", 2) == 0   ? 2
                                                         : (size_t)(*p == '\'');
        p += word;
        while (*p == ' ')
            p++;
        if (word == 0 || (*p && (!read_decimal(&p, &inches) || inches >= 12.0)) ||
            (*p && !is_one_of(p, "in|inch|inches|\"")))
            return false;
        v += inches / 12.0;
        us = true;
    }
    const double v_m = us ? v * 0.3048 : v;
    if (v_m < 1.0 || v_m > 8.0)
        return false;
    a->wire = v;
    a->wire_us = us;
    return true;
}

static bool read_whole(const char *t, size_t n, int *value)
{
    int v = 0;

    if (n == 0 || n > 6)
        return false;
    for (size_t i = 0; i < n; i++) {
        if (t[i] < '0' || t[i] > '9')
            return false;
        v = v * 10 + (t[i] - '0');
    }
    *value = v;
    return v > 0;
}

bool vh_start_read_plants(const char *text, struct vh_start_answers *a, char why[VH_START_WHY])
{
    char t[VH_START_WORD];
    const bool fits = tidy(text, t, sizeof t);

    if (fits && is_one_of(t, "?|don't know|dont know|no idea"))
        return true;
    if (fits && read_whole(t, strlen(t), &a->plants))
        return true;
    snprintf(why, VH_START_WHY, "write a whole number of plants, as in 48");
    return false;
}

/* NULL: none */
static const struct vh_start_crop *crop_called(const char *word)
{
    for (size_t i = 0; i < sizeof crops / sizeof crops[0]; i++)
        if (is_one_of(word, crops[i].words))
            return &crops[i];
    return NULL;
}

/* The number of plants, 0 where there is none, and the word beside it; false: not such a number. */
static bool split_crop(const char *t, int *plants, char word[VH_START_WORD])
{
    const size_t n = strlen(t);
    size_t from = 0, to = n, digits = strspn(t, "0123456789");

    *plants = 0;
    if (digits > 0 && (digits == n || t[digits] == ' ')) {
        if (!read_whole(t, digits, plants))
            return false;
        from = digits + (digits < n);
    } else {
        while (to > 0 && t[to - 1] >= '0' && t[to - 1] <= '9')
            to--;
        if (to < n && (to == 0 || t[to - 1] != ' ' || !read_whole(t + to, n - to, plants)))
            return false;
        to = to < n ? to - 1 : n;
    }
    snprintf(word, VH_START_WORD, "%.*s", (int)(to - from), t + from);
    return true;
}

/* "48 tomatoes", "tomatoes 48", "tomatoes", "48". */
static bool read_crop(const char *t, struct vh_start_answers *a)
{
    char word[VH_START_WORD];
    int plants;

    if (!split_crop(t, &plants, word))
        return false;
    const struct vh_start_crop *found = crop_called(word);
    for (char *p = word; !found && *p; p++) /* "sweet-pepper" */
        *p = *p == '-' ? ' ' : *p;
    found = found ? found : crop_called(word);
    if (!found && word[0])
        return false;
    if (found)
        a->crop = found;
    if (plants > 0)
        a->plants = plants;
    return true;
}

static bool read_cover(const char *t, struct vh_start_answers *a)
{
    for (size_t i = 0; i < sizeof covers / sizeof covers[0]; i++)
        if (is_one_of(t, covers[i].words)) {
            a->cover = covers[i].name;
            return true;
        }
    return false;
}

static int month_of(const char *t, size_t n)
{
    static const char *const months[] = {"january",   "february", "march",    "april",
                                         "may",       "june",     "july",     "august",
                                         "september", "october",  "november", "december"};

    for (int i = 0; n >= 3 && i < 12; i++)
        if (n <= strlen(months[i]) && strncmp(months[i], t, n) == 0)
            return i + 1;
    return n == 4 && strncmp(t, "sept", 4) == 0 ? 9 : 0;
}

/* The day of month `month` that lies nearest to today, of last, this and next year. */
static bool nearest_date(int64_t today, int month, int day, int64_t *found)
{
    char text[40], now[11];
    bool any = false;

    vh_date_format(today, now);
    const int this_year =
        (now[0] - '0') * 1000 + (now[1] - '0') * 100 + (now[2] - '0') * 10 + (now[3] - '0');
    for (int year = this_year - 1; year <= this_year + 1; year++) {
        int64_t d;

        snprintf(text, sizeof text, "%04d-%02d-%02d", year, month, day);
        if (vh_date_parse(text, &d) != VH_OK)
            continue;
        const int64_t far = d > today ? d - today : today - d;
        if (!any || far < (*found > today ? *found - today : today - *found))
            *found = d;
        any = true;
    }
    return any;
}

/* "15", "15th"; of a third of a month its middle day: "early", "mid", "late". 0: none of these. */
static int day_of(const char *t, size_t n)
{
    static const struct {
        const char *word;
        int day;
    } third[] = {{"early", 5}, {"mid", 15}, {"middle of", 15}, {"late", 25}};
    static const char *const ordinal[] = {"st", "nd", "rd", "th"};
    int day = 0;

    for (size_t i = 0; i < sizeof third / sizeof third[0]; i++)
        if (n == strlen(third[i].word) && strncmp(t, third[i].word, n) == 0)
            return third[i].day;
    if (read_whole(t, n, &day))
        return day;
    for (size_t i = 0; n > 2 && i < sizeof ordinal / sizeof ordinal[0]; i++)
        if (strncmp(t + n - 2, ordinal[i], 2) == 0)
            return read_whole(t, n - 2, &day) ? day : 0;
    return 0;
}

/* "2026-05-15", "15 May", "May 15", "mid-May": a month by its name, so that 5/6 cannot be misread.
 */
static bool read_set_out(const char *t, struct vh_start_answers *a)
{
    enum { FARTHEST_D = 550 };
    int64_t d = 0;
    int day = 0, month = 0;

    if (is_one_of(t, "today|now")) {
        d = a->today;
    } else if (vh_date_parse(t, &d) != VH_OK) {
        const char *hyphen = strchr(t, '-'), *blank = hyphen ? hyphen : strrchr(t, ' ');
        const size_t first = blank ? (size_t)(blank - t) : 0;

        if (!blank)
            return false;
        const size_t rest = strlen(blank + 1);
        month = month_of(blank + 1, rest);
        day = day_of(t, first);
        if (month == 0 || day == 0) {
            month = month_of(t, first);
            day = day_of(blank + 1, rest);
        }
        if (month == 0 || day == 0 || day > 31 || !nearest_date(a->today, month, day, &d))
            return false;
    }
    if (d < a->today - FARTHEST_D || d > a->today + FARTHEST_D)
        return false;
    a->knows_set_out = true;
    a->set_out = d;
    return true;
}

static bool read_market(const char *t, struct vh_start_answers *a)
{
    static const char *const days[] = {"monday", "tuesday",  "wednesday", "thursday",
                                       "friday", "saturday", "sunday"};
    bool on[7] = {false}, any = false;

    if (is_one_of(t, "no|none|no market"))
        return true;
    for (const char *p = t; *p;) {
        const size_t n = strcspn(p, " ,;+&");
        bool known = n == 0 || (n == 3 && strncmp(p, "and", 3) == 0);

        for (int i = 0; n >= 3 && i < 7; i++)
            if (n <= strlen(days[i]) + 1 &&
                strncmp(p, days[i], n < strlen(days[i]) ? n : strlen(days[i])) == 0 &&
                (n <= strlen(days[i]) || p[n - 1] == 's'))
                known = on[i] = any = true;
        if (!known)
            return false;
        p += n + (p[n] != 0);
    }
    if (any)
        memcpy(a->market, on, sizeof on);
    return any;
}

static bool read_units(const char *t, struct vh_start_answers *a)
{
    const bool us = is_one_of(t, "us|feet|ft|pounds|lb|f"), metric = is_one_of(t, "metric|m|kg|c");

    if (us || metric)
        a->units = us ? VH_SAY_US : VH_SAY_METRIC;
    return us || metric;
}

static const char *right_answer(enum vh_start_question q)
{
    switch (q) {
    case VH_START_UNITS:
        return "write metric or us";
    case VH_START_LATITUDE:
        return "write the latitude from 66 S to 66 N, as in 44.5 or 44 30 N or 33 S";
    case VH_START_HEAT:
        return "write 13C or 55F (0 to 30 C, 32 to 86 F), or none";
    case VH_START_COVER:
        return "write glass, film-single, film-double or polycarbonate";
    case VH_START_WIRE:
        return "write 2.2 m or 7 ft or 7 ft 6 in (1 to 8 m, 3.3 to 26 ft)";
    case VH_START_CROP:
        return "write a crop, one for now: tomatoes, cherries, cucumbers, peppers or aubergines (all "
               "kinds: vinehand explain planting.crop)";
    case VH_START_SET_OUT:
        return "write a date near today, the month by its name, as in 15 May, or 2026-05-15";
    case VH_START_MARKET:
        return "write one or more days, as in sat or wed, sat; or none";
    case VH_START_QUESTIONS:
        break;
    }
    return "";
}

bool vh_start_read(enum vh_start_question q, const char *text, struct vh_start_answers *a,
                   char why[VH_START_WHY])
{
    static bool (*const reader[VH_START_QUESTIONS])(const char *, struct vh_start_answers *) = {
        [VH_START_UNITS] = read_units,     [VH_START_LATITUDE] = read_latitude,
        [VH_START_HEAT] = read_heat,       [VH_START_COVER] = read_cover,
        [VH_START_WIRE] = read_wire,       [VH_START_CROP] = read_crop,
        [VH_START_SET_OUT] = read_set_out, [VH_START_MARKET] = read_market,
    };
    char t[VH_START_WORD], word[VH_START_WORD];
    int plants;
    const bool fits = tidy(text, t, sizeof t);

    if (fits && (!t[0] || is_one_of(t, "?|don't know|dont know|do not know|no idea")))
        return true;
    if (fits && reader[q](t, a))
        return true;
    const bool number_is_wrong = q == VH_START_CROP && fits && !split_crop(t, &plants, word);
    snprintf(why, VH_START_WHY, "%s",
             number_is_wrong ? "write a whole number of plants from 1, as in 48 tomatoes"
                             : right_answer(q));
    return false;
}
