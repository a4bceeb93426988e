/* The tasks say of a pick what picks.csv says: kilograms and fruits. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>

#include "vh_pick_said.h"

#define TODAY 20647.0 /* 2026-07-13 */

static void set(struct vh_table *t, const char *column, double value)
{
    vh_table_set_number(t, (size_t)vh_table_find(t, column), value);
}

static void add(struct vh_table *t, double date)
{
    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    set(t, "date", date);
    vh_table_set_text(t, (size_t)vh_table_find(t, "planting"), "aubergines");
}

static void add_task(struct vh_table *t, double date, double kg, const char *note)
{
    add(t, date);
    vh_table_set_text(t, (size_t)vh_table_find(t, "task"), "pick");
    vh_table_set_text(t, (size_t)vh_table_find(t, "unit"), "kg");
    vh_table_set_text(t, (size_t)vh_table_find(t, "note"), note);
    set(t, "count", kg);
}

static void add_pick(struct vh_table *t, double date, double kg, double fruits, double written_kg)
{
    add(t, date);
    set(t, "kg", kg);
    set(t, "fruits", fruits);
    set(t, "picked_kg", written_kg);
    set(t, "picked_fruits", NAN);
}

/* 2.1 kg of aubergines are 7 fruits of 300 g, not the 57 of the mean run; what is past, or was
 * written down, stays. */
Test(pick_said, a_pick_has_one_number_and_the_fruits_that_go_with_it)
{
    struct vh_result *r = vh_result_create();
    struct vh_table *tasks = r->table[VH_TABLE_TASKS], *picks = r->table[VH_TABLE_PICKS];
    struct vh_table *house = r->table[VH_TABLE_HOUSE];

    cr_assert(eq(int, vh_table_add_row(house), VH_OK));
    set(house, "today", TODAY);
    for (int d = -3; d <= 6; d += 3) {
        add_task(tasks, TODAY + d, 2.0, "about 57 fruits; the last pick: all goes");
        add_pick(picks, TODAY + d, 2.1, 7.1, d == 0 ? 2.0 : NAN);
    }
    cr_assert(eq(int, vh_pick_said(r), VH_OK));
    for (size_t i = 0; i < 4; i++) {
        const bool foreseen = i >= 2;
        cr_expect(eq(dbl, vh_cell_number(tasks, i, "count"), foreseen ? 2.1 : 2.0));
        cr_expect(eq(str, (char *)vh_cell_text(tasks, i, "note"),
                     foreseen ? (char *)"about 7 fruits; the last pick: all goes"
                              : (char *)"about 57 fruits; the last pick: all goes"));
    }
    vh_result_free(r);
}
