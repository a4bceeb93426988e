#include "vh_offer.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static bool is_all(const char *name)
{
    return !strncmp(name, "all ", 4);
}

/* The crop of a planting of the summary, "" where there is none of that name. */
static const char *crop_of(const struct vh_page *p, const char *planting)
{
    const int row = vh_page_planting(p, planting);

    return row < 0 ? "" : vh_cell_text(vh_page_table(p, "summary"), (size_t)row, "crop");
}

static bool by_piece(const struct vh_page *p, const char *name)
{
    if (!is_all(name))
        return vh_page_by_piece(p, name);
    for (int i = 0; i < p->plantings; i++)
        if (!strcmp(crop_of(p, p->planting[i]), name + 4))
            return vh_page_by_piece(p, p->planting[i]);
    return false;
}

/* A number of the summary, of the first planting that is sold as this good; NaN: not given. */
static double of_first(const struct vh_page *p, const char *name, const char *column)
{
    const struct vh_table *t = vh_page_table(p, "summary");

    for (size_t i = 0; i < vh_table_rows(t); i++)
        if (is_all(name) ? !strcmp(vh_cell_text(t, i, "crop"), name + 4)
                         : !strcmp(vh_cell_text(t, i, "planting"), name))
            return vh_cell_number(t, i, column);
    return (double)NAN;
}

/* What sells in a day at full price beside the orders. */
static double sells_of(const struct vh_page *p, const char *name, bool pieces)
{
    return pieces ? of_first(p, name, "sells_fruits")
                  : vh_page_weight(p, of_first(p, name, "sells_kg"));
}

static double pack_of(const struct vh_page *p, const char *name, bool pieces)
{
    const double kg_per_g = 1e-3;

    return pieces ? of_first(p, name, "pack_fruits") : of_first(p, name, "pack_g") * kg_per_g;
}

static bool is_good_row(const struct vh_table *t, size_t row)
{
    return !strcmp(vh_cell_text(t, row, "grade"), "all") || !vh_cell_text(t, row, "grade")[0];
}

/* Has the table a row of all plantings of the crop? The page knows the crop of so many plantings
 * only: together[] remembers what was asked of each, 0 nothing yet. */
static bool is_sold_together(const struct vh_page *p, const struct vh_table *t,
                             const char *planting, signed char together[VH_PAGE_PLANTINGS_MOST])
{
    const int k = vh_page_planting(p, planting);
    const char *crop = k < 0 ? "" : crop_of(p, planting);

    if (!crop[0])
        return false;
    for (size_t i = 0; i < vh_table_rows(t) && together[k] == 0; i++) {
        const char *other = vh_cell_text(t, i, "planting");
        if (is_all(other) && !strcmp(other + 4, crop))
            together[k] = 1;
    }
    together[k] = together[k] == 1 ? 1 : -1;
    return together[k] == 1;
}

void vh_goods_read(const struct vh_page *p, const struct vh_table *t, struct vh_goods *g)
{
    signed char together[VH_PAGE_PLANTINGS_MOST] = {0};

    g->n = 0;
    for (size_t i = 0; i < vh_table_rows(t) && g->n < VH_GOODS_MOST; i++) {
        const char *name = vh_cell_text(t, i, "planting");
        bool known = !is_good_row(t, i);
        for (int k = 0; k < g->n && !known; k++)
            known = !strcmp(g->good[k].name, name);
        known = known || (!is_all(name) && is_sold_together(p, t, name, together));
        if (known)
            continue;
        struct vh_good *good = &g->good[g->n++];
        *good = (struct vh_good){.name = name, .pieces = by_piece(p, name)};
        good->pack = pack_of(p, name, good->pieces);
        good->sells = sells_of(p, name, good->pieces);
        if (is_all(name))
            vh_say_crop(name + 4, good->shown);
        else
            snprintf(good->shown, sizeof good->shown, "%.60s", name);
    }
}

static double amount(const struct vh_page *p, const struct vh_table *t, size_t row, bool pieces,
                     const char *stem, const char *suffix)
{
    char column[60];

    snprintf(column, sizeof column, "%s%s%s", stem, pieces ? "fruits" : "kg", suffix);
    const double value = vh_cell_number(t, row, column);
    return pieces ? value : vh_page_weight(p, value);
}

bool vh_offer_read(const struct vh_page *p, const struct vh_good *g, double day, struct vh_offer *o)
{
    const struct vh_table *t = vh_page_table(p, "market_days");

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (vh_cell_number(t, i, "date") != day || !is_good_row(t, i) ||
            strcmp(vh_cell_text(t, i, "planting"), g->name) != 0)
            continue;
        o->likely = amount(p, t, i, g->pieces, "", "_p50");
        if (isnan(o->likely))
            o->likely = amount(p, t, i, g->pieces, "", "");
        o->low = amount(p, t, i, g->pieces, "", "_p10");
        o->high = amount(p, t, i, g->pieces, "", "_p90");
        o->safe = vh_safe_amount(amount(p, t, i, g->pieces, "promise_", ""), g->pieces);
        o->ordered = vh_said_amount(amount(p, t, i, g->pieces, "orders_", ""), g->pieces);
        o->short_chance = vh_cell_number(t, i, "short_chance");
        o->promise = vh_cell_number(t, i, g->pieces ? "promise_fruits" : "promise_kg");
        return true;
    }
    *o = (struct vh_offer){(double)NAN, (double)NAN, (double)NAN, (double)NAN,
                           (double)NAN, (double)NAN, (double)NAN};
    return false;
}

double vh_market_after(const struct vh_page *p, double after)
{
    const struct vh_table *t = vh_page_table(p, "market_days");
    double first = (double)INFINITY;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date");
        if (day > after)
            first = fmin(first, day);
    }
    return isfinite(first) ? first : (double)NAN;
}

double vh_market_before(const struct vh_page *p, double before)
{
    const struct vh_table *t = vh_page_table(p, "market_days");
    double last = -(double)INFINITY;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date");
        if (day < before)
            last = fmax(last, day);
    }
    return isfinite(last) ? last : (double)NAN;
}

void vh_good_say(const struct vh_good *g, double value, char *said)
{
    vh_say_much(value, g->pieces, said);
}

const char *vh_market_weekday(double day)
{
    static const char *const name[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                       "Friday", "Saturday", "Sunday"};

    return name[vh_date_weekday((int64_t)day)];
}

void vh_market_say_day(double day, char *said)
{
    char date[VH_SAY_ROOM];

    vh_say_date(day, date);
    snprintf(said, VH_SAY_ROOM, "%s %.40s", vh_market_weekday(day), date);
}

const char *vh_good_unit(const struct vh_page *p, const struct vh_good *g)
{
    return g->pieces ? "" : vh_page_weight_unit(p);
}

double vh_good_beyond(const struct vh_good *g, double free)
{
    char said[VH_SAY_ROOM];

    if (!(free > g->sells))
        return 0.0;
    const double beyond = vh_left_amount(free, g->sells, g->pieces);
    vh_good_say(g, beyond, said);
    return vh_say_is_none(said) ? 0.0 : beyond;
}

double vh_offer_free(const struct vh_offer *o)
{
    return (isfinite(o->safe) ? o->safe : o->likely) - (o->ordered > 0.0 ? o->ordered : 0.0);
}

/* "Saturday: safe 21 kg, 6.8 ordered, 14 stall" */
static void add_day_words(const struct vh_page *p, const struct vh_good *good, double day,
                          const struct vh_offer *o, char *words, size_t room)
{
    char said[VH_SAY_ROOM], stall[VH_SAY_ROOM];

    vh_market_say_day(day, said);
    snprintf(words, room, "%s%s%s: ", day < (double)p->today + 7.0 ? vh_market_weekday(day) : said,
             is_all(good->name) ? ", all " : "", is_all(good->name) ? good->shown : "");
    const bool is_safe = isfinite(o->safe);
    vh_good_say(good, is_safe ? o->safe : o->likely, said);
    snprintf(words + strlen(words), room - strlen(words), "%s %s%s%s", is_safe ? "safe" : "likely",
             said, good->pieces ? "" : " ", vh_good_unit(p, good));
    vh_say_packs(o->promise, good->pack, said);
    if (is_safe && said[0])
        snprintf(words + strlen(words), room - strlen(words), " (%s)", said);
    vh_good_say(good, o->ordered, said);
    if (o->ordered > 0.0)
        snprintf(words + strlen(words), room - strlen(words), ", %s ordered", said);
    if (!is_safe)
        return;
    vh_offer_say_short(o, said);
    snprintf(words + strlen(words), room - strlen(words), "%s", said);
    const double free = fmax(0.0, vh_left_amount(o->safe, o->ordered > 0.0 ? o->ordered : 0.0,
                                                 good->pieces)),
                 beyond = vh_good_beyond(good, free);
    vh_good_say(good, beyond > 0.0 ? good->sells : free, stall);
    vh_good_say(good, beyond, said);
    if (free > 0.0 && (o->ordered > 0.0 || beyond > 0.0))
        snprintf(words + strlen(words), room - strlen(words), ", %s stall%s%s%s", stall,
                 beyond > 0.0 ? ", " : "", beyond > 0.0 ? said : "",
                 beyond > 0.0 ? " more than sells" : "");
}

void vh_offer_say_short(const struct vh_offer *o, char said[VH_SAY_ROOM])
{
    said[0] = 0;
    if (o->ordered > o->safe && o->short_chance > 0.0)
        snprintf(said, VH_SAY_ROOM, ", short in %.0f of 10",
                 fmax(1.0, round(10.0 * o->short_chance)));
}

void vh_market_words(const struct vh_page *p, const char *planting, char *words, size_t room)
{
    const struct vh_table *t = vh_page_table(p, "market_days");
    const double first = t ? vh_market_after(p, (double)p->today - 1.0) : (double)NAN;
    const double week_d = 7.0, even = 0.5;
    const char *crop = crop_of(p, planting);
    struct vh_goods g;
    struct vh_offer o;
    int k = 0;

    words[0] = 0;
    if (!isfinite(first))
        return;
    vh_goods_read(p, t, &g);
    while (k < g.n && strcmp(g.good[k].name, planting) != 0 &&
           !(is_all(g.good[k].name) && !strcmp(g.good[k].name + 4, crop)))
        k++;
    if (k == g.n)
        return;
    for (double day = first; day == first || day < (double)p->today + week_d;
         day = vh_market_after(p, day)) {
        const bool is_told =
            vh_offer_read(p, &g.good[k], day, &o) && (day == first || o.short_chance > even);
        if (is_told && words[0])
            snprintf(words + strlen(words), room - strlen(words), "; ");
        if (is_told)
            add_day_words(p, &g.good[k], day, &o, words + strlen(words), room - strlen(words));
    }
}
