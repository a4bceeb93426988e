#include "vh_floor.h"

#include "scenario_parts.h"
#include "vh_math.h"

static double used_m2(const struct vh_house *h, int64_t day)
{
    double used = 0.0;

    for (size_t i = 0; i < h->plantings; i++) {
        const struct vh_planting *p = &h->planting[i];
        if (vh_planting_is_dated(p) && p->plants_per_m2 > 0.0 && day >= p->set_out &&
            day < p->pull_out)
            used += p->plants / p->plants_per_m2;
    }
    return used;
}

/* The first day after `day` on which a planting comes or goes; INT64_MAX: none. */
static int64_t next_change(const struct vh_house *h, int64_t day)
{
    int64_t next = INT64_MAX;

    for (size_t i = 0; h && i < h->plantings; i++) {
        const int64_t change[] = {h->planting[i].set_out, h->planting[i].pull_out};
        for (size_t k = 0; vh_planting_is_dated(&h->planting[i]) && k < 2; k++) {
            if (change[k] > day && change[k] < next)
                next = change[k];
        }
    }
    return next;
}

bool vh_floor_short_next(const struct vh_house *h, const struct vh_house *plan, int64_t day,
                         struct vh_floor_short *out)
{
    const double rounding = 1.0 + 1e-9; /* 48 / 2.5 on exactly 19.2 m2 is no fault */
    bool any = false;

    if (isnan(h->floor_area_m2))
        return false;
    while (day != INT64_MAX) {
        const double need = used_m2(h, day);
        const int64_t change = next_change(h, day), other = next_change(plan, day);
        const bool is_short =
            need > h->floor_area_m2 * rounding && !(plan && need <= used_m2(plan, day) * rounding);
        if (any && !is_short)
            break;
        if (is_short && !any)
            *out = (struct vh_floor_short){.from = day};
        any = is_short;
        day = change < other ? change : other;
        if (is_short) {
            out->need_m2 = vh_max(out->need_m2, need);
            out->until = day - 1;
        }
    }
    return any;
}
