#include "param_parts.h"

#include <math.h>
#include <string.h>

#include "vh_units.h"

enum { NEAR_ENOUGH = 3 }; /* slips of the hand between a name and the one that is offered for it */

const struct vh_param_field *vh_param_field_find(const struct vh_param_fields *fields,
                                                 const char *name)
{
    const struct vh_named_list list = {fields->field, sizeof *fields->field};
    const size_t at = vh_name_index_find(&fields->index, list, name);

    return at == VH_NAME_NONE ? NULL : &fields->field[at];
}

const char *vh_param_field_near(const struct vh_param_field *fields, size_t count, const char *name)
{
    const char *near = NULL;
    size_t best = NEAR_ENOUGH + 1;
    for (size_t i = 0; i < count; i++) {
        const size_t distance = vh_key_distance(fields[i].name, name, NEAR_ENOUGH);
        if (distance < best) {
            best = distance;
            near = fields[i].name;
        }
    }
    return near;
}

int vh_param_choice_index(const char *choices, const char *text)
{
    const size_t n = strlen(text);
    int index = 0;
    for (const char *p = choices;; index++) {
        const size_t length = strcspn(p, "|");
        if (length == n && memcmp(p, text, n) == 0)
            return index;
        if (p[length] == '\0')
            return -1;
        p += length + 1;
    }
}

static struct vh_place place_of(const struct vh_param_row *row)
{
    return (struct vh_place){row->file, row->line, 0, NULL};
}

static enum vh_status check_number(const struct vh_param_row *row, struct vh_messages *m)
{
    if (isnan(row->value))
        return vh_fail(m, VH_BAD_INPUT, place_of(row), "%s is \"%s\"; a number would be right",
                       row->name, row->value_text);
    if (row->low > row->high)
        return vh_fail(m, VH_BAD_INPUT, place_of(row),
                       "%s has low %g above high %g; change them over", row->name, row->low,
                       row->high);
    if (row->value < row->low)
        return vh_fail(m, VH_BAD_INPUT, place_of(row),
                       "%s is %g, below its low %g; %g or more would be right", row->name,
                       row->value, row->low, row->low);
    if (row->value > row->high)
        return vh_fail(m, VH_BAD_INPUT, place_of(row),
                       "%s is %g, above its high %g; %g or less would be right", row->name,
                       row->value, row->high, row->high);
    return VH_OK;
}

static enum vh_status check_choice(const struct vh_param_row *row,
                                   const struct vh_param_field *field, struct vh_messages *m)
{
    if (vh_param_choice_index(field->choices, row->value_text) < 0)
        return vh_fail(m, VH_BAD_INPUT, place_of(row), "%s is \"%s\"; one of %s would be right",
                       row->name, row->value_text, field->choices);
    if (!isnan(row->low) || !isnan(row->high))
        return vh_fail(m, VH_BAD_INPUT, place_of(row),
                       "%s is a choice and has no low or high; leave them empty", row->name);
    return VH_OK;
}

/* The cell may hold several keys, with blanks or semicolons between them. */
static enum vh_status check_keys(const struct vh_param_row *row, const struct vh_sources *sources,
                                 struct vh_messages *m)
{
    enum vh_status status = VH_OK;
    const char *at = row->source;
    char key[VH_SOURCE_KEY_ROOM];
    for (bool whole = vh_source_key_next(&at, key); key[0] != '\0';
         whole = vh_source_key_next(&at, key)) {
        if (!whole || vh_sources_find(sources, key) == NULL)
            status = vh_fail(
                m, VH_BAD_INPUT, place_of(row),
                "%s names the source %s, which sources.csv does not have; add it there or mend the "
                "key",
                row->name, key);
    }
    return status;
}

static enum vh_status check_basis(const struct vh_param_row *row, const struct vh_sources *sources,
                                  struct vh_messages *m)
{
    static const char known[] = "published|derived|fitted|assumed|common practice|from memory";
    if (vh_param_choice_index(known, row->basis) < 0)
        return vh_fail(
            m, VH_BAD_INPUT, place_of(row),
            "%s has the basis \"%s\"; published, derived, fitted, assumed, common practice or from "
            "memory would be right",
            row->name, row->basis);
    const bool needs_source =
        strcmp(row->basis, "published") == 0 || strcmp(row->basis, "derived") == 0;
    if (needs_source && row->source[strspn(row->source, " ;")] == '\0')
        return vh_fail(m, VH_BAD_INPUT, place_of(row), "%s is %s but names no source; give its key",
                       row->name, row->basis);
    return sources == NULL ? VH_OK : check_keys(row, sources, m);
}

enum vh_status vh_param_row_check(const struct vh_param_row *row,
                                  const struct vh_param_fields *fields,
                                  const struct vh_sources *sources, struct vh_messages *m)
{
    const struct vh_param_field *field = vh_param_field_find(fields, row->name);
    if (field == NULL) {
        const char *near = vh_param_field_near(fields->field, fields->count, row->name);
        return vh_fail(m, VH_BAD_INPUT, place_of(row), "unknown parameter %s; %s%s", row->name,
                       near != NULL ? "did you mean " : "take the row out",
                       near != NULL ? near : "");
    }
    enum vh_status status = VH_OK;
    if (strcmp(row->unit, field->unit) != 0)
        status =
            vh_fail(m, VH_BAD_INPUT, place_of(row), "%s has the unit \"%s\"; \"%s\" would be right",
                    row->name, row->unit, field->unit);
    const enum vh_status value =
        field->kind == VH_PARAM_NUMBER ? check_number(row, m) : check_choice(row, field, m);
    const enum vh_status basis = check_basis(row, sources, m);
    return status != VH_OK ? status : value != VH_OK ? value : basis;
}

void vh_param_row_put(const struct vh_param_row *row, const struct vh_param_field *field,
                      void *target)
{
    char *place = (char *)target + field->offset;
    if (field->kind == VH_PARAM_NUMBER) {
        memcpy(place, &row->value, sizeof row->value);
    } else {
        const int index = vh_param_choice_index(field->choices, row->value_text);
        memcpy(place, &index, sizeof index);
    }
}
