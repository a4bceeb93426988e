#include "vh_number.h"

#include <stdint.h>
#include <string.h>

/* 800 digits tell any decimal apart from a half-way point between doubles (767 are needed at most:
 * 53 bits at 2^-1074); digits beyond are kept as one that only says "a little more". */
enum { DIGITS_MOST = 800, LIMBS_MOST = 160 };

/* sign * 0.d1d2d3... * 10^point */
struct decimal {
    bool negative, cut; /* cut: digits other than 0 were dropped */
    int digits;         /* kept, without leading zeros */
    int64_t point;
    unsigned char digit[DIGITS_MOST];
};

/* What the first pass over the text finds; enough for nearly every number, without keeping its
 * digits. */
struct shape {
    bool negative;
    int64_t significant; /* digits from the first other than 0 */
    uint64_t whole;      /* the first 19 of them as one whole number */
    int64_t exponent;    /* value = whole * 10^exponent while significant <= 19 */
    const char *digits_begin, *digits_end;
    int64_t written_exponent; /* after e */
};

/* Powers that a double holds exactly: 5^22 < 2^53. */
static const double exact_power[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                     1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                     1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
enum { EXACT_POWER_MOST = 22, WHOLE_DIGITS_MOST = 19 };

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* The number after e; huge ones are held at a bound that is far outside any double whatever the
 * digits (64 KiB) say. */
static bool read_exponent(const char *p, const char *end, int64_t *exponent)
{
    const int64_t bound = 1000000000;
    bool negative = false;
    if (p < end && (*p == '-' || *p == '+'))
        negative = *p++ == '-';
    if (p == end)
        return false;
    int64_t e = 0;
    for (; p < end; p++) {
        if (!is_digit(*p))
            return false;
        if (e < bound)
            e = e * 10 + (*p - '0');
    }
    *exponent = negative ? -e : e;
    return true;
}

static bool read_shape(const char *text, size_t length, char decimal, struct shape *s)
{
    const char *p = text, *const end = text + length;
    *s = (struct shape){0};
    if (p < end && (*p == '-' || *p == '+'))
        s->negative = *p++ == '-';
    s->digits_begin = p;
    bool any = false, beyond_point = false;
    int64_t exponent = 0;
    for (; p < end; p++) {
        if (is_digit(*p)) {
            any = true;
            if (s->significant > 0 || *p != '0') {
                if (s->significant < WHOLE_DIGITS_MOST)
                    s->whole = s->whole * 10 + (uint64_t)(*p - '0');
                s->significant++;
            }
            exponent -= beyond_point;
        } else if (*p == decimal && !beyond_point) {
            beyond_point = true;
        } else {
            break;
        }
    }
    s->digits_end = p;
    if (!any)
        return false;
    if (p < end) {
        if ((*p != 'e' && *p != 'E') || !read_exponent(p + 1, end, &s->written_exponent))
            return false;
    }
    s->exponent = exponent + s->written_exponent;
    return true;
}

/* whole / 10^k in twice the precision of a double (Dekker's product), or false where the last bit
 * stays open. */
static bool divide_closely(uint64_t whole, int k, double *value)
{
    const double split = 0x1p27 + 1.0;
    const double power = exact_power[k];
    const double high = (double)(whole & ~(uint64_t)0x7ff); /* 53 bits or fewer: exact */
    const double low = (double)(whole & 0x7ff);
    const double q = high / power;
    const double cq = split * q, q1 = cq - (cq - q), q2 = q - q1;
    const double cp = split * power, p1 = cp - (cp - power), p2 = power - p1;
    const double product = q * power;
    const double product_error = ((q1 * p1 - product) + q1 * p2 + q2 * p1) + q2 * p2;
    const double rest = (((high - product) - product_error) + low) / power;
    /* rest is good to a few units of its own last place; 2^-40 of it is ample */
    const double margin = rest * 0x1p-40;
    const double a = q + (rest - margin), b = q + (rest + margin);
    *value = a;
    return a == b;
}

/* ---- the exact way, with whole numbers of any length ---- */

struct big {
    int limbs;
    uint32_t limb[LIMBS_MOST];
}; /* least first, no zeros on top */

static void big_multiply_add(struct big *b, uint32_t factor, uint32_t addend)
{
    uint64_t carry = addend;
    for (int i = 0; i < b->limbs; i++) {
        carry += (uint64_t)b->limb[i] * factor;
        b->limb[i] = (uint32_t)carry;
        carry >>= 32;
    }
    if (carry)
        b->limb[b->limbs++] = (uint32_t)carry;
}

static void big_multiply_power_of_ten(struct big *b, int64_t power)
{
    for (; power >= 9; power -= 9)
        big_multiply_add(b, 1000000000u, 0);
    for (; power > 0; power--)
        big_multiply_add(b, 10u, 0);
}

static int big_bits(const struct big *b)
{
    int bits = 32 * (b->limbs - 1);
    for (uint32_t top = b->limb[b->limbs - 1]; top; top >>= 1)
        bits++;
    return bits;
}

static void big_shift_left(struct big *b, int by)
{
    const int words = by / 32, bits = by % 32;
    b->limb[b->limbs] = 0;
    for (int i = b->limbs; i >= 0; i--) {
        const uint64_t pair = (uint64_t)b->limb[i] << 32 | (i > 0 ? b->limb[i - 1] : 0u);
        b->limb[i + words] = (uint32_t)(pair >> (32 - bits));
    }
    memset(b->limb, 0, (size_t)words * sizeof b->limb[0]);
    b->limbs += words + 1;
    if (b->limb[b->limbs - 1] == 0)
        b->limbs--;
}

static int big_compare(const struct big *a, const struct big *b)
{
    if (a->limbs != b->limbs)
        return a->limbs < b->limbs ? -1 : 1;
    for (int i = a->limbs - 1; i >= 0; i--)
        if (a->limb[i] != b->limb[i])
            return a->limb[i] < b->limb[i] ? -1 : 1;
    return 0;
}

/* a -= b, a >= b */
static void big_subtract(struct big *a, const struct big *b)
{
    int64_t borrow = 0;
    for (int i = 0; i < a->limbs; i++) {
        const int64_t d = (int64_t)a->limb[i] - (i < b->limbs ? (int64_t)b->limb[i] : 0) - borrow;
        borrow = d < 0;
        a->limb[i] = (uint32_t)d;
    }
    while (a->limbs > 0 && a->limb[a->limbs - 1] == 0)
        a->limbs--;
}

/* Keeps the digits that read_shape only counted. */
static void keep_digits(const struct shape *s, char decimal, struct decimal *d)
{
    d->negative = s->negative;
    d->cut = false;
    d->digits = 0;
    d->point = s->exponent + s->significant;
    for (const char *p = s->digits_begin; p < s->digits_end; p++) {
        if (*p == decimal || (d->digits == 0 && *p == '0'))
            continue;
        if (d->digits < DIGITS_MOST)
            d->digit[d->digits++] = (unsigned char)(*p - '0');
        else if (*p != '0')
            d->cut = true;
    }
    while (!d->cut && d->digits > 1 && d->digit[d->digits - 1] == 0)
        d->digits--;
    if (d->cut)
        d->digit[DIGITS_MOST - 1] |=
            1; /* never turns a half-way point into one: those have fewer digits */
}

/* mantissa (with one more bit and "a little more" below it) * 2^exponent to the nearest double's
 * bits. */
static bool round_bits(uint64_t quotient, int quotient_bits, bool more, int exponent,
                       uint64_t *bits)
{
    const int least_exponent = -1074,
              greatest_exponent = 971; /* of the last of 53 bits (IEEE 754 binary64) */
    int drop = quotient_bits - 53;
    if (exponent + drop < least_exponent)
        drop = least_exponent - exponent;
    /* from 1e-325 on 61 bits are dropped at most: what is smaller was taken for 0 before */
    const uint64_t rest = quotient & (((uint64_t)1 << drop) - 1), half = (uint64_t)1 << (drop - 1);
    uint64_t m = quotient >> drop;
    if (rest > half || (rest == half && (more || (m & 1))))
        m++;
    exponent += drop;
    if (m == (uint64_t)1 << 53) {
        m >>= 1;
        exponent++;
    }
    if (exponent > greatest_exponent)
        return false;
    *bits = m < (uint64_t)1 << 52
                ? m
                : (uint64_t)(exponent + 1075) << 52 | (m & (((uint64_t)1 << 52) - 1));
    return true;
}

/* Nearest double by long division of whole numbers: digits * 10^up / 10^down. */
static bool divide_exactly(const struct decimal *d, double *value)
{
    struct big n = {.limbs = 0}, by = {.limbs = 1, .limb = {1}};
    for (int i = 0; i < d->digits; i++)
        big_multiply_add(&n, 10u, d->digit[i]);
    const int64_t power = d->point - d->digits;
    if (power >= 0)
        big_multiply_power_of_ten(&n, power);
    else
        big_multiply_power_of_ten(&by, -power);

    /* scaled so that the quotient has 55 or 56 bits: 53, one to round by, one or two spare */
    const int shift = 55 - (big_bits(&n) - big_bits(&by));
    if (shift > 0)
        big_shift_left(&n, shift);
    else if (shift < 0)
        big_shift_left(&by, -shift);
    big_shift_left(&by, 55);
    uint64_t quotient = 0;
    for (int i = 55; i >= 0; i--) {
        quotient <<= 1;
        if (big_compare(&n, &by) >= 0) {
            big_subtract(&n, &by);
            quotient |= 1;
        }
        if (i > 0 && n.limbs > 0)
            big_shift_left(&n, 1);
    }
    int quotient_bits = 0;
    for (uint64_t q = quotient; q; q >>= 1)
        quotient_bits++;
    uint64_t bits;
    if (!round_bits(quotient, quotient_bits, n.limbs > 0, -shift, &bits))
        return false;
    memcpy(value, &bits, sizeof bits);
    return true;
}

static bool parse_exactly(const struct shape *s, char decimal, double *magnitude)
{
    const int64_t point_least = -324,
                  point_most = 309; /* 2.47e-324 is half the smallest; 1.797...e308 the greatest */
    struct decimal d;
    keep_digits(s, decimal, &d);
    if (d.point > point_most)
        return false;
    if (d.point < point_least) {
        *magnitude = 0.0;
        return true;
    }
    return divide_exactly(&d, magnitude);
}

bool vh_number_parse(const char *text, size_t length, char decimal, double *value)
{
    const uint64_t exact_whole_most = (uint64_t)1 << 53;
    struct shape s;
    if (!read_shape(text, length, decimal, &s))
        return false;
    double magnitude = 0.0;
    bool known = s.significant == 0;
    if (!known && s.significant <= WHOLE_DIGITS_MOST && s.exponent >= -EXACT_POWER_MOST) {
        if (s.whole <= exact_whole_most && s.exponent <= EXACT_POWER_MOST) {
            /* both exact, so the one operation rounds correctly */
            magnitude = s.exponent < 0 ? (double)s.whole / exact_power[-s.exponent]
                                       : (double)s.whole * exact_power[s.exponent];
            known = true;
        } else if (s.exponent <= 0) {
            known = divide_closely(s.whole, (int)-s.exponent, &magnitude);
        }
    }
    if (!known && !parse_exactly(&s, decimal, &magnitude))
        return false;
    *value = s.negative ? -magnitude : magnitude;
    return true;
}
