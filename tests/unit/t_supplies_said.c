/* When what is in stock is gone and must be ordered: warnings and page tell it as supplies.csv
 * does, by the row of this week. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <string.h>

#include "vh_date.h"
#include "vh_report.h"
#include "vh_result.h"

static int64_t day(const char *text)
{
    int64_t d = 0;
    cr_assert(eq(int, vh_date_parse(text, &d), VH_OK));
    return d;
}

static void set(struct vh_table *t, const char *column, double value)
{
    vh_table_set_number(t, (size_t)vh_table_find(t, column), value);
}

static void add_week(struct vh_table *t, const char *monday, double left, const char *gone,
                     const char *order)
{
    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    vh_table_set_text(t, (size_t)vh_table_find(t, "item"), "clips");
    set(t, "monday", (double)day(monday));
    set(t, "needed", 10.0);
    set(t, "to_come", 10.0);
    set(t, "stock_left", left);
    set(t, "runs_out", (double)day(gone));
    set(t, "order_by", (double)day(order));
}

static struct vh_table *supplies(void)
{
    struct vh_table *t = vh_result_table_new(VH_TABLE_SUPPLIES);

    cr_assert(t != NULL);
    add_week(t, "2026-07-06", 200.0, "2026-08-01", "2026-07-25");
    add_week(t, "2026-07-13", 173.86, "2026-08-06", "2026-07-30"); /* of today */
    add_week(t, "2026-07-20", 120.0, "2026-08-12", "2026-08-05");
    return t;
}

Test(supplies_said, the_warning_has_the_dates_of_the_row_of_this_week)
{
    struct vh_table *t = supplies(), *warnings = vh_result_table_new(VH_TABLE_WARNINGS);

    cr_assert(eq(int,
                 vh_result_warn(warnings, day("2026-08-13"), "", "clips run out", "why",
                                "order by 6 August; a crop topples", day("2026-08-06")),
                 VH_OK));
    cr_assert(eq(int, vh_result_supplies_said(warnings, t, day("2026-07-14")), VH_OK));
    cr_expect(eq(dbl, vh_cell_number(warnings, 0, "date"), (double)day("2026-08-06")));
    cr_expect(eq(dbl, vh_cell_number(warnings, 0, "act_by"), (double)day("2026-07-30")));
    cr_expect(strncmp(vh_cell_text(warnings, 0, "what_to_do"), "order by 30 July; ", 18) == 0);
    vh_table_free(warnings);
    vh_table_free(t);
}

Test(supplies_said, what_runs_out_in_most_futures_alone_is_warned_of)
{
    struct vh_table *t = supplies(), *warnings = vh_result_table_new(VH_TABLE_WARNINGS);

    cr_assert(eq(int, vh_result_supplies_said(warnings, t, day("2026-07-14")), VH_OK));
    cr_assert(eq(sz, vh_table_rows(warnings), 1));
    cr_expect(eq(str, (char *)vh_cell_text(warnings, 0, "what"), "clips run out"));
    cr_expect(eq(str, (char *)vh_cell_text(warnings, 0, "matter"), "harm"));
    cr_expect(eq(dbl, vh_cell_number(warnings, 0, "date"), (double)day("2026-08-06")));
    cr_expect(eq(dbl, vh_cell_number(warnings, 0, "act_by"), (double)day("2026-07-30")));
    cr_expect(strncmp(vh_cell_text(warnings, 0, "what_to_do"), "order by 30 July; ", 18) == 0);
    vh_table_free(warnings);
    vh_table_free(t);
}

Test(supplies_said, the_page_tells_the_row_of_this_week)
{
    struct vh_table *t = supplies(), *hours = vh_result_table_new(VH_TABLE_HOURS);
    const struct vh_table *view[] = {hours, t};
    struct vh_draft out = {0};
    const struct vh_page_facts facts = {
        .more = view, .more_tables = 2, .name = "house", .today = day("2026-07-14")};
    struct vh_page page = vh_page_of(&out, &facts);
    const char told[] = "173 left after this week, gone 6 August: order by 30 July";
    bool is_told = false;

    cr_assert(eq(int, vh_table_add_row(hours), VH_OK));
    vh_table_set_text(hours, (size_t)vh_table_find(hours, "task"), "clip");
    set(hours, "monday", (double)day("2026-07-13"));
    set(hours, "hours", 1.0);

    vh_report_hours(&page);
    for (size_t i = 0; i + sizeof told - 1 <= out.n && !is_told; i++)
        is_told = memcmp(out.bytes + i, told, sizeof told - 1) == 0;
    cr_expect(is_told);
    vh_draft_clear(&out);
    vh_table_free(hours);
    vh_table_free(t);
}
