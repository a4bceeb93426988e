/* [[parameters.row]]: single rows of a crop's file, or of defaults.csv, for this scenario alone. */
#include "scenario_parts.h"

#include <stdlib.h>
#include <string.h>

static bool copy_row(struct vh_reading *r, const struct vh_param_row *from, struct vh_param_row *to)
{
    char *const source[] = {from->name,   from->value_text, from->unit, from->basis,
                            from->source, from->place,      from->note, from->file};
    char **const target[] = {&to->name,   &to->value_text, &to->unit, &to->basis,
                             &to->source, &to->place,      &to->note, &to->file};
    bool good = true;

    *to = (struct vh_param_row){
        .value = from->value, .low = from->low, .high = from->high, .line = from->line};
    for (size_t i = 0; i < sizeof source / sizeof source[0]; i++) {
        *target[i] = source[i] ? vh_reading_copy(r, source[i]) : NULL;
        good = good && (*target[i] || !source[i]);
    }
    return good;
}

/* The shared rows stay as they are: each scenario changes a copy of its own. */
static bool copy_rows(struct vh_reading *r, const struct vh_param_set *from,
                      struct vh_param_set *to)
{
    *to = (struct vh_param_set){vh_reading_room(r, from->rows, sizeof *to->row), 0};
    for (size_t i = 0; to->row && i < from->rows; i++) {
        const bool good = copy_row(r, &from->row[i], &to->row[i]);
        to->rows = i + 1;
        if (!good) { /* half a row has no name to be found by */
            vh_param_set_clear(to);
            return false;
        }
    }
    return to->row != NULL;
}

/* Index of this scenario's copy of a crop; own_crops: none yet. */
static size_t own_index(const struct vh_scenario *s, const struct vh_crop_file *crop)
{
    size_t i = 0;

    while (i < s->own_crops && s->own_of[i] != crop)
        i++;
    return i;
}

const struct vh_param_set *vh_scenario_crop_rows(const struct vh_scenario *s,
                                                 const struct vh_crop_file *crop)
{
    const size_t i = own_index(s, crop);

    return i < s->own_crops ? &s->own_rows[i] : &crop->rows;
}

const struct vh_crop *vh_scenario_crop(const struct vh_scenario *s, const struct vh_crop_file *crop)
{
    const size_t i = own_index(s, crop);

    return i < s->own_crops ? &s->own_crop[i] : &crop->crop;
}

static bool make_own(struct vh_reading *r, const struct vh_crop_file *crop, size_t *index)
{
    struct vh_scenario *s = r->scenario;

    *index = own_index(s, crop);
    if (*index < s->own_crops)
        return true;
    s->own_crops++;
    s->own_crop[*index] = crop->crop;
    s->own_of[*index] = crop;
    return copy_rows(r, &crop->rows, &s->own_rows[*index]);
}

static void take_row(struct vh_reading *r, const struct vh_raw_parameter_row *raw)
{
    struct vh_scenario *s = r->scenario;
    const struct vh_place place = vh_at_value(r, raw->value.at->value);
    size_t fields, i;

    if (strcmp(raw->crop.text, VH_KEPT_HOUSE) == 0) {
        const struct vh_param_field *field = vh_house_param_fields(&fields);
        vh_spoil(r, vh_param_replace(field, fields, &s->house_rows, raw->name.text,
                                     raw->value.number, place, &s->house_params, r->messages));
        return;
    }
    const struct vh_crop_file *crop = vh_scenario_find_crop(r, &raw->crop);
    if (!crop || !make_own(r, crop, &i))
        return;
    const struct vh_param_field *field = vh_crop_fields(&fields);
    vh_spoil(r, vh_param_replace(field, fields, &s->own_rows[i], raw->name.text, raw->value.number,
                                 place, &s->own_crop[i], r->messages));
}

static const struct vh_toml_entry *text_of(const struct vh_given *row, size_t i, const char *key)
{
    const struct vh_toml_entry *e = vh_toml_find(row->at->value->item[i], key);

    return e && e->value->kind == VH_TOML_TEXT ? e : NULL;
}

/* An earlier row of the same crop and name, or NULL. */
static const struct vh_toml_entry *same_before(const struct vh_given *row, size_t i)
{
    const struct vh_toml_entry *crop = text_of(row, i, "crop"), *name = text_of(row, i, "name");

    for (size_t j = 0; crop && name && j < i; j++) {
        const struct vh_toml_entry *c = text_of(row, j, "crop"), *n = text_of(row, j, "name");
        if (c && n && strcmp(c->value->text, crop->value->text) == 0 &&
            strcmp(n->value->text, name->value->text) == 0)
            return n;
    }
    return NULL;
}

static bool is_grown(const struct vh_house *h, const struct vh_crop_file *crop)
{
    for (size_t i = 0; i < h->plantings; i++) {
        if (h->planting[i].crop_name && strcmp(h->planting[i].crop_name, crop->name) == 0)
            return true;
    }
    return false;
}

void vh_scenario_check_rows(struct vh_reading *r)
{
    const struct vh_given *row = &r->root.parameters.row;
    const size_t n = vh_keys_items(row);

    for (size_t i = 0; i < n; i++) {
        const struct vh_toml_entry *crop = text_of(row, i, "crop"), *before = same_before(row, i);
        const struct vh_crop_file *file =
            crop ? vh_parameters_crop(r->parameters, crop->value->text) : NULL;
        if (before)
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT,
                                vh_at_value(r, text_of(row, i, "name")->value),
                                "this row is given on line %lld too; keep one of them",
                                (long long)before->line));
        if (file && !is_grown(&r->scenario->house, file))
            vh_warn(r->messages, vh_at_value(r, crop->value),
                    "no planting grows %s; this row changes nothing", file->name);
    }
}

void vh_scenario_fill_parameters(struct vh_reading *r)
{
    struct vh_scenario *s = r->scenario;
    const struct vh_given *row = &r->root.parameters.row;
    const size_t n = vh_keys_items(row);

    s->house_params = r->parameters->house;
    if (!copy_rows(r, &r->parameters->house_rows, &s->house_rows))
        return;
    /* room for all at once: plantings point into it */
    s->own_crop = vh_reading_room(r, n, sizeof *s->own_crop);
    s->own_rows = vh_reading_room(r, n, sizeof *s->own_rows);
    s->own_of = vh_reading_room(r, n, sizeof *s->own_of);
    if (!s->own_crop || !s->own_rows || !s->own_of)
        return;
    for (size_t i = 0; i < n; i++) {
        struct vh_raw_parameter_row raw = {0};
        vh_keys_read_item(r, &vh_parameter_row_keys, row, i, &raw);
        if (raw.crop.good && raw.name.good && raw.value.good)
            take_row(r, &raw);
    }
}
