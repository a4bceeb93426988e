/* The one row of a planting that people read: its sums are those of the picks, day by day. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <string.h>

#include "vh_date.h"
#include "vh_result.h"
#include "vinehand.h"

#define HOUSE                                                                                       \
    "[house]\nname = \"One bay\"\nlatitude_deg = 44.5\n[climate.roughly]\nwarmest_high_c = 28\n"    \
    "warmest_low_c = 16\ncoldest_high_c = -2\ncoldest_low_c = -12\n"                                \
    "[[planting]]\nname = \"slicers\"\ncrop = \"tomato-large\"\nplants = 48\nplants_per_m2 = 2.5\n" \
    "set_out = 2026-02-20\npull_out = 2026-09-10\n"                                                 \
    "[[planting]]\nname = \"long\"\ncrop = \"cucumber-long\"\nplants = 20\nplants_per_m2 = 1.5\n"   \
    "set_out = 2026-04-20\npull_out = 2026-09-10\n"

static double cell(const struct vh_table *t, size_t row, const char *column)
{
    const int c = vh_table_find(t, column);

    cr_assert(ge(int, c, 0), "%s", column);
    return vh_table_number(t, row, (size_t)c);
}

/* Of the picks from one day to another, both with them: their kg or fruits. */
static double picked(const struct vh_table *picks, const char *planting, const char *what,
                     int64_t from, int64_t until)
{
    const size_t name = (size_t)vh_table_find(picks, "planting");
    double sum = 0.0;

    for (size_t i = 0; i < vh_table_rows(picks); i++)
        if (strcmp(vh_table_text(picks, i, name), planting) == 0 &&
            cell(picks, i, "date") >= (double)from && cell(picks, i, "date") <= (double)until)
            sum += cell(picks, i, what);
    return sum;
}

Test(summary, its_sums_are_those_of_the_picks)
{
    struct vh_run_options options = {.members = 1};
    struct vh_messages *messages = vh_messages_create();
    struct vh_parameters *params = NULL;
    struct vh_scenario *s = NULL;
    struct vh_result *result = NULL;

    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &params, messages), VH_OK));
    cr_assert(eq(int, vh_date_parse("2026-07-14", &options.today), VH_OK));
    cr_assert(ge(
        int, vh_scenario_parse(HOUSE, strlen(HOUSE), "x.toml", ".", params, &options, &s, messages),
        VH_OK));
    cr_assert(eq(int, vh_mean_season(s, &result, messages), VH_OK));
    const struct vh_table *summary = vh_result_table(result, VH_TABLE_SUMMARY),
                          *picks = vh_result_table(result, VH_TABLE_PICKS);
    const int64_t today = options.today;
    const struct {
        const char *column, *what;
        int64_t from, until;
    } sums[] = {
        {"season_kg", "kg", INT32_MIN, INT32_MAX},
        {"season_fruits", "fruits", INT32_MIN, INT32_MAX},
        {"to_come_kg", "kg", today, INT32_MAX},
        {"to_come_fruits", "fruits", today, INT32_MAX},
        {"next_week_kg", "kg", today, today + 6},
        {"next_week_fruits", "fruits", today, today + 6},
    };
    static const char *const planting[] = {"slicers", "long"};
    for (size_t k = 0; k < 2; k++)
        for (size_t i = 0; i < sizeof sums / sizeof *sums; i++) {
            const double want =
                picked(picks, planting[k], sums[i].what, sums[i].from, sums[i].until);
            const double said = cell(summary, k, sums[i].column);
            cr_expect(lt(dbl, 0.0, want));
            cr_expect(fabs(said - want) <= 1e-6 * want, "%s of %s: %g, the picks give %g",
                      sums[i].column, planting[k], said, want);
        }
    vh_result_free(result);
    vh_scenario_free(s);
    vh_parameters_free(params);
    vh_messages_free(messages);
}
