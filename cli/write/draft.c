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

void vh_draft_add_number(struct vh_draft *t, double value)
{
    if (isfinite(value))
        add_formatted(t, "general", value + 0.0); /* + 0.0 turns -0 into 0 */
}

void vh_draft_add_money(struct vh_draft *t, double value)
{
    const double cents = isfinite(value) ? round(value * 100.0) : value;

    if (isfinite(cents)) /* rounded first: -0.001 is 0.00, not -0.00 */
        add_formatted(t, "money", (cents + 0.0) / 100.0);
}

void vh_draft_add_whole(struct vh_draft *t, double value)
{
    const double whole = isfinite(value) ? round(value) : value;

    if (isfinite(whole))
        add_formatted(t, "whole", whole + 0.0);
}
