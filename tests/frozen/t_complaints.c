/* Kept complaints: every line of the scenarios beside this file spoilt in one of some ways after
 * the other, and so the first rows of the files that they name. Of all that is said of them, with
 * file, line and column, complaints.txt keeps a digest a scenario (or file) and way. As with the
 * other kept bytes: it says that something moved, never that it is right (tests/cli/bad does). To
 * renew: t_frozen.sh --renew, or VH_RENEW=1 and this program; VH_COMPLAINTS=FILE writes all texts,
 * to compare. */
#include "kept_words.h"

enum { TEXT_MOST = KEPT_MOST, NAME_MOST = 100, EACH = 2, ROWS = 3 };

static const struct house {
    const char *name, *today;
} houses[] = {{"dark", "2026-02-25"},   {"hot", "2026-02-01"},    {"standing", "2026-07-14"},
              {"small", "2026-07-14"},  {"market", "2026-07-14"}, {"logged", "2026-04-05"},
              {"records", "2026-06-20"}};
static const char *const csvs[] = {"dark/normals.csv", "hot/outside.csv",     "hot/sizes.csv",
                                   "logged/air.csv",   "logged/light.csv",    "logged/visits.csv",
                                   "records/days.csv", "records/records.csv", "records/kept.csv"};

/* What a value becomes; NULL: what is done with the line is told by the way's number. */
static const struct way {
    const char *name, *value;
} ways[] = {{"left out", NULL},
            {"twice", NULL},
            {"half of it", NULL},
            {"another key", NULL},
            {"in a list", NULL},
            {"as above", NULL},
            {"letters turned", NULL},
            {"a word", "\"rubbish\""},
            {"below", "-1"},
            {"far above", "2e7"},
            {"naught", "0"},
            {"a bad day", "2026-02-30"},
            {"a day", "2026-07-01"},
            {"odd", "07.  # odd"},
            {"digits", "1_2.e1"},
            {"nothing", ""},
            {"a sign", "\"%d.%m %Q\""},
            {"cut", "\"open"},
            {"truth", "true"},
            {"words", "[\"mon\", 3]"}};
static const char *const cells[] = {"x", "-7", "1e9", "", "\"", "2026-02-30", "1,5", "0"};
enum { LEFT_OUT, TWICE, HALF, OTHER_KEY, LISTED, AS_ABOVE, TURNED };
enum { WAYS = sizeof ways / sizeof *ways, CELLS = sizeof cells / sizeof *cells };

static struct vh_parameters *params;

static void say(struct vh_digest *d, const struct house *h, const char *in, const char *text,
                const char *what)
{
    struct vh_messages *m = vh_messages_create();
    struct vh_run_options options = {.members = 1, .threads = 1};
    struct vh_scenario *s = NULL;

    cr_assert(m && vh_date_parse(h->today, &options.today) == VH_OK);
    const enum vh_status status =
        vh_scenario_parse(text, strlen(text), "scenario.toml", in, params, &options, &s, m);
    told(d, what, status, m);
    vh_scenario_free(s);
}

/* What the line before this one has behind its =, of *n bytes. */
static const char *above(const char *text, const char *at, size_t *n)
{
    const char *from = at > text ? at - 1 : at;

    *n = 0;
    while (from > text && from[-1] != '\n')
        from--;
    const char *equals = memchr(from, '=', (size_t)(at - from));
    if (!equals)
        return from;
    *n = strcspn(equals + 1, "\n");
    return equals + 1;
}

/* The line from `at` on, in another way, into out. */
static void spoil_line(char *out, size_t room, const char *text, const char *at, size_t n,
                       size_t way)
{
    const char *equals = memchr(at, '=', n);
    const int all = (int)n, key = equals ? (int)(equals + 1 - at) : 0;

    if (way == LEFT_OUT)
        out[0] = 0;
    else if (way == TWICE)
        snprintf(out, room, "%.*s\n%.*s\n", all, at, all, at);
    else if (way == HALF)
        snprintf(out, room, "%.*s\n", all / 2, at);
    else if (way == OTHER_KEY)
        snprintf(out, room, "%.*sx%.*s\n", 2, at, all - 2, at + 2);
    else if (way == AS_ABOVE) {
        size_t much;
        const char *value = above(text, at, &much);
        snprintf(out, room, "%.*s%.*s\n", key, at, (int)much, value);
    } else if (way == TURNED)
        snprintf(out, room, "%c%c%c%.*s\n", at[0], at[2], at[1], all - 3, at + 3);
    else if (way == LISTED)
        snprintf(out, room, "%.*s[%.*s]\n", key, at, all - key, at + key);
    else
        snprintf(out, room, "%.*s %s\n", key, at, ways[way].value);
}

static void spoil_scenario(size_t nth, const char *text)
{
    const struct house *h = &houses[nth];
    char *mine = calloc(1, TEXT_MOST), in[1300], line[2000], what[NAME_MOST];

    cr_assert(mine != NULL);
    snprintf(in, sizeof in, "%s", beside(h->name));
    for (size_t way = 0; way < WAYS; way++) {
        struct vh_digest d;
        vh_digest_init(&d);
        size_t number = nth;
        for (const char *at = text; *at; number++) {
            const size_t n = strcspn(at, "\n");
            /* each line in some of the ways, another line in others: all ways of all lines would
             * take too long; of the line above, where two may be equal, all */
            if (n > 2 && at[0] != '#' && (way == AS_ABOVE || (number + way) % (WAYS / EACH) == 0)) {
                spoil_line(line, sizeof line, text, at, n, way);
                snprintf(mine, TEXT_MOST, "%.*s%s%s", (int)(at - text), text, line,
                         at + n + (at[n] == '\n'));
                snprintf(what, sizeof what, "line %zu", number - nth + 1);
                say(&d, h, in, mine, what);
            }
            at += n + (at[n] == '\n');
        }
        keep(&d, h->name, ways[way].name);
    }
    free(mine);
}

/* Cell c of row r another one; behind the last one there is one more. false: there is no such cell.
 */
static bool spoil_cell(char *out, const char *text, size_t row, size_t cell, const char *with,
                       const char *between)
{
    const char *at = text;

    for (; row > 0 && *at; row--)
        at += strcspn(at, "\n") + 1;
    for (; cell > 0 && *at; cell--) {
        at += strcspn(at, between);
        if (*at != between[0])
            return false;
        at++;
    }
    if (!*at)
        return false;
    snprintf(out, TEXT_MOST, "%.*s%s%s", (int)(at - text), text, with, at + strcspn(at, between));
    return true;
}

static void spoil_csv(const char *name)
{
    char house_name[NAME_MOST], in[1300], path[2700], what[NAME_MOST];
    const struct house *h = houses;

    snprintf(house_name, sizeof house_name, "%.*s", (int)strcspn(name, "/"), name);
    while (strcmp(h->name, house_name) != 0)
        h++;
    snprintf(path, sizeof path, "cp %s/*.csv %s", beside(h->name), folder);
    cr_assert(system(path) == 0);
    snprintf(house_name, sizeof house_name, "%s/scenario.toml", h->name);
    size_t n;
    char *scenario = whole(beside(house_name), &n), *text = whole(beside(name), &n),
         *mine = calloc(1, TEXT_MOST);
    const char *between =
        strchr(text, ';') && strchr(text, ';') < strchr(text, '\n') ? ";\n" : ",\n";
    snprintf(in, sizeof in, "%s", folder);
    for (size_t k = 0; k < CELLS; k++) {
        struct vh_digest d;
        vh_digest_init(&d);
        for (size_t row = 0; row < ROWS; row++)
            for (size_t cell = 0; spoil_cell(mine, text, row, cell, cells[k], between); cell++) {
                put(strchr(name, '/') + 1, mine);
                snprintf(what, sizeof what, "row %zu, cell %zu", row, cell);
                say(&d, h, in, scenario, what);
            }
        keep(&d, name, cells[k][0] ? cells[k] : "nothing");
    }
    free(scenario);
    free(text);
    free(mine);
}

Test(complaints, of_all_that_can_be_spoilt_are_as_kept, .init = make_light_folder,
     .fini = drop_folder)
{
    struct vh_messages *m = vh_messages_create();
    size_t n;

    begin_words();
    cr_assert(m && vh_parameters_read(VINEHAND_PARAMS, &params, m) == VH_OK);
    for (size_t i = 0; i < sizeof houses / sizeof *houses; i++) {
        snprintf(now + strlen(now), sizeof now - strlen(now), "# %s\n", houses[i].name);
        char name[NAME_MOST];
        snprintf(name, sizeof name, "%s/scenario.toml", houses[i].name);
        char *text = whole(beside(name), &n);
        spoil_scenario(i, text);
        free(text);
    }
    for (size_t i = 0; i < sizeof csvs / sizeof *csvs; i++)
        spoil_csv(csvs[i]);
    vh_parameters_free(params);
    vh_messages_free(m);
    as_kept("complaints.txt");
}
