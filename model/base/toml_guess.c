#include "toml_parts.h"

#include <stdio.h>
#include <string.h>

#include "vh_text.h"

enum { WORD_MOST = 40 };

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static size_t digits_at(const char *text, size_t n, size_t i)
{
    size_t k = i;
    while (k < n && is_digit(text[k]))
        k++;
    return k - i;
}

bool vh_toml_is_number(const char *text, size_t n)
{
    size_t i = n > 0 && (text[0] == '-' || text[0] == '+') ? 1 : 0;
    const size_t whole = digits_at(text, n, i);
    if (whole == 0 || (whole > 1 && text[i] == '0'))
        return false;
    i += whole;
    if (i < n && text[i] == '.') {
        const size_t fraction = digits_at(text, n, ++i);
        if (fraction == 0)
            return false;
        i += fraction;
    }
    if (i < n && (text[i] == 'e' || text[i] == 'E')) {
        i++;
        if (i < n && (text[i] == '-' || text[i] == '+'))
            i++;
        const size_t exponent = digits_at(text, n, i);
        if (exponent == 0)
            return false;
        i += exponent;
    }
    return i == n;
}

bool vh_toml_is_word(const char *text, size_t n, const char *word)
{
    if (strlen(word) != n)
        return false;
    for (size_t i = 0; i < n; i++) {
        const char c = text[i] >= 'A' && text[i] <= 'Z' ? (char)(text[i] - 'A' + 'a') : text[i];
        if (c != word[i])
            return false;
    }
    return true;
}

static bool guess_word(struct vh_toml_parser *p, const char *at, size_t n,
                       enum vh_toml_within within)
{
    const size_t sign = *at == '-' || *at == '+' ? 1 : 0;
    if (vh_toml_is_word(at + sign, n - sign, "inf") ||
        vh_toml_is_word(at + sign, n - sign, "nan")) {
        vh_toml_fail(p, at, "inf and nan are not read; write a number");
        return true;
    }
    const char *truth = vh_toml_truth_of(at, n);
    if (!truth)
        return false;
    if (vh_toml_tell_wanted(p, at, n, within))
        return true;
    if (vh_toml_is_word(at, n, truth))
        vh_toml_fail(p, at, "%.*s is no value here; write %s", (int)n, at, truth);
    else /* it may be a name */
        vh_toml_fail(p, at, "%.*s is no value here; write \"%.*s\" if it is text, else %s", (int)n,
                     at, (int)n, at, truth);
    return true;
}

/* Three whole numbers with one kind of sign between them, as people write dates. false: no such
 * thing. */
static bool read_triple(const char *at, size_t n, int number[3], size_t digits[3], char *sign)
{
    size_t i = 0;
    for (int k = 0; k < 3; k++) {
        digits[k] = digits_at(at, n, i);
        if (digits[k] == 0 || digits[k] > 4)
            return false;
        number[k] = 0;
        for (size_t end = i + digits[k]; i < end; i++)
            number[k] = number[k] * 10 + (at[i] - '0');
        if (k < 2) {
            if (i == n || strchr("./-", at[i]) == NULL || (k == 1 && at[i] != *sign))
                return false;
            *sign = at[i++];
        }
    }
    return i == n;
}

static bool is_day(int year, int month, int day)
{
    char text[40];
    int64_t any;
    snprintf(text, sizeof text, "%04d-%02d-%02d", year, month, day);
    return vh_date_parse(text, &any) == VH_OK;
}

static bool guess_date(struct vh_toml_parser *p, const char *at, size_t n)
{
    int number[3];
    size_t digits[3];
    char sign = 0;
    if (!read_triple(at, n, number, digits, &sign))
        return false;
    const bool year_first = digits[0] == 4;
    int year = year_first ? number[0] : number[2];
    if (!year_first && digits[2] == 2)
        year += 2000;
    else if (!year_first && digits[2] != 4)
        return false;
    const int a = year_first ? number[1] : number[0], b = year_first ? number[2] : number[1];
    const bool a_is_month = is_day(year, a, b), b_is_month = !year_first && is_day(year, b, a);
    /* with points the day always comes first; with strokes both orders are in use */
    if (b_is_month && (!a_is_month || sign == '.' || a == b))
        vh_toml_fail(p, at, "a date is written year-month-day; write %04d-%02d-%02d", year, b, a);
    else if (b_is_month)
        vh_toml_fail(p, at,
                     "a date is written year-month-day; write %04d-%02d-%02d or %04d-%02d-%02d",
                     year, b, a, year, a, b);
    else if (a_is_month)
        vh_toml_fail(p, at, "a date is written year-month-day; write %04d-%02d-%02d", year, a, b);
    else
        vh_toml_fail(p, at, "no date; a day that exists, written as 2026-07-14, would be right");
    return true;
}

/* 22:30, 2026-07-14T12:00 */
static bool guess_time(struct vh_toml_parser *p, const char *at, size_t n)
{
    const size_t hour = digits_at(at, n, 0);
    if (n > 10 && hour == 4 && at[4] == '-' && at[7] == '-' && (at[10] == 'T' || at[10] == 't')) {
        vh_toml_fail(p, at, "a date with a time is not read; write %.10s", at);
        return true;
    }
    if (hour < 1 || hour > 2 || hour + 3 > n || at[hour] != ':' || digits_at(at, n, hour + 1) != 2)
        return false;
    const int minutes = (at[hour + 1] - '0') * 10 + (at[hour + 2] - '0');
    const int hours = hour == 1 ? at[0] - '0' : (at[0] - '0') * 10 + (at[1] - '0');
    const int hundredths = (minutes * 100 + 30) / 60;
    if (minutes < 60 && hours < 25)
        vh_toml_fail(p, at, "a time of day is not read; write hours as a number, %d.%02d", hours,
                     hundredths);
    else
        vh_toml_fail(p, at, "a time of day is not read; write hours as a number");
    return true;
}

/* 0x1F, 1_000, 012, .5, 5. */
static bool guess_form(struct vh_toml_parser *p, const char *at, size_t n)
{
    const size_t sign = *at == '-' || *at == '+' ? 1 : 0;
    if (n >= sign + 2 && at[sign] == '0' && strchr("xXoObB", at[sign + 1]) != NULL) {
        vh_toml_fail(p, at, "hexadecimal, octal and binary numbers are not read; write it in tens");
        return true;
    }
    if (n > WORD_MOST || n == sign)
        return false;
    char mended[2 * WORD_MOST + 4] = ""; /* a 0 behind each point at most */
    size_t k = 0;
    if (at[0] == '-')
        mended[k++] = '-';
    size_t i = sign;
    while (i + 1 < n && at[i] == '0' && is_digit(at[i + 1]))
        i++;
    if (at[i] == '.')
        mended[k++] = '0';
    bool underscore = false;
    for (; i < n; i++) {
        underscore = underscore || at[i] == '_';
        if (at[i] != '_')
            mended[k++] = at[i];
        if (at[i] == '.' && (i + 1 == n || !is_digit(at[i + 1])))
            mended[k++] = '0';
    }
    if (!vh_toml_is_number(mended, k))
        return false;
    vh_toml_fail(p, at, "%s; write %.*s",
                 underscore ? "a number has no underscores" : "a number of an odd form", (int)k,
                 mended);
    return true;
}

/* 12,5 and 1,234.5: text up to the end of all that belongs to it */
static bool guess_comma(struct vh_toml_parser *p, const char *at, enum vh_toml_within within)
{
    if (within == VH_TOML_IN_LIST)
        return false;
    size_t n = 0;
    while (at + n < p->end && (is_digit(at[n]) || at[n] == ',' || at[n] == '.' ||
                               (n == 0 && (at[n] == '-' || at[n] == '+'))))
        n++;
    while (n > 0 && at[n - 1] == ',')
        n--;
    const char *comma = memchr(at, ',', n);
    if (comma == NULL || n > WORD_MOST)
        return false;
    char point[WORD_MOST + 1], none[WORD_MOST + 1];
    size_t without = 0, commas = 0, after = 0;
    for (size_t i = 0; i < n; i++) {
        commas += at[i] == ',';
        after = at[i] == ',' ? 0 : after + 1;
        point[i] = at[i] == ',' ? '.' : at[i];
        if (at[i] != ',')
            none[without++] = at[i];
    }
    const bool is_point = commas == 1 && vh_toml_is_number(point, n);
    const bool is_none = vh_toml_is_number(none, without);
    if (is_point && after == 3)
        vh_toml_fail(p, at, "a comma in a number; write %.*s or %.*s", (int)n, point, (int)without,
                     none);
    else if (is_point)
        vh_toml_fail(p, at, "a decimal comma; write %.*s", (int)n, point);
    else if (is_none)
        vh_toml_fail(p, at, "commas in a number; write %.*s", (int)without, none);
    return is_point || is_none;
}

/* 12cm, $7.5, 80%, or a minus sign of typesetting */
static bool guess_sign(struct vh_toml_parser *p, const char *at, size_t n)
{
    static const char *const signs[] = {"$", "\xe2\x82\xac", "\xc2\xa3", "\xc2\xa5"};
    const char minus[] = "\xe2\x88\x92";
    if (n > 3 && memcmp(at, minus, 3) == 0 && vh_toml_is_number(at + 3, n - 3) && n <= WORD_MOST) {
        vh_toml_fail(p, at, "a minus sign of typesetting; write -%.*s", (int)(n - 3), at + 3);
        return true;
    }
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        const size_t length = strlen(signs[i]);
        if (n > length && n <= WORD_MOST && memcmp(at, signs[i], length) == 0 &&
            vh_toml_is_number(at + length, n - length)) {
            vh_toml_fail(p, at, "a sign of money; write %.*s alone", (int)(n - length),
                         at + length);
            return true;
        }
    }
    size_t number = n < WORD_MOST ? n : WORD_MOST;
    while (number > 0 && !vh_toml_is_number(at, number))
        number--;
    if (number == 0)
        return false; /* number < n: a number alone was a form or a comma */
    if (number + 1 == n && at[number] == '%')
        vh_toml_fail(p, at, "a percent sign; write %.*s, or its hundredth for a share", (int)number,
                     at);
    else if ((unsigned char)at[number] >= 0x80 || vh_toml_is_key_char(at[number]))
        vh_toml_fail(p, at, "letters behind a number; the key names the unit: write %.*s",
                     (int)number, at);
    else
        return false;
    return true;
}

/* Anything else is text without quotes, or with the wrong ones. */
static void guess_text(struct vh_toml_parser *p, const char *at, size_t n,
                       enum vh_toml_within within)
{
    const size_t curly = vh_toml_curly(p, at);
    size_t length = vh_toml_rest(p, at);
    if (within != VH_TOML_IN_LINE) {
        const char *q = at;
        while (q < at + length && *q != ',' && *q != ']' && *q != '}')
            q++;
        length = (size_t)(q - at);
        while (length > n && (at[length - 1] == ' ' || at[length - 1] == '\t'))
            length--;
    }
    if (curly == 0 && vh_toml_tell_wanted(p, at, length, within))
        return;
    const char *const wrong =
        curly > 0 ? "curly quotes are not read; use straight ones" : "text stands in quotes";
    size_t begin = curly, end = curly;
    while (end < length && vh_toml_curly(p, at + end) == 0)
        end++;
    const bool holds_quote = memchr(at, '"', length) != NULL || memchr(at, '\\', length) != NULL;
    if (begin == end || holds_quote) {
        vh_toml_fail(p, at, "%s", wrong);
        return;
    }
    char shown[VH_TOML_SHOWN_BYTES + 4];
    vh_text_shorten(at + begin, end - begin, VH_TOML_SHOWN_BYTES, shown);
    vh_toml_fail(p, at, "%s; write \"%s\"", wrong, shown);
}

void vh_toml_guess(struct vh_toml_parser *p, const char *at, size_t n, enum vh_toml_within within)
{
    if (n == 0) {
        vh_toml_fail(p, at,
                     "no value here; a number, \"text\", true, false or a date would be "
                     "right");
        return;
    }
    if (n > 1 && at[n - 1] == ';' && vh_toml_is_number(at, n - 1)) {
        vh_toml_fail(p, at + n - 1, "; behind a value; take it away");
        return;
    }
    if (guess_word(p, at, n, within) || guess_comma(p, at, within) || guess_date(p, at, n) ||
        guess_time(p, at, n) || guess_form(p, at, n) || guess_sign(p, at, n))
        return;
    guess_text(p, at, n, within);
}
