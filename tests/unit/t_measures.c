/* What to count today: each planting is asked for its own numbers, as when it stands alone. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <string.h>

#include "vh_date.h"
#include "vh_to_measure.h"

#define HOUSE                                                                                      \
    "[house]\nname = \"One bay\"\nlatitude_deg = 44.5\n[climate.roughly]\nwarmest_high_c = 28\n"   \
    "warmest_low_c = 16\ncoldest_high_c = -2\ncoldest_low_c = -12\n"
#define PLANTING(name, set_out)                                                                    \
    "[[planting]]\nname = \"" name "\"\ncrop = \"tomato-large\"\nplants = 48\n"                    \
    "plants_per_m2 = 2.5\nset_out = " set_out "\npull_out = 2026-10-10\n"
#define EARLY PLANTING("early", "2026-02-20")
#define LATE PLANTING("late", "2026-05-01")

static struct vh_parameters *params;
static struct vh_messages *messages;

static void start(void)
{
    messages = vh_messages_create();
    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &params, messages), VH_OK));
}

static void stop(void)
{
    vh_messages_free(messages);
    vh_parameters_free(params);
}

TestSuite(measures, .init = start, .fini = stop);

static struct vh_scenario *read_house(const char *text)
{
    struct vh_run_options options = {.members = 40};
    struct vh_scenario *s = NULL;

    cr_assert(eq(int, vh_date_parse("2026-07-14", &options.today), VH_OK));
    cr_assert(ge(
        int, vh_scenario_parse(text, strlen(text), "x.toml", ".", params, &options, &s, messages),
        VH_OK));
    return s;
}

/* The truss in flower that is expected of a planting, and its kg of the week to come. */
static void expected(const char *text, size_t planting, double *truss, double *kg)
{
    struct vh_scenario *s = read_house(text);
    struct vh_measures all;

    *truss = *kg = (double)NAN;
    cr_assert(eq(int, vh_measures_find(s, &all, messages), VH_OK));
    for (size_t i = 0; i < all.items; i++)
        if (all.item[i].planting == planting && all.item[i].item == VH_RECORD_FLOWERING_TRUSS) {
            *truss = all.item[i].expect;
            *kg = all.item[i].kg;
        }
    vh_measures_clear(&all);
    vh_scenario_free(s);
}

/* The futures of a planting are drawn anew where it stands second: the means agree as far as 40 of
 * them do. */
Test(measures, the_second_planting_is_asked_for_its_own_numbers)
{
    double early[2], late[2], alone[2];

    expected(HOUSE EARLY LATE, 0, &early[0], &early[1]);
    expected(HOUSE EARLY LATE, 1, &late[0], &late[1]);
    expected(HOUSE LATE, 0, &alone[0], &alone[1]);
    cr_expect(fabs(late[0] - alone[0]) < 0.5, "truss %g, alone %g", late[0], alone[0]);
    cr_expect(fabs(late[1] / alone[1] - 1.0) < 0.1, "%g kg, alone %g", late[1], alone[1]);
    /* ten weeks later, and a truss comes about every week */
    cr_expect(early[0] - late[0] > 6.0 && early[0] - late[0] < 14.0, "%g, %g", early[0], late[0]);
}

/* Is the early planting asked for the item, on whichever truss, where one entry is there? */
static bool is_asked(struct vh_scenario *s, struct vh_record entry, int *truss)
{
    struct vh_measures all;
    bool is_there = false;

    s->house.records.row = &entry;
    s->house.records.rows = 1;
    cr_assert(eq(int, vh_measures_find(s, &all, messages), VH_OK));
    s->house.records.row = NULL;
    s->house.records.rows = 0;
    for (size_t i = 0; i < all.items; i++)
        if (all.item[i].planting == 0 && all.item[i].item == entry.item) {
            is_there = true;
            *truss = all.item[i].truss;
        }
    vh_measures_clear(&all);
    return is_there;
}

/* What she noted yesterday is not asked for today, but once a week is over it is. */
Test(measures, what_was_measured_within_the_week_is_not_asked_for_again)
{
    struct vh_scenario *s = read_house(HOUSE EARLY LATE);
    const int64_t today = s->house.today;
    struct vh_record r = {.item = VH_RECORD_FRUIT_G, .value = 168.0, .day = today - 1};
    int truss = 0, other = 0;

    cr_expect(not(is_asked(s, r, &other)));
    r.day = today;
    cr_expect(not(is_asked(s, r, &other)));
    r.day = today - 6;
    cr_expect(not(is_asked(s, r, &other)));
    r.day = today - 7;
    cr_expect(is_asked(s, r, &other), "a week later");
    r.day = today - 1;
    r.doubt = true;
    cr_expect(is_asked(s, r, &other), "a doubted entry counts for little");
    r.doubt = false;
    r.planting = 1;
    cr_expect(is_asked(s, r, &other), "the other planting's");
    r.planting = 0;
    r.item = VH_RECORD_FRUIT_MM;
    r.truss = 1;
    cr_assert(is_asked(s, r, &truss), "on a truss that was not measured");
    r.truss = truss;
    cr_expect(not(is_asked(s, r, &other)));
    r.item = VH_RECORD_FRUITS_SET; /* a fortnight after its flowers a truss has been thinned */
    r.truss = 1;
    cr_expect(not(is_asked(s, r, &other)), "what set, where the plan leaves four");
    vh_scenario_free(s);
}

static bool is_same(const struct vh_to_measure *a, const struct vh_to_measure *b)
{
    return a->planting == b->planting && a->item == b->item && a->truss == b->truss &&
           a->of == b->of && a->day == b->day && a->is_market == b->is_market &&
           a->expect == b->expect && a->kg == b->kg && a->kg_low == b->kg_low &&
           a->kg_high == b->kg_high && a->narrows == b->narrows;
}

/* A season that is run to its end says of the next market day what it says when it is run no
 * further than that: to the bit. Of the plantings one is sold by size, one flowers later. */
static void agree_beside_a_forecast(const char *text)
{
    struct vh_scenario *s = read_house(text);
    struct vh_measures alone, beside;
    struct vh_result *r = NULL;

    cr_assert(eq(int, vh_measures_find(s, &alone, messages), VH_OK));
    cr_assert(eq(int, vh_measures_beside(s, NULL, NULL, &r, &beside, messages), VH_OK));
    cr_assert(lt(sz, 8, alone.items), "%zu", alone.items);
    cr_assert(eq(sz, alone.items, beside.items));
    for (size_t i = 0; i < alone.items; i++)
        cr_expect(is_same(&alone.item[i], &beside.item[i]), "item %zu", i);
    vh_measures_clear(&alone);
    vh_measures_clear(&beside);
    vh_result_free(r);
    vh_scenario_free(s);
}

Test(measures, futures_of_the_forecast_say_what_futures_cut_short_say)
{
    agree_beside_a_forecast(HOUSE EARLY LATE);
    agree_beside_a_forecast(HOUSE EARLY PLANTING(
        "young",
        "2026-07-01") "first_flower = 2026-08-20\n[market]\ndays = [\"sat\"]\nfrom = "
                      "2026-04-25\nuntil = 2026-11-07\n[[market.price]]\ncrop = "
                      "\"tomato-large\"\ngrades = \"tomato-us\"\nsold_by = \"lb\"\nper_lb = "
                      "{ extra-large = 3.4, large = 3.4, medium = 2.8, small = 1.8 }\n");
}
