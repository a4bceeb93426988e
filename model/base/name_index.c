#include "vh_name_index.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { SLOTS_LEAST = 64 };

static uint64_t hash_of(const char *name)
{
    uint64_t hash = 0xcbf29ce484222325u; /* FNV-1a */

    for (const unsigned char *p = (const unsigned char *)name; *p; p++)
        hash = (hash ^ *p) * 0x100000001b3u;
    return hash ^ hash >> 32;
}

static const char *name_at(struct vh_named_list list, size_t place)
{
    const char *name;

    memcpy(&name, (const char *)list.first + place * list.step, sizeof name);
    return name;
}

/* The slot that holds the name, or the empty one where it would be. */
static size_t slot_of(const struct vh_name_index *x, struct vh_named_list list, const char *name)
{
    size_t i = (size_t)hash_of(name) & (x->slots - 1);

    while (x->slot[i] && strcmp(name_at(list, x->slot[i] - 1), name) != 0)
        i = (i + 1) & (x->slots - 1);
    return i;
}

/* So many slots that at least half stay empty. */
static bool make_room(struct vh_name_index *x, struct vh_named_list list, size_t names)
{
    struct vh_name_index wider = {.slots = x->slots ? x->slots : SLOTS_LEAST};

    if (2 * names <= x->slots)
        return true;
    while (wider.slots < 2 * names)
        wider.slots *= 2;
    wider.slot = calloc(wider.slots, sizeof *wider.slot);
    if (!wider.slot)
        return false;
    for (size_t i = 0; i < x->slots; i++)
        if (x->slot[i])
            wider.slot[slot_of(&wider, list, name_at(list, x->slot[i] - 1))] = x->slot[i];
    wider.names = x->names;
    free(x->slot);
    *x = wider;
    return true;
}

bool vh_name_index_of(struct vh_name_index *x, struct vh_named_list list, size_t n)
{
    *x = (struct vh_name_index){0};
    if (!make_room(x, list, n))
        return false;
    for (size_t i = 0; i < n; i++)
        if (!vh_name_index_add(x, list, i))
            return false;
    return true;
}

bool vh_name_index_add(struct vh_name_index *x, struct vh_named_list list, size_t place)
{
    if (!make_room(x, list, x->names + 1))
        return false;
    x->slot[slot_of(x, list, name_at(list, place))] = place + 1;
    x->names++;
    return true;
}

size_t vh_name_index_find(const struct vh_name_index *x, struct vh_named_list list,
                          const char *name)
{
    return x->slots ? x->slot[slot_of(x, list, name)] - 1 : VH_NAME_NONE;
}

void vh_name_index_clear(struct vh_name_index *x)
{
    free(x->slot);
    *x = (struct vh_name_index){0};
}
