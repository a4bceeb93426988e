/* explain PLANTING TRUSS and explain DATE: the mean run that stands behind a forecast, with what
 * was learnt, worked through. */
#include <stdlib.h>

#include "vh_chain.h"
#include "vh_ensemble.h"
#include "vh_math.h"
#include "vh_stray.h"

struct asked {
    const struct vh_scenario *scenario;
    const struct vh_result *result;
    const char *planting; /* NULL: a market day */
    int truss;
    int64_t date;
    struct vh_chain **out;
    struct vh_messages *messages;
};

/* What the chain needs of each planting, in one block each. */
struct laid {
    double *light, *marketable;
    double **stray;
};

static void laid_clear(struct laid *l, size_t plantings)
{
    for (size_t k = 0; l->stray && k < plantings; k++)
        free(l->stray[k]);
    free(l->stray);
    free(l->light);
    free(l->marketable);
}

static enum vh_status lay(const struct vh_member_view *view, const struct vh_scenario *s,
                          struct laid *l)
{
    const size_t n = view->house->plantings;

    *l = (struct laid){.light = calloc(n + 1, sizeof *l->light),
                       .marketable = calloc(n + 1, sizeof *l->marketable),
                       .stray = calloc(n + 1, sizeof *l->stray)};
    if (!l->light || !l->marketable || !l->stray)
        return VH_NO_MEMORY;
    for (size_t k = 0; k < n; k++) {
        const struct vh_season *season = &view->season[k];
        l->light[k] = view->light_factor * view->factors[k].plant.light;
        l->marketable[k] = view->factors[k].marketable;
        l->stray[k] = malloc((season->days + 1) * sizeof *l->stray[k]);
        if (!l->stray[k])
            return VH_NO_MEMORY;
        vh_stray_mean(s->parameters->futures.stray_d, view->factors[k].stray, s->house.today,
                      season, l->stray[k]);
    }
    return VH_OK;
}

static bool has_kept(const struct vh_scenario *s)
{
    for (int k = 0; k <= VH_KEPT_LOG_OFFSET; k++)
        for (size_t i = 0; i < s->house.plantings; i++) {
            const double book = k == VH_KEPT_LOG_OFFSET ? 0.0 : 1.0;
            if (vh_member_prior(s, (enum vh_kept_kind)k, i).mean != book)
                return true;
        }
    return false;
}

static enum vh_status work_through(void *context, const struct vh_member_view *view)
{
    const struct asked *a = context;
    const struct vh_scenario *s = a->scenario;
    const struct vh_posterior *learnt = s->posterior;
    struct laid l;
    enum vh_status status = lay(view, s, &l);

    if (status == VH_OK) {
        const struct vh_run run = {.scenario = s,
                                   .house = view->house,
                                   .season = view->season,
                                   .light_factor = l.light,
                                   .marketable = l.marketable,
                                   .is_mean = true};
        const struct vh_chain_run chain = {
            .run = &run,
            .stray = (const double *const *)l.stray,
            .result = a->result,
            .entries = learnt ? learnt->values : 0,
            .kept = has_kept(s),
            .log_offset_c =
                learnt ? learnt->mean_log_offset_c : vh_member_prior(s, VH_KEPT_LOG_OFFSET, 0).mean,
        };
        status = a->planting ? vh_chain_of_truss(&chain, a->planting, a->truss, a->out, a->messages)
                             : vh_chain_of_market_day(&chain, a->date, a->out, a->messages);
    }
    laid_clear(&l, view->house->plantings);
    return status;
}

static enum vh_status explain(struct asked *a)
{
    const struct vh_ensemble_request mean = {.scenario = a->scenario,
                                             .members = 1,
                                             .threads = 1,
                                             .mean_run = true,
                                             .seen = work_through,
                                             .context = a};

    return vh_ensemble_run(&mean, a->messages);
}

enum vh_status vh_explain_truss(const struct vh_scenario *s, const struct vh_result *result,
                                const char *planting, int truss, struct vh_chain **out,
                                struct vh_messages *m)
{
    struct asked a = {.scenario = s,
                      .result = result,
                      .planting = planting,
                      .truss = truss,
                      .out = out,
                      .messages = m};

    return explain(&a);
}

enum vh_status vh_explain_market_day(const struct vh_scenario *s, const struct vh_result *result,
                                     int64_t date, struct vh_chain **out, struct vh_messages *m)
{
    struct asked a = {.scenario = s, .result = result, .date = date, .out = out, .messages = m};

    return explain(&a);
}
