/* Which column of a records file holds what: by the scenario's map first, then by our own names. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "record_parts.h"
#include "scenario_parts.h"

#define WORD_ROOM 64

static const struct {
    const char *name;
    enum vh_record_role role;
    const char *meaning;
} roles[] = {
    {"date", VH_ROLE_DATE, "day of the visit, as 2026-07-14"},
    {"planting", VH_ROLE_PLANTING, "name of the planting, as in the scenario"},
    {"item", VH_ROLE_ITEM,
     "what was noted (vinehand explain items); without this column each item has a column"},
    {"value", VH_ROLE_VALUE, "how much of it, in the unit that the item ends in"},
    {"truss", VH_ROLE_TRUSS, "number of the truss (node) looked at, from 1; may be absent"},
    {"of", VH_ROLE_OF, "stems looked at, of fruit_g fruits weighed; may be absent"},
    {"note", VH_ROLE_NOTE,
     "your own words, not used, but that `right` at the beginning says of a doubted entry that it is no slip; may be absent"},
};

void vh_record_sheet_clear(struct vh_record_sheet *s)
{
    for (size_t i = 0; i < s->columns; i++)
        free(s->column[i].name);
    free(s->column);
    free(s->line);
    *s = (struct vh_record_sheet){0};
}

int vh_sheet_column(const struct vh_record_sheet *s, enum vh_record_role role)
{
    for (size_t i = 0; i < s->columns; i++) {
        if (s->column[i].role == role)
            return (int)i;
    }
    return -1;
}

static enum vh_record_role role_of(const char *word)
{
    for (size_t i = 0; i < sizeof roles / sizeof roles[0]; i++) {
        if (strcmp(word, roles[i].name) == 0)
            return roles[i].role;
    }
    return VH_ROLE_NONE;
}

/* Ours for a header: of the map, where one of its lines names it. *at: that line. */
static const char *ours_for(const char *header, struct vh_column_map *map, size_t maps,
                            const struct vh_place **at)
{
    for (size_t k = 0; k < maps; k++) {
        if (strcmp(map[k].theirs, header) != 0)
            continue;
        map[k].used = true;
        *at = &map[k].place;
        return map[k].ours;
    }
    return header;
}

static enum vh_status no_such_item(const char *word, const char *ours, bool is_mapped, bool us,
                                   struct vh_place place, struct vh_messages *m)
{
    char hint[VH_ITEM_HINT], shown[VH_SHOWN_MOST + 4];

    vh_shown(ours, shown);
    if (vh_item_hint(word, us, hint, sizeof hint))
        return vh_fail(m, VH_BAD_INPUT, place, "no item is called `%s`; %s", shown, hint);
    if (is_mapped)
        return vh_fail(m, VH_BAD_INPUT, place,
                       "no item is called `%s`; write one of ours, as in picked_kg = \"Harvest\"",
                       shown);
    vh_warn(m, place, "column `%s` is none of ours; it is passed over", shown);
    return VH_OK;
}

/* Wide form: a column of one item, or one that is passed over. */
static enum vh_status take_measure(struct vh_record_column *c, const char *word, const char *ours,
                                   bool is_mapped, bool us, struct vh_place place,
                                   struct vh_messages *m)
{
    enum vh_record_item other = VH_RECORD_ITEMS;

    const enum vh_item_found found = vh_item_of_word(word, &c->word, &other);
    if (found == VH_ITEM_NONE)
        return no_such_item(word, ours, is_mapped, us, place, m);
    if (found == VH_ITEM_TWO)
        return vh_fail(m, VH_BAD_INPUT, place,
                       "`%s` may be %s or %s in another unit; write one of these two", word,
                       vh_record_item_name(c->word.item), vh_record_item_name(other));
    c->role = VH_ROLE_MEASURE;
    return VH_OK;
}

static bool says_the_same(const struct vh_record_column *a, const struct vh_record_column *b)
{
    if (a->role != b->role || a->role == VH_ROLE_NONE || a->role == VH_ROLE_NOTE)
        return false;
    return a->role != VH_ROLE_MEASURE ||
           (a->word.item == b->word.item &&
            (a->word.item < VH_RECORD_MINUTES || a->word.task == b->word.task));
}

static enum vh_status check_needed(const struct vh_record_sheet *s, struct vh_place place,
                                   struct vh_messages *m)
{
    const bool has_measure = vh_sheet_column(s, VH_ROLE_MEASURE) >= 0;
    const char *missed = vh_sheet_column(s, VH_ROLE_DATE) < 0                   ? "date"
                         : vh_sheet_column(s, VH_ROLE_PLANTING) < 0             ? "planting"
                         : !s->is_wide && vh_sheet_column(s, VH_ROLE_VALUE) < 0 ? "value"
                                                                                : NULL;

    if (missed)
        return vh_fail(m, VH_BAD_INPUT, place,
                       "no column `%s`; the header is date,planting,item,value,truss,of,note, or"
                       " date,planting and a column for each item; other names go into"
                       " [records.columns]",
                       missed);
    if (s->is_wide && !has_measure)
        return vh_fail(m, VH_BAD_INPUT, place,
                       "no column of an item; add item and value, or columns such as picked_kg");
    return VH_OK;
}

/* Blanks around it and capitals do not matter. */
static void plain_word(const char *text, char word[WORD_ROOM])
{
    size_t n = strlen(text);

    while (n > 0 && (text[n - 1] == ' ' || text[n - 1] == '\t'))
        n--;
    while (n > 0 && (*text == ' ' || *text == '\t'))
        text++, n--;
    snprintf(word, WORD_ROOM, "%.*s", (int)(n < WORD_ROOM ? n : WORD_ROOM - 1), text);
    for (char *c = word; *c; c++)
        *c = *c >= 'A' && *c <= 'Z' ? (char)(*c - 'A' + 'a') : *c;
}

static enum vh_status take_column(struct vh_record_sheet *s, size_t i, const char *header,
                                  struct vh_column_map *map, size_t maps, struct vh_place place,
                                  struct vh_messages *m)
{
    struct vh_record_column *c = &s->column[i];
    const struct vh_place *at = &place;
    const char *ours = ours_for(header, map, maps, &at);
    char word[WORD_ROOM];

    plain_word(ours, word);
    c->name = strdup(header);
    if (!c->name)
        return VH_NO_MEMORY;
    c->role = role_of(word);
    if (c->role == VH_ROLE_NONE && s->is_wide) {
        const enum vh_status status =
            take_measure(c, word, ours, at != &place, s->us_units, *at, m);
        if (status != VH_OK)
            return status;
    } else if (c->role == VH_ROLE_NONE && at == &place && word[0]) {
        vh_warn(m, place, "column `%s` is none of ours; it is passed over", word);
    }
    for (size_t k = 0; k < i; k++) {
        if (says_the_same(&s->column[k], c))
            return vh_fail(m, VH_BAD_INPUT, *at,
                           "columns `%s` and `%s` hold the same; keep one of them",
                           s->column[k].name, c->name);
    }
    return VH_OK;
}

/* Is there a column of items? The map or the header says so. */
static bool is_long(const struct vh_csv_row *row, struct vh_column_map *map, size_t maps)
{
    for (size_t i = 0; i < row->cells; i++) {
        const struct vh_place *at = NULL;
        char word[WORD_ROOM];
        plain_word(ours_for(row->cell[i].text ? row->cell[i].text : "", map, maps, &at), word);
        if (role_of(word) == VH_ROLE_ITEM)
            return true;
    }
    return false;
}

enum vh_status vh_record_header(struct vh_record_sheet *s, const struct vh_csv_row *row,
                                struct vh_column_map *map, size_t maps, struct vh_messages *m)
{
    const struct vh_place place = {row->file, row->line, 0, NULL};
    enum vh_status status = VH_OK;

    s->is_wide = !is_long(row, map, maps);
    s->column = calloc(row->cells, sizeof *s->column);
    if (!s->column)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < row->cells; i++) {
        s->columns = i + 1;
        const enum vh_status one =
            take_column(s, i, row->cell[i].text ? row->cell[i].text : "", map, maps, place, m);
        if (one == VH_NO_MEMORY)
            return one;
        status = one != VH_OK ? one : status;
    }
    return status == VH_OK ? check_needed(s, place, m) : status;
}

char *vh_record_new_header(const struct vh_column_map *map, size_t maps)
{
    char text[2000] = "", name[32];
    const char *rest = "date,planting,item,value,truss,of,note";

    while (*rest) {
        const size_t n = strcspn(rest, ",");
        const char *theirs = NULL;
        snprintf(name, sizeof name, "%.*s", (int)n, rest);
        for (size_t i = 0; i < maps; i++)
            theirs = strcmp(map[i].ours, name) == 0 ? map[i].theirs : theirs;
        const size_t used = strlen(text);
        const bool wants_quotes = theirs && strpbrk(theirs, ",;\t\"");
        snprintf(text + used, sizeof text - used, wants_quotes ? "%s\"%.200s\"" : "%s%.200s",
                 used ? "," : "", theirs ? theirs : name);
        rest += n + (rest[n] == ',');
    }
    const size_t used = strlen(text);
    snprintf(text + used, sizeof text - used, "\n");
    return strdup(text);
}

enum vh_status vh_record_columns(vh_brought_take take, void *context)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < sizeof roles / sizeof roles[0] && status == VH_OK; i++) {
        const bool is_count = roles[i].role == VH_ROLE_TRUSS || roles[i].role == VH_ROLE_OF;
        const struct vh_brought_column column = {
            "records", roles[i].name, is_count ? 1.0 : (double)NAN, (double)NAN, roles[i].meaning};
        status = take(context, &column);
    }
    return status;
}
