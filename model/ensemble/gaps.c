/* Stretches of market days whose promise lies below what the grower wants, and the batch that would
 * fill most of each: when to sow it and how many plants. */
#include <stdlib.h>
#include <string.h>

#include "vh_date.h"
#include "vh_gap_stretches.h"
#include "vh_gaps.h"
#include "vh_math.h"
#include "vh_quantile.h"
#include "vh_sales.h"

#define DAYS_PER_WEEK 7

/* A good whose market days to come lack something. */
struct lack {
    size_t good;
    size_t first, days; /* market days from today on, up to the last pull-out */
    double *missing;    /* [days] kg, or fruits where those are wanted */
    bool by_fruits;
};
/* Some of these days, [first, last]. */
struct gap {
    size_t first, last;
};

/* One more planting of the good, alone in the house up to its last day. */
struct batch {
    struct vh_scenario scenario;
    struct vh_planting planting;
    size_t good_of;
    double plants_most; /* a larger one is not proposed */
    const struct lack *lack;
    double *supply; /* [member][market day of the lack] of one plant */
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

/* ---- the batch ---- */

static enum vh_status supply_of(void *context, const struct vh_member_view *view)
{
    struct batch *b = context;
    const struct lack *l = b->lack;
    const double marketable = view->factors[0].marketable;
    const struct vh_run run = {.scenario = &b->scenario,
                               .house = view->house,
                               .season = view->season,
                               .marketable = &marketable};
    struct vh_lots lots;
    const enum vh_status status = vh_lots_of(&run, 0, &lots);

    for (size_t d = 0; d < l->days && status == VH_OK; d++) {
        struct vh_sale sale;
        vh_sale_of(&run, &lots, 0, l->first + d, &sale);
        b->supply[view->member * l->days + d] =
            (l->by_fruits ? sale.all.fruits : sale.all.kg) / b->planting.plants;
    }
    vh_lots_clear(&lots);
    return status;
}

/* Like the last planting of the good, set out on another day. */
static void batch_init(struct batch *b, const struct vh_scenario *s, const struct lack *l)
{
    const struct vh_market *m = &s->house.market;

    *b = (struct batch){.scenario = *s, .good_of = l->good, .lack = l};
    for (size_t k = 0; k < s->house.plantings; k++)
        if (m->good_of[k] == l->good) {
            b->planting = s->house.planting[k];
            b->plants_most += s->house_params.gap_plants_most * b->planting.plants;
        }
    b->planting.has_first_flower = false;
    b->planting.standing = (struct vh_standing){0};
    b->planting.policy.done = NULL;
    b->planting.policy.has_top = false;
    b->planting.policy.head_changes = 0;
    b->planting.policy.last_on = INT64_MAX; /* after the gap it goes on */
    b->planting.pull_out = s->house.last_day;
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
static bool is_filled(const struct lack *l, const struct gap *g, const double *supply,
                      double plants, double share)
{
    double filled = 0.0, want = 0.0;

    for (size_t d = g->first; d <= g->last; d++) {
        filled += vh_min(plants * supply[d], l->missing[d]);
        want += share * l->missing[d];
    }
    return filled >= want;
}

/* Least plants that do; endless: no number does, or none that is worth a thought. supply: of the
 * days of the lack. */
static double plants_for(const struct batch *b, const struct gap *g, const double *supply)
{
    const double exact = 1e-3; /* of a plant */
    const double share = b->scenario.house_params.gap_filled;
    double low = 0.0, high = 1.0;

    while (!is_filled(b->lack, g, supply, high, share)) { /* doubled, then halved */
        if (high > b->plants_most)
            return VH_ENDLESS;
        low = high;
        high *= 2.0;
    }
    while (high - low > exact) {
        const double middle = (low + high) / 2.0;
        *(is_filled(b->lack, g, supply, middle, share) ? &high : &low) = middle;
    }
    return high > b->plants_most ? VH_ENDLESS : high;
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
    int64_t sow_by;                        /* NO_DAY: no batch would do */
    double plants, plants_p10, plants_p90; /* endless: that day is past */
};
#define NO_DAY INT64_MIN

/* The Mondays of the season on which it could be sown, and what each would bring: the same ones on
 * whatever day of the week she looks, past ones too, so that the best does not move with today. */
struct sowings {
    int64_t first;
    size_t weeks, next; /* next: the first from today on */
    double *supply;     /* [week][market day of the lack] of one plant, in the mean run */
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
    const size_t days = b->lack->days;
    enum vh_status status = VH_OK;

    s->first = monday_on_or_after(b->scenario.house.first_day);
    s->weeks = last < s->first ? 0 : (size_t)((last - s->first) / DAYS_PER_WEEK + 1);
    while (s->next < s->weeks && monday_of(s, s->next) < b->scenario.house.today)
        s->next++;
    s->supply = malloc((s->weeks * days + 1) * sizeof *s->supply);
    if (!s->supply)
        return VH_NO_MEMORY;
    for (size_t w = 0; w < s->weeks && status == VH_OK; w++) {
        status = run_batch(b, monday_of(s, w), 1, like, m);
        for (size_t d = 0; d < days && status == VH_OK; d++)
            s->supply[w * days + d] = b->supply[d];
    }
    return status;
}

/* The latest sowing whose batch fills most of the gap with hardly more plants than the best of all;
 * `weeks`: none does. */
static size_t latest_good(const struct batch *b, const struct sowings *s, const struct gap *g)
{
    double least = VH_ENDLESS;
    size_t found = s->weeks;

    for (size_t w = 0; w < s->weeks; w++)
        least = vh_min(least, plants_for(b, g, s->supply + w * b->lack->days));
    for (size_t w = 0; w < s->weeks && least < VH_ENDLESS; w++)
        if (plants_for(b, g, s->supply + w * b->lack->days) <=
            least * b->scenario.house_params.gap_plants_beyond)
            found = w;
    return found;
}

static bool is_to_come(const struct sowings *s, size_t week)
{
    return week >= s->next && week < s->weeks;
}

/* A promise is missing, so the batch must bring it with the chance of a promise. */
static enum vh_status range_of(struct batch *b, const struct gap *g, size_t members,
                               const struct vh_ensemble_request *like, struct proposal *out,
                               struct vh_messages *m)
{
    double *plants = malloc((members + 1) * sizeof *plants);
    enum vh_status status = plants ? run_batch(b, out->sow_by, members, like, m) : VH_NO_MEMORY;

    for (size_t i = 0; i < members && status == VH_OK; i++)
        plants[i] = plants_for(b, g, b->supply + i * b->lack->days);
    if (status == VH_OK) {
        out->plants_p10 = plants_quantile(plants, members, 0.1);
        out->plants_p90 = plants_quantile(plants, members, 0.9);
        out->plants = plants_quantile(plants, members, b->scenario.house.market.promise);
    }
    free(plants);
    return status;
}

static enum vh_status propose(struct batch *b, const struct sowings *sowings, const struct gap *g,
                              size_t members, const struct vh_ensemble_request *like,
                              struct proposal *out, struct vh_messages *m)
{
    size_t w = latest_good(b, sowings, g);
    bool found = !is_to_come(sowings, w);
    enum vh_status status = VH_OK;

    *out = (struct proposal){.sow_by = NO_DAY};
    if (found && w < sowings->weeks) /* it was so on a day that is past */
        *out = (struct proposal){monday_of(sowings, w), VH_ENDLESS, VH_ENDLESS, VH_ENDLESS};
    /* Where a future in ten is too late for it, a week earlier. */
    for (; !found && status == VH_OK; w--) {
        struct proposal p = {.sow_by = monday_of(sowings, w)};
        status = range_of(b, g, members, like, &p, m);
        found = vh_max(p.plants, p.plants_p90) <= b->plants_most;
        if (status == VH_OK && found)
            *out = p;
        found = found || w == sowings->next;
    }
    return status;
}

/* ---- what belongs together ---- */

static bool is_felt(const struct batch *b, size_t day)
{
    const struct vh_scenario *s = &b->scenario;

    return b->lack->missing[day] >=
           s->house_params.gap_felt * wanted(&s->house.market.good[b->lack->good]);
}

/* The first gap of a stretch: all of it where a batch to come fills most of it; else the days for
 * which it is too late, or as many as one batch can fill. It ends on a day that is felt. */
static struct gap first_gap(const struct batch *b, const struct sowings *s, const struct gap *of)
{
    struct gap g = {of->first, of->first};

    if (is_to_come(s, latest_good(b, s, of)))
        return *of;
    const bool helped = is_to_come(s, latest_good(b, s, &g));
    for (size_t d = of->first + 1; d <= of->last; d++) {
        const struct gap next = {helped ? of->first : d, d};
        if (!is_felt(b, d))
            continue;
        if (is_to_come(s, latest_good(b, s, &next)) != helped)
            break;
        g.last = d;
    }
    return g;
}

/* ---- the table ---- */

static enum vh_status add_row(struct vh_table *t, const struct vh_scenario *s, const struct lack *l,
                              const struct gap *g, const struct proposal *p)
{
    const struct vh_market *m = &s->house.market;
    const double days = (double)(g->last - g->first + 1);
    double missing = 0.0;

    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, 0, m->good[l->good].name) != VH_OK)
        return VH_NO_MEMORY;
    for (size_t d = g->first; d <= g->last; d++)
        missing += l->missing[d];
    vh_table_set_number(t, 1, (double)m->day[l->first + g->first]);
    vh_table_set_number(t, 2, (double)m->day[l->first + g->last]);
    vh_table_set_number(t, l->by_fruits ? 4 : 3, missing);
    vh_table_set_number(t, l->by_fruits ? 3 : 4, VH_UNKNOWN);
    vh_table_set_number(t, 9, missing / (days * wanted(&m->good[l->good])));
    const bool is_known = p->sow_by != NO_DAY;
    const double number[] = {(double)p->sow_by, p->plants, p->plants_p10, p->plants_p90};
    for (size_t i = 0; i < 4; i++)
        vh_table_set_number(t, 5 + i, is_known && number[i] < VH_ENDLESS ? number[i] : VH_UNKNOWN);
    return VH_OK;
}

/* Rows for the stretches of one good. */
static enum vh_status add_gaps(const struct vh_scenario *s, const struct lack *l,
                               const struct vh_gap_stretch *stretch, size_t stretches,
                               const struct vh_ensemble_request *like, struct vh_table *out,
                               struct vh_messages *m)
{
    const size_t members = (size_t)vh_min((double)like->members, s->house_params.gap_members);
    struct sowings sowings = {.weeks = 0};
    struct batch b;

    batch_init(&b, s, l);
    b.supply = calloc(members * l->days + 1, sizeof *b.supply);
    enum vh_status status = b.supply ? try_sowings(&b, like, &sowings, m) : VH_NO_MEMORY;
    for (size_t i = 0; i < stretches && status == VH_OK; i++) {
        struct gap rest = {stretch[i].first, stretch[i].last};
        while (rest.first <= rest.last && status == VH_OK) {
            const struct gap g = first_gap(&b, &sowings, &rest);
            struct proposal p;
            status = propose(&b, &sowings, &g, members, like, &p, m);
            if (status == VH_OK)
                status = add_row(out, s, l, &g, &p);
            rest.first = g.last + 1;
            while (rest.first <= rest.last && !is_felt(&b, rest.first))
                rest.first++;
        }
    }
    free(sowings.supply);
    free(b.supply);
    return status;
}

enum vh_status vh_gaps_find(const struct vh_scenario *s, const struct vh_table *market_days,
                            const struct vh_ensemble_request *like, struct vh_table *out,
                            struct vh_messages *m)
{
    const struct vh_market *market = &s->house.market;
    const struct vh_house_params *p = &s->house_params;
    const struct vh_gap_rules rules = {p->gap_felt, p->gap_valley, p->gap_near_d};
    double *missing = malloc((4 * market->days + 1) * sizeof *missing);
    struct vh_gap_stretch *stretch = malloc((market->days + 1) * sizeof *stretch);
    enum vh_status status = missing && stretch ? VH_OK : VH_NO_MEMORY;
    size_t first = 0;

    while (first < market->days && market->day[first] < s->house.today)
        first++;
    for (size_t good = 0; good < market->goods && status == VH_OK; good++) {
        struct lack l = {.good = good,
                         .first = first,
                         .missing = missing,
                         .by_fruits = market->good[good].wants_fruits > 0.0};
        double *const share = missing + market->days;
        const double most = wanted(&market->good[good]);
        for (size_t d = first; d < market->days && most > 0.0; d++, l.days++) {
            missing[l.days] = missing_on(market_days, s, good, d);
            share[l.days] = missing[l.days] / most;
        }
        const size_t n = vh_gap_stretches(&rules, market->day + first, share, l.days, stretch,
                                          share + market->days);
        if (n > 0)
            status = add_gaps(s, &l, stretch, n, like, out, m);
    }
    if (status == VH_OK) /* as all tables: by date */
        status = vh_table_sort_by(out, (size_t)vh_table_find(out, "from"));
    free(stretch);
    free(missing);
    return status;
}
