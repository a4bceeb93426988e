/* One value of the scenario file: is it what its key may hold? */
#include "scenario_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_number.h"

#define LIST_BYTES 400

static const char *kind_given(const struct vh_toml_value *v)
{
    static const char *const names[] = {
        [VH_TOML_TEXT] = "text",   [VH_TOML_NUMBER] = "a number", [VH_TOML_BOOL] = "true or false",
        [VH_TOML_DATE] = "a date", [VH_TOML_LIST] = "a list",     [VH_TOML_TABLE] = "a table",
    };

    return names[v->kind];
}

static const char *kind_wanted(enum vh_key_kind kind)
{
    static const char *const names[] = {
        [VH_KEY_NUMBER] = "a number",
        [VH_KEY_WHOLE] = "a whole number",
        [VH_KEY_TEXT] = "text in quotes",
        [VH_KEY_WORD] = "text in quotes",
        [VH_KEY_NAME] = "a name in quotes",
        [VH_KEY_FILE] = "a file's name in quotes",
        [VH_KEY_TRUTH] = "true or false, without quotes",
        [VH_KEY_DATE] = "a date, as in 2026-03-01, without quotes",
        [VH_KEY_FILES] = "a file's name in quotes, or a list of them",
        [VH_KEY_WORDS] = "a list of words in quotes",
        [VH_KEY_NUMBERS] = "a list of numbers",
        [VH_KEY_DATES] = "a list of dates, as in [2026-03-01, 2026-03-08]",
        [VH_KEY_PRICE] = "a number, or numbers by grade",
        [VH_KEY_TABLE] = "a table",
        [VH_KEY_TABLES] = "a table",
        [VH_KEY_TEXT_MAP] = "a table",
        [VH_KEY_NUMBER_MAP] = "a table",
    };

    return names[kind];
}

static bool says_number(const char *text, double *value)
{
    const size_t n = strlen(text);

    return vh_number_parse(text, n, '.', value) || vh_number_parse(text, n, ',', value);
}

static bool says_nothing(const struct vh_toml_value *v)
{
    return v->kind == VH_TOML_TEXT ? vh_toml_is_nothing(v->text, strlen(v->text))
                                   : v->kind == VH_TOML_BOOL && !v->truth;
}

/* What the person meant, where the text in quotes tells. */
static bool tell_quotes(struct vh_reading *r, const struct vh_key *key,
                        const struct vh_toml_entry *entry, const struct vh_toml_value *v)
{
    const bool is_number = key->kind == VH_KEY_NUMBER || key->kind == VH_KEY_WHOLE;
    char right[64] = "";
    double number;
    int64_t day;

    if (vh_key_is_amount(key) && says_nothing(v)) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v),
                            "`%s` is %s; write %s = 0 for none", entry->key, kind_given(v),
                            entry->key));
        return true;
    }
    if (v->kind != VH_TOML_TEXT)
        return false;
    if (is_number && says_number(v->text, &number))
        snprintf(right, sizeof right, "%.10g", number);
    else if (is_number && vh_toml_number_word(v->text, strlen(v->text)) >= 0)
        snprintf(right, sizeof right, "%d", vh_toml_number_word(v->text, strlen(v->text)));
    if (key->kind == VH_KEY_DATE && vh_date_parse(v->text, &day) == VH_OK)
        vh_date_format(day, right);
    if (key->kind == VH_KEY_TRUTH && vh_word_index("true|false", v->text) >= 0)
        snprintf(right, sizeof right, "%s", v->text);
    if (key->kind == VH_KEY_WORDS && vh_word_index(key->words, v->text) >= 0)
        snprintf(right, sizeof right, "[\"%s\"]", v->text);
    if (!right[0])
        return false;
    vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v), "`%s` is text; write %s = %s",
                        entry->key, entry->key, right));
    return true;
}

static void tell_kind(struct vh_reading *r, const struct vh_key *key,
                      const struct vh_toml_entry *entry, const struct vh_toml_value *v)
{
    const bool has_example = key->words && key->kind != VH_KEY_WORD && key->kind != VH_KEY_WORDS;
    char list[LIST_BYTES] = "";

    if (tell_quotes(r, key, entry, v))
        return;
    if (key->kind == VH_KEY_WORD || key->kind == VH_KEY_WORDS)
        vh_words_listed(key->words, list, sizeof list);
    vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v),
                        "`%s` is %s; it must be %s%s%s%s", entry->key, kind_given(v),
                        kind_wanted(key->kind), has_example ? ", as in " : "",
                        has_example ? key->words
                        : list[0]   ? ": "
                                    : "",
                        list));
}

/* ---- single values ---- */

static bool read_number(struct vh_reading *r, const struct vh_key *key,
                        const struct vh_toml_entry *entry, const struct vh_toml_value *v,
                        struct vh_unit_pair unit, double *number)
{
    const double low = (key->low - unit.shift) / unit.scale;
    const double high = (key->high - unit.shift) / unit.scale;
    const int digits = unit.scale == 1.0 ? 10 : 4; /* round bounds stay round in our unit only */

    if (v->kind != VH_TOML_NUMBER) {
        tell_kind(r, key, entry, v);
        return false;
    }
    if (key->kind == VH_KEY_WHOLE && v->number != floor(v->number)) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v),
                            "`%s` is %.10g; it must be a whole number", entry->key, v->number));
        return false;
    }
    *number = v->number * unit.scale + unit.shift;
    if (!(*number >= key->low && *number <= key->high)) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v),
                            "`%s` is %.10g; it must lie between %.*g and %.*g", entry->key,
                            v->number, digits, low, digits, high));
        return false;
    }
    return true;
}

static bool read_text(struct vh_reading *r, const struct vh_key *key,
                      const struct vh_toml_entry *entry, const struct vh_toml_value *v)
{
    const char *fault = NULL;

    if (v->kind != VH_TOML_TEXT) {
        tell_kind(r, key, entry, v);
        return false;
    }
    if (key->kind == VH_KEY_NAME)
        fault = vh_name_fault(v->text);
    else if (v->text[0] == '\0')
        fault = key->kind == VH_KEY_FILE || key->kind == VH_KEY_FILES
                    ? "is empty; name a file or leave the key out"
                    : "is empty; write something or leave the key out";
    if (fault)
        vh_spoil(
            r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v), "`%s` %s", entry->key, fault));
    return fault == NULL;
}

static bool read_word(struct vh_reading *r, const struct vh_key *key,
                      const struct vh_toml_entry *entry, const struct vh_toml_value *v, int *word)
{
    char list[LIST_BYTES], shown[VH_SHOWN_MOST + 4];

    if (v->kind != VH_TOML_TEXT) {
        tell_kind(r, key, entry, v);
        return false;
    }
    *word = vh_word_index(key->words, v->text);
    if (*word >= 0)
        return true;
    vh_words_listed(key->words, list, sizeof list);
    vh_spoil(r,
             vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v), "`%s` is \"%s\"; it must be %s",
                     entry->key, vh_shown(v->text, shown), list));
    return false;
}

/* ---- lists and maps ---- */

static bool read_item(struct vh_reading *r, const struct vh_key *key,
                      const struct vh_toml_entry *entry, const struct vh_toml_value *v,
                      struct vh_unit_pair unit)
{
    struct vh_key one = *key;
    double number;
    int word;

    switch (key->kind) {
    case VH_KEY_WORDS:
        one.kind = VH_KEY_WORD;
        return read_word(r, &one, entry, v, &word);
    case VH_KEY_NUMBERS:
    case VH_KEY_NUMBER_MAP:
    case VH_KEY_PRICE:
        one.kind = VH_KEY_NUMBER;
        return read_number(r, &one, entry, v, unit, &number);
    case VH_KEY_DATES:
        one.kind = VH_KEY_DATE;
        if (v->kind != VH_TOML_DATE)
            tell_kind(r, &one, entry, v);
        return v->kind == VH_TOML_DATE;
    case VH_KEY_FILES:
        return read_text(r, key, entry, v);
    case VH_KEY_TEXT_MAP:
    case VH_KEY_NUMBER: /* the others have no items */
    case VH_KEY_WHOLE:
    case VH_KEY_TEXT:
    case VH_KEY_NAME:
    case VH_KEY_FILE:
    case VH_KEY_TRUTH:
    case VH_KEY_DATE:
    case VH_KEY_WORD:
    case VH_KEY_TABLE:
    case VH_KEY_TABLES:
    default:
        one.kind = VH_KEY_TEXT;
        return read_text(r, &one, entry, v);
    }
}

/* Two words, or two dates, alike; an item before may be of another kind, and was told. */
static bool is_same(const struct vh_toml_value *a, const struct vh_toml_value *b)
{
    if (a->kind != b->kind)
        return false;
    return a->kind == VH_TOML_TEXT ? strcmp(a->text, b->text) == 0 : a->day == b->day;
}

static bool read_list(struct vh_reading *r, const struct vh_key *key,
                      const struct vh_toml_entry *entry, struct vh_unit_pair unit)
{
    const struct vh_toml_value *v = entry->value;
    /* [3, 4, 4, 3] counts fruits truss by truss; in any other list a second time is a slip */
    const bool may_repeat = key->kind == VH_KEY_NUMBERS;
    bool good = true;

    if (v->kind != VH_TOML_LIST || v->is_table_array) {
        tell_kind(r, key, entry, v);
        return false;
    }
    if (v->items == 0) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v),
                            "`%s` is an empty list; fill it or leave the key out", entry->key));
        return false;
    }
    for (size_t i = 0; i < v->items; i++) {
        bool item_good = read_item(r, key, entry, v->item[i], unit);
        for (size_t j = 0; item_good && !may_repeat && j < i; j++) {
            if (!is_same(v->item[i], v->item[j]))
                continue;
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v->item[i]),
                                "this stands twice in `%s`; keep one of them", entry->key));
            item_good = false;
        }
        good = good && item_good;
    }
    return good;
}

static bool read_map(struct vh_reading *r, const struct vh_key *key,
                     const struct vh_toml_entry *entry, struct vh_unit_pair unit)
{
    bool good = true;

    if (entry->value->kind != VH_TOML_TABLE) {
        tell_kind(r, key, entry, entry->value);
        return false;
    }
    for (const struct vh_toml_entry *e = entry->value->first; e; e = e->next)
        good = read_item(r, key, e, e->value, unit) && good;
    return good;
}

/* ---- */

static bool read_plain(struct vh_reading *r, const struct vh_key *key,
                       const struct vh_toml_entry *entry, enum vh_toml_kind kind)
{
    if (entry->value->kind == kind)
        return true;
    tell_kind(r, key, entry, entry->value);
    return false;
}

void vh_value_read(struct vh_reading *r, const struct vh_key *key,
                   const struct vh_toml_entry *entry, struct vh_unit_pair unit,
                   struct vh_given *given)
{
    const struct vh_toml_value *v = entry->value;

    *given = (struct vh_given){.at = entry,
                               .text = v->kind == VH_TOML_TEXT ? v->text : NULL,
                               .day = v->day,
                               .truth = v->truth,
                               .word = -1};
    switch (key->kind) {
    case VH_KEY_NUMBER:
    case VH_KEY_WHOLE:
        given->good = read_number(r, key, entry, v, unit, &given->number);
        break;
    case VH_KEY_TEXT:
    case VH_KEY_NAME:
    case VH_KEY_FILE:
        given->good = read_text(r, key, entry, v);
        break;
    case VH_KEY_TRUTH:
        given->good = read_plain(r, key, entry, VH_TOML_BOOL);
        break;
    case VH_KEY_DATE:
        given->good = read_plain(r, key, entry, VH_TOML_DATE);
        break;
    case VH_KEY_WORD:
        given->good = read_word(r, key, entry, v, &given->word);
        break;
    case VH_KEY_FILES:
        given->good =
            v->kind == VH_TOML_TEXT ? read_text(r, key, entry, v) : read_list(r, key, entry, unit);
        break;
    case VH_KEY_WORDS:
    case VH_KEY_NUMBERS:
    case VH_KEY_DATES:
        given->good = read_list(r, key, entry, unit);
        break;
    case VH_KEY_PRICE:
        given->good = v->kind == VH_TOML_NUMBER ? read_item(r, key, entry, v, unit)
                                                : read_map(r, key, entry, unit);
        break;
    case VH_KEY_TEXT_MAP:
    case VH_KEY_NUMBER_MAP:
    case VH_KEY_TABLE: /* never asked for: the walk reads tables itself */
    case VH_KEY_TABLES:
    default:
        given->good = read_map(r, key, entry, unit);
        break;
    }
}

bool vh_value_is_table(struct vh_reading *r, const struct vh_key *key, const char *path,
                       const struct vh_toml_entry *entry)
{
    const struct vh_toml_value *v = entry->value;
    const bool is_array = key->kind == VH_KEY_TABLES;
    enum vh_status status;

    if (is_array ? v->is_table_array : v->kind == VH_TOML_TABLE)
        return true;
    if (is_array && v->kind == VH_TOML_TABLE)
        status =
            vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, entry),
                    "[%s] may stand more than once; write [[%s]], with two brackets", path, path);
    else if (!is_array && v->is_table_array)
        status = vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, entry),
                         "[[%s]] stands once only; write [%s], with one bracket", path, path);
    else
        status = vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v),
                         is_array ? "`%s` is %s; write [[%s]] and its keys on lines below it"
                                  : "`%s` is %s; write [%s] and its keys on lines below it",
                         entry->key, kind_given(v), path);
    vh_spoil(r, status);
    return false;
}
