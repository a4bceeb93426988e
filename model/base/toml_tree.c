#include "toml_parts.h"

#include <stdlib.h>
#include <string.h>

enum { BLOCK_BYTES = 16 * 1024 };

struct vh_toml_block {
    struct vh_toml_block *next;
    size_t used, room;
    max_align_t bytes[];
};

void *vh_toml_take(struct vh_toml_parser *p, size_t bytes)
{
    const size_t unit = sizeof(max_align_t), n = (bytes + unit - 1) / unit;
    struct vh_toml_block *block = p->toml->block;
    if (block == NULL || block->room - block->used < n) {
        const size_t room = n > BLOCK_BYTES / unit ? n : BLOCK_BYTES / unit;
        block = calloc(1, sizeof *block + room * unit);
        if (block == NULL) {
            p->no_memory = true;
            return NULL;
        }
        block->room = room;
        block->next = p->toml->block;
        p->toml->block = block;
    }
    void *taken = block->bytes + block->used;
    block->used += n;
    return taken;
}

char *vh_toml_take_text(struct vh_toml_parser *p, const char *text, size_t n)
{
    char *copy = vh_toml_take(p, n + 1);
    if (copy != NULL)
        memcpy(copy, text, n);
    return copy;
}

static int column_of(const struct vh_toml_parser *p, const char *at)
{
    return (int)(at - p->line_begin) + 1;
}

struct vh_toml_node *vh_toml_node_create(struct vh_toml_parser *p, enum vh_toml_kind kind,
                                         const char *at)
{
    struct vh_toml_node *node = vh_toml_take(p, sizeof *node);
    if (node != NULL) {
        node->value.kind = kind;
        node->value.line = p->line;
        node->value.column = column_of(p, at);
    }
    return node;
}

struct vh_toml_node *vh_toml_node_of(struct vh_toml_value *value)
{
    return (struct vh_toml_node *)(void *)value;
}

struct vh_toml_entry *vh_toml_entry_find(const struct vh_toml_node *table, const char *key,
                                         size_t n)
{
    for (struct vh_toml_entry *e = table->value.first; e != NULL; e = e->next)
        if (strncmp(e->key, key, n) == 0 && e->key[n] == '\0')
            return e;
    return NULL;
}

bool vh_toml_entry_add(struct vh_toml_parser *p, struct vh_toml_node *table, const char *at,
                       size_t n, struct vh_toml_node *value)
{
    const struct vh_toml_entry *earlier = vh_toml_entry_find(table, at, n);
    if (earlier != NULL) {
        vh_toml_fail(p, at, "%s is given twice, first on line %lld; keep one", earlier->key,
                     (long long)earlier->line);
        return false;
    }
    if (table->keys == VH_TOML_KEYS_MOST) {
        vh_toml_fail(p, at, "more than %d keys in one table; is this the right file?",
                     VH_TOML_KEYS_MOST);
        return false;
    }
    struct vh_toml_entry *entry = vh_toml_take(p, sizeof *entry);
    char *key = vh_toml_take_text(p, at, n);
    if (entry == NULL || key == NULL)
        return false;
    entry->key = key;
    entry->line = p->line;
    entry->column = column_of(p, at);
    entry->value = &value->value;
    if (table->last != NULL)
        table->last->next = entry;
    else
        table->value.first = entry;
    table->last = entry;
    table->keys++;
    return true;
}

bool vh_toml_item_add(struct vh_toml_parser *p, struct vh_toml_node *list,
                      struct vh_toml_node *item)
{
    struct vh_toml_value *v = &list->value;
    if (v->items == list->room) {
        const size_t room = list->room == 0 ? 8 : 2 * list->room;
        struct vh_toml_value **more = vh_toml_take(p, room * sizeof *more);
        if (more == NULL)
            return false;
        if (v->items > 0)
            memcpy(more, v->item, v->items * sizeof *more);
        v->item = more;
        list->room = room;
    }
    v->item[v->items++] = &item->value;
    return true;
}

/* ---- what callers of the reader use ---- */

void vh_toml_free(struct vh_toml *t)
{
    if (t == NULL)
        return;
    for (struct vh_toml_block *block = t->block, *next; block != NULL; block = next) {
        next = block->next;
        free(block);
    }
    free(t->name);
    free(t->text);
    free(t->start);
    free(t);
}

const struct vh_toml_value *vh_toml_root(const struct vh_toml *t)
{
    return &t->root->value;
}

const char *vh_toml_line(const struct vh_toml *t, int64_t line)
{
    return line < 1 || (uint64_t)line > t->lines ? NULL : t->text + t->start[line - 1];
}

const char *vh_toml_name(const struct vh_toml *t)
{
    return t->name;
}

const struct vh_toml_entry *vh_toml_find(const struct vh_toml_value *table, const char *key)
{
    for (const struct vh_toml_entry *e = table->first; e != NULL; e = e->next)
        if (strcmp(e->key, key) == 0)
            return e;
    return NULL;
}
