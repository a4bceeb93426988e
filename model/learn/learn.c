#include "vh_learn.h"

#include <stdlib.h>
#include <string.h>

#include "learn_parts.h"
#include "vh_math.h"
#include "vh_result.h"
#include "vh_smoother.h"

#define DAYS_PER_WEEK 7.0

/* ---- a pass: all members as far as the records go ---- */

static enum vh_status see(void *context, const struct vh_member_view *view)
{
    struct vh_learning *l = context;
    double *predicted = l->predicted + view->member * l->past.values;

    for (size_t i = 0; i < l->past.values; i++) {
        const struct vh_learn_value *v = &l->past.value[i];
        predicted[i] = vh_learn_predict(v, view->house, &view->season[v->planting],
                                        view->factors[v->planting].marketable);
    }
    return VH_OK;
}

struct passing {
    vh_progress progress;
    void *context;
    double done, share;
};

static bool pass_progress(void *context, double share_done)
{
    const struct passing *p = context;

    return p->progress(p->context, p->done + p->share * share_done);
}

static enum vh_status run(struct vh_learning *l, struct passing *p, struct vh_messages *m)
{
    const struct vh_run_options *o = &l->scenario->options;
    const struct vh_ensemble_request q = {.scenario = &l->past.scenario,
                                          .members = l->members,
                                          .draw = o->draw,
                                          .threads = o->threads,
                                          .factors = l->factor,
                                          .log_offset_c = l->log_offset_c,
                                          .seen = see,
                                          .context = l,
                                          .progress = p->progress ? pass_progress : NULL,
                                          .progress_context = p};
    vh_learn_apply(l);
    return vh_ensemble_run(&q, m);
}

/* ---- what was observed, against what is foreseen ---- */

/* Mean of those members that have a number, who are also given it; NaN where fewer than half have.
 */
static void fill_mean(struct vh_learning *l, size_t i)
{
    const size_t n = l->past.values;
    double sum = 0.0;
    size_t known = 0;

    for (size_t j = 0; j < l->members; j++)
        if (!isnan(l->predicted[j * n + i])) {
            sum += l->predicted[j * n + i];
            known++;
        }
    const double mean = known > 0 ? sum / (double)known : 0.0;
    for (size_t j = 0; j < l->members; j++)
        if (isnan(l->predicted[j * n + i]))
            l->predicted[j * n + i] = mean;
    l->mean[i] = 2 * known >= l->members ? mean : VH_UNKNOWN;
}

/* Says nothing in this pass. */
static void pass_over(struct vh_learning *l, size_t i)
{
    for (size_t j = 0; j < l->members; j++)
        l->predicted[j * l->past.values + i] = l->past.value[i].value;
    l->sd[i] = 1.0;
    l->size[i] = 0.0;
}

static bool is_of_fruit(enum vh_record_item item)
{
    return vh_record_is_pick(item) || item == VH_RECORD_FRUIT_G;
}

struct vh_learn_error vh_learn_error_of(const struct vh_learning *l, const struct vh_learn_value *v,
                                        double size)
{
    const struct vh_record_params *p = &l->scenario->parameters->record;
    const double weeks = (double)(l->scenario->house.today - v->until) / DAYS_PER_WEEK;
    double model = vh_record_model_sd(p, v->item, size), drift = 0.0;

    if (vh_record_is_pick(v->item) || v->item == VH_RECORD_UNMARKETABLE_KG)
        model *= sqrt(DAYS_PER_WEEK / (double)(v->until - v->from + 1));
    if (is_of_fruit(v->item))
        drift = p->drift_per_sqrt_week * size * sqrt(vh_max(weeks, 0.0));
    return (struct vh_learn_error){v->entry_sd * v->entry_sd + drift * drift, model * model};
}

/* Of the entry, of the model in this house, and of what has changed since. */
static double error_of(const struct vh_learning *l, const struct vh_learn_value *v, double size)
{
    const struct vh_learn_error e = vh_learn_error_of(l, v, size);
    const double far = vh_learn_is_pick(v) ? l->unsteady[v->planting] : 1.0;

    return sqrt(e.own + far * far * e.model);
}

/* Where an entry lies q times as far from all futures as `far` allows, its variance is taken as q^4
 * times as great: one absurd entry moves little, and less the more absurd it is. Each pass looks
 * anew, so that a house in which all entries are far off is followed all the same. */
static double weighed_down(double sd, double spread2, double off, double far)
{
    const double own = sd * sd + spread2, q2 = off * off / (far * far * own);

    return q2 > 1.0 ? sqrt(own * q2 * q2 - spread2) : sd;
}

/* The bias of its item is laid on what the seasons say. */
static void prepare_value(struct vh_learning *l, size_t i)
{
    const struct vh_record_params *p = &l->scenario->parameters->record;
    const struct vh_learn_value *v = &l->past.value[i];
    const size_t n = l->past.values, bias = vh_learn_bias_of(l, v);
    const double mean = l->mean[i];
    double sum = 0.0, squares = 0.0;

    l->observed[i] = v->value;
    if (isnan(mean)) {
        pass_over(l, i);
        return;
    }
    const double bias_sd = vh_record_bias_sd(p, v->item, mean);
    for (size_t j = 0; j < l->members; j++) {
        double *x = &l->predicted[j * n + i];
        if (bias != VH_LEARN_NONE)
            *x += bias_sd * l->state[j * l->unknowns + bias];
        sum += *x - mean;
        squares += (*x - mean) * (*x - mean);
    }
    const double members = (double)l->members, shift = sum / members;
    const double spread2 = squares / members - shift * shift;
    const double size = vh_learn_size(l, i);
    const double strays = vh_learn_stray_sd(l, v) * size, own = error_of(l, v, size);
    l->sd[i] = weighed_down(own, spread2 + strays * strays, v->value - mean - shift, p->far);
    l->size[i] = l->sd[i] > own ? 0.0 : size; /* a slip has nothing in common with its neighbours */
}

static void prepare_values(struct vh_learning *l)
{
    for (size_t i = 0; i < l->past.values; i++)
        fill_mean(l, i);
    for (size_t i = 0; i < l->past.values; i++)
        prepare_value(l, i);
}

/* How far the picks stray in this house, and their errors again by that. */
static enum vh_status weigh_house(struct vh_learning *l)
{
    const enum vh_status status = vh_learn_unsteady(l);

    for (size_t i = 0; i < l->past.values && status == VH_OK; i++)
        if (l->size[i] > 0.0 && vh_learn_is_pick(&l->past.value[i]))
            prepare_value(l, i);
    return status;
}

/* ---- the spread that stays ---- */

static void mean_and_sd(const struct vh_learning *l, size_t u, double *mean, double *sd)
{
    double sum = 0.0, squares = 0.0;

    for (size_t j = 0; j < l->members; j++)
        sum += l->state[j * l->unknowns + u];
    *mean = sum / (double)l->members;
    for (size_t j = 0; j < l->members; j++) {
        const double off = l->state[j * l->unknowns + u] - *mean;
        squares += off * off;
    }
    *sd = sqrt(squares / (double)(l->members - 1));
}

/* Learning leaves a share of the prior's spread, however much was written down. */
static void keep_spread(struct vh_learning *l)
{
    const double left = l->scenario->parameters->record.spread_left;

    for (size_t u = 0; u < l->unknowns; u++) {
        const double least = left * vh_learn_prior_sd(l, &l->unknown[u]);
        double mean, sd;
        mean_and_sd(l, u, &mean, &sd);
        if (l->unknown[u].kind == VH_LEARN_BIAS || sd <= 0.0 || sd >= least)
            continue;
        for (size_t j = 0; j < l->members; j++) {
            double *x = &l->state[j * l->unknowns + u];
            *x = mean + (*x - mean) * least / sd;
        }
    }
}

/* ---- all passes ---- */

static enum vh_status passes(struct vh_learning *l, vh_progress progress, void *context,
                             struct vh_messages *m)
{
    const int count = (int)l->scenario->parameters->record.passes;
    struct passing p = {progress, context, 0.0, 1.0 / (count + 1)};
    enum vh_status status = VH_OK;

    for (int pass = 0; pass < count && status == VH_OK; pass++) {
        p.done = (double)pass / (count + 1);
        status = run(l, &p, m);
        if (status != VH_OK)
            break;
        prepare_values(l);
        if (pass == 0)
            status = weigh_house(l);
        if (status == VH_OK)
            status = vh_learn_decorrelate(l);
        if (status != VH_OK)
            break;
        const struct vh_smoother s = {.members = l->members,
                                      .unknowns = l->unknowns,
                                      .observations = l->past.values,
                                      .unknown = l->state,
                                      .predicted = l->predicted,
                                      .observed = l->observed,
                                      .sd = l->sd,
                                      .alpha = count,
                                      .doubt = l->scenario->parameters->record.chance_times,
                                      .draw = l->scenario->options.draw,
                                      .pass = (uint32_t)pass};
        status = vh_smoother_update(&s);
    }
    keep_spread(l);
    p.done = (double)count / (count + 1);
    if (status == VH_OK)
        status = run(l, &p, m);
    if (status != VH_OK)
        return status;
    prepare_values(l);
    return vh_learn_stray(l);
}

static enum vh_status learning_init(const struct vh_scenario *s, struct vh_learning *l)
{
    *l = (struct vh_learning){.scenario = s, .members = (size_t)s->options.members};
    enum vh_status status = vh_learn_past_init(s, &l->past);
    const bool enough = (double)l->members >= s->parameters->record.members_least;

    if (status != VH_OK || l->past.values == 0 || !enough) {
        l->past.values = 0;
        return status;
    }
    status = vh_learn_unknowns_init(l);
    l->predicted = calloc(l->members * l->past.values, sizeof *l->predicted);
    l->observed = calloc(l->past.values, sizeof *l->observed);
    l->sd = calloc(l->past.values, sizeof *l->sd);
    l->size = calloc(l->past.values, sizeof *l->size);
    l->mean = calloc(l->past.values, sizeof *l->mean);
    l->level = calloc(l->past.values, sizeof *l->level);
    l->unsteady = calloc(l->past.scenario.house.plantings + 1, sizeof *l->unsteady);
    for (size_t k = 0; l->unsteady && k < l->past.scenario.house.plantings; k++)
        l->unsteady[k] = 1.0;
    const bool has_room =
        l->unsteady && l->predicted && l->observed && l->sd && l->size && l->mean && l->level;
    return has_room ? status : VH_NO_MEMORY;
}

static void learning_clear(struct vh_learning *l)
{
    vh_learn_past_clear(&l->past);
    free(l->unknown);
    free(l->state);
    free(l->predicted);
    free(l->observed);
    free(l->sd);
    free(l->size);
    free(l->mean);
    free(l->level);
    free(l->factor);
    free(l->log_offset_c);
    free(l->unsteady);
}

/* The priors, with what was learnt laid over the plantings that have records; the light and the
 * log's offset are of the whole house. */
static enum vh_status hand_out(const struct vh_learning *l, struct vh_learned *out)
{
    const struct vh_scenario *s = l->scenario;
    const size_t all = s->house.plantings, some = l->past.scenario.house.plantings;
    const size_t members = l->members;

    *out = (struct vh_learned){.members = members, .plantings = all, .values = l->past.values};
    out->factor = calloc(members * all + 1, sizeof *out->factor);
    out->log_offset_c = calloc(members + 1, sizeof *out->log_offset_c);
    if (!out->factor || !out->log_offset_c)
        return VH_NO_MEMORY;
    for (size_t j = 0; j < members; j++) {
        for (size_t k = 0; k < all; k++)
            out->factor[j * all + k] = vh_member_draw(s, s->options.draw, j, k);
        out->log_offset_c[j] = l->past.values > 0 ? l->log_offset_c[j] : 0.0;
        for (size_t k = 0; k < all && l->past.values > 0; k++)
            out->factor[j * all + k].plant.light = l->factor[j * some].plant.light;
        for (size_t k = 0; k < some && l->past.values > 0; k++)
            out->factor[j * all + l->past.of[k]] = l->factor[j * some + k];
    }
    return vh_learn_tell(l, &out->table);
}

enum vh_status vh_learn(const struct vh_scenario *s, vh_progress progress, void *context,
                        struct vh_learned *out, struct vh_messages *m)
{
    struct vh_learning l;
    enum vh_status status = learning_init(s, &l);

    *out = (struct vh_learned){.members = 0};
    if (status == VH_OK && l.past.values > 0)
        status = passes(&l, progress, context, m);
    if (status == VH_OK)
        status = hand_out(&l, out);
    if (status != VH_OK)
        vh_learned_clear(out);
    learning_clear(&l);
    return status;
}

void vh_learned_clear(struct vh_learned *l)
{
    free(l->factor);
    free(l->log_offset_c);
    vh_table_free(l->table);
    *l = (struct vh_learned){.members = 0};
}
