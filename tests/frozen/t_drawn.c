/* Kept answers of houses drawn at random: the kept scenarios with lines left out, keys and tables
 * more, and values drawn anew between what the tables of keys allow, other crops, other days,
 * digits of their logs and records changed, today somewhere in the season. Each is drawn by its
 * number. What is said of it, every number of every table and what explain shows goes into one
 * digest a scenario and kind of answer, to the last bit: which features meet in one house is left
 * to chance, so that it is not only what somebody thought of. drawn.txt keeps the digests;
 * t_complaints.c says how to renew and to see. */
#include "drawn_lines.h"

enum { EACH = 14, TRIES = 6 };

/* Scenarios, each with the day that runs.txt has for it and the files that lie beside it. */
static const struct base {
    const char *folder, *today;
    const char *file[4];
} bases[] = {
    {"market", "2026-07-14", {NULL}},
    {"standing", "2026-07-14", {NULL}},
    {"hot", "2026-02-01", {"inside.csv", "outside.csv", "sizes.csv", NULL}},
    {"cold", "2026-08-10", {NULL}},
    {"dark", "2026-02-25", {"normals.csv", NULL}},
    {"logged", "2026-04-05", {"air.csv", "light.csv", "station.csv", "normals.csv"}},
    {"records", "2026-06-20", {"days.csv", "records.csv", "kept.csv", NULL}},
    {"small", "2026-07-14", {NULL}},
    {"ties", "2026-07-18", {NULL}},
};
static struct vh_parameters *params;

/* A few digits of a row become others; now and then all are 0 but the last: nearly nothing. */
static void draw_digits(char *cells, size_t length)
{
    const bool nearly_nothing = by_chance(0.25);

    for (size_t tries = 0; tries < 4 && length > 0 && !nearly_nothing; tries++) {
        const size_t at = one_of(length);
        if (isdigit((unsigned char)cells[at]))
            cells[at] = (char)('0' + one_of(10));
    }
    for (size_t i = 0; i + 1 < length && nearly_nothing; i++)
        if (isdigit((unsigned char)cells[i]) && !strchr(",;\n", cells[i + 1]))
            cells[i] = '0';
}

/* A file beside it, with rows left out and digits behind the first cell changed. */
static void draw_file(const char *from, const char *name)
{
    char path[1200];
    size_t n;

    snprintf(path, sizeof path, "%s/%s", from, name);
    char *text = whole(path, &n), *out = calloc(1, n + 2), *to = out;
    cr_assert(out != NULL);
    for (char *line = text; *line;) {
        const size_t length = strcspn(line, "\n");
        const size_t cell = strcspn(line, ",;\n");
        const bool is_head = line == text;
        if (!is_head && by_chance(0.03))
            draw_digits(line + cell, length - cell);
        if (is_head || !by_chance(0.02)) {
            memcpy(to, line, length + 1);
            to += length + 1;
        }
        line += length + (line[length] == '\n');
    }
    *to = '\0';
    put(name, out);
    free(text);
    free(out);
}

/* ---- what comes of it ---- */

static void tell_table(struct vh_digest *d, const struct vh_table *t)
{
    if (!t)
        return;
    add(d, "%s\n", vh_table_name(t));
    for (size_t row = 0; row < vh_table_rows(t); row++)
        for (size_t i = 0; i < vh_table_columns(t); i++) {
            const double value = vh_table_number(t, row, i);
            if (vh_table_column(t, i)->kind == VH_CELL_TEXT)
                add(d, "%s,", vh_table_text(t, row, i));
            else if (isnan(value)) /* the sign of "unknown" means nothing */
                add(d, ",");
            else
                add(d, "%a,", value); /* to its last bit */
        }
    add(d, "\n");
}

static void tell_chain(struct vh_digest *d, enum vh_status status, struct vh_chain *c,
                       struct vh_messages *m)
{
    told(d, "explain", status, m);
    if (status != VH_OK)
        return;
    tell_table(d, vh_chain_steps(c));
    tell_table(d, vh_chain_days(c));
    tell_table(d, vh_chain_picks(c));
    vh_chain_free(c);
}

/* How a truss and a market day came about. */
static void explain(struct vh_digest *d, const struct vh_scenario *s, const struct vh_result *r)
{
    const struct vh_table *summary = vh_result_table_named(r, "summary");
    const struct vh_table *days = vh_result_table_named(r, "market_days");
    struct vh_chain *c = NULL;
    struct vh_messages *m = vh_messages_create();
    const char *planting = vh_cell_text(summary, one_of(vh_table_rows(summary)), "planting");

    enum vh_status status = vh_explain_truss(s, r, planting, 1 + (int)one_of(25), &c, m);
    tell_chain(d, status, c, m);
    if (vh_table_rows(days) == 0)
        return;
    m = vh_messages_create();
    const double date = vh_cell_number(days, one_of(vh_table_rows(days)), "date");
    status = vh_explain_market_day(s, r, (int64_t)date, &c, m);
    tell_chain(d, status, c, m);
}

static struct vh_digest heard, ran, compared, explained;
static int choices; /* houses of a scenario that were asked for them */

static void run(struct vh_scenario *s)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_result *r = NULL;

    told(&ran, "learn", vh_scenario_learn(s, NULL, NULL, m), m);
    tell_table(&ran, vh_scenario_learned(s));
    m = vh_messages_create();
    const enum vh_status status = vh_forecast_measuring(s, NULL, NULL, &r, m);
    cr_assert(m && status == VH_OK, "scenario %u", number);
    vh_waiting_costs(s, r, m);
    told(&ran, "forecast", status, m);
    for (size_t i = 0; i < vh_result_table_count(r); i++)
        tell_table(&ran, vh_result_table(r, i));
    explain(&explained, s, r);
    vh_result_free(r);
    if (vh_scenario_choices(s) == 0 || any() > 0.5)
        return;
    r = NULL;
    m = vh_messages_create();
    const enum vh_status chosen = vh_compare(s, NULL, NULL, &r, m);
    choices++;
    told(&compared, "compare", chosen, m);
    if (chosen == VH_OK) {
        tell_table(&compared, vh_result_table_named(r, "choices"));
        tell_table(&compared, vh_result_table_named(r, "compared"));
    }
    vh_result_free(r);
}

/* false: it was refused. */
static bool try_house(const struct base *b, const char *text)
{
    static char mine[2 * TEXT_ROOM];
    struct vh_run_options options = {.threads = 1};
    struct vh_messages *m = vh_messages_create();
    struct vh_scenario *s = NULL;
    char from[1100];

    cr_assert(m && vh_date_parse(b->today, &base_today) == VH_OK);
    snprintf(from, sizeof from, "%s/frozen/%s", VINEHAND_TEST_DATA, b->folder);
    draw_scenario(text, mine);
    for (size_t i = 0; i < sizeof b->file / sizeof b->file[0] && b->file[i]; i++)
        draw_file(from, b->file[i]);
    if (strcmp(b->folder, "logged") == 0)
        draw_file(from, "visits.csv");
    options.today = base_today + (int64_t)floor(60.0 * any()) - 30;
    options.members = 1 + (int)one_of(3);
    options.draw = 1 + one_of(9);
    const enum vh_status status =
        vh_scenario_parse(mine, strlen(mine), "scenario.toml", folder, params, &options, &s, m);
    told(&heard, "read", status, m);
    if (status != VH_OK)
        return false;
    for (size_t i = 0; i < vh_scenario_table_count(s); i++)
        tell_table(&heard, vh_scenario_table(s, i));
    run(s);
    vh_scenario_free(s);
    return true;
}

static void ask_base(const struct base *b, int *whole_ones)
{
    char path[1200];
    size_t n;

    snprintf(path, sizeof path, "%s/frozen/%s/scenario.toml", VINEHAND_TEST_DATA, b->folder);
    char *text = whole(path, &n);
    cr_assert(n < TEXT_ROOM / 2);
    vh_digest_init(&heard);
    vh_digest_init(&ran);
    vh_digest_init(&compared);
    choices = 0;
    vh_digest_init(&explained);
    for (int k = 0; k < EACH; k++) {
        bool good = false;
        often = 1.0;
        for (int i = 0; i < TRIES && !good; i++, often /= 2.0, number++) {
            drawn = 0;
            good = try_house(b, text);
        }
        *whole_ones += good;
    }
    keep(&heard, b->folder, "what is said of it");
    keep(&ran, b->folder, "its season");
    if (choices > 0)
        keep(&compared, b->folder, "its choices");
    keep(&explained, b->folder, "explained");
    free(text);
}

Test(drawn, houses_are_as_kept, .init = make_light_folder, .fini = drop_folder)
{
    enum { BASES = sizeof bases / sizeof bases[0] };
    struct vh_messages *m = vh_messages_create();
    int whole_ones = 0;

    cr_assert(m && vh_parameters_read(VINEHAND_PARAMS, &params, m) == VH_OK);
    begin_words();
    for (size_t i = 0; i < BASES; i++) {
        number = (uint32_t)(1000 * i);
        ask_base(&bases[i], &whole_ones);
    }
    cr_expect(10 * whole_ones > 9 * EACH * BASES, "%d are refused", EACH * BASES - whole_ones);
    as_kept("drawn.txt");
    vh_parameters_free(params);
    vh_messages_free(m);
}
