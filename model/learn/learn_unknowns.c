/* What is unknown of a house: which of it the records can tell of, and its priors. */
#include <stdlib.h>
#include <string.h>

#include "learn_parts.h"
#include "vh_math.h"
#include "vh_random.h"

/* Purpose of the random numbers: no other part draws with it. */
#define BIAS_PURPOSE 0x0B1AU

static double prior_sd(const struct vh_learning *l, enum vh_kept_kind kind, size_t planting)
{
    return vh_member_prior(l->scenario, kind, planting == VH_LEARN_NONE ? 0 : l->past.of[planting])
        .sd;
}

double vh_learn_prior_sd(const struct vh_learning *l, const struct vh_learn_unknown *u)
{
    return u->kind == VH_LEARN_BIAS ? 1.0 : prior_sd(l, u->kind, u->planting);
}

/* ---- which ---- */

bool vh_learn_speaks_of(enum vh_record_item item, enum vh_kept_kind kind)
{
    const bool of_stem = item == VH_RECORD_STEM_CM || item == VH_RECORD_STEM_GROWTH_CM;
    const bool of_clock = item == VH_RECORD_FLOWERING_TRUSS || item == VH_RECORD_LEAVES_MADE ||
                          item == VH_RECORD_LEAVES_ON_STEM;
    const bool of_sucker = item == VH_RECORD_PULLED_SUCKER_CM;
    const bool of_waste = item == VH_RECORD_UNMARKETABLE_KG;

    switch (kind) {
    case VH_KEPT_STEM_PACE:
        return of_stem;
    case VH_KEPT_SUCKER_PACE:
        return of_sucker;
    case VH_KEPT_MARKETABLE:
        return item == VH_RECORD_UNMARKETABLE_KG;
    case VH_KEPT_TRUSS_PACE:
        return !of_sucker && !of_waste;
    case VH_KEPT_FRUIT_PACE:
    case VH_KEPT_FRUIT_MASS:
    case VH_KEPT_SET:
        return !of_stem && !of_clock && !of_sucker && !of_waste;
    case VH_KEPT_LIGHT:
    case VH_KEPT_LOG_OFFSET:
    case VH_LEARN_BIAS:
        break;
    }
    return true;
}

static bool any_speaks_of(const struct vh_learning *l, size_t planting, enum vh_kept_kind kind)
{
    for (size_t i = 0; i < l->past.values; i++)
        if (l->past.value[i].planting == planting && vh_learn_speaks_of(l->past.value[i].item, kind))
            return true;
    return false;
}

static void add(struct vh_learning *l, struct vh_learn_unknown u)
{
    l->unknown[l->unknowns++] = u;
}

static bool is_biased(const struct vh_record_params *p, enum vh_record_item item)
{
    return p->error[item].bias > 0.0 || p->error[item].bias_share > 0.0;
}

size_t vh_learn_bias_of(const struct vh_learning *l, const struct vh_learn_value *v)
{
    for (size_t u = 0; u < l->unknowns; u++)
        if (l->unknown[u].kind == VH_LEARN_BIAS && l->unknown[u].planting == v->planting &&
            l->unknown[u].item == v->item)
            return u;
    return VH_LEARN_NONE;
}

static void choose(struct vh_learning *l)
{
    const struct vh_scenario *s = l->scenario;

    add(l, (struct vh_learn_unknown){VH_KEPT_LIGHT, VH_LEARN_NONE, VH_RECORD_ITEMS});
    if (s->house.climate.last_logged_day != INT64_MIN)
        add(l, (struct vh_learn_unknown){VH_KEPT_LOG_OFFSET, VH_LEARN_NONE, VH_RECORD_ITEMS});
    for (size_t k = 0; k < l->past.scenario.house.plantings; k++)
        for (int kind = VH_KEPT_TRUSS_PACE; kind < VH_KEPT_LOG_OFFSET; kind++)
            if (prior_sd(l, (enum vh_kept_kind)kind, k) > 0.0 &&
                any_speaks_of(l, k, (enum vh_kept_kind)kind))
                add(l, (struct vh_learn_unknown){(enum vh_kept_kind)kind, k, VH_RECORD_ITEMS});
    for (size_t i = 0; i < l->past.values; i++) {
        const struct vh_learn_value *v = &l->past.value[i];
        if (is_biased(&s->parameters->record, v->item) && vh_learn_bias_of(l, v) == VH_LEARN_NONE)
            add(l, (struct vh_learn_unknown){VH_LEARN_BIAS, v->planting, v->item});
    }
}

/* ---- priors ---- */

static double drawn(const struct vh_learning *l, size_t member, const struct vh_learn_unknown *u)
{
    const size_t of = u->planting == VH_LEARN_NONE ? l->past.of[0] : l->past.of[u->planting];
    const uint64_t draw = l->scenario->options.draw;

    if (u->kind == VH_KEPT_LOG_OFFSET)
        return vh_member_log_offset_c(l->scenario, draw, member);
    if (u->kind == VH_LEARN_BIAS)
        return vh_normal(draw, (uint32_t)member, (uint32_t)u->item, BIAS_PURPOSE, (uint32_t)of);
    const struct vh_member m = vh_member_draw(l->scenario, draw, member, of);
    return vh_log(vh_member_factor(&m, u->kind));
}

enum vh_status vh_learn_unknowns_init(struct vh_learning *l)
{
    const size_t plantings = l->past.scenario.house.plantings, n = l->members;

    l->unknown = calloc(2 + VH_KEPT_LOG_OFFSET * plantings + l->past.values, sizeof *l->unknown);
    if (!l->unknown)
        return VH_NO_MEMORY;
    choose(l);
    l->state = calloc(n * l->unknowns + 1, sizeof *l->state);
    l->factor = calloc(n * plantings + 1, sizeof *l->factor);
    l->log_offset_c = calloc(n + 1, sizeof *l->log_offset_c);
    if (!l->state || !l->factor || !l->log_offset_c)
        return VH_NO_MEMORY;
    for (size_t j = 0; j < n; j++) {
        for (size_t u = 0; u < l->unknowns; u++)
            l->state[j * l->unknowns + u] = drawn(l, j, &l->unknown[u]);
        for (size_t k = 0; k < plantings; k++)
            l->factor[j * plantings + k] =
                vh_member_draw(l->scenario, l->scenario->options.draw, j, l->past.of[k]);
        l->log_offset_c[j] = vh_member_log_offset_c(l->scenario, l->scenario->options.draw, j);
    }
    return VH_OK;
}

void vh_learn_apply(struct vh_learning *l)
{
    const size_t plantings = l->past.scenario.house.plantings;
    const double most = 3.0; /* e^3: no plant is twenty times another, and the season stays sane */

    for (size_t j = 0; j < l->members; j++)
        for (size_t u = 0; u < l->unknowns; u++) {
            const struct vh_learn_unknown *k = &l->unknown[u];
            const double x = l->state[j * l->unknowns + u];
            if (k->kind == VH_KEPT_LOG_OFFSET)
                l->log_offset_c[j] = x;
            if (k->kind >= VH_KEPT_LOG_OFFSET)
                continue;
            const double factor = vh_exp(vh_clamp(x, -most, most));
            for (size_t p = 0; p < plantings; p++)
                if (k->planting == VH_LEARN_NONE || k->planting == p)
                    vh_member_set_factor(&l->factor[j * plantings + p], k->kind, factor);
        }
}
