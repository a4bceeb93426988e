/* Kept answers to `note`: every item, in records of each form (long, wide, of another separator, in
 * other units, without a note, with Windows' line ends, none yet), with values, trusses, stems and
 * days that may and may not be: what is complained of, and every byte that would be written.
 * complaints-notes.txt keeps a digest a form and item (t_complaints.c says how to renew and to
 * see). */
#include "kept_words.h"
#include "record_parts.h"

static struct vh_parameters *params;
static struct vh_scenario *scenario;
static struct vh_digest digest;

static const struct form {
    const char *name, *text; /* NULL: there is no file */
} forms[] = {
    {"none", NULL},
    {"empty", ""},
    {"long", "date,planting,item,value,truss,of,note\n2026-06-01,slicers,picked_kg,12,,,\n"
             "2026-06-08,longs,picked_fruits,40,,,right\n2026-06-10,slicers,stem_cm,180,,5,\n"},
    {"long, no end", "date;planting;item;value\r\n2026-06-01;slicers;picked_kg;12,5\r\n"
                     "2026-06-12;slicers;fruit_g;180"},
    {"wide", "date,planting,picked_kg,stem_cm,leaves_on_stem,of,note\n"
             "2026-06-01,slicers,12,,16,5,\n2026-06-10,slicers,,,,,\n2026-06-10,longs,,,,,hot\n"},
    {"wide, of hers", "Day;Bed;picked_lb;stem_in;picked_fruits;truss\n01.06.2026;slicers;12,5;;;\n"
                      "10.06.2026;slicers;;70;;\n"},
};

static void note(const char *planting, const char *item, const char *value, const char *day,
                 int truss, int of)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_record_entry entry = {planting, item, value, 0, truss, of};
    struct vh_record_change *c = NULL;
    char what[200];

    cr_assert(m && vh_date_parse(day, &entry.day) == VH_OK);
    snprintf(what, sizeof what, "%s %s %s %s %d %d", planting, item, value, day, truss, of);
    const enum vh_status status = vh_records_note(scenario, &entry, &c, m);
    told(&digest, what, status, m);
    if (c)
        add(&digest, "%lld %d %s\n%.*s\n", (long long)c->line, c->filled, c->text, (int)c->n,
            c->bytes);
    vh_record_change_free(c);
}

static void note_item(const char *item)
{
    static const char *const values[] = {"3", "0", "-1",  "2.5", "2,5",
                                         "x", "",  "1e9", "5lb", "170"};

    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++)
        note("slicers", item, values[i], "2026-06-15", 0, 0);
    note("slicers", item, "3", "2026-06-10", 0, 0);
    note("slicers", item, "3", "2026-06-01", 0, 0);
    note("longs", item, "3", "2026-06-10", 7, 0);
    note("longs", item, "3", "2026-06-10", 0, 4);
    note("longs", item, "3", "2026-06-10", 7, 30);
    note("longs", item, "3", "2026-06-10", 7, 31);
    note("longs", item, "3", "2026-01-01", 1000, 1);
    note("slicers", item, "3", "2026-06-20", 1001, 1);
    note("slicers", item, "3", "2026-06-21", 1, 1);
    note("slicer", item, "3", "2026-06-15", 0, 0);
}

Test(complaints_notes, of_each_item_are_as_kept, .init = make_light_folder, .fini = drop_folder)
{
    static const char *const others[] = {"done_lower", "minutes_pick", "picked_lb", "stem_in",
                                         "picked",     "stem_cn",      "kg"};
    static const char text[] =
        "[house]\nname = \"Notes\"\nlatitude_deg = 44\n[climate.roughly]\nwarmest_high_c = 28\n"
        "warmest_low_c = 16\ncoldest_high_c = -2\ncoldest_low_c = -12\n[[planting]]\n"
        "name = \"slicers\"\ncrop = \"tomato-large\"\nplants = 50\nplants_per_m2 = 2.4\n"
        "set_out = 2026-03-01\npull_out = 2026-07-30\n[[planting]]\nname = \"longs\"\n"
        "crop = \"cucumber-long\"\nplants = 30\nplants_per_m2 = 1.6\nset_out = 2026-04-10\n"
        "pull_out = 2026-07-30\n[records]\nfile = \"records.csv\"\n[records.columns]\n"
        "date = \"Day\"\nplanting = \"Bed\"\n";
    struct vh_messages *m = vh_messages_create();
    struct vh_run_options options = {.members = 1, .threads = 1, .no_records = true};

    begin_words();
    cr_assert(chdir(folder) == 0); /* so that its name is not in what is told */
    cr_assert(m && vh_parameters_read(VINEHAND_PARAMS, &params, m) == VH_OK);
    cr_assert(vh_date_parse("2026-06-20", &options.today) == VH_OK);
    cr_assert(vh_scenario_parse(text, strlen(text), "scenario.toml", ".", params, &options,
                                &scenario, m) >= VH_OK);
    for (size_t f = 0; f < sizeof forms / sizeof forms[0]; f++) {
        if (forms[f].text)
            put("records.csv", forms[f].text);
        for (int i = 0; i < VH_RECORD_MINUTES; i++) {
            const char *item = vh_item_kind((enum vh_record_item)i)->name;
            vh_digest_init(&digest);
            note_item(item);
            keep(&digest, forms[f].name, item);
        }
        for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
            vh_digest_init(&digest);
            note_item(others[i]);
            keep(&digest, forms[f].name, others[i]);
        }
    }
    vh_scenario_free(scenario);
    vh_parameters_free(params);
    vh_messages_free(m);
    as_kept("complaints-notes.txt");
}
