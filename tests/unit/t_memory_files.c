/* Memory that runs out in each reader of a file, at every place: the reader says so, and nothing is
 * lost (under sanitizers). The files are small, so that each call can fail once. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "may_house.h"
#include "memory_fails.h"
#include "record_parts.h"
#include "temp_folder.h"
#include "three_fields.h"
#include "vh_climate.h"
#include "vh_csv.h"
#include "vh_digest.h"
#include "vh_grade.h"
#include "vh_kept.h"
#include "vh_param.h"
#include "vh_parameters.h"
#include "vh_toml.h"

TestSuite(memory_files, .init = make_folder, .fini = drop_folder);

/* ---- the scenario's text ---- */

/* The tree is kept in blocks of 16 KiB: a text before it moves the end of a block to each place. */
enum { BLOCK = 16 * 1024, STEP = 16 };
static const char every_form[] =
    "\na = 'plain'\nb = \"x\\t\"\nc = -1.5\nd = true\ne = 2026-07-14\n[house]\nlist = [1, 2, 3, "
    "4, 5, 6, 7, 8, 9]\nin = { large = 7.5, small = 6 }\n[one.two.three]\nx = 1\n[[p]]\ny = "
    "1\n[[p]]\n";
static const char bad_headers[] = "\n[]\na = 1\nb = 2\n[house\nc = 3\nd = {\n";
static char padded[BLOCK + 1000];

static enum vh_status read_padded(struct vh_messages *m)
{
    struct vh_toml *t = NULL;
    const enum vh_status status = vh_toml_parse(padded, strlen(padded), "x.toml", &t, m);

    vh_toml_free(t);
    return status;
}

/* The calls before the fifth are those of any text. */
static void at_each_end_of_a_block(const char *text, enum vh_status at_end)
{
    int failed = 0;

    for (size_t n = 0; n < BLOCK; n += STEP) {
        memcpy(padded, "pad = '", 7);
        memset(padded + 7, 'x', n);
        snprintf(padded + 7 + n, sizeof padded - 7 - n, "'%s", text);
        bool came = false;
        for (long call = 5; !came; call++) {
            struct vh_messages *m = vh_messages_create();
            left = call;
            const enum vh_status status = read_padded(m);
            came = left > 0;
            left = 0;
            cr_assert(eq(int, status, came ? at_end : VH_NO_MEMORY), "%zu bytes before", n);
            failed += !came;
            vh_messages_free(m);
        }
    }
    cr_assert(lt(int, 100, failed));
}

Test(memory_files, the_tree_of_a_scenario_at_each_of_its_nodes)
{
    at_each_end_of_a_block(every_form, VH_OK);
    at_each_end_of_a_block(bad_headers, VH_BAD_INPUT);
}

/* ---- CSV ---- */

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    (void)context, (void)row, (void)is_header;
    return VH_OK;
}

static enum vh_status read_narrow(struct vh_messages *m)
{
    static const char text[] = "a,b\n1\n1\n1,2,3\n1,2\n";

    return vh_csv_read_memory(text, strlen(text), "x.csv", (struct vh_csv_format){0}, take, NULL,
                              m);
}

Test(memory_files, rows_of_another_width)
{
    at_each_place("rows of another width", read_narrow, 1, VH_BAD_INPUT);
}

/* ---- parameters and their sources ---- */

#define ROWS "truss.rate,0.15,truss d-1,0.1,0.2,assumed,,,\n" MASS BY

static struct vh_param_set rows;
static struct target target;

static enum vh_status read_params(struct vh_messages *m)
{
    const enum vh_status status =
        vh_param_read(folder, "x", fields, FIELDS, NULL, NULL, &target, &rows, m);

    if (status == VH_OK)
        vh_param_set_clear(&rows);
    return status;
}

/* Three times on one base, which is kept after the first; the second is digested too. */
static enum vh_status read_on(struct vh_messages *m)
{
    struct vh_param_bases *bases = vh_param_bases_new();
    struct vh_digest digest;
    enum vh_status status = bases ? VH_OK : VH_NO_MEMORY;

    vh_digest_init(&digest);
    for (int i = 0; i < 3 && status == VH_OK; i++) {
        status = vh_param_read_on(bases, folder, "x", fields, FIELDS, NULL, i == 1 ? &digest : NULL,
                                  &target, &rows, m);
        if (status == VH_OK)
            vh_param_set_clear(&rows);
    }
    vh_param_bases_free(bases);
    return status;
}

static enum vh_status replace(struct vh_messages *m)
{
    const struct vh_place where = {"scenario.toml", 7, 9, NULL};

    return vh_param_replace(fields, FIELDS, &rows, "fruit.mass", 120.0, where, &target, m);
}

static enum vh_status read_sources(struct vh_messages *m)
{
    struct vh_sources *s = NULL;
    const enum vh_status status = vh_sources_read(file_path, NULL, &s, m);

    vh_sources_free(s);
    return status;
}

Test(memory_files, parameters_over_a_base_and_a_row_of_the_scenario)
{
    put("base.csv", HEADER ROWS);
    put("x.csv", HEADER "base,base,,,,assumed,,,\nfruit.mass,110,g,50,150,assumed,,,\n");
    at_each_place("parameters", read_params, 1, VH_OK);
    at_each_place("parameters on a kept base", read_on, 1, VH_OK);
    put("x.csv", HEADER "truss.rate,9,truss d-1,0.1,0.2,assumed,,,\n"
                        "fruit.mass,100,g,50,150,assumed,,,\npick.by,mass,1,,,assumed,,,\n");
    at_each_place("wrong parameters", read_params, 1, VH_BAD_INPUT);
    put("x.csv", HEADER ROWS);
    cr_assert(eq(int, vh_param_read(folder, "x", fields, FIELDS, NULL, NULL, &target, &rows, NULL),
                 VH_OK));
    at_each_place("a row of the scenario", replace, 1, VH_OK);
    vh_param_set_clear(&rows);
}

Test(memory_files, sources)
{
    put("sources.csv", "key,authors,year,title,journal,doi,read\na2000,A,2000,T,J,,whole\n"
                       "b2001,B,2001,T,,,abstract\n");
    at_each_place("sources", read_sources, 1, VH_OK);
    put("sources.csv", "key,authors,year,title,journal,doi,read\nA,A,2000,T,J,,whole\n"
                       "b2001,,2001,T,,,abstract\n");
    at_each_place("wrong sources", read_sources, 1, VH_BAD_INPUT);
}

/* ---- grades ---- */

static const char *grades_text;

static enum vh_status read_grades(struct vh_messages *m)
{
    struct vh_grades g;
    const enum vh_status status =
        vh_grades_read_memory(grades_text, strlen(grades_text), "sizes.csv", &g, m);

    vh_grades_clear(&g);
    return status;
}

Test(memory_files, grades)
{
    grades_text = "grade,measure,from,to\nsmall,mass_g,80,120\nlarge,mass_g,120,\n";
    at_each_place("grades", read_grades, 1, VH_OK);
    grades_text = "grade,measure,from,to\nsmall,kg,80,120\n";
    at_each_place("wrong grades", read_grades, 1, VH_BAD_INPUT);
}

/* ---- kept factors and records ---- */

static struct vh_house house;
static struct vh_record_params doubts;
static const char *text_read;

static void begin_house(void)
{
    house = (struct vh_house){.plantings = 1};
    cr_assert(eq(int, vh_date_parse("2026-07-14", &house.today), VH_OK));
    house.planting = calloc(1, sizeof *house.planting);
    house.planting[0].name = strdup("slicers");
    house.planting[0].crop_name = strdup("tomato-large");
    house.planting[0].plants = 48;
    vh_date_parse("2026-02-20", &house.planting[0].set_out);
    vh_date_parse("2026-11-10", &house.planting[0].pull_out);
}

static enum vh_status read_kept(struct vh_messages *m)
{
    return vh_kept_read_memory(&house, text_read, strlen(text_read), "kept.csv", m);
}

static enum vh_status read_kept_file(struct vh_messages *m)
{
    return vh_kept_read(&house, file_path, "kept.csv", NULL, m);
}

static enum vh_status read_records(struct vh_messages *m)
{
    struct vh_records out = {.last_day = 0};
    struct vh_record_sheet sheet = {0};
    const enum vh_status status = vh_record_sheet_read(
        &house, &doubts, text_read, strlen(text_read), "records.csv", &out, &sheet, m);

    vh_record_sheet_clear(&sheet);
    vh_records_clear(&out);
    return status;
}

Test(memory_files, kept_factors)
{
    begin_house();
    text_read = "crop_or_planting,name,factor,low,high\nslicers,truss_pace,1.1,1.0,1.2\n";
    at_each_place("kept factors", read_kept, 1, VH_OK);
    put("x.csv", text_read);
    at_each_place("a file of kept factors", read_kept_file, 1, VH_OK);
    text_read = "crop_or_planting,name,factor,low,high\nslicers,trus_pace,1.1,1.0,1.2\n";
    at_each_place("wrong kept factors", read_kept, 1, VH_BAD_INPUT);
    vh_house_clear(&house);
}

Test(memory_files, records)
{
    static char many[40000] = "date,planting,item,value\n";
    struct vh_messages *m = vh_messages_create();
    struct vh_parameters *p = NULL;

    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &p, m), VH_OK));
    doubts = p->record;
    begin_house();
    for (size_t i = 0, n = strlen(many); i < 600; i++) /* more than two rounds of room */
        n += (size_t)snprintf(many + n, sizeof many - n, "2026-%02zu-%02zu,slicers,stem_cm,%zu\n",
                              3 + i / 150, 1 + i % 28, 100 + i);
    text_read = many;
    at_each_place("records", read_records, 1, VH_OK);
    text_read = "date,planting,picked_kg,note\n2026-07-01,slicers,10,\n2026-07-02,nobody,x,\n";
    at_each_place("wrong records", read_records, 1, VH_BAD_INPUT);
    vh_house_clear(&house);
    vh_parameters_free(p);
    vh_messages_free(m);
}

/* ---- the climate's logs ---- */

static struct vh_climate_request request;
static struct vh_house_params house_params;

static enum vh_status read_climate(struct vh_messages *m)
{
    struct vh_climate climate;
    const enum vh_status status = vh_climate_read(&request, &house_params, NULL, &climate, m);

    vh_climate_clear(&climate);
    return status;
}

Test(memory_files, hours_and_days_of_a_log)
{
    static const char text[] =
        "time,t_air_c,par_umol_m2_s\n2026-05-01T00:00,20,0\n2026-05-01T01:00,20,10\n";
    static const char days[] = "date,tmin_c,tmax_c,radiation_mj_m2_d\n2026-05-01,8,20,18\n"
                               "2026-05-02,8,20,18\n";
    struct vh_messages *m = vh_messages_create();
    struct vh_parameters *p = NULL;
    char log_name[] = "log.csv", out_name[] = "out.csv";

    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &p, m), VH_OK));
    house_params = p->house;
    vh_parameters_free(p);
    vh_messages_free(m);
    char *const log_path = strdup(put("log.csv", text));
    char *const out_path = strdup(put("out.csv", days));
    struct vh_file_name log = {log_path, log_name};
    request = may_request();
    request.last_day = request.today = FIRST_OF_MAY + 1;
    request.log = &log;
    request.logs = 1;
    request.outside = (struct vh_file_name){out_path, out_name};
    at_each_place("a climate", read_climate, 1, VH_OK);
    free(log_path);
    free(out_path);
}
