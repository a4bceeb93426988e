#include "toml_parts.h"

#include <string.h>

#include "vh_text.h"

struct part {
    const char *at;
    size_t n;
};

/* The names between the brackets; their number, 0: told. */
static size_t read_parts(struct vh_toml_parser *p, struct part part[VH_TOML_PARTS_MOST])
{
    size_t parts = 0;
    for (;;) {
        vh_toml_skip_blanks(p);
        const char *at = p->p;
        while (p->p < p->end && vh_toml_is_key_char(*p->p))
            p->p++;
        if (p->p == at) {
            if (p->p < p->end && (*p->p == '"' || *p->p == '\'' || vh_toml_curly(p, p->p) > 0))
                vh_toml_fail(p, at, "a table's name stands without quotes; take them away");
            else
                vh_toml_fail(p, at, "a table's name is missing; as in [house] or [[planting]]");
            return 0;
        }
        if (parts == VH_TOML_PARTS_MOST) {
            vh_toml_fail(p, at, "a header of more than %d parts; fewer would be right",
                         VH_TOML_PARTS_MOST);
            return 0;
        }
        part[parts++] = (struct part){at, (size_t)(p->p - at)};
        vh_toml_skip_blanks(p);
        if (p->p == p->end || *p->p != '.')
            return parts;
        p->p++;
    }
}

/* ] or ]] as the header began. */
static bool read_close(struct vh_toml_parser *p, bool is_list, const struct part *part,
                       size_t parts)
{
    const size_t wanted = is_list ? 2 : 1;
    size_t found = 0;
    const char *at = p->p;
    while (p->p < p->end && *p->p == ']') {
        p->p++;
        found++;
    }
    if (found == wanted)
        return true;
    char name[VH_TOML_SHOWN_BYTES + 4];
    vh_text_shorten(part[0].at, (size_t)(part[parts - 1].at + part[parts - 1].n - part[0].at),
                    VH_TOML_SHOWN_BYTES, name);
    if (found > 0 || vh_toml_at_end(p) || *p->p == '#')
        vh_toml_fail(p, at, "the brackets do not match; write %s%s%s", is_list ? "[[" : "[", name,
                     is_list ? "]]" : "]");
    else
        vh_toml_fail(p, at, "a table's name takes letters, digits, _ and - only; %s would be right",
                     is_list ? "]]" : "]");
    return false;
}

/* The table of that name in `in`, made where there is none; of a list of tables the last. NULL:
 * told. */
static struct vh_toml_node *step_into(struct vh_toml_parser *p, struct vh_toml_node *in,
                                      struct part part)
{
    struct vh_toml_entry *entry = vh_toml_entry_find(in, part.at, part.n);
    if (entry == NULL) {
        struct vh_toml_node *table = vh_toml_node_create(p, VH_TOML_TABLE, part.at);
        if (table == NULL || !vh_toml_entry_add(p, in, part.at, part.n, table))
            return NULL;
        return table;
    }
    struct vh_toml_value *value = entry->value;
    if (value->kind == VH_TOML_LIST && value->is_table_array)
        return vh_toml_node_of(value->item[value->items - 1]);
    if (value->kind == VH_TOML_TABLE && vh_toml_node_of(value)->origin != VH_TOML_INLINE)
        return vh_toml_node_of(value);
    vh_toml_fail(p, part.at, "%s was given a value on line %lld, so it cannot be a table; keep one",
                 entry->key, (long long)entry->line);
    return NULL;
}

/* [name]: a table that no other header has named. */
static struct vh_toml_node *open_table(struct vh_toml_parser *p, struct vh_toml_node *in,
                                       struct part part, const char *bracket)
{
    struct vh_toml_entry *entry = vh_toml_entry_find(in, part.at, part.n);
    struct vh_toml_node *table;
    if (entry == NULL) {
        table = vh_toml_node_create(p, VH_TOML_TABLE, bracket);
        if (table == NULL || !vh_toml_entry_add(p, in, part.at, part.n, table))
            return NULL;
    } else if (entry->value->kind == VH_TOML_LIST && entry->value->is_table_array) {
        vh_toml_fail(
            p, part.at,
            "%s stands in double brackets on line %lld; keep one of the two, or write [[...]] "
            "here too if there may be several",
            entry->key, (long long)entry->line);
        return NULL;
    } else {
        table = vh_toml_node_of(entry->value);
        if (entry->value->kind != VH_TOML_TABLE || table->origin != VH_TOML_IMPLIED) {
            vh_toml_fail(p, part.at,
                         "%s is given twice, first on line %lld; put all its keys under one",
                         entry->key, (long long)entry->value->line);
            return NULL;
        }
        table->value.line = p->line;
        table->value.column = (int)(bracket - p->line_begin) + 1;
    }
    table->origin = VH_TOML_BY_HEADER;
    return table;
}

/* [[name]]: one more table of a list. */
static struct vh_toml_node *open_list_table(struct vh_toml_parser *p, struct vh_toml_node *in,
                                            struct part part, const char *bracket)
{
    struct vh_toml_entry *entry = vh_toml_entry_find(in, part.at, part.n);
    struct vh_toml_node *list;
    if (entry == NULL) {
        list = vh_toml_node_create(p, VH_TOML_LIST, bracket);
        if (list == NULL || !vh_toml_entry_add(p, in, part.at, part.n, list))
            return NULL;
        list->value.is_table_array = true;
    } else {
        list = vh_toml_node_of(entry->value);
        if (!list->value.is_table_array) {
            vh_toml_fail(
                p, part.at,
                "%s is no list of tables on line %lld; keep one of the two, or write both in "
                "double brackets if there may be several",
                entry->key, (long long)entry->value->line);
            return NULL;
        }
    }
    struct vh_toml_node *table = vh_toml_node_create(p, VH_TOML_TABLE, bracket);
    if (table == NULL || !vh_toml_item_add(p, list, table))
        return NULL;
    table->origin = VH_TOML_BY_HEADER;
    return table;
}

bool vh_toml_header(struct vh_toml_parser *p)
{
    const char *bracket = p->p++;
    const bool is_list = p->p < p->end && *p->p == '[';
    if (is_list)
        p->p++;
    struct part part[VH_TOML_PARTS_MOST];
    const size_t parts = read_parts(p, part);
    if (parts == 0 || !read_close(p, is_list, part, parts) || !vh_toml_line_ends(p, NULL))
        return false;
    struct vh_toml_node *in = p->toml->root;
    for (size_t i = 0; i + 1 < parts && in != NULL; i++)
        in = step_into(p, in, part[i]);
    if (in == NULL)
        return false;
    struct vh_toml_node *table = is_list ? open_list_table(p, in, part[parts - 1], bracket)
                                         : open_table(p, in, part[parts - 1], bracket);
    if (table != NULL)
        p->table = table;
    return table != NULL;
}
