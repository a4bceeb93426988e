/* The fruit of what is to come: of trusses that ripen whole. Arithmetic. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdbool.h>
#include <stdint.h>

#include "vh_gap_names.h"
#include "vh_result.h"
#include "vh_to_come.h"

static void add_truss(struct vh_table *t, double truss, double fruit_g, double last_ripe)
{
    const size_t row = vh_table_rows(t);

    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    vh_table_set_text(t, (size_t)vh_table_find(t, "planting"), "reds");
    vh_table_put_text(t, row, (size_t)vh_table_find(t, "status"), "on the vine");
    vh_table_set_number(t, (size_t)vh_table_find(t, "truss"), truss);
    vh_table_set_number(t, (size_t)vh_table_find(t, "kept"), 4.0);
    vh_table_set_number(t, (size_t)vh_table_find(t, "fruit_g"), fruit_g);
    vh_table_set_number(t, (size_t)vh_table_find(t, "last_ripe"), last_ripe);
}

/* 150 and 112 g ripen whole; of the last truss, cut off at the end, some fruits of 85 or of 130 g
 * are picked: where they are smaller, that is told. */
Test(to_come, a_smaller_truss_that_is_cut_off_is_known_of)
{
    const double last_g[] = {85.0, 130.0};

    for (int i = 0; i < 2; i++) {
        struct vh_table *t = vh_result_table_new(VH_TABLE_TRUSSES);
        cr_assert(t != NULL);
        add_truss(t, 13.0, 150.0, 20600.0);
        add_truss(t, 14.0, 112.0, 20607.0);
        add_truss(t, 20.0, last_g[i], (double)NAN);
        const struct vh_fruit_to_come c = vh_fruit_to_come(t, "reds");
        cr_expect(eq(dbl, c.low_truss, 14.0));
        cr_expect(epsilon_eq(dbl, c.mean_g, 131.0, 1e-9));
        cr_expect(eq(int, c.cut_is_smaller, i == 0));
        vh_table_free(t);
    }
}

static void add_week(struct vh_table *t, int week, double load)
{
    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    vh_table_set_text(t, (size_t)vh_table_find(t, "planting"), "reds");
    vh_table_set_number(t, (size_t)vh_table_find(t, "monday"), 20600.0 + 7.0 * week);
    vh_table_set_number(t, (size_t)vh_table_find(t, "load"), load);
}

/* From set-out on 9.6, 2.5 and 0.4, then 1.8, 2.2 and 2.0: the hungriest is the fifth week, and of
 * a young plant nothing is said for now. */
Test(to_come, the_hungriest_week_is_not_that_of_a_young_plant)
{
    static const double load[] = {9.6, 2.5, 0.4, 1.8, 2.2, 2.0};
    struct vh_table *t = vh_result_table_new(VH_TABLE_WEEKS);
    int now = 0;

    cr_assert(t != NULL);
    for (int w = 0; w < 6; w++)
        add_week(t, w, load[w]);
    cr_expect(eq(int, vh_hungriest_week_row(t, "reds", 20590, &now), 4));
    cr_expect(eq(int, now, -1));
    cr_expect(eq(int, vh_hungriest_week_row(t, "reds", 20602, &now), 4));
    cr_expect(eq(int, now, -1));
    cr_expect(eq(int, vh_hungriest_week_row(t, "reds", 20600 + 37, &now), 5));
    cr_expect(eq(int, now, 5));
    vh_table_free(t);
}

/* Four that can be sown for, the one that lacks most of what is wanted first and not the one whose
 * day is next, and three for which it is too late (one: no day was ever right), in the same order:
 * kilograms and pieces do not compare. */
Test(to_come, gaps_stand_by_whether_they_can_be_sown_for_and_by_what_they_lack)
{
    static const double sow_by[] = {20650.0,     20500.0, 20640.0, 20650.0,
                                    (double)NAN, 20510.0, 20630.0};
    static const bool is_late[] = {false, true, false, false, true, true, false};
    static const double kg[] = {30.0, 900.0, 1.0, 5.0, 84.7, 44.5, 90.0};
    static const double share[] = {0.3, 0.2, 0.1, 0.5, 0.9, 0.4, 0.05};
    struct vh_table *t = vh_result_table_new(VH_TABLE_GAPS);
    size_t at = SIZE_MAX;

    cr_assert(t != NULL);
    cr_expect(eq(sz, vh_gap_next(t, at), 0)); /* of no rows */
    for (size_t i = 0; i < 7; i++) {
        cr_assert(eq(int, vh_table_add_row(t), VH_OK));
        vh_table_set_number(t, (size_t)vh_table_find(t, "sow_by"), sow_by[i]);
        vh_table_set_number(t, (size_t)vh_table_find(t, i == 1 ? "short_fruits" : "short_kg"),
                            kg[i]);
        vh_table_set_number(t, (size_t)vh_table_find(t, "short_share"), share[i]);
        vh_table_set_number(t, (size_t)vh_table_find(t, "plants"), is_late[i] ? (double)NAN : 9.0);
    }
    for (size_t i = 0; i < 8; i++) {
        const size_t order[] = {3, 0, 2, 6, 4, 5, 1, 7};
        at = vh_gap_next(t, at);
        cr_expect(eq(sz, at, order[i]));
    }
    vh_table_free(t);
}

/* A batch whose name ends in a digit does not run into its numbers; one piece is one. */
Test(to_come, a_gap_is_a_sentence)
{
    struct vh_table *t = vh_result_table_new(VH_TABLE_GAPS),
                    *summary = vh_result_table_new(VH_TABLE_SUMMARY);
    char said[VH_GAP_SAID];

    for (int k = 0; k < 2; k++) {
        cr_assert(eq(int, vh_table_add_row(summary), VH_OK));
        vh_table_set_text(summary, (size_t)vh_table_find(summary, "planting"),
                          k ? "long 2" : "long 1");
        vh_table_set_text(summary, (size_t)vh_table_find(summary, "crop"), "cucumber-long");
    }
    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    vh_table_set_text(t, 0, "cucumber-long");
    vh_table_set_number(t, (size_t)vh_table_find(t, "from"), 20600.0);
    vh_table_set_number(t, (size_t)vh_table_find(t, "until"), 20600.0);
    vh_table_set_number(t, (size_t)vh_table_find(t, "short_fruits"), 1.2);
    vh_gap_say(summary, t, 0, VH_SAY_METRIC, said);
    cr_expect(
        eq(str, said,
           (char *)"long 1 and long 2: 27 May, 1 fruit less than you want; no batch fills it"));
    vh_table_set_number(t, (size_t)vh_table_find(t, "sow_by"), 20500.0);
    vh_gap_say(summary, t, 0, VH_SAY_METRIC, said);
    cr_expect(eq(
        str, said,
        (char *)"long 1 and long 2: 27 May, 1 fruit less than you want; too late to sow for it"));
    vh_table_set_number(t, (size_t)vh_table_find(t, "sow_by"), 20550.0);
    vh_table_set_number(t, (size_t)vh_table_find(t, "plants"), 3.2);
    vh_table_set_number(t, (size_t)vh_table_find(t, "plants_p10"), 2.1);
    vh_table_set_number(t, (size_t)vh_table_find(t, "plants_p90"), 5.0);
    vh_gap_say(summary, t, 0, VH_SAY_METRIC, said);
    cr_expect(eq(
        str, said,
        (char
             *)"long 1 and long 2: 27 May, 1 fruit less than you want; sow 4 (3 to 5) by 7 April"));
    cr_assert(eq(int, vh_table_add_row(summary), VH_OK)); /* of many batches the fruit is told */
    vh_table_set_text(summary, (size_t)vh_table_find(summary, "planting"), "long 3");
    vh_table_set_text(summary, (size_t)vh_table_find(summary, "crop"), "cucumber-long");
    vh_gap_say(summary, t, 0, VH_SAY_METRIC, said);
    cr_expect(eq(int, strncmp(said, "long cucumbers: ", 16), 0));
    vh_table_free(summary);
    vh_table_free(t);
}
