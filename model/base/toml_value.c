#include "toml_parts.h"

#include <string.h>

#include "vh_text.h"

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* ---- lists ---- */

/* [name] and nothing but a note behind it: [1, 2] is a list. */
static bool is_header(const struct vh_toml_parser *p, const char *q)
{
    bool any = false;
    while (q < p->end && *q == '[')
        q++;
    for (; q < p->end && (vh_toml_is_key_char(*q) || strchr(". \t", *q) != NULL); q++)
        any = any || *q >= 'a'; /* of these signs small letters alone */
    return any && q < p->end && *q == ']';
}

/* Does the line at q look like a new key or header, so that a list before it was never closed? */
static bool begins_statement(const struct vh_toml_parser *p, const char *q)
{
    while (q < p->end && (*q == ' ' || *q == '\t'))
        q++;
    if (q < p->end && *q == '[')
        return is_header(p, q);
    const char *key = q;
    while (q < p->end && vh_toml_is_key_char(*q))
        q++;
    if (q == key)
        return false;
    while (q < p->end && (*q == ' ' || *q == '\t'))
        q++;
    return q < p->end && *q == '=';
}

/* Does the rest of the line close the list? *depth: brackets open at its begin, and at its end. */
static bool line_closes(const struct vh_toml_parser *p, int *depth)
{
    char quote = 0;
    for (const char *q = p->p; q < p->end && *q != '\n'; q++) {
        if (quote != 0)
            quote = *q == quote ? 0 : quote;
        else if (*q == '#')
            return false;
        else if (*q == '"' || *q == '\'')
            quote = *q;
        else if (*q == '[')
            (*depth)++;
        else if (*q == ']' && --*depth == 0)
            return true;
    }
    return false;
}

/* Leaves a list after an error, so that its later lines are not taken for bad keys. */
static void leave_list(struct vh_toml_parser *p)
{
    bool closed = false;
    int depth = 1;
    while (!closed && p->p < p->end) {
        closed = line_closes(p, &depth);
        vh_toml_next_line(p);
        if (begins_statement(p, p->p))
            break;
    }
    p->at_next = true;
}

/* Blanks, notes and line ends. */
static void skip_between(struct vh_toml_parser *p)
{
    for (;;) {
        vh_toml_skip_blanks(p);
        if (p->p == p->end)
            return;
        if (*p->p != '#' && !vh_toml_at_end(p))
            return;
        vh_toml_next_line(p);
    }
}

static struct vh_toml_node *read_item(struct vh_toml_parser *p)
{
    if (*p->p == '[') {
        vh_toml_fail(p, p->p, "a list inside a list is not read; write one list");
        return NULL;
    }
    if (*p->p == '{') {
        vh_toml_fail(p, p->p,
                     "a table inside a list is not read; give each table a header of its own in "
                     "double brackets");
        return NULL;
    }
    return vh_toml_value(p, VH_TOML_IN_LIST);
}

static bool read_items(struct vh_toml_parser *p, struct vh_toml_node *list)
{
    for (;;) {
        skip_between(p);
        if (p->p < p->end && *p->p == ']')
            break;
        /* a value never has = behind it, so an open list ends where a key or a header begins */
        const bool is_later = p->line != list->value.line;
        if (p->p == p->end || (is_later && begins_statement(p, p->p))) {
            vh_toml_fail(p, p->p,
                         "the list that begins on line %lld is not closed; put ] behind its last "
                         "value",
                         (long long)list->value.line);
            return false;
        }
        struct vh_toml_node *item = read_item(p);
        if (item == NULL || !vh_toml_item_add(p, list, item))
            return false;
        skip_between(p);
        if (p->p < p->end && *p->p == ',') {
            p->p++;
        } else if (p->p < p->end && *p->p != ']' && !begins_statement(p, p->p)) {
            vh_toml_fail(p, p->p, "a comma is missing between two values of a list; put one here");
            return false;
        }
    }
    p->p++;
    return true;
}

static struct vh_toml_node *read_list(struct vh_toml_parser *p)
{
    struct vh_toml_node *list = vh_toml_node_create(p, VH_TOML_LIST, p->p);
    if (list == NULL)
        return NULL;
    p->p++;
    if (read_items(p, list))
        return list;
    if (!begins_statement(p, p->line_begin) || p->line == list->value.line)
        leave_list(p);
    else {
        p->p = p->line_begin;
        p->at_next = true;
    }
    return NULL;
}

/* ---- inline tables ---- */

static bool read_inline_entry(struct vh_toml_parser *p, struct vh_toml_node *table)
{
    const char *key = p->p;
    while (p->p < p->end && vh_toml_is_key_char(*p->p))
        p->p++;
    const size_t n = (size_t)(p->p - key);
    vh_toml_skip_blanks(p);
    if (n == 0 || p->p == p->end || *p->p != '=') {
        if (n > 0 && p->p < p->end && *p->p == '.')
            vh_toml_fail(p, p->p, "dotted keys are not read here; write a table with a header");
        else if (n == 0 && p->p < p->end && (*p->p == '"' || *p->p == '\''))
            vh_toml_fail(p, p->p, "a key stands without quotes; take them away");
        else if (n > 0 && p->p < p->end && *p->p == ':')
            vh_toml_fail(p, p->p, "a colon behind a key; write =");
        else if (vh_toml_at_end(p))
            vh_toml_fail(p, p->p, "{ is not closed on its line; put } behind the last value");
        else
            vh_toml_fail(p, p->p, "key = value would be right here, as in { large = 7.5 }");
        return false;
    }
    p->p++;
    vh_toml_skip_blanks(p);
    if (p->p < p->end && *p->p == '{') {
        vh_toml_fail(p, p->p, "a table inside an inline table is not read; write it with a header");
        return false;
    }
    p->key = key;
    p->key_n = n;
    struct vh_toml_node *value = vh_toml_value(p, VH_TOML_IN_INLINE);
    return value != NULL && vh_toml_entry_add(p, table, key, n, value);
}

static struct vh_toml_node *read_inline(struct vh_toml_parser *p)
{
    struct vh_toml_node *table = vh_toml_node_create(p, VH_TOML_TABLE, p->p);
    if (table == NULL)
        return NULL;
    table->origin = VH_TOML_INLINE;
    p->p++;
    vh_toml_skip_blanks(p);
    if (p->p < p->end && *p->p == '}') {
        p->p++;
        return table;
    }
    for (;;) {
        if (!read_inline_entry(p, table))
            return NULL;
        vh_toml_skip_blanks(p);
        if (p->p < p->end && *p->p == '}')
            break;
        if (p->p == p->end || *p->p != ',') {
            if (vh_toml_at_end(p) || *p->p == '#')
                vh_toml_fail(p, p->p, "{ is not closed on its line; put } behind the last value");
            else
                vh_toml_fail(p, p->p, "a comma is missing between two keys; put one here");
            return NULL;
        }
        p->p++;
        vh_toml_skip_blanks(p);
        if (p->p < p->end && *p->p == '}') {
            vh_toml_fail(p, p->p, "a comma before }; take it away");
            return NULL;
        }
    }
    p->p++;
    return table;
}

struct vh_toml_node *vh_toml_value(struct vh_toml_parser *p, enum vh_toml_within within)
{
    const char c = p->p < p->end ? *p->p : '\n';
    if (c == '"' || c == '\'')
        return vh_toml_text(p);
    if (c == '[' && within == VH_TOML_IN_INLINE) {
        vh_toml_fail(p, p->p,
                     "a list inside an inline table is not read; write a table with a "
                     "header");
        return NULL;
    }
    if (c == '[')
        return read_list(p);
    if (c == '{')
        return read_inline(p);
    return vh_toml_bare(p, within);
}

/* ---- what follows a value ---- */

/* A short whole number at *q, which moves behind it; 0: there is none. */
static int short_number(const char **q, const char *end)
{
    enum { DIGITS_MOST = 4 };
    int value = 0;

    for (int n = 0; n < DIGITS_MOST && *q < end && is_digit(**q); n++)
        value = 10 * value + *(*q)++ - '0';
    return value;
}

/* "7 1/2": says it as a decimal. False: it is no such thing. */
static bool fail_at_fraction(struct vh_toml_parser *p, const char *number)
{
    const char *first = number, *q = p->p;
    const int whole = short_number(&first, p->p);

    while (*q == ' ') /* as far as to what stands behind the number */
        q++;
    const int over = short_number(&q, p->end);
    if (first != p->p || over == 0 || q == p->end || *q++ != '/')
        return false;
    const int under = short_number(&q, p->end);
    if (under == 0)
        return false;
    vh_toml_fail(p, number, "a fraction; write %.4g", whole + (double)over / (double)under);
    return true;
}

static void fail_after_number(struct vh_toml_parser *p, const char *number)
{
    if (fail_at_fraction(p, number))
        return;
    const size_t n = (size_t)(p->p - number);
    size_t digits = n;
    char joined[40];
    const char *q = p->p;
    memcpy(joined, number, n < sizeof joined ? n : 0);
    while (q < p->end && (is_digit(*q) || *q == ' ') && digits < sizeof joined) {
        if (*q != ' ')
            joined[digits++] = *q;
        q++;
    }
    const char *at = p->p;
    vh_toml_skip_blanks(p);
    if (n < sizeof joined && digits > n && digits < sizeof joined)
        vh_toml_fail(p, at, "a blank in a number; write %.*s", (int)digits, joined);
    else if (n < sizeof joined && digits == n &&
             (vh_toml_is_key_char(*p->p) || (unsigned char)*p->p >= 0x80))
        vh_toml_fail(p, p->p, "letters behind a number; the key names the unit: write %.*s", (int)n,
                     number);
    else
        vh_toml_fail(p, p->p, "more stands behind the number; only a note that begins with # may");
}

bool vh_toml_line_ends(struct vh_toml_parser *p, const struct vh_toml_value *value)
{
    const char *behind = p->p;
    vh_toml_skip_blanks(p);
    if (vh_toml_at_end(p) || *p->p == '#')
        return true;
    const size_t n = vh_toml_rest(p, p->p);
    const char c = *p->p;
    if (c == ';' || (c == ',' && n == 1))
        vh_toml_fail(p, p->p, "%c behind a value; take it away", c);
    else if (c == '/' && n > 1 && p->p[1] == '/')
        vh_toml_fail(p, p->p, "a note begins with #, not with //");
    else if (value != NULL && value->kind == VH_TOML_TEXT)
        vh_toml_fail(p, p->p,
                     "more stands behind the closing quote; inside text a quote is written \\\"");
    else if (value != NULL && value->kind == VH_TOML_DATE && n > 2 && is_digit(c) &&
             (p->p[1] == ':' || p->p[2] == ':'))
        vh_toml_fail(p, p->p, "a date with a time is not read; write the date alone");
    else if (value != NULL && value->kind == VH_TOML_NUMBER) {
        p->p = behind;
        fail_after_number(p, p->line_begin + value->column - 1);
    } else
        vh_toml_fail(p, p->p,
                     "more stands on this line; one key and its value, or one header, a line");
    return false;
}
