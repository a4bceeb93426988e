/* [market]: the days on which is sold, the chance that a promise must hold with, the orders. */
#include "scenario_parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_market_days.h"
#include "vh_math.h"

/* ---- whose price or order it is ---- */

static size_t planting_named(const struct vh_house *h, const char *name)
{
    for (size_t i = 0; i < h->plantings; i++)
        if (strcmp(h->planting[i].name, name) == 0)
            return i;
    return h->plantings;
}

static void tell_no_planting(struct vh_reading *r, const struct vh_given *planting)
{
    const struct vh_house *h = &r->scenario->house;
    const char *name = planting->text, *best = NULL;
    const size_t enough = vh_near_enough(name);
    size_t least = enough + 1;
    char shown[VH_SHOWN_MOST + 4];

    for (size_t i = 0; i < h->plantings; i++) {
        const size_t d = vh_key_distance(h->planting[i].name, name, enough);
        best = d < least ? h->planting[i].name : best;
        least = d < least ? d : least;
    }
    vh_shown(name, shown);
    if (best)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, planting->at->value),
                            "no planting is called \"%s\"; did you mean \"%s\"?", shown, best));
    else
        vh_spoil(r,
                 vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, planting->at->value),
                         "no planting is called \"%s\"; give the name of a [[planting]]", shown));
}

static bool is_grown(const struct vh_house *h, const char *crop)
{
    for (size_t i = 0; i < h->plantings; i++)
        if (strcmp(h->planting[i].crop_name, crop) == 0)
            return true;
    return false;
}

static void take_crop(struct vh_reading *r, const struct vh_given *crop, struct vh_target *target)
{
    const struct vh_crop_file *file = crop->good ? vh_scenario_find_crop(r, crop) : NULL;

    target->said = crop;
    if (!file)
        return;
    target->crop = file->name;
    target->good = is_grown(&r->scenario->house, file->name);
    if (!target->good)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, crop->at->value),
                            "no planting grows %s; name a crop of one of your plantings, or take"
                            " this out",
                            file->name));
}

struct vh_target vh_market_target(struct vh_reading *r, const char *what,
                                  const struct vh_toml_value *table, const struct vh_given *crop,
                                  const struct vh_given *planting)
{
    const struct vh_house *h = &r->scenario->house;
    struct vh_target target = {.planting = h->plantings};

    if (crop->at && planting->at) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, planting->at),
                            "[[%s]] has `planting` and, on line %lld, `crop`; keep one of them",
                            what, (long long)crop->at->line));
    } else if (!crop->at && !planting->at) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, table),
                            "[[%s]] has no `crop`; add it, as in crop = \"tomato-large\", or give"
                            " `planting`",
                            what));
    } else if (crop->at) {
        take_crop(r, crop, &target);
    } else if (planting->good) {
        target.said = planting;
        target.planting = planting_named(h, planting->text);
        target.good = target.planting < h->plantings;
        if (!target.good)
            tell_no_planting(r, planting);
    }
    return target;
}

/* ---- days ---- */

static void check_dates(struct vh_reading *r, const struct vh_given *dates)
{
    const struct vh_house *h = &r->scenario->house;
    char text[11], first[11], last[11];

    for (size_t i = 0; dates->good && i < dates->at->value->items; i++) {
        const struct vh_toml_value *v = dates->at->value->item[i];
        if (vh_house_stands(h, v->day, h->market.sold_after_d))
            continue;
        vh_date_format(v->day, text);
        vh_date_format(h->first_day, first);
        vh_date_format(h->last_day + h->market.sold_after_d, last);
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, v),
                            "no planting stands in the house on %s; a market day must lie between"
                            " %s and %s, while one stands or within %lld days of its pull-out",
                            text, first, last, (long long)h->market.sold_after_d));
    }
}

static void fill_open(struct vh_reading *r, struct vh_market_open *open)
{
    const struct vh_raw_market *raw = &r->root.market;
    const size_t dates = raw->dates.good ? raw->dates.at->value->items : 0;
    struct vh_rhythm week;

    vh_rhythm_fill(&(struct vh_given){0}, &raw->days, 0.0, &week);
    memcpy(open->weekday, week.weekday, sizeof open->weekday);
    open->from = raw->from.good ? raw->from.day : INT64_MIN;
    open->until = raw->until.good ? raw->until.day : INT64_MAX;
    open->date = vh_reading_room(r, dates, sizeof *open->date);
    for (; open->date && open->dates < dates; open->dates++)
        open->date[open->dates] = raw->dates.at->value->item[open->dates]->day;
}

static void tell_no_day(struct vh_reading *r)
{
    const struct vh_raw_market *raw = &r->root.market;
    const struct vh_given *told = raw->from.at    ? &raw->from
                                  : raw->until.at ? &raw->until
                                                  : &raw->days;
    char first[11], last[11];

    vh_date_format(r->scenario->house.first_day, first);
    vh_date_format(r->scenario->house.last_day, last);
    vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, told->at->value),
                        "no market day falls on a day on which a planting stands in the house; they"
                        " stand from %s to %s",
                        first, last));
}

static void tell_weekdays_missing(struct vh_reading *r)
{
    const struct vh_raw_market *raw = &r->root.market;
    const struct vh_given *told = raw->from.at ? &raw->from : &raw->until;

    if (!raw->days.at && !raw->dates.at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, raw->table),
                            "[market] has no `days`; add them, as in days = [\"sat\"], or give"
                            " single `dates`"));
    else if (!raw->days.at && told->at)
        vh_warn(r->messages, vh_at_key(r, told->at),
                "`%s` counts for the weekdays of `days`, and there are none; dates stand for"
                " themselves",
                told->at->key);
}

static void default_end(struct vh_reading *r, const struct vh_given *end, const char *key,
                        int64_t day)
{
    char text[11];

    vh_date_format(day, text);
    if (r->root.market.days.at && !end->at)
        vh_default_word_used(r, key, NULL, text, "assumed");
}

static void fill_days(struct vh_reading *r)
{
    const struct vh_raw_market *raw = &r->root.market;
    struct vh_house *h = &r->scenario->house;

    tell_weekdays_missing(r);
    const bool in_order = vh_dates_in_order(r, &raw->from, &raw->until, true);
    if (h->first_day > h->last_day || h->last_day - h->first_day > VH_SEASON_D_MOST)
        return; /* was told */
    check_dates(r, &raw->dates);
    fill_open(r, &h->market.open);
    h->market.day = vh_market_days_of(h, &h->market.days);
    if (!h->market.day)
        vh_spoil(r, VH_NO_MEMORY);
    default_end(r, &raw->from, "market.from", h->first_day);
    default_end(r, &raw->until, "market.until", h->last_day + h->market.sold_after_d);
    if (h->market.day && h->market.days == 0 && raw->days.good && in_order)
        tell_no_day(r);
}

/* ---- is there a pick for each market day? ---- */

/* Days from the weekly market day before to this one; 0: none on this weekday. */
static int since_last(const struct vh_market_open *open, int weekday)
{
    int gap = 0;

    if (open->weekday[weekday])
        do
            gap++;
        while (!open->weekday[(weekday + VH_DAYS_PER_WEEK - gap) % VH_DAYS_PER_WEEK]);
    return gap;
}

/* Does a pick fall in every week between these market days? */
static bool is_picked_for(const struct vh_rhythm *pick, int weekday, int gap)
{
    if (!pick->by_weekday)
        return pick->every_d <= gap;
    for (int d = 0; d < gap; d++)
        if (pick->weekday[(weekday + VH_DAYS_PER_WEEK - d) % VH_DAYS_PER_WEEK])
            return true;
    return false;
}

/* Once, for all plantings alike: a market day that gets nothing newly picked in some weeks. */
static void doubt_picks(struct vh_reading *r)
{
    static const char *const day[] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};
    const struct vh_house *h = &r->scenario->house;
    const struct vh_market_open *open = &h->market.open;
    const struct vh_planting *first = NULL;
    char others[48] = "", right[64] = "", shown[VH_SHOWN_MOST + 4];
    int bare_gap = 0;
    size_t bare = 0;

    for (size_t k = 0; k < h->plantings; k++) {
        int gap = 0;
        for (int w = 0; w < VH_DAYS_PER_WEEK; w++)
            if (open->weekday[w] &&
                !is_picked_for(&h->planting[k].policy.pick, w, since_last(open, w)))
                gap = since_last(open, w);
        if (gap == 0)
            continue;
        bare_gap = bare++ == 0 ? gap : bare_gap;
        first = first ? first : &h->planting[k];
    }
    for (int w = 0; first && w < VH_DAYS_PER_WEEK; w++)
        if (open->weekday[(w + 1) % VH_DAYS_PER_WEEK])
            snprintf(right + strlen(right), sizeof right - strlen(right), "%s\"%s\"",
                     right[0] ? ", " : "", day[w]);
    if (!first)
        return;
    if (bare > 1)
        snprintf(others, sizeof others, " (and %zu more)", bare - 1);
    vh_shown(first->name, shown);
    vh_warn(r->messages, vh_at_value(r, r->root.market.days.at->value),
            "%s%s: a market day comes %d days after another, and some have no pick between;"
            " write days = [%s] in [planting.pick]",
            shown, others, bare_gap, right);
}

/* ---- orders ---- */

/* The good of a whole crop: its plantings that are not sold apart, or the only one there is. */
static size_t good_of_crop(const struct vh_house *h, const struct vh_goods_reading *goods,
                           const char *crop)
{
    const struct vh_market *m = &h->market;
    size_t found = m->goods, plantings = 0, last = m->goods;

    for (size_t i = 0; i < h->plantings; i++) {
        if (strcmp(h->planting[i].crop_name, crop) != 0)
            continue;
        plantings++;
        last = m->good_of[i];
        if (!goods->is_alone[last])
            found = last;
    }
    return found < m->goods ? found : plantings == 1 ? last : m->goods;
}

static size_t good_ordered(struct vh_reading *r, const struct vh_goods_reading *goods,
                           const struct vh_raw_order *raw)
{
    const struct vh_house *h = &r->scenario->house;
    const struct vh_target target =
        vh_market_target(r, "market.order", raw->table, &raw->crop, &raw->planting);

    if (!target.good)
        return h->market.goods;
    if (target.planting < h->plantings)
        return h->market.good_of[target.planting];
    const size_t good = good_of_crop(h, goods, target.crop);
    if (good == h->market.goods)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, target.said->at->value),
                            "the plantings of %s are sold apart, each at a price of its own; name"
                            " one of them by `planting`",
                            target.crop));
    return good;
}

/* Exactly one of kg, lb, fruits and packs; NULL: told. */
static const struct vh_given *amount_said(struct vh_reading *r, const struct vh_raw_order *raw)
{
    const struct vh_given *const all[] = {&raw->kg, &raw->lb, &raw->fruits, &raw->packs};
    const struct vh_given *said = NULL;

    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        if (all[i]->at && said) {
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, all[i]->at),
                                "[[market.order]] has `%s` and, on line %lld, `%s`; keep one of"
                                " them",
                                all[i]->at->key, (long long)said->at->line, said->at->key));
            return NULL;
        }
        said = all[i]->at ? all[i] : said;
    }
    if (!said)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, raw->table),
                            "[[market.order]] says not how much; add kg, lb, fruits or packs, as"
                            " it is sold"));
    return said;
}

/* In what the good is counted in. */
static void fill_amount(struct vh_reading *r, const struct vh_raw_order *raw,
                        const struct vh_good *good, struct vh_order *order)
{
    const double kg_per_g = 1e-3;
    const struct vh_given *said = amount_said(r, raw);
    struct vh_unit_pair lb = {1.0, 0.0};

    if (!said)
        return;
    vh_units_match("kg", "lb", false, &lb);
    order->kg = raw->kg.good ? raw->kg.number : raw->lb.good ? raw->lb.number * lb.scale : 0.0;
    order->fruits = raw->fruits.good ? raw->fruits.number : 0.0;
    if (!good)
        return;
    const bool by_each = good->sold_by == VH_SELL_EACH;
    const double pack = by_each ? good->pack_fruits : good->pack_g * kg_per_g;
    if (said == &raw->packs && !isnan(pack))
        *(by_each ? &order->fruits : &order->kg) = raw->packs.good ? raw->packs.number * pack : 0.0;
    else if (said == &raw->packs)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, said->at),
                            "%s is not sold by the pack; write sold_by = \"pack\" and %s beside its"
                            " price, or order it in %s",
                            good->name, by_each ? "pack_fruits" : "pack_g",
                            by_each ? "`fruits`" : "`kg` or `lb`"));
    else if ((said == &raw->fruits) != by_each)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, said->at),
                            by_each ? "%s is sold by each; order it in `fruits`"
                                    : "%s is sold by mass; order it in `kg` or `lb`",
                            good->name));
}

static void fill_window(struct vh_reading *r, const struct vh_raw_order *raw,
                        struct vh_order *order)
{
    const struct vh_market *m = &r->scenario->house.market;
    const struct vh_given *told = raw->from.at ? &raw->from : &raw->until;

    if (m->days == 0)
        return; /* was told */
    order->from = raw->from.good ? raw->from.day : INT64_MIN;
    order->until = raw->until.good ? raw->until.day : INT64_MAX;
    if (!vh_dates_in_order(r, &raw->from, &raw->until, true) || !told->at)
        return;
    for (size_t i = 0; i < m->days; i++)
        if (m->day[i] >= order->from && m->day[i] <= order->until)
            return;
    vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, told->at->value),
                        "no market day falls into this order; give dates that hold one"));
}

static void fill_orders(struct vh_reading *r, const struct vh_goods_reading *goods)
{
    struct vh_market *m = &r->scenario->house.market;
    const struct vh_given *given = &r->root.market.order;
    const size_t n = vh_keys_items(given);

    m->order = vh_reading_room(r, n, sizeof *m->order);
    for (size_t i = 0; m->order && i < n; i++) {
        struct vh_raw_order raw = {0};
        vh_keys_read_item(r, &vh_order_keys, given, i, &raw);
        const size_t good = good_ordered(r, goods, &raw);
        struct vh_order *order = &m->order[m->orders++];
        *order = (struct vh_order){.good = good};
        order->who = vh_reading_copy(r, raw.who.good ? raw.who.text : "");
        fill_amount(r, &raw, good < m->goods ? &m->good[good] : NULL, order);
        fill_window(r, &raw, order);
        if (order->who)
            vh_market_doubt_order(r, raw.table, order);
    }
}

/* ---- */

void vh_scenario_fill_market(struct vh_reading *r)
{
    const struct vh_raw_market *raw = &r->root.market;
    struct vh_market *m = &r->scenario->house.market;
    struct vh_goods_reading goods = {0};

    if (!raw->table)
        return;
    m->given = true;
    m->sold_after_d = (int64_t)r->scenario->house_params.market_sold_after_d;
    m->promise = raw->promise.good ? raw->promise.number : r->scenario->house_params.market_promise;
    if (!raw->promise.at)
        vh_default_used(r, "market.promise", NULL, &r->scenario->house_rows, "market.promise");
    fill_days(r);
    if (r->status == VH_OK && raw->days.good)
        doubt_picks(r);
    vh_scenario_fill_goods(r, &goods);
    if (r->status != VH_NO_MEMORY)
        fill_orders(r, &goods);
    free(goods.price);
    free(goods.price_of);
    free(goods.is_alone);
    free(goods.table_name);
}
