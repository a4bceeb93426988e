/* Leaves of the average stem: how they expand, and how the oldest are taken. */
#include "vh_plant_state.h"

#include "vh_math_parts.h"

/* Leaves that may expand at once: those of `expand` plastochrons and what one day adds; whole
 * turns. */
#define VH_LEAVES_GROWING 64

/* What all leaves have in common today. */
struct leaf_day {
    struct vh_leaf_params leaf;
    double made, gone;
};

/* Area that n leaves would gain; they then stand at what they have expanded to. Topping cuts the
 * last one short; what was taken grows no more, nor do stems that came later carry it. */
VH_KERNEL void want_row(const struct leaf_day *restrict d, size_t n, const double *restrict number,
                        const double *restrict to, const double *restrict lacking,
                        double *restrict at, double *restrict want_m2)
{
    const struct vh_leaf_params *leaf = &d->leaf;

    for (size_t k = 0; k < n; k++) {
        const double made =
            vh_clamp_straight(d->made + leaf->born_at - (number[k] - 1.0), 0.0, 1.0);
        const double there =
            made * vh_clamp_straight(number[k] - d->gone, 0.0, 1.0) * (1.0 - lacking[k]);
        want_m2[k] = there * vh_leaf_potential_m2(leaf, number[k]) * (to[k] - at[k]);
        at[k] = to[k];
    }
}

VH_KERNEL void want_some(const struct leaf_day *d, struct vh_plant *p, size_t at, size_t n,
                         const double *number, const double *to, double *want_m2)
{
    want_row(d, n, number, to, p->leaf_lacking + at, p->leaf_expanded + at, want_m2);
}

VH_WIDE static void want_wide(const struct leaf_day *d, struct vh_plant *p, size_t at, size_t turns,
                              const double *number, const double *to, double *want_m2)
{
    want_some(d, p, at, turns * VH_SIDE, number, to, want_m2);
}

static void want_plain(const struct leaf_day *d, struct vh_plant *p, size_t at, size_t turns,
                       const double *number, const double *to, double *want_m2)
{
    want_some(d, p, at, turns * VH_SIDE, number, to, want_m2);
}

/* Of `count` leaves from `first` on, which may be none. */
static void want(struct vh_plant *p, size_t l, int first, int count, const double *number,
                 const double *to, double *want_m2)
{
    const struct leaf_day d = {p->setup.crop->leaf, p->leaves_made[l], p->leaves_gone[l]};

    if (p->lanes == 1)
        (p->wide ? want_wide : want_plain)(&d, p, vh_at(p, first, 0), vh_turns((size_t)count),
                                           number, to, want_m2);
    else
        for (int k = 0; k < count; k++) /* those of one lane lie apart */
            want_some(&d, p, vh_at(p, first + k, l), 1, number + k, to + k, want_m2 + k);
}

/* Area first; the limit is the leaf dry matter there is. */
double vh_plant_grow_leaves(struct vh_plant *p, size_t l, double leaf_dm)
{
    const struct vh_leaf_params *leaf = &p->setup.crop->leaf;
    const double born_at = leaf->born_at, clock = p->plastochron[l];
    const int first = p->first_leaf_growing[l];
    double asked = 0.0, area = p->leaf_area_m2[l];
    double number[VH_LEAVES_GROWING], expanded[VH_LEAVES_GROWING], want_m2[VH_LEAVES_GROWING];
    int last = first;

    while (last < clock + born_at && (size_t)last <= p->leaves_most &&
           last - first < VH_LEAVES_GROWING)
        last++;
    const size_t turns = vh_turns((size_t)(last - first));
    vh_numbers(first, (int)turns * VH_SIDE, number);
    vh_leaf_expanded_row(leaf, clock, number, turns, p->wide, expanded);
    want(p, l, first, last - first, number, expanded, want_m2);
    p->leaf_dm_g[l] += leaf_dm;
    for (int k = 0; k < last - first; k++)
        asked += want_m2[k];
    const double room = vh_max(0.0, p->leaf_dm_g[l] * leaf->thinnest_m2_g - area);
    const double share = asked > room ? room / asked : 1.0;
    for (int i = first; i < last; i++) {
        p->leaf_m2[vh_at(p, i, l)] += share * want_m2[i - first];
        area += share * want_m2[i - first];
    }
    p->leaf_area_m2[l] = area;
    while (clock - p->first_leaf_growing[l] + born_at >= leaf->expand_plastochrons)
        p->first_leaf_growing[l]++;
    const double over = vh_clamp(p->leaf_dm_g[l] - area / leaf->thickest_m2_g, 0.0, leaf_dm);
    p->leaf_dm_g[l] -= over;
    return leaf_dm - over;
}

/* Takes the oldest leaves; a part of a leaf takes that part of its area. */
void vh_plant_take_leaves(struct vh_plant *p, size_t lane, double count)
{
    const double least_area_m2 = 1e-12;
    double gone = p->leaves_gone[lane], left = vh_min(count, p->leaves_made[lane] - gone),
           area = 0.0;

    while (left > 0.0) {
        const int i = (int)gone + 1;
        const double rest = (double)i - gone, take = vh_min(rest, left);
        const size_t at = vh_at(p, i, lane);
        const double m2 = (size_t)i <= p->leaves_most ? p->leaf_m2[at] * (take / rest) : 0.0;
        if (m2 > 0.0)
            p->leaf_m2[at] -= m2;
        area += m2;
        left -= take;
        gone = take < rest ? gone + take : (double)i;
    }
    if (p->leaf_area_m2[lane] > least_area_m2)
        p->leaf_dm_g[lane] *= vh_max(0.0, 1.0 - area / p->leaf_area_m2[lane]);
    p->leaf_area_m2[lane] = vh_max(0.0, p->leaf_area_m2[lane] - area);
    p->leaves_gone[lane] = gone;
}
