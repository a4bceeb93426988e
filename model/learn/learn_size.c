/* How large an entry is taken to be, for the errors that are a share of it. */
#include <math.h>

#include "learn_parts.h"
#include "vh_math.h"
#include "vh_quantile.h"

/* Neither what was foreseen nor what came alone: small entries would weigh most. However absurd the
 * entry, no more than twice what was foreseen. */
static double between(const struct vh_learn_value *v, double mean)
{
    return vh_min(0.5 * (mean + v->value), 2.0 * fabs(mean));
}

/* Picks come in flushes. By its own size a week of few would be held for exact and one of many for
 * doubtful, and what is learnt would lie below what was picked: so an entry is as large as a time
 * as long as its own usually was among its neighbours, as far as they stray together. Usually: half
 * of them were larger, so that an absurd one leaves the others as they are. */
static double pick_level(struct vh_learning *l, const struct vh_learn_value *v)
{
    const double apart = l->scenario->parameters->futures.stray_d;
    size_t n = 0;

    for (size_t k = 0; k < l->past.values; k++) {
        const struct vh_learn_value *w = &l->past.value[k];
        if (w->planting == v->planting && w->item == v->item && !isnan(l->mean[k]) &&
            fabs(vh_learn_middle_d(w) - vh_learn_middle_d(v)) <= apart)
            l->level[n++] = between(w, l->mean[k]) / (double)(w->until - w->from + 1);
    }
    return vh_quantile(l->level, n, 0.5) * (double)(v->until - v->from + 1);
}

double vh_learn_size(struct vh_learning *l, size_t i)
{
    const struct vh_learn_value *v = &l->past.value[i];

    return vh_learn_is_pick(v) ? pick_level(l, v) : between(v, l->mean[i]);
}
