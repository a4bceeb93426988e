/* The one count that is asked for on the week's screen, and what is short there. Invented rows. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <stdio.h>
#include <stdlib.h>

#include "vh_market_lines.h"
#include "vh_measure_lines.h"
#include "vh_result.h"
#include "vh_table.h"

static void number(struct vh_table *t, const char *column, double value)
{
    vh_table_set_number(t, (size_t)vh_table_find(t, column), value);
}

static void text(struct vh_table *t, const char *column, const char *value)
{
    cr_assert(eq(int, vh_table_set_text(t, (size_t)vh_table_find(t, column), value), VH_OK));
}

static void add(struct vh_result *r, const char *planting, double width_kg, double narrows)
{
    struct vh_table *t = r->table[VH_TABLE_TO_MEASURE], *summary = r->table[VH_TABLE_SUMMARY];

    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    text(t, "planting", planting);
    text(t, "item", "fruit_g");
    number(t, "of", 20.0);
    number(t, "market_day", 20650.0); /* a Thursday */
    number(t, "kg_low", 10.0);
    number(t, "kg_high", 10.0 + width_kg);
    number(t, "narrows", narrows);
    cr_assert(eq(int, vh_table_add_row(summary), VH_OK));
    text(summary, "planting", planting);
    text(summary, "crop", "tomato-plum");
}

static void said_is(struct vh_result *r, char *wanted)
{
    char *said = NULL;
    size_t n = 0;
    FILE *to = open_memstream(&said, &n);

    cr_assert(to != NULL);
    vh_measure_line(to, r, 11);
    cr_assert(fclose(to) == 0);
    cr_expect(eq(str, said, wanted));
    free(said);
}

/* Of 9 kg of range 1 is the small planting's: a third of it is a twenty-seventh of what is sold. */
Test(measure_lines, a_planting_that_is_a_small_part_of_its_good_is_not_asked_for)
{
    struct vh_result r = {.table = {NULL}};

    r.table[VH_TABLE_TO_MEASURE] = vh_result_table_new(VH_TABLE_TO_MEASURE);
    r.table[VH_TABLE_SUMMARY] = vh_result_table_new(VH_TABLE_SUMMARY);
    r.table[VH_TABLE_MARKET_DAYS] = vh_result_table_new(VH_TABLE_MARKET_DAYS);
    add(&r, "old", 8.0, 0.1);
    add(&r, "young", 1.0, 0.33);
    said_is(&r, "MEASURE    young: grams a fruit (fruit_g), 20 fruits, narrows Thursday's range\n"
                "           most (33 %)\n");
    cr_assert(eq(int, vh_table_add_row(r.table[VH_TABLE_MARKET_DAYS]), VH_OK));
    text(r.table[VH_TABLE_MARKET_DAYS], "planting", "all tomato-plum");
    said_is(&r, "MEASURE    old: grams a fruit (fruit_g), 20 fruits, narrows Thursday's range\n"
                "           most (9 %)\n");
    for (int k = 0; k < VH_RESULT_TABLES; k++)
        vh_table_free(r.table[k]);
}

/* Three that come too late are one; of two to sow for and one too late the two, as far as there is
 * room. */
Test(gap_lines, what_is_too_late_calls_for_nothing)
{
    struct vh_result r = {.table = {NULL}};
    struct vh_table *t = r.table[VH_TABLE_GAPS] = vh_result_table_new(VH_TABLE_GAPS);

    for (int k = 0; k < 3; k++) {
        cr_assert(eq(int, vh_table_add_row(t), VH_OK));
        number(t, "short_share", 0.5);
        number(t, "from", 20710.0 + k);
        number(t, "sow_by", (double)NAN);
    }
    cr_expect(eq(int, vh_gaps_to_sow(&r, 2), 1));
    for (size_t k = 0; k < 2; k++)
        vh_table_put_number(t, k, (size_t)vh_table_find(t, "plants"), 30.0);
    cr_expect(eq(int, vh_gaps_to_sow(&r, 1), 1));
    cr_expect(eq(int, vh_gaps_to_sow(&r, 2), 2));
    cr_expect(eq(int, vh_gaps_to_sow(&r, 3), 2));
    vh_table_free(t);
}
