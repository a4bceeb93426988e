#include "vh_storeroom.h"

#include "vh_math.h"

bool vh_market_day_for(const struct vh_market *m, int64_t pick, int64_t *day)
{
    for (size_t i = 0; m->given && i < m->days; i++) {
        if (m->day[i] >= pick) {
            *day = m->day[i];
            return true;
        }
    }
    return false;
}

/* stage: s at the pick, of fruit that has colours; own_only: it is not hers to choose. */
static bool keep(const struct vh_house *h, const struct vh_planting *p, int64_t pick, double stage,
                 bool own_only, struct vh_keep *out)
{
    const bool by_size = p->crop->fruit.pick_by == VH_PICK_BY_MASS;
    const bool has_colours = h->colours.red > 0.0;
    int64_t day;

    if (!vh_market_day_for(&h->market, pick, &day))
        return false;
    const struct vh_keep_request q = {
        .store = &p->crop->store,
        .ripen = h->ripen,
        .days = (double)(day - pick),
        .wanted = VH_RIPEN_RED,
        .own_stage = by_size || !has_colours ? VH_UNKNOWN : vh_store_colour_of(&h->colours, stage),
        .own_only = by_size || own_only,
        .hold_c = p->policy.hold_c,
    };
    vh_keep_best(&q, out);
    return true;
}

bool vh_storeroom_keep(const struct vh_house *h, const struct vh_planting *p, int64_t pick,
                       struct vh_keep *out)
{
    return keep(h, p, pick, p->policy.pick_stage, p->policy.whole_truss, out);
}

double vh_storeroom_lost(const struct vh_house *h, const struct vh_planting *p, int64_t pick,
                         double early, const struct vh_keep *others)
{
    struct vh_keep k;

    if (!(early > 0.0) || !keep(h, p, pick, p->policy.last_stage, true, &k))
        return others->lost;
    return (1.0 - early) * others->lost + early * k.lost;
}

bool vh_storeroom_keep_known(const struct vh_house *h, const struct vh_planting *p, int64_t pick,
                             struct vh_waits *known, struct vh_keep *out)
{
    int64_t day;

    if (!vh_market_day_for(&h->market, pick, &day))
        return false;
    const int64_t days = day - pick;
    if (days >= VH_WAITS_KEPT)
        return vh_storeroom_keep(h, p, pick, out);
    if (!known->is_known[days])
        known->is_known[days] = vh_storeroom_keep(h, p, pick, &known->keep[days]);
    *out = known->keep[days];
    return true;
}
