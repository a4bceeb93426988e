/* kept_keys.h - which key a line of a scenario gives, by the tables of keys that the reader has. */
#ifndef KEPT_KEYS_H
#define KEPT_KEYS_H

#include <string.h>

#include "scenario_parts.h"

/* The table of the keys under a header, "planting.pick"; NULL: keys of her own. */
static const struct vh_key_table *under(const char *header, size_t n)
{
    const struct vh_key_table *t = &vh_root_keys;

    for (const char *end = header + n; header < end;) {
        const size_t m = strcspn(header, ".]");
        size_t i = 0;
        while (i < t->keys && (strlen(t->key[i].name) != m || strncmp(t->key[i].name, header, m)))
            i++;
        if (i == t->keys || !t->key[i].table)
            return NULL;
        t = t->key[i].table;
        header += m + 1;
    }
    return t;
}

/* The table that is open behind a line "[...]". */
static const struct vh_key_table *under_line(const char *line)
{
    const size_t brackets = strspn(line, "[");

    return under(line + brackets, strcspn(line + brackets, "]"));
}

/* What the line "key = value" gives; NULL: a key in other units than ours. */
static const struct vh_key *key_of(const struct vh_key_table *table, const char *line)
{
    const size_t name = strcspn(line, " =");

    for (size_t i = 0; i < table->keys; i++)
        if (strlen(table->key[i].name) == name && strncmp(table->key[i].name, line, name) == 0)
            return &table->key[i];
    return NULL;
}

#endif
