#include "vh_run_files.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_csv_out.h"
#include "vh_ics_out.h"
#include "vh_json_out.h"
#include "vh_report.h"

#define PACKAGE_PROFILE "https://datapackage.org/profiles/2.0/datapackage.json"
#define RESOURCE_PROFILE "https://datapackage.org/profiles/2.0/dataresource.json"

/* Of one file as written. */
struct written {
    char name[72];
    char digest[65];
    size_t bytes;
    const struct vh_table *table; /* NULL: not a table */
};

struct written_list {
    struct written *file;
    size_t count;
};

static enum vh_status add_file(struct vh_safe_folder *folder, struct written_list *list,
                               const char *name, const struct vh_table *table,
                               const struct vh_draft *text, char why[VH_WHY])
{
    struct written *w = &list->file[list->count];

    if (text->failed) {
        snprintf(why, VH_WHY, "there is not enough memory to write %s", name);
        return VH_NO_MEMORY;
    }
    const enum vh_status status = vh_safe_folder_add(folder, name, text->bytes, text->n, why);
    if (status != VH_OK)
        return status;
    snprintf(w->name, sizeof w->name, "%s", name);
    vh_digest_of(text->bytes, text->n, w->digest);
    w->bytes = text->n;
    w->table = table;
    list->count++;
    return VH_OK;
}

static const char *field_type(enum vh_cell_kind kind)
{
    switch (kind) {
    case VH_CELL_TEXT:
        return "string";
    case VH_CELL_DATE:
        return "date";
    case VH_CELL_INTEGER:
        return "integer";
    case VH_CELL_NUMBER:
    case VH_CELL_ERROR:
        return "number";
    }
    return "any";
}

static void add_fields(struct vh_json *j, const struct vh_table *table)
{
    vh_json_open(j, "schema", '{');
    vh_json_open(j, "fields", '[');
    for (size_t i = 0; i < vh_table_columns(table); i++) {
        const struct vh_column *c = vh_table_column(table, i);

        vh_json_open(j, NULL, '{');
        vh_json_text(j, "name", c->name);
        vh_json_text(j, "type", field_type(c->kind));
        vh_json_text(j, "description", c->meaning ? c->meaning : "");
        vh_json_text(j, "unit", c->unit ? c->unit : "");
        vh_json_close(j, '}');
    }
    vh_json_close(j, ']');
    vh_json_open(j, "missingValues", '[');
    vh_json_text(j, NULL, "");
    vh_json_close(j, ']');
    vh_json_close(j, '}');
}

static void add_resource(struct vh_json *j, const struct written *w)
{
    char described[256], hash[80];

    snprintf(described, sizeof described, "One row: %s.", vh_table_row_meaning(w->table));
    snprintf(hash, sizeof hash, "sha256:%s", w->digest);
    vh_json_open(j, NULL, '{');
    vh_json_text(j, "$schema", RESOURCE_PROFILE);
    vh_json_text(j, "name", vh_table_name(w->table));
    vh_json_text(j, "type", "table");
    vh_json_text(j, "path", w->name);
    vh_json_text(j, "description", described);
    vh_json_text(j, "format", "csv");
    vh_json_text(j, "mediatype", "text/csv");
    vh_json_text(j, "encoding", "utf-8");
    vh_json_whole(j, "bytes", (double)w->bytes);
    vh_json_text(j, "hash", hash);
    add_fields(j, w->table);
    vh_json_close(j, '}');
}

/* Frictionless Data Package 2.0, kept to what readers of version 1 also take. */
static void make_data_package(struct vh_draft *out, const char *title,
                              const struct written_list *list)
{
    struct vh_json j = {.out = out};

    vh_json_open(&j, NULL, '{');
    vh_json_text(&j, "$schema", PACKAGE_PROFILE);
    vh_json_text(&j, "name", "vinehand-run");
    vh_json_text(&j, "title", title);
    vh_json_text(&j, "description",
                 "What one run of vinehand foresees. Values are forecasts, "
                 "not measurements.");
    vh_json_open(&j, "resources", '[');
    for (size_t i = 0; i < list->count; i++)
        if (list->file[i].table)
            add_resource(&j, &list->file[i]);
    vh_json_close(&j, ']');
    vh_json_close(&j, '}');
}

/* A number of the one row of table "house"; NaN where this run does not say. */
static double house_number(const struct vh_result *result, const char *column)
{
    const struct vh_table *house = vh_result_table_named(result, "house");
    const int at = house ? vh_table_find(house, column) : -1;

    if (at < 0 || vh_table_rows(house) == 0)
        return (double)NAN;
    return vh_table_number(house, 0, (size_t)at);
}

static void make_run(struct vh_draft *out, const struct vh_run_facts *facts,
                     const struct vh_result *result, const struct written_list *list)
{
    struct vh_json j = {.out = out};
    char date[11], draw[24];

    vh_date_format(facts->options.today, date);
    snprintf(draw, sizeof draw, "%" PRIu64, facts->options.draw);
    vh_json_open(&j, NULL, '{');
    vh_json_text(&j, "program", "vinehand"); /* by this line the folder is known as ours */
    vh_json_text(&j, "version", vh_version());
    vh_json_text(&j, "command", facts->command);
    vh_json_text(&j, "scenario", vh_scenario_name(facts->scenario));
    vh_json_text(&j, "scenario_sha256", vh_scenario_digest(facts->scenario));
    vh_json_text(&j, "parameters_sha256", vh_parameters_digest(facts->parameters));
    if (facts->inputs_sha256)
        vh_json_text(&j, "inputs_sha256", facts->inputs_sha256);
    vh_json_text(&j, "today", date);
    vh_json_digits(&j, "draw", draw);
    vh_json_whole(&j, "members", facts->options.members);
    vh_json_whole(&j, "hours_logged", house_number(result, "hours_logged"));
    vh_json_whole(&j, "hours_outlook", house_number(result, "hours_outlook"));
    vh_json_whole(&j, "records_used", house_number(result, "records_used"));
    vh_json_open(&j, "files", '[');
    for (size_t i = 0; i < list->count; i++) {
        vh_json_open(&j, NULL, '{');
        vh_json_text(&j, "path", list->file[i].name);
        vh_json_whole(&j, "bytes", (double)list->file[i].bytes);
        vh_json_text(&j, "sha256", list->file[i].digest);
        vh_json_close(&j, '}');
    }
    vh_json_close(&j, ']');
    vh_json_close(&j, '}');
}

static enum vh_status write_table(struct vh_safe_folder *folder, const struct vh_table *table,
                                  struct written_list *list, char why[VH_WHY])
{
    struct vh_draft text = {0};
    char name[72];

    snprintf(name, sizeof name, "%.64s.csv", vh_table_name(table));
    vh_csv_out_table(&text, table);
    const enum vh_status status = add_file(folder, list, name, table, &text, why);
    vh_draft_clear(&text);
    return status;
}

static enum vh_status write_tables(struct vh_safe_folder *folder, const struct vh_run_facts *facts,
                                   const struct vh_result *result, struct written_list *list,
                                   char why[VH_WHY])
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < vh_result_table_count(result) && status == VH_OK; i++) {
        const struct vh_table *table = vh_result_table(result, i);
        if (vh_table_is_file(table) && strncmp(vh_table_name(table), "said", 4) != 0)
            status = write_table(folder, table, list, why);
    }
    if (status == VH_OK && facts->more)
        status = write_table(folder, facts->more, list, why);
    return status;
}

/* Promises have files of their own kind; none where nothing was promised. */
static enum vh_status write_said(struct vh_safe_folder *folder, const struct vh_run_facts *facts,
                                 const struct vh_result *result, struct written_list *list,
                                 char why[VH_WHY])
{
    enum vh_status status = VH_OK;

    for (int i = 0; i < VH_SAID_TABLES && status == VH_OK; i++) {
        const char *table = vh_said_name((enum vh_said_in)i);
        const struct vh_table *said = vh_result_table_named(result, table);
        struct vh_draft text = {0};
        char name[40];
        snprintf(name, sizeof name, "%s.csv", table);
        vh_said_file_draft(&text, &facts->said[i], said);
        if (text.n > 0 || text.failed)
            status = add_file(folder, list, name, said, &text, why);
        vh_draft_clear(&text);
    }
    return status;
}

enum vh_status vh_run_files_write(struct vh_safe_folder *folder, const struct vh_run_facts *facts,
                                  const struct vh_result *result, size_t *files, char why[VH_WHY])
{
    struct written_list list = {0};
    struct vh_draft text = {0};
    const struct vh_page_facts page = {.result = result,
                                       .more = &facts->more, /* drawn as well: the hindcast */
                                       .more_tables = 1,
                                       .scenario = facts->scenario,
                                       .name = vh_scenario_name(facts->scenario),
                                       .today = facts->options.today,
                                       .members = facts->options.members,
                                       .units = facts->units};

    list.file = calloc(vh_result_table_count(result) + 6, sizeof *list.file);
    if (!list.file) {
        snprintf(why, VH_WHY, "there is not enough memory");
        return VH_NO_MEMORY;
    }
    enum vh_status status = write_tables(folder, facts, result, &list, why);
    if (status == VH_OK)
        status = write_said(folder, facts, result, &list, why);
    if (status == VH_OK) {
        vh_report_page(&text, &page);
        status = add_file(folder, &list, "report.html", NULL, &text, why);
        vh_draft_clear(&text);
    }
    if (status == VH_OK) {
        vh_sheet_page(&text, &page);
        status = add_file(folder, &list, "sheet.html", NULL, &text, why);
        vh_draft_clear(&text);
    }
    if (status == VH_OK) {
        vh_ics_out(&text, vh_result_table_named(result, "tasks"), vh_scenario_name(facts->scenario),
                   facts->options.today, facts->units);
        status = add_file(folder, &list, "work.ics", NULL, &text, why);
        vh_draft_clear(&text);
    }
    if (status == VH_OK) {
        make_data_package(&text, page.name, &list);
        status = add_file(folder, &list, "datapackage.json", NULL, &text, why);
        vh_draft_clear(&text);
    }
    if (status == VH_OK) {
        make_run(&text, facts, result, &list);
        status = add_file(folder, &list, "run.json", NULL, &text, why);
        vh_draft_clear(&text);
    }
    if (status == VH_OK)
        *files = list.count;
    free(list.file);
    return status;
}

void vh_run_files_package(struct vh_draft *out, const char *title, const struct vh_table *table,
                          const char *name, const struct vh_draft *written)
{
    struct written one = {.bytes = written->n, .table = table};
    const struct written_list list = {&one, 1};

    snprintf(one.name, sizeof one.name, "%s", name);
    vh_digest_of(written->bytes, written->n, one.digest);
    make_data_package(out, title, &list);
}
