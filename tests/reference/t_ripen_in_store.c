/* Ripening off the vine: the days to red that a grower's leaflet gives, and what lies between. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <string.h>

#include "vh_ripen.h"

static void read_table(struct vh_ripen_table *t)
{
    cr_assert(vh_ripen_read(VINEHAND_PARAMS "/off-vine.csv", "off-vine.csv", NULL, t, NULL) ==
              VH_OK);
}

/* Days to red of fruit off the vine (leaflet of a university, from memory; the cells of 12.5 degC
 * were also read in a page that cites nobody). */
Test(ripen_in_store, cells_are_the_days_of_the_leaflet)
{
    static const double temp_c[] = {12.5, 15, 17.5, 20, 22.5, 25};
    static const double days[4][6] = {
        {18, 15, 12, 10, 8, 7}, {16, 13, 10, 8, 6, 5}, {13, 10, 8, 6, 4, 3}, {10, 8, 6, 4, 3, 2}};
    struct vh_ripen_table t;

    read_table(&t);
    for (int s = 0; s < 4; s++)
        for (int i = 0; i < 6; i++)
            cr_assert(eq(dbl, vh_ripen_days_to_red(&t, s, temp_c[i]), days[s][i]));
}

Test(ripen_in_store, between_the_cells_it_is_linear_and_outside_nothing_is_known)
{
    struct vh_ripen_table t;

    read_table(&t);
    /* pink 6 at 17.5, 4 at 20; turning 8 and 6: at 18.5 pink 5.2, turning 7.2 */
    cr_assert(epsilon_eq(dbl, vh_ripen_days_to_red(&t, VH_RIPEN_PINK, 18.5), 5.2, 1e-12));
    cr_assert(epsilon_eq(dbl, vh_ripen_days_to_red(&t, 2.25, 18.5), 6.7, 1e-12));
    cr_assert(epsilon_eq(dbl, vh_ripen_days_to_red(&t, VH_RIPEN_LIGHT_RED, 20), 2.0, 1e-12));
    cr_assert(eq(dbl, vh_ripen_days_to_red(&t, VH_RIPEN_RED, 20), 0.0));
    cr_assert(isnan(vh_ripen_days_to_red(&t, VH_RIPEN_PINK, 12.4)));
    cr_assert(isnan(vh_ripen_days_to_red(&t, VH_RIPEN_PINK, 25.1)));
    cr_assert(isnan(vh_ripen_stage_after(&t, VH_RIPEN_PINK, 5, 1)));
}

Test(ripen_in_store, days_in_store_are_taken_off_the_days_to_red)
{
    struct vh_ripen_table t;

    read_table(&t);
    for (double stage = 0.0; stage <= 5.0; stage += 0.37)
        for (double temp = 12.5; temp <= 25.0; temp += 0.9)
            for (double held = 0.0; held < 20.0; held += 0.61) {
                const double before = vh_ripen_days_to_red(&t, stage, temp);
                const double after = vh_ripen_stage_after(&t, stage, temp, held);
                const double left = before > held ? before - held : 0.0;
                cr_assert(epsilon_eq(dbl, vh_ripen_days_to_red(&t, after, temp), left, 1e-12));
                cr_assert(le(dbl, stage - 1e-12, after));
            }
}

#define HEADER "stage,temp_c,days\n"

static void refused(const char *text, int64_t line, const char *part)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_ripen_table t;

    cr_assert(vh_ripen_read_memory(text, strlen(text), "own.csv", &t, m) == VH_BAD_INPUT);
    cr_assert(ge(sz, vh_messages_count(m), 1));
    cr_assert(eq(i64, vh_messages_at(m, 0)->line, line), "%s", vh_messages_at(m, 0)->text);
    cr_assert(strstr(vh_messages_at(m, 0)->text, part) != NULL, "%s", vh_messages_at(m, 0)->text);
    vh_messages_free(m);
}

Test(ripen_in_store, a_broken_table_is_refused_with_its_line)
{
    refused("stage,days,temp_c\npink,3,1\n", 1, "the columns of ripening off the vine");
    refused(HEADER, 0, "rows are missing");
    refused(HEADER "pink,20,4\n", 2, "stage `pink`");
    refused(HEADER "mature-green,x,4\n", 2, "no number");
    refused(HEADER "mature-green,20,0\n", 2, "days above 0");
    refused(HEADER "mature-green,20,9\nmature-green,15,12\n", 3, "let temperatures rise");
    refused(HEADER "mature-green,15,9\nmature-green,20,8\nbreaker,16,7\n", 4,
            "15 would be next");
    refused(HEADER "mature-green,15,9\nmature-green,20,8\nbreaker,15,9\n", 4, "red sooner");
    refused(HEADER "mature-green,15,9\nmature-green,20,8\nbreaker,15,8\nbreaker,20,7\n", 0,
            "rows are missing");
}
