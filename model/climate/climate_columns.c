#include "climate_parts.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_climate_columns.h"

#define NAMES_MAX 240 /* bytes of headers told in a message */

/* low and high: bounds of what such an instrument can show in or over a house; what lies beyond is
 * a fault of the reading, not a climate. Nothing of the model hangs on them. */
static const struct vh_climate_column columns[] = {
    {"time", VH_COLUMN_TIME, 0, true, true, 0, 0, 0, false,
     "when it was read, as 2026-03-01T14:00, in standard time unless log_daylight_saving says so"},
    {"date", VH_COLUMN_DATE, 0, true, true, 0, 0, 0, false,
     "day, as 2026-03-01; a file has time or date"},
    {"t_air_c", VH_COLUMN_HOURLY, VH_HOURLY_T_AIR, true, false, 0, 0, 0, true,
     "temperature of the air at the crop"},
    {"rh_pct", VH_COLUMN_HOURLY, VH_HOURLY_RH, true, false, 0, 105, 0, false,
     "relative humidity at the crop"},
    {"co2_ppm", VH_COLUMN_HOURLY, VH_HOURLY_CO2, true, false, 100, 5000, 0, false,
     "CO2 of the air at the crop"},
    {"par_umol_m2_s", VH_COLUMN_HOURLY, VH_HOURLY_PAR, true, false, 0, 3000, 10, false,
     "light that plants use (PAR), inside, above the crop"},
    {"radiation_in_w_m2", VH_COLUMN_HOURLY, VH_HOURLY_RADIATION_IN, true, false, 0, 1500, 10, false,
     "solar radiation inside, above the crop; may stand for par_umol_m2_s"},
    {"radiation_out_w_m2", VH_COLUMN_HOURLY, VH_HOURLY_RADIATION_OUT, true, true, 0, 1500, 10,
     false, "solar radiation outside, on the level"},
    {"t_out_c", VH_COLUMN_HOURLY, VH_HOURLY_T_OUT, true, true, -60, 60, 0, false,
     "temperature of the air outside"},
    {"lamps_pct", VH_COLUMN_HOURLY, VH_HOURLY_LAMPS, true, false, 0, 100, 0, false,
     "how far the lamps are on; 100: all of them"},
    {"tmin_c", VH_COLUMN_DAILY, VH_DAILY_TMIN, true, false, 0, 0, 0, true,
     "lowest temperature of the day at the crop"},
    {"tmax_c", VH_COLUMN_DAILY, VH_DAILY_TMAX, true, false, 0, 0, 0, true,
     "highest temperature of the day at the crop"},
    {"tmean_c", VH_COLUMN_DAILY, VH_DAILY_TMEAN, true, false, 0, 0, 0, true,
     "mean temperature of the day at the crop"},
    {"dli_mol_m2_d", VH_COLUMN_DAILY, VH_DAILY_DLI, true, false, 0, 120, 0, false,
     "light of the day inside, above the crop"},
    {"tmin_c", VH_COLUMN_DAILY, VH_DAILY_TMIN, false, true, -60, 60, 0, false,
     "lowest temperature of the day outside"},
    {"tmax_c", VH_COLUMN_DAILY, VH_DAILY_TMAX, false, true, -60, 60, 0, false,
     "highest temperature of the day outside"},
    {"radiation_mj_m2_d", VH_COLUMN_DAILY, VH_DAILY_RADIATION, false, true, 0, 50, 0, false,
     "solar radiation of the day outside, on the level"},
    {"sunshine_h", VH_COLUMN_DAILY, VH_DAILY_SUNSHINE, false, true, 0, 24, 0, false,
     "hours of bright sunshine of the day; may stand for radiation_mj_m2_d"},

};

/* each is used once at most, time and date apart */
static_assert(sizeof columns / sizeof columns[0] <= VH_USED_COLUMNS_MAX + 2, "room for columns");

static bool belongs(const struct vh_climate_column *c, enum vh_climate_file kind)
{
    return kind == VH_FILE_LOG ? c->in_log : c->in_outside;
}

static const struct vh_climate_column *find(enum vh_climate_file kind, const char *given,
                                            struct vh_unit_pair *unit)
{
    for (size_t i = 0; i < sizeof columns / sizeof columns[0]; i++) {
        if (belongs(&columns[i], kind) && vh_units_match(columns[i].name, given, false, unit))
            return &columns[i];
    }
    return NULL;
}

/* Adds as many names to a list as fit; always 0-terminated. */
static void add_name(char *list, size_t size, const char *name)
{
    const size_t used = strlen(list);
    const size_t between = used ? 2 : 0;

    if (used + between + strlen(name) + 1 < size) {
        memcpy(list + used, ", ", between);
        strcpy(list + used + between, name);
    }
}

static void expected_names(enum vh_climate_file kind, char *list, size_t size)
{
    list[0] = '\0';
    for (size_t i = 0; i < sizeof columns / sizeof columns[0]; i++) {
        if (belongs(&columns[i], kind))
            add_name(list, size, columns[i].name);
    }
}

static void found_names(const struct vh_csv_row *header, char *list, size_t size)
{
    list[0] = '\0';
    for (size_t i = 0; i < header->cells; i++) {
        if (header->cell[i].text)
            add_name(list, size, header->cell[i].text);
    }
}

static bool is_taken(const struct vh_file_use *f, const struct vh_climate_column *c)
{
    if (c->kind == VH_COLUMN_TIME)
        return f->has_time;
    if (c->kind == VH_COLUMN_DATE)
        return f->has_date;
    for (size_t i = 0; i < f->used_columns; i++) {
        if (f->used[i].column == c)
            return true;
    }
    return false;
}

static void take(struct vh_file_use *f, const struct vh_climate_column *c, size_t cell,
                 struct vh_unit_pair unit)
{
    const struct vh_used_column use = {.cell = cell, .column = c, .unit = unit};

    if (c->kind == VH_COLUMN_TIME) {
        f->time = use;
        f->has_time = true;
    } else if (c->kind == VH_COLUMN_DATE) {
        f->date = use;
        f->has_date = true;
    } else {
        f->used[f->used_columns++] = use;
    }
}

static enum vh_status take_mapped(struct vh_file_use *f, const struct vh_csv_row *header,
                                  struct vh_column_map *map, size_t maps, struct vh_messages *m)
{
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < maps; k++) {
        struct vh_unit_pair unit;
        const struct vh_climate_column *c = find(f->kind, map[k].ours, &unit);
        if (!c) {
            char list[NAMES_MAX];
            expected_names(f->kind, list, sizeof list);
            status = vh_fail(m, VH_BAD_INPUT, map[k].place,
                             "no climate column is called `%s`; columns are %s", map[k].ours, list);
            map[k].used = true; /* said once is enough */
            continue;
        }
        for (size_t i = 0; i < header->cells; i++) {
            if (!header->cell[i].text || strcmp(header->cell[i].text, map[k].theirs) != 0)
                continue;
            map[k].used = true;
            if (is_taken(f, c))
                status = vh_fail(m, VH_BAD_INPUT, map[k].place,
                                 "`%s` is given by two columns of %s; name one", c->name,
                                 f->name->shown);
            else
                take(f, c, i, unit);
        }
    }
    return status;
}

static enum vh_status take_own_names(struct vh_file_use *f, const struct vh_csv_row *header,
                                     size_t mapped, struct vh_messages *m)
{
    const struct vh_place place = {header->file, header->line, 0, NULL};
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < header->cells; i++) {
        struct vh_unit_pair unit;
        const struct vh_climate_column *c =
            header->cell[i].text ? find(f->kind, header->cell[i].text, &unit) : NULL;
        if (!c)
            continue;
        if (!is_taken(f, c))
            take(f, c, i, unit);
        else if (mapped == 0) /* a map says which of them counts */
            status = vh_fail(m, VH_BAD_INPUT, place,
                             "`%s` is given by two columns; keep one of them", c->name);
    }
    return status;
}

/* The scenario's names that no header bears: as a rule why a column is missed. */
static bool tell_missed_names(const struct vh_file_use *f, const struct vh_column_map *map,
                              size_t maps, const char *found, struct vh_messages *m)
{
    bool any = false;

    for (size_t k = 0; k < maps; k++) {
        if (map[k].used)
            continue;
        any = true;
        vh_fail(m, VH_BAD_INPUT, map[k].place, "no header `%s` in %s; the headers are %s",
                map[k].theirs, f->name->shown, found);
    }
    return any;
}

enum vh_status vh_file_columns(struct vh_file_use *f, const struct vh_csv_row *header,
                               struct vh_column_map *map, size_t maps, struct vh_messages *m)
{
    const struct vh_place place = {header->file, header->line, 0, NULL};
    const char *table = f->kind == VH_FILE_LOG ? "[climate.columns]" : "[outside.columns]";
    char found[NAMES_MAX], expected[NAMES_MAX];
    enum vh_status status = take_mapped(f, header, map, maps, m);
    const enum vh_status own = take_own_names(f, header, maps, m);

    if (status == VH_OK)
        status = own;
    if (status != VH_OK)
        return status;
    found_names(header, found, sizeof found);
    expected_names(f->kind, expected, sizeof expected);
    if (((!f->has_time && !f->has_date) || f->used_columns == 0) &&
        tell_missed_names(f, map, maps, found, m))
        return VH_BAD_INPUT;
    if (!f->has_time && !f->has_date)
        return vh_fail(m, VH_BAD_INPUT, place,
                       "no column of time: the headers are %s; call one time or date, or name it in"
                       " %s of the scenario",
                       found, table);
    if (f->used_columns == 0)
        return vh_fail(
            m, VH_BAD_INPUT, place,
            "no column is known: the headers are %s; expected are %s, or names from %s of"
            " the scenario",
            found, expected, table);
    return VH_OK;
}

static enum vh_status give(const struct vh_climate_column *c, const char *file,
                           const struct vh_house_params *p, vh_brought_take take_column,
                           void *context)
{
    const bool is_number = c->kind == VH_COLUMN_HOURLY || c->kind == VH_COLUMN_DAILY;
    const struct vh_brought_column column = {.file = file,
                                             .name = c->name,
                                             .low = !is_number                 ? (double)NAN
                                                    : c->is_inside_temperature ? p->spike_low_c
                                                                               : c->low,
                                             .high = !is_number                 ? (double)NAN
                                                     : c->is_inside_temperature ? p->spike_high_c
                                                                                : c->high,
                                             .meaning = c->meaning};

    return take_column(context, &column);
}

enum vh_status vh_climate_columns(const struct vh_house_params *p, vh_brought_take take_column,
                                  void *context)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < sizeof columns / sizeof columns[0] && status == VH_OK; i++) {
        if (columns[i].in_log)
            status = give(&columns[i], "log", p, take_column, context);
        if (columns[i].in_outside && status == VH_OK)
            status = give(&columns[i], "outside", p, take_column, context);
    }
    return status == VH_OK ? vh_normals_columns(take_column, context) : status;
}
