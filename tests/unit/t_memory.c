/* Memory that runs out while files are read, or learning begins: at each place the reader says so,
 * and nothing is lost (under sanitizers). tests/CMakeLists.txt links this test so that what the
 * library asks for comes through here. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <stdlib.h>
#include <string.h>

#include "memory_fails.h"
#include "vh_crop.h"
#include "vh_csv.h"
#include "vh_date.h"
#include "vh_file.h"
#include "vh_learn.h"
#include "vh_param.h"
#include "vh_scenario.h"
#include "vh_toml.h"
#include "vinehand.h"

/* Without a warning: one for which memory runs out is lost, and the reader goes on. */
static const char scenario[] =
    "[house]\nname = \"One bay\"\nlatitude_deg = 44.5\nwire_height_m = 2.5\n[climate.roughly]\n"
    "warmest_high_c = 28\nwarmest_low_c = 16\ncoldest_high_c = -2\ncoldest_low_c = -12\n"
    "[[planting]]\nname = \"slicers\"\ncrop = \"tomato-large\"\nplants = 48\nplants_per_m2 = 2.5\n"
    "set_out = 2026-02-20\npull_out = 2026-08-10\n[[planting.fruits_kept]]\nfruits = 4\n"
    "[market]\ndays = [\"sat\"]\n[[market.price]]\ncrop = \"tomato-large\"\n"
    "grades = \"tomato-us\"\nper_kg = { small = 4.0, medium = 6.0, large = 7.0, extra-large = 7.0 }\n[compare]\n"
    "fruits_kept = [2, 3]\n";

static enum vh_status read_toml(struct vh_messages *m)
{
    struct vh_toml *t = NULL;
    const enum vh_status status = vh_toml_parse(scenario, strlen(scenario), "x.toml", &t, m);

    vh_toml_free(t);
    return status;
}

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    (void)context, (void)row, (void)is_header;
    return VH_OK;
}

static enum vh_status read_csv(struct vh_messages *m)
{
    static const char text[] = "time,t_air_c\n2026-03-01T00:00,\"18.5\"\n2026-03-01T01:00,18.5\n";

    return vh_csv_read_memory(text, strlen(text), "x.csv", (struct vh_csv_format){0}, take, NULL,
                              m);
}

static enum vh_status read_csv_file(struct vh_messages *m)
{
    return vh_csv_read(VINEHAND_PARAMS "/work.csv", "work.csv", (struct vh_csv_format){0}, NULL,
                       take, NULL, m);
}

static enum vh_status read_file(struct vh_messages *m)
{
    char *text = NULL;
    size_t n;
    const enum vh_status status =
        vh_file_read(VINEHAND_PARAMS "/sources.csv", "sources.csv", 1 << 20, NULL, &text, &n, m);

    free(text);
    return status;
}

static struct vh_sources *sources;

static enum vh_status read_sources(struct vh_messages *m)
{
    const enum vh_status status =
        vh_sources_read(VINEHAND_PARAMS "/sources.csv", NULL, &sources, m);

    vh_sources_free(sources);
    sources = NULL;
    return status;
}

static enum vh_status read_crop(struct vh_messages *m)
{
    struct vh_crop crop;
    struct vh_param_set rows = {0};
    size_t fields;
    const struct vh_param_field *field = vh_crop_fields(&fields);
    const enum vh_status status = vh_param_read(VINEHAND_PARAMS "/crops", "tomato-large", field,
                                                fields, sources, NULL, &crop, &rows, m);

    if (status == VH_OK)
        vh_param_set_clear(&rows);
    return status;
}

static struct vh_parameters *parameters;

static enum vh_status read_scenario(struct vh_messages *m)
{
    struct vh_run_options options = {.members = 1};
    struct vh_scenario *s = NULL;

    vh_date_parse("2026-07-14", &options.today);
    const enum vh_status status =
        vh_scenario_parse(scenario, strlen(scenario), "x.toml", ".", parameters, &options, &s, m);

    vh_scenario_free(s);
    return status;
}

Test(memory, runs_out_anywhere_in_the_readers)
{
    struct vh_messages *m = vh_messages_create();

    at_each_place("toml", read_toml, 1, VH_OK);
    at_each_place("csv", read_csv, 1, VH_OK);
    at_each_place("a csv file", read_csv_file, 1, VH_OK);
    at_each_place("a file", read_file, 1, VH_OK);
    at_each_place("sources", read_sources, 3, VH_OK);
    cr_assert(eq(int, vh_sources_read(VINEHAND_PARAMS "/sources.csv", NULL, &sources, m), VH_OK));
    at_each_place("a crop", read_crop, 7, VH_OK);
    vh_sources_free(sources);
    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &parameters, m), VH_OK));
    at_each_place("a scenario", read_scenario, 3, VH_OK);
    vh_parameters_free(parameters);
    vh_messages_free(m);
}

/* Goes on only where memory ran out: what comes of that is asked. */
static bool stop_there(void *context, double share_done)
{
    (void)context, (void)share_done;
    return left == 0;
}

/* Each call fails once, until the first future comes through: there learning is stopped. */
Test(memory, runs_out_anywhere_where_learning_begins)
{
    static const char records[] = "date,planting,item,value,truss,of,note\n"
                                  "2026-07-03,slicers,picked_kg,20,,,\n"
                                  "2026-07-10,slicers,picked_kg,22,,,\n"
                                  "2026-07-10,slicers,fruits_set,4.6,14,6,\n";
    struct vh_messages *m = vh_messages_create();
    struct vh_run_options options = {.members = 20, .threads = 1};
    enum vh_status status = VH_NO_MEMORY;
    struct vh_scenario *s = NULL;

    vh_date_parse("2026-07-14", &options.today);
    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &parameters, m), VH_OK));
    cr_assert(ge(
        int,
        vh_scenario_parse(scenario, strlen(scenario), "x.toml", ".", parameters, &options, &s, m),
        VH_OK));
    cr_assert(
        ge(int, vh_records_read_memory(&s->house, &parameters->record, records, strlen(records), m),
           VH_OK));
    for (long n = 1; status == VH_NO_MEMORY; n++) {
        struct vh_learned l;
        left = n;
        status = vh_learn(s, stop_there, NULL, &l, m);
        const bool came = left > 0;
        left = 0;
        cr_assert(eq(int, status, came ? VH_INTERRUPTED : VH_NO_MEMORY), "call %ld", n);
    }
    vh_scenario_free(s);
    vh_parameters_free(parameters);
    vh_messages_free(m);
}
