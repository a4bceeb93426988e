/* What the program never lets through to the library, and the library refuses all the same: the
 * words and the status. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <string.h>

#include "scenario_trial.h"
#include "vh_climate.h"

#define HOUSE                                                                                      \
    "[house]\nname = \"One bay\"\nlatitude_deg = 44.5\n[climate.roughly]\nwarmest_high_c = 28\n"   \
    "warmest_low_c = 16\ncoldest_high_c = -2\ncoldest_low_c = -12\n"
#define PLANTING                                                                                    \
    "[[planting]]\nname = \"slicers\"\ncrop = \"tomato-large\"\nplants = 48\nplants_per_m2 = 2.5\n" \
    "set_out = 2026-02-20\npull_out = 2026-08-10\n"
#define STANDING "[planting.standing]\non = 2026-05-12\nflowering_truss = 9\npicking_truss = 4\n"

TestSuite(library_refuses, .init = trial_start, .fini = trial_stop);

static void read_scenario(const char *text)
{
    cr_assert(ge(int, trial_parse(".", text), VH_OK));
}

/* The last message, and its line. */
static void said(const char *text, int64_t line)
{
    const struct vh_message *m = vh_messages_at(messages, vh_messages_count(messages) - 1);

    cr_assert(eq(str, (char *)m->text, (char *)text));
    cr_assert(eq(i64, m->line, line));
}

Test(library_refuses, a_comparison_of_nothing)
{
    struct vh_result *result = NULL;

    read_scenario(HOUSE PLANTING "[compare]\n");
    cr_assert(eq(int, vh_compare(scenario, NULL, NULL, &result, messages), VH_BAD_INPUT));
    cr_assert(eq(ptr, result, NULL));
    said("nothing to compare; add a list to [compare], as in fruits_kept = [2, 3, 4]", 16);
}

Test(library_refuses, a_truss_below_the_first_and_one_that_nobody_saw_flower)
{
    struct vh_chain *chain = NULL;

    read_scenario(HOUSE PLANTING STANDING);
    cr_assert(
        eq(int, vh_explain_truss(scenario, NULL, "slicers", 0, &chain, messages), VH_BAD_INPUT));
    said("truss 0 is none; they are numbered from 1 at the bottom", 0);
    cr_assert(
        eq(int, vh_explain_truss(scenario, NULL, "slicers", 2, &chain, messages), VH_BAD_INPUT));
    said("truss 2 of slicers flowered before the crop was first seen; ask for a later one", 0);
    cr_assert(eq(ptr, chain, NULL));
}

Test(library_refuses, a_climate_of_no_day_and_of_too_many)
{
    struct vh_climate climate = {0};
    struct vh_climate_request request = {.first_day = 100, .last_day = 99};
    const struct vh_house_params p = {0};

    cr_assert(eq(int, vh_climate_read(&request, &p, NULL, &climate, messages), VH_BAD_INPUT));
    said("the season is 0 days long; it takes 1 to 4000 (set_out to pull_out)", 0);
    request.last_day = 100 + 4000;
    cr_assert(eq(int, vh_climate_read(&request, &p, NULL, &climate, messages), VH_BAD_INPUT));
    said("the season is 4001 days long; it takes 1 to 4000 (set_out to pull_out)", 0);
}

Test(library_refuses, a_day_beside_the_only_market_day)
{
    struct vh_chain *chain = NULL;

    read_scenario(HOUSE PLANTING "[market]\ndates = [2026-07-18]\n");
    cr_assert(eq(int, vh_explain_market_day(scenario, NULL, day("2026-07-17"), &chain, messages),
                 VH_BAD_INPUT));
    said("2026-07-17 is no market day; the next is 2026-07-18", 0);
    cr_assert(eq(int, vh_explain_market_day(scenario, NULL, day("2026-07-19"), &chain, messages),
                 VH_BAD_INPUT));
    said("2026-07-19 is no market day; the last is 2026-07-18", 0);
    cr_assert(eq(ptr, chain, NULL));
}
