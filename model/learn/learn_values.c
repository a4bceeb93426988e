/* What the records say that a season can be asked for. */
#include <math.h>
#include <stdlib.h>

#include "learn_parts.h"
#include "vh_math.h"

#define G_PER_KG 1000.0
#define DAYS_PER_WEEK 7

bool vh_learn_can_tell(enum vh_record_item item)
{
    switch (item) {
    case VH_RECORD_PICKED_KG:
    case VH_RECORD_PICKED_FRUITS:
    case VH_RECORD_UNMARKETABLE_KG:
    case VH_RECORD_FRUIT_G:
    case VH_RECORD_FLOWERING_TRUSS:
    case VH_RECORD_PICKING_TRUSS:
    case VH_RECORD_FRUITS_SET:
    case VH_RECORD_BREAKER_FRUITS:
    case VH_RECORD_TURNING_FRUITS:
    case VH_RECORD_FRUIT_MM:
    case VH_RECORD_LEAVES_ON_STEM:
    case VH_RECORD_LEAVES_MADE:
    case VH_RECORD_STEM_CM:
    case VH_RECORD_STEM_GROWTH_CM:
    case VH_RECORD_FLOWER_TO_PICK_D:
    case VH_RECORD_PULLED_SUCKER_CM:
        return true;
    case VH_RECORD_ROT_KG:        /* a part of what cannot be sold */
    case VH_RECORD_FRUITS_LEFT:   /* the season does as it says */
    case VH_RECORD_STEM_MM:       /* nothing stands for it */
    case VH_RECORD_LOWERED_CM:    /* the season does as it says */
    case VH_RECORD_STRING_LEFT_M: /* counted from the stock */
    case VH_RECORD_PLANTS_LOST:
    case VH_RECORD_SOLD_KG:
    case VH_RECORD_LEFT_KG:
    case VH_RECORD_MINUTES:
    case VH_RECORD_DONE:
    case VH_RECORD_ITEMS:
        break;
    }
    return false;
}

/* ---- picks ---- */

static bool is_same_kind(const struct vh_record_picks *a, const struct vh_record_picks *b)
{
    return isnan(a->kg) == isnan(b->kg) && isnan(a->fruits) == isnan(b->fruits) &&
           a->kg_doubt == b->kg_doubt && a->fruits_doubt == b->fruits_doubt && a->gap == b->gap &&
           a->until + 1 == b->from;
}

static double pick_sd(const struct vh_record_params *p, const struct vh_record_picks *a,
                      enum vh_record_item item)
{
    const bool weighed = item == VH_RECORD_PICKED_KG;
    const struct vh_record r = {
        .item = item, .value = weighed ? a->kg : a->fruits, .doubt = a->gap};
    return vh_record_sd(p, &r);
}

/* Nothing is learnt of a doubted pick until it is mended: beside the error of the model from week
 * to week a wider one of its own changes little, and 2.2 times as much would be half believed. */
static struct vh_record_picks believed(struct vh_record_picks a)
{
    a.kg = a.kg_doubt ? VH_UNKNOWN : a.kg;
    a.fruits = a.fruits_doubt ? VH_UNKNOWN : a.fruits;
    return a;
}

/* Where both were noted, the number and the mass of one fruit: the kilograms would say the number
 * once more. */
static size_t add_pick(const struct vh_record_params *p, const struct vh_record_picks *a,
                       size_t planting, struct vh_learn_value *out)
{
    struct vh_learn_value v = {
        planting, VH_RECORD_PICKED_KG, 0, a->from, a->until, VH_LEARN_NONE, a->kg, 0.0, 0.0};
    size_t n = 0;

    if (isnan(a->fruits) && isnan(a->kg))
        return n;
    if (isnan(a->fruits)) {
        v.entry_sd = pick_sd(p, a, VH_RECORD_PICKED_KG);
        out[n++] = v;
        return n;
    }
    v.item = VH_RECORD_PICKED_FRUITS;
    v.value = a->fruits;
    v.entry_sd = pick_sd(p, a, VH_RECORD_PICKED_FRUITS);
    out[n++] = v;
    if (isnan(a->kg) || a->kg <= 0.0 || a->fruits <= 0.0)
        return n;
    const double kg_share = pick_sd(p, a, VH_RECORD_PICKED_KG) / a->kg,
                 fruits_share = v.entry_sd / a->fruits;
    v.item = VH_RECORD_FRUIT_G;
    v.value = a->kg * G_PER_KG / a->fruits;
    v.entry_sd = v.value * sqrt(kg_share * kg_share + fruits_share * fruits_share);
    out[n++] = v;
    return n;
}

/* Picks that lie closer than least_pick_d are taken together. */
static void add_picks(const struct vh_record_params *p, const struct vh_record_picks *picks,
                      size_t n, size_t as, struct vh_learn_past *past)
{
    for (size_t i = 0; i < n; i++) {
        struct vh_record_picks a = believed(picks[i]);
        for (; i + 1 < n && (double)(a.until - a.from + 1) < p->least_pick_d &&
               is_same_kind(&a, &picks[i + 1]);
             i++) {
            a.until = picks[i + 1].until;
            a.kg += picks[i + 1].kg;
            a.fruits += picks[i + 1].fruits;
        }
        past->values += add_pick(p, &a, as, past->value + past->values);
    }
}

/* ---- all others ---- */

/* Days since the last entry of that item; a week where there is none. */
static int64_t days_since_last(const struct vh_records *r, size_t row)
{
    const struct vh_record *a = &r->row[row];

    for (size_t i = row; i-- > 0;) {
        const struct vh_record *b = &r->row[i];
        if (b->planting == a->planting && b->item == a->item && b->day < a->day)
            return a->day - b->day;
    }
    return DAYS_PER_WEEK;
}

static bool needs_look(enum vh_record_item item)
{
    return item == VH_RECORD_FRUITS_SET || item == VH_RECORD_BREAKER_FRUITS ||
           item == VH_RECORD_TURNING_FRUITS || item == VH_RECORD_FRUIT_MM ||
           item == VH_RECORD_FLOWER_TO_PICK_D;
}

/* Thrown away of that day's pick, and so a share of what the entry of the pick stands for; without
 * one since the last such entry. */
static void set_thrown(const struct vh_records *r, size_t row, const struct vh_record_picks *picks,
                       size_t n, struct vh_learn_value *v)
{
    v->from = v->until - days_since_last(r, row) + 1;
    for (size_t i = 0; i < n; i++)
        if (picks[i].until == v->until) {
            v->from = picks[i].stands_from;
            v->of_kg = picks[i].kg > 0.0 && !picks[i].kg_doubt ? picks[i].kg : 0.0;
        }
}

static void add_row(const struct vh_scenario *s, size_t row, size_t as,
                    const struct vh_record_picks *picks, size_t n, struct vh_learn_past *past)
{
    const struct vh_records *r = &s->house.records;
    const struct vh_record *a = &r->row[row];
    struct vh_learn_value v = {as,       a->item, a->truss, a->day, a->day, VH_LEARN_NONE,
                               a->value, 0.0,     0.0};

    v.entry_sd = vh_record_sd(&s->parameters->record, a);
    if (a->item == VH_RECORD_STEM_GROWTH_CM)
        v.from = a->day - days_since_last(r, row);
    if (a->item == VH_RECORD_UNMARKETABLE_KG)
        set_thrown(r, row, picks, n, &v);
    if (a->item == VH_RECORD_FRUIT_G || a->item == VH_RECORD_PULLED_SUCKER_CM)
        v.from = a->day - DAYS_PER_WEEK + 1;
    past->value[past->values++] = v;
}

static enum vh_status add_planting(const struct vh_scenario *s, size_t planting,
                                   struct vh_learn_past *past)
{
    const struct vh_records *r = &s->house.records;
    const size_t as = past->scenario.house.plantings, before = past->values;
    struct vh_record_picks *picks = NULL;
    size_t n = 0;
    const enum vh_status status =
        vh_record_picks_of(r, planting, s->house.planting[planting].set_out, &picks, &n);

    if (status != VH_OK)
        return status;
    add_picks(&s->parameters->record, picks, n, as, past);
    for (size_t i = 0; i < r->rows; i++)
        if (r->row[i].planting == planting && !vh_record_is_pick(r->row[i].item) &&
            vh_learn_can_tell(r->row[i].item))
            add_row(s, i, as, picks, n, past);
    free(picks);
    if (past->values == before)
        return VH_OK;
    past->planting[as] = s->house.planting[planting];
    past->of[as] = planting;
    past->scenario.house.plantings++;
    return VH_OK;
}

/* The days on which the trusses themselves are asked, rising. */
static enum vh_status plan_looks(struct vh_learn_past *past, size_t as)
{
    struct vh_planting *p = &past->planting[as];
    int64_t *day = calloc(past->values + 1, sizeof *day);

    past->look[as] = day;
    if (!day)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < past->values; i++) {
        struct vh_learn_value *v = &past->value[i];
        if (v->planting != as || !needs_look(v->item))
            continue;
        v->look = 0;
        while (v->look < p->looks && day[v->look] != v->until)
            v->look++;
        if (v->look == p->looks)
            day[p->looks++] = v->until;
    }
    p->look = day;
    return VH_OK;
}

static void cut_days(struct vh_learn_past *past)
{
    struct vh_house *h = &past->scenario.house;
    int64_t last = INT64_MIN;

    for (size_t i = 0; i < past->values; i++)
        last = past->value[i].until > last ? past->value[i].until : last;
    last++; /* on its last day a season is cleared of all that is ripe */
    for (size_t k = 0; k < h->plantings; k++)
        if (past->planting[k].pull_out > last)
            past->planting[k].pull_out = last;
    if ((int64_t)h->climate.days > last - h->climate.first_day + 1)
        h->climate.days = (size_t)(last - h->climate.first_day + 1);
}

enum vh_status vh_learn_past_init(const struct vh_scenario *s, struct vh_learn_past *past)
{
    const size_t n = s->house.plantings + 1;
    enum vh_status status = VH_OK;

    *past = (struct vh_learn_past){.scenario = *s};
    past->scenario.posterior = NULL; /* learning starts from the book */
    past->scenario.house.plantings = 0;
    past->planting = calloc(n, sizeof *past->planting);
    past->of = calloc(n, sizeof *past->of);
    past->look = calloc(n, sizeof *past->look);
    past->value = calloc(2 * s->house.records.rows + 1, sizeof *past->value);
    past->scenario.house.planting = past->planting;
    if (!past->planting || !past->of || !past->look || !past->value)
        return VH_NO_MEMORY;
    for (size_t k = 0; k < s->house.plantings && status == VH_OK; k++)
        status = add_planting(s, k, past);
    for (size_t k = 0; k < past->scenario.house.plantings && status == VH_OK; k++)
        status = plan_looks(past, k);
    if (status == VH_OK && past->values > 0)
        cut_days(past);
    return status;
}

void vh_learn_past_clear(struct vh_learn_past *past)
{
    for (size_t k = 0; past->look && k < past->scenario.house.plantings; k++)
        free(past->look[k]);
    free(past->look);
    free(past->planting);
    free(past->of);
    free(past->value);
    *past = (struct vh_learn_past){.values = 0};
}
