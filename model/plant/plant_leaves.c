/* Leaves of the average stem: how they expand, and how the oldest are taken. */
#include "vh_plant_state.h"

#include "vh_math.h"
#include "vh_wide.h"

/* Leaves that may expand at once: those of `expand` plastochrons and what one day adds. */
#define VH_LEAVES_GROWING 64

/* Area first; the limit is the leaf dry matter there is. */
void vh_plant_grow_leaves(struct vh_plant *p, size_t l, double leaf_dm)
{
    const struct vh_leaf_params *leaf = &p->setup.crop->leaf;
    const double born_at = leaf->born_at, clock = p->plastochron[l];
    const int first = p->first_leaf_growing[l];
    double asked = 0.0, area = p->leaf_area_m2[l];
    double want_m2[VH_LEAVES_GROWING], expanded[VH_LEAVES_GROWING + VH_SIDE];
    int last = first;

    while (last < clock + born_at && (size_t)last <= p->leaves_most &&
           last - first < VH_LEAVES_GROWING)
        last++;
    vh_leaf_expanded_row(leaf, clock, first, last - first, p->wide, expanded);
    p->leaf_dm_g[l] += leaf_dm;
    for (int i = first; i < last; i++) {
        const size_t at = vh_at(p, i, l);
        const double made = vh_clamp(p->leaves_made[l] + born_at - (i - 1), 0.0,
                                     1.0); /* topping cuts the last one short */
        /* what was taken grows no more, nor do stems that came later carry it */
        const double there =
            made * vh_clamp(i - p->leaves_gone[l], 0.0, 1.0) * (1.0 - p->leaf_lacking[at]);
        want_m2[i - first] =
            there * vh_leaf_potential_m2(leaf, i) * (expanded[i - first] - p->leaf_expanded[at]);
        p->leaf_expanded[at] = expanded[i - first];
        asked += want_m2[i - first];
    }
    const double room = vh_max(0.0, p->leaf_dm_g[l] * leaf->thinnest_m2_g - area);
    const double share = asked > room ? room / asked : 1.0;
    for (int i = first; i < last; i++) {
        p->leaf_m2[vh_at(p, i, l)] += share * want_m2[i - first];
        area += share * want_m2[i - first];
    }
    p->leaf_area_m2[l] = area;
    while (clock - p->first_leaf_growing[l] + born_at >= leaf->expand_plastochrons)
        p->first_leaf_growing[l]++;
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
