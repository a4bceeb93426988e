#include "vh_markup.h"

#include <stdbool.h>
#include <string.h>

#define REPLACEMENT "\xEF\xBF\xBD"

/* Bytes of the UTF-8 character at p, 0 if there is none (RFC 3629: shortest form, no surrogates).
 */
static size_t utf8_length(const unsigned char *p)
{
    const unsigned char a = p[0];
    const size_t n = a < 0x80                ? 1
                     : a >= 0xC2 && a < 0xE0 ? 2
                     : a >= 0xE0 && a < 0xF0 ? 3
                     : a >= 0xF0 && a < 0xF5 ? 4
                                             : 0;

    for (size_t i = 1; i < n; i++)
        if ((p[i] & 0xC0) != 0x80)
            return 0;
    if ((a == 0xE0 && p[1] < 0xA0) || (a == 0xED && p[1] > 0x9F) || (a == 0xF0 && p[1] < 0x90) ||
        (a == 0xF4 && p[1] > 0x8F))
        return 0;
    return n;
}

static const char *entity(unsigned char c)
{
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return c < 0x20 || c == 0x7F ? REPLACEMENT : NULL;
    }
}

/* Bytes of "1/2" before the word turn, with the blank that parts it from a whole number; 0: it is
 * none. */
static size_t half_length(const char *text, const unsigned char *p)
{
    static const char half[] = " 1/2 turn";
    const bool behind_number = p > (const unsigned char *)text && p[-1] >= '0' && p[-1] <= '9';

    if (behind_number)
        return strncmp((const char *)p, half, strlen(half)) == 0 ? strlen(" 1/2") : 0;
    return strncmp((const char *)p, half + 1, strlen(half + 1)) == 0 ? strlen("1/2") : 0;
}

void vh_markup_text(struct vh_draft *out, const char *text)
{
    const unsigned char *p = (const unsigned char *)text;

    while (*p) {
        const size_t half = half_length(text, p), n = half ? half : utf8_length(p);
        const char *instead = half ? "\xC2\xBD" : n == 1 ? entity(*p) : n == 0 ? REPLACEMENT : NULL;
        if (instead)
            vh_draft_add(out, instead);
        else
            vh_draft_add_bytes(out, (const char *)p, n);
        p += n ? n : 1;
    }
}
