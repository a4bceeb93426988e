/* Which size-picked fruits have passed the mass or the age of the pick, node beside node. */
#include "vh_math_parts.h"
#include "vh_plant_state.h"

/* What all nodes have in common. */
struct large_pick {
    struct vh_fruit_params fruit;
    double pick_from_g;
};

/* Of each node: z, how far the mass of the pick lies above the mean of its fruits as if none had
 * been picked, in its scatter (no number: nothing weighs); heavier, what those beyond it weigh
 * more. */
VH_KERNEL void weigh_row(const struct large_pick *q, size_t n, const double *fruits,
                         const double *picked_mass_share, const double *dm_g,
                         const double *content_g_g, double *restrict z, double *restrict heavier)
{
    const double root_two_pi = 2.5066282746310002, cv = q->fruit.pick_cv;

    for (size_t i = 0; i < n; i++) {
        const double on = fruits[i] * (1.0 - picked_mass_share[i]);
        const double whole_g = vh_select(on > 0.0, dm_g[i] / (on * content_g_g[i]), 0.0);
        const double past = (q->pick_from_g / whole_g - 1.0) / cv;
        const bool weighs = (whole_g > 0.0) & (past > -VH_ENDLESS) & (past < VH_ENDLESS);
        const double bell = cv * vh_exp_straight(-0.5 * past * past) / root_two_pi;
        z[i] = vh_select(weighs, past, VH_ENDLESS);
        heavier[i] = vh_select(weighs, bell, 0.0);
    }
}

VH_KERNEL void weigh_some(const struct large_pick *q, const struct vh_plant *p, size_t at, size_t n,
                          double *z, double *heavier)
{
    weigh_row(q, n, p->fruits + at, p->picked_mass_share + at, p->dm_g + at, p->dm_content + at, z,
              heavier);
}

/* Whole turns, so that nothing is left over for a second loop. */
VH_WIDE static void weigh_wide(const struct large_pick *q, const struct vh_plant *p, size_t at,
                               size_t turns, double *z, double *heavier)
{
    weigh_some(q, p, at, turns * VH_SIDE, z, heavier);
}

static void weigh_plain(const struct large_pick *q, const struct vh_plant *p, size_t at,
                        size_t turns, double *z, double *heavier)
{
    weigh_some(q, p, at, turns * VH_SIDE, z, heavier);
}

/* Shares of number and mass of the fruits that have passed the mass or the age of the pick. */
static struct vh_large large(const struct vh_plant *p, size_t i, double z, double heavier)
{
    const struct vh_fruit_params *f = &p->setup.crop->fruit;
    const struct vh_scatter *scatter = &p->tables->scatter;
    const bool young = p->age_cd[i] < f->oldest_cd * (1.0 - VH_SCATTER_FAR * f->age_scatter);

    if (young && z >= VH_SCATTER_FAR)
        return (struct vh_large){0.0, 0.0};
    const double old =
        young ? 0.0
              : vh_scatter_share(scatter, (p->age_cd[i] / f->oldest_cd - 1.0) / f->age_scatter);
    const double by_mass = vh_scatter_share(scatter, -z);

    return (struct vh_large){1.0 - (1.0 - by_mass) * (1.0 - old),
                             1.0 - (1.0 - vh_min(by_mass + heavier, 1.0)) * (1.0 - old)};
}

void vh_plant_large(const struct vh_plant *p, size_t at, size_t n, struct vh_large *out)
{
    const struct large_pick q = {p->setup.crop->fruit, p->setup.pick_from_g};
    double z[VH_LARGE_MOST], heavier[VH_LARGE_MOST];

    if (p->lanes == 1)
        (p->wide ? weigh_wide : weigh_plain)(&q, p, at, vh_turns(n), z, heavier);
    else
        weigh_some(&q, p, at, n, z, heavier);
    for (size_t k = 0; k < n; k++)
        out[k] = large(p, at + k, z[k], heavier[k]);
}
