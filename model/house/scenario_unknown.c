/* A key or table that the scenario file does not know: what may have been meant? */
#include "scenario_parts.h"

#include <stdio.h>
#include <string.h>

#define LIST_BYTES 400
#define WHERE_BYTES 80
#define KEY_LENGTH_MOST 60 /* longer ones are no slip of a known key */

/* Words that people use for a key of ours: the trade's in the United States, and short forms. */
static const struct {
    const char *theirs, *ours;
} other_word[] = {
    {"transplant", "set_out"},
    {"transplanted", "set_out"},
    {"transplant_date", "set_out"},
    {"plant_out", "set_out"},
    {"planted", "set_out"},
    {"planting_date", "set_out"},
    {"seeded", "sow"},
    {"sown", "sow"},
    {"sow_date", "sow"},
    {"cluster", "trusses"},
    {"clusters", "trusses"},
    {"truss", "trusses"},
    {"leaders", "heads_per_plant"},
    {"stems", "heads_per_plant"},
    {"heads", "heads_per_plant"},
    {"variety", "crop"},
    {"cultivar", "crop"},
    {"latitude", "latitude_deg"},
    {"lat", "latitude_deg"},
    {"longitude", "longitude_deg"},
    {"lon", "longitude_deg"},
    {"timezone", "utc_offset_h"},
    {"harvest", "pick"},
    {"harvest_days", "days"},
    {"density", "plants_per_m2"},
    {"spacing", "plants_per_m2"},
    {"fruit_g", "usual_fruit_g"},
    {"remove", "pull_out"},
    {"end", "pull_out"},
    {"temperature", "heat_c"},
    {"labor", "labour"},
    {"pruning", "fruits_kept"},
    {"thinning", "fruits_kept"},
    {"area_m2", "floor_area_m2"},
    {"deleaf", "leaves"},
    {"topping", "top"},
};

static bool holds(const struct vh_key_table *keys, const char *name)
{
    struct vh_unit_pair unit;

    for (size_t i = 0; i < keys->keys; i++) {
        const struct vh_key *k = &keys->key[i];
        if (strcmp(k->name, name) == 0)
            return true;
        if ((k->flags & VH_KEY_UNITS) &&
            vh_units_match(k->name, name, (k->flags & VH_KEY_DIFFERENCE) != 0, &unit))
            return true;
    }
    return false;
}

/* The first table below `keys` that has a key of this name. */
static const struct vh_key_table *table_with(const struct vh_key_table *keys, const char *name)
{
    if (holds(keys, name))
        return keys;
    for (size_t i = 0; i < keys->keys; i++) {
        const struct vh_key_table *found =
            keys->key[i].table ? table_with(keys->key[i].table, name) : NULL;
        if (found)
            return found;
    }
    return NULL;
}

static const char *nearest(const struct vh_key_table *keys, const char *name)
{
    const size_t enough = vh_near_enough(name);
    const char *best = NULL;
    size_t least = enough + 1;

    for (size_t i = 0; i < keys->keys; i++) {
        const size_t d = vh_key_distance(keys->key[i].name, name, enough);
        if (d < least) {
            least = d;
            best = keys->key[i].name;
        }
    }
    return best;
}

const char *vh_key_other_word(const char *name)
{
    for (size_t i = 0; i < sizeof other_word / sizeof other_word[0]; i++) {
        if (strcmp(other_word[i].theirs, name) == 0)
            return other_word[i].ours;
    }
    return NULL;
}

/* "[climate]", "[[planting]]" */
static const char *bracketed(const struct vh_key_table *keys, char text[WHERE_BYTES])
{
    snprintf(text, WHERE_BYTES, keys->is_array ? "[[%s]]" : "[%s]", keys->name);
    return text;
}

/* Of the tables alone, or of all. */
static void known_keys(const struct vh_key_table *keys, bool tables, char list[LIST_BYTES])
{
    size_t used = 0, left = 0;

    list[0] = '\0';
    for (size_t i = 0; i < keys->keys; i++)
        left += !tables || keys->key[i].table;
    for (size_t i = 0; i < keys->keys; i++) {
        if (tables && !keys->key[i].table)
            continue;
        left--;
        const char *between = used == 0 ? "" : left > 0 ? ", " : " and ";
        const int wrote =
            snprintf(list + used, LIST_BYTES - used, "%s%s", between, keys->key[i].name);
        if (wrote < 0 || (size_t)wrote >= LIST_BYTES - used) {
            list[used] = '\0';
            return;
        }
        used += (size_t)wrote;
    }
}

static const struct vh_key *key_named(const struct vh_key_table *keys, const char *name)
{
    for (size_t i = 0; name && i < keys->keys; i++) {
        if (strcmp(keys->key[i].name, name) == 0)
            return &keys->key[i];
    }
    return NULL;
}

static const struct vh_key *table_key(const struct vh_key_table *keys, const char *name)
{
    const struct vh_key *k = key_named(keys, name);

    return k && k->table ? k : NULL;
}

/* "`heat_c`", or "[house]" where the nearest is a table */
static const char *as_written(const struct vh_key_table *keys, const char *name,
                              char text[WHERE_BYTES])
{
    const struct vh_key *k = table_key(keys, name);

    if (k)
        return bracketed(k->table, text);
    snprintf(text, WHERE_BYTES, "`%s`", name);
    return text;
}

static bool is_table(const struct vh_toml_value *v)
{
    return v->kind == VH_TOML_TABLE || v->is_table_array;
}

/* "unknown key `x` in [climate]", "unknown table [x]" */
static void what_is_unknown(const struct vh_key_table *keys, const struct vh_toml_entry *entry,
                            char *text, size_t size)
{
    const char *dot = keys->name[0] ? "." : "";
    char shown[VH_SHOWN_MOST + 4], where[WHERE_BYTES];

    vh_shown(entry->key, shown);
    if (is_table(entry->value))
        snprintf(text, size, "unknown table [%s%s%s]", keys->name, dot, shown);
    else if (keys->name[0])
        snprintf(text, size, "unknown key `%s` in %s", shown, bracketed(keys, where));
    else
        snprintf(text, size, "unknown key `%s` above the first table", shown);
}

const struct vh_key *vh_key_unknown(struct vh_reading *r, const struct vh_key_table *keys,
                                    const struct vh_toml_entry *entry)
{
    const struct vh_place place = vh_at_key(r, entry);
    char what[2 * WHERE_BYTES], where[WHERE_BYTES], list[LIST_BYTES];
    const bool is_short = strlen(entry->key) <= KEY_LENGTH_MOST;
    const char *ours = is_short ? vh_key_other_word(entry->key) : NULL;
    const char *near = is_short ? nearest(keys, entry->key) : NULL;
    const struct vh_key_table *home;
    enum vh_status status;

    what_is_unknown(keys, entry, what, sizeof what);
    if (ours && holds(keys, ours)) {
        status = vh_fail(r->messages, VH_BAD_INPUT, place, "%s; here it is called %s", what,
                         as_written(keys, ours, where));
    } else if (near) {
        status = vh_fail(r->messages, VH_BAD_INPUT, place, "%s; did you mean %s?", what,
                         as_written(keys, near, where));
    } else if (is_short && (home = table_with(&vh_root_keys, entry->key)) != NULL && home != keys) {
        const struct vh_key *k = table_key(home, entry->key);
        status = k ? vh_fail(r->messages, VH_BAD_INPUT, place, "%s; write %s", what,
                             bracketed(k->table, where))
                   : vh_fail(r->messages, VH_BAD_INPUT, place, "%s; it belongs in %s", what,
                             bracketed(home, where));
    } else {
        known_keys(keys, is_table(entry->value), list);
        status = list[0] ? vh_fail(r->messages, VH_BAD_INPUT, place, "%s; known are %s", what, list)
                         : vh_fail(r->messages, VH_BAD_INPUT, place,
                                   "%s; there is none below %s, take it out", what,
                                   bracketed(keys, where));
    }
    vh_spoil(r, status);
    return key_named(keys, ours && holds(keys, ours) ? ours : near);
}
