#include "vh_keep.h"

#include "vh_math.h"

#define HALF_STEP 0.5

static struct vh_keep at_place(const struct vh_keep_request *q, double stage,
                               enum vh_keep_place place)
{
    const struct vh_store_params *p = q->store;
    struct vh_keep k = {.stage = stage, .place = place};

    if (place == VH_KEEP_WARM) {
        k.low_c = p->ripen_low_c;
        k.high_c = p->ripen_high_c;
    } else if (!isnan(q->hold_c)) {
        k.low_c = k.high_c = q->hold_c;
    } else {
        k.low_c = p->best_low_c;
        k.high_c = p->best_high_c;
    }
    const double middle_c = 0.5 * (k.low_c + k.high_c);
    const bool colours = q->ripen && q->ripen->temps > 0 && middle_c >= q->ripen->temp_c[0];
    k.stage_then = colours ? vh_store_stage_after(p, q->ripen, stage, middle_c, q->days) : stage;
    k.lost = vh_store_lost_frac(p, q->ripen, stage, middle_c, q->days);
    k.reaches = isnan(stage) || k.stage_then >= q->wanted - HALF_STEP;
    return k;
}

/* Is k a better choice than `best`, of which `least` is the least loss of those that reach? */
static bool is_better(const struct vh_keep *k, const struct vh_keep *best, double least)
{
    if (k->reaches != best->reaches)
        return k->reaches;
    if (!k->reaches) /* none is as wanted: the nearest, then the soundest */
        return k->stage_then > best->stage_then ||
               (k->stage_then == best->stage_then && k->lost < best->lost);
    const bool even = k->lost <= least + VH_KEEP_EVEN,
               best_even = best->lost <= least + VH_KEEP_EVEN;
    if (even != best_even)
        return even;
    if (even && k->stage != best->stage)
        return k->stage > best->stage;
    return k->lost < best->lost;
}

static void best_colour(const struct vh_keep_request *q, struct vh_keep *out)
{
    enum { PLACES = 2, MOST = (VH_RIPEN_STAGES - VH_RIPEN_BREAKER) * PLACES };
    struct vh_keep pair[MOST] = {{0}};
    double least = 1.0;
    size_t pairs = 0;

    for (int stage = VH_RIPEN_RED; stage >= VH_RIPEN_BREAKER; stage--) {
        for (int place = PLACES - 1; place >= 0; place--) {
            pair[pairs] = at_place(q, stage, (enum vh_keep_place)place);
            if (pair[pairs].reaches)
                least = vh_min(least, pair[pairs].lost);
            pairs++;
        }
    }
    *out = pair[0];
    for (size_t i = 1; i < pairs; i++)
        if (is_better(&pair[i], out, least))
            *out = pair[i];
}

/* The colour is given: only where to keep it is to be chosen. */
static void best_place(const struct vh_keep_request *q, struct vh_keep *out)
{
    *out = at_place(q, q->own_stage, VH_KEEP_STORE);
    if (!q->store->ripens || isnan(q->own_stage) || out->reaches)
        return;
    const struct vh_keep warm = at_place(q, q->own_stage, VH_KEEP_WARM);
    if (is_better(&warm, out, warm.lost))
        *out = warm;
}

void vh_keep_best(const struct vh_keep_request *q, struct vh_keep *out)
{
    if (q->own_only || !q->store->ripens || !q->ripen || isnan(q->own_stage))
        best_place(q, out);
    else
        best_colour(q, out);
}

const char *vh_keep_colour_word(double stage)
{
    static const char *const word[VH_RIPEN_STAGES] = {"mature-green", "breaker",   "turning",
                                                      "pink",         "light-red", "red"};

    if (isnan(stage))
        return "";
    return word[(int)vh_clamp(floor(stage + HALF_STEP), 0.0, VH_RIPEN_RED)];
}

double vh_keep_bears_cold_d(const struct vh_store_params *p, double hold_c)
{
    if (!(hold_c < p->chill_c))
        return VH_ENDLESS;
    /* the median of a log-normal lies below its mean */
    return p->chill_d * vh_pow(2.0, (hold_c - p->chill_c) / p->chill_halving_k) /
           sqrt(1.0 + p->life_cv * p->life_cv);
}

bool vh_keep_apart(const struct vh_store_params *a, const struct vh_store_params *b)
{
    return (a->gives_ethylene && b->hurt_by_ethylene) || (b->gives_ethylene && a->hurt_by_ethylene);
}
