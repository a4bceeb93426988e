/* What a key of the scenario wants, for the reader of the file, which knows no keys itself. */
#include "scenario_parts.h"

#include <string.h>

enum { KEY_ROOM = 64 };

static enum vh_toml_wanted wanted_of(enum vh_key_kind kind)
{
    static const enum vh_toml_wanted of[] = {
        [VH_KEY_NUMBER] = VH_TOML_WANTS_NUMBER,  [VH_KEY_WHOLE] = VH_TOML_WANTS_NUMBER,
        [VH_KEY_NUMBERS] = VH_TOML_WANTS_NUMBER, [VH_KEY_PRICE] = VH_TOML_WANTS_NUMBER,
        [VH_KEY_DATE] = VH_TOML_WANTS_DATE,      [VH_KEY_DATES] = VH_TOML_WANTS_DATE,
        [VH_KEY_TRUTH] = VH_TOML_WANTS_TRUTH,    [VH_KEY_WORDS] = VH_TOML_WANTS_LIST,
    };

    return (size_t)kind < sizeof of / sizeof of[0] ? of[kind] : VH_TOML_ANY;
}

bool vh_key_is_amount(const struct vh_key *key)
{
    return (key->kind == VH_KEY_NUMBER || key->kind == VH_KEY_WHOLE) &&
           !(key->flags & VH_KEY_SCALE) && key->low <= 0.0 && key->high >= 0.0;
}

static bool is_number(enum vh_toml_wanted wanted)
{
    return wanted == VH_TOML_WANTS_NUMBER || wanted == VH_TOML_WANTS_AMOUNT;
}

/* Keys of one name in several tables that want different things want nothing that is known; 0 may
 * be none in one of them. */
static void look(const struct vh_key_table *keys, const char *name, enum vh_toml_wanted *wanted,
                 bool *found)
{
    struct vh_unit_pair unit;

    for (size_t i = 0; i < keys->keys; i++) {
        const struct vh_key *k = &keys->key[i];
        if (k->table) {
            look(k->table, name, wanted, found);
            continue;
        }
        if (strcmp(k->name, name) != 0 &&
            !((k->flags & VH_KEY_UNITS) &&
              vh_units_match(k->name, name, (k->flags & VH_KEY_DIFFERENCE) != 0, &unit)))
            continue;
        const enum vh_toml_wanted own =
            vh_key_is_amount(k) ? VH_TOML_WANTS_AMOUNT : wanted_of(k->kind);
        *wanted = !*found || own == *wanted              ? own
                  : is_number(own) && is_number(*wanted) ? VH_TOML_WANTS_AMOUNT
                                                         : VH_TOML_ANY;
        *found = true;
    }
}

enum vh_toml_wanted vh_key_wanted(const char *key, size_t n)
{
    enum vh_toml_wanted wanted = VH_TOML_ANY;
    char name[KEY_ROOM];
    bool found = false;

    if (n >= sizeof name)
        return wanted;
    memcpy(name, key, n);
    name[n] = '\0';
    look(&vh_root_keys, name, &wanted, &found);
    return wanted;
}
