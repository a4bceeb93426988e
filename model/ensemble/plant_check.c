/* The ten-minute plant check: what counts on a few stems should give this week, and between what
 * they usually lie. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "vh_due.h"
#include "vh_math.h"
#include "vh_name_index.h"
#include "vh_plant_check.h"
#include "vh_table.h"

#define TENTH 1.2815515655446004 /* standard deviations to the 10th and the 90th percentile */

#define DAYS_PER_WEEK 7

enum { PLANTING, ITEM, TRUSS, STEMS, UNIT, EXPECT, LOW, HIGH, IF_LOWER, IF_HIGHER };

/* A number of a result table, with what one future in ten lies below and above, if many were run.
 */
struct foreseen {
    double value, low, high;
};

static double cell(const struct vh_table *t, size_t row, const char *name, const char *more)
{
    char column[64];
    int at;

    snprintf(column, sizeof column, "%.50s%.8s", name, more);
    at = vh_table_find(t, column);
    return at < 0 ? VH_UNKNOWN : vh_table_number(t, row, (size_t)at);
}

static struct foreseen foreseen(const struct vh_table *t, size_t row, const char *name)
{
    return (struct foreseen){cell(t, row, name, ""), cell(t, row, name, "_p10"),
                             cell(t, row, name, "_p90")};
}

/* By the clock, as it is counted. */
static struct foreseen counted_truss(struct foreseen f)
{
    return (struct foreseen){vh_record_counted_truss(f.value), vh_record_counted_truss(f.low),
                             vh_record_counted_truss(f.high)};
}

/* Which mechanism differs where a count lies outside its range, and what she may change. */
struct words {
    const char *unit, *if_lower, *if_higher;
};

static struct words words_of(enum vh_record_item item)
{
    if (item == VH_RECORD_FLOWERING_TRUSS)
        return (struct words){"1",
                              "cooler at the heads than by the thermometer, or a slower variety;"
                              " hang it at the heads, a warmer day brings flowers sooner",
                              "warmer at the heads than by the thermometer; picks come sooner too"};
    if (item == VH_RECORD_STEM_GROWTH_CM)
        return (struct words){"cm",
                              "cold days, warm nights or too many fruits; warm the day over the"
                              " night, leave fewer fruits",
                              "dull and warm, or crowded; lower more often, keep it cooler by day"};
    if (item == VH_RECORD_STEM_MM)
        return (struct words){
            "mm", "more hangs than the light feeds; leave fewer fruits, keep it cooler",
            "leaves get what fruit should; see that flowers set, leave more fruits"};
    if (item == VH_RECORD_LEAVES_ON_STEM)
        return (struct words){"1", "more came off than planned; leave one leafing out",
                              "a leafing was missed; catch up over two visits"};
    if (item == VH_RECORD_FRUITS_LEFT)
        return (struct words){
            "1", "fewer set, or more came off than planned; note it",
            "fewer came off than planned; take them off now, or fruit stays small"};
    return (struct words){
        "1", "flowers too hot, too cold or not reached; see to bees, tapping and shade",
        "more to take off; thin at pea size, or fruit stays small"};
}

static double spread(double tenth, double count)
{
    return sqrt(tenth * tenth + count * count);
}

/* The futures' spread and that of a count on so many stems, taken together. */
static enum vh_status add(struct vh_table *t, const struct vh_record_params *p,
                          const char *planting, enum vh_record_item item, double truss,
                          struct foreseen f)
{
    const struct vh_record entry = {.item = item, .value = f.value};
    const double count = TENTH * vh_record_sd(p, &entry);
    const double below = isnan(f.low) ? 0.0 : f.value - f.low,
                 above = isnan(f.high) ? 0.0 : f.high - f.value;
    const struct words words = words_of(item);

    if (isnan(f.value))
        return VH_OK;
    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, PLANTING, planting) != VH_OK ||
        vh_table_set_text(t, ITEM, vh_record_item_name(item)) != VH_OK ||
        vh_table_set_text(t, UNIT, words.unit) != VH_OK ||
        vh_table_set_text(t, IF_LOWER, words.if_lower) != VH_OK ||
        vh_table_set_text(t, IF_HIGHER, words.if_higher) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, TRUSS, truss);
    vh_table_set_number(t, STEMS, p->stems_silent);
    vh_table_set_number(t, EXPECT, f.value);
    vh_table_set_number(t, LOW, vh_max(0.0, f.value - spread(below, count)));
    vh_table_set_number(t, HIGH, f.value + spread(above, count));
    return VH_OK;
}

/* Rows that tell of a planting; NO_ROW: none. */
struct rows {
    size_t summary;
    size_t stem;  /* of today */
    size_t thin;  /* of the next truss that is thinned this week: all that set hangs on it */
    size_t truss; /* the highest whose last flower has been open for some days: what set, or what
                     was left of it, can be counted */
};
static const size_t NO_ROW = SIZE_MAX;

static size_t planting_of(const struct vh_name_index *at, const struct vh_house *h,
                          const char *name)
{
    return vh_name_index_find(at, (struct vh_named_list){h->planting, sizeof *h->planting}, name);
}

static void find_stem(const struct vh_table *t, const struct vh_name_index *at,
                      const struct vh_house *h, struct rows *rows)
{
    const size_t date = (size_t)vh_table_find(t, "date"),
                 whose = (size_t)vh_table_find(t, "planting");

    for (size_t row = vh_table_rows(t); row-- > 0;) /* the first of them holds */
        if (vh_table_number(t, row, date) == (double)h->today) {
            const size_t k = planting_of(at, h, vh_table_text(t, row, whose));
            if (k != VH_NAME_NONE)
                rows[k].stem = row;
        }
}

static void find_trusses(const struct vh_table *t, const struct vh_name_index *at,
                         const struct vh_scenario *s, struct rows *rows)
{
    const struct vh_house *h = &s->house;
    const double today = (double)h->today;
    const size_t last = (size_t)vh_table_find(t, "last_flower"),
                 thinned = (size_t)vh_table_find(t, "take_off_on"),
                 whose = (size_t)vh_table_find(t, "planting");

    for (size_t row = 0; row < vh_table_rows(t); row++) {
        const double on = vh_table_number(t, row, thinned);
        const bool is_seen =
            vh_table_number(t, row, last) <= today - s->parameters->record.set_seen_d;
        const bool is_next = on >= today && on < today + DAYS_PER_WEEK;
        const size_t k =
            is_seen || is_next ? planting_of(at, h, vh_table_text(t, row, whose)) : VH_NAME_NONE;
        if (k == VH_NAME_NONE)
            continue;
        if (is_seen)
            rows[k].truss = row;
        if (is_next && rows[k].thin == NO_ROW)
            rows[k].thin = row;
    }
}

/* Do single stems lose fruits of that truss to a rule, so that what set cannot be counted any more?
 */
static bool is_thinned(const struct vh_table *t, size_t row, const struct vh_planting *p,
                       int64_t today)
{
    const double flowers = cell(t, row, "first_flower", "");
    enum vh_thin_stage at;

    return vh_policy_takes_set_fruit(&p->policy, p->crop, (int)cell(t, row, "truss", ""),
                                     isnan(flowers) ? today : (int64_t)flowers, &at) &&
           !(cell(t, row, "take_off_on", "") > (double)today);
}

/* What set, while it hangs there; else what was left of it. */
static enum vh_status add_fruits(struct vh_table *t, const struct vh_table *trusses,
                                 const struct vh_scenario *s, const struct rows *rows,
                                 size_t planting)
{
    const struct vh_planting *p = &s->house.planting[planting];
    const size_t row = rows->thin != NO_ROW ? rows->thin : rows->truss;

    if (row == NO_ROW)
        return VH_OK;
    const bool left = row != rows->thin && is_thinned(trusses, row, p, s->house.today);
    return add(t, &s->parameters->record, p->name,
               left ? VH_RECORD_FRUITS_LEFT : VH_RECORD_FRUITS_SET, cell(trusses, row, "truss", ""),
               foreseen(trusses, row, left ? "kept" : "set"));
}

/* Nothing in the model is as thick as a stem. Her own counts of the last weeks stand for it, else
 * what the trade holds for a stem in balance; weeks of sound crops scatter about either. */
static struct foreseen stem_mm(const struct vh_scenario *s, size_t planting)
{
    const double recent_d = s->parameters->record.stem_recent_d;
    const struct vh_stem_params *stem = &s->house.planting[planting].crop->stem;
    const struct vh_records *r = &s->house.records;
    double sum = 0.0, book = stem->thick_mm > 0.0 ? stem->thick_mm : VH_UNKNOWN;
    size_t n = 0;

    for (size_t i = 0; i < r->rows; i++) {
        const struct vh_record *a = &r->row[i];
        if (a->planting != planting || a->item != VH_RECORD_STEM_MM || a->doubt ||
            a->day > s->house.today || (double)(s->house.today - a->day) >= recent_d)
            continue;
        sum += a->value;
        n++;
    }
    const double value = n > 0 ? sum / (double)n : book, wide = TENTH * stem->thick_usual_mm;
    return (struct foreseen){value, value - wide, value + wide};
}

static enum vh_status add_planting(struct vh_table *t, const struct vh_result *r,
                                   const struct vh_scenario *s, const struct rows *rows,
                                   size_t planting)
{
    const struct vh_record_params *p = &s->parameters->record;
    const struct vh_table *summary = r->table[VH_TABLE_SUMMARY],
                          *trusses = r->table[VH_TABLE_TRUSSES];
    const char *name = s->house.planting[planting].name;

    if (s->house.today >= s->house.planting[planting].pull_out)
        return VH_OK; /* nothing stands that could be counted */
    enum vh_status status = add(t, p, name, VH_RECORD_FLOWERING_TRUSS, VH_UNKNOWN,
                                counted_truss(foreseen(summary, rows->summary, "flowering_truss")));

    if (status == VH_OK)
        status = add(t, p, name, VH_RECORD_STEM_GROWTH_CM, VH_UNKNOWN,
                     foreseen(summary, rows->summary, "stem_week_cm"));
    if (status == VH_OK && s->house.today >= s->house.planting[planting].set_out)
        status = add(t, p, name, VH_RECORD_STEM_MM, VH_UNKNOWN, stem_mm(s, planting));
    if (status == VH_OK)
        status = add_fruits(t, trusses, s, rows, planting);
    if (status == VH_OK && rows->stem != NO_ROW)
        status = add(t, p, name, VH_RECORD_LEAVES_ON_STEM, VH_UNKNOWN,
                     foreseen(r->table[VH_TABLE_STEM], rows->stem, "leaves"));
    return status;
}

/* By the rows of the summary, each table walked once. */
static enum vh_status add_all(struct vh_result *r, const struct vh_scenario *s,
                              const struct vh_name_index *at, struct rows *rows)
{
    const struct vh_table *summary = r->table[VH_TABLE_SUMMARY];
    const struct vh_house *h = &s->house;
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < h->plantings; k++)
        rows[k] = (struct rows){NO_ROW, NO_ROW, NO_ROW, NO_ROW};
    find_stem(r->table[VH_TABLE_STEM], at, h, rows);
    find_trusses(r->table[VH_TABLE_TRUSSES], at, s, rows);
    for (size_t row = 0; row < vh_table_rows(summary) && status == VH_OK; row++) {
        const size_t k = planting_of(at, h, vh_cell_text(summary, row, "planting"));
        if (k == VH_NAME_NONE)
            continue;
        rows[k].summary = row;
        status = add_planting(r->table[VH_TABLE_PLANT_CHECK], r, s, &rows[k], k);
    }
    return status;
}

enum vh_status vh_plant_check_fill(struct vh_result *r, const struct vh_scenario *s)
{
    const struct vh_house *h = &s->house;
    struct rows *rows = malloc((h->plantings + 1) * sizeof *rows);
    struct vh_name_index at;
    const bool has_room = vh_name_index_of(
        &at, (struct vh_named_list){h->planting, sizeof *h->planting}, h->plantings);
    const enum vh_status status = has_room && rows ? add_all(r, s, &at, rows) : VH_NO_MEMORY;

    vh_name_index_clear(&at);
    free(rows);
    return status;
}
