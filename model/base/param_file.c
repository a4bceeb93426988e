#include "param_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_csv.h"

static const char *const columns[] = {"name",  "value",  "unit",  "low", "high",
                                      "basis", "source", "place", "note"};
enum { NAME, VALUE, UNIT, LOW, HIGH, BASIS, SOURCE, PLACE, NOTE, COLUMNS };

struct reading {
    struct vh_param_set *set;
    size_t room;
    struct vh_name_index index; /* of its names */
    int at[COLUMNS];            /* where each column stands in this file */
    struct vh_messages *m;
    enum vh_status status; /* the worst so far: rows are read on, so that one run tells all */
};

char *vh_param_text_copy(const char *text)
{
    char *copy = malloc(strlen(text) + 1);
    if (copy != NULL)
        strcpy(copy, text);
    return copy;
}

char *vh_param_path(const char *folder, const char *name)
{
    const size_t n = strlen(folder) + strlen(name) + sizeof "/.csv";
    char *path = malloc(n);

    if (path != NULL)
        snprintf(path, n, "%s/%s.csv", folder, name);
    return path;
}

void vh_param_row_clear(struct vh_param_row *row)
{
    if (row->is_lent) {
        memset(row, 0, sizeof *row);
        return;
    }
    free(row->name);
    free(row->value_text);
    free(row->unit);
    free(row->basis);
    free(row->source);
    free(row->place);
    free(row->note);
    free(row->file);
    memset(row, 0, sizeof *row);
}

static struct vh_csv_cell cell_of(const struct reading *r, const struct vh_csv_row *row, int column)
{
    return row->cell[r->at[column]];
}

static const char *text_of(const struct reading *r, const struct vh_csv_row *row, int column)
{
    const struct vh_csv_cell cell = cell_of(r, row, column);
    return cell.text != NULL ? cell.text : "";
}

static enum vh_status take_header(struct reading *r, const struct vh_csv_row *row)
{
    const struct vh_place where = {row->file, row->line, 0, NULL};
    for (int k = 0; k < COLUMNS; k++)
        r->at[k] = -1;
    for (size_t i = 0; i < row->cells; i++) {
        const char *text = row->cell[i].text != NULL ? row->cell[i].text : "";
        int k = 0;
        while (k < COLUMNS && strcmp(text, columns[k]) != 0)
            k++;
        if (k == COLUMNS)
            return vh_fail(r->m, VH_BAD_INPUT, where,
                           "unknown column \"%s\"; the columns are "
                           "name,value,unit,low,high,basis,source,place,note",
                           text);
        if (r->at[k] >= 0)
            return vh_fail(r->m, VH_BAD_INPUT, where, "column %s stands twice; keep one", text);
        r->at[k] = (int)i;
    }
    for (int k = 0; k < COLUMNS; k++)
        if (r->at[k] < 0)
            return vh_fail(r->m, VH_BAD_INPUT, where,
                           "column %s is missing; the columns are "
                           "name,value,unit,low,high,basis,source,place,note",
                           columns[k]);
    return VH_OK;
}

static bool make_room(struct reading *r)
{
    if (r->set->rows < r->room)
        return true;
    const size_t room = r->room == 0 ? 64 : 2 * r->room;
    struct vh_param_row *more = realloc(r->set->row, room * sizeof *more);
    if (more == NULL)
        return false;
    r->set->row = more;
    r->room = room;
    return true;
}

/* NaN for an empty cell. */
static enum vh_status bound_of(const struct reading *r, const struct vh_csv_row *row, int column,
                               double *bound)
{
    const struct vh_csv_cell cell = cell_of(r, row, column);
    *bound = (double)NAN;
    if (cell.text == NULL || vh_csv_number(cell, '.', bound))
        return VH_OK;
    return vh_fail(r->m, VH_BAD_INPUT, (struct vh_place){row->file, row->line, 0, NULL},
                   "%s of %s is \"%s\"; a number or nothing would be right", columns[column],
                   text_of(r, row, NAME), cell.text);
}

static enum vh_status copy_row(const struct reading *r, const struct vh_csv_row *from,
                               struct vh_param_row *to)
{
    char **const text[] = {&to->name,   &to->value_text, &to->unit, &to->basis,
                           &to->source, &to->place,      &to->note};
    const int column[] = {NAME, VALUE, UNIT, BASIS, SOURCE, PLACE, NOTE};
    for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
        *text[i] = vh_param_text_copy(text_of(r, from, column[i]));
        if (*text[i] == NULL)
            return VH_NO_MEMORY;
    }
    to->file = vh_param_text_copy(from->file);
    to->line = from->line;
    if (to->file == NULL)
        return VH_NO_MEMORY;
    to->value = (double)NAN;
    (void)vh_csv_number(cell_of(r, from, VALUE), '.', &to->value); /* a choice stays NaN */
    const enum vh_status low = bound_of(r, from, LOW, &to->low),
                         high = bound_of(r, from, HIGH, &to->high);
    return low != VH_OK ? low : high;
}

static enum vh_status take_row(struct reading *r, const struct vh_csv_row *row)
{
    const struct vh_place where = {row->file, row->line, 0, NULL};
    const char *name = text_of(r, row, NAME);
    if (name[0] == '\0')
        return vh_fail(r->m, VH_BAD_INPUT, where, "a row without a name; name its parameter");
    const size_t earlier = vh_name_index_find(&r->index, vh_param_rows_named(r->set), name);
    if (earlier != VH_NAME_NONE)
        return vh_fail(r->m, VH_BAD_INPUT, where, "%s stands twice, first on line %lld; keep one",
                       name, (long long)r->set->row[earlier].line);
    if (!make_room(r))
        return VH_NO_MEMORY;
    struct vh_param_row copy = {0};
    const enum vh_status status = copy_row(r, row, &copy);
    r->set->row[r->set->rows] = copy;
    if (status == VH_OK &&
        vh_name_index_add(&r->index, vh_param_rows_named(r->set), r->set->rows)) {
        r->set->rows++;
        return VH_OK;
    }
    vh_param_row_clear(&r->set->row[r->set->rows]);
    return status == VH_OK ? VH_NO_MEMORY : status;
}

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct reading *r = context;
    if (is_header)
        return take_header(r, row);
    const enum vh_status status = take_row(r, row);
    if (status != VH_OK)
        r->status = status;
    return status == VH_NO_MEMORY ? status : VH_OK;
}

/* Names come from scenario files too: "../secrets" is none. */
static bool is_file_name(const char *name)
{
    return name[0] != '\0' && name[0] != '-' &&
           name[strspn(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-")] ==
               '\0';
}

enum vh_status vh_param_file_read(const char *folder, const char *name, struct vh_digest *digest,
                                  struct vh_param_set *set, const char **base,
                                  struct vh_messages *m)
{
    *set = (struct vh_param_set){NULL, 0};
    *base = NULL;
    if (!is_file_name(name))
        return vh_fail(
            m, VH_BAD_INPUT, (struct vh_place){folder, 0, 0, NULL},
            "\"%s\" is no name of a parameter file; letters, digits, _ and - would be right", name);
    char *path = vh_param_path(folder, name);
    if (path == NULL)
        return VH_NO_MEMORY;
    struct reading r = {.set = set, .m = m};
    const struct vh_csv_format format = {',', '.'};
    enum vh_status status = vh_csv_read(path, path, format, digest, take, &r, m);
    vh_name_index_clear(&r.index);
    if (status == VH_OK)
        status = r.status;
    if (status == VH_OK && set->rows == 0)
        status = vh_fail(m, VH_BAD_INPUT, (struct vh_place){path, 0, 0, NULL},
                         "the file has no rows below its header; give one row a parameter");
    free(path);
    const struct vh_param_row *row = status == VH_OK ? vh_param_find(set, "base") : NULL;
    if (row != NULL && row != set->row)
        return vh_fail(m, VH_BAD_INPUT, (struct vh_place){row->file, row->line, 0, NULL},
                       "base is not the first row; put it first");
    if (row != NULL)
        *base = row->value_text;
    return status;
}
