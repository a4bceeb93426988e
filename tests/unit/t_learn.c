/* Learning from records: nothing without them, the same bits however it is run, towards the truth
 * where there is one, and no single absurd entry may lead it. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "learn_parts.h"
#include "vh_hindcast.h"
#include "vh_learn.h"
#include "vh_table.h"
#include "vinehand.h"

#define HEAD "date,planting,item,value,truss,of,note\n"

static struct vh_messages *messages;
static struct vh_parameters *params;

static void open_params(void)
{
    messages = vh_messages_create();
    cr_assert(ge(int, vh_parameters_read(VINEHAND_PARAMS, &params, messages), VH_OK));
}

static void close_params(void)
{
    vh_parameters_free(params);
    vh_messages_free(messages);
}

TestSuite(learn, .init = open_params, .fini = close_params, .timeout = 110);

/* The two bays on a day, with these records in place of their own. */
static struct vh_scenario *house(const char *records, int members, int threads)
{
    struct vh_run_options o = {
        .members = members, .draw = 5, .threads = threads, .no_records = true};
    struct vh_scenario *s = NULL;

    cr_assert(eq(int, vh_date_parse("2026-07-14", &o.today), VH_OK));
    cr_assert(
        ge(int,
           vh_scenario_read(VINEHAND_TEST_DATA "/../scenarios/two-bays", params, &o, &s, messages),
           VH_OK));
    if (records)
        cr_assert(ge(
            int,
            vh_records_read_memory(&s->house, &params->record, records, strlen(records), messages),
            VH_OK));
    return s;
}

static void learn(const struct vh_scenario *s, struct vh_learned *l)
{
    cr_assert(eq(int, vh_learn(s, NULL, NULL, l, messages), VH_OK));
}

static int64_t day(const char *text)
{
    int64_t d = 0;
    cr_assert(eq(int, vh_date_parse(text, &d), VH_OK));
    return d;
}

/* Mean of a factor over the members. */
static double mean_of(const struct vh_learned *l, size_t planting, enum vh_kept_kind kind)
{
    double sum = 0.0;
    for (size_t j = 0; j < l->members; j++)
        sum += vh_member_factor(&l->factor[j * l->plantings + planting], kind);
    return sum / (double)l->members;
}

static double sd_of(const struct vh_learned *l, size_t planting, enum vh_kept_kind kind)
{
    const double mean = mean_of(l, planting, kind);
    double squares = 0.0;
    for (size_t j = 0; j < l->members; j++) {
        const double off = vh_member_factor(&l->factor[j * l->plantings + planting], kind) - mean;
        squares += off * off;
    }
    return sqrt(squares / (double)(l->members - 1));
}

static void assert_priors(const struct vh_scenario *s, const struct vh_learned *l)
{
    cr_assert(eq(sz, l->values, 0));
    cr_assert(eq(sz, vh_table_rows(l->table), 0));
    for (size_t j = 0; j < l->members; j++)
        for (size_t k = 0; k < l->plantings; k++) {
            const struct vh_member m = vh_member_draw(s, s->options.draw, j, k);
            cr_assert(eq(int, memcmp(&l->factor[j * l->plantings + k], &m, sizeof m), 0));
        }
}

Test(learn, without_records_the_priors_stand_to_the_last_bit)
{
    struct vh_scenario *s = house(NULL, 24, 2);
    struct vh_learned l;

    learn(s, &l);
    assert_priors(s, &l);
    vh_learned_clear(&l);
    vh_scenario_free(s);
}

Test(learn, records_that_tell_nothing_of_plants_leave_the_priors)
{
    struct vh_scenario *s = house(HEAD "2026-07-11,slicers,sold_kg,22,,,\n"
                                       "2026-07-03,cucumbers,lowered_cm,40,,,\n",
                                  24, 2);
    struct vh_learned l;

    learn(s, &l);
    assert_priors(s, &l);
    vh_learned_clear(&l);
    vh_scenario_free(s);
}

Test(learn, with_fewer_futures_than_the_least_nothing_is_learnt)
{
    struct vh_scenario *s = house(HEAD "2026-07-07,slicers,picked_kg,9,,,\n", 19, 2);
    struct vh_learned l;

    learn(s, &l);
    assert_priors(s, &l);
    vh_learned_clear(&l);
    vh_scenario_free(s);
}

#define SOME                                                                                       \
    HEAD "2026-06-26,slicers,picked_kg,21,,,\n"                                                    \
         "2026-07-03,slicers,picked_kg,20,,,\n"                                                    \
         "2026-07-10,slicers,picked_kg,22,,,\n"                                                    \
         "2026-07-10,slicers,breaker_fruits,0.8,,5,\n"                                             \
         "2026-07-10,plums,flowering_truss,12,,5,\n"                                               \
         "2026-07-10,slicers,fruits_set,4.6,14,6,\n"

Test(learn, threads_change_no_bit)
{
    struct vh_learned one, three;
    struct vh_scenario *s = house(SOME, 40, 1), *t = house(SOME, 40, 3);

    learn(s, &one);
    learn(t, &three);
    cr_assert(eq(sz, one.values, 6));
    cr_assert(eq(int,
                 memcmp(one.factor, three.factor, one.members * one.plantings * sizeof *one.factor),
                 0));
    cr_assert(eq(
        int, memcmp(one.log_offset_c, three.log_offset_c, one.members * sizeof *one.log_offset_c),
        0));
    /* it did learn: the plums' truss in flower was counted */
    cr_assert(ne(dbl, one.factor[1].plant.truss_pace,
                 vh_member_draw(s, s->options.draw, 0, 1).plant.truss_pace));
    /* the cucumbers have no records: but for the light of the house they are as they were */
    const struct vh_member drawn = vh_member_draw(s, s->options.draw, 0, 2);
    cr_assert(eq(dbl, one.factor[2].plant.truss_pace, drawn.plant.truss_pace));
    cr_assert(eq(dbl, one.factor[2].plant.light, one.factor[0].plant.light));
    cr_assert(ne(dbl, one.factor[2].plant.light, drawn.plant.light));
    vh_learned_clear(&one);
    vh_learned_clear(&three);
    vh_scenario_free(s);
    vh_scenario_free(t);
}

static double mean_stray(const struct vh_learned *l)
{
    double sum = 0.0;

    for (size_t j = 0; j < l->members; j++)
        sum += l->factor[j * l->plantings].stray;
    return sum / (double)l->members;
}

/* An entry that is merely high lifts what is picked for some weeks. Ten times what the others say
 * moves neither that nor the house by more than a twentieth of their spread, 0.2 each; nor does
 * thirty times. 0: there is no such entry. */
Test(learn, one_absurd_entry_leads_nobody)
{
    const char *const rest = "2026-06-19,slicers,picked_kg,21,,,\n"
                             "2026-06-26,slicers,picked_kg,21,,,\n"
                             "2026-07-03,slicers,picked_kg,20,,,\n";
    const double kg[] = {0.0, 26.0, 210.0, 700.0};
    double light[4], stray[4];

    for (size_t i = 0; i < 4; i++) {
        char text[400], last[64] = "";
        struct vh_learned l;
        if (kg[i] > 0.0)
            snprintf(last, sizeof last, "2026-07-10,slicers,picked_kg,%g,,,\n", kg[i]);
        snprintf(text, sizeof text, HEAD "%s%s", rest, last);
        struct vh_scenario *s = house(text, 100, 2);
        learn(s, &l);
        light[i] = mean_of(&l, 0, VH_KEPT_LIGHT);
        stray[i] = mean_stray(&l);
        vh_learned_clear(&l);
        vh_scenario_free(s);
    }
    cr_expect(lt(dbl, 0.02, stray[1] - stray[0]), "%g", stray[1] - stray[0]);
    for (int i = 2; i < 4; i++) {
        cr_expect(lt(dbl, fabs(light[i] - light[0]), 0.01), "%g", light[i] - light[0]);
        cr_expect(lt(dbl, fabs(stray[i] - stray[0]), 0.01), "%g", stray[i] - stray[0]);
    }
}

/* Entries without end still leave the share of the spread that the parameters ask. */
Test(learn, many_entries_leave_some_spread)
{
    char text[8000] = HEAD;
    struct vh_learned l;

    for (int64_t d = day("2026-05-01"); d <= day("2026-07-14"); d++) {
        char date[11];
        const size_t used = strlen(text);
        vh_date_format(d, date);
        snprintf(text + used, sizeof text - used, "%s,slicers,flowering_truss,%.2f,,40,\n", date,
                 8.0 + 0.125 * (double)(d - day("2026-05-01")));
    }
    struct vh_scenario *s = house(text, 100, 2);
    learn(s, &l);
    const double left = sd_of(&l, 0, VH_KEPT_TRUSS_PACE) / mean_of(&l, 0, VH_KEPT_TRUSS_PACE);
    cr_expect(le(dbl, 0.98 * params->record.spread_left * params->futures.truss_pace_cv, left));
    cr_expect(lt(dbl, left, 0.9 * params->futures.truss_pace_cv));
    vh_learned_clear(&l);
    vh_scenario_free(s);
}

/* Where houses are told to be all as steady as the book's, records change nothing of that. */
Test(learn, without_a_spread_of_unsteadiness_none_is_learnt)
{
    struct vh_learned l;

    params->futures.unsteady_cv = 0.0;
    struct vh_scenario *s = house(SOME, 24, 2);
    learn(s, &l);
    cr_assert(lt(sz, 0, l.values));
    for (size_t i = 0; i < l.members * l.plantings; i++) {
        cr_assert(eq(dbl, l.factor[i].unsteady, 1.0));
        cr_assert(isfinite(l.factor[i].stray) && isfinite(l.factor[i].plant.light));
    }
    vh_learned_clear(&l);
    vh_scenario_free(s);
}

static double stray_of(const struct vh_learned *l, size_t planting)
{
    double sum = 0.0;

    for (size_t j = 0; j < l->members; j++)
        sum += l->factor[j * l->plantings + planting].stray;
    return sum / (double)l->members;
}

/* How far the plants stray from the model today follows the last entries: below it after a poor
 * week, above it after a good one. */
Test(learn, the_last_week_tells_which_way_plants_stray)
{
    static const char *const last[] = {"13", "52"};
    double stray[2];

    for (size_t i = 0; i < 2; i++) {
        char text[1000];
        struct vh_learned l;
        snprintf(text, sizeof text,
                 HEAD "2026-06-12,slicers,picked_kg,21,,,\n2026-06-19,slicers,picked_kg,21,,,\n"
                      "2026-06-26,slicers,picked_kg,21,,,\n2026-07-03,slicers,picked_kg,20,,,\n"
                      "2026-07-10,slicers,picked_kg,%s,,,\n",
                 last[i]);
        struct vh_scenario *s = house(text, 100, 2);
        learn(s, &l);
        stray[i] = stray_of(&l, 0);
        vh_learned_clear(&l);
        vh_scenario_free(s);
    }
    cr_expect(lt(dbl, stray[0], -0.02), "%g", stray[0]);
    cr_expect(lt(dbl, 0.02, stray[1]), "%g", stray[1]);
}

/* However sure the records are, the share of the spread that the parameters ask is left. */
Test(learn, the_share_of_the_spread_that_is_asked_is_left)
{
    struct vh_learned l;

    params->record.spread_left = 0.9;
    struct vh_scenario *s = house(HEAD "2026-05-15,slicers,flowering_truss,9.5,,40,\n"
                                       "2026-06-15,slicers,flowering_truss,13.5,,40,\n"
                                       "2026-07-10,slicers,flowering_truss,17,,40,\n",
                                  100, 2);
    learn(s, &l);
    double sum = 0.0, squares = 0.0;
    for (size_t j = 0; j < l.members; j++)
        sum += log(vh_member_factor(&l.factor[j * l.plantings], VH_KEPT_TRUSS_PACE));
    for (size_t j = 0; j < l.members; j++) {
        const double off = log(vh_member_factor(&l.factor[j * l.plantings], VH_KEPT_TRUSS_PACE)) -
                           sum / (double)l.members;
        squares += off * off;
    }
    /* of a log-normal factor with mean 1 and this cv */
    const double cv = params->futures.truss_pace_cv, prior = sqrt(log(1.0 + cv * cv));
    cr_expect(epsilon_eq(dbl, sqrt(squares / (double)(l.members - 1)), 0.9 * prior, 1e-9));
    vh_learned_clear(&l);
    vh_scenario_free(s);
}

/* The light is of the house: one entry of the last planting moves it for the first one too, which
 * has no entries, and no other factor of that one. */
Test(learn, one_entry_of_a_planting_tells_the_light_of_all)
{
    struct vh_scenario *s = house(HEAD "2026-07-10,cucumbers,picked_fruits,30,,,\n", 100, 2);
    struct vh_learned l;
    size_t own = 0;

    learn(s, &l);
    const size_t last = l.plantings - 1;
    cr_assert(l.values == 1 && last > 0);
    cr_assert(eq(int, strcmp(s->house.planting[last].name, "cucumbers"), 0));
    for (size_t j = 0; j < l.members; j++) {
        const struct vh_member *of = &l.factor[j * l.plantings];
        const struct vh_member prior = vh_member_draw(s, s->options.draw, j, 0);
        cr_assert(eq(dbl, of[0].plant.light, of[last].plant.light));
        cr_assert(ne(dbl, of[0].plant.light, prior.plant.light));
        cr_assert(eq(dbl, of[0].plant.set, prior.plant.set));
    }
    for (size_t row = 0; row < vh_table_rows(l.table); row++)
        own += strcmp(vh_cell_text(l.table, row, "planting"), "cucumbers") == 0;
    cr_expect(lt(sz, 0, own), "%zu rows", vh_table_rows(l.table));
    vh_learned_clear(&l);
    vh_scenario_free(s);
}

/* ---- what a season says in place of an entry ---- */

#define SEASON_D 10

/* Ten days by hand: 2 stems; a fruit a stem of 100 g picked on days 2, 5 and 8; a truss in flower
 * more every fifth day, 5 cm of stem a day. */
static void by_hand(struct vh_season *s, struct vh_season_day day_of[SEASON_D])
{
    *s = (struct vh_season){.first_day = 1000, .days = SEASON_D, .day = day_of};
    for (size_t d = 0; d < SEASON_D; d++) {
        day_of[d] = (struct vh_season_day){.stems = 2.0};
        day_of[d].plant.flowering_truss = 3.0 + 0.2 * (double)d;
        day_of[d].plant.picking_truss = 1.0;
        day_of[d].plant.stem_cm = 50.0 + 5.0 * (double)d;
        day_of[d].plant.leaves = 16.0;
        day_of[d].plant.leaves_made = 20.0 + (double)d;
        day_of[d].plant.sucker_pulled_cm = d == 4 ? 7.0 : (double)NAN;
        if (d % 3 == 2)
            day_of[d].picked = (struct vh_picked){.fruits = 1.0, .dm_g = 5.0, .fresh_g = 100.0};
    }
}

static double said(const struct vh_season *s, enum vh_record_item item, int64_t from, int64_t until)
{
    const struct vh_house nobody = {.plantings = 0};
    const struct vh_learn_value v = {
        .item = item, .from = from, .until = until, .look = VH_LEARN_NONE};

    return vh_learn_predict(&v, &nobody, s, 1.0);
}

Test(learn, a_season_says_what_an_entry_says)
{
    struct vh_season_day days[SEASON_D];
    struct vh_season s;

    by_hand(&s, days);
    cr_expect(epsilon_eq(dbl, said(&s, VH_RECORD_PICKED_KG, 1000, 1009), 0.6, 1e-12));
    cr_expect(epsilon_eq(dbl, said(&s, VH_RECORD_PICKED_KG, 1003, 1007), 0.2, 1e-12));
    cr_expect(eq(dbl, said(&s, VH_RECORD_PICKED_KG, 1003, 1004), 0.0));
    cr_expect(epsilon_eq(dbl, said(&s, VH_RECORD_PICKED_FRUITS, 1002, 1005), 4.0, 1e-12));
    cr_expect(epsilon_eq(dbl, said(&s, VH_RECORD_FRUIT_G, 1002, 1005), 100.0, 1e-9));
    cr_expect(isnan(said(&s, VH_RECORD_FRUIT_G, 1003, 1004))); /* none was picked */
    /* a clock of 4.0: half of the stems are at their third truss still, half at their fourth */
    cr_expect(epsilon_eq(dbl, said(&s, VH_RECORD_FLOWERING_TRUSS, 1005, 1005), 3.5, 1e-12));
    cr_expect(eq(dbl, said(&s, VH_RECORD_PICKING_TRUSS, 1005, 1005), 1.0));
    cr_expect(eq(dbl, said(&s, VH_RECORD_LEAVES_ON_STEM, 1005, 1005), 16.0));
    cr_expect(eq(dbl, said(&s, VH_RECORD_LEAVES_MADE, 1005, 1005), 25.0));
    cr_expect(eq(dbl, said(&s, VH_RECORD_STEM_CM, 1005, 1005), 75.0));
    cr_expect(eq(dbl, said(&s, VH_RECORD_STEM_GROWTH_CM, 1002, 1009), 35.0));
    cr_expect(eq(dbl, said(&s, VH_RECORD_PULLED_SUCKER_CM, 1000, 1006), 7.0));
    cr_expect(isnan(said(&s, VH_RECORD_PULLED_SUCKER_CM, 1005, 1009)));
    cr_expect(isnan(said(&s, VH_RECORD_FLOWERING_TRUSS, 999, 999)));
    cr_expect(isnan(said(&s, VH_RECORD_STEM_CM, 1010, 1010)));
}

/* On the trusses themselves: counts of a look, by the truss that was named. */
Test(learn, a_look_at_the_trusses_says_what_was_counted)
{
    struct vh_season_day days[SEASON_D];
    struct vh_truss_view truss[2] = {{.set = 4.8, .opened_d = 1.0, .ripe_first_d = 5.0},
                                     {.set = 3.1, .opened_d = 2.0, .ripe_first_d = (double)NAN}};
    struct vh_look look = {
        .breaker_fruits = 0.8, .turning_fruits = 0.5, .truss = truss, .trusses = 2};
    const struct vh_house nobody = {.plantings = 0};
    struct vh_season s;

    by_hand(&s, days);
    s.look = &look;
    s.looks = 1;
    struct vh_learn_value v = {
        .item = VH_RECORD_FRUITS_SET, .truss = 2, .from = 1006, .until = 1006};
    cr_expect(eq(dbl, vh_learn_predict(&v, &nobody, &s, 1.0), 3.1));
    v.truss = 3; /* not in flower yet: nothing has set */
    cr_expect(eq(dbl, vh_learn_predict(&v, &nobody, &s, 1.0), 0.0));
    v.item = VH_RECORD_BREAKER_FRUITS;
    cr_expect(eq(dbl, vh_learn_predict(&v, &nobody, &s, 1.0), 0.8));
    v.item = VH_RECORD_TURNING_FRUITS;
    cr_expect(eq(dbl, vh_learn_predict(&v, &nobody, &s, 1.0), 0.5));
    v.item = VH_RECORD_FLOWER_TO_PICK_D;
    cr_expect(eq(dbl, vh_learn_predict(&v, &nobody, &s, 1.0), 4.0));
}

/* With picked kilograms alone light, set and mass stand for each other, and that is said. */
Test(learn, kilograms_alone_do_not_tell_mass_from_set)
{
    struct vh_scenario *s = house(HEAD "2026-06-12,slicers,picked_kg,21,,,\n"
                                       "2026-06-19,slicers,picked_kg,21,,,\n"
                                       "2026-06-26,slicers,picked_kg,21,,,\n"
                                       "2026-07-03,slicers,picked_kg,20,,,\n"
                                       "2026-07-10,slicers,picked_kg,22,,,\n",
                                  200, 2);
    struct vh_learned l;

    learn(s, &l);
    const size_t name = (size_t)vh_table_find(l.table, "name"),
                 apart = (size_t)vh_table_find(l.table, "told_apart");
    for (size_t row = 0; row < vh_table_rows(l.table); row++) {
        const char *factor = vh_table_text(l.table, row, name);
        if (strcmp(factor, "fruit_mass") == 0 || strcmp(factor, "set") == 0)
            cr_expect(eq(int, strncmp(vh_table_text(l.table, row, apart), "no", 2), 0), "%s: %s",
                      factor, vh_table_text(l.table, row, apart));
    }
    vh_learned_clear(&l);
    vh_scenario_free(s);
}

/* Set that goes against four others: the three that most nearly make up for it are named. Members
 * by hand, all 32 combinations of five signs: four factors free, set their sum turned round. */
Test(learn, three_names_are_told_where_four_go_against_a_factor)
{
    enum { UNKNOWNS = 5, COMBINATIONS = 32, MEMBERS = 100 * COMBINATIONS };
    static const double weight[UNKNOWNS] = {0.03, 1.0, 0.9, 0.8, 0.7};
    static double state[MEMBERS * UNKNOWNS];
    struct vh_learn_unknown unknown[UNKNOWNS] = {{VH_KEPT_SET, 0, 0},
                                                 {VH_KEPT_TRUSS_PACE, 0, 0},
                                                 {VH_KEPT_FRUIT_PACE, 0, 0},
                                                 {VH_KEPT_FRUIT_MASS, 0, 0},
                                                 {VH_KEPT_STEM_PACE, 0, 0}};
    struct vh_scenario *s = house(NULL, MEMBERS, 1);
    struct vh_learn_value value = {.item = VH_RECORD_PICKED_KG, .planting = 0};
    size_t of[] = {0};
    struct vh_learning l = {
        .scenario = s,
        .past = {.planting = s->house.planting, .of = of, .value = &value, .values = 1},
        .members = MEMBERS,
        .unknown = unknown,
        .unknowns = UNKNOWNS,
        .state = state};
    struct vh_table *t = NULL;

    for (size_t j = 0; j < MEMBERS; j++) {
        double *x = state + j * UNKNOWNS, sum = 0.0;
        for (size_t u = 0; u < UNKNOWNS; u++) {
            const double sign = j >> u & 1 ? 1.0 : -1.0;
            x[u] = sign * vh_learn_prior_sd(&l, &unknown[u]);
            sum += sign * weight[u];
        }
        x[0] = -sum * vh_learn_prior_sd(&l, &unknown[0]);
    }
    cr_assert(eq(int, vh_learn_tell(&l, &t), VH_OK));
    cr_expect(eq(str,
                 (char *)(uintptr_t)vh_table_text(t, 0, (size_t)vh_table_find(t, "told_apart")),
                 (char *)"no: with truss_pace, fruit_pace, fruit_mass"));
    vh_table_free(t);
    vh_scenario_free(s);
}

/* What was thrown away and how long a pulled shoot was say nothing of when trusses open. */
Test(learn, waste_and_suckers_do_not_speak_of_the_pace_of_trusses)
{
    cr_expect(not(vh_learn_speaks_of(VH_RECORD_PULLED_SUCKER_CM, VH_KEPT_TRUSS_PACE)));
    cr_expect(not(vh_learn_speaks_of(VH_RECORD_UNMARKETABLE_KG, VH_KEPT_TRUSS_PACE)));
    cr_expect(vh_learn_speaks_of(VH_RECORD_FLOWERING_TRUSS, VH_KEPT_TRUSS_PACE));
}

/* Daily picks are taken together until half a week is full: 1 + 2 + 4 kg of three days after the
 * first entry, then 8 alone. The 16 are more than ten times the next, doubted: nothing is
 * learnt of them. Arithmetic. */
Test(learn, daily_picks_are_summed)
{
    struct vh_scenario *s = house(HEAD "2026-06-01,slicers,picked_kg,16,,,\n"
                                       "2026-06-02,slicers,picked_kg,1,,,\n"
                                       "2026-06-03,slicers,picked_kg,2,,,\n"
                                       "2026-06-04,slicers,picked_kg,4,,,\n"
                                       "2026-06-05,slicers,picked_kg,8,,,\n",
                                  20, 1);
    struct vh_learn_past past;

    cr_assert(epsilon_eq(dbl, params->record.least_pick_d, 3.0, 0.0));
    cr_assert(eq(int, vh_learn_past_init(s, &past), VH_OK));
    cr_assert(eq(sz, past.values, 2));
    cr_expect(epsilon_eq(dbl, past.value[0].value, 7.0, 1e-12));
    cr_expect(epsilon_eq(dbl, past.value[1].value, 8.0, 1e-12));
    vh_learn_past_clear(&past);
    vh_scenario_free(s);
}

/* What is thrown away on the day of a pick is a share of that pick, however long ago the entry
 * before it was; without a pick that day it is of all since then. Arithmetic. */
Test(learn, thrown_away_is_of_the_pick_of_its_day)
{
    struct vh_scenario *s = house(HEAD "2026-06-16,slicers,picked_kg,12,,,\n"
                                       "2026-06-19,slicers,picked_kg,11,,,\n"
                                       "2026-06-19,slicers,unmarketable_kg,1,,,\n"
                                       "2026-06-26,slicers,picked_kg,12,,,\n"
                                       "2026-07-03,slicers,picked_kg,13,,,\n"
                                       "2026-07-03,slicers,unmarketable_kg,1,,,\n"
                                       "2026-07-05,slicers,unmarketable_kg,1,,,\n",
                                  20, 1);
    const char *const from[] = {"2026-06-17", "2026-06-27", "2026-07-04"};
    const double of_kg[] = {11.0, 13.0, 0.0};
    struct vh_learn_past past;
    size_t n = 0;

    cr_assert(eq(int, vh_learn_past_init(s, &past), VH_OK));
    for (size_t i = 0; i < past.values; i++) {
        const struct vh_learn_value *v = &past.value[i];
        if (v->item != VH_RECORD_UNMARKETABLE_KG)
            continue;
        cr_assert(lt(sz, n, 3));
        cr_expect(eq(i64, v->from, day(from[n])), "%s", from[n]);
        cr_expect(epsilon_eq(dbl, v->of_kg, of_kg[n], 1e-12), "%s", from[n]);
        n++;
    }
    cr_expect(eq(sz, n, 3));
    vh_learn_past_clear(&past);
    vh_scenario_free(s);
}

/* A tenth of each pick, noted every second time, teaches what a tenth of it teaches noted each
 * time: the picks between were not thrown away less of. */
Test(learn, thrown_away_now_and_then_teaches_as_much_as_each_time)
{
    const char *const each = "2026-06-23,slicers,unmarketable_kg,1,,,\n"
                             "2026-06-30,slicers,unmarketable_kg,1,,,\n";
    double factor[2];

    for (size_t i = 0; i < 2; i++) {
        char text[600];
        struct vh_learned l;
        snprintf(text, sizeof text,
                 HEAD "2026-06-19,slicers,picked_kg,10,,,\n"
                      "2026-06-23,slicers,picked_kg,10,,,\n"
                      "2026-06-26,slicers,picked_kg,10,,,\n"
                      "2026-06-30,slicers,picked_kg,10,,,\n"
                      "2026-07-03,slicers,picked_kg,10,,,\n"
                      "2026-06-19,slicers,unmarketable_kg,1,,,\n%s"
                      "2026-06-26,slicers,unmarketable_kg,1,,,\n"
                      "2026-07-03,slicers,unmarketable_kg,1,,,\n",
                 i > 0 ? each : "");
        struct vh_scenario *s = house(text, 60, 2);
        learn(s, &l);
        factor[i] = mean_of(&l, 0, VH_KEPT_MARKETABLE);
        vh_learned_clear(&l);
        vh_scenario_free(s);
    }
    cr_expect(lt(dbl, fabs(factor[0] - factor[1]), 0.005), "%g %g", factor[0], factor[1]);
}

/* Looking back begins with the first entry, of whatever it is: from the Sunday after a truss was
 * counted on 1 June the picks of the week of 22 June lie three weeks ahead. */
Test(learn, looking_back_begins_with_the_first_entry)
{
    struct vh_scenario *s = house(HEAD "2026-06-01,slicers,flowering_truss,9,,5,\n"
                                       "2026-06-22,slicers,picked_kg,30,,,\n"
                                       "2026-06-29,slicers,picked_kg,30,,,\n",
                                  20, 1);
    struct vh_hindcast *h = NULL;
    int furthest = 0;

    cr_assert(ge(int, vh_hindcast(s, NULL, NULL, &h, messages), VH_OK));
    for (size_t i = 0; i < h->weeks; i++)
        if (h->week[i].monday == day("2026-06-22") && h->week[i].weeks_ahead > furthest)
            furthest = h->week[i].weeks_ahead;
    cr_expect(eq(int, furthest, 3));
    vh_hindcast_free(h);
    vh_scenario_free(s);
}

/* Slicers keep four a truss, and truss 14 was thinned in June: four on it is what the plan left,
 * whatever set. Three is fewer than that, and tells of a smaller set. */
Test(learn, a_count_of_what_the_plan_leaves_tells_nothing_of_what_set)
{
    struct vh_scenario *s = house(HEAD "2026-07-10,slicers,fruits_set,4,14,6,\n", 60, 2),
                       *fewer = house(HEAD "2026-07-10,slicers,fruits_set,3,14,6,\n", 60, 2);
    struct vh_learned left, few;
    double prior = 0.0;

    learn(s, &left);
    learn(fewer, &few);
    for (size_t j = 0; j < left.members; j++) {
        const struct vh_member drawn = vh_member_draw(s, s->options.draw, j, 0);
        prior += vh_member_factor(&drawn, VH_KEPT_SET) / (double)left.members;
    }
    cr_expect(epsilon_eq(dbl, mean_of(&left, 0, VH_KEPT_SET), prior, 0.01));
    cr_expect(lt(dbl, mean_of(&few, 0, VH_KEPT_SET), prior - 0.05));
    cr_expect(lt(dbl, sd_of(&few, 0, VH_KEPT_SET), 0.9 * sd_of(&left, 0, VH_KEPT_SET)));
    vh_learned_clear(&left);
    vh_learned_clear(&few);
    vh_scenario_free(s);
    vh_scenario_free(fewer);
}
