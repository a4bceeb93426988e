/* What can be explained: the columns of the files that are written, and the sources. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "explain_parts.h"
#include "vh_result.h"

/* Where the equation of a column stands. */
static const struct {
    const char *column, *used_in;
} equations[] = {
    {"set", "model/plant/vh_flower.h"},
    {"aborted", "model/plant/vh_flower.h"},
    {"flowers", "model/plant/vh_flower.h"},
    {"first_flower", "model/plant/vh_truss.h"},
    {"last_flower", "model/plant/vh_truss.h"},
    {"flowering_truss", "model/plant/vh_truss.h"},
    {"first_ripe", "model/plant/vh_clock.h"},
    {"last_ripe", "model/plant/vh_clock.h"},
    {"days_flower_to_ripe", "model/plant/vh_clock.h"},
    {"fruit_g", "model/plant/vh_fruit.h"},
    {"diameter_mm", "model/plant/vh_fruit.h"},
    {"dry_matter_pct", "model/plant/vh_fruit.h"},
    {"fruit_cv", "model/plant/vh_fruit.h"},
    {"fruit_dm_g_m2", "model/plant/vh_fruit.h"},
    {"kept", "model/work/vh_policy.h"},
    {"take_off", "model/work/vh_policy.h"},
    {"take_off_on", "model/work/vh_policy.h"},
    {"support_on", "model/work/vh_task_plan.h"},
    {"load", "model/plant/vh_share.h"},
    {"supply_share", "model/plant/vh_share.h"},
    {"demand_g_m2", "model/plant/vh_share.h"},
    {"leaf_dm_g_m2", "model/plant/vh_share.h"},
    {"stem_dm_g_m2", "model/plant/vh_share.h"},
    {"stem_cm", "model/plant/vh_stem.h"},
    {"lai_m2_m2", "model/plant/vh_leaf.h"},
    {"assimilate_g_m2", "model/plant/vh_light.h"},
    {"maintenance_g_m2", "model/plant/vh_light.h"},
    {"maintenance_unpaid_g_m2", "model/plant/vh_light.h"},
    {"degree_days_c_d", "model/climate/vh_degree_days.h"},
};

/* Where the values of a table come from, for its other columns. */
static const struct {
    enum vh_result_table_id table;
    const char *used_in;
} makers[] = {
    {VH_TABLE_CLIMATE_DAYS, "model/climate/vh_climate.h"},
    {VH_TABLE_TASKS, "model/work/vh_task_plan.h"},
    {VH_TABLE_HOURS, "model/work/vh_hours.h"},
    {VH_TABLE_SUPPLIES, "model/work/vh_supply.h"},
    {VH_TABLE_WARNINGS, "model/house/result_warnings.c"},
    {VH_TABLE_CHOICES, "model/choose/vh_compare.h"},
    {VH_TABLE_HOUSES, "model/house/houses_table.c"},
    {VH_TABLE_HINDCAST, "model/learn/vh_hindcast.h"},
};

static const char *maker_of(enum vh_result_table_id id, const char *column)
{
    for (size_t i = 0; i < sizeof makers / sizeof makers[0]; i++) {
        if (makers[i].table == id && strcmp(column, "degree_days_c_d") != 0)
            return makers[i].used_in;
    }
    for (size_t i = 0; i < sizeof equations / sizeof equations[0]; i++) {
        if (strcmp(equations[i].column, column) == 0)
            return equations[i].used_in;
    }
    return "model/plant/vh_plant.h";
}

static const char *kind_said(enum vh_cell_kind kind)
{
    switch (kind) {
    case VH_CELL_TEXT:
        return "text";
    case VH_CELL_DATE:
        return "date";
    case VH_CELL_INTEGER:
        return "whole number";
    case VH_CELL_NUMBER:
    case VH_CELL_ERROR:
        break;
    }
    return "number";
}

static enum vh_status give_column(enum vh_result_table_id id, const struct vh_table *t,
                                  size_t column, vh_meaning_take take, void *context)
{
    const struct vh_column *c = vh_table_column(t, column);
    const enum vh_column_role role = vh_result_column_role(id, column);
    char whole[VH_MEANING_ROOM], where[VH_MEANING_ROOM];
    struct vh_meaning m = vh_meaning_empty();

    snprintf(whole, sizeof whole, "%s.%s", vh_table_name(t), c->name);
    snprintf(where, sizeof where, "%s.csv", vh_table_name(t));
    m.what = "column";
    m.name = whole;
    m.alone = c->name;
    m.list = vh_table_name(t);
    m.where = where;
    m.kind = kind_said(c->kind);
    m.unit = c->unit;
    m.meaning = c->meaning;
    m.used_in = maker_of(id, c->name);
    m.has_middle = role == VH_COLUMN_VALUE;
    m.has_range = m.has_middle || role == VH_COLUMN_DAY;
    return take(context, &m);
}

static enum vh_status give_file(enum vh_result_table_id id, const struct vh_table *t,
                                vh_meaning_take take, void *context)
{
    char where[VH_MEANING_ROOM], row[VH_MEANING_ROOM];
    struct vh_meaning m = vh_meaning_empty();

    snprintf(where, sizeof where, "%s.csv", vh_table_name(t));
    snprintf(row, sizeof row, "a file of results; each row is %s", vh_table_row_meaning(t));
    m.what = "file";
    m.name = m.alone = vh_table_name(t);
    m.where = where;
    m.meaning = row;
    enum vh_status status = take(context, &m);
    for (size_t i = 0; i < vh_table_columns(t) && status == VH_OK; i++)
        status = give_column(id, t, i, take, context);
    return status;
}

enum vh_status vh_meanings_of_columns(vh_meaning_take take, void *context)
{
    enum vh_status status = VH_OK;

    for (int id = 0; id < VH_RESULT_TABLES && status == VH_OK; id++) {
        struct vh_table *t = vh_result_table_new((enum vh_result_table_id)id);
        if (!t)
            return VH_NO_MEMORY;
        if (vh_table_is_file(t))
            status = give_file((enum vh_result_table_id)id, t, take, context);
        vh_table_free(t);
    }
    return status;
}

enum vh_status vh_meanings_of_sources(const struct vh_parameters *p, vh_meaning_take take,
                                      void *context)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < vh_sources_count(p->sources) && status == VH_OK; i++) {
        const struct vh_source *s = vh_sources_at(p->sources, i);
        struct vh_meaning m = vh_meaning_empty();
        m.what = "source";
        m.name = m.alone = m.source = s->key;
        m.where = "sources.csv";
        m.meaning = s->title;
        m.line = s->line;
        status = take(context, &m);
    }
    return status;
}
