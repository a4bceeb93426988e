/* The writers: CSV, JSON, text, and folders that swap. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <fcntl.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "vh_csv_out.h"
#include "vh_folder_files.h"
#include "vh_json_out.h"
#include "vh_safe_folder.h"
#include "vh_table.h"

/* Is the draft this text? Frees it. */
static bool holds(struct vh_draft *draft, const char *text)
{
    const bool same =
        draft->n == strlen(text) && (draft->n == 0 || memcmp(draft->bytes, text, draft->n) == 0);

    if (!same)
        fprintf(stderr, "is:     %.*s\nshould: %s\n", (int)draft->n,
                draft->bytes ? draft->bytes : "", text);
    vh_draft_clear(draft);
    return same;
}

static bool number_is(double value, const char *text)
{
    struct vh_draft d = {0};

    vh_draft_add_number(&d, value);
    return holds(&d, text);
}

Test(writers, numbers_have_six_digits_a_point_and_no_minus_zero)
{
    cr_expect(number_is(0.1 + 0.2, "0.3"));
    cr_expect(number_is(1234567.0, "1.23457e+06"));
    cr_expect(number_is(-0.0, "0"));
    cr_expect(number_is(-2.5, "-2.5"));
    cr_expect(number_is((double)NAN, ""));
    cr_expect(number_is((double)INFINITY, ""));
    cr_expect(number_is(0.000012345678, "1.23457e-05"));
}

Test(writers, whole_numbers_keep_all_digits)
{
    struct vh_draft d = {0};

    vh_draft_add_whole(&d, 1234567.0);
    vh_draft_add(&d, " ");
    vh_draft_add_whole(&d, -0.4);
    vh_draft_add(&d, " ");
    vh_draft_add_whole(&d, (double)NAN);
    cr_expect(holds(&d, "1234567 0 "));
}

/* As printf has it, which the writers go without for speed. */
static bool is_as_printf(double value)
{
    char all[1400];
    struct vh_draft d = {0};
    const double cents = round(value * 100.0) / 100.0 + 0.0;
    const double tenths = fabs(value) >= 1e14 ? round(value) : round(value * 10.0) / 10.0;
    const int n =
        snprintf(all, sizeof all, "%.6g %.2f %.0f ", value + 0.0, cents, round(value) + 0.0);

    snprintf(all + n, sizeof all - (size_t)n,
             fmod(tenths, 1.0) == 0.0 || fabs(value) >= 1e14 ? "%.0f" : "%.1f", tenths + 0.0);
    vh_draft_add_number(&d, value);
    vh_draft_add(&d, " ");
    vh_draft_add_money(&d, value);
    vh_draft_add(&d, " ");
    vh_draft_add_whole(&d, value);
    vh_draft_add(&d, " ");
    vh_draft_add_place(&d, value);
    return holds(&d, all);
}

Test(writers, numbers_are_those_of_printf_middles_and_powers_of_ten_too)
{
    uint64_t state = 1;

    for (int i = 0; i < 20000; i++) {
        state = state * 6364136223846793005u + 1442695040888963407u; /* Knuth's MMIX */
        const double power = pow(10.0, (double)(i % 24) - 7.0);
        const double any = ((double)(state >> 11) / 9007199254740992.0 - 0.5) * 20.0 * power;
        const double middle = ((double)(state >> 44) + 0.5) / 1e5 * power;
        cr_assert(is_as_printf(any) && is_as_printf(middle) && is_as_printf(-middle));
        cr_assert(is_as_printf(power) && is_as_printf(nextafter(power, 0.0)) &&
                  is_as_printf(nextafter(power, 1e30)));
    }
}

static bool cell_is(const char *text, const char *cell)
{
    struct vh_draft d = {0};

    vh_csv_out_text(&d, text);
    return holds(&d, cell);
}

/* Quoting: RFC 4180 section 2, rules 5 to 7. */
Test(writers, csv_text_is_quoted_where_rfc_4180_asks)
{
    cr_expect(cell_is("plain words", "plain words"));
    cr_expect(cell_is("", ""));
    cr_expect(cell_is("a,b", "\"a,b\""));
    cr_expect(cell_is("say \"so\"", "\"say \"\"so\"\"\""));
    cr_expect(cell_is("two\nlines", "\"two\nlines\""));
    cr_expect(cell_is(" end ", "\" end \""));
    cr_expect(cell_is("2;5", "2;5"));
}

Test(writers, csv_text_is_never_a_formula)
{
    cr_expect(cell_is("=1+1", "'=1+1"));
    cr_expect(cell_is("+1", "'+1"));
    cr_expect(cell_is("-1", "'-1"));
    cr_expect(cell_is("@x", "'@x"));
    cr_expect(cell_is("\tx", "\"'\tx\""));
    cr_expect(cell_is("=a,\"b\"", "\"'=a,\"\"b\"\"\""));
    cr_expect(cell_is("1=1", "1=1"));
}

Test(writers, a_table_is_a_header_and_its_rows)
{
    static const struct vh_column columns[] = {{"date", VH_CELL_DATE, "", "day"},
                                               {"what", VH_CELL_TEXT, "", "text"},
                                               {"count", VH_CELL_INTEGER, "1", "pieces"},
                                               {"kg", VH_CELL_NUMBER, "kg", "mass"}};
    struct vh_table *t = vh_table_create("x", "a row", true, columns, 4);
    struct vh_draft d = {0};

    cr_assert(t != NULL);
    cr_assert(vh_table_add_row(t) == VH_OK && vh_table_add_row(t) == VH_OK);
    vh_table_set_number(t, 0, 0.0);
    cr_assert(vh_table_set_text(t, 1, "a,b") == VH_OK);
    vh_table_set_number(t, 2, 1234567.0);
    vh_table_set_number(t, 3, 2.5);
    vh_csv_out_table(&d, t);
    vh_table_free(t);
    cr_expect(holds(&d, "date,what,count,kg\n,,,\n1970-01-01,\"a,b\",1234567,2.5\n"));
}

/* A millionth of a kilogram is nothing to a grower; the error of an account is told as it is. */
Test(writers, a_number_too_small_to_be_seen_is_nothing)
{
    static const struct vh_column columns[] = {{"kg", VH_CELL_NUMBER, "kg", "mass"},
                                               {"balance", VH_CELL_ERROR, "1", "off"}};
    static const double kg[] = {1.04847e-09, -4.89595e-22, 2e-6};
    struct vh_table *t = vh_table_create("x", "a row", true, columns, 2);
    struct vh_draft d = {0};

    cr_assert(t != NULL);
    for (int i = 0; i < 3; i++) {
        cr_assert(vh_table_add_row(t) == VH_OK);
        vh_table_set_number(t, 0, kg[i]);
        vh_table_set_number(t, 1, 3e-16);
    }
    vh_csv_out_table(&d, t);
    vh_table_free(t);
    cr_expect(holds(&d, "kg,balance\n0,3e-16\n0,3e-16\n2e-06,3e-16\n"));
}

/* RFC 8259 section 7; U+FFFD for what is no UTF-8. */
Test(writers, json_text_is_escaped_and_always_utf_8)
{
    struct vh_draft d = {0};
    struct vh_json j = {.out = &d};

    vh_json_open(&j, NULL, '[');
    vh_json_text(&j, NULL, "q\" b\\ n\n t\x01 d\x7f");
    vh_json_text(&j, NULL, "\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x8D\x85");
    vh_json_text(&j, NULL, "\xC0\x80 \xED\xA0\x80 \xE2\x82");
    vh_json_close(&j, ']');
    cr_expect(holds(&d, "[\n  \"q\\\" b\\\\ n\\u000a t\\u0001 d\\u007f\",\n"
                        "  \"\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x8D\x85\",\n"
                        "  \"\\ufffd\\ufffd \\ufffd\\ufffd\\ufffd \\ufffd\\ufffd\"\n]\n"));
}

Test(writers, json_says_null_for_the_unknown_and_closes_the_empty)
{
    struct vh_draft d = {0};
    struct vh_json j = {.out = &d};

    vh_json_open(&j, NULL, '{');
    vh_json_whole(&j, "a", (double)NAN);
    vh_json_open(&j, "b", '[');
    vh_json_close(&j, ']');
    vh_json_digits(&j, "c", "18446744073709551615");
    vh_json_close(&j, '}');
    cr_expect(holds(&d, "{\n  \"a\": null,\n  \"b\": [],\n  \"c\": 18446744073709551615\n}\n"));
}

/* ---- folders ---- */

static const char our_run[] = "{\n  \"program\": \"vinehand\",\n  \"files\": [\n    {\n"
                              "      \"path\": \"old.csv\",\n      \"bytes\": 1\n    }\n  ]\n}\n";

static void put(const char *path, const char *text)
{
    FILE *f = fopen(path, "wb");

    cr_assert(f != NULL);
    cr_assert(fwrite(text, 1, strlen(text), f) == strlen(text) && fclose(f) == 0);
}

static bool text_is(const char *path, const char *text)
{
    char got[4096];
    FILE *f = fopen(path, "rb");

    if (!f)
        return false;
    const size_t n = fread(got, 1, sizeof got, f);
    fclose(f);
    return n == strlen(text) && memcmp(got, text, n) == 0;
}

/* An own folder to work in; every test is its own process. */
static void go_somewhere_new(char place[32])
{
    strcpy(place, "/tmp/vh-test-XXXXXX");
    cr_assert(mkdtemp(place) != NULL && chdir(place) == 0);
}

static void swap_and_look(bool in_steps)
{
    struct vh_safe_folder *f = NULL;
    char why[VH_WHY] = "", place[32], command[64];

    go_somewhere_new(place);
    cr_assert(mkdir("out", 0755) == 0);
    put("out/run.json", our_run);
    put("out/old.csv", "old");
    put("out/mine.txt", "mine");
    cr_assert(vh_safe_folder_open("out", &f, why) == VH_OK, "%s", why);
    cr_assert(vh_safe_folder_add(f, "new.csv", "new", 3, why) == VH_OK, "%s", why);
    cr_expect(text_is("out/old.csv", "old"), "before the swap all is as it was");
    cr_expect(access("out/new.csv", F_OK) != 0);
    if (in_steps)
        cr_assert(vh_safe_folder_commit_in_steps(f, why) == VH_OK, "%s", why);
    else
        cr_assert(vh_safe_folder_commit(f, why) == VH_OK, "%s", why);
    vh_safe_folder_free(f);
    cr_expect(text_is("out/new.csv", "new"));
    cr_expect(text_is("out/mine.txt", "mine"), "what is not ours is carried over");
    cr_expect(access("out/old.csv", F_OK) != 0, "what was ours is gone");
    cr_expect(system("test \"$(ls -A)\" = out") == 0, "nothing is left beside it");
    snprintf(command, sizeof command, "rm -rf %s", place);
    cr_expect(system(command) == 0);
}

Test(writers, a_new_set_takes_the_old_ones_place_in_one_step)
{
    swap_and_look(false);
}

Test(writers, a_new_set_takes_the_old_ones_place_in_two_steps)
{
    swap_and_look(true);
}

/* "0.csv" and on, each holding its own name, until one fails; then the set takes its place. */
static enum vh_status set_of_files(int files, char why[VH_WHY])
{
    struct vh_safe_folder *f = NULL;
    enum vh_status status = vh_safe_folder_open("out", &f, why);

    for (int i = 0; i < files && status == VH_OK; i++) {
        char name[16];
        snprintf(name, sizeof name, "%d.csv", i);
        status = vh_safe_folder_add(f, name, name, strlen(name), why);
    }
    if (status == VH_OK)
        status = vh_safe_folder_commit(f, why);
    vh_safe_folder_free(f);
    return status;
}

static void look_at_files(int files, const char *place)
{
    char command[64];

    for (int i = 0; i < files; i++) {
        char name[16], path[24];
        snprintf(name, sizeof name, "%d.csv", i);
        snprintf(path, sizeof path, "out/%s", name);
        cr_expect(text_is(path, name), "%s", path);
    }
    snprintf(command, sizeof command, "rm -rf %s", place);
    cr_expect(system(command) == 0);
}

/* More files than are held open at a time; some stay open until the set is on the disk. */
Test(writers, a_set_of_many_files_is_whole)
{
    enum { FILES = 2 * VH_FOLDER_FILES_MOST + 1 };
    char why[VH_WHY] = "", place[32];

    go_somewhere_new(place);
    cr_assert(set_of_files(FILES, why) == VH_OK, "%s", why);
    look_at_files(FILES, place);
}

/* Where few files may be open at a time, fewer wait for the disk. */
Test(writers, a_set_is_whole_where_few_files_may_be_open)
{
    enum { FILES = 20, MAY_OPEN = 8 };
    char why[VH_WHY] = "", place[32];
    struct rlimit usual, few;

    go_somewhere_new(place);
    const int next = dup(STDERR_FILENO); /* the lowest number that is free */
    cr_assert(next >= 0 && close(next) == 0 && getrlimit(RLIMIT_NOFILE, &usual) == 0);
    few = usual;
    few.rlim_cur = (rlim_t)next + MAY_OPEN;
    cr_assert(setrlimit(RLIMIT_NOFILE, &few) == 0);
    const enum vh_status status = set_of_files(FILES, why);
    cr_assert(setrlimit(RLIMIT_NOFILE, &usual) == 0);
    cr_assert(status == VH_OK, "%s", why);
    look_at_files(FILES, place);
}

Test(writers, a_set_given_up_leaves_nothing)
{
    struct vh_safe_folder *f = NULL;
    char why[VH_WHY] = "", place[32], command[64];

    go_somewhere_new(place);
    cr_assert(vh_safe_folder_open("out", &f, why) == VH_OK, "%s", why);
    cr_assert(vh_safe_folder_add(f, "a.csv", "a", 1, why) == VH_OK, "%s", why);
    vh_safe_folder_free(f);
    vh_safe_folder_free(NULL);
    cr_expect(system("test -z \"$(ls -A)\"") == 0);
    snprintf(command, sizeof command, "rm -rf %s", place);
    cr_expect(system(command) == 0);
}

Test(writers, a_set_that_a_living_run_fills_is_not_cleaned_away)
{
    struct vh_safe_folder *first = NULL, *second = NULL;
    char why[VH_WHY] = "", place[32], command[64];

    go_somewhere_new(place);
    cr_assert(vh_safe_folder_open("one", &first, why) == VH_OK, "%s", why);
    cr_assert(vh_safe_folder_open("two", &second, why) == VH_OK, "%s", why);
    cr_assert(vh_safe_folder_add(first, "a.csv", "a", 1, why) == VH_OK, "%s", why);
    cr_assert(vh_safe_folder_commit(first, why) == VH_OK, "%s", why);
    cr_assert(vh_safe_folder_commit(second, why) == VH_OK, "%s", why);
    vh_safe_folder_free(first);
    vh_safe_folder_free(second);
    cr_expect(text_is("one/a.csv", "a"));
    snprintf(command, sizeof command, "rm -rf %s", place);
    cr_expect(system(command) == 0);
}
