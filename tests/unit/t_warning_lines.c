/* How many warnings are left to warnings.csv: "more" only where some were told. Invented rows. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <stdio.h>
#include <stdlib.h>

#include "vh_result.h"
#include "vh_summary.h"
#include "vh_table.h"

static void warn(struct vh_table *t, const char *what, const char *matter)
{
    cr_assert(eq(int, vh_table_add_row(t), VH_OK));
    vh_table_set_number(t, (size_t)vh_table_find(t, "date"), 20000.0);
    vh_table_set_text(t, (size_t)vh_table_find(t, "what"), what);
    vh_table_set_text(t, (size_t)vh_table_find(t, "matter"), matter);
}

static void said_is(const struct vh_table *t, int most, char *wanted)
{
    const struct vh_summary_facts f = {.today = 20000, .units = VH_SAY_METRIC};
    char *text = NULL;
    size_t n = 0;
    FILE *to = open_memstream(&text, &n);

    cr_assert(to != NULL);
    vh_say_warnings(to, "CARE", t, &f, most, 0, false);
    cr_assert(fclose(to) == 0);
    cr_expect(eq(str, text, wanted));
    free(text);
}

Test(warning_lines, there_are_more_only_where_some_were_told)
{
    struct vh_table *t = vh_result_table_new(VH_TABLE_WARNINGS);

    cr_assert(t != NULL);
    said_is(t, 3, "");
    warn(t, "a dull week", "know");
    warn(t, "a bright week", "know");
    said_is(t, 3, "CARE       2 in warnings.csv\n"); /* good to know alone: none is told */
    warn(t, "lower the stems", "do");
    said_is(t, 3, "CARE       4 October: lower the stems; 2 more in warnings.csv\n");
    vh_table_free(t);
}
