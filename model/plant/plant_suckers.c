/* Suckers of the average stem: one axil a leaf, each on a share of the stems. */
#include "vh_plant_state.h"

#include "vh_math.h"

/* Below this share of the stems an axil counts as cleared. */
#define CLEARED 1e-6

/* Axils of leaves that open today, counting from that moment. After topping the last leaf comes on
 * a part of the stems; leaves brought from the nursery carry no sucker. */
static void open_axils(struct vh_plant *p, size_t l, double leaf_rate, double cd)
{
    const double born_at = p->setup.crop->leaf.born_at, brought = p->setup.seedling_leaves;

    for (int i = p->last_axil[l] + 1;
         i <= p->plastochron[l] + born_at && (size_t)i <= p->leaves_most; i++) {
        const double nursery = vh_clamp(brought + born_at - (i - 1), 0.0, 1.0);
        const double made = vh_clamp(p->leaves_made[l] + 1.0 + born_at - i, 0.0, 1.0);
        const double passed = leaf_rate > 0.0 ? (p->plastochron[l] + born_at - i) / leaf_rate : 1.0;
        p->sucker_on[vh_at(p, i, l)] = (1.0 - nursery) * made;
        p->sucker_cd[vh_at(p, i, l)] = -cd * (1.0 - vh_clamp(passed, 0.0, 1.0));
        p->last_axil[l] = i;
    }
    while (p->first_sucker[l] <= p->last_axil[l] &&
           p->sucker_on[vh_at(p, p->first_sucker[l], l)] <= CLEARED)
        p->first_sucker[l]++;
}

struct pulled {
    double n, cm; /* per stem: how many, and their lengths together */
};

static void pull(const struct vh_sucker_params *s, double share, double cm, double *on,
                 struct pulled *off)
{
    const double taken = *on * share * vh_sucker_long_enough(s, cm);

    off->n += taken;
    off->cm += taken * cm;
    *on -= taken;
}

void vh_plant_pull_suckers(struct vh_plant *p, size_t l, const struct vh_acts *acts,
                           struct vh_plant_day *out)
{
    const struct vh_sucker_params *s = &p->setup.crop->sucker;
    const bool visited = acts->suckers_pulled > 0.0;
    double none = 1.0, longest_cm = 0.0, area = 0.0;
    struct pulled off = {0.0, 0.0};

    for (int i = p->first_sucker[l]; i <= p->last_axil[l]; i++) {
        const size_t at = vh_at(p, i, l);
        const double w = p->sucker_g[at];
        if (w <= 0.0 || p->sucker_on[at] <= 0.0)
            continue;
        /* the longest of a stem is its oldest: that of leaf i where all older axils are cleared */
        if (none > 0.0 || visited) { /* else it is the longest nowhere, and no one takes it */
            const double cm = vh_sucker_length_cm(s, w);
            longest_cm += none * p->sucker_on[at] * cm;
            none *= 1.0 - p->sucker_on[at];
            if (visited)
                pull(s, acts->suckers_pulled, cm, &p->sucker_on[at], &off);
        }
        area += p->sucker_on[at] * vh_sucker_leaf_m2(s, w);
    }
    p->sucker_area_m2[l] = area;
    out->suckers_off = off.n;
    out->sucker_longest_cm = none < 1.0 ? longest_cm / (1.0 - none) : VH_UNKNOWN;
    out->sucker_pulled_cm = off.n > CLEARED ? off.cm / off.n : VH_UNKNOWN;
}

double vh_plant_ask_suckers(struct vh_plant *p, size_t l, const struct vh_day *day,
                            double leaf_rate)
{
    const struct vh_sucker_params *s = &p->setup.crop->sucker;
    const double pace = p->factors[l].sucker_pace, cd = day->sucker_cd * pace;
    const double rise = pace == 1.0 ? day->sucker_rise : vh_sucker_rise(s, cd * day->sink_share);
    double asked = 0.0;

    if (s->start_g <= 0.0)
        return 0.0;
    open_axils(p, l, leaf_rate, cd);
    for (int i = p->first_sucker[l]; i <= p->last_axil[l]; i++) {
        const size_t at = vh_at(p, i, l);
        double w = p->sucker_g[at], up = rise, counted = cd;
        if (w <= 0.0) {
            p->sucker_cd[at] += cd;
            counted = p->sucker_cd[at] - s->start_cd;
            if (counted <= 0.0)
                continue;
            w = p->sucker_g[at] = s->start_g;
            up = vh_sucker_rise(s, counted * day->sink_share);
        }
        const double gain = vh_sucker_gain_g(s, w, up, counted * day->sink_share);
        const double own = vh_sucker_own(s, w);
        p->sucker_gain_g[at] = gain;
        p->sucker_own[at] = own;
        asked += p->sucker_on[at] * gain * (1.0 - own);
    }
    return asked;
}

void vh_plant_grow_suckers(struct vh_plant *p, size_t l, double fed)
{
    for (int i = p->first_sucker[l]; i <= p->last_axil[l]; i++) {
        const size_t at = vh_at(p, i, l);
        const double own = p->sucker_own[at];
        p->sucker_g[at] += p->sucker_gain_g[at] * (own + (1.0 - own) * fed);
    }
}
