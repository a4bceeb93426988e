#include "toml_parts.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void vh_toml_fail(struct vh_toml_parser *p, const char *at, const char *format, ...)
{
    char text[600];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    const int column = (int)(at - p->line_begin) + 1;
    const struct vh_place where = {p->toml->name, p->line, column, vh_toml_line(p->toml, p->line)};
    if (vh_fail(p->m, VH_BAD_INPUT, where, "%s", text) == VH_NO_MEMORY)
        p->no_memory = true;
    p->errors++;
}

bool vh_toml_at_end(const struct vh_toml_parser *p)
{
    return p->p == p->end || *p->p == '\n' || *p->p == '\r'; /* a lone CR was refused before */
}

void vh_toml_skip_blanks(struct vh_toml_parser *p)
{
    while (p->p < p->end && (*p->p == ' ' || *p->p == '\t'))
        p->p++;
}

void vh_toml_next_line(struct vh_toml_parser *p)
{
    const char *end = memchr(p->p, '\n', (size_t)(p->end - p->p));
    p->p = end != NULL ? end + 1 : p->end;
    if (end != NULL) {
        p->line++;
        p->line_begin = p->p;
    }
}

bool vh_toml_is_key_char(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
}

size_t vh_toml_rest(const struct vh_toml_parser *p, const char *at)
{
    const char *q = at;
    while (q < p->end && *q != '\n' && *q != '\r' && *q != '#')
        q++;
    while (q > at && (q[-1] == ' ' || q[-1] == '\t'))
        q--;
    return (size_t)(q - at);
}

size_t vh_toml_curly(const struct vh_toml_parser *p, const char *at)
{
    const size_t n = (size_t)(p->end - at);
    /* U+2018-201F, the single and double quotes of typesetting, and U+00AB, U+00BB */
    if (n >= 3 && memcmp(at, "\xe2\x80", 2) == 0 && (unsigned char)at[2] >= 0x98 &&
        (unsigned char)at[2] <= 0x9f)
        return 3;
    if (n >= 2 && (memcmp(at, "\xc2\xab", 2) == 0 || memcmp(at, "\xc2\xbb", 2) == 0))
        return 2;
    return 0;
}
