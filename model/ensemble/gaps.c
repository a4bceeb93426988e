/* Runs of market days whose promise lies below what the grower wants, and the batch that would fill
 * most of each: when to sow it and how many plants. */
#include <stdlib.h>
#include <string.h>

#include "vh_date.h"
#include "vh_gaps.h"
#include "vh_math.h"
#include "vh_quantile.h"
#include "vh_sales.h"

#define DAYS_PER_WEEK 7

struct gap {
    size_t good;
    size_t first, last; /* market days */
    double *missing;    /* [last - first + 1] kg, or fruits where those are wanted */
    bool by_fruits;
};

/* One more planting of the good, alone in the house. */
struct batch {
    struct vh_scenario scenario;
    struct vh_planting planting;
    size_t good_of;
    double plants_most; /* a larger one is not proposed */
    const struct gap *gap;
    double *supply; /* [member][market day of the gap] of one plant */
};

/* ---- finding them ---- */

/* Promise of a good on a market day, NaN: none. */
static double promised(const struct vh_table *t, const struct vh_scenario *s, size_t good,
                       size_t day, const char *column)
{
    const struct vh_market *m = &s->house.market;
    const int date = vh_table_find(t, "date"), planting = vh_table_find(t, "planting");
    const int grade = vh_table_find(t, "grade"), value = vh_table_find(t, column);
    const bool alone = m->good[good].plantings == 1;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const char *name = vh_table_text(t, i, (size_t)planting);
        if (vh_table_number(t, i, (size_t)date) != (double)m->day[day] ||
            strcmp(vh_table_text(t, i, (size_t)grade), "all") != 0)
            continue;
        for (size_t k = 0; k < s->house.plantings; k++)
            if (m->good_of[k] == good && alone && strcmp(name, s->house.planting[k].name) == 0)
                return vh_table_number(t, i, (size_t)value);
        if (!alone && strncmp(name, "all ", 4) == 0 && strcmp(name + 4, m->good[good].name) == 0)
            return vh_table_number(t, i, (size_t)value);
    }
    return 0.0; /* nothing stands then */
}

static double wanted(const struct vh_good *g)
{
    return g->wants_fruits > 0.0 ? g->wants_fruits : g->wants_kg;
}

/* After the last pull-out only what is left is sold: nothing is missed then. */
static double missing_on(const struct vh_table *t, const struct vh_scenario *s, size_t good,
                         size_t day)
{
    const struct vh_good *g = &s->house.market.good[good];
    const bool by_fruits = g->wants_fruits > 0.0;

    if (s->house.market.day[day] > s->house.last_day)
        return 0.0;
    return vh_max(0.0, wanted(g) -
                           promised(t, s, good, day, by_fruits ? "promise_fruits" : "promise_kg"));
}

/* The next run of short days from market day `from` on; false: none. */
static bool next_gap(const struct vh_table *t, const struct vh_scenario *s, size_t from,
                     struct gap *g)
{
    const struct vh_market *m = &s->house.market;

    while (from < m->days &&
           (m->day[from] < s->house.today || !(missing_on(t, s, g->good, from) > 0.0)))
        from++;
    g->first = g->last = from;
    while (g->last < m->days && missing_on(t, s, g->good, g->last) > 0.0) {
        g->missing[g->last - g->first] = missing_on(t, s, g->good, g->last);
        g->last++;
    }
    g->last--;
    return from < m->days;
}

/* ---- the batch ---- */

static enum vh_status supply_of(void *context, const struct vh_member_view *view)
{
    struct batch *b = context;
    const struct gap *g = b->gap;
    const size_t days = g->last - g->first + 1;
    const double marketable = view->factors[0].marketable;
    const struct vh_run run = {.scenario = &b->scenario,
                               .house = view->house,
                               .season = view->season,
                               .marketable = &marketable};
    struct vh_lots lots;
    const enum vh_status status = vh_lots_of(&run, 0, &lots);

    for (size_t d = 0; d < days && status == VH_OK; d++) {
        struct vh_sale sale;
        vh_sale_of(&run, &lots, 0, g->first + d, &sale);
        b->supply[view->member * days + d] =
            (g->by_fruits ? sale.all.fruits : sale.all.kg) / b->planting.plants;
    }
    vh_lots_clear(&lots);
    return status;
}

/* Like the last planting of the good, set out on another day. */
static void batch_init(struct batch *b, const struct vh_scenario *s, const struct gap *g)
{
    const struct vh_market *m = &s->house.market;

    *b = (struct batch){.scenario = *s, .good_of = g->good, .gap = g};
    for (size_t k = 0; k < s->house.plantings; k++)
        if (m->good_of[k] == g->good) {
            b->planting = s->house.planting[k];
            b->plants_most += s->house_params.gap_plants_most * b->planting.plants;
        }
    b->planting.has_first_flower = false;
    b->planting.standing = (struct vh_standing){0};
    b->planting.policy.done = NULL;
    b->planting.policy.has_top = false;
    b->planting.policy.head_changes = 0;
    b->planting.policy.last_on = INT64_MAX; /* after the gap it goes on */
    b->planting.pull_out =
        m->day[g->last] < s->house.last_day ? m->day[g->last] : s->house.last_day;
    b->scenario.house.records = (struct vh_records){.last_day = INT64_MIN};
    b->scenario.house.plantings = 1;
}

static enum vh_status run_batch(struct batch *b, int64_t sow, size_t members,
                                const struct vh_ensemble_request *like, struct vh_messages *m)
{
    b->planting.set_out = sow + (int64_t)b->planting.crop->habit.nursery_d;
    b->scenario.house.planting = &b->planting; /* here, where the batch no longer moves */
    b->scenario.house.market.good_of = &b->good_of;
    const struct vh_ensemble_request q = {.scenario = &b->scenario,
                                          .members = members,
                                          .draw = like->draw,
                                          .threads = members > 1 ? like->threads : 1,
                                          .mean_run = members == 1,
                                          .seen = supply_of,
                                          .context = b};
    return vh_ensemble_run(&q, m);
}

/* Do so many plants fill the share of what is missing? */
static bool is_filled(const struct gap *g, const double *supply, double plants, double share)
{
    double filled = 0.0, want = 0.0;

    for (size_t d = 0; d <= g->last - g->first; d++) {
        filled += vh_min(plants * supply[d], g->missing[d]);
        want += share * g->missing[d];
    }
    return filled >= want;
}

/* Least plants that do; endless: no number does, or none that is worth a thought. */
static double plants_for(const struct gap *g, const double *supply, double share, double worth)
{
    const double exact = 1e-3; /* of a plant */
    double low = 0.0, high = 1.0;

    while (!is_filled(g, supply, high, share)) { /* grows with the plants: doubled, then halved */
        if (high > worth)
            return VH_ENDLESS;
        low = high;
        high *= 2.0;
    }
    while (high - low > exact) {
        const double middle = (low + high) / 2.0;
        *(is_filled(g, supply, middle, share) ? &high : &low) = middle;
    }
    return high > worth ? VH_ENDLESS : high;
}

/* Of numbers of plants some of which may be endless; so is the quantile that would lie on or beside
 * one of them. */
static double plants_quantile(double *plants, size_t members, double p)
{
    size_t known = 0;

    for (size_t i = 0; i < members; i++) /* the endless ones behind: order is nothing here */
        if (plants[i] < VH_ENDLESS) {
            const double kept = plants[known];
            plants[known++] = plants[i];
            plants[i] = kept;
        }
    const double rank = (double)(members - 1) * p;
    if (ceil(rank) >= (double)known)
        return VH_ENDLESS;
    /* the same rank among those that are known */
    return vh_quantile(plants, known, known > 1 ? rank / (double)(known - 1) : 0.0);
}

struct proposal {
    int64_t sow_by; /* INT64_MIN: too late, or no batch would do */
    double plants, plants_p10, plants_p90;
};

/* The Mondays of the season on which it could be sown, and what each asks: the same ones on
 * whatever day of the week she looks, past ones too, so that the best does not move with today. */
struct sowings {
    int64_t first;
    size_t weeks, next; /* next: the first from today on */
    double *plants;     /* [weeks], in the middle of the futures */
};

static int64_t monday_on_or_after(int64_t day)
{
    return day + (DAYS_PER_WEEK - vh_date_weekday(day)) % DAYS_PER_WEEK;
}

static int64_t monday_of(const struct sowings *s, size_t week)
{
    return s->first + (int64_t)week * DAYS_PER_WEEK;
}

static enum vh_status try_sowings(struct batch *b, const struct vh_ensemble_request *like,
                                  struct sowings *s, struct vh_messages *m)
{
    const int64_t nursery = (int64_t)b->planting.crop->habit.nursery_d;
    const int64_t last = b->planting.pull_out - nursery - DAYS_PER_WEEK;
    enum vh_status status = VH_OK;

    s->first = monday_on_or_after(b->scenario.house.first_day);
    s->weeks = last < s->first ? 0 : (size_t)((last - s->first) / DAYS_PER_WEEK + 1);
    while (s->next < s->weeks && monday_of(s, s->next) < b->scenario.house.today)
        s->next++;
    s->plants = malloc((s->weeks + 1) * sizeof *s->plants);
    if (!s->plants)
        return VH_NO_MEMORY;
    for (size_t w = 0; w < s->weeks && status == VH_OK; w++) {
        status = run_batch(b, monday_of(s, w), 1, like, m);
        if (status == VH_OK)
            s->plants[w] =
                plants_for(b->gap, b->supply, b->scenario.house_params.gap_filled, b->plants_most);
    }
    return status;
}

/* The latest sowing to come whose batch needs hardly more plants than the best of all; if those
 * are past, the next one that brings enough at all. `weeks`: none. */
static size_t latest_good(const struct sowings *s, double beyond)
{
    double least = VH_ENDLESS;
    size_t found = s->weeks;

    for (size_t w = 0; w < s->weeks; w++)
        least = vh_min(least, s->plants[w]);
    for (size_t w = s->next; w < s->weeks; w++)
        if (s->plants[w] < VH_ENDLESS && (found == s->weeks || s->plants[w] <= least * beyond))
            found = w;
    return found;
}

/* A promise is missing, so the batch must bring it with the chance of a promise. */
static enum vh_status range_of(struct batch *b, size_t members,
                               const struct vh_ensemble_request *like, struct proposal *out,
                               struct vh_messages *m)
{
    const size_t days = b->gap->last - b->gap->first + 1;
    double *plants = malloc((members + 1) * sizeof *plants);
    enum vh_status status = plants ? run_batch(b, out->sow_by, members, like, m) : VH_NO_MEMORY;

    for (size_t i = 0; i < members && status == VH_OK; i++)
        plants[i] = plants_for(b->gap, b->supply + i * days, b->scenario.house_params.gap_filled,
                               b->plants_most);
    if (status == VH_OK) {
        out->plants_p10 = plants_quantile(plants, members, 0.1);
        out->plants_p90 = plants_quantile(plants, members, 0.9);
        out->plants = plants_quantile(plants, members, b->scenario.house.market.promise);
    }
    free(plants);
    return status;
}

static enum vh_status propose(const struct vh_scenario *s, const struct gap *g,
                              const struct vh_ensemble_request *like, struct proposal *out,
                              struct vh_messages *m)
{
    const size_t members = (size_t)vh_min((double)like->members, s->house_params.gap_members);
    struct sowings sowings = {.weeks = 0};
    struct batch b;

    batch_init(&b, s, g);
    b.supply = calloc(members * (g->last - g->first + 1) + 1, sizeof *b.supply);
    enum vh_status status = b.supply ? try_sowings(&b, like, &sowings, m) : VH_NO_MEMORY;
    *out = (struct proposal){.sow_by = INT64_MIN};
    size_t w = status == VH_OK ? latest_good(&sowings, s->house_params.gap_plants_beyond) : 0;
    bool found = status != VH_OK || w == sowings.weeks;
    /* Where a future in ten is too late for it, a week earlier. */
    for (; !found && status == VH_OK; w--) {
        struct proposal p = {.sow_by = monday_of(&sowings, w)};
        status = range_of(&b, members, like, &p, m);
        found = vh_max(p.plants, p.plants_p90) <= b.plants_most;
        if (status == VH_OK && found)
            *out = p;
        found = found || w == sowings.next;
    }
    free(sowings.plants);
    free(b.supply);
    return status;
}

/* ---- the table ---- */

static enum vh_status add_row(struct vh_table *t, const struct vh_scenario *s, const struct gap *g,
                              const struct proposal *p)
{
    const struct vh_market *m = &s->house.market;
    const double days = (double)(g->last - g->first + 1);
    double missing = 0.0;

    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, 0, m->good[g->good].name) != VH_OK)
        return VH_NO_MEMORY;
    for (size_t d = 0; d <= g->last - g->first; d++)
        missing += g->missing[d];
    vh_table_set_number(t, 1, (double)m->day[g->first]);
    vh_table_set_number(t, 2, (double)m->day[g->last]);
    vh_table_set_number(t, g->by_fruits ? 4 : 3, missing);
    vh_table_set_number(t, g->by_fruits ? 3 : 4, VH_UNKNOWN);
    vh_table_set_number(t, 9, missing / (days * wanted(&m->good[g->good])));
    const bool is_known = p->sow_by != INT64_MIN;
    const double number[] = {(double)p->sow_by, p->plants, p->plants_p10, p->plants_p90};
    for (size_t i = 0; i < 4; i++)
        vh_table_set_number(t, 5 + i, is_known && number[i] < VH_ENDLESS ? number[i] : VH_UNKNOWN);
    return VH_OK;
}

enum vh_status vh_gaps_find(const struct vh_scenario *s, const struct vh_table *market_days,
                            const struct vh_ensemble_request *like, struct vh_table *out,
                            struct vh_messages *m)
{
    const struct vh_market *market = &s->house.market;
    double *missing = malloc((market->days + 1) * sizeof *missing);
    enum vh_status status = missing ? VH_OK : VH_NO_MEMORY;

    for (size_t good = 0; good < market->goods && status == VH_OK; good++) {
        struct gap g = {
            .good = good, .missing = missing, .by_fruits = market->good[good].wants_fruits > 0.0};
        for (size_t from = 0; status == VH_OK && next_gap(market_days, s, from, &g);
             from = g.last + 1) {
            struct proposal p = {.sow_by = INT64_MIN};
            status = propose(s, &g, like, &p, m);
            if (status == VH_OK)
                status = add_row(out, s, &g, &p);
        }
    }
    free(missing);
    return status;
}
