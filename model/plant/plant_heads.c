/* More heads or fewer: what the average stem then carries. */
#include "vh_plant_state.h"

#include "vh_math.h"

/* Share of a truss or leaf that the new stems carry too: they stand at different points between two
 * of them, so that `from` comes on half of them. */
static double carried_share(double number, double from)
{
    return vh_clamp(0.5 + number - from, 0.0, 1.0);
}

double vh_plant_heads_on(const struct vh_plant *p, size_t l, int number)
{
    return 1.0 - p->late_share[l] * (1.0 - carried_share(number, p->late_from[l]));
}

/* New stems that do not flower yet join those of before that still do not, at their mean: all carry
 * as many trusses in the end as each in its own time. Beside new ones that flower already those of
 * before keep their time. */
static void put_off_flowers(struct vh_plant *p, size_t l, double keep, double from)
{
    const int next = vh_plant_next_truss(p, l);
    const double fresh = 1.0 - keep;

    p->late_share[l] *= carried_share(next, p->late_from[l]) < 1.0 ? keep : 0.0;
    if (carried_share(next, from) >= 1.0)
        return;
    p->late_share[l] += fresh;
    p->late_from[l] += fresh / p->late_share[l] * (from - p->late_from[l]);
}

/* More heads: the average stem is thinner by old/new, but for what the new stems already carry. */
void vh_plant_change_heads(struct vh_plant *p, size_t l, const struct vh_acts *acts,
                           double leaf_rate)
{
    const struct vh_truss_params *truss = &p->setup.crop->truss;
    const double factor = acts->heads_factor, keep = vh_min(1.0, 1.0 / factor);
    const double carried = acts->new_stem_age_d * leaf_rate / truss->leaves_per_truss;
    const double truss_from = vh_plant_flowering(p, l) - carried,
                 leaf_from = p->leaves_made[l] - vh_max(0.0, carried * truss->leaves_per_truss);
    double area = 0.0;

    p->heads[l] *= factor;
    if (keep >= 1.0)
        return;
    put_off_flowers(p, l, keep, truss_from);
    for (int t = 1; t <= p->trusses[l]; t++) {
        const size_t i = vh_at(p, t, l);
        const double left = keep + (1.0 - keep) * carried_share(t, truss_from);
        if (isnan(p->thinned_d[i]) && p->kept[i] < p->fruits[i]) {
            p->kept[i] *= left; /* thinning still to come leaves as much less */
            p->thin_share[i] *= left;
        }
        p->fruits[i] *= left;
        p->on_stems[i] *= left;
        p->weights[i] *= left;
        p->dm_g[i] *= left;
    }
    for (int i = 1;
         i <= p->plastochron[l] + p->setup.crop->leaf.born_at && (size_t)i <= p->leaves_most; i++) {
        const size_t at = vh_at(p, i, l);
        const double left = keep + (1.0 - keep) * carried_share(i, leaf_from);
        p->leaf_m2[at] *= left;
        p->sucker_on[at] *= left;
        p->leaf_lacking[at] = 1.0 - (1.0 - p->leaf_lacking[at]) * left;
        area += p->leaf_m2[at];
    }
    p->leaf_dm_g[l] *= p->leaf_area_m2[l] > 0.0 ? vh_min(1.0, area / p->leaf_area_m2[l]) : 1.0;
    p->leaf_area_m2[l] = area;
    p->stem_dm_g[l] *= keep;
}
