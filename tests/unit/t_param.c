/* The strict reader of parameter rows and sources. Truth: the header's list of what is refused. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "temp_folder.h"
#include "three_fields.h"
#include "vh_digest.h"
#include "vh_param.h"

#define RATE "truss.rate,0.15,truss d-1,0.1,0.2,published,a2000,table 1,\n"

static struct vh_sources *known_sources(void)
{
    struct vh_sources *s = NULL;
    const char *path = put("sources.csv", SOURCES
                           "a2000,A,2000,T,J,,whole\nb-2_1,\"B, C\",2001,T,,,quoted by a2000\n");
    cr_assert(eq(int, (int)vh_sources_read(path, NULL, &s, NULL), VH_OK));
    return s;
}

/* "x.csv:3: text" of message i, the folder left away. */
static char *shown(const struct vh_messages *m, size_t i)
{
    static char text[700];
    const struct vh_message *one = vh_messages_at(m, i);
    const char *file = one->file != NULL ? one->file : "";
    const size_t n = strlen(folder);
    if (strncmp(file, folder, n) == 0)
        file += n + (file[n] == '/');
    snprintf(text, sizeof text, "%s:%lld: %s", file, (long long)one->line, one->text);
    return text;
}

/* Reads x.csv with this text; exactly one message. */
static void expect_error(const char *text, const char *message)
{
    put("x.csv", text);
    struct vh_sources *s = known_sources();
    struct vh_messages *m = vh_messages_create();
    struct target t = {-1.0, -1.0, -1};
    struct vh_param_set set = {NULL, 0};
    cr_expect(eq(int, (int)vh_param_read(folder, "x", fields, FIELDS, s, NULL, &t, &set, m),
                 VH_BAD_INPUT),
              "%s", message);
    cr_assert(eq(sz, vh_messages_count(m), 1), "%s", message);
    cr_expect(eq(str, shown(m, 0), (char *)(uintptr_t)message));
    cr_expect(set.row == NULL && t.by == -1, "left alone");
    vh_messages_free(m);
    vh_sources_free(s);
}

#define WITH_FOLDER .init = make_folder, .fini = drop_folder

Test(param, good_rows_fill_the_struct, WITH_FOLDER)
{
    put("x.csv", HEADER RATE MASS BY);
    struct vh_sources *s = known_sources();
    struct target t = {0};
    struct vh_param_set set = {NULL, 0};
    struct vh_messages *m = vh_messages_create();
    cr_assert(
        eq(int, (int)vh_param_read(folder, "x", fields, FIELDS, s, NULL, &t, &set, m), VH_OK));
    cr_expect(eq(sz, vh_messages_count(m), 0));
    cr_expect(epsilon_eq(dbl, t.rate_per_d, 0.15, 0.0));
    cr_expect(epsilon_eq(dbl, t.mass_g, 100.0, 0.0));
    cr_expect(eq(int, t.by, 1));
    cr_assert(eq(sz, set.rows, 3));
    const struct vh_param_row *row = vh_param_find(&set, "truss.rate");
    cr_expect(row->line == 2 && strcmp(row->source, "a2000") == 0);
    cr_expect(strcmp(row->place, "table 1") == 0 && strcmp(row->note, "") == 0);
    cr_expect(epsilon_eq(dbl, row->low, 0.1, 0.0));
    cr_expect(epsilon_eq(dbl, row->high, 0.2, 0.0));
    cr_expect(isnan(vh_param_find(&set, "pick.by")->low));
    cr_expect(vh_param_find(&set, "nothing") == NULL);
    vh_param_set_clear(&set);
    cr_expect(set.row == NULL && set.rows == 0);
    vh_messages_free(m);
    vh_sources_free(s);
}

Test(param, columns_may_stand_in_another_order, WITH_FOLDER)
{
    put("x.csv", "note,place,source,basis,high,low,unit,value,name\n"
                 ",,,assumed,0.2,0.1,truss d-1,0.15,truss.rate\n"
                 ",,,assumed,150,50,g,100,fruit.mass\n,,,assumed,,,1,stage,pick.by\n");
    struct target t = {0};
    struct vh_param_set set = {NULL, 0};
    cr_assert(eq(int, (int)vh_param_read(folder, "x", fields, FIELDS, NULL, NULL, &t, &set, NULL),
                 VH_OK));
    cr_expect(epsilon_eq(dbl, t.rate_per_d, 0.15, 0.0));
    vh_param_set_clear(&set);
}

Test(param, a_base_holds_unless_a_row_is_given_again, WITH_FOLDER)
{
    put("three.csv", HEADER RATE MASS BY);
    put("two.csv", HEADER "base,three,1,,,assumed,,,\nfruit.mass,110,g,50,150,assumed,,,\n");
    put("one.csv", HEADER "base,two,1,,,assumed,,,\nfruit.mass,120,g,50,150,assumed,,,\n");
    put("x.csv", HEADER "base,one,1,,,assumed,,,\npick.by,stage,1,,,assumed,,,\n");
    struct vh_sources *s = known_sources();
    struct target t = {0};
    struct vh_param_set set = {NULL, 0};
    struct vh_digest digest;
    vh_digest_init(&digest);
    cr_assert(eq(int, (int)vh_param_read(folder, "x", fields, FIELDS, s, &digest, &t, &set, NULL),
                 VH_OK));
    cr_expect(epsilon_eq(dbl, t.rate_per_d, 0.15, 0.0));
    cr_expect(epsilon_eq(dbl, t.mass_g, 120.0, 0.0));
    cr_expect(eq(int, t.by, 0));
    cr_expect(eq(sz, set.rows, 3));
    cr_expect(strcmp(set.row[1].name, "fruit.mass") == 0 && set.row[1].line == 3);
    cr_expect(strstr(set.row[1].file, "one.csv") != NULL, "the file that gave the row");
    cr_expect(lt(u64, 300, digest.bytes), "all four files");
    vh_param_set_clear(&set);
    vh_sources_free(s);
}

Test(param, chains_of_bases_end, WITH_FOLDER)
{
    expect_error(
        HEADER "base,x,1,,,assumed,,,\n",
        "x.csv:2: base x would be the fifth file of a chain, at most 4 are read; do the bases "
        "go round in a circle?");
    expect_error(HEADER RATE "base,one,1,,,assumed,,,\n" MASS BY,
                 "x.csv:3: base is not the first row; put it first");
    expect_error(HEADER "base,none,1,,,assumed,,,\n" MASS,
                 "none.csv:0: there is no such file; mend the name or put the file there");
}

Test(param, names_that_lead_out_of_the_folder_are_refused, WITH_FOLDER)
{
    const char *const bad[] = {"../x", "a/b", "", "x.csv", "-x", "x y", "/etc/passwd"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        struct vh_messages *m = vh_messages_create();
        struct target t = {0};
        struct vh_param_set set = {NULL, 0};
        cr_expect(eq(int,
                     (int)vh_param_read(folder, bad[i], fields, FIELDS, NULL, NULL, &t, &set, m),
                     VH_BAD_INPUT));
        char expected[200];
        snprintf(
            expected, sizeof expected,
            ":0: \"%s\" is no name of a parameter file; letters, digits, _ and - would be right",
            bad[i]);
        cr_expect(eq(str, shown(m, 0), expected));
        vh_messages_free(m);
    }
    expect_error(HEADER "base,../one,1,,,assumed,,,\n" MASS,
                 ":0: \"../one\" is no name of a parameter file; letters, digits, _ and - would be "
                 "right");
}

Test(param, unknown_missing_and_doubled_names_are_refused, WITH_FOLDER)
{
    expect_error(HEADER RATE MASS BY "fruit.mas,100,g,50,150,assumed,,,\n",
                 "x.csv:5: unknown parameter fruit.mas; did you mean fruit.mass");
    expect_error(HEADER RATE MASS BY "elephant,100,g,50,150,assumed,,,\n",
                 "x.csv:5: unknown parameter elephant; take the row out");
    expect_error(HEADER RATE BY, "x.csv:0: no row for fruit.mass (usual fruit; unit g); add one");
    expect_error(HEADER RATE MASS BY MASS,
                 "x.csv:5: fruit.mass stands twice, first on line 3; keep one");
    expect_error(HEADER RATE MASS BY ",100,g,50,150,assumed,,,\n",
                 "x.csv:5: a row without a name; name its parameter");
    expect_error(HEADER,
                 "x.csv:0: the file has no rows below its header; give one row a parameter");
    expect_error("", "x.csv:0: the file is empty; the first line must name the columns");
}

Test(param, other_columns_are_refused, WITH_FOLDER)
{
    expect_error("name,value,unit,low,high,basis,source,place,note,extra\n",
                 "x.csv:1: unknown column \"extra\"; the columns are "
                 "name,value,unit,low,high,basis,source,place,note");
    expect_error("name,value,unit,low,high,basis,source,place\n",
                 "x.csv:1: column note is missing; the columns are "
                 "name,value,unit,low,high,basis,source,place,note");
    expect_error("name,value,unit,low,high,basis,source,place,note,note\n",
                 "x.csv:1: column note stands twice; keep one");
    expect_error(
        HEADER RATE MASS "pick.by,mass,1\n",
        "x.csv:4: this row has 3 cells, the header has 9 (separator: comma); give every row "
        "as many cells as the header");
}

Test(param, wrong_values_units_and_ranges_are_refused, WITH_FOLDER)
{
    expect_error(HEADER RATE BY "fruit.mass,100,kg,50,150,assumed,,,\n",
                 "x.csv:4: fruit.mass has the unit \"kg\"; \"g\" would be right");
    expect_error(HEADER RATE BY "fruit.mass,100g,g,50,150,assumed,,,\n",
                 "x.csv:4: fruit.mass is \"100g\"; a number would be right");
    expect_error(HEADER RATE BY "fruit.mass,,g,50,150,assumed,,,\n",
                 "x.csv:4: fruit.mass is \"\"; a number would be right");
    expect_error(HEADER RATE BY "fruit.mass,\"1,5\",g,1,2,assumed,,,\n",
                 "x.csv:4: fruit.mass is \"1,5\"; a number would be right");
    expect_error(HEADER RATE BY "fruit.mass,151,g,50,150,assumed,,,\n",
                 "x.csv:4: fruit.mass is 151, above its high 150; 150 or less would be right");
    expect_error(HEADER RATE BY "fruit.mass,49,g,50,150,assumed,,,\n",
                 "x.csv:4: fruit.mass is 49, below its low 50; 50 or more would be right");
    expect_error(HEADER RATE BY "fruit.mass,100,g,150,50,assumed,,,\n",
                 "x.csv:4: fruit.mass has low 150 above high 50; change them over");
    expect_error(HEADER RATE MASS BY "fruit.mas,1,g,x,,assumed,,,\n",
                 "x.csv:5: low of fruit.mas is \"x\"; a number or nothing would be right");
    expect_error(HEADER RATE MASS "pick.by,each,1,,,assumed,,,\n",
                 "x.csv:4: pick.by is \"each\"; one of stage|mass would be right");
    expect_error(HEADER RATE MASS "pick.by,stage|mass,1,,,assumed,,,\n",
                 "x.csv:4: pick.by is \"stage|mass\"; one of stage|mass would be right");
    expect_error(HEADER RATE MASS "pick.by,mass,1,0,,assumed,,,\n",
                 "x.csv:4: pick.by is a choice and has no low or high; leave them empty");
    expect_error(HEADER RATE MASS "pick.by,mass,1,,2,assumed,,,\n",
                 "x.csv:4: pick.by is a choice and has no low or high; leave them empty");
    expect_error("name,value,,low,high,basis,source,place,note\n" RATE MASS BY,
                 "x.csv:1: unknown column \"\"; the columns are "
                 "name,value,unit,low,high,basis,source,place,note");
}

Test(param, wrong_bases_and_sources_are_refused, WITH_FOLDER)
{
    expect_error(
        HEADER RATE BY "fruit.mass,100,g,50,150,guessed,,,\n",
        "x.csv:4: fruit.mass has the basis \"guessed\"; published, derived, fitted, assumed, "
        "common practice or from memory would be right");
    expect_error(HEADER RATE BY "fruit.mass,100,g,50,150,published,,,\n",
                 "x.csv:4: fruit.mass is published but names no source; give its key");
    expect_error(HEADER RATE BY "fruit.mass,100,g,50,150,derived, ,,\n",
                 "x.csv:4: fruit.mass is derived but names no source; give its key");
    expect_error(
        HEADER RATE BY "fruit.mass,100,g,50,150,assumed,c1999,,\n",
        "x.csv:4: fruit.mass names the source c1999, which sources.csv does not have; add it "
        "there or mend the key");
    expect_error(
        HEADER RATE BY "fruit.mass,100,g,50,150,derived,a2000;c1999,,\n",
        "x.csv:4: fruit.mass names the source c1999, which sources.csv does not have; add it "
        "there or mend the key");
    char row[300], message[300], longest[VH_SOURCE_KEY_ROOM + 10]; /* a key that no file can have */
    memset(longest, 'a', sizeof longest);
    longest[sizeof longest - 1] = '\0';
    snprintf(row, sizeof row, HEADER RATE BY "fruit.mass,100,g,50,150,derived,%s,,\n", longest);
    longest[VH_SOURCE_KEY_ROOM - 1] = '\0';
    snprintf(message, sizeof message,
             "x.csv:4: fruit.mass names the source %s, which sources.csv does not have; add it "
             "there or mend the key",
             longest);
    expect_error(row, message);
}

Test(param, all_troubles_of_a_file_are_told_at_once, WITH_FOLDER)
{
    put("x.csv", HEADER "fruit.mass,100,kg,50,150,guessed,,,\nfruit.mass,1,g,,,assumed,,,\n"
                        "truss.rate,x,truss d-1,y,z,assumed,,,\n");
    struct vh_messages *m = vh_messages_create();
    struct target t = {0};
    struct vh_param_set set = {NULL, 0};
    cr_expect(eq(int, (int)vh_param_read(folder, "x", fields, FIELDS, NULL, NULL, &t, &set, m),
                 VH_BAD_INPUT));
    cr_expect(eq(sz, vh_messages_count(m), 3), "the doubled row and both bounds");
    put("x.csv", HEADER "fruit.mass,100,kg,50,150,guessed,,,\ntruss.rate,x,1,,,assumed,,,\n");
    cr_expect(eq(int, (int)vh_param_read(folder, "x", fields, FIELDS, NULL, NULL, &t, &set, m),
                 VH_BAD_INPUT));
    cr_expect(eq(sz, vh_messages_count(m), 3 + 5), "two units, a basis, a value, a missing row");
    vh_messages_free(m);
}

Test(param, a_scenario_replaces_a_row_within_its_range, WITH_FOLDER)
{
    put("x.csv", HEADER RATE MASS BY);
    struct target t = {0};
    struct vh_param_set set = {NULL, 0};
    struct vh_messages *m = vh_messages_create();
    const struct vh_place where = {"scenario.toml", 7, 9, NULL};
    cr_assert(eq(int, (int)vh_param_read(folder, "x", fields, FIELDS, NULL, NULL, &t, &set, NULL),
                 VH_OK));
    cr_expect(eq(int,
                 (int)vh_param_replace(fields, FIELDS, &set, "fruit.mass", 149.9, where, &t, m),
                 VH_OK));
    cr_expect(epsilon_eq(dbl, t.mass_g, 149.9, 0.0));
    const struct vh_param_row *row = vh_param_find(&set, "fruit.mass");
    cr_expect(strcmp(row->file, "scenario.toml") == 0 && row->line == 7);
    cr_expect(eq(str, row->value_text, (char *)"149.9"));
    cr_expect(eq(str, row->basis, (char *)"assumed"));
    cr_expect(epsilon_eq(dbl, row->value, 149.9, 0.0));

    /* the text says the number itself, where 15 digits would say another one */
    const double beside = nextafter(149.9, 0.0);
    cr_expect(eq(int,
                 (int)vh_param_replace(fields, FIELDS, &set, "fruit.mass", beside, where, &t, m),
                 VH_OK));
    row = vh_param_find(&set, "fruit.mass");
    cr_expect(strlen(row->value_text) > 15 && strtod(row->value_text, NULL) == beside, "%s",
              row->value_text);
    vh_param_replace(fields, FIELDS, &set, "fruit.mass", 149.9, where, &t, m);

    cr_expect(
        eq(int, (int)vh_param_replace(fields, FIELDS, &set, "pick.by", 0.0, where, &t, m), VH_OK));
    cr_expect(eq(int, t.by, 0));
    cr_expect(eq(str, vh_param_find(&set, "pick.by")->value_text, (char *)"stage"));
    cr_expect(eq(sz, vh_messages_count(m), 0));

    const struct {
        const char *name;
        double value;
        const char *message;
    } bad[] = {
        {"fruit.mass", 151.0, "scenario.toml:7: fruit.mass is 151; 50 to 150 would be right"},
        {"fruit.mass", 49.0, "scenario.toml:7: fruit.mass is 49; 50 to 150 would be right"},
        {"fruit.mass", NAN, "scenario.toml:7: fruit.mass is nan; 50 to 150 would be right"},
        {"fruit.mas", 100.0,
         "scenario.toml:7: unknown parameter fruit.mas; did you mean fruit.mass"},
        {"pick.by", 7.0,
         "scenario.toml:7: pick.by is a choice; the place of one of stage|mass, from 0, would be "
         "right"},
        {"leaf.area", 1.0, "scenario.toml:7: unknown parameter leaf.area; take the row out"},
        {"pick.by", 2.0,
         "scenario.toml:7: pick.by is a choice; the place of one of stage|mass, from 0, would be "
         "right"},
        {"pick.by", 0.5,
         "scenario.toml:7: pick.by is a choice; the place of one of stage|mass, from 0, would be "
         "right"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        cr_expect(
            eq(int,
               (int)vh_param_replace(fields, FIELDS, &set, bad[i].name, bad[i].value, where, &t, m),
               VH_BAD_INPUT));
        cr_assert(eq(sz, vh_messages_count(m), i + 1));
        cr_expect(eq(str, shown(m, i), (char *)(uintptr_t)bad[i].message));
    }
    cr_expect(epsilon_eq(dbl, t.mass_g, 149.9, 0.0), "left alone");
    vh_param_set_clear(&set);
    vh_messages_free(m);
}

static void expect_bad_source(const char *text, const char *message)
{
    struct vh_sources *s = NULL;
    struct vh_messages *m = vh_messages_create();
    const char *path = put("sources.csv", text);
    cr_expect(eq(int, (int)vh_sources_read(path, NULL, &s, m), VH_BAD_INPUT), "%s", message);
    cr_expect(s == NULL);
    cr_assert(eq(sz, vh_messages_count(m), 1), "%s", message);
    cr_expect(eq(str, shown(m, 0), (char *)(uintptr_t)message));
    vh_messages_free(m);
}

Test(param, a_source_keeps_all_its_cells, WITH_FOLDER)
{
    struct vh_sources *s = NULL;
    const char *path =
        put("sources.csv", SOURCES "a2000,\"A B, C D\",2000,On fruit,Annals 1:2,10.1/x,abstract\n"
                                   "b2001,E,2001,\"Leaves, too\",,,whole\n");
    cr_assert(eq(int, (int)vh_sources_read(path, NULL, &s, NULL), VH_OK));
    cr_assert(eq(sz, vh_sources_count(s), 2));
    const struct vh_source *a = vh_sources_find(s, "a2000"), *b = vh_sources_at(s, 1);
    cr_assert(a != NULL);
    cr_expect(eq(str, a->authors, "A B, C D"));
    cr_expect(eq(str, a->year, "2000"));
    cr_expect(eq(str, a->title, "On fruit"));
    cr_expect(eq(str, a->journal, "Annals 1:2"));
    cr_expect(eq(str, a->doi, "10.1/x"));
    cr_expect(eq(str, a->read, "abstract"));
    cr_expect(eq(str, b->key, "b2001"));
    cr_expect(eq(str, b->title, "Leaves, too"));
    cr_expect(eq(str, b->doi, ""));
    cr_expect(eq(int, (int)b->line, 3));
    vh_sources_free(s);
}

Test(param, a_cell_of_source_keys_gives_one_after_the_other)
{
    const char *at = " ; tap2000; adams2001  b ;";
    char key[VH_SOURCE_KEY_ROOM];
    static const char *const expected[] = {"tap2000", "adams2001", "b", "", ""};
    for (size_t i = 0; i < sizeof expected / sizeof expected[0]; i++) {
        cr_expect(vh_source_key_next(&at, key));
        cr_expect(eq(str, key, (char *)(uintptr_t)expected[i]));
    }
    char longest[2 * VH_SOURCE_KEY_ROOM];
    memset(longest, 'a', sizeof longest);
    longest[sizeof longest - 1] = '\0';
    at = longest;
    cr_expect(not(vh_source_key_next(&at, key)));
    cr_expect(eq(sz, strlen(key), VH_SOURCE_KEY_ROOM - 1));
}

Test(param, sources_are_read_strictly, WITH_FOLDER)
{
    struct vh_sources *s = known_sources();
    cr_expect(vh_sources_find(s, "a2000") != NULL);
    cr_expect(vh_sources_find(s, "b-2_1") != NULL);
    cr_expect(vh_sources_find(s, "A2000") == NULL);
    vh_sources_free(s);
    vh_sources_free(NULL);
    expect_bad_source(SOURCES "a2000,A,2000,T,J,,whole\na2000,A,2000,T,J,,whole\n",
                      "sources.csv:3: source a2000 stands twice, first on line 2; keep one");
    expect_bad_source(
        SOURCES "A 2,A,2000,T,J,,whole\n",
        "sources.csv:2: \"A 2\" is no key of a source; small letters, digits, _ and - "
        "would be right");
    expect_bad_source(
        SOURCES ",A,2000,T,J,,whole\n",
        "sources.csv:2: \"\" is no key of a source; small letters, digits, _ and - would be right");
    expect_bad_source(SOURCES "a2000,,2000,T,J,,whole\n",
                      "sources.csv:2: source a2000 lacks its authors or title; fill them in");
    expect_bad_source(
        SOURCES "a2000,A,20x0,T,J,,whole\n",
        "sources.csv:2: source a2000 has the year \"20x0\"; four digits, or undated, would be "
        "right");
    expect_bad_source(SOURCES "a2000,A,2000,,J,,whole\n",
                      "sources.csv:2: source a2000 lacks its authors or title; fill them in");
    expect_bad_source(
        SOURCES "a2000,A,20000,T,J,,whole\n",
        "sources.csv:2: source a2000 has the year \"20000\"; four digits, or undated, would"
        " be right");
    expect_bad_source(
        SOURCES "a2000,A,2000,T,J,,\n",
        "sources.csv:2: source a2000 does not say what was read of it; whole, abstract, "
        "or quoted by which source");
    expect_bad_source("key,authors\n", "sources.csv:1: the columns of a list of sources are "
                                       "key,authors,year,title,journal,doi,read");
}
