/* Leaves of the average stem: how they expand, and how the oldest are taken. */
#include "vh_plant_state.h"

#include "vh_math_parts.h"

/* What lies in leaves or in lanes beside each other. */
struct leaf_rows {
    struct vh_leaf_params leaf;
    double number[VH_LANES], first[VH_LANES], clock[VH_LANES], made[VH_LANES], gone[VH_LANES];
};

/* Area that n leaves would gain; they then stand at what they have expanded to. Topping cuts the
 * last one short; what was taken grows no more, nor do stems that came later carry it. Either
 * leaves of one stem lie beside each other (by_number 1, by_lane 0), or one leaf of several (0, 1).
 */
VH_KERNEL void want_row(const struct leaf_rows *restrict d, const size_t n, const size_t by_number,
                        const size_t by_lane, const double *restrict lacking, double *restrict at,
                        double *restrict want_m2)
{
    const struct vh_leaf_params *leaf = &d->leaf;

    VH_APART
    for (size_t k = 0; k < n; k++) {
        const double number = d->number[k * by_number], clock = d->clock[k * by_lane];
        const bool grows = (number >= d->first[k * by_lane]) & (number < clock + leaf->born_at);
        const double to = vh_leaf_expanded(leaf, clock - number + leaf->born_at);
        const double made =
            vh_clamp(d->made[k * by_lane] + leaf->born_at - (number - 1.0), 0.0, 1.0);
        const double there =
            made * vh_clamp(number - d->gone[k * by_lane], 0.0, 1.0) * (1.0 - lacking[k]);
        const double wants = there * vh_leaf_potential_m2(leaf, number) * (to - at[k]);
        want_m2[k] = vh_select(grows, wants, 0.0);
        at[k] = vh_select(grows, to, at[k]);
    }
}

/* The leaves first .. last - 1 of some lane. */
VH_KERNEL void want_lanes(struct leaf_rows *d, struct vh_plant *p, int first, int last)
{
    for (int i = first; i < last; i++) {
        const size_t at = vh_row(i, VH_LANES);
        d->number[0] = i;
        want_row(d, VH_LANES, 0, 1, p->leaf_lacking + at, p->leaf_expanded + at,
                 p->leaf_want_m2 + at);
    }
}

VH_KERNEL void want_stem(struct leaf_rows *d, struct vh_plant *p, int first, int last)
{
    for (int i = first; i < last; i += VH_SIDE) {
        const size_t at = vh_row(i, 1);
        vh_numbers(i, VH_SIDE, d->number);
        want_row(d, VH_SIDE, 1, 0, p->leaf_lacking + at, p->leaf_expanded + at,
                 p->leaf_want_m2 + at);
    }
}

/* One behind the last leaf of a lane that is born; the first that it still expands where none is.
 */
static int behind_born(const struct vh_plant *p, size_t l)
{
    const double until = p->plastochron[l] + p->setup.crop->leaf.born_at;
    const int first = p->first_leaf_growing[l], most = (int)p->leaves_most + 1;
    const int whole = (int)until, born = whole < until ? whole + 1 : whole;

    return born < first ? first : born < most ? born : most;
}

/* The light of the last days, and the most area per gram of leaf in it: vh_leaf.h. */
VH_KERNEL void most_area(const struct vh_today *y, const size_t lanes, double *restrict m2_g)
{
    struct vh_plant *p = y->p;
    const struct vh_leaf_params *leaf = &y->crop->leaf;
    const double new_share = 1.0 / leaf->thin_window_d;

    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const double today = y->dli_mol_m2_d[l] * y->light_factor[l],
                     before = p->light_mean_mol_m2_d[l];
        const double mean = vh_select(p->days[l] > 0, before + new_share * (today - before), today);
        p->light_mean_mol_m2_d[l] = mean;
        m2_g[l] = vh_leaf_most_m2_g(leaf, mean);
    }
}

/* Area first; the limit is the leaf dry matter there is. */
VH_KERNEL void grow_leaves(struct vh_today *y, const size_t lanes)
{
    struct vh_plant *p = y->p;
    const double thickest_m2_g = y->crop->leaf.thickest_m2_g;
    struct leaf_rows d = {.leaf = y->crop->leaf};
    double asked[VH_LANES], area[VH_LANES], share[VH_LANES], thinnest_m2_g[VH_LANES];
    const int first = vh_lowest(p->first_leaf_growing, lanes);
    int last = first;

    most_area(y, lanes, thinnest_m2_g);
    for (size_t l = 0; l < lanes; l++) {
        const int end = behind_born(p, l);
        last = end > last ? end : last;
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        d.first[l] = p->first_leaf_growing[l];
        d.clock[l] = p->plastochron[l];
        d.made[l] = p->leaves_made[l];
        d.gone[l] = p->leaves_gone[l];
        asked[l] = 0.0;
        area[l] = p->leaf_area_m2[l];
    }
    if (lanes > 1)
        want_lanes(&d, p, first, last);
    else
        want_stem(&d, p, first, last);
    for (int i = first; i < last; i++) {
        const double *want = p->leaf_want_m2 + vh_row(i, lanes);
        VH_APART
        for (size_t l = 0; l < lanes; l++)
            asked[l] += want[l];
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        p->leaf_dm_g[l] += y->leaf_dm_g[l];
        const double room = vh_max(0.0, p->leaf_dm_g[l] * thinnest_m2_g[l] - area[l]);
        share[l] = vh_select(asked[l] > room, room / asked[l], 1.0);
    }
    for (int i = first; i < last; i++) {
        double *restrict leaf_m2 = p->leaf_m2 + vh_row(i, lanes);
        const double *want = p->leaf_want_m2 + vh_row(i, lanes);
        VH_APART
        for (size_t l = 0; l < lanes; l++) {
            leaf_m2[l] += share[l] * want[l];
            area[l] += share[l] * want[l];
        }
    }
    VH_APART
    for (size_t l = 0; l < lanes; l++) {
        const double over =
            vh_clamp(p->leaf_dm_g[l] - area[l] / thickest_m2_g, 0.0, y->leaf_dm_g[l]);
        p->leaf_dm_g[l] -= over;
        y->leaf_dm_g[l] -= over;
        p->leaf_area_m2[l] = area[l];
        while (p->plastochron[l] - p->first_leaf_growing[l] + d.leaf.born_at >=
               d.leaf.expand_plastochrons)
            p->first_leaf_growing[l]++;
    }
}
VH_LANED(vh_plant_grow_leaves, grow_leaves);

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
