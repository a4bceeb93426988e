/* drawn_lines.h - a scenario with lines drawn anew, each number of it by `number` and its turn: for
 * t_drawn.c. */
#ifndef DRAWN_LINES_H
#define DRAWN_LINES_H

#include <ctype.h>
#include <math.h>

#include "kept_keys.h"
#include "kept_words.h"
#include "vh_random.h"

enum { OF_DRAWN = 90, TEXT_ROOM = 16 * 1024, LINE_ROOM = 400 };

static const char *const crops[] = {
    "aubergine-large", "cucumber-long",   "cucumber-mini",  "pepper-large", "pepper-small",
    "tomato-cherry",   "tomato-cocktail", "tomato-cluster", "tomato-large", "tomato-plum"};
enum { CROPS = sizeof crops / sizeof crops[0] };

static uint32_t number, drawn; /* of this scenario; numbers drawn for it */
static double often;           /* how much is changed: 1, less where it was refused */

static double any(void)
{
    return vh_uniform(1, number, drawn++, OF_DRAWN, 0);
}

static bool by_chance(double share)
{
    return any() < share * often;
}

static size_t one_of(size_t n)
{
    return (size_t)(any() * (double)n);
}

/* ---- one line of a scenario ---- */

/* A limit, or around what stood there. */
static double near_it(const struct vh_key *key, double value)
{
    const double way = any(), spread = any();
    double to = value * (0.6 + 0.8 * spread);

    if (way < 0.1)
        to = key->low;
    else if (way < 0.14)
        to = key->high;
    else if (value == 0.0)
        to = key->low + (fmin(key->high, 10.0) - key->low) * spread;
    to = fmin(fmax(to, key->low), key->high);
    return key->kind == VH_KEY_WHOLE || any() < 0.3 ? floor(to + 0.5) : to;
}

/* Every number of a value, "{ large = 7.5 }" or "[2, 3]" too. */
static void draw_numbers(const struct vh_key *key, const char *value, char *out)
{
    while (*value) {
        char *end = NULL;
        const bool begins =
            isdigit((unsigned char)*value) || (*value == '-' && isdigit((unsigned char)value[1]));
        if (begins) {
            const double to = near_it(key, strtod(value, &end));
            out += sprintf(out, "%.4g", to);
            value = end;
        } else {
            *out++ = *value++;
        }
    }
    *out = '\0';
}

static void draw_word(const char *words, char *out)
{
    size_t n = 1;

    for (const char *at = words; *at; at++)
        n += *at == '|';
    for (size_t k = one_of(n); k > 0; k--)
        words += strcspn(words, "|") + 1;
    sprintf(out, "\"%.*s\"", (int)strcspn(words, "|"), words);
}

static void draw_date(const char *value, char *out)
{
    char text[11] = "";
    int64_t day;

    strncat(text, value, sizeof text - 1);
    if (vh_date_parse(text, &day) != VH_OK) {
        sprintf(out, "%s", value);
        return;
    }
    vh_date_format(day + (int64_t)floor(31.0 * any()) - 15, out);
}

/* The line, or another in its place; "": it is left out. */
static void draw_line(const struct vh_key_table *table, char *line)
{
    const struct vh_key *key = table ? key_of(table, line) : NULL;
    char value[LINE_ROOM] = "", *from = strchr(line, '=');

    if (!key || !from || key->flags & VH_KEY_REQUIRED)
        return;
    if (by_chance(0.03)) {
        *line = '\0';
        return;
    }
    from += 2;
    const bool is_number = key->kind == VH_KEY_NUMBER || key->kind == VH_KEY_WHOLE ||
                           key->kind == VH_KEY_PRICE || key->kind == VH_KEY_NUMBERS;
    if (is_number && by_chance(0.25))
        draw_numbers(key, from, value);
    else if (key->kind == VH_KEY_WORD && by_chance(0.3))
        draw_word(key->words, value);
    else if (key->kind == VH_KEY_DATE && by_chance(0.15))
        draw_date(from, value);
    else if (key->kind == VH_KEY_TRUTH && by_chance(0.4))
        sprintf(value, "%s", *from == 't' ? "false" : "true");
    if (*value)
        sprintf(from, "%s", value);
}

/* ---- one line more ---- */

static int64_t base_today;

/* Of a key that stood nowhere; "": of this kind none is drawn. */
static void draw_value(const struct vh_key *key, char *out)
{
    const double u = any(), at = key->low + (key->high - key->low) * u * u * u; /* mostly little */
    char text[LINE_ROOM] = "";

    if (key->kind == VH_KEY_NUMBER || key->kind == VH_KEY_NUMBERS)
        sprintf(text, "%.4g", fmax(at, key->low));
    else if (key->kind == VH_KEY_WHOLE)
        sprintf(text, "%.0f", ceil(at));
    else if (key->kind == VH_KEY_WORD || key->kind == VH_KEY_WORDS)
        draw_word(key->words, text);
    else if (key->kind == VH_KEY_TRUTH)
        sprintf(text, "%s", u < 0.5 ? "true" : "false");
    else if (key->kind == VH_KEY_DATE || key->kind == VH_KEY_DATES)
        vh_date_format(base_today + (int64_t)floor(150.0 * u) - 90, text);
    const bool is_list =
        key->kind == VH_KEY_NUMBERS || key->kind == VH_KEY_WORDS || key->kind == VH_KEY_DATES;
    sprintf(out, *text && is_list ? "[%s]" : "%s", text);
}

/* Does `name` stand at the beginning of a line before the next that begins with `until`? */
static bool stands(const char *text, const char *name, const char *until)
{
    for (; *text && strncmp(text, until, strlen(until)) != 0; text += strcspn(text, "\n") + 1) {
        if (strncmp(text, name, strlen(name)) == 0)
            return true;
        if (!text[strcspn(text, "\n")])
            return false;
    }
    return false;
}

/* A key that the table has not: below its header, what follows that being `text`. */
static int add_key(const struct vh_key_table *table, const char *text, char *out)
{
    const struct vh_key *key = &table->key[one_of(table->keys)];
    char value[2 * LINE_ROOM], begins[LINE_ROOM];

    draw_value(key, value);
    snprintf(begins, sizeof begins, "%s ", key->name);
    return *value && !stands(text, begins, "[") ? sprintf(out, "%s = %s\n", key->name, value) : 0;
}

/* A table that the planting has not, with a few keys. */
static int add_table(const char *text, char *out)
{
    const struct vh_key *key = &vh_planting_keys.key[one_of(vh_planting_keys.keys)];
    char header[LINE_ROOM];

    snprintf(header, sizeof header, "[planting.%s]", key->name);
    if (key->kind != VH_KEY_TABLE || stands(text, header, "[[planting]]"))
        return 0;
    int n = sprintf(out, "%s\n", header);
    return n + add_key(key->table, "", out + n);
}

/* ---- one house ---- */

static void replace_crops(const char *text, char *out)
{
    const char *to[CROPS];

    for (size_t i = 0; i < CROPS; i++)
        to[i] = by_chance(0.25) ? crops[one_of(CROPS)] : crops[i];
    while (*text) {
        size_t i = 0, n = 0;
        while (i < CROPS) {
            n = strlen(crops[i]);
            if (*text == '"' && strncmp(text + 1, crops[i], n) == 0 && text[n + 1] == '"')
                break;
            i++;
        }
        if (i < CROPS) {
            out += sprintf(out, "\"%s\"", to[i]);
            text += n + 2;
        } else {
            *out++ = *text++;
        }
    }
    *out = '\0';
}

static void draw_scenario(const char *text, char *out)
{
    const struct vh_key_table *table = &vh_root_keys;
    static char with_crops[TEXT_ROOM];

    replace_crops(text, with_crops);
    for (text = with_crops; *text;) {
        const size_t n = strcspn(text, "\n");
        char line[2 * LINE_ROOM];
        snprintf(line, sizeof line, "%.*s", (int)n, text);
        if (line[0] == '[' && table == &vh_planting_keys && by_chance(0.5))
            out += add_table(text, out);
        text += n + (text[n] == '\n');
        if (line[0] == '[')
            table = under_line(line);
        else if (line[0] != '#')
            draw_line(table, line);
        out += sprintf(out, "%s\n", line);
        if (line[0] == '[' && table && by_chance(0.3))
            out += add_key(table, text, out);
    }
}

#endif
