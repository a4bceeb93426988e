/* Tables: filling, reading back, unknown cells, sorting. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <string.h>

#include "vh_table.h"

enum { DATE, PLANTING, COUNT, MASS, COLUMNS };

static const struct vh_column columns[COLUMNS] = {
    {"date", VH_CELL_DATE, "", "pick day"},
    {"planting", VH_CELL_TEXT, "", "name"},
    {"fruits", VH_CELL_INTEGER, "", "number"},
    {"mass_kg", VH_CELL_NUMBER, "kg", "fresh mass"},
};

static struct vh_table *created(void)
{
    struct vh_table *t = vh_table_create("picks", "a pick day", true, columns, COLUMNS);
    cr_assert(t != NULL);
    return t;
}

static void add(struct vh_table *t, double date, const char *planting)
{
    cr_assert(vh_table_add_row(t) == VH_OK);
    vh_table_set_number(t, DATE, date);
    cr_assert(vh_table_set_text(t, PLANTING, planting) == VH_OK);
}

Test(table, a_new_table_has_its_names_and_columns_and_no_rows)
{
    char name[] = "picks";
    struct vh_table *t = vh_table_create(name, "a pick day", false, columns, COLUMNS);
    name[0] = 'x';
    cr_expect(strcmp(vh_table_name(t), "picks") == 0);
    cr_expect(strcmp(vh_table_row_meaning(t), "a pick day") == 0);
    cr_expect(vh_table_is_file(t) == false);
    cr_expect(eq(sz, vh_table_rows(t), 0));
    cr_expect(eq(sz, vh_table_columns(t), COLUMNS));
    cr_expect(vh_table_column(t, MASS) == &columns[MASS]);
    cr_expect(vh_table_column(t, COLUMNS) == NULL);
    cr_expect(eq(int, vh_table_find(t, "fruits"), COUNT));
    cr_expect(eq(int, vh_table_find(t, "fruit"), -1));
    vh_table_free(t);
    vh_table_free(NULL);
}

Test(table, a_new_row_is_unknown_in_every_cell)
{
    struct vh_table *t = created();
    cr_expect(vh_table_is_file(t));
    cr_assert(vh_table_add_row(t) == VH_OK);
    cr_expect(isnan(vh_table_number(t, 0, DATE)));
    cr_expect(isnan(vh_table_number(t, 0, COUNT)));
    cr_expect(isnan(vh_table_number(t, 0, MASS)));
    cr_expect(strcmp(vh_table_text(t, 0, PLANTING), "") == 0);
    vh_table_free(t);
}

Test(table, cells_come_back_over_many_rows)
{
    struct vh_table *t = created();
    for (int r = 0; r < 1000; r++) {
        add(t, 20000 + r, r % 2 == 0 ? "north" : "south");
        vh_table_set_number(t, MASS, 0.125 * r);
    }
    cr_assert(eq(sz, vh_table_rows(t), 1000));
    for (int r = 0; r < 1000; r++) {
        cr_expect(vh_table_number(t, (size_t)r, DATE) == 20000 + r);
        cr_expect(vh_table_number(t, (size_t)r, MASS) == 0.125 * r);
        cr_expect(isnan(vh_table_number(t, (size_t)r, COUNT)));
        cr_expect(strcmp(vh_table_text(t, (size_t)r, PLANTING), r % 2 == 0 ? "north" : "south") ==
                  0);
    }
    vh_table_free(t);
}

static bool is_north(const struct vh_table *t, size_t row)
{
    return strcmp(vh_table_text(t, row, PLANTING), "north") == 0;
}

static bool is_none(const struct vh_table *t, size_t row)
{
    return vh_table_rows(t) == 0 && row == 0;
}

Test(table, rows_that_are_kept_stay_in_their_order)
{
    struct vh_table *t = created();
    vh_table_keep_rows(t, is_north); /* of no rows */
    for (int r = 0; r < 7; r++)
        add(t, 20000 + r, r % 3 == 1 ? "south" : "north"); /* 1 and 4 go */
    vh_table_keep_rows(t, is_north);
    cr_assert(eq(sz, vh_table_rows(t), 5));
    for (size_t r = 0; r < 5; r++) {
        const double day[] = {20000, 20002, 20003, 20005, 20006};
        cr_expect(vh_table_number(t, r, DATE) == day[r]);
        cr_expect(strcmp(vh_table_text(t, r, PLANTING), "north") == 0);
    }
    add(t, 20007, "south");
    cr_expect(vh_table_number(t, 5, DATE) == 20007);
    vh_table_keep_rows(t, is_none);
    cr_expect(eq(sz, vh_table_rows(t), 0));
    vh_table_free(t);
}

Test(table, a_text_may_be_set_again_and_taken_back)
{
    struct vh_table *t = created();
    char text[] = "north";
    add(t, 1, text);
    text[0] = 'x';
    cr_expect(strcmp(vh_table_text(t, 0, PLANTING), "north") == 0, "the text is a copy");
    cr_assert(vh_table_set_text(t, PLANTING, "south bay") == VH_OK);
    cr_expect(strcmp(vh_table_text(t, 0, PLANTING), "south bay") == 0);
    cr_assert(vh_table_set_text(t, PLANTING, NULL) == VH_OK);
    cr_expect(strcmp(vh_table_text(t, 0, PLANTING), "") == 0);
    vh_table_free(t);
}

Test(table, asking_outside_or_for_the_other_kind_gives_unknown)
{
    struct vh_table *t = created();
    add(t, 1, "north");
    cr_expect(isnan(vh_table_number(t, 0, PLANTING)));
    cr_expect(isnan(vh_table_number(t, 1, DATE)));
    cr_expect(isnan(vh_table_number(t, 0, COLUMNS)));
    cr_expect(strcmp(vh_table_text(t, 0, DATE), "") == 0);
    cr_expect(strcmp(vh_table_text(t, 1, PLANTING), "") == 0);
    cr_expect(strcmp(vh_table_text(t, 0, COLUMNS), "") == 0);
    vh_table_free(t);
}

Test(table, sorting_by_date_keeps_the_order_of_adding_within_a_day)
{
    struct vh_table *t = created();
    const double dates[9] = {5, 3, NAN, 5, -2, 3, NAN, 5, 3};
    const char *const names[9] = {"a", "b", "c", "d", "e", "f", "g", "h", "i"};
    for (int r = 0; r < 9; r++) {
        add(t, dates[r], names[r]);
    }
    cr_assert(vh_table_sort_by(t, DATE) == VH_OK);
    char order[10] = "";
    for (size_t r = 0; r < 9; r++) {
        order[r] = vh_table_text(t, r, PLANTING)[0];
    }
    cr_expect(strcmp(order, "ebfiadhcg") == 0, "order %s; unknown dates stand last", order);
    add(t, 9, "z");
    cr_expect(strcmp(vh_table_text(t, 9, PLANTING), "z") == 0, "a sorted table can grow");
    vh_table_free(t);
}

Test(table, sorting_nothing_or_one_row_is_fine)
{
    struct vh_table *t = created();
    cr_expect(vh_table_sort_by(t, DATE) == VH_OK);
    add(t, 9, "z");
    cr_expect(vh_table_sort_by(t, DATE) == VH_OK);
    cr_expect(eq(sz, vh_table_rows(t), 1));
    vh_table_free(t);
}

/* Tables of a future are filled again and again. */
Test(table, an_emptied_table_is_filled_anew)
{
    struct vh_table *t = created();
    for (int round = 0; round < 3; round++) {
        for (int r = 0; r < 400; r++) {
            add(t, r, "a planting of a name so long that many of them fill more than one block");
        }
        cr_assert(eq(sz, vh_table_rows(t), 400));
        cr_expect(isnan(vh_table_number(t, 399, MASS)), "nothing is left of the round before");
        vh_table_set_number(t, MASS, 1.0);
        vh_table_empty(t);
        cr_assert(eq(sz, vh_table_rows(t), 0));
    }
    vh_table_free(t);
}

Test(table, only_a_passing_table_keeps_no_copy_of_what_lasts)
{
    char name[] = "plums";
    struct vh_table *t = created();
    cr_assert(vh_table_add_row(t) == VH_OK && vh_table_set_lasting(t, PLANTING, name) == VH_OK);
    cr_expect(vh_table_owns(t, vh_table_text(t, 0, PLANTING)));
    cr_expect(not(vh_table_owns(t, name)));
    vh_table_make_passing(t);
    cr_assert(vh_table_add_row(t) == VH_OK && vh_table_set_lasting(t, PLANTING, name) == VH_OK);
    cr_expect(vh_table_text(t, 1, PLANTING) == name);
    name[0] = 'x';
    cr_expect(strcmp(vh_table_text(t, 0, PLANTING), "plums") == 0);
    vh_table_free(t);
}
