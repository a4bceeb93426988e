/* What `check` shows of a scenario: the defaults it leans on, and its plantings in short. */
#include "scenario_parts.h"

#include <stdio.h>
#include <string.h>

#define TEXT_BYTES 200

enum { KEY, VALUE, UNIT, BASIS, SOURCE, DEFAULT_COLUMNS };

static const struct vh_column default_columns[DEFAULT_COLUMNS] = {
    {"key", VH_CELL_TEXT, "", "key of the scenario that is not given"},
    {"value", VH_CELL_TEXT, "", "what is used instead"},
    {"unit", VH_CELL_TEXT, "", "its unit"},
    {"basis", VH_CELL_TEXT, "", "how well it is founded"},
    {"source", VH_CELL_TEXT, "", "where it comes from"},
};

enum {
    PLANTING,
    CROP,
    PLANTS,
    HEADS,
    DENSITY,
    FLOOR,
    STANDS_FROM,
    PULL_OUT,
    FRUIT,
    PLANTING_COLUMNS
};

static const struct vh_column planting_columns[PLANTING_COLUMNS] = {
    {"planting", VH_CELL_TEXT, "", "name of the planting"},
    {"crop", VH_CELL_TEXT, "", "crop file"},
    {"plants", VH_CELL_NUMBER, "", "plants set out"},
    {"heads_per_plant", VH_CELL_NUMBER, "", "heads (leaders) of a plant at set-out"},
    {"plants_per_m2", VH_CELL_NUMBER, "m-2", "plants per floor area, paths included"},
    {"floor_m2", VH_CELL_NUMBER, "m2", "floor they need, paths included"},
    {"stands_from", VH_CELL_DATE, "",
     "day of setting out (transplanting), or the day a standing crop is seen"},
    {"pull_out", VH_CELL_DATE, "", "last day in the house"},
    {"usual_fruit_g", VH_CELL_NUMBER, "g", "usual fruit mass of the variety"},
};

void vh_scenario_tables_create(struct vh_reading *r)
{
    struct vh_scenario *s = r->scenario;

    s->defaults = vh_table_create("defaults", "a key the scenario is silent about", false,
                                  default_columns, DEFAULT_COLUMNS);
    s->plantings = vh_table_create("plantings", "a planting of the scenario", false,
                                   planting_columns, PLANTING_COLUMNS);
    if (!s->defaults || !s->plantings)
        vh_spoil(r, VH_NO_MEMORY);
}

static void add_default(struct vh_reading *r, const char *key, const struct vh_planting *planting,
                        const char *const cell[DEFAULT_COLUMNS])
{
    struct vh_table *t = r->scenario->defaults;
    char text[TEXT_BYTES];

    if (!t)
        return;
    snprintf(text, sizeof text, planting ? "%s (%s)" : "%s", key, planting ? planting->name : "");
    enum vh_status status = vh_table_add_row(t);
    if (status == VH_OK)
        status = vh_table_set_text(t, KEY, text);
    for (size_t i = VALUE; status == VH_OK && i < DEFAULT_COLUMNS; i++)
        status = vh_table_set_text(t, i, cell[i] ? cell[i] : "");
    vh_spoil(r, status);
}

void vh_default_row_used(struct vh_reading *r, const char *key, const struct vh_planting *planting,
                         const struct vh_param_row *row, const char *word)
{
    /* "1" is how parameter files write that there is no unit */
    const char *unit = strcmp(row->unit, "1") == 0 ? "" : row->unit;
    const char *const cell[DEFAULT_COLUMNS] = {NULL, word, unit, row->basis, row->source};

    add_default(r, key, planting, cell);
}

void vh_default_used(struct vh_reading *r, const char *key, const struct vh_planting *planting,
                     const struct vh_param_set *rows, const char *row)
{
    const struct vh_param_row *found = vh_param_find(rows, row);

    if (found)
        vh_default_row_used(r, key, planting, found, found->value_text);
}

void vh_default_word_used(struct vh_reading *r, const char *key, const struct vh_planting *planting,
                          const char *word, const char *basis)
{
    const char *const cell[DEFAULT_COLUMNS] = {NULL, word, "", basis, ""};

    add_default(r, key, planting, cell);
}

void vh_scenario_list_plantings(struct vh_reading *r)
{
    const struct vh_house *h = &r->scenario->house;
    struct vh_table *t = r->scenario->plantings;

    for (size_t i = 0; i < h->plantings; i++) {
        const struct vh_planting *p = &h->planting[i];
        enum vh_status status = vh_table_add_row(t);
        if (status == VH_OK)
            status = vh_table_set_text(t, PLANTING, p->name);
        if (status == VH_OK)
            status = vh_table_set_text(t, CROP, p->crop_name);
        vh_spoil(r, status);
        if (status != VH_OK)
            return;
        vh_table_set_number(t, PLANTS, p->plants);
        vh_table_set_number(t, HEADS, p->heads_per_plant);
        vh_table_set_number(t, DENSITY, p->plants_per_m2);
        vh_table_set_number(t, FLOOR, p->plants / p->plants_per_m2);
        vh_table_set_number(t, STANDS_FROM, (double)p->set_out);
        vh_table_set_number(t, PULL_OUT, (double)p->pull_out);
        vh_table_set_number(t, FRUIT, p->usual_fruit_g);
    }
}
