/* explain DATE: from the picks to what lies on the table of a market day. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "chain_parts.h"
#include "vh_date.h"
#include "vh_math.h"

#define G_PER_KG 1000.0

static void add(struct vh_chain *c, const char *part, const char *what, double value,
                const char *unit, const char *equation, const char *worked)
{
    vh_chain_add(c, &(struct vh_step){part, what, value, VH_UNKNOWN, unit, equation, worked, ""});
}

/* ---- one planting ---- */

struct sums {
    double fruits, kg, sound_kg, table_kg;
    double early_kg;
    double written_kg, model_kg; /* of the days that the records tell of; NaN: there are none */
};

static void add_to(double *sum, double value)
{
    *sum = (isnan(*sum) ? 0.0 : *sum) + value;
}

static void add_pick(struct vh_chain *c, const struct vh_chain_run *w, size_t planting, size_t d,
                     const struct vh_harvest_day *harvest, struct sums *sum)
{
    const struct vh_season *s = &w->run->season[planting];
    const struct vh_season_day *day = &s->day[d];
    const double stray = w->stray[planting][d], for_sale = w->run->marketable[planting];
    const struct vh_chain_pick pick = {
        .planting = s->planting->name,
        .on = s->first_day + (int64_t)d,
        .stage = VH_UNKNOWN,
        .ripe_share = VH_UNKNOWN,
        .fruits_stem = day->picked.fruits / stray,
        .dm_g = day->picked.dm_g / day->picked.fruits,
        .mean_c = VH_UNKNOWN,
        .dm_content = day->picked.dm_g / day->picked.fresh_g,
        .fruit_g = day->picked.fresh_g / day->picked.fruits,
        .stems = day->stems,
        .fruits = day->picked.fruits * day->stems,
        .kg = day->picked.fresh_g * day->stems / G_PER_KG,
        .stray = stray,
        .for_sale = for_sale,
        .written = harvest->written,
        .counts = harvest->picked,
    };
    const double left = vh_chain_add_pick(c, w->run->house, s, d, &pick);

    sum->fruits += harvest->picked.fruits;
    sum->kg += harvest->picked.kg;
    sum->early_kg += harvest->picked.kg * day->early;
    sum->sound_kg += harvest->picked.kg * vh_marketable_frac(w->run->house, s, d, for_sale);
    if (harvest->written) {
        add_to(&sum->written_kg, harvest->picked.kg);
        add_to(&sum->model_kg, pick.kg);
    }
    sum->table_kg += isnan(left) ? 0.0 : left;
}

/* The number of the futures' table beside it. here_kg: of the average plants. */
static void add_futures(struct vh_chain *c, const struct vh_chain_run *w, const char *part,
                        int64_t date, const char *planting, double here_kg, bool counted)
{
    const struct vh_result *r = w->result;
    const struct {
        const char *column, *what, *unit;
        bool counted;
    } row[] = {
        {"kg", "mean of the futures", "kg", false},
        {"kg_p10", "one future in ten has less than", "kg", false},
        {"kg_p50", "half of them have less than", "kg", false},
        {"kg_p90", "nine in ten have less than", "kg", false},
        {"promise_kg",
         date < w->run->house->today ? "would have been safe to promise" : "safe to promise", "kg",
         false},
        {"fruits", "fruits in the mean of the futures", "", true},
        {"fruits_p10", "fruits: one future in ten has less than", "", true},
        {"fruits_p50", "fruits: half of them have less than", "", true},
        {"fruits_p90", "fruits: nine in ten have less than", "", true},
        {"promise_fruits",
         date < w->run->house->today ? "fruits that would have been safe to promise"
                                     : "fruits safe to promise",
         "", true},
        {"orders_kg", "ordered", "kg", false},
        {"orders_fruits", "fruits ordered", "", false},
        {"short_chance", "chance that orders cannot be filled", "", false},
        {"beyond_sales_kg", "beyond orders and what sells", "kg", false},
        {"lost_in_store_kg", "lost in store", "kg", false},
    };
    const struct vh_table *t = r ? vh_result_table_named(r, "market_days") : NULL;
    const bool has_futures = t && vh_table_find(t, "kg_p50") >= 0;

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        if (vh_table_number(t, i, (size_t)vh_table_find(t, "date")) != (double)date ||
            strcmp(vh_table_text(t, i, (size_t)vh_table_find(t, "planting")), planting) != 0 ||
            strcmp(vh_table_text(t, i, (size_t)vh_table_find(t, "grade")), "all") != 0)
            continue;
        for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
            const int column = vh_table_find(t, row[k].column);
            const double value = column < 0 ? VH_UNKNOWN : vh_table_number(t, i, (size_t)column);
            if (isnan(value) || (row[k].counted && !counted))
                continue;
            add(c, part, has_futures || k ? row[k].what : "in market_days.csv", value, row[k].unit,
                k ? "" : "market_days.csv, grade all", "");
            if (k == 0 && has_futures)
                add(c, part, "of it by their spread", value - here_kg, row[k].unit,
                    "what the futures have above the average plants", "");
        }
    }
}

/* What is on the table by grade. */
static void add_grades(struct vh_chain *c, const char *part, const struct vh_good *good,
                       const struct vh_sale *sale)
{
    for (size_t i = 0; good->grades && i <= good->grades->grades; i++) {
        const bool is_grade = i < good->grades->grades;
        if (is_grade || sale->part[i].kg > 0.0)
            add(c, part, is_grade ? good->grades->grade[i].name : "no grade", sale->part[i].kg,
                "kg", i ? "" : "share of each pick by size, log-normal about its mean fruit", "");
    }
}

static enum vh_status add_planting(struct vh_chain *c, const struct vh_chain_run *w,
                                   size_t planting, size_t day, const struct vh_harvest *harvest,
                                   double *table)
{
    const struct vh_house *h = w->run->house;
    const struct vh_market *m = &h->market;
    const struct vh_season *s = &w->run->season[planting];
    const char *name = s->planting->name;
    const bool counted = vh_house_counts(h, s->planting);
    const int64_t after = day ? m->day[day - 1] : INT64_MIN, until = m->day[day];
    struct sums sum = {.written_kg = VH_UNKNOWN, .model_kg = VH_UNKNOWN};
    struct vh_lots lots;
    struct vh_sale sale;
    char worked[VH_CHAIN_TEXT];

    vh_chain_use(c, s->planting);
    for (size_t d = 0; d < s->days; d++) {
        const int64_t on = s->first_day + (int64_t)d;
        if (on > after && on <= until &&
            (harvest->day[d].picked.kg > 0.0 ||
             (s->day[d].pick_day && s->day[d].picked.fresh_g > 0.0)))
            add_pick(c, w, planting, d, &harvest->day[d], &sum);
    }
    const enum vh_status status = vh_lots_of(w->run, planting, &lots);
    if (status == VH_OK)
        vh_sale_of(w->run, &lots, planting, day, &sale);
    vh_lots_clear(&lots);
    if (status != VH_OK)
        return status;
    vh_chain_add_learnt(c, w, planting, name);
    add(c, name, "picked for this day", sum.kg, "kg",
        "sum of the picks since the market day before", "");
    if (counted)
        add(c, name, "fruits picked for this day", sum.fruits, "", "the same, as they are counted",
            "");
    if (sum.early_kg > 0.0)
        add(c, name, "of it by the last pick alone", sum.early_kg, "kg",
            s->planting->policy.last_colour
                ? "what is not yet of the colour of other picks goes on the day of pull_out, from"
                  " planting.pick.last_stage on"
                : "what is lighter than other picks are goes on the day of pull_out, from"
                  " planting.pick.last_from_g on",
            "");
    snprintf(worked, sizeof worked, "in place of %.4g kg by the model", sum.model_kg);
    if (!isnan(sum.written_kg))
        add(c, name, "of it written down", sum.written_kg, "kg",
            "an entry stands for what was taken off since the one before it", worked);
    if (!(sum.early_kg > 0.0))
        vh_chain_add_small(c, s->planting, name, sum.kg * G_PER_KG / sum.fruits);
    vh_chain_add(c,
                 &(struct vh_step){
                     name, "that can be sold", sum.sound_kg, VH_UNKNOWN, "kg",
                     "each pick x (1 - cracked)(1 - misshapen)(1 - end rot)(1 - over-ripe)"
                     "(1 - too large) x share for sale, as learnt",
                     "", "spoil.crack_share spoil.misshapen_share spoil.rot_share spoil.hang_d"});
    vh_chain_add(c, &(struct vh_step){name, "left after the store", sum.table_kg, VH_UNKNOWN, "kg",
                                      "each pick x (1 - lost)", "",
                                      "store.life_d store.life_cv store.q10 store.chill_c"});
    add_grades(c, name, &m->good[m->good_of[planting]], &sale);
    if (m->good[m->good_of[planting]].grades)
        add(c, name, "on the table", sale.all.kg, "kg", "sum of the grades", "");
    if (counted)
        add(c, name, "fruits left after the store", sale.all.fruits, "",
            "each pick the same shares of its fruits", "");
    add_futures(c, w, name, until, name, sale.all.kg, counted);
    *table = sale.all.kg;
    return VH_OK;
}

/* ---- all ---- */

static enum vh_status no_day(const struct vh_house *h, int64_t date, struct vh_messages *m)
{
    const struct vh_place nowhere = {NULL, 0, 0, NULL};
    const struct vh_market *market = &h->market;
    char asked[11], near[11];
    size_t next = 0;

    vh_date_format(date, asked);
    if (!market->given || market->days == 0)
        return vh_fail(m, VH_BAD_INPUT, nowhere,
                       "%s: the scenario has no market days; give [market] days = [\"sat\"]",
                       asked);
    while (next + 1 < market->days && market->day[next] < date)
        next++;
    vh_date_format(market->day[next], near);
    return vh_fail(m, VH_BAD_INPUT, nowhere, "%s is no market day; the %s is %s", asked,
                   market->day[next] >= date ? "next" : "last", near);
}

static enum vh_status fill(struct vh_chain *c, const struct vh_chain_run *w, size_t day)
{
    const struct vh_house *h = w->run->house;
    enum vh_status status = VH_OK;
    double *table = calloc(h->plantings + 1, sizeof *table);
    struct vh_harvest *harvest = vh_harvests_of(h, w->run->season);
    char name[VH_CHAIN_TEXT];

    if (!table || !harvest)
        status = VH_NO_MEMORY;
    for (size_t k = 0; k < h->plantings && status == VH_OK; k++)
        if (vh_sale_is_of(h, k, day))
            status = add_planting(c, w, k, day, &harvest[k], &table[k]);
    for (size_t g = 0; status == VH_OK && g < h->market.goods; g++) {
        double here_kg = 0.0;
        bool counted = false;
        if (h->market.good[g].plantings < 2)
            continue;
        for (size_t k = 0; k < h->plantings; k++)
            if (h->market.good_of[k] == g) {
                here_kg += table[k];
                counted = vh_house_counts(h, &h->planting[k]);
            }
        snprintf(name, sizeof name, "all %.190s", h->market.good[g].name);
        add_futures(c, w, name, h->market.day[day], name, here_kg, counted);
    }
    vh_harvests_free(harvest, h->plantings);
    free(table);
    return status == VH_OK ? c->status : status;
}

enum vh_status vh_chain_of_market_day(const struct vh_chain_run *run, int64_t date,
                                      struct vh_chain **out, struct vh_messages *m)
{
    const struct vh_house *h = run->run->house;
    const struct vh_market *market = &h->market;
    size_t day = 0;

    while (market->given && day < market->days && market->day[day] != date)
        day++;
    if (!market->given || day == market->days)
        return no_day(h, date, m);
    struct vh_chain *c = vh_chain_create(run->run->scenario);
    const enum vh_status status = c ? fill(c, run, day) : VH_NO_MEMORY;
    if (status == VH_OK)
        *out = c;
    else
        vh_chain_free(c);
    return status;
}
