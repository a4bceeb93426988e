#include "vh_markup.h"

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

void vh_markup_text(struct vh_draft *out, const char *text)
{
    const unsigned char *p = (const unsigned char *)text;

    while (*p) {
        const size_t n = utf8_length(p);
        const char *instead = n == 1 ? entity(*p) : n == 0 ? REPLACEMENT : NULL;
        if (instead)
            vh_draft_add(out, instead);
        else
            vh_draft_add_bytes(out, (const char *)p, n);
        p += n ? n : 1;
    }
}
