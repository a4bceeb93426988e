/* Kept complaints of the readers of rows, each on a text of its own that is right: every cell of
 * it, one after the other, becomes each of some words and numbers; each number of a column, and of
 * each item of the records, stands just outside, at and just inside what it may be, in the other
 * units too; each name of a column or item has a letter wrong. complaints-rows.txt keeps a digest a
 * file and cell, or item (t_complaints.c says how to renew and to see). */
#include <math.h>

#include "../unit/may_house.h"
#include "../unit/three_fields.h"
#include "kept_words.h"
#include "record_parts.h"
#include "vh_climate_columns.h"
#include "vh_grade.h"
#include "vh_house.h"
#include "vh_kept.h"
#include "vh_parameters.h"

enum { NAME_MOST = 80, WHAT_MOST = 200, SLIPS = 7, PLANTS = 48 };

static struct vh_parameters *params;
static struct vh_house house;
static char mine[KEPT_MOST];
static struct vh_digest digest;

/* ---- the readers ---- */

static enum vh_status read_records(const char *text, struct vh_messages *m)
{
    struct vh_records out = {.last_day = 0};
    struct vh_record_sheet sheet = {0};
    const enum vh_status status = vh_record_sheet_read(&house, &params->record, text, strlen(text),
                                                       "records.csv", &out, &sheet, m);

    vh_record_sheet_clear(&sheet);
    vh_records_clear(&out);
    return status;
}

static enum vh_status read_kept(const char *text, struct vh_messages *m)
{
    return vh_kept_read_memory(&house, text, strlen(text), "kept.csv", m);
}

static enum vh_status read_grades(const char *text, struct vh_messages *m)
{
    struct vh_grades g;
    const enum vh_status status = vh_grades_read_memory(text, strlen(text), "sizes.csv", &g, m);

    vh_grades_clear(&g);
    return status;
}

static enum vh_status read_rows(const char *text, struct vh_messages *m)
{
    struct vh_param_set set = {NULL, 0};
    struct vh_sources *s = NULL;
    struct target target;

    put("sources.csv", SOURCES "a2000,A,2000,T,J,,whole\n");
    put("x.csv", text);
    put("base.csv", HEADER MASS BY);
    enum vh_status status = vh_sources_read("sources.csv", NULL, &s, m);
    if (status == VH_OK)
        status = vh_param_read(".", "x", fields, FIELDS, s, NULL, &target, &set, m);
    vh_param_set_clear(&set);
    vh_sources_free(s);
    return status;
}

static enum vh_status read_sources(const char *text, struct vh_messages *m)
{
    struct vh_sources *s = NULL;

    put("sources.csv", text);
    const enum vh_status status = vh_sources_read("sources.csv", NULL, &s, m);
    vh_sources_free(s);
    return status;
}

static struct vh_climate_request request;
static enum vh_status read_climate(struct vh_messages *m)
{
    struct vh_climate climate;

    request.today = FIRST_OF_MAY + 1;
    request.last_day = FIRST_OF_MAY + 2;
    const enum vh_status status = vh_climate_read(&request, &params->house, NULL, &climate, m);
    vh_climate_clear(&climate);
    return status;
}

static enum vh_status read_log(const char *text, struct vh_messages *m)
{
    static char name[] = "log.csv";
    struct vh_file_name log = {name, name};

    put(name, text);
    request = may_request();
    request.log = &log;
    request.logs = 1;
    return read_climate(m);
}

static enum vh_status read_outside(const char *text, struct vh_messages *m)
{
    static char name[] = "out.csv";

    put(name, text);
    request = may_request();
    request.outside = (struct vh_file_name){name, name};
    return read_climate(m);
}

static enum vh_status read_normals(const char *text, struct vh_messages *m)
{
    static char name[] = "normals.csv";

    put(name, text);
    request = may_request();
    request.normals = (struct vh_file_name){name, name};
    return read_climate(m);
}

/* ---- the texts ---- */

static const struct file {
    const char *name;
    enum vh_status (*read)(const char *text, struct vh_messages *m);
    const char *text;
} files[] = {
    {"records", read_records,
     "date,planting,item,value,truss,of,note\n2026-06-01,slicers,picked_kg,12,,,\n"
     "2026-06-04,slicers,fruits_left,3.5,7,6,\n2026-06-08,longs,picked_fruits,40,,,right: a flush\n"
     "2026-06-08,slicers,picked_kg,12.5,,,\n"},
    {"wide records", read_records,
     "Date;planting;picked_kg;stem_cm;leaves_on_stem;done_lower;minutes_pick;of;note\n"
     "2026-06-01;slicers;12;210;17;1;30;5;\n2026-06-04;longs;;180,5;16;0,5;;4;slow\n"},
    {"kept", read_kept,
     "crop_or_planting,name,factor,low,high\nhouse,light,0.95,0.88,1.02\n"
     "house,log_offset_c,0.2,-0.3,0.8\nslicers,truss_pace,1.02,0.97,1.07\n"
     "tomato-large,set,0.97,0.9,1.04\n"},
    {"grades", read_grades,
     "grade,measure,from,to,basis,source,place,note\nsmall,mass_g,80,120,assumed,,,\n"
     "middle,mass_g,120,180,assumed,,,\nlarge,mass_g,180,,assumed,,,\n"},
    {"parameters", read_rows,
     HEADER "truss.rate,0.15,truss d-1,0.1,0.2,published,a2000,table 1,\n" MASS BY},
    {"parameters on a base", read_rows,
     HEADER "base,base,,,,assumed,,,\ntruss.rate,0.15,truss d-1,0.1,0.2,fitted,,,\n"},
    {"sources", read_sources,
     SOURCES "a2000,A,2000,T,J,,whole\nb-2_1,B,2001,T,,,quoted by a2000\n"},
    {"log", read_log,
     "time,t_air_c,rh_pct,co2_ppm,par_umol_m2_s\n2026-05-01T00:00,18,80,420,0\n"
     "2026-05-01T01:00,17.5,81,430,0\n2026-05-01T12:00,24,60,400,900\n"},
    {"log of days", read_log,
     "date,tmin_c,tmax_c,tmean_c,dli_mol_m2_d\n2026-05-01,15,25,20,18\n2026-05-02,14,26,19,22\n"},
    {"outside", read_outside,
     "date,tmin_c,tmax_c,radiation_mj_m2_d,sunshine_h\n2026-05-01,5,15,18,9\n"
     "2026-05-02,6,16,20,10\n"},
    {"normals", read_normals,
     "month,tmin_c,tmax_c,radiation_mj_m2_d\n1,-9,0,5\n2,-8,2,8\n3,-3,7,12\n4,2,14,16\n"
     "5,8,20,19\n6,13,25,21\n7,16,28,21\n8,15,27,18\n9,11,22,14\n10,5,15,9\n11,-1,8,5\n"
     "12,-6,2,4\n"},
};
enum { FILES = sizeof files / sizeof files[0], ROWS_MOST = 4 };

static void ask(const struct file *f, const char *text, const char *what)
{
    struct vh_messages *m = vh_messages_create();

    cr_assert(m != NULL);
    const enum vh_status status = f->read(text, m);
    told(&digest, what, status, m);
}

/* ---- every cell ---- */

/* Where cell c of row r stands in the text, of *n bytes; NULL: there is none. */
static const char *cell_of(const char *text, size_t row, size_t cell, size_t *n)
{
    const char *between = memchr(text, ';', strcspn(text, "\n")) ? ";\n" : ",\n";

    for (; row > 0 && *text; row--)
        text += strcspn(text, "\n") + 1;
    for (; cell > 0 && *text; cell--) {
        text += strcspn(text, between);
        if (*text != between[0])
            return NULL;
        text++;
    }
    *n = strcspn(text, between);
    return *text ? text : NULL;
}

/* The cell of n bytes at `at` becomes `word`. */
static void ask_word(const struct file *f, const char *at, size_t n, const char *word)
{
    char what[WHAT_MOST];

    snprintf(mine, sizeof mine, "%.*s%s%s", (int)(at - f->text), f->text, word, at + n);
    snprintf(what, sizeof what, "%.*s -> %s", (int)n, at, word);
    ask(f, mine, what);
}

/* A name with a letter wrong, in one of SLIPS ways. */
static void slip(char *out, const char *name, int n, int way)
{
    const int half = n / 2;

    if (n < 4 || way == 0)
        snprintf(out, NAME_MOST, "%.*sq", n, name);
    else if (way == 1)
        snprintf(out, NAME_MOST, "%.*s", n - 1, name);
    else if (way == 2)
        snprintf(out, NAME_MOST, "%.*s%c%.*s", half, name, name[half], n - half, name + half);
    else if (way == 3)
        snprintf(out, NAME_MOST, "%.*sq%.*s", half, name, n - half - 1, name + half + 1);
    else if (way == 4)
        snprintf(out, NAME_MOST, "%.*s%c%c%.*s", half, name, name[half + 1], name[half],
                 n - half - 2, name + half + 2);
    else if (way == 5)
        snprintf(out, NAME_MOST, "%.*s", (int)strcspn(name, "_,;\n"), name);
    else
        snprintf(out, NAME_MOST, "%c%.*s", name[0] ^ ('a' ^ 'A'), n - 1, name + 1);
}

static void ask_cells(const struct file *f)
{
    static const char *const words[] = {
        "",           "x",        "0",        "-1",     "1e9",     "1.5",        "1,5",
        "7.",         "none",     "5 lb",     "-0.001", "12/7/26", "2026-02-30", "2026-07-15",
        "1900-01-01", "\"\"",     "\"a,b\"",  "999999", "nan",     "seven",      "slicers",
        " 3 ",        "100.0001", "0.999999", "13",     "\"",
    };
    char word[NAME_MOST], group[NAME_MOST];
    size_t n;

    for (size_t row = 0; row < ROWS_MOST; row++)
        for (size_t cell = 0;; cell++) {
            const char *at = cell_of(f->text, row, cell, &n);
            if (!at)
                break;
            vh_digest_init(&digest);
            for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
                ask_word(f, at, n, words[i]);
            for (int way = 0; way < SLIPS && n > 1; way++) {
                slip(word, at, (int)n, way);
                ask_word(f, at, n, word);
            }
            /* with a cell too many behind it, and as the cell above */
            snprintf(word, sizeof word, "%.*s,", (int)n, at);
            ask_word(f, at, n, word);
            size_t much;
            const char *above = row > 0 ? cell_of(f->text, row - 1, cell, &much) : NULL;
            if (above) {
                snprintf(word, sizeof word, "%.*s", (int)much, above);
                ask_word(f, at, n, word);
            }
            snprintf(group, sizeof group, "row %zu, cell %zu", row, cell);
            keep(&digest, f->name, group);
        }
}

/* ---- numbers at the ends of what a column may hold ---- */

static const char *const other_units[] = {"_ft", "_in", "_lb", "_oz", "_f"};
enum { UNITS = sizeof other_units / sizeof other_units[0] };

/* The name of our column in another unit; false: it has none. */
static bool in_unit(const char *ours, const char *unit, char *name, struct vh_unit_pair *pair)
{
    const char *stem = strrchr(ours, '_');

    if (!stem)
        return false;
    snprintf(name, NAME_MOST, "%.*s%s", (int)(stem - ours), ours, unit);
    return vh_units_match(ours, name, false, pair);
}

static void ask_number(const struct file *f, const char *column, const char *right, double value)
{
    char what[WHAT_MOST];
    const bool is_day = strcmp(f->name, "log of days") == 0 || strcmp(f->name, "outside") == 0;

    snprintf(mine, sizeof mine, "%s,%s%s\n%s%s,%.12g\n", is_day ? "date" : "time", column, right,
             is_day ? "2026-05-01" : "2026-05-01T12:00", right[0] ? ",15" : "", value);
    snprintf(what, sizeof what, "%s %.12g", column, value);
    if (right[0]) /* tmin_c beside tmax_c: the number stands in the first */
        snprintf(mine, sizeof mine, "date,%s%s\n2026-05-01,%.12g,15\n", column, right, value);
    ask(f, mine, what);
}

static enum vh_status ask_column(void *context, const struct vh_brought_column *c)
{
    (void)context;
    const bool is_log = strcmp(c->file, "log") == 0, is_out = strcmp(c->file, "outside") == 0;
    const bool is_day = strstr(c->name, "tm") || strstr(c->name, "_d") || strstr(c->name, "shine");
    if (isnan(c->low) || isnan(c->high) || !(is_log || is_out))
        return VH_OK;
    const struct file *f = &files[is_out ? 9 : is_day ? 8 : 7];
    const char *right = strcmp(c->name, "tmin_c") == 0   ? ",tmax_c"
                        : strcmp(c->name, "tmax_c") == 0 ? ",tmin_c"
                                                         : "";
    char name[NAME_MOST];
    struct vh_unit_pair pair;
    const double step = 1e-6, at[] = {c->low - step, c->low, c->high, c->high + step};

    vh_digest_init(&digest);
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++)
        ask_number(f, c->name, right, at[i]);
    for (size_t u = 0; u < UNITS; u++)
        for (size_t i = 0; i < sizeof at / sizeof at[0]; i++)
            if (in_unit(c->name, other_units[u], name, &pair))
                ask_number(f, name, right, (at[i] - pair.shift) / pair.scale);
    keep(&digest, c->file, c->name);
    return VH_OK;
}

/* ---- every item of the records ---- */

static void ask_entry(const char *item, const char *rest)
{
    char what[WHAT_MOST];

    snprintf(mine, sizeof mine,
             "date,planting,item,value,truss,of,note\n2026-06-10,slicers,%s,%s\n", item, rest);
    snprintf(what, sizeof what, "%s %s", item, rest);
    ask(&files[0], mine, what);
}

/* most: more of it cannot be */
static void ask_item(const char *item, double most)
{
    static const char *const entries[] = {
        "0,,,",           "-0.001,,,",   "1,,,",
        "1.5,,,",         "1.001,,,",    "100000,,,",
        "100000.1,,,",    "1e6,,,",      "99999.9,,,",
        "1000000.1,,,",   "x,,,",        ",,,",
        "5 lb,,,",        "5kg,,,",      "5 in,,,",
        "\"1,5\",,,",     "3,7,,",       "3,7,6,",
        "3,0,6,",         "3,1000,6,",   "3,1001,6,",
        "3,7,0,",         "3,7,48,",     "3,7,49,",
        "3,7,5000,",      "3,7,5001,",   "3,-1,6,",
        "3,7,6.5,",       "none,,,",     "12,,,right",
        "12,,,rigt",      "12,,,right;", "12,,,Right: it was",
        "12,,,right row",
    };
    char name[NAME_MOST];
    struct vh_unit_pair pair;

    vh_digest_init(&digest);
    for (size_t i = 0; i < sizeof entries / sizeof entries[0]; i++)
        ask_entry(item, entries[i]);
    for (int i = 0; i < 2; i++) {
        snprintf(name, sizeof name, "%.12g,7,6,", most + 1e-3 * i);
        ask_entry(item, name);
    }
    for (int way = 0; way < SLIPS; way++) {
        slip(name, item, (int)strlen(item), way);
        ask_entry(name, "3,7,6,");
    }
    for (size_t u = 0; u < UNITS; u++)
        if (in_unit(item, other_units[u], name, &pair))
            ask_entry(name, "3,7,6,");
    /* twice, the second with `right` and without */
    snprintf(mine, sizeof mine,
             "date,planting,item,value,truss,of,note\n2026-06-10,slicers,%s,3,7,6,\n"
             "2026-06-10,slicers,%s,3,7,6,right\n2026-06-10,slicers,%s,4,7,6,\n",
             item, item, item);
    ask(&files[0], mine, "twice");
    keep(&digest, "item", item);
}

static void ask_items(void)
{
    static const char *const tasks[] = {"done_lower",    "done_sucker",  "done_pick",
                                        "minutes_lower", "minutes_pick", "minutes_walk"};

    for (int i = 0; i < VH_RECORD_MINUTES; i++) {
        const struct vh_item_kind *kind = vh_item_kind((enum vh_record_item)i);
        ask_item(kind->name, kind->most * (kind->of_planting ? PLANTS : 1));
    }
    for (size_t i = 0; i < sizeof tasks / sizeof tasks[0]; i++)
        ask_item(tasks[i], 1.0);
}

/* ---- all ---- */

static void begin_house(void)
{
    static const char *const names[] = {"slicers", "longs"}, *const crops[] = {"tomato-large",
                                                                               "cucumber-long"};

    house = (struct vh_house){.plantings = 2};
    cr_assert(vh_date_parse("2026-07-14", &house.today) == VH_OK);
    house.planting = calloc(2, sizeof *house.planting);
    for (size_t i = 0; i < 2; i++) {
        house.planting[i].name = strdup(names[i]);
        house.planting[i].crop_name = strdup(crops[i]);
        house.planting[i].plants = PLANTS;
        vh_date_parse("2026-02-20", &house.planting[i].set_out);
        vh_date_parse("2026-11-10", &house.planting[i].pull_out);
    }
}

Test(complaints_rows, of_each_cell_are_as_kept, .init = make_light_folder, .fini = drop_folder)
{
    struct vh_messages *m = vh_messages_create();

    begin_words();
    cr_assert(chdir(folder) == 0); /* so that its name, another each time, is not in what is told */
    cr_assert(m && vh_parameters_read(VINEHAND_PARAMS, &params, m) == VH_OK);
    begin_house();
    for (size_t i = 0; i < FILES; i++) {
        vh_digest_init(&digest);
        ask(&files[i], files[i].text, "as it is");
        keep(&digest, files[i].name, "as it is");
        ask_cells(&files[i]);
    }
    cr_assert(vh_climate_columns(&params->house, ask_column, NULL) == VH_OK);
    ask_items();
    vh_house_clear(&house);
    vh_parameters_free(params);
    vh_messages_free(m);
    as_kept("complaints-rows.txt");
}
