/* One walk over any table of the scenario file: which key is it, is it given once, what does it
 * hold? */
#include "scenario_parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define KEYS_MOST 40 /* of one table */
#define PATH_BYTES 120

void vh_spoil(struct vh_reading *r, enum vh_status status)
{
    const bool is_worse = r->status != VH_NO_MEMORY && (status < 0 || r->status >= 0);

    if (status != VH_OK && is_worse)
        r->status = status;
}

void *vh_reading_room(struct vh_reading *r, size_t count, size_t size)
{
    void *room = calloc(count ? count : 1, size);

    if (!room)
        vh_spoil(r, VH_NO_MEMORY);
    return room;
}

char *vh_reading_copy(struct vh_reading *r, const char *text)
{
    const size_t n = strlen(text) + 1;
    char *copy = vh_reading_room(r, n, 1);

    if (copy)
        memcpy(copy, text, n);
    return copy;
}

static struct vh_place at(const struct vh_reading *r, int64_t line, int column)
{
    return (struct vh_place){r->shown_name, line, column, vh_toml_line(r->toml, line)};
}

struct vh_place vh_at_key(const struct vh_reading *r, const struct vh_toml_entry *entry)
{
    return at(r, entry->line, entry->column);
}

struct vh_place vh_at_value(const struct vh_reading *r, const struct vh_toml_value *value)
{
    return at(r, value->line, value->column);
}

struct vh_place vh_at_table(const struct vh_reading *r, const struct vh_toml_value *table)
{
    return at(r, table->line, table->column);
}

static const struct vh_key *find_key(const struct vh_key_table *keys, const char *name,
                                     struct vh_unit_pair *unit)
{
    *unit = (struct vh_unit_pair){1.0, 0.0};
    for (size_t i = 0; i < keys->keys; i++) {
        if (strcmp(keys->key[i].name, name) == 0)
            return &keys->key[i];
    }
    for (size_t i = 0; i < keys->keys; i++) {
        const struct vh_key *k = &keys->key[i];
        if ((k->flags & VH_KEY_UNITS) &&
            vh_units_match(k->name, name, (k->flags & VH_KEY_DIFFERENCE) != 0, unit))
            return k;
    }
    return NULL;
}

static void path_of(const struct vh_key_table *keys, const struct vh_key *key,
                    char path[PATH_BYTES])
{
    snprintf(path, PATH_BYTES, "%s%s%s", keys->name, keys->name[0] ? "." : "", key->name);
}

static void read_entry(struct vh_reading *r, const struct vh_key_table *keys,
                       const struct vh_key *key, const struct vh_toml_entry *entry,
                       struct vh_unit_pair unit, char *raw)
{
    void *field = raw + key->field;
    char path[PATH_BYTES];

    path_of(keys, key, path);
    if (key->kind != VH_KEY_TABLE && key->kind != VH_KEY_TABLES)
        vh_value_read(r, key, entry, unit, field);
    else if (!vh_value_is_table(r, key, path, entry))
        return;
    else if (key->kind == VH_KEY_TABLE)
        vh_keys_read(r, key->table, entry->value, field);
    else
        *(struct vh_given *)field = (struct vh_given){.at = entry, .good = true};
}

static void tell_missing(struct vh_reading *r, const struct vh_key_table *keys,
                         const struct vh_key *key, const struct vh_toml_value *table)
{
    const struct vh_place nowhere = {r->shown_name, 0, 0, NULL};
    const char *open = keys->is_array ? "[[" : "[", *close = keys->is_array ? "]]" : "]";
    const char *example = key->words; /* no word of a list is required */
    enum vh_status status;

    if (key->table)
        status = vh_fail(r->messages, VH_BAD_INPUT, nowhere,
                         key->table->is_array ? "there is no [[%s]]; add one"
                                              : "there is no [%s]; add one",
                         key->table->name);
    else if (example)
        status = vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, table),
                         "%s%s%s has no `%s`; add it, as in %s", open, keys->name, close, key->name,
                         example);
    else
        status = vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, table),
                         "%s%s%s has no `%s`; add it", open, keys->name, close, key->name);
    vh_spoil(r, status);
}

/* A mistyped key is not missing as well: one slip, one message. */
static void take_as_meant(const struct vh_key_table *keys, const struct vh_toml_entry **meant,
                          const struct vh_toml_entry **seen, char *raw)
{
    for (size_t i = 0; i < keys->keys; i++) {
        const struct vh_key *key = &keys->key[i];
        if (!meant[i] || seen[i])
            continue;
        seen[i] = meant[i];
        if (key->kind != VH_KEY_TABLE)
            *(struct vh_given *)(void *)(raw + key->field) = (struct vh_given){.at = meant[i]};
    }
}

void vh_keys_read(struct vh_reading *r, const struct vh_key_table *keys,
                  const struct vh_toml_value *table, void *raw)
{
    const struct vh_toml_entry *seen[KEYS_MOST] = {NULL}, *meant[KEYS_MOST] = {NULL};

    memcpy(raw, &table, sizeof table); /* each raw struct begins with its table */
    for (const struct vh_toml_entry *e = table->first; e; e = e->next) {
        struct vh_unit_pair unit;
        const struct vh_key *key = find_key(keys, e->key, &unit);
        if (!key) {
            key = vh_key_unknown(r, keys, e);
            if (key)
                meant[key - keys->key] = e;
            continue;
        }
        const size_t i = (size_t)(key - keys->key);
        if (seen[i]) {
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, e),
                                "`%s` says the same as `%s` on line %lld; keep one of them", e->key,
                                seen[i]->key, (long long)seen[i]->line));
            continue;
        }
        seen[i] = e;
        read_entry(r, keys, key, e, unit, raw);
    }
    take_as_meant(keys, meant, seen, raw);
    for (size_t i = 0; i < keys->keys; i++) {
        if ((keys->key[i].flags & VH_KEY_REQUIRED) && !seen[i])
            tell_missing(r, keys, &keys->key[i], table);
    }
}

size_t vh_keys_items(const struct vh_given *given)
{
    return given->at && given->good ? given->at->value->items : 0;
}

void vh_keys_read_item(struct vh_reading *r, const struct vh_key_table *keys,
                       const struct vh_given *given, size_t i, void *raw)
{
    vh_keys_read(r, keys, given->at->value->item[i], raw);
}
