/* Words without quotes where the key wants something else than text. */
#include "toml_parts.h"

#include <stdio.h>

enum { NONE = -1 };

/* A word of n letters, without regard to capitals, as a number; NONE: it is no such word. */
static int one_word(const char *at, size_t n)
{
    static const struct {
        const char *word;
        int number;
    } words[] = {
        {"zero", 0},      {"a", 1},        {"one", 1},      {"two", 2},        {"three", 3},
        {"four", 4},      {"five", 5},     {"six", 6},      {"seven", 7},      {"eight", 8},
        {"nine", 9},      {"ten", 10},     {"eleven", 11},  {"twelve", 12},    {"thirteen", 13},
        {"fourteen", 14}, {"fifteen", 15}, {"sixteen", 16}, {"seventeen", 17}, {"eighteen", 18},
        {"nineteen", 19}, {"twenty", 20},  {"thirty", 30},  {"forty", 40},     {"fifty", 50},
        {"sixty", 60},    {"seventy", 70}, {"eighty", 80},  {"ninety", 90},    {"dozen", 12},
        {"hundred", 100},
    };

    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (vh_toml_is_word(at, n, words[i].word))
            return words[i].number;
    return NONE;
}

int vh_toml_number_word(const char *at, size_t n)
{
    size_t first = 0;
    while (first < n && at[first] != ' ' && at[first] != '-')
        first++;
    const int before = one_word(at, first);

    if (before == NONE || first == n)
        return first == 1 ? NONE : before; /* "a" alone is none */
    const int behind = one_word(at + first + 1, n - first - 1);
    const int dozen = 12, hundred = 100, tens = 20, ten = 10;
    if (behind == dozen || behind == hundred)
        return before < ten ? before * behind : NONE;
    return before >= tens && before < hundred && behind > 0 && behind < ten ? before + behind
                                                                            : NONE;
}

const char *vh_toml_truth_of(const char *at, size_t n)
{
    static const char *const words[][2] = {{"yes", "true"}, {"on", "true"},   {"true", "true"},
                                           {"no", "false"}, {"off", "false"}, {"false", "false"}};

    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (vh_toml_is_word(at, n, words[i][0]))
            return words[i][1];
    return NULL;
}

bool vh_toml_is_nothing(const char *at, size_t n)
{
    static const char *const words[] = {"none", "no",  "off",     "not", "never", "nothing",
                                        "nil",  "n/a", "without", "-",   "--"};

    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (vh_toml_is_word(at, n, words[i]))
            return true;
    return false;
}

/* A line left out holds what is usual, which need not be none. */
static bool tell_nothing(struct vh_toml_parser *p, const char *at, enum vh_toml_wanted wanted)
{
    const int key = (int)p->key_n;

    if (wanted == VH_TOML_WANTS_AMOUNT)
        vh_toml_fail(p, at, "`%.*s` is a number; write %.*s = 0 for none", key, p->key, key,
                     p->key);
    else if (wanted == VH_TOML_WANTS_DATE || wanted == VH_TOML_WANTS_LIST)
        vh_toml_fail(p, at, "`%.*s` is %s; fill it, or leave the line out for what is usual", key,
                     p->key, wanted == VH_TOML_WANTS_DATE ? "a date" : "a list");
    else
        return false;
    return true;
}

bool vh_toml_tell_wanted(struct vh_toml_parser *p, const char *at, size_t n,
                         enum vh_toml_within within)
{
    const enum vh_toml_wanted wanted =
        p->wanted ? p->wanted(p->key, p->key_n) : VH_TOML_ANY; /* a value has its key before it */
    const int key = (int)p->key_n, number = vh_toml_number_word(at, n);
    const bool in_list = within == VH_TOML_IN_LIST;
    const bool is_number = wanted == VH_TOML_WANTS_NUMBER || wanted == VH_TOML_WANTS_AMOUNT;

    if (!in_list && vh_toml_is_nothing(at, n) && tell_nothing(p, at, wanted))
        return true;
    if (is_number && number >= 0 && in_list)
        vh_toml_fail(p, at, "`%.*s` holds numbers; write %d", key, p->key, number);
    else if (is_number && number >= 0)
        vh_toml_fail(p, at, "`%.*s` is a number; write %.*s = %d", key, p->key, key, p->key,
                     number);
    else if (is_number)
        vh_toml_fail(p, at, "`%.*s` is a number; write it in digits alone", key, p->key);
    else if (wanted == VH_TOML_WANTS_DATE)
        vh_toml_fail(p, at, "`%.*s` is a date; write it year-month-day, as in 2026-03-01", key,
                     p->key);
    else if (wanted == VH_TOML_WANTS_TRUTH && vh_toml_truth_of(at, n))
        vh_toml_fail(p, at, "`%.*s` is true or false; write %.*s = %s", key, p->key, key, p->key,
                     vh_toml_truth_of(at, n));
    else if (wanted == VH_TOML_WANTS_TRUTH)
        vh_toml_fail(p, at, "`%.*s` is true or false; write one of them", key, p->key);
    else if (wanted == VH_TOML_WANTS_LIST && !in_list)
        vh_toml_fail(p, at, "text stands in quotes, and `%.*s` is a list; write %.*s = [\"%.*s\"]",
                     key, p->key, key, p->key, (int)n, at);
    else
        return false;
    return true;
}
