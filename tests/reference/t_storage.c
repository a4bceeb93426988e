/* Storage lives, best temperatures and injury by cold of params/crops against what was published.
 * "Lives so many days" is read as: about half of the fruit is past it by the end of the span, and
 * little before its beginning. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>

#include "plant_trial.h"
#include "vh_store.h"

static struct vh_store_params rows_of(const char *crop)
{
    return trial_read_crop(crop).store;
}

static struct vh_ripen_table table(void)
{
    struct vh_ripen_table t;

    cr_assert(vh_ripen_read(VINEHAND_PARAMS "/off-vine.csv", "off-vine.csv", NULL, &t, NULL) ==
              VH_OK);
    return t;
}

/* Hanna 2009, HortTechnology 19:395 ff (abstract): after one week at 19 degC 92, 83 and 78 % of
 * three cultivars could still be sold. Picked pink [our reading]. */
Test(storage, a_week_at_19_degc_loses_as_much_as_was_measured)
{
    const struct vh_ripen_table t = table();
    const struct vh_store_params p = rows_of("tomato-large");
    const double lost = vh_store_lost_frac(&p, &t, VH_RIPEN_PINK, 19, 7);

    cr_assert(le(dbl, 0.08, lost));
    cr_assert(le(dbl, lost, 0.22));
}

/* University of California Davis, produce facts, tomato: firm ripe 3 to 5 d; light red 8 to 10 d
 * [days from memory] at 10 to 12.5 degC. */
Test(storage, red_tomatoes_keep_three_to_five_days_and_light_red_ones_eight_to_ten)
{
    const struct vh_ripen_table t = table();
    const struct vh_store_params p = rows_of("tomato-large");

    cr_assert(lt(dbl, vh_store_lost_frac(&p, &t, VH_RIPEN_RED, 10, 3), 0.15));
    cr_assert(lt(dbl, 0.45, vh_store_lost_frac(&p, &t, VH_RIPEN_RED, 10, 5)));
    cr_assert(lt(dbl, vh_store_lost_frac(&p, &t, VH_RIPEN_LIGHT_RED, 12.5, 8), 0.15));
    cr_assert(lt(dbl, 0.45, vh_store_lost_frac(&p, &t, VH_RIPEN_LIGHT_RED, 12.5, 10)));
}

/* The same sheet: below 10 degC for more than 14 d, or below 5 degC for more than 6 to 8 d. */
Test(storage, cold_hurts_tomatoes_after_the_days_of_the_sheet)
{
    const struct vh_store_params p = rows_of("tomato-cluster");

    cr_assert(eq(dbl, vh_store_chilled_frac(&p, 10, 20), 0.0));
    cr_assert(le(dbl, vh_store_chilled_frac(&p, 9.9, 10), 0.5));
    cr_assert(lt(dbl, 0.5, vh_store_chilled_frac(&p, 9.9, 15)));
    cr_assert(le(dbl, vh_store_chilled_frac(&p, 5, 6), 0.5));
    cr_assert(lt(dbl, 0.5, vh_store_chilled_frac(&p, 5, 8)));
}

/* University of California Davis, produce facts, cucumber: 10 to 12.5 degC, less than 14 d; hurt
 * below 10 degC after 1 to 3 d, at 7.2 degC after 2 to 3; yellows fast above 15 degC. */
Test(storage, cucumbers_keep_less_than_a_fortnight_and_bear_no_cold)
{
    const struct vh_store_params p = rows_of("cucumber-mini");

    cr_assert(eq(dbl, p.best_low_c, 10.0));
    cr_assert(eq(dbl, p.best_high_c, 12.5));
    cr_assert(lt(dbl, 0.5, vh_store_lost_frac(&p, NULL, NAN, 12.5, 14)));
    cr_assert(lt(dbl, vh_store_lost_frac(&p, NULL, NAN, 12.5, 7), 0.15));
    cr_assert(lt(dbl, 0.5, vh_store_chilled_frac(&p, 9.9, 3)));
    cr_assert(lt(dbl, 0.5, vh_store_chilled_frac(&p, 7.2, 3)));
    cr_assert(lt(dbl, vh_store_chilled_frac(&p, 7.2, 1), 0.1));
    cr_assert(lt(dbl, 0.5, vh_store_lost_frac(&p, NULL, NAN, 20, 7)));
}

/* Bayogan and Cantwell 2011 (abstract): sweet pepper up to three weeks at 7.5 degC, hurt after 10
 * to 14 d at 5 degC. */
Test(storage, peppers_keep_up_to_three_weeks)
{
    const struct vh_store_params p = rows_of("pepper-large");

    cr_assert(lt(dbl, vh_store_lost_frac(&p, NULL, 4, 7.5, 10), 0.15));
    cr_assert(lt(dbl, 0.5, vh_store_lost_frac(&p, NULL, 4, 7.5, 21)));
    cr_assert(lt(dbl, vh_store_chilled_frac(&p, 5, 10), 0.5));
    cr_assert(lt(dbl, 0.5, vh_store_chilled_frac(&p, 5, 14)));
}

/* University of California Davis, produce facts, eggplant: 10 to 12 degC, less than 14 d, worse
 * after 7 to 10; hurt below 10 degC: 6 to 8 d at 5 degC, no harm seen at 10 degC. */
Test(storage, aubergines_fall_off_after_seven_to_ten_days)
{
    const struct vh_store_params p = rows_of("aubergine-large");

    cr_assert(lt(dbl, vh_store_lost_frac(&p, NULL, NAN, 12, 7), 0.25));
    cr_assert(lt(dbl, 0.45, vh_store_lost_frac(&p, NULL, NAN, 12, 10)));
    cr_assert(lt(dbl, vh_store_chilled_frac(&p, 5, 6), 0.5));
    cr_assert(lt(dbl, 0.5, vh_store_chilled_frac(&p, 5, 8)));
    cr_assert(eq(dbl, vh_store_chilled_frac(&p, 10, 14), 0.0));
}

/* Eggplant sheet of the same: tomatoes must not share a room with aubergine, cucumber, pepper. */
Test(storage, what_ethylene_hurts_must_not_lie_beside_tomatoes)
{
    static const char *const hurt[] = {"cucumber-long", "cucumber-mini", "pepper-large",
                                       "pepper-small", "aubergine-large"};

    for (size_t i = 0; i < sizeof hurt / sizeof hurt[0]; i++) {
        cr_assert(eq(int, rows_of(hurt[i]).hurt_by_ethylene, 1));
        cr_assert(eq(int, rows_of(hurt[i]).gives_ethylene, 0));
        cr_assert(eq(int, rows_of(hurt[i]).ripens, 0));
    }
    cr_assert(eq(int, rows_of("tomato-cherry").gives_ethylene, 1));
    cr_assert(eq(int, rows_of("tomato-cherry").ripens, 1));
}

/* The text says so: Monday's pinks at 18 to 20 degC and Friday's reds at 10 to 13 degC are good on
 * Saturday. */
Test(storage, mondays_pinks_and_fridays_reds_are_good_on_saturday)
{
    const struct vh_ripen_table t = table();
    const struct vh_store_params p = rows_of("tomato-large");

    for (double c = 18; c <= 20; c += 1) {
        cr_assert(lt(dbl, vh_store_lost_frac(&p, &t, VH_RIPEN_PINK, c, 5), 0.05));
        cr_assert(le(dbl, 4.5, vh_store_stage_after(&p, &t, VH_RIPEN_PINK, c, 5)));
    }
    cr_assert(lt(dbl, vh_store_lost_frac(&p, &t, VH_RIPEN_RED, 13, 1), 0.01));
}
