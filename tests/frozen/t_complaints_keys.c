/* Kept complaints of every key of a scenario (the lines of tests/unit/every-key.toml), looked up in
 * the tables of keys that the reader has: just below what it may be, at its ends, just above, in
 * the other units too; round numbers between; empty; of each other kind; twice; a letter wrong;
 * each of its words. Numbers at an end are taken, one step on they are not: so a limit that is met
 * exactly is asked for each. complaints-keys.txt keeps a digest a key of every few ways,
 * complaints-keys-rest.txt of all others, as complaints.txt does (t_complaints.c says how to renew
 * and to see). Under sanitizers, where each way takes long, the few alone are asked. */
#include <math.h>

#include "kept_keys.h"
#include "kept_words.h"

#ifdef __SANITIZE_ADDRESS__
enum { IS_SLOW = 1 };
#else
enum { IS_SLOW = 0 };
#endif
enum { EVERY = 8 };
enum { NAME_ROOM = 80, VALUE_ROOM = 160, LINE_ROOM = 600, NUMBERS_MOST = 5 };

static struct vh_parameters *params;
static char *all;                     /* every-key.toml */
static char mine[KEPT_MOST];          /* with one line of it another */
static const char *line, *behind;     /* that line, and what follows it */
static const struct vh_key *key;      /* what it gives */
static struct vh_digest digest, rest; /* of every few ways, and of the others */
static int asked;                     /* ways, of this key */
static char now_rest[KEPT_MOST];

/* The key's own line becomes `text`. */
static void ask(const char *text)
{
    struct vh_run_options options = {.members = 1, .threads = 1};
    struct vh_scenario *s = NULL;
    const bool is_of_rest = asked++ % EVERY != 0;

    if (IS_SLOW && is_of_rest)
        return;
    struct vh_messages *m = vh_messages_create();
    cr_assert(m && vh_date_parse("2026-07-14", &options.today) == VH_OK);
    snprintf(mine, sizeof mine, "%.*s%s\n%s", (int)(line - all), all, text, behind);
    const enum vh_status status =
        vh_scenario_parse(mine, strlen(mine), "scenario.toml", folder, params, &options, &s, m);
    told(is_of_rest ? &rest : &digest, text, status, m);
    vh_scenario_free(s);
}

static void give(const char *name, const char *value)
{
    char text[LINE_ROOM];

    snprintf(text, sizeof text, "%s = %s", name, value);
    ask(text);
}

static void give_number(const char *name, double value)
{
    const bool is_list = key->kind == VH_KEY_NUMBERS;
    char text[VALUE_ROOM];

    snprintf(text, sizeof text, is_list ? "[%.12g]" : "%.12g", value);
    give(name, text);
}

/* A step that is seen in twelve digits. */
static double step(double value)
{
    const double least = 1e-6;

    return key->kind == VH_KEY_WHOLE ? 1.0 : fmax(least, least * fabs(value));
}

static void ask_numbers(void)
{
    static const char *const others[] = {"_ft",  "_in",      "_lb",     "_oz",    "_f",
                                         "_ft2", "_per_ft2", "_per_ft", "_per_lb"};
    /* where one key's limit hangs on another's, or on a crop, it is a round number mostly */
    static const double round[] = {0.25, 0.5, 0.85, 1,  1.5, 2,  3,  5,  6,  7,   10,  12,  14,
                                   15,   20,  24,   25, 30,  45, 50, 60, 66, 100, 120, 150, 200};
    const double at[NUMBERS_MOST] = {key->low - step(key->low), key->low, key->high,
                                     key->high + step(key->high),
                                     floor(key->low / 2.0 + key->high / 2.0) + 0.5};
    struct vh_unit_pair unit;
    char name[NAME_ROOM];

    for (int i = 0; i < NUMBERS_MOST; i++)
        give_number(key->name, at[i]);
    for (size_t i = 0; i < sizeof round / sizeof round[0]; i++)
        if (round[i] > key->low && round[i] < key->high)
            give_number(key->name, round[i]);
    const size_t n = strlen(key->name);
    for (size_t u = 0; u < sizeof others / sizeof others[0]; u++)
        for (size_t stem = 1; stem < n; stem++) {
            snprintf(name, sizeof name, "%.*s%s", (int)stem, key->name, others[u]);
            if (key->name[stem] != '_' ||
                !vh_units_match(key->name, name, key->flags & VH_KEY_DIFFERENCE, &unit))
                continue;
            give_number(name, (at[0] - step(at[0]) - unit.shift) / unit.scale);
            give_number(name, (at[1] + step(at[1]) - unit.shift) / unit.scale);
            give_number(name, (at[3] + step(at[3]) - unit.shift) / unit.scale);
        }
}

/* Each word that it may be, and one that it may not. */
static void ask_words(void)
{
    const bool is_list = key->kind == VH_KEY_WORDS;
    char text[VALUE_ROOM];

    for (const char *at = key->words; *at;) {
        const int n = (int)strcspn(at, "|");
        snprintf(text, sizeof text, is_list ? "[\"%.*s\"]" : "\"%.*s\"", n, at);
        give(key->name, text);
        snprintf(text, sizeof text, is_list ? "[\"%.*s%c\"]" : "\"%.*s%c\"", n - 1, at, 'q');
        give(key->name, text);
        at += n + (at[n] == '|');
    }
}

static void ask_kinds(void)
{
    static const char *const values[] = {
        "",
        "\"\"",
        "\"seven\"",
        "seven",
        "\"none\"",
        "none",
        "\"7\"",
        "7",
        "-7",
        "\"1,5\"",
        "1,5",
        "7 1/2",
        "true",
        "\"yes\"",
        "no",
        "2026-07-01",
        "\"2026-07-01\"",
        "2026-02-30",
        "July 1",
        "2025-01-01",
        "2029-12-31",
        "1900-01-01",
        "[]",
        "[7, 7]",
        "[\"x\"]",
        "[2026-07-01, 2026-06-01]",
        "{}",
        "{ x = 1 }",
        "\"../x/y.csv\"",
        "\"no.csv\"",
        "\"a,b\"",
        "\"slicers\"",
        "\"tomato-cherry\"",
    };

    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++)
        give(key->name, values[i]);
}

/* The line as it stands, but for its key: a letter too few, too many, another, two turned, capital,
 * without its unit; then the line twice, and left out. */
static void ask_names(const char *value)
{
    const char *name = key->name;
    const int n = (int)strlen(name), half = n / 2;
    char text[LINE_ROOM], other[NAME_ROOM];

    for (int way = 0; way < 7; way++) {
        if (way == 0)
            snprintf(other, sizeof other, "%.*s", n - 1, name);
        else if (way == 1)
            snprintf(other, sizeof other, "%.*s%c%s", half, name, name[half], name + half);
        else if (way == 2)
            snprintf(other, sizeof other, "%.*sq%s", half, name, name + half + 1);
        else if (way == 3 && n > half + 1)
            snprintf(other, sizeof other, "%.*s%c%c%s", half, name, name[half + 1], name[half],
                     name + half + 2);
        else if (way == 4)
            snprintf(other, sizeof other, "%c%s", name[0] - 'a' + 'A', name + 1);
        else if (way == 5)
            snprintf(other, sizeof other, "%.*s", (int)strcspn(name, "_"), name);
        else
            snprintf(other, sizeof other, "%s-%s", "x", name);
        give(other, value);
    }
    snprintf(text, sizeof text, "%s = %s\n%s = %s", name, value, name, value);
    ask(text);
    ask("");
}

/* What is now of the few, and of the rest. */
static void swap_now(void)
{
    static char other[KEPT_MOST];

    memcpy(other, now, sizeof now);
    memcpy(now, now_rest, sizeof now);
    memcpy(now_rest, other, sizeof now);
}

static void ask_line(const struct vh_key_table *table, size_t n)
{
    char value[VALUE_ROOM];

    key = key_of(table, line);
    if (!key)
        return;
    const char *from = memchr(line, '=', n);
    cr_assert(from != NULL);
    snprintf(value, sizeof value, "%.*s", (int)(line + n - from - 2), from + 2);
    vh_digest_init(&digest);
    vh_digest_init(&rest);
    asked = 0;
    if (key->kind == VH_KEY_NUMBER || key->kind == VH_KEY_WHOLE || key->kind == VH_KEY_PRICE ||
        key->kind == VH_KEY_NUMBERS)
        ask_numbers();
    if (key->kind == VH_KEY_WORD || key->kind == VH_KEY_WORDS)
        ask_words();
    ask_kinds();
    ask_names(value);
    keep(&digest, table->name ? table->name : "", key->name);
    swap_now();
    if (!IS_SLOW)
        keep(&rest, table->name ? table->name : "", key->name);
    swap_now();
}

/* Each line of `all`, or those of one key alone. */
static void ask_lines(const char *only)
{
    const struct vh_key_table *table = &vh_root_keys;

    own_file = "scenario.toml";
    own_line = 1;
    for (line = all; *line; line = behind, own_line++) {
        const size_t length = strcspn(line, "\n");
        behind = line + length + (line[length] == '\n');
        if (line[0] == '[') {
            table = under_line(line);
        } else if (length > 0 && line[0] != '#' && table &&
                   (!only || strncmp(line, only, strlen(only)) == 0)) {
            ask_line(table, length);
        }
    }
}

/* Files that are named, short ones; the log without a day that can be read, so that no scenario is
 * whole and none gets the hours of its season laid out, which would take most of the time. */
static void put_files(void)
{
    put("log.csv", "time,t_air_c,rh_pct\nx2026-07-10T00:00,18,80\n2026-07-10T01:00,17.5,81\n");
    put("normals.csv", "month,tmin_c,tmax_c\n1,-9,0\n2,-8,2\n3,-3,7\n4,2,14\n5,8,20\n6,13,25\n"
                       "7,16,28\n8,15,27\n9,11,22\n10,5,15\n11,-1,8\n12,-6,2\n");
    put("records.csv", "date,planting,item,value\n2026-07-10,slicers,picked_kg,12\n");
    put("kept.csv", "crop_or_planting,name,factor,low,high\nslicers,set,1.02,0.97,1.07\n");
}

static void replace(const char *what, const char *with)
{
    char *at = strstr(all, what);

    cr_assert(at != NULL, "%s", what);
    memmove(at + strlen(with), at + strlen(what), strlen(at + strlen(what)) + 1);
    memcpy(at, with, strlen(with));
}

/* every-key.toml into `all`, and all that lies beside it; what is said of it as it is. */
static void begin(void)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_run_options options = {.members = 1, .threads = 1};
    struct vh_scenario *s = NULL;
    char path[1200];
    size_t n;

    make_light_folder();
    cr_assert(m && vh_parameters_read(VINEHAND_PARAMS, &params, m) == VH_OK);
    snprintf(path, sizeof path, "%s/unit/every-key.toml", VINEHAND_TEST_DATA);
    all = whole(path, &n);
    put_files();
    replace("../../scenarios/two-bays/inside.csv", "log.csv");
    replace("../../scenarios/two-bays/normals.csv", "normals.csv");
    cr_assert(vh_date_parse("2026-07-14", &options.today) == VH_OK);
    cr_assert(vh_scenario_parse(all, strlen(all), "scenario.toml", folder, params, &options, &s,
                                m) == VH_BAD_INPUT); /* the log */
    take_as_usual(m);
    vh_messages_free(m);
}

static void end(void)
{
    vh_parameters_free(params);
    free(all);
    drop_folder();
}

TestSuite(complaints_keys, .init = begin, .fini = end);

Test(complaints_keys, of_each_key_are_as_kept)
{
    begin_words();
    ask_lines(NULL);
    as_kept("complaints-keys.txt");
    swap_now();
    if (!IS_SLOW)
        as_kept("complaints-keys-rest.txt");
}

/* A line more at the top, and one in the middle, move no digest: so the next key moves its own
 * alone. */
Test(complaints_keys, are_the_same_further_down)
{
    static char first[KEPT_MOST], first_rest[KEPT_MOST];

    ask_lines("set_out");
    memcpy(first, now, sizeof now);
    memcpy(first_rest, now_rest, sizeof now);
    now[0] = now_rest[0] = '\0';
    replace("[house]", "# a line\n[house]");
    replace("[market]", "# a line\n[market]");
    ask_lines("set_out");
    cr_expect(strstr(first, "set_out") != NULL);
    cr_expect(strcmp(now, first) == 0);
    cr_expect(strcmp(now_rest, first_rest) == 0);
}
