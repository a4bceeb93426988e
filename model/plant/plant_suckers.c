/* Suckers of the average stem: one axil a leaf, each on a share of the stems. */
#include "vh_plant_state.h"

#include "vh_math.h"

/* Below this share of the stems an axil counts as cleared. */
#define CLEARED 1e-6

/* Axils of leaves that open today, counting from that moment. After topping the last leaf comes on
 * a part of the stems; leaves brought from the nursery carry no sucker. */
static void open_axils(struct vh_plant *p, size_t l, double leaf_rate, double cd)
{
    const double born_at = p->setup.crop->leaf.born_at, brought = p->brought[l];

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

/* Lowest and last axil that some lane has a growing sucker in; and each lane's lowest and last, as
 * wide as what lies beside them. */
struct axils {
    int first, last;
    double from[VH_LANES], to[VH_LANES];
};

VH_KERNEL struct axils growing(const struct vh_plant *p, const size_t lanes)
{
    struct axils a = {
        vh_lowest(p->first_sucker, lanes), vh_highest(p->first_bud, lanes) - 1, {0.0}, {0.0}};

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        a.from[l] = p->first_sucker[l];
        a.to[l] = p->first_bud[l] - 1;
    }
    return a;
}

VH_KERNEL void pull_suckers(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const struct vh_sucker_params s = y->crop->sucker;
    const struct axils a = growing(p, lanes);
    /* the longest of a stem is its oldest: that of leaf i where all older axils are cleared */
    double none[VH_LANES], longest_cm[VH_LANES], area[VH_LANES], off_n[VH_LANES], off_cm[VH_LANES],
        pulled[VH_LANES];

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        none[l] = 1.0;
        longest_cm[l] = area[l] = off_n[l] = off_cm[l] = 0.0;
        pulled[l] = y->acts[l].suckers_pulled;
    }
    for (int i = a.first; i <= a.last; i++) {
        const double number = i;
        const double *w = p->sucker_g + vh_row(i, lanes);
        double *restrict on = p->sucker_on + vh_row(i, lanes);
        VH_APART
        for (size_t l = 0; l < lanes; l++) {
            const bool is_on = (number >= a.from[l]) & (w[l] > 0.0) & (on[l] > 0.0);
            if (lanes == 1 && !is_on)
                continue;
            const bool visited = is_on & (pulled[l] > 0.0);
            const bool counts = is_on & (none[l] > 0.0); /* else it is the longest nowhere */
            const double cm = vh_sucker_length_cm(&s, w[l]);
            const double longer = longest_cm[l] + none[l] * on[l] * cm;
            const double rest = none[l] * (1.0 - on[l]);
            const double taken = on[l] * pulled[l] * vh_sucker_long_enough(&s, cm);
            const double n = off_n[l] + taken, length = off_cm[l] + taken * cm;
            const double left = vh_select(visited, on[l] - taken, on[l]);
            const double more = area[l] + left * vh_sucker_leaf_m2(&s, w[l]);
            longest_cm[l] = vh_select(counts | visited, longer, longest_cm[l]);
            none[l] = vh_select(counts | visited, rest, none[l]);
            off_n[l] = vh_select(visited, n, off_n[l]);
            off_cm[l] = vh_select(visited, length, off_cm[l]);
            area[l] = vh_select(is_on, more, area[l]);
            on[l] = left;
        }
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        p->sucker_area_m2[l] = area[l];
        y->out[l].suckers_off = off_n[l];
        y->out[l].sucker_longest_cm = none[l] < 1.0 ? longest_cm[l] / (1.0 - none[l]) : VH_UNKNOWN;
        y->out[l].sucker_pulled_cm = off_n[l] > CLEARED ? off_cm[l] / off_n[l] : VH_UNKNOWN;
    }
}
VH_LANED(vh_plant_pull_suckers, pull_suckers);

/* Buds in the axils of young leaves wait for their warmth; those that got it today are suckers from
 * now on. What these ask is added to `asked`: they stand above all others. */
static double wake_buds(struct vh_today *y, size_t l, double cd, double asked)
{
    struct vh_plant *p = y->p;
    const struct vh_sucker_params *s = &y->crop->sucker;

    for (int i = p->first_bud[l]; i <= p->last_axil[l]; i++) {
        const size_t at = vh_at(p, i, l);
        p->sucker_cd[at] += cd;
        const double counted = p->sucker_cd[at] - s->start_cd;
        if (counted <= 0.0)
            continue;
        const double w = p->sucker_g[at] = s->start_g, share = counted * y->sink_share[l];
        const double gain = vh_sucker_gain_g(s, w, vh_sucker_rise(s, share), share);
        const double own = vh_sucker_own(s, w);
        p->sucker_gain_g[at] = gain;
        p->sucker_own[at] = own;
        p->first_bud[l] = i + 1;
        asked += p->sucker_on[at] * gain * (1.0 - own);
    }
    return asked;
}

VH_KERNEL void ask_suckers(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const struct vh_sucker_params s = y->crop->sucker;
    double cd[VH_LANES], rise[VH_LANES], asked[VH_LANES], pace[VH_LANES];

    if (s.start_g <= 0.0)
        return;
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        cd[l] = y->day[l]->sucker_cd;
        pace[l] = p->factors[l].sucker_pace;
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        cd[l] *= pace[l];
        rise[l] = vh_sucker_rise(&s, cd[l] * y->sink_share[l]);
        asked[l] = 0.0;
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        open_axils(p, l, y->leaf_rate[l], cd[l]);
        /* a bud cleared before it began to grow is passed over for good */
        if (p->first_bud[l] < p->first_sucker[l])
            p->first_bud[l] = p->first_sucker[l];
    }
    const struct axils a = growing(p, lanes);
    for (int i = a.first; i <= a.last; i++) {
        const double number = i;
        const size_t at = vh_row(i, lanes);
        const double *w = p->sucker_g + at, *on = p->sucker_on + at;
        double *restrict gains = p->sucker_gain_g + at, *restrict owns = p->sucker_own + at;
        VH_APART
        for (size_t l = 0; l < lanes; l++) {
            const bool grows = lanes == 1 || ((number >= a.from[l]) & (number <= a.to[l]));
            const double gain = vh_sucker_gain_g(&s, w[l], rise[l], cd[l] * y->sink_share[l]);
            const double own = vh_sucker_own(&s, w[l]);
            const double sum = asked[l] + on[l] * gain * (1.0 - own);
            gains[l] = vh_select(grows, gain, gains[l]);
            owns[l] = vh_select(grows, own, owns[l]);
            asked[l] = vh_select(grows, sum, asked[l]);
        }
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++)
        y->sucker_demand_g[l] = wake_buds(y, l, cd[l], asked[l]);
}
VH_LANED(vh_plant_ask_suckers, ask_suckers);

VH_KERNEL void grow_suckers(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const struct axils a = growing(p, lanes);

    for (int i = a.first; i <= a.last; i++) {
        const double number = i;
        const size_t at = vh_row(i, lanes);
        const double *gain = p->sucker_gain_g + at, *own = p->sucker_own + at;
        double *restrict w = p->sucker_g + at;
        VH_APART
        for (size_t l = 0; l < lanes; l++) {
            const bool grows = lanes == 1 || ((number >= a.from[l]) & (number <= a.to[l]));
            const double grown = w[l] + gain[l] * (own[l] + (1.0 - own[l]) * y->fed[l]);
            w[l] = vh_select(grows, grown, w[l]);
        }
    }
}
VH_LANED(vh_plant_grow_suckers, grow_suckers);
