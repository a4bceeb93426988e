/* Which count or weighing would tell most: futures as far as the market day, what each says of
 * every count, and what they have in common. */
#include "vh_to_measure.h"

#include <stdlib.h>

#include "learn_parts.h"
#include "vh_due.h"
#include "vh_math.h"
#include "vh_quantile.h"
#include "vh_result.h"
#include "vh_sales.h"
#include "worth.h"

#define DAYS_PER_WEEK 7

/* What one can count without having to wait, in a week without a pick as well. */
static const enum vh_record_item asked[] = {
    VH_RECORD_FLOWERING_TRUSS, VH_RECORD_PICKING_TRUSS,  VH_RECORD_FRUITS_SET,
    VH_RECORD_BREAKER_FRUITS,  VH_RECORD_TURNING_FRUITS, VH_RECORD_FRUIT_MM,
    VH_RECORD_LEAVES_ON_STEM,  VH_RECORD_STEM_GROWTH_CM, VH_RECORD_FRUIT_G,
    VH_RECORD_UNMARKETABLE_KG,
};
enum { ASKED = sizeof asked / sizeof asked[0] };

/* What is looked at before the picks of a day. */
enum { LOOK_TODAY, LOOK_LAST, LOOKS };

struct asking {
    const struct vh_scenario *scenario;
    struct vh_scenario cut, whole; /* its own but for looks; cut: no further than the last day */
    struct vh_planting *planting;  /* [2 * plantings] theirs */
    bool *wanted;                  /* [planting] stands today: no other is run */
    int64_t look[LOOKS];           /* today, and the day after the market day: the last one */
    int64_t today, day;            /* the market day */
    size_t market_day;             /* its index; VH_LEARN_NONE: there is none */
    size_t members;
    struct vh_learn_value *value; /* [planting * ASKED] */
    double *said;                 /* [(planting * ASKED + item) * members + member] */
    double *kg;                   /* [planting * members + member] */
    double *factor;               /* [(planting * VH_KEPT_KINDS + kind) * members + member] */
};

static void asking_clear(struct asking *a)
{
    free(a->planting);
    free(a->wanted);
    free(a->value);
    free(a->said);
    free(a->kg);
    free(a->factor);
}

static bool stands(const struct asking *a, size_t k)
{
    const struct vh_planting *p = &a->scenario->house.planting[k];
    return p->set_out < a->today && p->pull_out > a->today;
}

/* ---- the futures, cut short ---- */

static void find_day(struct asking *a)
{
    const struct vh_market *m = &a->scenario->house.market;

    a->market_day = VH_LEARN_NONE;
    a->day = a->today + DAYS_PER_WEEK;
    for (size_t d = 0; m->given && d < m->days && a->market_day == VH_LEARN_NONE; d++)
        if (m->day[d] > a->today) {
            a->market_day = d;
            a->day = m->day[d];
        }
}

/* On its last day a season is cleared of all that is ripe: it goes on until the day after. */
static void set_days(struct asking *a)
{
    const size_t n = a->scenario->house.plantings;
    const int64_t last = a->day + 1;

    a->look[LOOK_TODAY] = a->today;
    a->look[LOOK_LAST] = last;
    for (size_t k = 0; k < n; k++) {
        struct vh_planting *cut = &a->planting[k], *whole = &a->planting[n + k];
        a->wanted[k] = stands(a, k);
        cut->look = whole->look = a->look;
        cut->looks = whole->looks = LOOKS;
        cut->pull_out = cut->pull_out > last && cut->set_out < last ? last : cut->pull_out;
    }
    a->cut.house.planting = a->planting;
    a->whole.house.planting = a->planting + n;
}

static enum vh_status asking_init(const struct vh_scenario *s, struct asking *a)
{
    const size_t n = s->house.plantings + 1, most = (size_t)s->parameters->record.worth_members;
    const size_t members = (size_t)s->options.members;

    *a = (struct asking){.scenario = s, .cut = *s, .whole = *s, .today = s->house.today};
    a->members = members < most ? members : most;
    a->planting = calloc(2 * n, sizeof *a->planting);
    a->wanted = calloc(n, sizeof *a->wanted);
    a->value = calloc(n * ASKED, sizeof *a->value);
    a->said = calloc(n * ASKED * a->members, sizeof *a->said);
    a->kg = calloc(n * a->members, sizeof *a->kg);
    a->factor = calloc(n * VH_KEPT_KINDS * a->members, sizeof *a->factor);
    if (!a->planting || !a->wanted || !a->value || !a->said || !a->kg || !a->factor)
        return VH_NO_MEMORY;
    for (size_t k = 0; k < s->house.plantings; k++)
        a->planting[k] = a->planting[s->house.plantings + k] = s->house.planting[k];
    find_day(a);
    set_days(a);
    return VH_OK;
}

/* ---- on which truss ---- */

/* May fruits have come off that truss by hand? On single stems they do where the average one has
 * none too many, as soon as a rule holds for it and its fruit is so large. */
static bool may_be_thinned(const struct vh_season *s, size_t truss)
{
    const struct vh_truss_view *v = &s->look[LOOK_TODAY].truss[truss];
    enum vh_thin_stage at;

    return !isnan(v->thinned_d) ||
           (vh_policy_takes_set_fruit(&s->planting->policy, s->planting->crop, (int)truss + 1,
                                      s->first_day + (int64_t)v->opened_d, &at) &&
            at != VH_THIN_MARBLE);
}

/* Fruits set are counted on the highest truss whose flowers have gone over, and before any are
 * taken off; how thick fruit is, on the lowest that has none ripe. 0: there is no such truss. */
static int truss_of(enum vh_record_item item, const struct vh_season *s, double today_d,
                    double gone_over_d)
{
    const struct vh_look *l = &s->look[LOOK_TODAY];
    int best = 0;

    for (size_t t = 0; t < l->trusses; t++) {
        const struct vh_truss_view *v = &l->truss[t];
        if (item == VH_RECORD_FRUITS_SET && v->opened_d <= today_d - gone_over_d && v->set > 0.0 &&
            !may_be_thinned(s, t))
            best = (int)t + 1;
        if (item == VH_RECORD_FRUIT_MM && best == 0 && isnan(v->ripe_first_d) &&
            v->fruits_on > 0.0 && v->opened_d <= today_d - gone_over_d)
            best = (int)t + 1;
    }
    return best;
}

static bool on_truss(enum vh_record_item item)
{
    return item == VH_RECORD_FRUITS_SET || item == VH_RECORD_FRUIT_MM;
}

static struct vh_learn_value value_of(const struct asking *a, const struct vh_season *s, size_t k,
                                      enum vh_record_item item)
{
    struct vh_learn_value v = {
        .planting = k, .item = item, .from = a->today, .until = a->today, .look = VH_LEARN_NONE};

    if (item == VH_RECORD_STEM_GROWTH_CM)
        v.from = a->today - DAYS_PER_WEEK;
    if (item == VH_RECORD_FRUIT_G || item == VH_RECORD_UNMARKETABLE_KG)
        v.from = a->today - DAYS_PER_WEEK + 1;
    if (on_truss(item) || item == VH_RECORD_BREAKER_FRUITS || item == VH_RECORD_TURNING_FRUITS)
        v.look = LOOK_TODAY;
    if (on_truss(item))
        v.truss = truss_of(item, s, (double)(a->today - s->first_day),
                           a->scenario->parameters->record.gone_over_d);
    return v;
}

static enum vh_status choose_trusses(void *context, const struct vh_member_view *view)
{
    struct asking *a = context;

    for (size_t k = 0; k < view->house->plantings; k++)
        for (size_t i = 0; i < ASKED && stands(a, k); i++)
            a->value[k * ASKED + i] = value_of(a, &view->season[k], k, asked[i]);
    return VH_OK;
}

/* ---- what each future says ---- */

/* A season as far as the last day, with the trusses as they were then. */
static struct vh_season until_last(const struct asking *a, const struct vh_season *whole)
{
    struct vh_season s = *whole;

    if (s.first_day + (int64_t)s.days - 1 <= a->look[LOOK_LAST])
        return s;
    s.days = (size_t)(a->look[LOOK_LAST] - s.first_day + 1);
    s.truss = s.look[LOOK_LAST].truss;
    s.trusses = s.look[LOOK_LAST].trusses;
    return s;
}

static double week_kg(const struct asking *a, const struct vh_season *s)
{
    const struct vh_learn_value v = {
        .item = VH_RECORD_PICKED_KG, .from = a->today + 1, .until = a->day, .look = VH_LEARN_NONE};
    return vh_learn_predict(&v, NULL, s, 1.0);
}

static enum vh_status note_kg(struct asking *a, const struct vh_run *run, size_t k, double *kg)
{
    struct vh_lots lots;
    struct vh_sale sale;

    if (a->market_day == VH_LEARN_NONE) {
        *kg = week_kg(a, &run->season[k]);
        return VH_OK;
    }
    const enum vh_status status = vh_lots_of(run, k, &lots);
    if (status == VH_OK) {
        vh_sale_of(run, &lots, k, a->market_day, &sale);
        *kg = sale.all.kg;
    }
    vh_lots_clear(&lots);
    return status;
}

static void note_said(struct asking *a, const struct vh_run *run, size_t k,
                      const struct vh_member *factors, size_t member)
{
    const struct vh_posterior *learnt = a->scenario->posterior;
    double *factor = a->factor + k * VH_KEPT_KINDS * a->members + member;

    for (size_t i = 0; i < ASKED; i++)
        a->said[(k * ASKED + i) * a->members + member] = vh_learn_predict(
            &a->value[k * ASKED + i], run->house, &run->season[k], factors->marketable);
    for (size_t kind = 0; kind < VH_KEPT_LOG_OFFSET; kind++)
        factor[kind * a->members] = vh_log(vh_member_factor(factors, (enum vh_kept_kind)kind));
    if (learnt)
        factor[VH_KEPT_LOG_OFFSET * a->members] = learnt->log_offset_c[member % learnt->members];
}

static enum vh_status see_until_last(struct asking *a, const struct vh_member_view *view,
                                     struct vh_season *season, double *marketable)
{
    const struct vh_run run = {
        .scenario = a->scenario, .house = view->house, .season = season, .marketable = marketable};
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < view->house->plantings; k++) {
        season[k] = stands(a, k) ? until_last(a, &view->season[k]) : view->season[k];
        marketable[k] = view->factors[k].marketable;
    }
    for (size_t k = 0; k < view->house->plantings && status == VH_OK; k++) {
        if (!stands(a, k))
            continue;
        status = note_kg(a, &run, k, &a->kg[k * a->members + view->member]);
        note_said(a, &run, k, &view->factors[k], view->member);
    }
    return status;
}

/* Futures beyond those that are asked say nothing. */
static enum vh_status see(void *context, const struct vh_member_view *view)
{
    struct asking *a = context;
    const size_t n = view->house->plantings + 1;

    if (view->member >= a->members)
        return VH_OK;
    struct vh_season *season = malloc(n * sizeof *season);
    double *marketable = malloc(n * sizeof *marketable);
    const enum vh_status status =
        season && marketable ? see_until_last(a, view, season, marketable) : VH_NO_MEMORY;
    free(marketable);
    free(season);
    return status;
}

/* The mean run says which trusses are asked about, before any future says what it has there. */
static enum vh_status run_mean(struct asking *a, struct vh_messages *m)
{
    const struct vh_ensemble_request q = {.scenario = &a->cut,
                                          .members = 1,
                                          .draw = a->scenario->options.draw,
                                          .threads = 1,
                                          .mean_run = true,
                                          .wanted = a->wanted,
                                          .seen = choose_trusses,
                                          .context = a};
    return vh_ensemble_run(&q, m);
}

static enum vh_status run_futures(struct asking *a, struct vh_messages *m)
{
    const struct vh_run_options *o = &a->scenario->options;
    const struct vh_ensemble_request q = {.scenario = &a->cut,
                                          .members = a->members,
                                          .draw = o->draw,
                                          .threads = o->threads,
                                          .wanted = a->wanted,
                                          .seen = see,
                                          .context = a};
    return vh_ensemble_run(&q, m);
}

/* ---- what a count is worth ---- */

/* What was measured within the week is not asked for again; of one truss, on that truss. */
static bool is_fresh(const struct asking *a, size_t k, const struct vh_learn_value *v)
{
    const struct vh_records *r = &a->scenario->house.records;

    for (size_t i = 0; i < r->rows; i++)
        if (r->row[i].planting == k && r->row[i].item == v->item && !r->row[i].doubt &&
            r->row[i].day > a->today - DAYS_PER_WEEK && r->row[i].day <= a->today &&
            (!on_truss(v->item) || r->row[i].truss == v->truss))
            return true;
    return false;
}

/* Entries of the item that the planting has already: they tell its bias as well. */
static size_t entries(const struct vh_scenario *s, size_t k, enum vh_record_item item)
{
    const struct vh_records *r = &s->house.records;
    size_t n = 0;

    for (size_t i = 0; s->posterior && i < r->rows; i++)
        n += r->row[i].planting == k && r->row[i].item == item && !r->row[i].doubt;
    return n;
}

static int stems_of(const struct vh_record_params *p, enum vh_record_item item)
{
    if (item == VH_RECORD_FRUIT_G)
        return (int)p->fruits_weighed;
    return vh_record_is_of_planting(item) ? 0 : (int)p->stems_silent;
}

/* Variance of what the count is off by: the entry, the model, what n entries leave of the bias. */
static double error_variance(const struct asking *a, size_t k, enum vh_record_item item,
                             double expect)
{
    const struct vh_record_params *p = &a->scenario->parameters->record;
    const struct vh_record r = {.item = item, .value = expect, .of = stems_of(p, item)};
    const double entry = vh_record_sd(p, &r), model = vh_record_model_sd(p, item, expect),
                 bias = vh_record_bias_sd(p, item, expect);
    const double once = entry * entry + model * model;
    const double n = (double)entries(a->scenario, k, item);

    return once + (bias > 0.0 ? bias * bias / (1.0 + n * bias * bias / once) : 0.0);
}

/* The smoother moves what any entry of the planting, or this one, speaks of. */
static size_t choose_factors(const struct asking *a, size_t k, enum vh_record_item item,
                             const double **of)
{
    const struct vh_records *r = &a->scenario->house.records;
    size_t n = 0;

    for (size_t kind = 0; kind < VH_KEPT_KINDS; kind++) {
        bool spoken = vh_learn_speaks_of(item, (enum vh_kept_kind)kind);
        for (size_t i = 0; a->scenario->posterior && i < r->rows && !spoken; i++)
            spoken = r->row[i].planting == k && vh_learn_can_tell(r->row[i].item) &&
                     vh_learn_speaks_of(r->row[i].item, (enum vh_kept_kind)kind);
        if (spoken)
            of[n++] = a->factor + (k * VH_KEPT_KINDS + kind) * a->members;
    }
    return n;
}

/* Most futures have a number there, those that have none are given the mean of the others. */
static bool fill(double *x, size_t n)
{
    double sum = 0.0;
    size_t known = 0;

    for (size_t j = 0; j < n; j++)
        if (!isnan(x[j])) {
            sum += x[j];
            known++;
        }
    for (size_t j = 0; j < n && known > 0; j++)
        x[j] = isnan(x[j]) ? sum / (double)known : x[j];
    return 2 * known >= n && known > 1;
}

static enum vh_status weigh(const struct asking *a, size_t k, size_t i, struct vh_measures *out)
{
    const struct vh_learn_value *v = &a->value[k * ASKED + i];
    const struct vh_record_params *p = &a->scenario->parameters->record;
    double *said = a->said + (k * ASKED + i) * a->members, *kg = a->kg + k * a->members;
    const double *factor[VH_KEPT_KINDS];
    struct vh_to_measure *m = &out->item[out->items];

    if ((on_truss(v->item) && v->truss == 0) || is_fresh(a, k, v) || !fill(said, a->members))
        return VH_OK;
    *m = (struct vh_to_measure){.planting = k,
                                .item = v->item,
                                .truss = v->truss,
                                .of = stems_of(p, v->item),
                                .expect = vh_mean(said, a->members),
                                .day = a->day,
                                .is_market = a->market_day != VH_LEARN_NONE,
                                .kg = vh_mean(kg, a->members)};
    const struct vh_worth w = {.members = a->members,
                               .wanted = kg,
                               .counted = said,
                               .error_variance = error_variance(a, k, v->item, m->expect),
                               .doubt = p->chance_times,
                               .factors = choose_factors(a, k, v->item, factor),
                               .factor = factor};
    const enum vh_status status = vh_worth_narrows(&w, &m->narrows);
    if (status == VH_OK)
        out->items++;
    return status;
}

static int by_worth(const void *x, const void *y)
{
    const struct vh_to_measure *a = x, *b = y;

    if (a->planting != b->planting)
        return a->planting < b->planting ? -1 : 1;
    if (a->narrows < b->narrows || a->narrows > b->narrows)
        return a->narrows > b->narrows ? -1 : 1;
    return (a->item > b->item) - (a->item < b->item);
}

static void set_ranges(const struct asking *a, struct vh_measures *out)
{
    for (size_t i = 0; i < out->items; i++) {
        double q[VH_QUANTILES];
        vh_quantiles(a->kg + out->item[i].planting * a->members, a->members, q);
        out->item[i].kg_low = q[VH_P10];
        out->item[i].kg_high = q[VH_P90];
    }
}

static enum vh_status weigh_all(struct asking *a, struct vh_measures *out)
{
    const size_t n = a->scenario->house.plantings;
    enum vh_status status = VH_OK;

    out->item = calloc(n * ASKED + 1, sizeof *out->item);
    if (!out->item)
        return VH_NO_MEMORY;
    for (size_t k = 0; k < n; k++)
        for (size_t i = 0; i < ASKED && status == VH_OK && stands(a, k); i++)
            status = weigh(a, k, i, out);
    if (status != VH_OK) {
        vh_measures_clear(out);
        return status;
    }
    qsort(out->item, out->items, sizeof *out->item, by_worth);
    set_ranges(a, out);
    return VH_OK;
}

static bool has_too_few(const struct vh_scenario *s)
{
    return (double)s->options.members < s->parameters->record.members_least;
}

enum vh_status vh_measures_find(const struct vh_scenario *s, struct vh_measures *out,
                                struct vh_messages *m)
{
    struct asking a;

    *out = (struct vh_measures){.items = 0};
    if (has_too_few(s))
        return VH_OK;
    enum vh_status status = asking_init(s, &a);
    if (status == VH_OK)
        status = run_mean(&a, m);
    if (status == VH_OK)
        status = run_futures(&a, m);
    if (status == VH_OK)
        status = weigh_all(&a, out);
    asking_clear(&a);
    return status;
}

enum vh_status vh_measures_beside(const struct vh_scenario *s, vh_progress progress, void *context,
                                  struct vh_result **r, struct vh_measures *out,
                                  struct vh_messages *m)
{
    struct asking a;

    *out = (struct vh_measures){.items = 0};
    if (has_too_few(s))
        return vh_forecast(s, progress, context, r, m);
    enum vh_status status = asking_init(s, &a);
    if (status == VH_OK)
        status = run_mean(&a, m);
    if (status == VH_OK)
        status = vh_forecast_seen(&a.whole, progress, context, see, &a, r, m);
    if (status == VH_OK && (status = weigh_all(&a, out)) != VH_OK)
        vh_result_free(*r);
    asking_clear(&a);
    return status;
}

void vh_measures_clear(struct vh_measures *all)
{
    free(all->item);
    *all = (struct vh_measures){.items = 0};
}
