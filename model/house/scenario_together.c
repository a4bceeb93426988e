/* What only shows when all plantings are known: names, the whole season, the floor, bees. */
#include "scenario_parts.h"

#include <string.h>

#include "vh_floor.h"
#include "vh_units.h"

/* "all", or "all CROP", is what results call plantings that are taken together. */
static bool means_several(const struct vh_given *name)
{
    return name->good && strncmp(name->text, "all", 3) == 0 &&
           (name->text[3] == ' ' || name->text[3] == '\0');
}

static void check_names(struct vh_reading *r, const struct vh_raw_planting *raw)
{
    const struct vh_house *h = &r->scenario->house;

    for (size_t i = 0; i < h->plantings; i++) {
        if (means_several(&raw[i].name))
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw[i].name.at->value),
                                "\"%s\" would stand for plantings that are sold together; give a"
                                " name that does not begin with the word all",
                                raw[i].name.text));
        if (raw[i].name.good && strcmp(raw[i].name.text, VH_KEPT_HOUSE) == 0)
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw[i].name.at->value),
                                "\"%s\" stands for the whole house in kept factors and rows of"
                                " parameters; give another name",
                                raw[i].name.text));
        for (size_t j = 0; raw[i].name.good && j < i; j++) {
            if (!raw[j].name.good || strcmp(raw[i].name.text, raw[j].name.text) != 0)
                continue;
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw[i].name.at->value),
                                "the planting on line %lld is called \"%s\" too; give each its own"
                                " name",
                                (long long)raw[j].name.at->line, raw[i].name.text));
            break;
        }
    }
}

/* The weeks before a standing crop is seen are reckoned too, where an outlook can fill them. */
static int64_t climate_from(const struct vh_reading *r, const struct vh_house *h)
{
    const struct vh_climate_request *c = &h->climate_request;
    const bool has_outlook = r->root.climate.outside.at || r->root.climate.normals.at ||
                             r->root.climate.roughly.table || c->has_roughly;
    int64_t first = h->first_day;

    for (size_t i = 0; has_outlook && i < h->plantings; i++) {
        const struct vh_planting *p = &h->planting[i];
        if (!p->standing.given || !p->crop || !vh_planting_is_dated(p))
            continue;
        const int64_t from = p->set_out - (int64_t)p->crop->habit.warm_up_d;
        first = from < first ? from : first;
    }
    return first;
}

static void fill_season(struct vh_reading *r)
{
    struct vh_house *h = &r->scenario->house;
    size_t dated = 0;

    for (size_t i = 0; i < h->plantings; i++) {
        const struct vh_planting *p = &h->planting[i];
        if (!vh_planting_is_dated(p))
            continue;
        if (dated == 0 || p->set_out < h->first_day)
            h->first_day = p->set_out;
        if (dated == 0 || p->pull_out > h->last_day)
            h->last_day = p->pull_out;
        dated++;
    }
    if (dated == 0)
        h->last_day = h->first_day - 1;
    h->climate_request.first_day = climate_from(r, h);
    h->climate_request.last_day = h->last_day;
    if (h->last_day - h->first_day > VH_SEASON_D_MOST && r->status >= 0) {
        char first[11], last[11];
        vh_date_format(h->first_day, first);
        vh_date_format(h->last_day, last);
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, (struct vh_place){r->shown_name, 0, 0, NULL},
                            "the plantings reach from %s to %s; at most %d days (three years) are"
                            " reckoned in one scenario, so write two",
                            first, last, VH_SEASON_D_MOST));
    }
}

/* ---- floor ---- */

/* In the unit in which the floor is given. */
static void check_floor(struct vh_reading *r)
{
    const struct vh_house *h = &r->scenario->house;
    const struct vh_given *floor_area = &r->root.house.floor_area_m2;
    struct vh_unit_pair unit = {1.0, 0.0};
    struct vh_floor_short s = {.until = h->first_day - 1};

    if (!floor_area->good || h->first_day > h->last_day)
        return;
    const bool is_m2 = strcmp(floor_area->at->key, "floor_area_m2") == 0;
    if (!is_m2)
        vh_units_match("floor_area_m2", floor_area->at->key, false, &unit);
    while (vh_floor_short_next(h, NULL, s.until + 1, &s)) {
        char first[11], last[11];
        vh_date_format(s.from, first);
        vh_date_format(s.until, last);
        vh_warn(r->messages, vh_at_value(r, floor_area->at->value),
                "the plantings that stand from %s to %s need %.4g %s, paths included; the floor has"
                " %.4g %s",
                first, last, s.need_m2 / unit.scale, is_m2 ? "m2" : "ft2",
                h->floor_area_m2 / unit.scale, is_m2 ? "m2" : "ft2");
    }
}

void vh_scenario_check_plantings(struct vh_reading *r, const struct vh_raw_planting *raw)
{
    check_names(r, raw);
    fill_season(r);
    check_floor(r);
    vh_scenario_settle_pollination(r, raw);
}
