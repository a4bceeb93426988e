/* Laws of comparing: over scenarios drawn at random, through the library that `compare` runs. 100
 * scenarios; VINEHAND_LAWS=1000 in the environment draws so many. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_compare.h"
#include "vh_random.h"

enum purpose { OF_SCENARIO = 60 };
enum { USUAL_COUNT = 100, TEXT_ROOM = 4000 };

static struct vh_parameters *params;

static void read_params(void)
{
    cr_assert(vh_parameters_read(VINEHAND_PARAMS, &params, NULL) == VH_OK);
}

static void free_params(void)
{
    vh_parameters_free(params);
}

TestSuite(choices, .init = read_params, .fini = free_params);

static uint64_t scenarios(void)
{
    const char *text = getenv("VINEHAND_LAWS");
    uint64_t n = 0;

    for (; text && *text >= '0' && *text <= '9'; text++)
        n = 10 * n + (uint64_t)(*text - '0');
    return n ? n : USUAL_COUNT;
}

static double drawn(uint64_t scenario, uint32_t row, double low, double high)
{
    return low + (high - low) * vh_uniform(scenario, 0, 0, OF_SCENARIO, row);
}

/* A heated house of tomatoes somewhere, planted in the first half of a year; seen before set-out.
 */
static struct vh_scenario *any_scenario(uint64_t n)
{
    static const char *const crop[] = {"tomato-large", "tomato-plum", "tomato-cluster",
                                       "tomato-cherry"};
    static const char *const sky[] = {"clear", "mixed", "dull"};
    const struct vh_run_options options = {
        .today = 20454, .members = 1, .draw = 1}; /* 2026-01-01 */
    struct vh_messages *m = vh_messages_create();
    struct vh_scenario *s = NULL;
    char text[TEXT_ROOM];

    snprintf(text, sizeof text,
             "[house]\nname = \"Any\"\nlatitude_deg = %.1f\nwire_height_m = 3\n"
             "[climate]\nheat_c = %.1f\nvent_c = %.1f\n[climate.roughly]\n"
             "warmest_high_c = %.1f\nwarmest_low_c = 14\ncoldest_high_c = %.1f\n"
             "coldest_low_c = -10\nsky = \"%s\"\n"
             "[[planting]]\nname = \"crop\"\ncrop = \"%s\"\nplants = %.0f\nplants_per_m2 = %.2f\n"
             "set_out = 2026-0%d-%02d\npull_out = 2026-%02d-10\n"
             "[planting.suckers]\nevery_d = %d\n[planting.leaves]\nkeep = %.0f\n",
             drawn(n, 0, 30, 55), drawn(n, 1, 13, 20), drawn(n, 2, 21, 27), drawn(n, 3, 20, 33),
             drawn(n, 4, -5, 8), sky[(int)drawn(n, 5, 0, 3)], crop[(int)drawn(n, 6, 0, 4)],
             drawn(n, 7, 10, 300), drawn(n, 8, 1.5, 4), 1 + (int)drawn(n, 9, 0, 5),
             1 + (int)drawn(n, 10, 0, 28), 9 + (int)drawn(n, 11, 0, 3),
             3 + (int)drawn(n, 12, 0, 12), drawn(n, 13, 12, 22));
    const enum vh_status status =
        vh_scenario_parse(text, strlen(text), "any.toml", ".", params, &options, &s, m);
    for (size_t i = 0; status < 0 && i < vh_messages_count(m); i++)
        cr_log_error("%s\n%s", vh_messages_at(m, i)->text, text);
    cr_assert(status >= 0);
    vh_messages_free(m);
    return s;
}

/* Trusses that are picked empty, number 1 first. */
struct trusses {
    double *fruits, *g;
    size_t n;
};

static enum vh_status take_trusses(void *context, const struct vh_member_view *view)
{
    struct trusses *t = context;
    const struct vh_season *season = &view->season[0];

    t->fruits = calloc(season->trusses + 1, sizeof *t->fruits);
    t->g = calloc(season->trusses + 1, sizeof *t->g);
    cr_assert(t->fruits && t->g);
    while (t->n < season->trusses && season->truss[t->n].fruits_on <= 0.0) {
        t->fruits[t->n] = season->truss[t->n].picked_fruits;
        t->g[t->n] = season->truss[t->n].picked_g;
        t->n++;
    }
    return VH_OK;
}

static struct trusses with_fruits(const struct vh_scenario *s, double fruits)
{
    struct vh_choice choice = {0};
    struct vh_changed changed;
    struct trusses t = {0};
    const struct vh_ensemble_request q = {.scenario = &changed.scenario,
                                          .members = 1,
                                          .threads = 1,
                                          .mean_run = true,
                                          .seen = take_trusses,
                                          .context = &t};

    choice.has[VH_LEVER_FRUITS_KEPT] = true;
    choice.value[VH_LEVER_FRUITS_KEPT] = fruits;
    cr_assert(eq(int, vh_changed_init(s, &changed), VH_OK));
    cr_assert(eq(int, vh_lever_apply(s, &choice, 0, &changed), VH_OK));
    cr_assert(eq(int, vh_ensemble_run(&q, NULL), VH_OK));
    vh_changed_clear(&changed);
    return t;
}

/* Truss by truss, each weighed by what it carries where more are kept: the plain mean of a season
 * also moves with which trusses carry the fruit. Where light feeds every fruit in full up to 0.3 %
 * may hide: tests/laws/t_directions.c says why. */
static void expect_fewer_to_be_larger(uint64_t n)
{
    const double hidden = 0.003;
    struct vh_scenario *s = any_scenario(n);
    const double usual = s->house.planting[0].crop->habit.fruits_kept,
                 many = usual * drawn(n, 20, 0.6, 1.3), few = many * drawn(n, 21, 0.3, 0.95);
    struct trusses m = with_fruits(s, many), f = with_fruits(s, few);
    double many_g = 0.0, few_g = 0.0;

    for (size_t i = 0; i < m.n && i < f.n; i++) {
        if (m.fruits[i] <= 0.0 || f.fruits[i] <= 0.0)
            continue;
        many_g += m.g[i];
        few_g += f.g[i] / f.fruits[i] * m.fruits[i];
    }
    cr_expect(few_g >= many_g * (1.0 - hidden), "scenario %d: %.6g g of %.3g fruits, %.6g of %.3g",
              (int)n, few_g, few, many_g, many);
    free(m.fruits);
    free(m.g);
    free(f.fruits);
    free(f.g);
    vh_scenario_free(s);
}

Test(choices, fewer_fruits_never_give_smaller_fruit)
{
    for (uint64_t n = 0; n < scenarios(); n++)
        expect_fewer_to_be_larger(n);
}

/* The plan run again as a choice is the plan, to the last bit. */
Test(choices, a_choice_that_is_the_plan_changes_nothing)
{
    for (uint64_t n = 0; n < scenarios() / 10; n++) {
        struct vh_scenario *s = any_scenario(n);
        const struct vh_compare_request q = {.scenario = s, .members = 3, .draw = 2, .threads = 1};
        const struct vh_planting *p = &s->house.planting[0];
        struct vh_choice same = {0};
        struct vh_parts plan, again;

        same.has[VH_LEVER_SUCKERS] = same.has[VH_LEVER_LEAVES] = same.has[VH_LEVER_HEADS] =
            same.has[VH_LEVER_FRUITS_KEPT] = same.has[VH_LEVER_DENSITY] = true;
        same.value[VH_LEVER_SUCKERS] = p->policy.suckers.visit.every_d;
        same.value[VH_LEVER_LEAVES] = p->policy.leaves_keep;
        same.value[VH_LEVER_HEADS] = p->heads_per_plant;
        same.value[VH_LEVER_FRUITS_KEPT] = p->crop->habit.fruits_kept;
        same.value[VH_LEVER_DENSITY] = p->plants_per_m2;
        cr_assert(eq(int, vh_parts_of_plan(&q, &plan, NULL), VH_OK));
        cr_assert(eq(int, vh_parts_of_choice(&q, &same, 0, &plan, &again, NULL), VH_OK));
        for (size_t m = 0; m < q.members; m++) {
            double was[VH_CHOICE_VALUES], is[VH_CHOICE_VALUES];
            vh_choice_values(s, &plan, m, 0, was);
            vh_choice_values(s, &again, m, 0, is);
            cr_expect(was[VH_VALUE_FRUIT_G] == is[VH_VALUE_FRUIT_G] &&
                          was[VH_VALUE_HOURS] == is[VH_VALUE_HOURS] &&
                          was[VH_VALUE_MARKET_KG] == is[VH_VALUE_MARKET_KG],
                      "scenario %d, member %zu", (int)n, m);
        }
        vh_parts_clear(&again);
        vh_parts_clear(&plan);
        vh_scenario_free(s);
    }
}
