#include "scenario_parts.h"

#include <stdlib.h>
#include <string.h>

#include "vh_file.h"
#include "vh_folder.h"

/* Reads the climate unless its request is unfit: no dates, or a file that is not there. */
static void read_climate(struct vh_reading *r, enum vh_status before_plantings)
{
    struct vh_house *h = &r->scenario->house;
    const bool is_dated =
        h->first_day <= h->last_day && h->last_day - h->first_day <= VH_SEASON_D_MOST;

    if (r->status == VH_NO_MEMORY || before_plantings < 0 || !is_dated)
        return;
    vh_spoil(r, vh_climate_read(&h->climate_request, &r->scenario->house_params, &r->digest,
                                &h->climate, r->messages));
}

static void fill(struct vh_reading *r)
{
    r->scenario->house.last_day = -1;
    vh_scenario_tables_create(r);
    vh_keys_read(r, &vh_root_keys, vh_toml_root(r->toml), &r->root);
    vh_scenario_fill_parameters(r);
    vh_scenario_fill_house(r);
    vh_scenario_fill_climate(r);
    vh_scenario_fill_work(r);
    const enum vh_status climate_status = r->status;
    vh_scenario_fill_plantings(r);
    if (r->status == VH_NO_MEMORY) /* half a planting has no name to be found by */
        return;
    vh_scenario_check_rows(r);
    vh_scenario_fill_compare(r);
    const enum vh_status before_files = r->status;
    read_climate(r, climate_status);
    vh_scenario_fill_records(r, before_files);
    vh_scenario_doubt_records(r);
    vh_scenario_fill_kept(r, before_files);
    vh_scenario_fill_market(r);
    vh_scenario_fill_futures(r);
    if (r->status >= 0) {
        const bool from_log = r->scenario->house.climate.light_from_log;
        if (!r->scenario->house.light_factor_given)
            vh_default_used(r, "house.light_factor", NULL, &r->scenario->house_rows,
                            from_log ? "light.factor_log" : "light.factor_outlook");
        vh_scenario_list_plantings(r);
    }
    vh_digest_text(&r->digest, r->scenario->digest);
}

enum vh_status vh_scenario_parse(const char *text, size_t n, const char *shown_name,
                                 const char *folder, const struct vh_parameters *p,
                                 const struct vh_run_options *options, struct vh_scenario **out,
                                 struct vh_messages *m)
{
    struct vh_toml *toml = NULL;
    enum vh_status status = vh_toml_parse_known(text, n, shown_name, vh_key_wanted, &toml, m);

    if (status != VH_OK)
        return status;
    struct vh_reading *r = calloc(1, sizeof *r);
    struct vh_scenario *s = calloc(1, sizeof *s);
    if (r && s) {
        *r = (struct vh_reading){
            .toml = toml, .folder = folder, .parameters = p, .scenario = s, .messages = m};
        r->shown_name = vh_toml_name(toml); /* lives as long as the places that point to it */
        s->toml = toml;
        s->parameters = p;
        s->options = *options;
        vh_digest_init(&r->digest);
        vh_digest_add(&r->digest, text, n);
        fill(r);
        status = r->status;
    } else {
        status = VH_NO_MEMORY;
        vh_toml_free(toml);
    }
    free(r);
    if (status >= 0)
        *out = s;
    else
        vh_scenario_free(s);
    return status;
}

/* A folder stands for the scenario.toml in it; one that is itself called so is a mistake. */
static bool stands_for_file(const char *path)
{
    const char *slash = strrchr(path, '/');

    return strcmp(slash ? slash + 1 : path, VH_SHOWN_NAME) != 0 && vh_path_is_folder(path);
}

/* The folder of a file's path; "." where the path has none. The caller frees it. */
static char *folder_of(const char *path)
{
    const char *slash = strrchr(path, '/');

    if (!slash)
        return strdup(".");
    return strndup(path, slash == path ? 1 : (size_t)(slash - path));
}

enum vh_status vh_scenario_read(const char *path, const struct vh_parameters *p,
                                const struct vh_run_options *options, struct vh_scenario **out,
                                struct vh_messages *m)
{
    char *file = stands_for_file(path) ? vh_path_join(path, VH_SHOWN_NAME) : strdup(path);
    char *folder = file ? folder_of(file) : NULL, *text = NULL;
    size_t n = 0;
    enum vh_status status =
        folder ? vh_file_read(file, file, VH_TOML_BYTES_MOST, NULL, &text, &n, m) : VH_NO_MEMORY;

    if (status == VH_OK)
        status = vh_scenario_parse(text, n, file, folder, p, options, out, m);
    free(text);
    free(folder);
    free(file);
    return status;
}

void vh_scenario_free(struct vh_scenario *s)
{
    if (!s)
        return;
    vh_house_clear(&s->house);
    vh_choices_clear(&s->choices);
    vh_toml_free(s->toml);
    for (size_t i = 0; i < s->own_crops; i++)
        vh_param_set_clear(&s->own_rows[i]);
    free(s->own_rows);
    free(s->own_crop);
    free(s->own_of);
    vh_param_set_clear(&s->house_rows);
    vh_table_free(s->defaults);
    vh_table_free(s->plantings);
    vh_table_free(s->learned);
    free(s->posterior);
    free(s);
}

const char *vh_scenario_digest(const struct vh_scenario *s)
{
    return s->digest;
}

const struct vh_run_options *vh_scenario_options(const struct vh_scenario *s)
{
    return &s->options;
}

const char *vh_scenario_kept_file(const struct vh_scenario *s)
{
    return s->house.kept_file.shown;
}

bool vh_scenario_is_in_us_units(const struct vh_scenario *s)
{
    return s->house.us_units;
}

const char *vh_scenario_name(const struct vh_scenario *s)
{
    return s->house.name;
}

/* ---- tables ---- */

size_t vh_scenario_table_count(const struct vh_scenario *s)
{
    const size_t logs = s->house.climate.log_report ? 1 : 0,
                 records = s->house.records.report ? 1 : 0;

    return 2 + logs + records;
}

const struct vh_table *vh_scenario_table(const struct vh_scenario *s, size_t i)
{
    const struct vh_table *const table[] = {s->defaults, s->plantings, s->house.climate.log_report,
                                            s->house.records.report};

    for (size_t k = 0; k < sizeof table / sizeof table[0]; k++) {
        if (table[k] && i-- == 0)
            return table[k];
    }
    return NULL;
}
