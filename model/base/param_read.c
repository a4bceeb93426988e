#include "param_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_number.h"

enum { FILES_MOST = 4 }; /* of a chain of bases, the file asked for included */

const struct vh_param_row *vh_param_find(const struct vh_param_set *set, const char *name)
{
    for (size_t i = 0; i < set->rows; i++)
        if (strcmp(set->row[i].name, name) == 0)
            return &set->row[i];
    return NULL;
}

struct vh_named_list vh_param_rows_named(const struct vh_param_set *set)
{
    return (struct vh_named_list){set->row, sizeof *set->row};
}

void vh_param_set_clear(struct vh_param_set *set)
{
    for (size_t i = 0; i < set->rows; i++)
        vh_param_row_clear(&set->row[i]);
    free(set->row);
    *set = (struct vh_param_set){NULL, 0};
}

/* file[0] is the one asked for, each next one the base of the one before. */
static enum vh_status read_chain(struct vh_param_bases *bases, const char *folder, const char *name,
                                 struct vh_digest *digest, struct vh_param_set file[FILES_MOST],
                                 size_t *files, struct vh_messages *m)
{
    const char *next = name;
    while (next != NULL) {
        if (*files == FILES_MOST)
            return vh_fail(
                m, VH_BAD_INPUT,
                (struct vh_place){file[*files - 1].row->file, file[*files - 1].row->line, 0, NULL},
                "base %s would be the fifth file of a chain, at most %d are read; do the bases go "
                "round in a circle?",
                next, FILES_MOST);
        const char *base;
        const bool is_base = *files > 0;
        struct vh_param_set *set = &file[(*files)++];
        const enum vh_status status =
            vh_param_file_lend(bases, is_base, folder, next, digest, set, &base, m);
        if (status != VH_OK)
            return status;
        next = base;
    }
    return VH_OK;
}

/* Moves the rows of `from` into `set`, over the rows that bear the same name. False when memory is
 * out. */
static bool lay_over(struct vh_param_set *set, struct vh_name_index *index,
                     struct vh_param_set *from)
{
    struct vh_param_row *more = realloc(set->row, (set->rows + from->rows + 1) * sizeof *more);
    if (more == NULL)
        return false;
    set->row = more;
    for (size_t i = 0; i < from->rows; i++) {
        struct vh_param_row *row = &from->row[i];
        if (strcmp(row->name, "base") == 0)
            continue;
        const size_t found = vh_name_index_find(index, vh_param_rows_named(set), row->name);
        const size_t at = found == VH_NAME_NONE ? set->rows++ : found;
        if (found != VH_NAME_NONE)
            vh_param_row_clear(&set->row[at]);
        set->row[at] = *row;
        memset(row, 0, sizeof *row);
        if (found == VH_NAME_NONE && !vh_name_index_add(index, vh_param_rows_named(set), at))
            return false;
    }
    return true;
}

static enum vh_status check_set(const struct vh_param_fields *fields,
                                const struct vh_sources *sources, const struct vh_param_set *set,
                                const struct vh_name_index *index, const char *file,
                                struct vh_messages *m)
{
    enum vh_status status = VH_OK;
    for (size_t i = 0; i < set->rows; i++) {
        const enum vh_status one = vh_param_row_check(&set->row[i], fields, sources, m);
        status = one != VH_OK ? one : status;
    }
    for (size_t i = 0; i < fields->count; i++) {
        const struct vh_param_field *field = &fields->field[i];
        if (vh_name_index_find(index, vh_param_rows_named(set), field->name) == VH_NAME_NONE)
            status = vh_fail(m, VH_BAD_INPUT, (struct vh_place){file, 0, 0, NULL},
                             "no row for %s (%s; unit %s); add one", field->name, field->meaning,
                             field->unit);
    }
    return status;
}

static enum vh_status merge_and_check(const struct vh_param_fields *fields,
                                      const struct vh_sources *sources, struct vh_param_set *file,
                                      size_t files, struct vh_param_set *merged,
                                      struct vh_messages *m)
{
    const char *const file_name = file[0].row->file; /* moved with its row, not freed */
    struct vh_name_index index = {0};
    enum vh_status status = VH_OK;
    for (size_t i = files; i-- > 0 && status == VH_OK;)
        if (!lay_over(merged, &index, &file[i]))
            status = vh_fail(m, VH_NO_MEMORY, VH_NOWHERE, "memory is out; close other programs");
    if (status == VH_OK)
        status = check_set(fields, sources, merged, &index, file_name, m);
    vh_name_index_clear(&index);
    return status;
}

static enum vh_status read_set(struct vh_param_bases *bases, const char *folder, const char *name,
                               const struct vh_param_fields *fields,
                               const struct vh_sources *sources, struct vh_digest *digest,
                               void *target, struct vh_param_set *merged, struct vh_messages *m)
{
    struct vh_param_set file[FILES_MOST] = {{NULL, 0}};
    size_t files = 0;
    enum vh_status status = read_chain(bases, folder, name, digest, file, &files, m);
    if (status == VH_OK)
        status = merge_and_check(fields, sources, file, files, merged, m);
    for (size_t i = 0; i < files; i++)
        vh_param_set_clear(&file[i]);
    for (size_t i = 0; i < merged->rows && status == VH_OK; i++)
        vh_param_row_put(&merged->row[i], vh_param_field_find(fields, merged->row[i].name), target);
    return status;
}

enum vh_status vh_param_read(const char *folder, const char *name,
                             const struct vh_param_field *fields, size_t field_count,
                             const struct vh_sources *sources, struct vh_digest *digest,
                             void *target, struct vh_param_set *set, struct vh_messages *m)
{
    return vh_param_read_on(NULL, folder, name, fields, field_count, sources, digest, target, set,
                            m);
}

enum vh_status vh_param_read_on(struct vh_param_bases *bases, const char *folder, const char *name,
                                const struct vh_param_field *fields, size_t field_count,
                                const struct vh_sources *sources, struct vh_digest *digest,
                                void *target, struct vh_param_set *set, struct vh_messages *m)
{
    const struct vh_named_list list = {fields, sizeof *fields};
    struct vh_param_fields named = {.field = fields, .count = field_count};
    struct vh_param_set merged = {NULL, 0};
    enum vh_status status = VH_OK;
    if (!vh_name_index_of(&named.index, list, field_count))
        status = vh_fail(m, VH_NO_MEMORY, VH_NOWHERE, "memory is out; close other programs");
    if (status == VH_OK)
        status = read_set(bases, folder, name, &named, sources, digest, target, &merged, m);
    vh_name_index_clear(&named.index);
    if (status == VH_OK)
        *set = merged;
    else
        vh_param_set_clear(&merged);
    return status;
}

/* ---- a scenario's own value ---- */

/* "0.095", or the choice at that index; false where there is no such choice. */
static bool value_text_of(const struct vh_param_field *field, double value, char *text, size_t room)
{
    if (field->kind == VH_PARAM_NUMBER) {
        double again = 0.0;
        snprintf(text, room, "%.15g", value);
        if (!vh_number_parse(text, strlen(text), '.', &again) || again != value)
            snprintf(text, room, "%.17g", value); /* 17 digits tell all doubles apart */
        return true;
    }
    const char *p = field->choices;
    double index = 0.0;
    while (index < value && *p != '\0') {
        p += strcspn(p, "|");
        p += *p == '|';
        index += 1.0;
    }
    snprintf(text, room, "%.*s", (int)strcspn(p, "|"), p);
    return index == value && text[0] != '\0';
}

/* The row says from then on that the scenario gave it: its old source no longer vouches for the
 * value. */
static bool restate(struct vh_param_row *row, const char *value_text, double value,
                    struct vh_place where)
{
    struct vh_param_row new_row = {
        .value = value, .low = row->low, .high = row->high, .line = where.line};
    const struct {
        char **to;
        const char *text;
    } part[] = {
        {&new_row.name, row->name},  {&new_row.value_text, value_text},
        {&new_row.unit, row->unit},  {&new_row.basis, "assumed"},
        {&new_row.source, ""},       {&new_row.place, ""},
        {&new_row.file, where.file}, {&new_row.note, "given in the scenario"},
    };
    bool copied = true;
    for (size_t i = 0; i < sizeof part / sizeof part[0]; i++) {
        *part[i].to = vh_param_text_copy(part[i].text);
        copied = copied && *part[i].to != NULL;
    }
    vh_param_row_clear(copied ? row : &new_row);
    if (copied)
        *row = new_row;
    return copied;
}

enum vh_status vh_param_replace(const struct vh_param_field *fields, size_t field_count,
                                struct vh_param_set *set, const char *name, double value,
                                struct vh_place where, void *target, struct vh_messages *m)
{
    struct vh_param_row *row = NULL;
    for (size_t i = 0; i < set->rows; i++)
        if (strcmp(set->row[i].name, name) == 0)
            row = &set->row[i];
    if (row == NULL) {
        const char *near = vh_param_field_near(fields, field_count, name);
        return vh_fail(m, VH_BAD_INPUT, where, "unknown parameter %s; %s%s", name,
                       near != NULL ? "did you mean " : "take the row out",
                       near != NULL ? near : "");
    }
    const struct vh_param_field *field = fields; /* each row that was read has one */
    while (strcmp(field->name, name) != 0)
        field++;
    char text[64];
    if (!value_text_of(field, value, text, sizeof text))
        return vh_fail(m, VH_BAD_INPUT, where,
                       "%s is a choice; the place of one of %s, from 0, would be right", name,
                       field->choices);
    if (isnan(value) || value < row->low || value > row->high)
        return vh_fail(m, VH_BAD_INPUT, where, "%s is %g; %g to %g would be right", name, value,
                       row->low, row->high);
    if (!restate(row, text, field->kind == VH_PARAM_NUMBER ? value : (double)NAN, where))
        return vh_fail(m, VH_NO_MEMORY, where, "memory is out; close other programs");
    vh_param_row_put(row, field, target);
    return VH_OK;
}
