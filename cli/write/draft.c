#include "vh_draft.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void vh_draft_clear(struct vh_draft *t)
{
    free(t->bytes);
    *t = (struct vh_draft){0};
}

static bool make_room(struct vh_draft *t, size_t n)
{
    size_t room = t->room ? t->room : 4096;

    if (t->failed)
        return false;
    if (n <= t->room - t->n)
        return true;
    while (room - t->n < n) {
        if (room > SIZE_MAX / 2) {
            t->failed = true;
            return false;
        }
        room *= 2;
    }
    char *bytes = realloc(t->bytes, room);
    if (!bytes) {
        t->failed = true;
        return false;
    }
    t->bytes = bytes;
    t->room = room;
    return true;
}

void vh_draft_add_bytes(struct vh_draft *t, const char *bytes, size_t n)
{
    if (n == 0 || !make_room(t, n))
        return;
    memcpy(t->bytes + t->n, bytes, n);
    t->n += n;
}

void vh_draft_add(struct vh_draft *t, const char *string)
{
    vh_draft_add_bytes(t, string, strlen(string));
}

/* The program never calls setlocale, so printf stays in the C locale: the decimal sign is a point.
 */
static void add_formatted(struct vh_draft *t, const char *how, double value)
{
    char digits[400];
    const int n = snprintf(digits, sizeof digits,
                           how[0] == 'w'   ? "%.0f"
                           : how[0] == 'm' ? "%.2f"
                                           : "%.6g",
                           value);

    if (n > 0 && (size_t)n < sizeof digits)
        vh_draft_add_bytes(t, digits, (size_t)n);
}

/* ---- printf's digits without printf, which takes most of the time of writing ---- */

#define WHOLE_MOST 1e15 /* up to here a double holds every whole number and its hundredth */

/* So many units of the last decimal, as a number with that many decimals. */
static void add_decimals(struct vh_draft *t, bool is_negative, uint64_t units, int decimals,
                         bool strip)
{
    char text[32], *end = text + sizeof text, *p = end;

    for (int k = 0; k < decimals; k++, units /= 10) {
        if (strip && p == end && units % 10 == 0)
            continue;
        *--p = (char)('0' + units % 10);
    }
    if (p < end)
        *--p = '.';
    do
        *--p = (char)('0' + units % 10);
    while ((units /= 10) > 0);
    if (is_negative)
        *--p = '-';
    vh_draft_add_bytes(t, p, (size_t)(end - p));
}

/* "%.6g" of 0 and of a number between 0.0001 and a million. False: none of them, or so near to the
 * middle of two that rounding the product could choose the wrong one; printf looks at all its
 * digits. */
static bool add_six_digits(struct vh_draft *t, double value)
{
    static const double power[] = {1e-4, 1e-3, 1e-2, 1e-1, 1e0, 1e1, 1e2, 1e3, 1e4, 1e5};
    static const double scale[] = {1e9, 1e8, 1e7, 1e6, 1e5, 1e4, 1e3, 1e2, 1e1, 1e0};
    const double size = fabs(value), near = 1e-6;
    int at = (int)(sizeof power / sizeof power[0]) - 1;

    if (value == 0.0) {
        vh_draft_add_bytes(t, "0", 1);
        return true;
    }
    if (!(size >= power[0] && size < 999999.0))
        return false;
    while (size < power[at])
        at--;
    const double units = size * scale[at], whole = floor(units), rest = units - whole;
    if (fabs(rest - 0.5) < near || whole >= 999999.0)
        return false;
    add_decimals(t, value < 0.0, (uint64_t)whole + (rest > 0.5), 9 - at, true);
    return true;
}

void vh_draft_add_number(struct vh_draft *t, double value)
{
    if (isfinite(value) && !add_six_digits(t, value + 0.0)) /* + 0.0 turns -0 into 0 */
        add_formatted(t, "general", value + 0.0);
}

void vh_draft_add_money(struct vh_draft *t, double value)
{
    const double cents = isfinite(value) ? round(value * 100.0) : value;

    if (fabs(cents) < WHOLE_MOST / 100.0) /* rounded first: -0.001 is 0.00, not -0.00 */
        add_decimals(t, cents < 0.0, (uint64_t)fabs(cents), 2, false);
    else if (isfinite(cents))
        add_formatted(t, "money", (cents + 0.0) / 100.0);
}

void vh_draft_add_whole(struct vh_draft *t, double value)
{
    const double whole = isfinite(value) ? round(value) : value;

    if (fabs(whole) < WHOLE_MOST)
        add_decimals(t, whole < 0.0, (uint64_t)fabs(whole), 0, false);
    else if (isfinite(whole))
        add_formatted(t, "whole", whole + 0.0);
}

void vh_draft_add_place(struct vh_draft *t, double value)
{
    const double tenths = isfinite(value) ? round(value * 10.0) : value;

    if (fabs(tenths) < WHOLE_MOST)
        add_decimals(t, tenths < 0.0, (uint64_t)fabs(tenths), 1, true);
    else
        vh_draft_add_whole(t, value);
}
