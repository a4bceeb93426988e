/* The ten-minute plant check: what each count should give this week, what is usual, what it means
 * outside. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <string.h>

#include "scenario_trial.h"
#include "vh_result.h"
#include "vh_table.h"

static const char text[] =
    "[house]\nname = \"check\"\nlatitude_deg = 45\nutc_offset_h = 0\n"
    "[climate.roughly]\nwarmest_high_c = 27\nwarmest_low_c = 17\ncoldest_high_c = 4\n"
    "coldest_low_c = -4\nsky = \"mixed\"\n"
    "[[planting]]\nname = \"t\"\ncrop = \"tomato-large\"\nplants = 40\nplants_per_m2 = 2\n"
    "set_out = 2026-04-01\npull_out = 2026-06-20\n"
    "[[planting]]\nname = \"c\"\ncrop = \"cucumber-long\"\nplants = 40\nplants_per_m2 = 1.6\n"
    "set_out = 2026-04-01\npull_out = 2026-06-20\n";

static struct vh_result *result;

static void run(const char *today, int members, const char *records)
{
    struct vh_run_options o = {.members = members, .draw = 3, .no_records = true};

    cr_assert(eq(int, vh_date_parse(today, &o.today), VH_OK));
    cr_assert(ge(int,
                 vh_scenario_parse(text, strlen(text), "check.toml", "/tmp", params, &o, &scenario,
                                   messages),
                 VH_OK));
    if (records)
        cr_assert(ge(int,
                     vh_records_read_memory(&scenario->house, &params->record, records,
                                            strlen(records), messages),
                     VH_OK));
    cr_assert(eq(int, vh_forecast(scenario, NULL, NULL, &result, messages), VH_OK));
}

static void end(void)
{
    vh_result_free(result);
    trial_stop();
}

TestSuite(plant_check, .init = trial_start, .fini = end, .timeout = 110);

static double number(const struct vh_table *t, size_t row, const char *name)
{
    return vh_table_number(t, row, (size_t)vh_table_find(t, name));
}

static const char *word(const struct vh_table *t, size_t row, const char *name)
{
    return vh_table_text(t, row, (size_t)vh_table_find(t, name));
}

/* The row of an item; SIZE_MAX: there is none. */
static size_t row_of(const char *planting, const char *item)
{
    const struct vh_table *t = result->table[VH_TABLE_PLANT_CHECK];

    for (size_t row = 0; row < vh_table_rows(t); row++)
        if (strcmp(word(t, row, "planting"), planting) == 0 &&
            strcmp(word(t, row, "item"), item) == 0)
            return row;
    return SIZE_MAX;
}

static double told(const char *planting, const char *item, const char *column)
{
    const size_t row = row_of(planting, item);

    cr_assert(ne(sz, row, SIZE_MAX), "%s of %s", item, planting);
    return number(result->table[VH_TABLE_PLANT_CHECK], row, column);
}

/* Of the table stem, on a day. */
static double stem(const char *planting, double day, const char *column)
{
    const struct vh_table *t = result->table[VH_TABLE_STEM];

    for (size_t row = 0; row < vh_table_rows(t); row++)
        if (strcmp(word(t, row, "planting"), planting) == 0 && number(t, row, "date") == day)
            return number(t, row, column);
    return NAN;
}

Test(plant_check, each_count_is_what_the_season_has_this_week)
{
    run("2026-06-02", 1, NULL);
    const double today = (double)scenario->options.today;

    cr_assert(epsilon_eq(dbl, told("t", "flowering_truss", "expect"),
                         stem("t", today, "flowering_truss") - 0.5, 1e-9));
    cr_assert(
        epsilon_eq(dbl, told("t", "leaves_on_stem", "expect"), stem("t", today, "leaves"), 1e-9));
    cr_assert(epsilon_eq(dbl, told("c", "stem_growth_cm", "expect"),
                         stem("c", today, "stem_cm") - stem("c", today - 7.0, "stem_cm"), 1e-9));
    cr_assert(lt(dbl, 0.0, told("t", "fruits_set", "truss")));
    for (size_t row = 0; row < vh_table_rows(result->table[VH_TABLE_PLANT_CHECK]); row++) {
        const struct vh_table *t = result->table[VH_TABLE_PLANT_CHECK];
        cr_assert(lt(dbl, number(t, row, "low"), number(t, row, "expect")));
        cr_assert(lt(dbl, number(t, row, "expect"), number(t, row, "high")));
        cr_assert(lt(sz, 0, strlen(word(t, row, "if_lower"))));
        cr_assert(lt(sz, 0, strlen(word(t, row, "if_higher"))));
    }
}

Test(plant_check, futures_widen_what_is_usual)
{
    run("2026-06-02", 1, NULL);
    const double alone =
        told("t", "stem_growth_cm", "high") - told("t", "stem_growth_cm", "expect");
    vh_result_free(result);
    vh_scenario_free(scenario);
    run("2026-06-02", 24, NULL);
    cr_assert(lt(dbl, alone,
                 told("t", "stem_growth_cm", "high") - told("t", "stem_growth_cm", "expect")));
}

/* 10 mm: papadopoulos1991, params/crops/tomato-cluster.csv. */
Test(plant_check, a_stem_is_as_thick_as_her_own_counts_else_as_the_book)
{
    run("2026-06-02", 1,
        "date,planting,item,value\n2026-04-20,c,stem_mm,5\n"
        "2026-05-20,c,stem_mm,8\n2026-05-27,c,stem_mm,9\n");
    cr_assert(epsilon_eq(dbl, told("t", "stem_mm", "expect"), 10.0, 1e-9));
    cr_assert(epsilon_eq(dbl, told("c", "stem_mm", "expect"), 8.5, 1e-9));
}

Test(plant_check, nobody_is_asked_what_cannot_be_told)
{
    run("2026-04-03", 1, NULL); /* no week has gone by, no truss has set */
    cr_assert(eq(sz, row_of("c", "stem_mm"), SIZE_MAX));
    cr_assert(eq(sz, row_of("t", "stem_growth_cm"), SIZE_MAX));
    cr_assert(eq(sz, row_of("t", "fruits_set"), SIZE_MAX));
    cr_assert(ne(sz, row_of("t", "flowering_truss"), SIZE_MAX));
}

/* Of table "trusses", of the slicers' truss. */
static double of_truss(double truss, const char *column)
{
    const struct vh_table *t = result->table[VH_TABLE_TRUSSES];

    for (size_t row = 0; row < vh_table_rows(t); row++)
        if (strcmp(word(t, row, "planting"), "t") == 0 && number(t, row, "truss") == truss)
            return number(t, row, column);
    return NAN;
}

/* What set can be counted as long as it hangs there: of a truss that she thins this week; of one
 * that was thinned what is left is asked. */
Test(plant_check, what_set_is_asked_of_no_truss_that_was_thinned)
{
    static const char *const days[] = {"2026-05-20", "2026-05-23", "2026-05-26", "2026-05-29",
                                       "2026-06-02", "2026-06-08", "2026-06-14", "2026-06-19"};
    int set = 0, left = 0;

    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        if (i > 0) {
            vh_result_free(result);
            vh_scenario_free(scenario);
        }
        run(days[i], 1, NULL);
        const double today = (double)scenario->options.today;
        if (row_of("t", "fruits_set") != SIZE_MAX) {
            const double truss = told("t", "fruits_set", "truss");
            cr_expect(le(dbl, today, of_truss(truss, "take_off_on")), "%s", days[i]);
            cr_expect(eq(dbl, told("t", "fruits_set", "expect"), of_truss(truss, "set")));
            set++;
        }
        if (row_of("t", "fruits_left") != SIZE_MAX) {
            const double truss = told("t", "fruits_left", "truss");
            cr_expect(not(le(dbl, today, of_truss(truss, "take_off_on"))), "%s", days[i]);
            cr_expect(eq(dbl, told("t", "fruits_left", "expect"), of_truss(truss, "kept")));
            left++;
        }
    }
    cr_expect(lt(int, 0, set));
    cr_expect(lt(int, 0, left));
    cr_expect(le(int, set + left, (int)(sizeof days / sizeof days[0])));
}
