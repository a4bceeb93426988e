#include "param_parts.h"

#include <stdlib.h>
#include <string.h>

#include "vh_csv.h"
#include "vh_name_index.h"

static const char *const columns[] = {"key", "authors", "year", "title", "journal", "doi", "read"};
enum { KEY, AUTHORS, YEAR, TITLE, JOURNAL, DOI, READ, COLUMNS };

struct vh_sources {
    struct vh_source *source;
    size_t count, room;
    struct vh_name_index index;
};

struct reading {
    struct vh_sources *sources;
    struct vh_messages *m;
    enum vh_status status; /* the worst so far: rows are read on, so that one run tells all */
};

static const char *text_of(const struct vh_csv_row *row, int column)
{
    return row->cell[column].text != NULL ? row->cell[column].text : "";
}

static bool is_key(const char *text)
{
    return text[0] != '\0' && text[strspn(text, "abcdefghijklmnopqrstuvwxyz0123456789_-")] == '\0';
}

static bool is_year(const char *text)
{
    return (strlen(text) == 4 && strspn(text, "0123456789") == 4) || strcmp(text, "undated") == 0;
}

static enum vh_status take_header(const struct vh_csv_row *row, struct vh_messages *m)
{
    bool good = row->cells == COLUMNS;
    for (size_t i = 0; good && i < COLUMNS; i++)
        good = strcmp(text_of(row, (int)i), columns[i]) == 0;
    if (good)
        return VH_OK;
    return vh_fail(m, VH_BAD_INPUT, (struct vh_place){row->file, row->line, 0, NULL},
                   "the columns of a list of sources are key,authors,year,title,journal,doi,read");
}

static struct vh_named_list keys_of(const struct vh_sources *s)
{
    return (struct vh_named_list){s->source, sizeof *s->source};
}

const struct vh_source *vh_sources_find(const struct vh_sources *s, const char *key)
{
    const size_t at = vh_name_index_find(&s->index, keys_of(s), key);

    return at == VH_NAME_NONE ? NULL : &s->source[at];
}

size_t vh_sources_count(const struct vh_sources *s)
{
    return s->count;
}

const struct vh_source *vh_sources_at(const struct vh_sources *s, size_t i)
{
    return &s->source[i];
}

/* Where each cell of a row goes, in the order of the columns. */
static void cells_of(struct vh_source *source, char **cell[COLUMNS])
{
    cell[KEY] = &source->key;
    cell[AUTHORS] = &source->authors;
    cell[YEAR] = &source->year;
    cell[TITLE] = &source->title;
    cell[JOURNAL] = &source->journal;
    cell[DOI] = &source->doi;
    cell[READ] = &source->read;
}

static void clear(struct vh_source *source)
{
    char **cell[COLUMNS];

    cells_of(source, cell);
    for (int i = 0; i < COLUMNS; i++)
        free(*cell[i]);
}

static enum vh_status add(struct vh_sources *s, const struct vh_csv_row *row)
{
    if (s->count == s->room) {
        const size_t room = 2 * s->room + 64;
        struct vh_source *more = realloc(s->source, room * sizeof *more);
        if (more == NULL)
            return VH_NO_MEMORY;
        s->source = more;
        s->room = room;
    }
    struct vh_source source = {.line = row->line};
    char **cell[COLUMNS];
    bool copied = true;
    cells_of(&source, cell);
    for (int i = 0; i < COLUMNS; i++) {
        *cell[i] = vh_param_text_copy(text_of(row, i));
        copied = copied && *cell[i] != NULL;
    }
    s->source[s->count] = source;
    copied = copied && vh_name_index_add(&s->index, keys_of(s), s->count);
    if (copied)
        s->count++;
    else
        clear(&source);
    return copied ? VH_OK : VH_NO_MEMORY;
}

static enum vh_status check_row(const struct reading *r, const struct vh_csv_row *row)
{
    const struct vh_place where = {row->file, row->line, 0, NULL};
    const char *key = text_of(row, KEY);
    if (!is_key(key))
        return vh_fail(
            r->m, VH_BAD_INPUT, where,
            "\"%s\" is no key of a source; small letters, digits, _ and - would be right", key);
    const struct vh_source *earlier = vh_sources_find(r->sources, key);
    if (earlier != NULL)
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "source %s stands twice, first on line %lld; keep one", key,
                       (long long)earlier->line);
    if (text_of(row, TITLE)[0] == '\0' || text_of(row, AUTHORS)[0] == '\0')
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "source %s lacks its authors or title; fill them in", key);
    if (!is_year(text_of(row, YEAR)))
        return vh_fail(r->m, VH_BAD_INPUT, where,
                       "source %s has the year \"%s\"; four digits, or undated, would be right",
                       key, text_of(row, YEAR));
    if (text_of(row, READ)[0] == '\0')
        return vh_fail(
            r->m, VH_BAD_INPUT, where,
            "source %s does not say what was read of it; whole, abstract, or quoted by which "
            "source",
            key);
    return VH_OK;
}

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct reading *r = context;
    if (is_header)
        return take_header(row, r->m);
    const enum vh_status status = check_row(r, row);
    if (status == VH_OK)
        return add(r->sources, row);
    r->status = status;
    return status == VH_NO_MEMORY ? status : VH_OK;
}

enum vh_status vh_sources_read(const char *path, struct vh_digest *digest, struct vh_sources **out,
                               struct vh_messages *m)
{
    struct vh_sources *s = calloc(1, sizeof *s);
    if (s == NULL)
        return VH_NO_MEMORY;
    struct reading r = {s, m, VH_OK};
    const struct vh_csv_format format = {',', '.'};
    enum vh_status status = vh_csv_read(path, path, format, digest, take, &r, m);
    if (status == VH_OK)
        status = r.status;
    if (status == VH_OK)
        *out = s;
    else
        vh_sources_free(s);
    return status;
}

bool vh_source_key_next(const char **at, char key[VH_SOURCE_KEY_ROOM])
{
    const char *from = *at + strspn(*at, " ;");
    const size_t n = strcspn(from, " ;");
    const size_t kept = n < VH_SOURCE_KEY_ROOM - 1 ? n : VH_SOURCE_KEY_ROOM - 1;

    memcpy(key, from, kept);
    key[kept] = '\0';
    *at = from + n;
    return kept == n;
}

void vh_sources_free(struct vh_sources *s)
{
    if (s == NULL)
        return;
    for (size_t i = 0; i < s->count; i++)
        clear(&s->source[i]);
    vh_name_index_clear(&s->index);
    free(s->source);
    free(s);
}
