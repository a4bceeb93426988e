/* Decimal text to the nearest double.
 *
 * Truth: the C library's strtod in the C locale, which rounds correctly (glibc manual, 20.11.2);
 * and cases whose bits follow from IEEE 754 itself. The library never uses strtod.
 */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_number.h"

static bool parse(const char *text, double *value)
{
    return vh_number_parse(text, strlen(text), '.', value);
}

static uint64_t bits_of(double x)
{
    uint64_t u;
    memcpy(&u, &x, sizeof u);
    return u;
}

/* xorshift64 (Marsaglia 2003, J. Stat. Softw. 8(14)): only to spread the test inputs */
static uint64_t next(uint64_t *x)
{
    *x ^= *x << 13;
    *x ^= *x >> 7;
    *x ^= *x << 17;
    return *x;
}

static void same_as_strtod(const char *text)
{
    double value = -77.0;
    const double expected = strtod(text, NULL);
    const bool read = parse(text, &value);
    if (isinf(expected)) {
        cr_assert(not(read), "%s is too great for a double", text);
        return;
    }
    cr_assert(read, "%s", text);
    cr_assert(eq(u64, bits_of(value), bits_of(expected)), "%s: %a, not %a", text, value, expected);
}

Test(number, hundred_thousand_decimals_of_up_to_17_digits_get_the_nearest_double)
{
    uint64_t x = 88172645463325252u;
    for (int i = 0; i < 100000; i++) {
        char digits[20] = "", text[60];
        const int n = 1 + (int)(next(&x) % 17);
        const int point = (int)(next(&x) % (unsigned)(n + 1));
        for (int k = 0; k < n; k++)
            digits[k] = (char)('0' + next(&x) % 10);
        snprintf(text, sizeof text, "%s%.*s.%se%d", next(&x) & 1 ? "-" : "", point, digits,
                 digits + point, (int)(next(&x) % 45) - 22);
        same_as_strtod(text);
    }
}

Test(number, any_double_comes_back_from_17_digits_and_from_fewer_or_more)
{
    uint64_t x = 4101842887655102017u;
    for (int i = 0; i < 50000; i++) {
        const uint64_t u = next(&x);
        double v;
        char text[900];
        memcpy(&v, &u, sizeof v);
        if (!isfinite(v))
            continue;
        snprintf(text, sizeof text, "%.16e", v);
        same_as_strtod(text);
        double back = 0.0;
        cr_assert(parse(text, &back) && bits_of(back) == u, "%s", text);
        snprintf(text, sizeof text, "%.*e", (int)(next(&x) % 30), v);
        same_as_strtod(text);
        if (i % 50 == 0) {
            snprintf(text, sizeof text, "%.*e", (int)(next(&x) % 800), v);
            same_as_strtod(text);
        }
    }
}

Test(number, half_way_between_two_doubles_goes_to_the_even_one_and_a_digit_more_decides)
{
    /* 2^53 + 1 lies half-way between 2^53 and 2^53 + 2 */
    double v = 0.0;
    cr_assert(parse("9007199254740993", &v));
    cr_assert(eq(u64, bits_of(v), bits_of(9007199254740992.0)));
    cr_assert(parse("9007199254740993.00000000000000000000000000000001", &v));
    cr_assert(eq(u64, bits_of(v), bits_of(9007199254740994.0)));
    cr_assert(parse("9007199254740995", &v));
    cr_assert(eq(u64, bits_of(v), bits_of(9007199254740996.0)));

    /* the same with the deciding digit far behind what is kept */
    char text[2000] = "9007199254740993.";
    memset(text + strlen(text), '0', 1500);
    strcat(text, "1");
    cr_assert(parse(text, &v));
    cr_assert(eq(u64, bits_of(v), bits_of(9007199254740994.0)));

    uint64_t x = 2463534242u;
    for (int i = 0; i < 2000; i++) {
        uint64_t u = next(&x) >> (1 + i % 62), above = u + 1;
        double a, b;
        memcpy(&a, &u, sizeof a);
        memcpy(&b, &above, sizeof b);
        if (!isfinite(a) || !isfinite(b))
            continue;
        snprintf(text, sizeof text, "%.1100Lg", ((long double)a + (long double)b) / 2);
        same_as_strtod(text);
    }
}

Test(number, the_ends_of_the_range_are_kept)
{
    const char *const texts[] = {
        "4.9406564584124654e-324",     "2.4703282292062327e-324",
        "2.4703282292062328e-324",     "1e-400",
        "2.2250738585072011e-308",     "2.2250738585072014e-308",
        "1.7976931348623157e308",      "1.7976931348623158e308",
        "1.7976931348623159e308",      "1e309",
        "1e-999999999999999999999",    "1e999999999999999999999",
        "0e999999999999999999999",     "-0",
        "0.0000000000000000000001e22", "18446744073709551615",
        "18446744073709551616",        "9999999999999999999e-19",
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        same_as_strtod(texts[i]);
}

Test(number, a_decimal_comma_is_read_only_where_it_is_the_format)
{
    double v = 7.0;
    cr_assert(vh_number_parse("12,5", 4, ',', &v));
    cr_assert(eq(u64, bits_of(v), bits_of(12.5)));
    cr_assert(not(vh_number_parse("12.5", 4, ',', &v)));
    cr_assert(not(vh_number_parse("12,5", 4, '.', &v)));
    cr_assert(eq(u64, bits_of(v), bits_of(12.5)), "left alone");
}

Test(number, forms_of_other_people_s_files_are_read)
{
    const char *const texts[] = {".5", "5.", "+5", "007", "1E5", "1e+5", "-.5e-3", "00.50"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        same_as_strtod(texts[i]);
}

Test(number, what_is_no_decimal_number_is_refused_and_nothing_is_written)
{
    const char *const texts[] = {"",      ".",     "-",     "+",    "e5",   "1e",    "1e+",
                                 "--1",   "0x1F",  "inf",   "nan",  "-inf", "1 ",    " 1",
                                 "1.2.3", "1,000", "1_000", "12cm", "1e5e", "1e5.0", "\xef\xbc\x91",
                                 "1-2",   "+-1"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        double v = 42.0;
        cr_assert(not(parse(texts[i], &v)), "\"%s\"", texts[i]);
        cr_assert(eq(u64, bits_of(v), bits_of(42.0)), "\"%s\"", texts[i]);
    }
}

Test(number, only_the_given_bytes_are_looked_at)
{
    double v = 0.0;
    cr_assert(vh_number_parse("12345", 2, '.', &v));
    cr_assert(eq(u64, bits_of(v), bits_of(12.0)));
}
