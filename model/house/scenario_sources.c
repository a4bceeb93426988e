/* Where the climate comes from: files, their columns, four temperatures, spells. */
#include "scenario_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "vh_file.h"
#include "vh_folder.h"

enum { SKY_MIXED = 1 };

/* A file that cannot be opened is told at the key that names it: there the person mends it. */
void vh_scenario_fill_file(struct vh_reading *r, const struct vh_toml_value *v, bool must_be,
                           struct vh_file_name *out)
{
    struct vh_messages *why = vh_messages_create();
    int descriptor;

    out->shown = vh_reading_copy(r, v->text);
    out->path = vh_path_join(r->folder, v->text);
    if (!why || !out->shown || !out->path) {
        vh_spoil(r, VH_NO_MEMORY);
        vh_messages_free(why);
        return;
    }
    const enum vh_status status =
        must_be ? vh_file_open(out->path, out->shown, &descriptor, why) : VH_OK;
    if (status == VH_OK && must_be) {
        close(descriptor);
    } else if (status != VH_OK) {
        char shown[VH_SHOWN_MOST + 4];
        const struct vh_message *told = vh_messages_at(why, 0);
        vh_spoil(r, vh_fail(r->messages, status, vh_at_value(r, v), "\"%s\": %s",
                            vh_shown(v->text, shown), told ? told->text : vh_status_text(status)));
    }
    vh_messages_free(why);
}

static void fill_logs(struct vh_reading *r, const struct vh_given *log)
{
    struct vh_climate_request *c = &r->scenario->house.climate_request;
    const struct vh_toml_value *v = log->good ? log->at->value : NULL;
    const size_t files = !v ? 0 : v->kind == VH_TOML_LIST ? v->items : 1;

    c->log = vh_reading_room(r, files, sizeof *c->log);
    for (size_t i = 0; c->log && i < files; i++) {
        c->logs = i + 1;
        vh_scenario_fill_file(r, v->kind == VH_TOML_LIST ? v->item[i] : v, true, &c->log[i]);
    }
}

void vh_scenario_fill_columns(struct vh_reading *r, const struct vh_given *columns,
                              struct vh_column_map **map, size_t *maps)
{
    size_t n = 0;

    if (!columns->good)
        return;
    for (const struct vh_toml_entry *e = columns->at->value->first; e; e = e->next)
        n++;
    *map = vh_reading_room(r, n, sizeof **map);
    if (!*map)
        return;
    for (const struct vh_toml_entry *e = columns->at->value->first; e; e = e->next) {
        struct vh_column_map *one = &(*map)[(*maps)++];
        one->ours = vh_reading_copy(r, e->key);
        one->theirs = vh_reading_copy(r, e->value->text);
        one->place = vh_at_value(r, e->value);
    }
}

static void fail_below(struct vh_reading *r, const struct vh_given *low,
                       const struct vh_given *high)
{
    if (low->good && high->good && high->number < low->number)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, high->at->value),
                            "`%s` is lower than `%s` on line %lld; are they exchanged?",
                            high->at->key, low->at->key, (long long)low->at->line));
}

static void fill_roughly(struct vh_reading *r, const struct vh_raw_roughly *raw)
{
    struct vh_climate_request *c = &r->scenario->house.climate_request;

    if (!raw->table)
        return;
    c->has_roughly = raw->warmest_high_c.good && raw->warmest_low_c.good &&
                     raw->coldest_high_c.good && raw->coldest_low_c.good;
    c->warmest_high_c = raw->warmest_high_c.number;
    c->warmest_low_c = raw->warmest_low_c.number;
    c->coldest_high_c = raw->coldest_high_c.number;
    c->coldest_low_c = raw->coldest_low_c.number;
    c->roughly_sky = raw->sky.good ? raw->sky.word : SKY_MIXED;
    fail_below(r, &raw->warmest_low_c, &raw->warmest_high_c);
    fail_below(r, &raw->coldest_low_c, &raw->coldest_high_c);
    fail_below(r, &raw->coldest_high_c, &raw->warmest_high_c);
    fail_below(r, &raw->coldest_low_c, &raw->warmest_low_c);
    if (!raw->sky.at)
        vh_default_word_used(r, "climate.roughly.sky", NULL, "mixed", "assumed");
}

static void fill_spells(struct vh_reading *r, const struct vh_given *spell)
{
    struct vh_climate_request *c = &r->scenario->house.climate_request;
    const size_t n = vh_keys_items(spell);

    c->spell = vh_reading_room(r, n, sizeof *c->spell);
    for (size_t i = 0; c->spell && i < n; i++) {
        struct vh_raw_spell raw = {0};
        vh_keys_read_item(r, &vh_spell_keys, spell, i, &raw);
        vh_dates_in_order(r, &raw.from, &raw.until, true);
        fail_below(r, &raw.night_c, &raw.day_c);
        if (!raw.day_c.at && !raw.night_c.at && !raw.sky.at)
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, raw.table),
                                "[[climate.spell]] says nothing of the weather; add day_c and"
                                " night_c, or sky"));
        c->spell[i] = (struct vh_spell){
            .from = raw.from.day,
            .until = raw.until.day,
            .day_c = raw.day_c.good ? raw.day_c.number : (double)NAN,
            .night_c = raw.night_c.good ? raw.night_c.number : (double)NAN,
            .sky = raw.sky.good ? raw.sky.word : -1,
        };
        c->spells = i + 1;
    }
}

/* Is there any climate at all, and can the sun be placed where it is reckoned from? */
static void check_sources(struct vh_reading *r)
{
    const struct vh_raw_climate *raw = &r->root.climate;
    const struct vh_raw_house *house = &r->root.house;
    const bool has_roughly = raw->roughly.table != NULL;

    if (!raw->log.at && !raw->outside.at && !raw->normals.at && !has_roughly) {
        const struct vh_place place =
            raw->table ? vh_at_table(r, raw->table) : (struct vh_place){r->shown_name, 0, 0, NULL};
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, place,
                         "no source of climate; give log, outside or normals in [climate], or the"
                         " four temperatures of [climate.roughly]"));
    }
    if (raw->normals.at && has_roughly)
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, raw->roughly.table),
                         "[climate.roughly] stands for what `normals` on line %lld gives; keep one"
                         " of them",
                         (long long)raw->normals.at->line));
    if (house->table && !house->latitude_deg.at && (raw->normals.at || has_roughly))
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, house->table),
                         "[house] has no `latitude_deg`; light is reckoned from it, so add it, as"
                         " in latitude_deg = 44.5"));
    if (r->root.outside.columns.at && !raw->outside.at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, r->root.outside.columns.at),
                            "columns of an outside file that [climate] does not name; add outside ="
                            " \"weather.csv\" there, or take this table out"));
    if (raw->columns.at && !raw->log.at)
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, raw->columns.at),
                         "columns of a log that [climate] does not name; add log = \"inside.csv\""
                         " there, or take this table out"));
}

void vh_scenario_fill_sources(struct vh_reading *r)
{
    const struct vh_raw_climate *raw = &r->root.climate;
    struct vh_climate_request *c = &r->scenario->house.climate_request;

    check_sources(r);
    fill_logs(r, &raw->log);
    if (raw->outside.good)
        vh_scenario_fill_file(r, raw->outside.at->value, true, &c->outside);
    if (raw->normals.good)
        vh_scenario_fill_file(r, raw->normals.at->value, true, &c->normals);
    vh_scenario_fill_columns(r, &raw->columns, &c->log_column, &c->log_columns);
    vh_scenario_fill_columns(r, &r->root.outside.columns, &c->outside_column, &c->outside_columns);
    fill_roughly(r, &raw->roughly);
    fill_spells(r, &raw->spell);
}
