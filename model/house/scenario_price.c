/* What one good costs, by kilogram or by the piece, and how much of it goes on a market day. */
#include "scenario_parts.h"

#include <stdio.h>
#include <string.h>

#include "vh_math.h"

#define LIST_BYTES 400

/* ---- numbers by grade ---- */

static void grades_listed(const struct vh_grades *g, char list[LIST_BYTES])
{
    size_t used = 0;

    list[0] = '\0';
    for (size_t i = 0; i < g->grades; i++) {
        const char *between = i == 0 ? "" : i + 1 < g->grades ? ", " : " and ";
        const int wrote =
            snprintf(list + used, LIST_BYTES - used, "%s%s", between, g->grade[i].name);
        if (wrote < 0 || (size_t)wrote >= LIST_BYTES - used)
            return;
        used += (size_t)wrote;
    }
}

/* A fruit between two given prices is worth at least the smaller one; what is smaller than all of
 * them has no buyer that we know of. */
static void price_missing(struct vh_reading *r, const struct vh_given *said,
                          const struct vh_grades *g, double *price)
{
    size_t below = g->grades;

    for (size_t i = 0; i < g->grades; i++) {
        if (!isnan(price[i])) {
            below = i;
            continue;
        }
        price[i] = below < g->grades ? price[below] : 0.0;
        if (below < g->grades)
            vh_warn(r->messages, vh_at_value(r, said->at->value),
                    "`%s` has no price for %s; that of %s holds for it", said->at->key,
                    g->grade[i].name, g->grade[below].name);
        else
            vh_warn(r->messages, vh_at_value(r, said->at->value),
                    "`%s` has no price for %s; it is counted, but brings nothing", said->at->key,
                    g->grade[i].name);
    }
}

static void price_by_grade(struct vh_reading *r, const struct vh_given *said, double scale,
                           const struct vh_grades *g, double *price)
{
    char shown[VH_SHOWN_MOST + 4], list[LIST_BYTES];

    if (!g) {
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, said->at->value),
                            "`%s` has a price for each grade, but there are no `grades`; add them,"
                            " as in grades = \"tomato-us\", or give one number",
                            said->at->key));
        return;
    }
    grades_listed(g, list);
    if (!said->at->value->first)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, said->at->value),
                            "`%s` holds no price; give one for %s", said->at->key, list));
    const enum vh_status before = r->status;
    r->status = VH_OK;
    for (const struct vh_toml_entry *e = said->at->value->first; e; e = e->next) {
        const size_t i = vh_grade_find(g, e->key);
        if (i < g->grades)
            price[i] = e->value->number * scale;
        else
            vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, e),
                                "there is no grade %s in this table; its grades are %s",
                                vh_shown(e->key, shown), list));
    }
    if (r->status == VH_OK && said->at->value->first)
        price_missing(r, said, g, price);
    vh_spoil(r, before);
}

/* One number for all, or one for each grade. */
static void fill_numbers(struct vh_reading *r, const struct vh_given *said, const char *our_key,
                         const struct vh_grades *g, double *price)
{
    struct vh_unit_pair unit = {1.0, 0.0};

    if (!said->good)
        return;
    vh_units_match(our_key, said->at->key, false, &unit);
    if (said->at->value->kind == VH_TOML_TABLE) {
        price_by_grade(r, said, unit.scale, g, price);
        return;
    }
    for (size_t i = 0; i < (g ? g->grades : 1); i++)
        price[i] = said->at->value->number * unit.scale;
}

/* ---- what it is sold by ---- */

static void check_one_price(struct vh_reading *r, const struct vh_raw_price *raw)
{
    if (raw->per_kg.at && raw->per_fruit.at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, raw->per_fruit.at),
                            "[[market.price]] has `per_fruit` and, on line %lld, `%s`; keep one of"
                            " them",
                            (long long)raw->per_kg.at->line, raw->per_kg.at->key));
    else if (!raw->per_kg.at && !raw->per_fruit.at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, raw->table),
                            "[[market.price]] has no price; add per_kg, as in per_kg = 6.5, or"
                            " per_lb, or per_fruit where it is sold by each"));
}

/* A pack of so many grams, or of so many fruits where they have a price each: those are counted. */
static void fill_pack(struct vh_reading *r, const struct vh_raw_price *raw, bool by_fruit,
                      struct vh_good *good)
{
    const bool by_pack = raw->sold_by.good && good->sold_by == VH_SELL_PACK;
    const struct vh_given *used = by_fruit ? &raw->pack_fruits : &raw->pack_g,
                          *unused = by_fruit ? &raw->pack_g : &raw->pack_fruits;

    if (by_pack && !used->at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->sold_by.at->value),
                            by_fruit ? "sold by the pack, but how many are in one? add pack_fruits,"
                                       " as in pack_fruits = 3"
                                     : "sold by the pack, but how heavy is one? add pack_g, as in"
                                       " pack_g = 500"));
    if (by_pack && unused->at)
        vh_warn(r->messages, vh_at_key(r, unused->at),
                by_fruit ? "`%s` counts only with per_kg or per_lb"
                         : "`%s` counts only with per_fruit",
                unused->at->key);
    for (int i = 0; !by_pack && i < 2; i++)
        if ((i ? unused : used)->at)
            vh_warn(r->messages, vh_at_key(r, (i ? unused : used)->at),
                    "`%s` counts only with sold_by = \"pack\"", (i ? unused : used)->at->key);
    if (by_fruit && raw->pack_fruits.good)
        good->pack_fruits = raw->pack_fruits.number;
    if (!by_fruit && raw->pack_g.good)
        good->pack_g = raw->pack_g.number;
    if (by_pack && by_fruit)
        good->sold_by = VH_SELL_EACH;
}

static void fill_sold_by(struct vh_reading *r, const struct vh_raw_price *raw,
                         const struct vh_planting *p, struct vh_good *good)
{
    static const char *const word[] = {"kg", "lb", "each", "pack"};
    const bool by_fruit = raw->per_fruit.at && !raw->per_kg.at;
    const bool by_lb = raw->per_kg.at && strcmp(raw->per_kg.at->key, "per_lb") == 0;

    good->sold_by = by_fruit ? VH_SELL_EACH : by_lb ? VH_SELL_LB : VH_SELL_KG;
    if (!raw->sold_by.at)
        vh_default_word_used(r, "market.price.sold_by", p, word[good->sold_by], "assumed");
    if (raw->sold_by.good)
        good->sold_by = (enum vh_sell_unit)raw->sold_by.word;
    if (raw->sold_by.good && good->sold_by == VH_SELL_EACH && raw->per_kg.at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->sold_by.at->value),
                            "sold by each, but the price on line %lld is `%s`; give per_fruit",
                            (long long)raw->per_kg.at->line, raw->per_kg.at->key));
    if (raw->sold_by.good && good->sold_by < VH_SELL_EACH && by_fruit)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, raw->sold_by.at->value),
                            "sold by \"%s\", but the price on line %lld is `per_fruit`; give per_kg"
                            " or per_lb, or write sold_by = \"each\"",
                            word[good->sold_by], (long long)raw->per_fruit.at->line));
    fill_pack(r, raw, by_fruit, good);
}

/* ---- how much goes ---- */

/* kg and fruits say the same of goods that are sold by mass and by each. */
static void fill_pair(struct vh_reading *r, const struct vh_good *good, const struct vh_given *kg,
                      const struct vh_given *fruits, double *to_kg, double *to_fruits)
{
    const bool by_fruit = good->sold_by == VH_SELL_EACH;
    const struct vh_given *wrong = by_fruit ? kg : fruits;

    if (kg->good && !by_fruit)
        *to_kg = kg->number;
    if (fruits->good && by_fruit)
        *to_fruits = fruits->number;
    if (wrong->at)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_key(r, wrong->at),
                            by_fruit ? "%s is sold by each; give `%.*sfruits` instead of `%s`"
                                     : "%s is sold by mass; give `%.*skg` instead of `%s`",
                            good->name, (int)strcspn(wrong->at->key, "_") + 1, wrong->at->key,
                            wrong->at->key));
}

static void fill_sales(struct vh_reading *r, const struct vh_raw_price *raw,
                       const struct vh_planting *p, struct vh_good *good)
{
    const bool is_limited = raw->sells_kg.at || raw->sells_fruits.at;

    fill_pair(r, good, &raw->sells_kg, &raw->sells_fruits, &good->sells_kg, &good->sells_fruits);
    fill_pair(r, good, &raw->wants_kg, &raw->wants_fruits, &good->wants_kg, &good->wants_fruits);
    good->price_share_beyond = raw->price_share_beyond.good
                                   ? raw->price_share_beyond.number
                                   : r->scenario->house_params.market_share_beyond;
    if (!is_limited)
        vh_default_word_used(r,
                             good->sold_by == VH_SELL_EACH ? "market.price.sells_fruits"
                                                           : "market.price.sells_kg",
                             p, "all there is", "assumed");
    else if (!raw->price_share_beyond.at)
        vh_default_used(r, "market.price.price_share_beyond", p, &r->scenario->house_rows,
                        "market.price_share_beyond");
    if (raw->price_share_beyond.at && !is_limited)
        vh_warn(r->messages, vh_at_key(r, raw->price_share_beyond.at),
                "`price_share_beyond` counts only where sells_kg or sells_fruits says from where"
                " on");
}

void vh_market_fill_price(struct vh_reading *r, const struct vh_raw_price *raw,
                          const struct vh_planting *first, struct vh_good *good)
{
    good->priced = raw->per_kg.at || raw->per_fruit.at;
    good->place = vh_at_table(r, raw->table);
    check_one_price(r, raw);
    fill_sold_by(r, raw, first, good);
    if (good->grades || !raw->grades.at) {
        fill_numbers(r, &raw->per_kg, "per_kg", good->grades, good->per_kg);
        fill_numbers(r, &raw->per_fruit, "per_fruit", good->grades, good->per_fruit);
    }
    fill_sales(r, raw, first, good);
}
