/* explain: everything that has a name has a meaning, and the right rows answer to it. Truth:
 * params/, whose rows are read here through the public calls alone; interface.md section 1 for the
 * forms. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "explain_parts.h"
#include "vinehand.h"

static struct vh_parameters *p;
static struct vh_messages *m;
static struct vh_explanation *e;

static void read_parameters(void)
{
    m = vh_messages_create();
    cr_assert(vh_parameters_read(VINEHAND_PARAMS, &p, m) == VH_OK);
}

static void forget(void)
{
    vh_explanation_free(e);
    vh_parameters_free(p);
    vh_messages_free(m);
}

TestSuite(explain, .init = read_parameters, .fini = forget);

struct seen {
    size_t keys, columns, parameters, sources;
};

static bool is_there(const char *path)
{
    char whole[600];
    snprintf(whole, sizeof whole, "%s/../%s", VINEHAND_PARAMS, path);
    return access(whole, R_OK) == 0;
}

static enum vh_status look(void *context, const struct vh_meaning *one)
{
    struct seen *seen = context;
    const bool is_key = one->key != NULL;
    const bool is_parameter = strcmp(one->what, "parameter") == 0;
    const bool is_column = strcmp(one->what, "column") == 0;

    seen->keys += is_key;
    seen->parameters += is_parameter;
    seen->columns += is_column;
    seen->sources += strcmp(one->what, "source") == 0;
    cr_expect(one->name[0] && one->alone[0] && one->where[0], "%s", one->name);
    cr_expect(one->meaning && one->meaning[0], "%s has no meaning", one->name);
    cr_expect(strchr(one->meaning, '\n') == NULL, "%s: not one line", one->name);
    if (is_parameter || is_column)
        cr_expect(one->used_in[0] != 0, "%s is used nowhere", one->name);
    if (one->used_in[0])
        cr_expect(is_there(one->used_in), "%s: there is no %s", one->name, one->used_in);
    if (is_parameter && !one->as_member)
        cr_expect(one->value[0] && one->basis[0] && one->unit[0], "%s", one->name);
    return VH_OK;
}

Test(explain, every_parameter_key_and_column_has_a_meaning_and_a_place_of_use)
{
    struct seen seen = {0};

    cr_assert(vh_meanings_of_keys(look, &seen) == VH_OK);
    cr_assert(vh_meanings_of_columns(look, &seen) == VH_OK);
    cr_assert(vh_meanings_of_brought(p, look, &seen) == VH_OK);
    cr_assert(vh_meanings_of_parameters(p, look, &seen) == VH_OK);
    cr_assert(vh_meanings_of_sources(p, look, &seen) == VH_OK);
    /* not so few that a walk has stopped half way */
    cr_expect(seen.keys > 180 && seen.columns > 60 && seen.parameters > 300 && seen.sources > 30,
              "%zu keys, %zu columns, %zu parameters, %zu sources", seen.keys, seen.columns,
              seen.parameters, seen.sources);
}

static const struct vh_table *explained(const char *name)
{
    vh_explanation_free(e);
    e = NULL;
    cr_assert(eq(int, (int)vh_explain(p, name, &e, m), VH_OK), "%s", name);
    cr_assert(vh_table_rows(vh_explanation_meanings(e)) > 0, "%s", name);
    return vh_explanation_meanings(e);
}

static const char *cell(const struct vh_table *t, size_t row, const char *column)
{
    const int at = vh_table_find(t, column);
    cr_assert(at >= 0, "%s", column);
    return vh_table_text(t, row, (size_t)at);
}

static double number(const struct vh_table *t, size_t row, const char *column)
{
    return vh_table_number(t, row, (size_t)vh_table_find(t, column));
}

/* The row of a name in a file, or the number of rows. */
static size_t row_of(const struct vh_table *t, const char *name, const char *where)
{
    size_t i = 0;
    while (i < vh_table_rows(t) &&
           (strcmp(cell(t, i, "name"), name) != 0 || strcmp(cell(t, i, "where"), where) != 0))
        i++;
    return i;
}

#define STREQ(a, b) cr_expect(eq(str, (char *)(uintptr_t)(a), (char *)(uintptr_t)(b)))

Test(explain, a_parameter_tells_all_cells_of_its_row)
{
    /* params/defaults.csv: "sky.angstrom_a,0.25,1,0.15,0.35,published,fao56,eq. 35," */
    const struct vh_table *t = explained("sky.angstrom_a");
    cr_assert(eq(sz, vh_table_rows(t), 1));
    STREQ(cell(t, 0, "what"), "parameter");
    STREQ(cell(t, 0, "where"), "defaults.csv");
    STREQ(cell(t, 0, "value"), "0.25");
    STREQ(cell(t, 0, "unit"), "1");
    cr_expect(epsilon_eq(dbl, number(t, 0, "low"), 0.15, 0.0));
    cr_expect(epsilon_eq(dbl, number(t, 0, "high"), 0.35, 0.0));
    STREQ(cell(t, 0, "basis"), "published");
    STREQ(cell(t, 0, "source"), "fao56");
    STREQ(cell(t, 0, "place"), "eq. 35");
    STREQ(cell(t, 0, "used_in"), "model/climate/vh_sun.h");
    const struct vh_table *s = vh_explanation_sources(e);
    cr_assert(eq(sz, vh_table_rows(s), 1));
    STREQ(cell(s, 0, "key"), "fao56");
    STREQ(cell(s, 0, "year"), "1998");
}

Test(explain, a_row_that_several_crops_share_is_told_once)
{
    const struct vh_table *t = explained("clock.cool_a_per_d");
    const size_t row = row_of(t, "clock.cool_a_per_d", "crops/tomato-cluster.csv");
    cr_assert(row < vh_table_rows(t));
    cr_expect(strstr(cell(t, row, "crops"), "tomato-large") != NULL);
    for (size_t i = row + 1; i < vh_table_rows(t); i++)
        cr_expect(strcmp(cell(t, i, "where"), "crops/tomato-cluster.csv") != 0);
    /* its place reads "... as reprinted in vanthoor2011": that source is told too */
    const struct vh_table *s = vh_explanation_sources(e);
    size_t i = 0;
    while (i < vh_table_rows(s) && strcmp(cell(s, i, "key"), "vanthoor2011") != 0)
        i++;
    cr_expect(i < vh_table_rows(s));
}

Test(explain, a_short_name_finds_the_long_one)
{
    const struct vh_table *t = explained("potential_area_m2");
    STREQ(cell(t, 0, "name"), "leaf.potential_area_m2");
    STREQ(cell(t, 0, "used_in"), "model/plant/vh_leaf.h");
}

Test(explain, a_name_with_several_meanings_gives_all)
{
    const struct vh_table *t = explained("fruits");
    const char *const where[][2] = {{"planting.fruits_kept.fruits", "[[planting.fruits_kept]]"},
                                    {"market.order.fruits", "[[market.order]]"},
                                    {"picks.fruits", "picks.csv"},
                                    {"weeks.fruits", "weeks.csv"}};
    for (size_t i = 0; i < sizeof where / sizeof where[0]; i++)
        cr_expect(row_of(t, where[i][0], where[i][1]) < vh_table_rows(t), "%s", where[i][0]);
    cr_expect(eq(sz, vh_table_rows(t), 5));
}

Test(explain, a_key_tells_what_it_may_hold)
{
    const struct vh_table *t = explained("planting.pollination.by");
    STREQ(cell(t, 0, "kind"), "one of \"hand\", \"bees\" or \"none\"");
    t = explained("planting.fruits_kept.fruits");
    cr_expect(epsilon_eq(dbl, number(t, 0, "low"), 0.0, 0.0));
    cr_expect(epsilon_eq(dbl, number(t, 0, "high"), 50.0, 0.0));
    STREQ(cell(t, 0, "example"), "fruits = 3");
    STREQ(cell(t, 0, "note"), "required");
    t = explained("house.wire_height_m");
    STREQ(cell(t, 0, "unit"), "m");
    STREQ(cell(t, 0, "note"), "or wire_height_ft, wire_height_in");
}

Test(explain, a_key_answers_in_its_other_unit_and_by_its_other_word)
{
    STREQ(cell(explained("plants_per_ft2"), 0, "name"), "planting.plants_per_m2");
    STREQ(cell(explained("house.wire_height_ft"), 0, "name"), "house.wire_height_m");
    cr_expect(eq(sz, vh_messages_count(m), 0));
    STREQ(cell(explained("transplant"), 0, "name"), "planting.set_out");
    cr_assert(eq(sz, vh_messages_count(m), 1));
    STREQ(vh_messages_at(m, 0)->text, "transplant is called set_out here");
}

Test(explain, a_crop_lists_the_rows_of_its_own_file_and_no_others)
{
    const struct vh_table *t = explained("tomato-large");
    STREQ(cell(t, 0, "what"), "crop");
    cr_expect(strstr(cell(t, 0, "note"), "tomato-cluster") != NULL);
    for (size_t i = 1; i < vh_table_rows(t); i++) {
        STREQ(cell(t, i, "where"), "crops/tomato-large.csv");
        STREQ(cell(t, i, "member_of"), "tomato-large");
    }
    cr_expect(row_of(t, "habit.usual_fruit_g", "crops/tomato-large.csv") < vh_table_rows(t));
    STREQ(cell(explained("eggplant-large"), 0, "name"), "aubergine-large");
}

Test(explain, a_source_lists_the_rows_that_cite_it)
{
    const struct vh_table *t = explained("fao56");
    STREQ(cell(t, 0, "what"), "source");
    cr_assert(vh_table_rows(t) > 3);
    for (size_t i = 1; i < vh_table_rows(t); i++)
        cr_expect(strstr(cell(t, i, "source"), "fao56") != NULL);
    STREQ(cell(vh_explanation_sources(e), 0, "authors"),
          "Allen R.G., Pereira L.S., Raes D., Smith M.");
}

Test(explain, a_list_tells_what_it_holds)
{
    const struct vh_table *t = explained("[planting.pick]");
    STREQ(cell(t, 0, "name"), "planting.pick");
    cr_expect(row_of(t, "planting.pick.stage", "[planting.pick]") < vh_table_rows(t));
    t = explained("weeks.csv");
    cr_expect(row_of(t, "weeks.supply_share", "weeks.csv") < vh_table_rows(t));
    t = explained("leaf");
    cr_expect(row_of(t, "leaf.dm_share", "crops") < vh_table_rows(t));
}

static void expect_unknown(const char *name, const char *text)
{
    const size_t before = vh_messages_count(m);
    vh_explanation_free(e);
    e = NULL;
    cr_expect(eq(int, (int)vh_explain(p, name, &e, m), VH_BAD_INPUT), "%s", name);
    cr_expect(e == NULL);
    cr_assert(eq(sz, vh_messages_count(m), before + 1));
    cr_expect(strstr(vh_messages_at(m, before)->text, text) != NULL, "%s",
              vh_messages_at(m, before)->text);
}

Test(explain, an_unknown_name_is_met_with_the_nearest)
{
    char endless[5000];

    expect_unknown("potental_area_m2", "did you mean potential_area_m2?");
    expect_unknown("potential", "did you mean leaf.potential_area_m2?");
    expect_unknown("tomato-larg", "did you mean tomato-large");
    expect_unknown("eggplant", "nothing here is called eggplant; did you mean aubergine-large?");
    expect_unknown("eggplants", "did you mean aubergine-large?");
    expect_unknown("eggplant-larg", "did you mean aubergine-large?");
    expect_unknown("xyzzyq", "name a parameter (leaf.potential_area_m2)");
    expect_unknown("", "nothing here is called");
    expect_unknown("[", "nothing here is called");
    memset(endless, 'a', sizeof endless);
    endless[sizeof endless - 1] = '\0';
    expect_unknown(endless, "nothing here is called aaa");
}

/* Every column of section 3 of interface.md, asked by its own name and in the other unit. */
Test(explain, columns_that_the_grower_brings_are_known_with_unit_range_and_meaning)
{
    static const struct {
        const char *asked, *name, *unit;
        double low, high;
    } expected[] = {
        {"t_air_c", "log.t_air_c", "degC", -20, 60},
        {"t_air_f", "log.t_air_c", "degC", -20, 60},
        {"rh_pct", "log.rh_pct", "%", 0, 105},
        {"log.co2_ppm", "log.co2_ppm", "ppm", 100, 5000},
        {"par_umol_m2_s", "log.par_umol_m2_s", "umol m-2 s-1", 0, 3000},
        {"radiation_in_w_m2", "log.radiation_in_w_m2", "W m-2", 0, 1500},
        {"log.radiation_out_w_m2", "log.radiation_out_w_m2", "W m-2", 0, 1500},
        {"log.t_out_f", "log.t_out_c", "degC", -60, 60},
        {"lamps_pct", "log.lamps_pct", "%", 0, 100},
        {"log.tmin_c", "log.tmin_c", "degC", -20, 60},
        {"log.tmax_f", "log.tmax_c", "degC", -20, 60},
        {"log.tmean_c", "log.tmean_c", "degC", -20, 60},
        {"log.dli_mol_m2_d", "log.dli_mol_m2_d", "mol m-2 d-1", 0, 120},
        {"outside.t_out_f", "outside.t_out_c", "degC", -60, 60},
        {"outside.tmin_f", "outside.tmin_c", "degC", -60, 60},
        {"outside.tmax_c", "outside.tmax_c", "degC", -60, 60},
        {"radiation_mj_m2_d", "outside.radiation_mj_m2_d", "MJ m-2 d-1", 0, 50},
        {"sunshine_h", "outside.sunshine_h", "h", 0, 24},
        {"normals.month", "normals.month", "1", 1, 12},
        {"normals.tmin_f", "normals.tmin_c", "degC", -60, 60},
        {"normals.tmax_c", "normals.tmax_c", "degC", -60, 60},
        {"normals.radiation_mj_m2_d", "normals.radiation_mj_m2_d", "MJ m-2 d-1", 0, 50},
        {"normals.sunshine_h", "normals.sunshine_h", "h", 0, 24},
        {"unmarketable_lb", "unmarketable_kg", "kg", 0, 15},
        {"rot_lb", "rot_kg", "kg", 0, 15},
        {"sold_lb", "sold_kg", "kg", 0, 100},
        {"stem_growth_in", "stem_growth_cm", "cm", 0, 1000},
        {"lowered_in", "lowered_cm", "cm", 0, 400},
        {"pulled_sucker_in", "pulled_sucker_cm", "cm", 0, 300},
        {"string_left_ft", "string_left_m", "m", 0, 100},
        {"done_lower", "done_lower", "1", 0, 1},
    };

    for (size_t i = 0; i < sizeof expected / sizeof expected[0]; i++) {
        const struct vh_table *t = explained(expected[i].asked);
        STREQ(cell(t, 0, "name"), expected[i].name);
        STREQ(cell(t, 0, "unit"), expected[i].unit);
        cr_expect(epsilon_eq(dbl, number(t, 0, "low"), expected[i].low, 0.0), "%s",
                  expected[i].name);
        cr_expect(epsilon_eq(dbl, number(t, 0, "high"), expected[i].high, 0.0), "%s",
                  expected[i].name);
    }
    const char *const text[] = {"log.time",      "log.date",     "outside.time", "outside.date",
                                "records.date",  "records.item", "records.note", "records.planting",
                                "records.value", "records.of",   "records.truss"};
    for (size_t i = 0; i < sizeof text / sizeof text[0]; i++)
        STREQ(cell(explained(text[i]), 0, "name"), text[i]);
    const char *const in_table[] = {"grades.grade", "grades.measure", "grades.from",
                                    "grades.to",    "kept.name",      "kept.factor",
                                    "kept.low",     "kept.high",      "kept.crop_or_planting"};
    for (size_t i = 0; i < sizeof in_table / sizeof in_table[0]; i++)
        STREQ(cell(explained(in_table[i]), 0, "name"), in_table[i]);
    const char *const from_nothing[] = {"grades.from", "grades.to"}; /* sizes; none is too large */
    for (size_t i = 0; i < sizeof from_nothing / sizeof from_nothing[0]; i++) {
        const struct vh_table *t = explained(from_nothing[i]);
        cr_expect(eq(dbl, number(t, 0, "low"), 0.0), "%s", from_nothing[i]);
        cr_expect(isnan(number(t, 0, "high")), "%s", from_nothing[i]);
    }
    STREQ(cell(explained("picked_lb"), 0, "note"),
          "or picked_lb, picked_oz; the most is for each plant");
    cr_expect(eq(sz, vh_table_rows(explained("stem_in")), 3)); /* the key, stem_cm and stem_mm */
}
