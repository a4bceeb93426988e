/* What can be explained: the keys of the scenario file, and their tables. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "explain_parts.h"
#include "scenario_parts.h"

/* The unit that a key's name carries; the first that fits holds. */
static const struct {
    const char *ending, *unit;
} units[] = {
    {"_umol_m2_s", "umol m-2 s-1"},
    {"_mol_m2_d", "mol m-2 d-1"},
    {"_mj_m2_d", "MJ m-2 d-1"},
    {"_w_m2", "W m-2"},
    {"_ms_cm", "mS cm-1"},
    {"_w_k", "W K-1"},
    {"_per_kwh", "money kWh-1"},
    {"string_per_m", "money m-1"},
    {"_per_m2", "m-2"},
    {"per_week", "h week-1"},
    {"per_kg", "money kg-1"},
    {"per_fruit", "money fruit-1"},
    {"labour.per_h", "money h-1"},
    {"labour.seconds", "s"},
    {"stock.cost.clip", "money"},
    {"stock.cost.hook", "money"},
    {"stock.cost.truss_support", "money"},
    {"stock.cost.plant", "money"},
    {"_deg", "deg"},
    {"_ppm", "ppm"},
    {"_pct", "%"},
    {"_m2", "m2"},
    {"_mm", "mm"},
    {"_cm", "cm"},
    {"_m", "m"},
    {"_c", "degC"},
    {"_h", "h"},
    {"_d", "d"},
    {"_g", "g"},
    {"_kg", "kg"},
    {".kg", "kg"},
    {".lb", "lb"},
};

/* What reads a table's keys; the first whose beginning fits holds. */
static const struct {
    const char *table, *used_in;
} users[] = {
    {"house", "model/climate/vh_climate.h"},   {"climate", "model/climate/vh_climate.h"},
    {"outside", "model/climate/vh_climate.h"}, {"planting.standing", "model/house/vh_house.h"},
    {"planting.", "model/work/vh_policy.h"},   {"planting", "model/house/vh_house.h"},
    {"market", "model/market/vh_market.h"},    {"parameters", "model/base/vh_param.h"},
};

static bool ends_in(const char *text, const char *ending)
{
    const size_t n = strlen(text), m = strlen(ending);

    return n >= m && strcmp(text + n - m, ending) == 0;
}

static bool is_number(enum vh_key_kind kind)
{
    return kind == VH_KEY_NUMBER || kind == VH_KEY_WHOLE || kind == VH_KEY_NUMBERS ||
           kind == VH_KEY_PRICE || kind == VH_KEY_NUMBER_MAP;
}

const char *vh_unit_of_name(const char *whole)
{
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (ends_in(whole, units[i].ending))
            return units[i].unit;
    }
    return "1";
}

static const char *user_of(const char *table)
{
    for (size_t i = 0; i < sizeof users / sizeof users[0]; i++) {
        if (strncmp(table, users[i].table, strlen(users[i].table)) == 0)
            return users[i].used_in;
    }
    return "";
}

void vh_choices_said(const char *words, char text[VH_MEANING_ROOM])
{
    char list[VH_MEANING_ROOM - 8];

    vh_words_listed(words, list, sizeof list);
    snprintf(text, VH_MEANING_ROOM, "%s%s", strchr(words, '|') ? "one of " : "", list);
}

static void say_kind(const struct vh_key *k, char text[VH_MEANING_ROOM])
{
    static const char *const said[] = {
        [VH_KEY_NUMBER] = "number",
        [VH_KEY_WHOLE] = "whole number",
        [VH_KEY_TEXT] = "text",
        [VH_KEY_NAME] = "name",
        [VH_KEY_FILE] = "file",
        [VH_KEY_TRUTH] = "true or false",
        [VH_KEY_DATE] = "date",
        [VH_KEY_WORD] = "",
        [VH_KEY_FILES] = "file, or a list of files",
        [VH_KEY_WORDS] = "a list of ",
        [VH_KEY_NUMBERS] = "a list of numbers",
        [VH_KEY_DATES] = "a list of dates",
        [VH_KEY_PRICE] = "number, or numbers by grade",
        [VH_KEY_TABLE] = "a table, ",
        [VH_KEY_TABLES] = "one table or more, each ",
        [VH_KEY_TEXT_MAP] = "table with names of yours",
        [VH_KEY_NUMBER_MAP] = "table with a number for each task",
    };
    char list[VH_MEANING_ROOM - 16];

    if (k->table) {
        snprintf(text, VH_MEANING_ROOM, k->table->is_array ? "%s[[%s]]" : "%s[%s]", said[k->kind],
                 k->table->name);
    } else if (k->kind == VH_KEY_WORD) {
        vh_choices_said(k->words, text);
    } else if (k->kind == VH_KEY_WORDS) {
        vh_words_listed(k->words, list, sizeof list);
        snprintf(text, VH_MEANING_ROOM, "%s%s", said[k->kind], list);
    } else {
        snprintf(text, VH_MEANING_ROOM, "%s", said[k->kind]);
    }
}

static void add(char text[VH_MEANING_ROOM], const char *between, const char *more)
{
    const size_t n = strlen(text);

    snprintf(text + n, VH_MEANING_ROOM - n, "%s%s", n ? between : "", more);
}

void vh_other_units_said(const char *ours, bool is_difference, char note[VH_MEANING_ROOM])
{
    static const char *const other[] = {"_ft", "_in", "_lb", "_oz", "_f", "_ft2"};
    const char *last = strrchr(ours, '_');
    bool first = true;

    if (!last)
        return;
    for (size_t i = 0; i < sizeof other / sizeof other[0]; i++) {
        struct vh_unit_pair pair;
        char name[VH_MEANING_ROOM];
        snprintf(name, sizeof name, "%.*s%s", (int)(last - ours), ours, other[i]);
        if (!vh_units_match(ours, name, is_difference, &pair))
            continue;
        add(note, first ? "; " : ", ", first ? "or " : "");
        add(note, "", name);
        first = false;
    }
}

static void say_note(const struct vh_key *k, char note[VH_MEANING_ROOM])
{
    note[0] = '\0';
    if (k->flags & VH_KEY_REQUIRED)
        add(note, "; ", "required");
    if (k->flags & VH_KEY_UNITS)
        vh_other_units_said(k->name, (k->flags & VH_KEY_DIFFERENCE) != 0, note);
}

static void say_where(const struct vh_key_table *t, char where[VH_MEANING_ROOM])
{
    if (t->name[0])
        snprintf(where, VH_MEANING_ROOM, t->is_array ? "[[%s]]" : "[%s]", t->name);
    else
        snprintf(where, VH_MEANING_ROOM, "the scenario file");
}

static enum vh_status give_key(const struct vh_key_table *t, const struct vh_key *k,
                               vh_meaning_take take, void *context)
{
    char whole[VH_MEANING_ROOM], where[VH_MEANING_ROOM], kind[VH_MEANING_ROOM];
    char note[VH_MEANING_ROOM];
    const bool words = k->kind == VH_KEY_WORD || k->kind == VH_KEY_WORDS;
    struct vh_meaning m = vh_meaning_empty();

    snprintf(whole, sizeof whole, "%s%s%s", t->name, t->name[0] ? "." : "", k->name);
    say_where(t, where);
    say_kind(k, kind);
    say_note(k, note);
    m.what = k->table ? "table" : "key";
    m.name = whole;
    m.alone = k->name;
    m.list = t->name[0] ? t->name : "scenario";
    m.where = where;
    m.kind = kind;
    m.unit = is_number(k->kind) ? vh_unit_of_name(whole) : "";
    if (is_number(k->kind)) {
        m.low = k->low;
        m.high = k->high;
    }
    m.example = !words && k->words ? k->words : "";
    m.meaning = k->meaning;
    m.note = note;
    m.used_in = k->table ? "" : user_of(t->name);
    m.other_units = (k->flags & VH_KEY_UNITS) != 0;
    m.key = k;
    return take(context, &m);
}

static enum vh_status give_table(const struct vh_key_table *t, vh_meaning_take take, void *context)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < t->keys && status == VH_OK; i++) {
        const struct vh_key *k = &t->key[i];
        status = give_key(t, k, take, context);
        if (status == VH_OK && k->table)
            status = give_table(k->table, take, context);
    }
    return status;
}

enum vh_status vh_meanings_of_keys(vh_meaning_take take, void *context)
{
    return give_table(&vh_root_keys, take, context);
}
