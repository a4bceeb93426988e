/* The lists of columns that a grower brings, asked by explain and by the manual page: each ends
 * where its taker wants no more, with the taker's own word for it (vh_brought.h). */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include "may_house.h"
#include "record_parts.h"
#include "vh_climate_columns.h"
#include "vh_grade.h"
#include "vh_kept.h"

static int asked, last;

static enum vh_status until_the_last(void *context, const struct vh_brought_column *column)
{
    (void)context;
    cr_assert(column->name[0] && column->meaning[0]);
    return ++asked == last ? VH_INTERRUPTED : VH_OK;
}

static enum vh_status climate(vh_brought_take take, void *context)
{
    return vh_climate_columns(&may_params, take, context);
}

Test(brought, each_list_ends_where_its_taker_wants)
{
    static const struct {
        const char *name;
        enum vh_status (*list)(vh_brought_take, void *);
    } lists[] = {{"climate", climate},
                 {"normals", vh_normals_columns},
                 {"records", vh_record_columns},
                 {"grades", vh_grade_columns},
                 {"kept", vh_kept_columns}};

    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        last = asked = 0;
        cr_assert(eq(int, lists[i].list(until_the_last, NULL), VH_OK));
        const int all = asked;
        cr_assert(lt(int, 3, all), "%s", lists[i].name);
        for (last = 1; last <= all; last++) {
            asked = 0;
            cr_expect(eq(int, lists[i].list(until_the_last, NULL), VH_INTERRUPTED), "%s, column %d",
                      lists[i].name, last);
            cr_expect(eq(int, asked, last), "%s", lists[i].name);
        }
    }
}
