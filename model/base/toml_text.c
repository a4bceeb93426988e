#include "toml_parts.h"

#include <string.h>

/* The closing quote of text that begins behind `begin`, NULL if the line has none. */
static const char *find_close(const struct vh_toml_parser *p, const char *begin, char quote)
{
    for (const char *q = begin; q < p->end && *q != '\n' && *q != '\r'; q++) {
        if (*q == quote)
            return q;
        if (*q == '\\' && quote == '"' && q + 1 < p->end && q[1] != '\n' && q[1] != '\r')
            q++;
    }
    return NULL;
}

static void fail_open(struct vh_toml_parser *p, const char *begin)
{
    for (const char *q = begin; q < p->end && *q != '\n' && *q != '\r'; q++)
        if (vh_toml_curly(p, q) > 0) {
            vh_toml_fail(p, q, "a curly quote; use straight quotes on both sides");
            return;
        }
    vh_toml_fail(p, begin - 1, "text without a closing quote; close it on the same line");
}

/* Value of n hex digits, -1 where there are fewer. */
static int64_t hex_value(const char *text, const char *end, int n)
{
    int64_t value = 0;
    for (int i = 0; i < n; i++) {
        if (text + i >= end)
            return -1;
        const char c = text[i];
        int digit = -1;
        if (c >= '0' && c <= '9')
            digit = c - '0';
        else if (c >= 'a' && c <= 'f')
            digit = c - 'a' + 10;
        else if (c >= 'A' && c <= 'F')
            digit = c - 'A' + 10;
        if (digit < 0)
            return -1;
        value = value * 16 + digit;
    }
    return value;
}

/* Writes a letter as UTF-8 (RFC 3629); its bytes. */
static size_t put_letter(char *to, int64_t letter)
{
    const unsigned c = (unsigned)letter;
    if (c < 0x80) {
        to[0] = (char)c;
        return 1;
    }
    if (c < 0x800) {
        to[0] = (char)(0xc0 | c >> 6);
        to[1] = (char)(0x80 | (c & 0x3f));
        return 2;
    }
    if (c < 0x10000) {
        to[0] = (char)(0xe0 | c >> 12);
        to[1] = (char)(0x80 | (c >> 6 & 0x3f));
        to[2] = (char)(0x80 | (c & 0x3f));
        return 3;
    }
    to[0] = (char)(0xf0 | c >> 18);
    to[1] = (char)(0x80 | (c >> 12 & 0x3f));
    to[2] = (char)(0x80 | (c >> 6 & 0x3f));
    to[3] = (char)(0x80 | (c & 0x3f));
    return 4;
}

/* One escape at the backslash *from; moves *from behind it. Bytes written, 0: told. */
static size_t put_escape(struct vh_toml_parser *p, const char **from, const char *end, char *to)
{
    const char *at = *from;
    const char c = at[1];
    *from += 2;
    if (c == '"' || c == '\\') {
        *to = c;
        return 1;
    }
    if (c == 't') {
        *to = '\t';
        return 1;
    }
    if (strchr("bnfr", c) != NULL) {
        vh_toml_fail(p, at, "\\%c puts a control character into text; take it out", c);
        return 0;
    }
    if (c == 'u' || c == 'U') {
        const int digits = c == 'u' ? 4 : 8;
        const int64_t letter = hex_value(at + 2, end, digits);
        *from += digits;
        if (letter < 0)
            vh_toml_fail(p, at, "\\%c without its %d hex digits; write the letter itself", c,
                         digits);
        else if (letter > 0x10ffff || (letter >= 0xd800 && letter <= 0xdfff))
            vh_toml_fail(p, at, "\\%c names no letter; write the letter itself", c);
        else if ((letter < 0x20 && letter != '\t') || (letter >= 0x7f && letter < 0xa0))
            vh_toml_fail(p, at, "\\%c puts a control character into text; take it out", c);
        else
            return put_letter(to, letter);
        return 0;
    }
    vh_toml_fail(p, at,
                 "a lone backslash; write \\\\ for it, put the text in single quotes, or use / "
                 "in file names");
    return 0;
}

/* Copies what stands between the quotes. NULL: told. */
static const char *unescape(struct vh_toml_parser *p, const char *begin, const char *close)
{
    char *text = vh_toml_take(p, (size_t)(close - begin) + 1);
    if (text == NULL)
        return NULL;
    size_t n = 0;
    for (const char *q = begin; q < close;) {
        if (*q != '\\') {
            text[n++] = *q++;
            continue;
        }
        const size_t put = put_escape(p, &q, close, text + n);
        if (put == 0)
            return NULL;
        n += put;
    }
    text[n] = '\0';
    return text;
}

struct vh_toml_node *vh_toml_text(struct vh_toml_parser *p)
{
    const char quote = *p->p;
    const char *begin = p->p + 1;
    if (p->end - p->p >= 3 && p->p[1] == quote && p->p[2] == quote) {
        vh_toml_fail(p, p->p,
                     "multi-line text (three quotes) is not read; write it on one line in one pair "
                     "of quotes");
        return NULL;
    }
    const char *close = find_close(p, begin, quote);
    if (close == NULL) {
        fail_open(p, begin);
        return NULL;
    }
    struct vh_toml_node *node = vh_toml_node_create(p, VH_TOML_TEXT, p->p);
    const char *text = quote == '"' ? unescape(p, begin, close)
                                    : vh_toml_take_text(p, begin, (size_t)(close - begin));
    if (node == NULL || text == NULL)
        return NULL;
    node->value.text = text;
    p->p = close + 1;
    return node;
}
