/* [compare]: what the plantings are tried with, value by value. */
#include "scenario_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void vh_choices_clear(struct vh_choices *c)
{
    for (int l = 0; l < VH_LEVERS; l++)
        free(c->lever[l].value);
    *c = (struct vh_choices){0};
}

size_t vh_choices_count(const struct vh_choices *c)
{
    size_t sum = 0, product = 1;

    for (int l = 0; l < VH_LEVERS; l++) {
        const size_t n = c->lever[l].values;
        sum += n;
        if (n > 0 && product <= VH_CHOICES_MOST)
            product = n <= VH_CHOICES_MOST ? product * n : n;
    }
    return c->all_combinations && sum > 0 ? product : sum;
}

const char *vh_lever_unfit(const struct vh_planting *p, enum vh_lever lever)
{
    const double all = 1.0;

    switch (lever) {
    case VH_LEVER_PICK_STAGE:
        return p->crop->fruit.pick_by == VH_PICK_BY_MASS ? "is picked by its mass, not its colour"
                                                         : NULL;
    case VH_LEVER_SUCKERS:
        return p->crop->sucker.start_g <= 0.0 ? "is reckoned without suckers" : NULL;
    case VH_LEVER_LOWER:
        return p->policy.lower.given ? NULL
                                     : "has no wire to be lowered from (house.wire_height_m)";
    case VH_LEVER_POLLINATION:
        if (p->crop->flower.unvisited_share >= all)
            return "sets fruit without pollination";
        return p->policy.pollination == VH_POLLINATION_HAND
                   ? NULL
                   : "is not pollinated by hand (by = \"hand\" in [planting.pollination])";
    case VH_LEVER_SET_OUT:
        return p->standing.given ? "stands already ([planting.standing])" : NULL;
    case VH_LEVER_FRUITS_KEPT:
    case VH_LEVER_LEAVES:
    case VH_LEVER_HEADS:
    case VH_LEVER_TOP:
    case VH_LEVER_PULL_OUT:
    case VH_LEVER_DENSITY:
    case VH_LEVER_STRIPPED:
    case VH_LEVERS:
        break;
    }
    return NULL;
}

/* ---- values ---- */

static bool is_day(enum vh_lever lever)
{
    return lever == VH_LEVER_SET_OUT || lever == VH_LEVER_PULL_OUT || lever == VH_LEVER_TOP;
}

static bool is_whole(enum vh_lever lever)
{
    return lever == VH_LEVER_SUCKERS || lever == VH_LEVER_LOWER || lever == VH_LEVER_POLLINATION ||
           lever == VH_LEVER_STRIPPED;
}

static double value_of(enum vh_lever lever, const struct vh_toml_value *v, struct vh_unit_pair unit)
{
    if (is_day(lever))
        return (double)v->day;
    if (lever == VH_LEVER_PICK_STAGE)
        return vh_word_index("breaker|turning|pink|light-red|red", v->text);
    return v->number * unit.scale + unit.shift;
}

/* A list of numbers may repeat elsewhere; here a choice given twice is a slip. */
static void check_value(struct vh_reading *r, const struct vh_given *g, enum vh_lever lever,
                        const struct vh_lever_values *before, size_t item, double value)
{
    const struct vh_toml_value *v = g->at->value->item[item];

    if (is_whole(lever) && value != floor(value))
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v),
                            "`%s` has %.10g; it must be whole %s", g->at->key, value,
                            lever == VH_LEVER_STRIPPED ? "nodes" : "days"));
    for (size_t i = 0; i < before->values; i++) {
        if (before->value[i] != value)
            continue;
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v),
                            "this stands twice in `%s`; keep one of them", g->at->key));
        return;
    }
}

static void fill_lever(struct vh_reading *r, const struct vh_given *g, enum vh_lever lever,
                       struct vh_lever_values *out)
{
    struct vh_unit_pair unit = {1.0, 0.0};

    if (!g->good)
        return;
    if (lever == VH_LEVER_DENSITY && strcmp(g->at->key, "plants_per_m2") != 0)
        vh_units_match("plants_per_m2", g->at->key, false, &unit);
    const size_t n = g->at->value->items;
    out->value = vh_reading_room(r, n, sizeof *out->value);
    for (size_t i = 0; out->value && i < n; i++) {
        const double value = value_of(lever, g->at->value->item[i], unit);
        check_value(r, g, lever, out, i, value);
        out->value[out->values++] = value;
    }
}

/* ---- does it fit the plantings? ---- */

static void fill_planting(struct vh_reading *r, const struct vh_given *g, struct vh_choices *c)
{
    const struct vh_house *h = &r->scenario->house;
    char list[400] = "";

    c->planting = VH_ALL_PLANTINGS;
    if (!g->good)
        return;
    for (size_t i = 0; i < h->plantings; i++) {
        if (strcmp(h->planting[i].name, g->text) == 0)
            c->planting = i;
        const size_t used = strlen(list);
        snprintf(list + used, sizeof list - used, "%s%s", i ? ", " : "", h->planting[i].name);
    }
    char shown[VH_SHOWN_MOST + 4];
    if (c->planting == VH_ALL_PLANTINGS)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, g->at->value),
                            "there is no planting \"%s\"; there are: %s", vh_shown(g->text, shown),
                            list));
}

static bool is_meant(const struct vh_choices *c, size_t planting)
{
    return c->planting == VH_ALL_PLANTINGS || c->planting == planting;
}

/* With several plantings a lever is for those that have it: one at least. */
static void check_fits(struct vh_reading *r, const struct vh_given *g, enum vh_lever lever,
                       const struct vh_choices *c)
{
    const struct vh_house *h = &r->scenario->house;
    const char *why = NULL;
    size_t which = 0;

    for (size_t i = 0; i < h->plantings; i++) {
        const struct vh_planting *p = &h->planting[i];
        if (!is_meant(c, i) || !p->crop)
            continue;
        const char *unfit = vh_lever_unfit(p, lever);
        if (!unfit)
            return;
        why = unfit;
        which = i;
    }
    if (why)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, g->at),
                            "`%s`: planting %s %s; take it out", g->at->key,
                            h->planting[which].name, why));
}

static void fail_day(struct vh_reading *r, const struct vh_toml_value *v, const char *key,
                     const struct vh_planting *p, int64_t first, int64_t last)
{
    char day[11], from[11], to[11];

    vh_date_format(v->day, day);
    vh_date_format(first, from);
    vh_date_format(last, to);
    vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v),
                        "`%s` has %s, but %s must stand in the house; give days from %s to %s", key,
                        day, p->name, from, to));
}

/* set_out before pull_out, of this list or of the planting, and no longer apart than a season. */
static void check_days(struct vh_reading *r, const struct vh_given *g, enum vh_lever lever,
                       const struct vh_planting *p)
{
    int64_t first = p->set_out + 1, last = p->pull_out;

    if (lever == VH_LEVER_PULL_OUT)
        last = p->set_out + VH_SEASON_D_MOST;
    if (lever == VH_LEVER_SET_OUT) {
        first = p->pull_out - VH_SEASON_D_MOST;
        last = p->pull_out - 1;
    }
    for (size_t i = 0; i < g->at->value->items; i++) {
        const struct vh_toml_value *v = g->at->value->item[i];
        if (v->day < first || v->day > last)
            fail_day(r, v, g->at->key, p, first, last);
    }
}

/* Two lists that are run with each other must go together too. */
static void check_days_together(struct vh_reading *r, const struct vh_choices *c)
{
    const struct vh_lever_values *out = &c->lever[VH_LEVER_PULL_OUT],
                                 *set = &c->lever[VH_LEVER_SET_OUT];
    const struct vh_given *g = &r->root.compare.lever[VH_LEVER_PULL_OUT];

    for (size_t i = 0; c->all_combinations && i < out->values; i++)
        for (size_t k = 0; k < set->values; k++) {
            if (out->value[i] > set->value[k])
                continue;
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, g->at->value->item[i]),
                                "`%s` has a day that is not after all days of `set_out` on line"
                                " %lld; all_combinations runs each with each",
                                g->at->key,
                                (long long)r->root.compare.lever[VH_LEVER_SET_OUT].at->line));
            return;
        }
}

/* The climate must hold the days of every choice. */
static void widen_climate(struct vh_reading *r, const struct vh_choices *c)
{
    struct vh_climate_request *q = &r->scenario->house.climate_request;
    const struct vh_lever_values *out = &c->lever[VH_LEVER_PULL_OUT],
                                 *set = &c->lever[VH_LEVER_SET_OUT];

    for (size_t i = 0; i < set->values; i++)
        q->first_day =
            (int64_t)set->value[i] < q->first_day ? (int64_t)set->value[i] : q->first_day;
    for (size_t i = 0; i < out->values; i++)
        q->last_day = (int64_t)out->value[i] > q->last_day ? (int64_t)out->value[i] : q->last_day;
}

/* ---- */

static void fill_search(struct vh_reading *r, struct vh_choices *c)
{
    static const enum vh_search word[] = {VH_SEARCH_MARGIN, VH_SEARCH_STEADY, VH_SEARCH_SIZE,
                                          VH_SEARCH_GAPS};
    const struct vh_raw_compare *raw = &r->root.compare;

    c->search = raw->search.good ? word[raw->search.word] : VH_SEARCH_NONE;
    c->at_least_g = raw->at_least_g.good ? raw->at_least_g.number : (double)NAN;
    if (c->search == VH_SEARCH_SIZE && !raw->at_least_g.at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->search.at->value),
                            "a search for size needs the mass that is wanted; add at_least_g, as"
                            " in at_least_g = 200"));
    if (c->search != VH_SEARCH_SIZE && raw->at_least_g.good)
        vh_warn(r->messages, vh_at_key(r, raw->at_least_g.at),
                "`%s` counts only with search = \"size\"", raw->at_least_g.at->key);
}

static void check_count(struct vh_reading *r, const struct vh_choices *c)
{
    const struct vh_raw_compare *raw = &r->root.compare;
    const size_t n = vh_choices_count(c);

    if (n <= VH_CHOICES_MOST)
        return;
    const struct vh_place place = raw->all_combinations.at && c->all_combinations
                                      ? vh_at_key(r, raw->all_combinations.at)
                                      : vh_at_table(r, raw->table);
    vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, place,
                        "[compare] would run more than %d choices; take values out%s",
                        VH_CHOICES_MOST, c->all_combinations ? ", or all_combinations" : ""));
}

void vh_scenario_fill_compare(struct vh_reading *r)
{
    const struct vh_raw_compare *raw = &r->root.compare;
    const struct vh_house *h = &r->scenario->house;
    struct vh_choices *c = &r->scenario->choices;

    if (!raw->table)
        return;
    c->given = true;
    c->place = vh_at_table(r, raw->table);
    c->all_combinations = raw->all_combinations.good && raw->all_combinations.truth;
    fill_planting(r, &raw->planting, c);
    for (int l = 0; l < VH_LEVERS; l++) {
        const struct vh_given *g = &raw->lever[l];
        fill_lever(r, g, (enum vh_lever)l, &c->lever[l]);
        if (!g->good)
            continue;
        check_fits(r, g, (enum vh_lever)l, c);
        for (size_t i = 0; is_day((enum vh_lever)l) && i < h->plantings; i++)
            if (is_meant(c, i) && vh_planting_is_dated(&h->planting[i]))
                check_days(r, g, (enum vh_lever)l, &h->planting[i]);
    }
    fill_search(r, c);
    check_days_together(r, c);
    check_count(r, c);
    if (r->status >= 0)
        widen_climate(r, c);
}
