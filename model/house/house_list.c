/* Many houses at once: which they are, and what their results are called. */
#include <stdlib.h>
#include <string.h>

#include "vh_file.h"
#include "vh_folder.h"
#include "vh_result.h"
#include "vh_text.h"

enum { LIST_BYTES_MOST = 1 << 24, NAME_BYTES_MOST = 255 };

struct one {
    char *name, *path;
    int64_t line; /* in the list file; 0: of a folder */
};

struct vh_house_list {
    const char *shown; /* as the person named it; for the time of reading */
    struct one *house;
    size_t houses, room;
    struct vh_table *table;
};

void vh_house_list_free(struct vh_house_list *l)
{
    if (!l)
        return;
    for (size_t i = 0; i < l->houses; i++) {
        free(l->house[i].name);
        free(l->house[i].path);
    }
    free(l->house);
    vh_table_free(l->table);
    free(l);
}

/* The last part of a path; *n its letters, slashes at the end and `.toml` not counted. */
static const char *last_part(const char *path, size_t end, size_t *n)
{
    size_t from;

    while (end > 1 && path[end - 1] == '/')
        end--;
    for (from = end; from > 0 && path[from - 1] != '/'; from--)
        ;
    *n = end - from;
    return path + from;
}

static const char *name_of(const char *path, size_t *n)
{
    const char *name = last_part(path, strlen(path), n);

    if (*n == strlen("scenario.toml") && strncmp(name, "scenario.toml", *n) == 0 && name > path)
        return last_part(path, (size_t)(name - path), n);
    if (*n > strlen(".toml") && strncmp(name + *n - strlen(".toml"), ".toml", 5) == 0)
        *n -= strlen(".toml");
    return name;
}

static bool is_fit(const char *name, size_t n)
{
    static const char *const taken[] = {".", "..", "houses.csv", "run.json", "datapackage.json"};

    for (size_t i = 0; i < sizeof taken / sizeof taken[0]; i++)
        if (strlen(taken[i]) == n && strncmp(name, taken[i], n) == 0)
            return false;
    return n > 0 && n <= NAME_BYTES_MOST && name[0] != '/' && strncmp(name, ".vh-", 4) != 0;
}

/* Takes over `path`, which may be NULL: memory is out. */
static enum vh_status add(struct vh_house_list *l, char *path, int64_t line, struct vh_messages *m)
{
    const struct vh_place place = {l->shown, line, 0, NULL};
    const bool is_folder = path && vh_path_is_folder(path);
    size_t n = 0;
    const char *name = path ? name_of(path, &n) : NULL;

    if (path && !is_fit(name, n)) {
        const enum vh_status status =
            vh_fail(m, VH_BAD_INPUT, place,
                    "%.200s gives its results no name; write the name of a folder that holds "
                    "scenario.toml, or of a scenario file",
                    path);
        free(path);
        return status;
    }
    if (path && l->houses == l->room) {
        const size_t room = l->room ? 2 * l->room : 64;
        struct one *more = realloc(l->house, room * sizeof *more);
        if (more) {
            l->house = more;
            l->room = room;
        }
    }
    char *copy = path && l->houses < l->room ? strndup(name, n) : NULL;
    char *file = copy && is_folder ? vh_path_join(path, "scenario.toml") : path;
    if (!copy || !file) {
        free(copy);
        free(path);
        return VH_NO_MEMORY;
    }
    if (file != path)
        free(path);
    l->house[l->houses++] = (struct one){copy, file, line};
    return VH_OK;
}

static enum vh_status take_folder(struct vh_house_list *l, struct vh_messages *m)
{
    const struct vh_place place = {l->shown, 0, 0, NULL};
    const size_t suffix = strlen(".toml");
    struct vh_names found;
    enum vh_status status = vh_folder_list(l->shown, "", &found, m);

    for (size_t i = 0; i < found.names && status == VH_OK; i++) {
        const size_t n = strlen(found.name[i]);
        char *path = vh_path_join(l->shown, found.name[i]);
        char *inside = path ? vh_path_join(path, "scenario.toml") : NULL;
        const bool is_folder = inside && vh_path_is_folder(path);
        const bool is_house = is_folder
                                  ? vh_file_is_there(inside)
                                  : n > suffix && !strcmp(found.name[i] + n - suffix, ".toml");
        if (!inside) {
            status = VH_NO_MEMORY;
        } else if (!is_folder && strcmp(found.name[i], "scenario.toml") == 0) {
            status = vh_fail(m, VH_BAD_INPUT, place,
                             "this is the folder of one house; name the folder that holds the "
                             "folders of many, or a file with one scenario a line");
        } else if (is_house) {
            status = add(l, path, 0, m);
            path = NULL;
        }
        free(inside);
        free(path);
    }
    vh_names_clear(&found);
    return status;
}

static enum vh_status take_line(struct vh_house_list *l, const char *folder, const char *text,
                                size_t n, int64_t line, struct vh_messages *m)
{
    char *name, *path;

    while (n > 0 && strchr(" \t\r", text[n - 1]))
        n--;
    for (; n > 0 && strchr(" \t", text[0]); n--)
        text++;
    if (n == 0 || text[0] == '#')
        return VH_OK;
    name = strndup(text, n);
    path = name ? vh_path_join(folder, name) : NULL;
    free(name);
    return add(l, path, line, m);
}

static enum vh_status take_lines(struct vh_house_list *l, const char *folder, const char *text,
                                 size_t n, struct vh_messages *m)
{
    struct vh_place place = {l->shown, 1, 0, NULL};
    enum vh_status status = VH_OK;
    size_t at, from = vh_text_bom(text, n);
    const enum vh_text_fault fault = vh_text_check(text + from, n - from, &at);

    if (fault != VH_TEXT_CLEAN) {
        for (size_t i = 0; i < from + at; i++)
            place.line += text[i] == '\n';
        return vh_fail(m, VH_BAD_INPUT, place, "%s", vh_text_fault_message(fault));
    }
    for (int64_t line = 1; from < n && status == VH_OK; line++) {
        const char *end = memchr(text + from, '\n', n - from);
        const size_t length = end ? (size_t)(end - text) - from : n - from;
        status = take_line(l, folder, text + from, length, line, m);
        from += length + 1;
    }
    return status;
}

static enum vh_status take_file(struct vh_house_list *l, struct vh_messages *m)
{
    const char *slash = strrchr(l->shown, '/');
    char *folder = slash ? strndup(l->shown, (size_t)(slash - l->shown) + 1) : strdup("");
    char *text = NULL;
    size_t n = 0;
    enum vh_status status =
        folder ? vh_file_read(l->shown, l->shown, LIST_BYTES_MOST, NULL, &text, &n, m)
               : VH_NO_MEMORY;

    if (status == VH_OK)
        status = take_lines(l, folder, text, n, m);
    free(text);
    free(folder);
    return status;
}

static int by_name(const void *a, const void *b)
{
    const struct one *const *x = a, *const *y = b;
    const int order = strcmp((*x)->name, (*y)->name);

    return order != 0 ? order : ((*x)->line > (*y)->line) - ((*x)->line < (*y)->line);
}

/* Two houses of one name would write over each other. */
static enum vh_status check_names(const struct vh_house_list *l, struct vh_messages *m)
{
    const struct one **sorted = malloc((l->houses + 1) * sizeof *sorted);
    enum vh_status status = sorted ? VH_OK : VH_NO_MEMORY;

    for (size_t i = 0; i < l->houses && sorted; i++)
        sorted[i] = &l->house[i];
    if (sorted)
        qsort(sorted, l->houses, sizeof(struct one *), by_name);
    for (size_t i = 1; i < l->houses && sorted; i++)
        if (strcmp(sorted[i - 1]->path, sorted[i]->path) == 0)
            status = vh_fail(m, VH_BAD_INPUT, (struct vh_place){l->shown, sorted[i]->line, 0, NULL},
                             "%.200s stands twice; take one away", sorted[i]->path);
        else if (strcmp(sorted[i - 1]->name, sorted[i]->name) == 0)
            status = vh_fail(m, VH_BAD_INPUT, (struct vh_place){l->shown, sorted[i]->line, 0, NULL},
                             "the results of %.200s and %.200s would both be called %.100s; "
                             "rename one of them",
                             sorted[i - 1]->path, sorted[i]->path, sorted[i]->name);
    free(sorted);
    return status;
}

enum vh_status vh_house_list_read(const char *path, struct vh_house_list **out,
                                  struct vh_messages *m)
{
    struct vh_house_list *l = calloc(1, sizeof *l);
    enum vh_status status = VH_NO_MEMORY;

    if (l) {
        l->shown = path;
        l->table = vh_result_table_new(VH_TABLE_HOUSES);
    }
    if (l && l->table)
        status = vh_path_is_folder(path) ? take_folder(l, m) : take_file(l, m);
    if (status == VH_OK && l->houses == 0)
        status = vh_fail(m, VH_BAD_INPUT, (struct vh_place){path, 0, 0, NULL},
                         "there is no house in it; write one scenario a line, or name a folder "
                         "whose folders each hold a scenario.toml");
    if (status == VH_OK)
        status = check_names(l, m);
    if (status != VH_OK) {
        vh_house_list_free(l);
        return status;
    }
    l->shown = NULL;
    *out = l;
    return VH_OK;
}

size_t vh_house_list_count(const struct vh_house_list *l)
{
    return l->houses;
}

const char *vh_house_list_name(const struct vh_house_list *l, size_t i)
{
    return l->house[i].name;
}

const char *vh_house_list_path(const struct vh_house_list *l, size_t i)
{
    return l->house[i].path;
}

int64_t vh_house_list_line(const struct vh_house_list *l, size_t i)
{
    return l->house[i].line;
}

const struct vh_table *vh_house_list_table(const struct vh_house_list *l)
{
    return l->table;
}
