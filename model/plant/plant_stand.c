/* A crop that stands already: an older stem to begin with, and what is seen on it. */
#include "vh_plant_state.h"

#include "vh_math.h"

void vh_plant_stand(struct vh_plant *p, size_t lane, double leaves_on_stem)
{
    const struct vh_crop *crop = p->setup.crop;
    const double made = p->leaves_made[lane],
                 leaf_g = crop->leaf.potential_area_m2 / crop->leaf.seed_m2_g;
    const int trusses = (int)vh_max(0.0, vh_plant_flowering(p, lane));

    vh_plant_take_leaves(p, lane, vh_max(0.0, made - leaves_on_stem));
    p->leaf_dm_g[lane] = p->leaf_area_m2[lane] / crop->leaf.seed_m2_g;
    p->stem_dm_g[lane] =
        made * leaf_g * (1.0 - crop->leaf.seed_dm_share) / crop->leaf.seed_dm_share;
    p->stem_cm[lane] = made * crop->stem.internode_cm;
    for (int t = 1; t <= trusses && (size_t)t <= p->trusses_most; t++) {
        const size_t i = vh_at(p, t, lane);
        p->opened_d[i] = p->thinned_d[i] = p->ripe_first_d[i] = p->ripe_last_d[i] = VH_UNKNOWN;
        p->seeded[i] = p->thin_share[i] = p->opened_on[i] = 1.0;
        p->grown_share[i] = vh_fruit_curve_at(&p->tables->curve, p->stage[i]);
        p->trusses[lane] = t;
    }
    while (p->first_leaf_growing[lane] < made - crop->leaf.expand_plastochrons)
        p->first_leaf_growing[lane]++;
}

/* The fruits of a truss become so many; each keeps its own dry matter. More than are thought to be
 * left: none of them has been picked. None, where none is thought to be left: it stays as it is. */
static void count_fruits(struct vh_plant *p, size_t i, double fruits)
{
    const double on = p->fruits[i] * (1.0 - p->picked_share[i]);
    const double usual_g = p->setup.usual_fruit_g * p->setup.crop->fruit.dm_content_20;
    const double each_g = on > 0.0 ? p->dm_g[i] / on : usual_g;

    if (!(on > 0.0) && !(fruits > 0.0))
        return;
    if (fruits > on)
        p->picked_share[i] = p->picked_mass_share[i] = 0.0;
    p->fruits[i] = fruits / (1.0 - p->picked_share[i]);
    p->kept[i] = p->fruits[i];
    p->set[i] = vh_max(p->set[i], p->kept[i]);
    p->dm_g[i] = each_g * fruits;
    p->weights[i] = vh_plant_weights(p, i, p->fruits[i]);
}

static void correct_leaves(struct vh_plant *p, size_t lane, double leaves)
{
    const double on = vh_plant_leaves_on_stem(p, lane);
    if (leaves <= on) {
        vh_plant_take_leaves(p, lane, on - leaves);
        return;
    }
    for (int i = (int)(p->leaves_made[lane] - leaves) + 1; i <= p->leaves_gone[lane];
         i++) { /* leaves that were not taken after all */
        const size_t at = vh_at(p, i < 1 ? 1 : i, lane);
        const double whole = vh_leaf_potential_m2(&p->setup.crop->leaf, i < 1 ? 1 : i);
        p->leaf_dm_g[lane] *= p->leaf_area_m2[lane] > 0.0
                                  ? 1.0 + (whole - p->leaf_m2[at]) / p->leaf_area_m2[lane]
                                  : 1.0;
        p->leaf_area_m2[lane] += whole - p->leaf_m2[at];
        p->leaf_m2[at] = whole;
    }
    p->leaves_gone[lane] = vh_max(0.0, p->leaves_made[lane] - leaves);
}

void vh_plant_correct(struct vh_plant *p, size_t lane, const struct vh_plant_seen *seen)
{
    if (seen->leaves > 0.0)
        correct_leaves(p, lane, seen->leaves);
    if (seen->stem_cm > 0.0)
        p->stem_cm[lane] = seen->stem_cm;
    if (!(seen->picking_truss > 0.0))
        return;
    for (int t = 1; t < seen->picking_truss && t <= p->trusses[lane]; t++) {
        const size_t i = vh_at(p, t, lane);
        p->fruits[i] = p->dm_g[i] = 0.0;
        p->picked_share[i] = p->picked_mass_share[i] = 1.0;
    }
    for (size_t k = 0; k < seen->trusses; k++) {
        const int t = (int)seen->picking_truss + (int)k;
        if (t >= 1 && t <= p->trusses[lane])
            count_fruits(p, vh_at(p, t, lane), seen->fruits[k]);
    }
}
