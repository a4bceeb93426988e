/* How thin a leaf can get in the shade: the form by itself, and against leaves of a glasshouse. */
#include "plant_trial.h"

static struct vh_leaf_params leaf(void)
{
    return trial_read_crop("tomato-cluster").leaf;
}

/* The form stated in vh_leaf.h. No source but our own statement of it. */
Test(leaf, most_area_is_that_of_the_reference_light_and_a_power_of_light_elsewhere)
{
    const struct vh_leaf_params p = leaf();
    const double ref = p.thin_ref_mol_m2_d, near = 1e-12;
    const double at_ref = vh_leaf_most_m2_g(&p, ref), twice = vh_leaf_most_m2_g(&p, 2.0 * ref);

    cr_expect(fabs(at_ref - p.thinnest_m2_g) < near, "%g", at_ref);
    cr_expect(fabs(log(twice / at_ref) / log(2.0) + p.thin_exponent) < near, "%g", twice);
    cr_expect(vh_leaf_most_m2_g(&p, 0.0) == vh_leaf_most_m2_g(&p, p.thin_least_mol_m2_d));
}

Test(leaf, more_light_never_lets_a_leaf_be_thinner)
{
    const struct vh_leaf_params p = leaf();
    const double brightest_mol_m2_d = 60.0;
    double before = INFINITY;

    for (double light = 0.0; light <= brightest_mol_m2_d; light += 0.5) {
        const double now = vh_leaf_most_m2_g(&p, light);
        cr_expect(now <= before && now > p.thickest_m2_g, "%g mol: %g", light, now);
        before = now;
    }
}

/* Leaves of a Dutch glasshouse have 0.0266 + 0.0088 sin(2 pi (day + 68)/365) m2 g-1, day of the
 * year (Heuvelink 1999, Annals of Botany 83:413-422, from memory): 0.0354 in January, 0.0178 in
 * July. The limit must leave room for them, and change no more than they do. Light at the crop, 3
 * and 23 mol m-2 d-1, is 2 and 18 MJ of sun outside at 0.6 (from memory). */
Test(leaf, the_limit_leaves_room_for_glasshouse_leaves_and_changes_by_less_than_they)
{
    const struct vh_leaf_params p = leaf();
    const double january_day = 23.0, july_day = 205.0, january_mol_m2_d = 3.0, july_mol_m2_d = 23.0;
    const double measured[] = {0.0266 + 0.0088 * sin(2.0 * VH_PI * (january_day + 68.0) / 365.0),
                               0.0266 + 0.0088 * sin(2.0 * VH_PI * (july_day + 68.0) / 365.0)};
    const double most[] = {vh_leaf_most_m2_g(&p, january_mol_m2_d),
                           vh_leaf_most_m2_g(&p, july_mol_m2_d)};

    for (int i = 0; i < 2; i++)
        cr_expect(most[i] >= measured[i], "%g below %g", most[i], measured[i]);
    cr_expect(most[0] / most[1] > 1.0 && most[0] / most[1] <= measured[0] / measured[1], "%g",
              most[0] / most[1]);
}
