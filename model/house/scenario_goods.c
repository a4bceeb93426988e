/* Which plantings are sold together, and the grade tables that their prices go by. */
#include "scenario_parts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_file.h"
#include "vh_folder.h"
#include "vh_math.h"

#define GRADES_FOLDER "grades" /* of params/ */
#define LIST_BYTES 400

/* ---- grade tables ---- */

/* "my-grades.csv" and "lists/mine.csv" lie beside the scenario; "tomato-us" in params/grades. */
static bool is_own_file(const char *name)
{
    const size_t n = strlen(name);

    return strpbrk(name, "/\\") || (n > 4 && strcmp(name + n - 4, ".csv") == 0);
}

static void tell_no_table(struct vh_reading *r, const char *folder, const struct vh_given *name)
{
    char shown[VH_SHOWN_MOST + 4], list[LIST_BYTES] = "";
    const size_t enough = vh_near_enough(name->text);
    struct vh_names known = {0};
    size_t used = 0, least = enough + 1, best = 0;

    if (vh_folder_list(folder, ".csv", &known, NULL) != VH_OK)
        known.names = 0;
    for (size_t i = 0; i < known.names && used < LIST_BYTES; i++) {
        const size_t d = vh_key_distance(known.name[i], name->text, enough);
        const int wrote =
            snprintf(list + used, LIST_BYTES - used, "%s%s", i ? ", " : "", known.name[i]);
        used += wrote > 0 ? (size_t)wrote : 0;
        best = d < least ? i : best;
        least = d < least ? d : least;
    }
    vh_shown(name->text, shown);
    if (least <= enough)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, name->at->value),
                            "there is no table of grades \"%s\"; did you mean \"%s\"?", shown,
                            known.name[best]));
    else
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_value(r, name->at->value),
                            "there is no table of grades \"%s\"; known are %s; a file of your own"
                            " is named with its .csv",
                            shown, known.names ? list : "none"));
    vh_names_clear(&known);
}

/* The path of a table of params/grades; NULL: told. The caller frees it. */
static char *shared_table(struct vh_reading *r, const struct vh_given *name)
{
    char *folder = vh_path_join(r->parameters->folder, GRADES_FOLDER);
    char file[VH_SHOWN_MOST + 8], *path = NULL;

    const bool fits = strlen(name->text) <= VH_SHOWN_MOST;
    if (fits && folder) {
        snprintf(file, sizeof file, "%s.csv", name->text);
        path = vh_path_join(folder, file);
    }
    if (!folder || (fits && !path)) {
        vh_spoil(r, VH_NO_MEMORY);
    } else if (!path || !vh_file_is_there(path)) {
        tell_no_table(r, folder, name);
        free(path);
        path = NULL;
    }
    free(folder);
    return path;
}

static void read_table(struct vh_reading *r, const struct vh_given *name, struct vh_grades *grades)
{
    struct vh_file_name file = {NULL, NULL};

    if (is_own_file(name->text)) {
        const enum vh_status before = r->status;
        r->status = VH_OK;
        vh_scenario_fill_file(r, name->at->value, true, &file);
        const bool is_there = r->status == VH_OK;
        vh_spoil(r, before);
        if (is_there)
            vh_spoil(r, vh_grades_read(file.path, file.shown, &r->digest, grades, r->messages));
    } else {
        file.path = shared_table(r, name);
        if (file.path)
            vh_spoil(r, vh_grades_read(file.path, file.path, &r->digest, grades, r->messages));
    }
    free(file.path);
    free(file.shown);
}

const struct vh_grades *vh_market_grades(struct vh_reading *r, struct vh_goods_reading *goods,
                                         const struct vh_given *name)
{
    struct vh_market *m = &r->scenario->house.market;
    size_t i = 0;

    while (i < m->tables && strcmp(goods->table_name[i], name->text) != 0)
        i++;
    if (i == m->tables) {
        m->tables++;
        goods->table_name[i] = name->text;
        read_table(r, name, &m->table[i]);
    }
    return m->table[i].grades > 0 ? &m->table[i] : NULL;
}

/* ---- goods ---- */

/* The price belongs to these plantings; those that have one of their own keep it. */
static void lay_price(struct vh_reading *r, struct vh_goods_reading *goods, size_t price,
                      const struct vh_target *target, bool of_crops)
{
    const struct vh_house *h = &r->scenario->house;
    size_t mine = 0, alone = 0, earlier = goods->prices;

    for (size_t i = 0; i < h->plantings; i++) {
        const bool fits =
            of_crops ? strcmp(h->planting[i].crop_name, target->crop) == 0 : i == target->planting;
        if (!fits)
            continue;
        const size_t has = goods->price_of[i];
        if (has == goods->prices) {
            goods->price_of[i] = price;
            mine++;
        } else if (of_crops && goods->price[has].planting.at) {
            alone++;
        } else {
            earlier = has;
        }
    }
    if (earlier < goods->prices)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, goods->price[price].table),
                            "the price of %s stands on line %lld; keep one of them",
                            of_crops ? target->crop : h->planting[target->planting].name,
                            (long long)goods->price[earlier].table->line));
    else if (mine == 0 && alone > 0)
        vh_spoil(r, vh_fail(r->messages, VH_BAD_INPUT, vh_at_table(r, goods->price[price].table),
                            "each planting of %s has a price of its own; take this one out",
                            target->crop));
}

/* Prices by planting first, so that those by crop know what is left to them. */
static void lay_prices(struct vh_reading *r, struct vh_goods_reading *goods)
{
    const struct vh_house *h = &r->scenario->house;
    struct vh_target *target = vh_reading_room(r, goods->prices, sizeof *target);

    for (size_t i = 0; i < h->plantings; i++)
        goods->price_of[i] = goods->prices;
    for (size_t i = 0; target && i < goods->prices; i++) {
        const struct vh_raw_price *raw = &goods->price[i];
        target[i] = vh_market_target(r, "market.price", raw->table, &raw->crop, &raw->planting);
    }
    for (int of_crops = 0; target && of_crops < 2; of_crops++)
        for (size_t i = 0; i < goods->prices; i++)
            if (target[i].good && (target[i].crop != NULL) == (of_crops == 1))
                lay_price(r, goods, i, &target[i], of_crops == 1);
    free(target);
}

/* The good of the plantings before this one that it is sold with; `goods`: none. */
static size_t good_so_far(const struct vh_house *h, const struct vh_goods_reading *goods,
                          size_t planting)
{
    const struct vh_market *m = &h->market;

    for (size_t i = 0; i < planting; i++)
        if (!goods->is_alone[m->good_of[i]] &&
            strcmp(h->planting[i].crop_name, h->planting[planting].crop_name) == 0)
            return m->good_of[i];
    return m->goods;
}

static void unpriced(struct vh_good *good, const struct vh_planting *p)
{
    const bool by_fruit = p->crop && p->crop->habit.sold_by == VH_SOLD_BY_FRUIT;

    *good = (struct vh_good){.sold_by = by_fruit ? VH_SELL_EACH : VH_SELL_KG,
                             .pack_g = VH_UNKNOWN,
                             .pack_fruits = VH_UNKNOWN,
                             .sells_kg = VH_ENDLESS,
                             .sells_fruits = VH_ENDLESS};
}

static void add_good(struct vh_reading *r, struct vh_goods_reading *goods, size_t planting)
{
    struct vh_house *h = &r->scenario->house;
    const struct vh_planting *p = &h->planting[planting];
    const size_t price = goods->price_of[planting];
    struct vh_good *good = &h->market.good[h->market.goods];
    const bool is_priced = price < goods->prices;

    unpriced(good, p);
    goods->is_alone[h->market.goods++] = is_priced && goods->price[price].planting.at;
    good->name = vh_reading_copy(r, goods->is_alone[h->market.goods - 1] ? p->name : p->crop_name);
    if (is_priced && goods->price[price].grades.good)
        good->grades = vh_market_grades(r, goods, &goods->price[price].grades);
    const size_t n = good->grades ? good->grades->grades : 1;
    good->per_kg = vh_reading_room(r, n, sizeof *good->per_kg);
    good->per_fruit = vh_reading_room(r, n, sizeof *good->per_fruit);
    if (!good->name || !good->per_kg || !good->per_fruit)
        return;
    for (size_t i = 0; i < n; i++)
        good->per_kg[i] = good->per_fruit[i] = VH_UNKNOWN;
    if (is_priced && p->crop)
        vh_market_fill_price(r, &goods->price[price], p, good);
}

/* Which plantings each good has, one good after the other. */
static void list_by_good(struct vh_reading *r, struct vh_house *h)
{
    struct vh_market *m = &h->market;
    size_t *next = m->by_good = vh_reading_room(r, h->plantings, sizeof *m->by_good);

    if (!next)
        return;
    for (size_t g = 0; g < m->goods; g++) {
        m->good[g].planting = next;
        next += m->good[g].plantings;
        m->good[g].plantings = 0;
    }
    for (size_t k = 0; k < h->plantings; k++) {
        struct vh_good *good = &m->good[m->good_of[k]];
        m->by_good[(size_t)(good->planting - m->by_good) + good->plantings++] = k;
    }
}

void vh_scenario_fill_goods(struct vh_reading *r, struct vh_goods_reading *goods)
{
    struct vh_house *h = &r->scenario->house;
    struct vh_market *m = &h->market;
    const struct vh_given *given = &r->root.market.price;

    goods->prices = vh_keys_items(given);
    goods->price = vh_reading_room(r, goods->prices, sizeof *goods->price);
    goods->price_of = vh_reading_room(r, h->plantings, sizeof *goods->price_of);
    goods->is_alone = vh_reading_room(r, h->plantings, sizeof *goods->is_alone);
    goods->table_name = vh_reading_room(r, goods->prices, sizeof *goods->table_name);
    m->good = vh_reading_room(r, h->plantings, sizeof *m->good);
    m->good_of = vh_reading_room(r, h->plantings, sizeof *m->good_of);
    m->table = vh_reading_room(r, goods->prices, sizeof *m->table);
    if (r->status == VH_NO_MEMORY)
        return;
    for (size_t i = 0; i < goods->prices; i++)
        vh_keys_read_item(r, &vh_price_keys, given, i, &goods->price[i]);
    lay_prices(r, goods);
    for (size_t i = 0; i < h->plantings && r->status != VH_NO_MEMORY; i++) {
        const size_t price = goods->price_of[i];
        const bool alone = price < goods->prices && goods->price[price].planting.at;
        const size_t so_far = alone ? m->goods : good_so_far(h, goods, i);
        m->good_of[i] = so_far;
        if (so_far == m->goods)
            add_good(r, goods, i);
        m->good[so_far].plantings++;
    }
    if (r->status != VH_NO_MEMORY)
        list_by_good(r, h);
}
