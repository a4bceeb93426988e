/* How what was learnt is told: before and after, from what, and whether the records hold one factor
 * apart from the others. */
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "learn_parts.h"
#include "vh_math.h"
#include "vh_quantile.h"
#include "vh_result.h"

enum {
    PLANTING,
    NAME,
    UNIT,
    BEFORE,
    BEFORE_LOW,
    BEFORE_HIGH,
    AFTER,
    AFTER_LOW,
    AFTER_HIGH,
    TOLD_APART,
    SEEN_IN,
    ENTRIES
};

/* Below so much of a spread the records say something; a factor that would be known twice as well
 * if the others were, is not told apart from them; those count that go against it so closely. */
#define KNOWN_BELOW 0.75
#define LITTLE_ABOVE 0.9
#define BOUND_BELOW 0.6
#define WELL_KNOWN_BELOW 0.35
#define CLOSE 0.25
#define NAMES_MOST 3
#define TENTH 1.2815515655446004 /* standard deviations to the 10th and the 90th percentile */

struct apart {
    size_t n;
    size_t *of; /* [n] index among the unknowns: all but biases */
    double *sd; /* [n] of the posterior */
    gsl_matrix *precision;
};

static void apart_clear(struct apart *a)
{
    free(a->of);
    free(a->sd);
    gsl_matrix_free(a->precision);
}

static double mean_of(const struct vh_learning *l, size_t u)
{
    double sum = 0.0;

    for (size_t j = 0; j < l->members; j++)
        sum += l->state[j * l->unknowns + u];
    return sum / (double)l->members;
}

static double covariance(const struct vh_learning *l, size_t u, size_t w)
{
    const double mean_u = mean_of(l, u), mean_w = mean_of(l, w);
    double sum = 0.0;

    for (size_t j = 0; j < l->members; j++)
        sum += (l->state[j * l->unknowns + u] - mean_u) * (l->state[j * l->unknowns + w] - mean_w);
    return sum / (double)(l->members - 1);
}

/* Correlations of a few members are partly chance: they are drawn together by as much. */
static void fill_correlations(const struct vh_learning *l, struct apart *a)
{
    const double chance = vh_min(0.9, (double)a->n / (double)l->members);

    for (size_t i = 0; i < a->n; i++)
        a->sd[i] = sqrt(covariance(l, a->of[i], a->of[i]));
    for (size_t i = 0; i < a->n; i++)
        for (size_t k = 0; k <= i; k++) {
            const double spreads = a->sd[i] * a->sd[k];
            const double r =
                spreads > 0.0 ? (1.0 - chance) * covariance(l, a->of[i], a->of[k]) / spreads : 0.0;
            gsl_matrix_set(a->precision, i, k, i == k ? 1.0 : r);
            gsl_matrix_set(a->precision, k, i, i == k ? 1.0 : r);
        }
}

static enum vh_status apart_init(const struct vh_learning *l, struct apart *a)
{
    *a = (struct apart){.of = calloc(l->unknowns + 1, sizeof *a->of),
                        .sd = calloc(l->unknowns + 1, sizeof *a->sd)};
    if (!a->of || !a->sd)
        return VH_NO_MEMORY;
    for (size_t u = 0; u < l->unknowns; u++)
        if (l->unknown[u].kind != VH_LEARN_BIAS)
            a->of[a->n++] = u;
    a->precision = gsl_matrix_alloc(a->n, a->n);
    if (!a->precision)
        return VH_NO_MEMORY;
    gsl_error_handler_t *before = gsl_set_error_handler_off(); /* it would end the process */
    enum vh_status status = VH_OK;
    fill_correlations(l, a);
    if (gsl_linalg_cholesky_decomp1(a->precision) || gsl_linalg_cholesky_invert(a->precision))
        status = VH_NO_NUMBER;
    gsl_set_error_handler(before);
    return status;
}

/* ---- words ---- */

static void add_name(const struct vh_learning *l, size_t u, size_t beside, size_t count, char *text,
                     size_t room)
{
    const struct vh_learn_unknown *k = &l->unknown[u];
    const size_t used = strlen(text);
    const bool is_other =
        k->planting != VH_LEARN_NONE && k->planting != l->unknown[beside].planting;

    snprintf(text + used, room - used, "%s%s%s%s", count > 0 ? ", " : "", vh_kept_name(k->kind),
             is_other ? " of " : "", is_other ? l->past.planting[k->planting].name : "");
}

/* Those that most nearly make up for it: what it gains they lose. */
static void name_others(const struct vh_learning *l, const struct apart *a, size_t i, char *text,
                        size_t room)
{
    const double own = gsl_matrix_get(a->precision, i, i);
    double below = 2.0;

    snprintf(text, room, "no: with ");
    for (size_t count = 0; count < NAMES_MOST; count++) {
        double best = 0.0;
        size_t at = a->n;
        for (size_t k = 0; k < a->n; k++) {
            const double partial = fabs(gsl_matrix_get(a->precision, i, k)) /
                                   sqrt(own * gsl_matrix_get(a->precision, k, k));
            if (k != i && partial > best && partial < below) {
                best = partial;
                at = k;
            }
        }
        if (at == a->n || (count > 0 && best < CLOSE))
            return;
        add_name(l, a->of[at], a->of[i], count, text, room);
        below = best;
    }
}

static void told_apart(const struct vh_learning *l, const struct apart *a, size_t i, char *text,
                       size_t room)
{
    const double left = a->sd[i] / vh_learn_prior_sd(l, &l->unknown[a->of[i]]);
    const double alone = 1.0 / sqrt(gsl_matrix_get(a->precision, i, i));

    if (left > LITTLE_ABOVE && alone > BOUND_BELOW)
        snprintf(text, room, "no: the records hardly speak of it");
    else if (alone <= BOUND_BELOW && left > WELL_KNOWN_BELOW)
        name_others(l, a, i, text, room);
    else if (left > KNOWN_BELOW)
        snprintf(text, room, "no: more entries are needed");
    else
        snprintf(text, room, "yes");
}

/* ---- from what ---- */

static size_t entries(const struct vh_learning *l, size_t planting, enum vh_record_item item)
{
    size_t n = 0;

    for (size_t i = 0; i < l->past.values; i++)
        n += l->past.value[i].item == item &&
             (planting == VH_LEARN_NONE || l->past.value[i].planting == planting);
    return n;
}

/* The items that tell most of a mechanism, the best first. */
static enum vh_record_item best_item(const struct vh_learning *l, const struct vh_learn_unknown *u)
{
    enum { MOST = 5 };
    static const enum vh_record_item best[VH_KEPT_LOG_OFFSET + 1][MOST] = {
        [VH_KEPT_TRUSS_PACE] = {VH_RECORD_FLOWERING_TRUSS, VH_RECORD_LEAVES_MADE,
                                VH_RECORD_PICKING_TRUSS},
        [VH_KEPT_FRUIT_PACE] = {VH_RECORD_FLOWER_TO_PICK_D, VH_RECORD_PICKING_TRUSS,
                                VH_RECORD_BREAKER_FRUITS, VH_RECORD_TURNING_FRUITS},
        [VH_KEPT_FRUIT_MASS] = {VH_RECORD_FRUIT_G, VH_RECORD_FRUIT_MM},
        [VH_KEPT_SET] = {VH_RECORD_FRUITS_SET, VH_RECORD_PICKED_FRUITS},
        [VH_KEPT_STEM_PACE] = {VH_RECORD_STEM_CM, VH_RECORD_STEM_GROWTH_CM},
        [VH_KEPT_SUCKER_PACE] = {VH_RECORD_PULLED_SUCKER_CM},
        [VH_KEPT_MARKETABLE] = {VH_RECORD_UNMARKETABLE_KG},
        [VH_KEPT_LOG_OFFSET] = {VH_RECORD_FLOWERING_TRUSS},
    };

    for (size_t i = 0; i < MOST; i++)
        if (best[u->kind][i] != VH_RECORD_PICKED_KG &&
            entries(l, u->planting, best[u->kind][i]) > 0)
            return best[u->kind][i];
    return entries(l, u->planting, VH_RECORD_PICKED_KG) >=
                   entries(l, u->planting, VH_RECORD_PICKED_FRUITS)
               ? VH_RECORD_PICKED_KG
               : VH_RECORD_PICKED_FRUITS;
}

/* ---- rows ---- */

/* As the book, or another season, has it. */
static void set_before(const struct vh_learning *l, const struct vh_learn_unknown *u,
                       struct vh_table *t)
{
    const struct vh_prior prior = vh_member_prior(
        l->scenario, u->kind, u->planting == VH_LEARN_NONE ? 0 : l->past.of[u->planting]);
    const double wide = TENTH * prior.sd, median = prior.mean * vh_exp(-prior.sd * prior.sd / 2.0);
    const bool is_offset = u->kind == VH_KEPT_LOG_OFFSET;

    vh_table_set_number(t, BEFORE, prior.mean);
    vh_table_set_number(t, BEFORE_LOW, is_offset ? prior.mean - wide : median * vh_exp(-wide));
    vh_table_set_number(t, BEFORE_HIGH, is_offset ? prior.mean + wide : median * vh_exp(wide));
}

static void set_after(const struct vh_learning *l, size_t u, double *room, struct vh_table *t)
{
    double sum = 0.0, q[VH_QUANTILES];

    for (size_t j = 0; j < l->members; j++) {
        const double x = l->state[j * l->unknowns + u];
        room[j] = l->unknown[u].kind == VH_KEPT_LOG_OFFSET ? x : vh_exp(x);
        sum += room[j];
    }
    vh_quantiles(room, l->members, q);
    vh_table_set_number(t, AFTER, sum / (double)l->members);
    vh_table_set_number(t, AFTER_LOW, q[VH_P10]);
    vh_table_set_number(t, AFTER_HIGH, q[VH_P90]);
}

static enum vh_status add_row(const struct vh_learning *l, const struct apart *a, size_t i,
                              double *room, struct vh_table *t)
{
    const struct vh_learn_unknown *u = &l->unknown[a->of[i]];
    const char *planting = u->planting == VH_LEARN_NONE ? "" : l->past.planting[u->planting].name;
    const enum vh_record_item item = best_item(l, u);
    char words[160];

    told_apart(l, a, i, words, sizeof words);
    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, PLANTING, planting) != VH_OK ||
        vh_table_set_text(t, NAME, vh_kept_name(u->kind)) != VH_OK ||
        vh_table_set_text(t, UNIT, u->kind == VH_KEPT_LOG_OFFSET ? "K" : "1") != VH_OK ||
        vh_table_set_text(t, TOLD_APART, words) != VH_OK ||
        vh_table_set_text(t, SEEN_IN, vh_record_item_name(item)) != VH_OK)
        return VH_NO_MEMORY;
    set_before(l, u, t);
    set_after(l, a->of[i], room, t);
    vh_table_set_number(t, ENTRIES, (double)entries(l, u->planting, item));
    return VH_OK;
}

enum vh_status vh_learn_tell(const struct vh_learning *l, struct vh_table **out)
{
    struct vh_table *t = vh_result_table_new(VH_TABLE_LEARNED);
    double *room = calloc(l->members + 1, sizeof *room);
    struct apart a = {.n = 0};
    enum vh_status status = t && room ? VH_OK : VH_NO_MEMORY;

    if (status == VH_OK && l->past.values > 0)
        status = apart_init(l, &a);
    for (size_t i = 0; i < a.n && status == VH_OK; i++)
        status = add_row(l, &a, i, room, t);
    apart_clear(&a);
    free(room);
    if (status == VH_OK)
        *out = t;
    else
        vh_table_free(t);
    return status;
}
