#include "toml_parts.h"

#include <string.h>

#include "vh_number.h"

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Bytes of the word at p: to a blank, comma, bracket, note or line end. */
static size_t word_length(const struct vh_toml_parser *p)
{
    const char *q = p->p;
    while (q < p->end && strchr(" \t\r\n,]}#", *q) == NULL)
        q++;
    return (size_t)(q - p->p);
}

static bool is_date_form(const char *text, size_t n)
{
    if (n != 10)
        return false;
    for (size_t i = 0; i < n; i++)
        if (i == 4 || i == 7 ? text[i] != '-' : !is_digit(text[i]))
            return false;
    return true;
}

static struct vh_toml_node *read_date(struct vh_toml_parser *p)
{
    char text[11] = {0};
    memcpy(text, p->p, 10);
    struct vh_toml_node *node = vh_toml_node_create(p, VH_TOML_DATE, p->p);
    if (node == NULL)
        return NULL;
    if (vh_date_parse(text, &node->value.day) != VH_OK) {
        vh_toml_fail(p, p->p, "%s is no date; a day that exists, 1900 to 2199, would be right",
                     text);
        return NULL;
    }
    p->p += 10;
    return node;
}

static struct vh_toml_node *read_number(struct vh_toml_parser *p, size_t n)
{
    const double whole_bound = 0x1p53; /* a double holds every whole number below */
    struct vh_toml_node *node = vh_toml_node_create(p, VH_TOML_NUMBER, p->p);
    if (node == NULL)
        return NULL;
    struct vh_toml_value *v = &node->value;
    v->is_integer = true;
    for (size_t i = 0; i < n; i++)
        if (p->p[i] == '.' || p->p[i] == 'e' || p->p[i] == 'E')
            v->is_integer = false;
    if (!vh_number_parse(p->p, n, '.', &v->number) ||
        (v->is_integer && (v->number >= whole_bound || v->number <= -whole_bound))) {
        vh_toml_fail(p, p->p, "too great a number; a smaller one would be right");
        return NULL;
    }
    p->p += n;
    return node;
}

static struct vh_toml_node *read_truth(struct vh_toml_parser *p, bool truth)
{
    struct vh_toml_node *node = vh_toml_node_create(p, VH_TOML_BOOL, p->p);
    if (node == NULL)
        return NULL;
    node->value.truth = truth;
    p->p += truth ? sizeof "true" - 1 : sizeof "false" - 1;
    return node;
}

/* 12,5 outside a list: not two values. In an inline table a key may follow the comma, and be all
 * digits. */
static bool is_cut_by_comma(const struct vh_toml_parser *p, size_t n, enum vh_toml_within within)
{
    const char *q = p->p + n;
    if (within == VH_TOML_IN_LIST || p->end - q < 2 || *q != ',' || !is_digit(q[1]))
        return false;
    for (q++; q < p->end && is_digit(*q); q++)
        ;
    while (q < p->end && (*q == ' ' || *q == '\t'))
        q++;
    return within == VH_TOML_IN_LINE || q == p->end || *q == ',' || *q == '}';
}

struct vh_toml_node *vh_toml_bare(struct vh_toml_parser *p, enum vh_toml_within within)
{
    const size_t n = word_length(p);
    if (n == 4 && memcmp(p->p, "true", n) == 0)
        return read_truth(p, true);
    if (n == 5 && memcmp(p->p, "false", n) == 0)
        return read_truth(p, false);
    if (is_date_form(p->p, n))
        return read_date(p);
    if (vh_toml_is_number(p->p, n) && !is_cut_by_comma(p, n, within))
        return read_number(p, n);
    vh_toml_guess(p, p->p, n, within);
    return NULL;
}
