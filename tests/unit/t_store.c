/* Fruit in store, with invented parameters: too old, chilled, coloured on, default temperatures. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <gsl/gsl_cdf.h>
#include <math.h>

#include "vh_clock.h"
#include "vh_math.h"
#include "vh_store.h"

static const struct vh_store_params tomato = {
    .best_low_c = 10,
    .best_high_c = 12.5,
    .life_d = 5,
    .life_cv = 0.35,
    .q10 = 2,
    .chill_c = 10,
    .chill_d = 14,
    .chill_halving_k = 5,
    .ripens = 1,
};

static struct vh_ripen_table table(void)
{
    struct vh_ripen_table t;

    cr_assert(vh_ripen_read(VINEHAND_PARAMS "/off-vine.csv", "off-vine.csv", NULL, &t, NULL) ==
              VH_OK);
    return t;
}

static double younger(double days, double mean, double cv)
{
    const double s = sqrt(log(1.0 + cv * cv));
    return gsl_cdf_lognormal_P(days, log(mean) - 0.5 * s * s, s);
}

Test(store, ripe_fruit_ages_from_its_pick_and_faster_in_the_warm)
{
    const struct vh_ripen_table t = table();

    cr_assert(epsilon_eq(dbl, vh_store_lost_frac(&tomato, &t, VH_RIPEN_RED, 12.5, 4),
                         younger(4, 5, 0.35), 1e-12));
    cr_assert(epsilon_eq(dbl, vh_store_lost_frac(&tomato, &t, VH_RIPEN_RED, 22.5, 4),
                         younger(4, 2.5, 0.35), 1e-12));
    cr_assert(eq(dbl, vh_store_lost_frac(&tomato, &t, VH_RIPEN_RED, 20, 0), 0.0));
}

Test(store, pinks_age_from_the_day_they_are_red)
{
    const struct vh_ripen_table t = table();
    const double life = 5 * pow(2, -0.75); /* at 20 degC */

    /* pink needs 4 days at 20 degC */
    cr_assert(eq(dbl, vh_store_lost_frac(&tomato, &t, VH_RIPEN_PINK, 20, 4), 0.0));
    cr_assert(epsilon_eq(dbl, vh_store_lost_frac(&tomato, &t, VH_RIPEN_PINK, 20, 6),
                         younger(2, life, 0.35), 1e-12));
    /* colder than the table it is taken to ripen as at its lowest, 10 days */
    cr_assert(epsilon_eq(dbl, vh_store_days_to_red(&tomato, &t, VH_RIPEN_PINK, 10.5), 10, 1e-12));
}

Test(store, cold_hurts_after_a_while_and_sooner_the_colder)
{
    cr_assert(eq(dbl, vh_store_chilled_frac(&tomato, 10, 30), 0.0));
    cr_assert(epsilon_eq(dbl, vh_store_chilled_frac(&tomato, 5, 7), younger(7, 7, 0.35), 1e-12));
    cr_assert(lt(dbl, vh_store_chilled_frac(&tomato, 8, 4), vh_store_chilled_frac(&tomato, 4, 4)));
}

Test(store, both_losses_count_together)
{
    const struct vh_ripen_table t = table();
    const double old = vh_store_old_frac(&tomato, &t, VH_RIPEN_RED, 5, 6),
                 cold = vh_store_chilled_frac(&tomato, 5, 6);

    cr_assert(epsilon_eq(dbl, vh_store_lost_frac(&tomato, &t, VH_RIPEN_RED, 5, 6),
                         old + cold - old * cold, 1e-12));
}

Test(store, fruit_without_a_colour_ages_from_the_pick)
{
    struct vh_store_params green = tomato;

    green.ripens = 0;
    cr_assert(epsilon_eq(dbl, vh_store_lost_frac(&green, NULL, VH_UNKNOWN, 12, 4),
                         younger(4, 5, 0.35), 1e-12));
    cr_assert(isnan(vh_store_stage_after(&green, NULL, VH_UNKNOWN, 12, 4)));
}

Test(store, stages_of_the_plant_are_colours_of_the_table)
{
    const struct vh_colours c = {0.89, 0.92, 0.96, 1.00, 1.04};

    cr_assert(eq(dbl, vh_store_colour_of(&c, 0.5), (double)VH_RIPEN_MATURE_GREEN));
    cr_assert(epsilon_eq(dbl, vh_store_colour_of(&c, 0.89), VH_RIPEN_BREAKER, 1e-9));
    cr_assert(epsilon_eq(dbl, vh_store_colour_of(&c, 0.94), VH_RIPEN_TURNING + 0.5, 1e-9));
    cr_assert(epsilon_eq(dbl, vh_store_colour_of(&c, 1.00), VH_RIPEN_LIGHT_RED, 1e-9));
    cr_assert(eq(dbl, vh_store_colour_of(&c, 1.5), (double)VH_RIPEN_RED));
    cr_assert(isnan(vh_store_colour_of(&c, VH_UNKNOWN)));
}
