/* The fruit of what is to come: of trusses that ripen whole. Arithmetic. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>

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
