/* The tasks say of a pick what picks.csv says: kilograms and fruits, and their range. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdio.h>

#include "vh_pick_said.h"

#define TODAY 20647.0 /* 2026-07-13 */

/* The tables as the futures leave them, with ranges: here only what is read and written. */
static const struct vh_column tasks_columns[] = {
    {"date", VH_CELL_DATE, "", ""},        {"planting", VH_CELL_TEXT, "", ""},
    {"task", VH_CELL_TEXT, "", ""},        {"count", VH_CELL_NUMBER, "", ""},
    {"unit", VH_CELL_TEXT, "", ""},        {"note", VH_CELL_TEXT, "", ""},
    {"count_p10", VH_CELL_NUMBER, "", ""}, {"count_p50", VH_CELL_NUMBER, "", ""},
    {"count_p90", VH_CELL_NUMBER, "", ""},
};
static const struct vh_column picks_columns[] = {
    {"date", VH_CELL_DATE, "", ""},          {"planting", VH_CELL_TEXT, "", ""},
    {"kg", VH_CELL_NUMBER, "kg", ""},        {"fruits", VH_CELL_NUMBER, "1", ""},
    {"picked_kg", VH_CELL_NUMBER, "kg", ""}, {"picked_fruits", VH_CELL_NUMBER, "1", ""},
    {"kg_p10", VH_CELL_NUMBER, "kg", ""},    {"kg_p50", VH_CELL_NUMBER, "kg", ""},
    {"kg_p90", VH_CELL_NUMBER, "kg", ""},    {"fruits_p10", VH_CELL_NUMBER, "1", ""},
    {"fruits_p50", VH_CELL_NUMBER, "1", ""}, {"fruits_p90", VH_CELL_NUMBER, "1", ""},
};

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

static void add_task(struct vh_table *t, double date, double count, const char *unit,
                     const char *note)
{
    add(t, date);
    vh_table_set_text(t, (size_t)vh_table_find(t, "task"), "pick");
    vh_table_set_text(t, (size_t)vh_table_find(t, "unit"), unit);
    vh_table_set_text(t, (size_t)vh_table_find(t, "note"), note);
    set(t, "count", count);
}

static void add_pick(struct vh_table *t, double date, double kg, double fruits, double written_kg)
{
    add(t, date);
    set(t, "kg", kg);
    set(t, "fruits", fruits);
    set(t, "picked_kg", written_kg);
    set(t, "picked_fruits", NAN);
}

/* A result with today alone. */
static struct vh_result *begin(void)
{
    struct vh_result *r = vh_result_create();

    cr_assert(r != NULL);
    cr_assert(eq(int, vh_table_add_row(r->table[VH_TABLE_HOUSE]), VH_OK));
    set(r->table[VH_TABLE_HOUSE], "today", TODAY);
    return r;
}

/* 2.1 kg of aubergines are 7 fruits of 300 g, not the 57 of the mean run; what is past, or was
 * written down, stays. */
Test(pick_said, a_pick_has_one_number_and_the_fruits_that_go_with_it)
{
    struct vh_result *r = begin();
    struct vh_table *tasks = r->table[VH_TABLE_TASKS], *picks = r->table[VH_TABLE_PICKS];

    for (int d = -3; d <= 6; d += 3) {
        add_task(tasks, TODAY + d, 2.0, "kg", "about 57 fruits; the last pick: all goes");
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

/* Where fruits are sold, the count is of fruits and the note says the kilograms; the range is that
 * of the same measure. Tables by hand: 10, 11, 12 kg and 100, 101, 102 fruits. */
Test(pick_said, the_count_and_its_range_are_of_what_is_sold)
{
    static const char *const quantile[] = {"p10", "p50", "p90"};

    for (int by_kg = 0; by_kg <= 1; by_kg++) {
        struct vh_result *r = begin();
        struct vh_table *tasks = vh_table_create("tasks", "", true, tasks_columns,
                                                 sizeof tasks_columns / sizeof *tasks_columns);
        struct vh_table *picks = vh_table_create("picks", "", true, picks_columns,
                                                 sizeof picks_columns / sizeof *picks_columns);

        vh_table_free(r->table[VH_TABLE_TASKS]);
        vh_table_free(r->table[VH_TABLE_PICKS]);
        r->table[VH_TABLE_TASKS] = tasks;
        r->table[VH_TABLE_PICKS] = picks;
        add_task(tasks, TODAY, 50.0, by_kg ? "kg" : "fruits",
                 by_kg ? "about 57 fruits" : "about 15 kg");
        add_pick(picks, TODAY, 12.6, 40.0, NAN);
        for (int k = 0; k < 3; k++) {
            char name[20];
            snprintf(name, sizeof name, "kg_%s", quantile[k]);
            set(picks, name, 10.0 + k);
            snprintf(name, sizeof name, "fruits_%s", quantile[k]);
            set(picks, name, 100.0 + k);
        }
        cr_assert(eq(int, vh_pick_said(r), VH_OK));
        cr_expect(eq(dbl, vh_cell_number(tasks, 0, "count"), by_kg ? 12.6 : 40.0));
        for (int k = 0; k < 3; k++) {
            char name[20];
            snprintf(name, sizeof name, "count_%s", quantile[k]);
            cr_expect(eq(dbl, vh_cell_number(tasks, 0, name), (by_kg ? 10.0 : 100.0) + k));
        }
        cr_expect(eq(str, (char *)vh_cell_text(tasks, 0, "note"),
                     by_kg ? (char *)"about 40 fruits" : (char *)"about 13 kg"));
        vh_result_free(r);
    }
}
