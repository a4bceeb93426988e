#include "vh_json_out.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Bytes of the valid UTF-8 character at s, 0 if it is none (RFC 3629: no overlong, no surrogates).
 */
static size_t character_bytes(const unsigned char *s)
{
    size_t n;
    unsigned char low = 0x80, high = 0xBF;

    if (s[0] < 0x80)
        return 1;
    if (s[0] >= 0xC2 && s[0] <= 0xDF)
        n = 2;
    else if (s[0] >= 0xE0 && s[0] <= 0xEF)
        n = 3;
    else if (s[0] >= 0xF0 && s[0] <= 0xF4)
        n = 4;
    else
        return 0;
    if (s[0] == 0xE0)
        low = 0xA0;
    else if (s[0] == 0xED)
        high = 0x9F;
    else if (s[0] == 0xF0)
        low = 0x90;
    else if (s[0] == 0xF4)
        high = 0x8F;
    if (s[1] < low || s[1] > high)
        return 0;
    for (size_t i = 2; i < n; i++)
        if (s[i] < 0x80 || s[i] > 0xBF)
            return 0;
    return n;
}

static void add_string(struct vh_draft *out, const char *text)
{
    vh_draft_add(out, "\"");
    for (const char *p = text; *p;) {
        const unsigned char c = (unsigned char)*p;
        const size_t n = character_bytes((const unsigned char *)p);

        if (n == 0) {
            vh_draft_add(out, "\\ufffd");
            p++;
            continue;
        }
        if (c == '"' || c == '\\') {
            vh_draft_add(out, "\\");
            vh_draft_add_bytes(out, p, 1);
        } else if (c < 0x20 || c == 0x7F) {
            char escape[8];
            snprintf(escape, sizeof escape, "\\u%04x", (unsigned)c);
            vh_draft_add(out, escape);
        } else {
            vh_draft_add_bytes(out, p, n);
        }
        p += n;
    }
    vh_draft_add(out, "\"");
}

static void new_line(struct vh_json *j)
{
    vh_draft_add(j->out, "\n");
    for (int i = 0; i < j->depth; i++)
        vh_draft_add(j->out, "  ");
}

static void begin_item(struct vh_json *j, const char *key)
{
    if (j->has_item)
        vh_draft_add(j->out, ",");
    if (j->depth > 0)
        new_line(j);
    if (key) {
        add_string(j->out, key);
        vh_draft_add(j->out, ": ");
    }
    j->has_item = true;
}

void vh_json_open(struct vh_json *j, const char *key, char bracket)
{
    begin_item(j, key);
    vh_draft_add_bytes(j->out, &bracket, 1);
    j->depth++;
    j->has_item = false;
}

void vh_json_close(struct vh_json *j, char bracket)
{
    j->depth--;
    if (j->has_item)
        new_line(j);
    vh_draft_add_bytes(j->out, &bracket, 1);
    j->has_item = true;
    if (j->depth == 0)
        vh_draft_add(j->out, "\n");
}

void vh_json_text(struct vh_json *j, const char *key, const char *value)
{
    begin_item(j, key);
    add_string(j->out, value);
}

void vh_json_whole(struct vh_json *j, const char *key, double value)
{
    begin_item(j, key);
    if (isfinite(value))
        vh_draft_add_whole(j->out, value);
    else
        vh_draft_add(j->out, "null");
}

void vh_json_digits(struct vh_json *j, const char *key, const char *digits)
{
    begin_item(j, key);
    vh_draft_add(j->out, digits);
}
