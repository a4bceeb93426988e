/* Keys in the other unit system, and the nearest key.
 *
 * Truth: NIST Special Publication 811 (2008), appendix B.8 and B.9: ft 0.3048 m, in 2.54 cm,
 * lb 0.45359237 kg, oz 28.349523125 g (all exact); t/degC = (t/degF - 32)/1.8.
 */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <string.h>

#include "vh_units.h"

/* given -> ours must agree to 4 units in the last place: one product and one sum of rounded factors
 */
static void expect_pair(const char *ours, const char *given, bool is_difference, double value,
                        double expected)
{
    struct vh_unit_pair pair = {-1.0, -1.0};
    cr_assert(vh_units_match(ours, given, is_difference, &pair), "%s for %s", given, ours);
    cr_expect(ieee_ulp_eq(dbl, value * pair.scale + pair.shift, expected, 4), "%s for %s: %.17g",
              given, ours, value * pair.scale + pair.shift);
}

static void expect_none(const char *ours, const char *given)
{
    struct vh_unit_pair pair = {-1.0, -1.0};
    cr_expect(not(vh_units_match(ours, given, false, &pair)), "%s for %s", given, ours);
    cr_expect(epsilon_eq(dbl, pair.scale, -1.0, 0.0), "left alone: %s for %s", given, ours);
}

Test(units, lengths_come_in_feet_and_inches)
{
    expect_pair("wire_height_m", "wire_height_ft", false, 9.5, 2.8956);
    expect_pair("wire_height_m", "wire_height_in", false, 114.0, 2.8956);
    expect_pair("row_gap_cm", "row_gap_in", false, 47.0, 119.38);
    expect_pair("row_gap_cm", "row_gap_ft", false, 4.0, 121.92);
    expect_pair("fruit_mm", "fruit_in", false, 2.5, 63.5);
    expect_pair("fruit_mm", "fruit_ft", false, 0.25, 76.2);
}

Test(units, masses_come_in_pounds_and_ounces)
{
    expect_pair("picked_kg", "picked_lb", false, 100.0, 45.359237);
    expect_pair("picked_kg", "picked_oz", false, 16.0, 0.45359237);
    expect_pair("usual_fruit_g", "usual_fruit_oz", false, 6.0, 170.09713875);
    expect_pair("usual_fruit_g", "usual_fruit_lb", false, 1.0, 453.59237);
}

Test(units, temperatures_shift_but_differences_only_scale)
{
    expect_pair("heat_c", "heat_f", false, 32.0, 0.0);
    expect_pair("heat_c", "heat_f", false, 212.0, 100.0);
    expect_pair("t_air_c", "t_air_f", false, -40.0, -40.0);
    expect_pair("log_offset_c", "log_offset_f", true, 9.0, 5.0);
}

Test(units, areas_densities_and_prices_come_by_foot_and_pound)
{
    expect_pair("floor_area_m2", "floor_area_ft2", false, 1000.0, 92.90304);
    expect_pair("plants_per_m2", "plants_per_ft2", false, 0.09290304, 1.0);
    expect_pair("string_per_m", "string_per_ft", false, 0.3048, 1.0);
    expect_pair("per_kg", "per_lb", false, 0.45359237, 1.0);
    expect_pair("price_per_kg", "price_per_lb", false, 0.45359237, 1.0);
    expect_pair("kg", "lb", false, 1.0, 0.45359237);
}

Test(units, the_same_key_is_taken_as_it_is)
{
    expect_pair("wire_height_m", "wire_height_m", false, 2.9, 2.9);
    expect_pair("name", "name", false, 1.0, 1.0);
    expect_pair("feed_ec_ms_cm", "feed_ec_ms_cm", false, 2.5, 2.5);
}

Test(units, the_longest_suffix_decides_and_some_have_no_pair)
{
    expect_none("feed_ec_ms_cm", "feed_ec_ms_in");
    expect_none("par_umol_m2_s", "par_umol_ft2_s");
    expect_none("radiation_out_w_m2", "radiation_out_w_ft2");
    expect_none("heat_loss_w_k", "heat_loss_w_f");
    expect_none("dli_mol_m2_d", "dli_mol_ft2_d");
    expect_none("radiation_mj_m2_d", "radiation_mj_ft2_d");
    /* _per_m2 is longer than _m2: the factor is the other way round, see above */
    expect_none("plants_per_m2", "plants_ft2");
}

Test(units, other_keys_and_other_units_are_no_pair)
{
    expect_none("wire_height_m", "wire_height_cm");
    expect_none("wire_height_m", "wire_height");
    expect_none("wire_height_m", "wire_height_");
    expect_none("wire_height_m", "row_length_ft");
    expect_none("wire_height_m", "wire_height_lb");
    expect_none("heat_c", "heat_k");
    expect_none("name", "nome");
    expect_none("plants", "plant");
    expect_none("wire_height_m", "wire_height_ft_and_very_much_more");
    expect_none("", "ft");
    expect_none("kg", "_lb");
    expect_none("m", "");
}

Test(units, the_distance_of_keys_counts_slips_of_the_hand)
{
    cr_expect(eq(sz, vh_key_distance("plants", "plants", 3), 0));
    cr_expect(eq(sz, vh_key_distance("plants", "palnts", 3), 1), "neighbours changed over");
    cr_expect(eq(sz, vh_key_distance("plants", "plant", 3), 1));
    cr_expect(eq(sz, vh_key_distance("plants", "pplants", 3), 1));
    cr_expect(eq(sz, vh_key_distance("plants", "plents", 3), 1));
    /* from memory: the usual textbook pair */
    cr_expect(eq(sz, vh_key_distance("kitten", "sitting", 3), 3));
    cr_expect(eq(sz, vh_key_distance("kitten", "sitting", 2), 3), "beyond the limit");
    cr_expect(eq(sz, vh_key_distance("", "abc", 5), 3));
    cr_expect(eq(sz, vh_key_distance("", "", 5), 0));
    /* restricted form: no part is edited twice, so this is 3 and not 2 */
    cr_expect(eq(sz, vh_key_distance("ca", "abc", 5), 3));
}

Test(units, endless_keys_are_far_from_everything)
{
    char a[200], b[200];
    memset(a, 'a', sizeof a - 1);
    a[sizeof a - 1] = '\0';
    memcpy(b, a, sizeof b);
    cr_expect(eq(sz, vh_key_distance(a, b, 3), 0));
    b[10] = 'b';
    cr_expect(eq(sz, vh_key_distance(a, b, 3), 4));
}
