#include "vh_hindcast.h"

#include <math.h>
#include <stdlib.h>

#include "vh_known.h"
#include "vh_learn.h"
#include "vh_math.h"
#include "vh_quantile.h"
#include "vh_score.h"

#define DAYS_PER_WEEK 7
#define SLACK_D 14 /* beyond the last week, so that the pick that ends it is forecast too */

struct hindcasting {
    const struct vh_scenario *s;
    struct vh_pick_rate *came; /* [planting] by all records */
    struct vh_hindcast *out;
    double *kg; /* [members] scratch */
    struct vh_messages *m;
    vh_progress progress;
    void *context;
    double done, step; /* share of all, and of one Sunday */
};

/* ---- one forecast ---- */

/* kg that a member picks from..until, each pick spread over the days since the one before. */
static double forecast_kg(const struct vh_planting_futures *f, size_t member, int64_t from,
                          int64_t until)
{
    double sum = 0.0;

    for (size_t i = 0; i < f->picks; i++) {
        const int64_t first = i > 0 ? f->date[i - 1] + 1 : f->date[i] - DAYS_PER_WEEK + 1;
        const int64_t a = first > from ? first : from;
        const int64_t b = f->date[i] < until ? f->date[i] : until;
        if (a <= b)
            sum += f->kg[member * f->picks + i] * (double)(b - a + 1) /
                   (double)(f->date[i] - first + 1);
    }
    return sum;
}

static int ascending(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;

    return (x > y) - (x < y);
}

static void score(struct vh_hindcast_week *w, double *kg, size_t members)
{
    double q[VH_QUANTILES], sum = 0.0;

    for (size_t i = 0; i < members; i++)
        sum += kg[i];
    w->mean_kg = sum / (double)members;
    vh_quantiles(kg, members, q);
    w->p10_kg = q[VH_P10];
    w->p50_kg = q[VH_P50];
    w->p90_kg = q[VH_P90];
    qsort(kg, members, sizeof *kg, ascending);
    w->crps_kg = vh_score_crps(kg, members, w->observed_kg);
    w->pinball_kg = (vh_score_pinball(w->p10_kg, 0.1, w->observed_kg) +
                     vh_score_pinball(w->p50_kg, 0.5, w->observed_kg) +
                     vh_score_pinball(w->p90_kg, 0.9, w->observed_kg)) /
                    VH_QUANTILES;
}

static void score_naive(struct vh_hindcast_week *w, const struct vh_pick_rate *known,
                        const struct vh_futures_params *p, int64_t sunday)
{
    for (int which = 0; which < VH_NAIVES; which++) {
        const enum vh_naive naive = (enum vh_naive)which;
        const double sd = vh_naive_sd_kg(known, p, naive, sunday, w->weeks_ahead);
        w->naive_kg[which] = vh_naive_kg(known, naive, sunday);
        w->crps_naive_kg[which] = vh_score_crps_normal(w->naive_kg[which], sd, w->observed_kg);
    }
}

static enum vh_status add_week(struct vh_hindcast *h, const struct vh_hindcast_week *w)
{
    if (h->weeks == h->room) {
        const size_t room = h->room ? 2 * h->room : 128;
        struct vh_hindcast_week *more = realloc(h->week, room * sizeof *more);
        if (!more)
            return VH_NO_MEMORY;
        h->week = more;
        h->room = room;
    }
    h->week[h->weeks++] = *w;
    return VH_OK;
}

static enum vh_status add_planting(struct hindcasting *g, const struct vh_known *known,
                                   const struct vh_ensemble *futures, size_t k, int64_t sunday)
{
    const struct vh_house *h = &known->scenario.house;
    const struct vh_futures_params *p = &g->s->parameters->futures;
    struct vh_pick_rate rate;
    enum vh_status status =
        vh_pick_rate_of(&h->records, k, h->planting[k].set_out,
                        sunday > h->planting[k].set_out ? sunday : h->planting[k].set_out, &rate);

    for (int ahead = 1; status == VH_OK && ahead <= VH_HINDCAST_AHEAD; ahead++) {
        const int64_t end = sunday + (int64_t)ahead * DAYS_PER_WEEK;
        const int64_t monday = end - DAYS_PER_WEEK + 1;
        struct vh_hindcast_week w = {.monday = monday,
                                     .weeks_ahead = ahead,
                                     .planting = k,
                                     .observed_kg =
                                         vh_pick_rate_kg(&g->came[k], monday, end, INT64_MAX)};
        if (isnan(w.observed_kg))
            continue;
        for (size_t i = 0; i < futures->members; i++)
            g->kg[i] = forecast_kg(&futures->planting[k], i, monday, end);
        score(&w, g->kg, futures->members);
        score_naive(&w, &rate, p, sunday);
        status = add_week(g->out, &w);
    }
    vh_pick_rate_clear(&rate);
    return status;
}

/* ---- one Sunday ---- */

static bool go_on(void *context, double share)
{
    const struct hindcasting *g = context;
    const double learning = 0.8; /* of the time of a Sunday */

    return !g->progress || g->progress(g->context, g->done + g->step * learning * share);
}

static enum vh_status forecast(struct hindcasting *g, const struct vh_known *known, int64_t sunday)
{
    const struct vh_scenario *s = &known->scenario;
    struct vh_learned learned = {0};
    struct vh_ensemble futures = {0};
    enum vh_status status = vh_learn(s, go_on, g, &learned, g->m);

    if (status >= 0) {
        const struct vh_ensemble_request q = {.scenario = s,
                                              .members = learned.members,
                                              .draw = s->options.draw,
                                              .threads = s->options.threads,
                                              .factors = learned.factor,
                                              .log_offset_c = learned.log_offset_c};
        status = vh_ensemble_keep(&q, &futures, g->m);
    }
    for (size_t k = 0; status >= 0 && k < s->house.plantings; k++)
        status = add_planting(g, known, &futures, k, sunday);
    vh_ensemble_clear(&futures);
    vh_learned_clear(&learned);
    return status;
}

static enum vh_status one_sunday(struct hindcasting *g, int64_t sunday)
{
    const int64_t until = sunday + VH_HINDCAST_AHEAD * DAYS_PER_WEEK + SLACK_D;
    struct vh_known known;
    enum vh_status status = vh_known_on(g->s, sunday, until, &known, g->m);

    if (known.scenario.options.members > (int)g->s->parameters->futures.hindcast_members)
        known.scenario.options.members = (int)g->s->parameters->futures.hindcast_members;
    if (status >= 0)
        status = forecast(g, &known, sunday);
    vh_known_clear(&known);
    return status;
}

/* ---- all of them ---- */

/* Was anything picked in a week that is forecast on that Sunday? */
static bool is_scored(const struct hindcasting *g, int64_t sunday)
{
    for (size_t k = 0; k < g->out->plantings; k++) {
        for (int ahead = 1; ahead <= VH_HINDCAST_AHEAD; ahead++) {
            const int64_t end = sunday + (int64_t)ahead * DAYS_PER_WEEK;
            if (!isnan(vh_pick_rate_kg(&g->came[k], end - DAYS_PER_WEEK + 1, end, INT64_MAX)))
                return true;
        }
    }
    return false;
}

static enum vh_status all_sundays(struct hindcasting *g)
{
    const struct vh_records *r = &g->s->house.records;
    int64_t first, last;
    size_t count = 0;
    enum vh_status status = VH_OK;

    if (r->rows == 0)
        return VH_OK;
    first = r->row[0].day + 6 - vh_date_weekday(r->row[0].day);
    last = r->last_day;
    for (int64_t sunday = first; sunday < last; sunday += DAYS_PER_WEEK)
        count += is_scored(g, sunday);
    g->step = count ? 1.0 / (double)count : 0.0;
    for (int64_t sunday = first; sunday < last && status >= 0; sunday += DAYS_PER_WEEK) {
        if (!is_scored(g, sunday))
            continue;
        status = one_sunday(g, sunday);
        g->done += g->step;
        if (status >= 0 && g->progress && !g->progress(g->context, g->done))
            status = VH_INTERRUPTED;
    }
    return status;
}

static enum vh_status observe(struct hindcasting *g)
{
    const struct vh_house *h = &g->s->house;
    enum vh_status status = VH_OK;

    for (size_t k = 0; k < h->plantings && status == VH_OK; k++)
        status = vh_pick_rate_of(&h->records, k, h->planting[k].set_out, h->planting[k].pull_out,
                                 &g->came[k]);
    return status;
}

static int by_week(const void *a, const void *b)
{
    const struct vh_hindcast_week *x = a, *y = b;

    if (x->monday != y->monday)
        return x->monday < y->monday ? -1 : 1;
    if (x->weeks_ahead != y->weeks_ahead)
        return x->weeks_ahead - y->weeks_ahead;
    return (x->planting > y->planting) - (x->planting < y->planting);
}

/* Per planting the naive forecast that would have served better. */
static void choose_naive(struct vh_hindcast *h)
{
    for (size_t k = 0; k < h->plantings; k++) {
        double sum[VH_NAIVES] = {0.0, 0.0};
        for (size_t i = 0; i < h->weeks; i++) {
            const double *crps = h->week[i].crps_naive_kg;
            if (h->week[i].planting != k || isnan(crps[0]) || isnan(crps[1]))
                continue;
            sum[VH_NAIVE_LAST] += crps[VH_NAIVE_LAST];
            sum[VH_NAIVE_MEAN3] += crps[VH_NAIVE_MEAN3];
        }
        h->better[k] = sum[VH_NAIVE_MEAN3] < sum[VH_NAIVE_LAST] ? VH_NAIVE_MEAN3 : VH_NAIVE_LAST;
    }
}

enum vh_status vh_hindcast(const struct vh_scenario *s, vh_progress progress, void *context,
                           struct vh_hindcast **out, struct vh_messages *m)
{
    const size_t plantings = s->house.plantings;
    struct hindcasting g = {.s = s, .progress = progress, .context = context, .m = m};
    struct vh_hindcast *h = calloc(1, sizeof *h);
    enum vh_status status = VH_NO_MEMORY;

    g.came = calloc(plantings + 1, sizeof *g.came);
    g.kg = calloc((size_t)s->options.members + 1, sizeof *g.kg);
    if (h && g.came && g.kg) {
        h->plantings = plantings;
        h->better = calloc(plantings + 1, sizeof *h->better);
        g.out = h;
        status = h->better ? observe(&g) : VH_NO_MEMORY;
        if (status >= 0)
            status = all_sundays(&g);
        if (status >= 0) {
            if (h->weeks > 0)
                qsort(h->week, h->weeks, sizeof *h->week, by_week);
            choose_naive(h);
            status = vh_hindcast_tables(s, h);
        }
    }
    for (size_t k = 0; g.came && k < plantings; k++)
        vh_pick_rate_clear(&g.came[k]);
    free(g.came);
    free(g.kg);
    if (status >= 0)
        *out = h;
    else
        vh_hindcast_free(h);
    return status < 0 ? status : VH_OK;
}

void vh_hindcast_free(struct vh_hindcast *h)
{
    if (!h)
        return;
    vh_table_free(h->table);
    vh_table_free(h->summary);
    free(h->week);
    free(h->better);
    free(h);
}

const struct vh_table *vh_hindcast_table(const struct vh_hindcast *h)
{
    return h->table;
}

const struct vh_table *vh_hindcast_summary(const struct vh_hindcast *h)
{
    return h->summary;
}
