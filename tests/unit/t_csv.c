/* The one way a CSV file is read. Truth: RFC 4180, and engineering limits stated in vh_csv.h. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "temp_folder.h"
#include "vh_csv.h"
#include "vh_digest.h"

/* Every row as "line:[cell][cell]", an empty cell as [-]. */
struct taken {
    char text[4000];
    size_t rows;
    enum vh_status answer; /* given from the second row on */
};

static enum vh_status take(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct taken *t = context;
    char *end = t->text + strlen(t->text);
    char *const stop = t->text + sizeof t->text;
    end +=
        snprintf(end, (size_t)(stop - end), "%s%lld:", is_header ? "H" : " ", (long long)row->line);
    for (size_t i = 0; i < row->cells && stop - end > 100; i++) {
        const struct vh_csv_cell c = row->cell[i];
        cr_assert(c.text == NULL || strlen(c.text) == c.length);
        if (c.length < 50)
            end += snprintf(end, (size_t)(stop - end), "[%s]", c.text == NULL ? "-" : c.text);
        else
            end += snprintf(end, (size_t)(stop - end), "[%zu bytes]", c.length);
    }
    t->rows += !is_header;
    return is_header || t->rows < 2 ? VH_OK : t->answer;
}

static const struct vh_csv_format found = {0, 0};

static void expect_rows_n(const char *text, size_t n, struct vh_csv_format format, const char *rows)
{
    struct taken t = {"", 0, VH_OK};
    struct vh_messages *m = vh_messages_create();
    const enum vh_status status = vh_csv_read_memory(text, n, "a.csv", format, take, &t, m);
    cr_expect(eq(int, (int)status, VH_OK), "%s",
              vh_messages_count(m) ? vh_messages_at(m, 0)->text : "");
    cr_expect(eq(str, t.text, (char *)(uintptr_t)rows));
    vh_messages_free(m);
}

static void expect_rows(const char *text, const char *rows)
{
    expect_rows_n(text, strlen(text), found, rows);
}

/* The first message, as the program shows it. */
static void expect_error_n(const char *text, size_t n, struct vh_csv_format format,
                           const char *message)
{
    struct taken t = {"", 0, VH_OK};
    struct vh_messages *m = vh_messages_create();
    const enum vh_status status = vh_csv_read_memory(text, n, "a.csv", format, take, &t, m);
    cr_expect(eq(int, (int)status, VH_BAD_INPUT), "%s", message);
    cr_assert(ge(sz, vh_messages_count(m), 1), "%s", message);
    const struct vh_message *first = vh_messages_at(m, 0);
    char shown[400];
    snprintf(shown, sizeof shown, "%s:%lld:%d: %s", first->file, (long long)first->line,
             first->column, first->text);
    cr_expect(eq(str, shown, (char *)(uintptr_t)message));
    vh_messages_free(m);
}

static void expect_error(const char *text, const char *message)
{
    expect_error_n(text, strlen(text), found, message);
}

Test(csv, rows_come_with_the_line_they_begin_on)
{
    expect_rows("time,t_air_c\n2026-03-01T14:00,21.5\n2026-03-01T14:05,21.4\n",
                "H1:[time][t_air_c] 2:[2026-03-01T14:00][21.5] 3:[2026-03-01T14:05][21.4]");
}

Test(csv, line_ends_marks_and_the_last_line_do_not_matter)
{
    expect_rows("a,b\r\n1,2\r\n", "H1:[a][b] 2:[1][2]");
    expect_rows("a,b\n1,2", "H1:[a][b] 2:[1][2]");
    expect_rows("\xef\xbb\xbf\"a\",b\r\n1,2", "H1:[a][b] 2:[1][2]");
}

Test(csv, nothing_between_separators_is_told_from_empty_text)
{
    expect_rows("a,b,c\n,\"\",3\n 1 ,, \n", "H1:[a][b][c] 2:[-][][3] 3:[1][-][-]");
}

Test(csv, blank_rows_are_passed_over)
{
    expect_rows("\n  \na,b\n\n1,2\n,\n , \n\r\n3,4\n\n", "H3:[a][b] 5:[1][2] 9:[3][4]");
}

Test(csv, quoted_cells_keep_separators_quotes_and_line_ends)
{
    expect_rows("date,note\n1,\"a,b\"\n2,\"6\"\" pot\"\n3,\"x\ny\"\n\n4,z\n",
                "H1:[date][note] 2:[1][a,b] 3:[2][6\" pot] 4:[3][x\ny] 7:[4][z]");
}

Test(csv, the_separator_is_found_from_the_header)
{
    expect_rows("a;b\n1,5;2\n", "H1:[a][b] 2:[1,5][2]");
    expect_rows("a\tb\n1\t2\n", "H1:[a][b] 2:[1][2]");
    expect_rows("\"Temp, inside; C\";RH;CO2, ppm\n1;2;3\n",
                "H1:[Temp, inside; C][RH][CO2, ppm] 2:[1][2][3]");
    expect_rows("\"a,b,c,d\";e\n1;2\n", "H1:[a,b,c,d][e] 2:[1][2]");
    expect_rows("a\n1\n", "H1:[a] 2:[1]");
}

Test(csv, a_named_separator_is_used)
{
    expect_rows_n("a,b;c\n1,1;2\n", 12, (struct vh_csv_format){';', '.'}, "H1:[a,b][c] 2:[1,1][2]");
    expect_error_n(
        "a|b\n", 4, (struct vh_csv_format){'|', '.'},
        "a.csv:1:0: the separator named for this file cannot be one; comma, semicolon or "
        "tab would be right");
    expect_error_n(
        "a,b\n", 4, (struct vh_csv_format){'"', '.'},
        "a.csv:1:0: the separator named for this file cannot be one; comma, semicolon or "
        "tab would be right");
    expect_error_n(
        "a,b\n", 4, (struct vh_csv_format){'7', '.'},
        "a.csv:1:0: the separator named for this file cannot be one; comma, semicolon or "
        "tab would be right");
    expect_error_n(
        "a,b\n", 4, (struct vh_csv_format){0, ','},
        "a.csv:1:0: comma is named as the decimal sign, but it stands between the columns; "
        "save the file with semicolons between the columns");
}

Test(csv, separators_that_cannot_be_told_are_refused)
{
    expect_error(
        "date;t,rh\n1;2\n",
        "a.csv:1:0: comma and semicolon stand equally often in the header, so the separator "
        "cannot be told; name it for this file");
    expect_error(
        "date,t\n2026-05-01;12,5\n",
        "a.csv:2:0: the header has a comma between its columns, this row another sign; use "
        "one throughout");
}

Test(csv, a_header_alone_is_good_here)
{
    expect_rows("a,b\n", "H1:[a][b]");
    expect_rows("a,b", "H1:[a][b]");
}

Test(csv, empty_files_are_refused)
{
    expect_error("", "a.csv:0:0: the file is empty; the first line must name the columns");
    expect_error(
        "\xef\xbb\xbf",
        "a.csv:0:0: the file holds nothing but blanks; the first line must name the columns");
    expect_error(
        "\n \n,,\n",
        "a.csv:0:0: the file holds nothing but blanks; the first line must name the columns");
}

Test(csv, rows_of_another_width_are_told_with_their_lines_up_to_twenty)
{
    expect_error(
        "a,b\n1,2\n3\n",
        "a.csv:3:0: this row has 1 cell, the header has 2 (separator: comma); give every row "
        "as many cells as the header");
    expect_error(
        "a;b\n1;2;3\n",
        "a.csv:2:0: this row has 3 cells, the header has 2 (separator: semicolon); give every "
        "row as many cells as the header");
    char text[400] = "a,b\n";
    for (int i = 0; i < 30; i++)
        strcat(text, "1\n");
    struct taken t = {"", 0, VH_OK};
    struct vh_messages *m = vh_messages_create();
    cr_expect(eq(int, (int)vh_csv_read_memory(text, strlen(text), "a", found, take, &t, m),
                 VH_BAD_INPUT));
    cr_expect(eq(sz, vh_messages_count(m), 20));
    vh_messages_free(m);
}

Test(csv, wrong_quotes_are_refused_with_their_place)
{
    expect_error(
        "a,b\n1,2\nx\"y\",3\n",
        "a.csv:3:2: a quote inside a cell; put the whole cell in quotes and double the quote "
        "inside, as in \"6\"\" pot\"");
    expect_error(
        "a,b\n\"x\"y,3\n",
        "a.csv:2:4: a quote inside a cell; put the whole cell in quotes and double the quote "
        "inside, as in \"6\"\" pot\"");
    expect_error("a,b\n1,2\n3,\"x\n4,5\n",
                 "a.csv:3:0: a quote is opened in this row and never closed; close it");
}

Test(csv, the_broken_half_of_a_row_is_never_handed_over)
{
    struct taken t = {"", 0, VH_OK};
    const char text[] = "a,b\n1,2\n3,x\"y\n";
    vh_csv_read_memory(text, sizeof text - 1, "a.csv", found, take, &t, NULL);
    cr_expect(eq(str, t.text, (char *)"H1:[a][b] 2:[1][2]"));
}

Test(csv, bytes_that_are_no_text_are_refused_with_their_place)
{
    expect_error_n(
        "a,b\n1,\0\n", 8, found,
        "a.csv:2:3: a zero byte; this is no text file, or it is damaged: save it again as "
        "text (UTF-8)");
    expect_error("a,b\n1,2\xb0\x43\n",
                 "a.csv:2:4: a byte that is not UTF-8; save the file as UTF-8");
    expect_error("a,b\n\xc0\xaf,1\n",
                 "a.csv:2:1: a byte that is not UTF-8; save the file as UTF-8");
    expect_error("a,b\n\xed\xa0\x80,1\n",
                 "a.csv:2:1: a byte that is not UTF-8; save the file as UTF-8");
    expect_error("a,b\n1,\xe2\x82", "a.csv:2:3: a byte that is not UTF-8; save the file as UTF-8");
    expect_error("a,b\n1,\x1b[31m\n", "a.csv:2:3: a control character; take it out");
    expect_error("a,b\r1,2\r",
                 "a.csv:1:4: a line end of CR alone; save the file with LF or CRLF line ends");
    expect_error_n("\xff\xfe"
                   "a\0,\0",
                   6, found, "a.csv:0:0: the file is written in UTF-16; save it as CSV in UTF-8");
}

Test(csv, letters_of_all_lengths_pass)
{
    expect_rows("T \xc2\xb0,\xe2\x82\xac,\xf0\x9f\x8d\x85\n1,2,3\n",
                "H1:[T \xc2\xb0][\xe2\x82\xac][\xf0\x9f\x8d\x85] 2:[1][2][3]");
}

/* Text with one long cell of n bytes in line 2. */
static char *long_cell(size_t n, bool quoted_lines)
{
    char *text = calloc(1, n + 20);
    strcpy(text, quoted_lines ? "a,b\n1,\"" : "a,b\n1,");
    const size_t begin = strlen(text);
    for (size_t i = 0; i < n; i++)
        text[begin + i] = quoted_lines && i % 10 == 9 ? '\n' : 'x';
    strcat(text, quoted_lines ? "\"\n" : "\n");
    return text;
}

Test(csv, lines_of_64_kib_are_read_and_longer_ones_refused)
{
    char *text = long_cell(65536 - 3, false);
    expect_rows(text, "H1:[a][b] 2:[1][65533 bytes]");
    free(text);
    text = long_cell(65536 - 2, false);
    expect_error(text,
                 "a.csv:2:0: this line is longer than 64 KiB; is it a CSV file with one row a "
                 "line?");
    free(text);
    text = long_cell(70000, true);
    expect_error(text, "a.csv:2:0: the row that begins here is longer than 64 KiB; is a quote left "
                       "open?");
    free(text);
}

Test(csv, a_thousand_columns_are_read_and_more_refused)
{
    char text[6000] = "";
    for (int i = 0; i < 999; i++)
        strcat(text, "a,");
    strcat(text, "a\n");
    struct taken t = {"", 0, VH_OK};
    cr_expect(eq(int, (int)vh_csv_read_memory(text, strlen(text), "a", found, take, &t, NULL), 0));
    text[strlen(text) - 1] = ',';
    strcat(text, "a\n");
    expect_error(text, "a.csv:1:0: the header has 1001 columns, at most 1000 can be read");
}

Test(csv, what_the_taker_answers_ends_the_reading)
{
    const char text[] = "a,b\n1,2\n3,4\n5,6\n";
    struct taken t = {"", 0, VH_INTERRUPTED};
    cr_expect(eq(int, (int)vh_csv_read_memory(text, sizeof text - 1, "a", found, take, &t, NULL),
                 VH_INTERRUPTED));
    cr_expect(eq(str, t.text, (char *)"H1:[a][b] 2:[1][2] 3:[3][4]"));
}

Test(csv, numbers_follow_the_decimal_sign_of_the_format)
{
    double v = 0.0;
    cr_expect(vh_csv_number((struct vh_csv_cell){"12.5", 4}, 0, &v));
    cr_expect(epsilon_eq(dbl, v, 12.5, 0.0));
    cr_expect(vh_csv_number((struct vh_csv_cell){"12,75", 5}, ',', &v));
    cr_expect(epsilon_eq(dbl, v, 12.75, 0.0));
    cr_expect(not(vh_csv_number((struct vh_csv_cell){"12,5", 4}, '.', &v)));
    cr_expect(not(vh_csv_number((struct vh_csv_cell){"1,000.5", 7}, '.', &v)));
    cr_expect(not(vh_csv_number((struct vh_csv_cell){"NaN", 3}, '.', &v)));
    cr_expect(not(vh_csv_number((struct vh_csv_cell){NULL, 0}, '.', &v)));
    cr_expect(not(vh_csv_number((struct vh_csv_cell){"", 0}, '.', &v)));
}

/* ---- files ---- */

static void expect_file_error(const char *path, const char *text)
{
    struct taken t = {"", 0, VH_OK};
    struct vh_messages *m = vh_messages_create();
    cr_expect(eq(int, (int)vh_csv_read(path, "log.csv", found, NULL, take, &t, m), VH_BAD_INPUT));
    cr_assert(eq(sz, vh_messages_count(m), 1));
    cr_expect(eq(str, (char *)(uintptr_t)vh_messages_at(m, 0)->text, (char *)(uintptr_t)text));
    cr_expect(eq(str, (char *)(uintptr_t)vh_messages_at(m, 0)->file, (char *)"log.csv"));
    vh_messages_free(m);
}

Test(csv, only_plain_files_are_opened, .init = make_folder, .fini = drop_folder, .timeout = 10)
{
    char path[100];
    strcpy(path, path_of("a.csv"));
    expect_file_error(path, "there is no such file; mend the name or put the file there");
    expect_file_error(folder, "is a folder; name a file");
    expect_file_error("/dev/null", "is a pipe or a device; name a plain file");
    cr_assert(mkfifo(path, 0600) == 0);
    expect_file_error(path, "is a pipe or a device; name a plain file");
    strcat(path, "/b.csv");
    expect_file_error(path, "part of this name is a file, not a folder; mend the name");
}

static enum vh_status sum(void *context, const struct vh_csv_row *row, bool is_header)
{
    double *s = context, v;
    if (!is_header && vh_csv_number(row->cell[1], '.', &v))
        *s += v * (double)row->line;
    return VH_OK;
}

Test(csv, a_file_larger_than_the_buffer_reads_the_same_as_from_memory, .init = make_folder,
     .fini = drop_folder)
{
    const char *const path = path_of("a.csv");
    char digest_text[65], expected_text[65];
    char *text = malloc(2000000);
    size_t n = (size_t)sprintf(text, "\xef\xbb\xbftime,t\r\n");
    for (int i = 0; i < 60000; i++)
        n += (size_t)sprintf(text + n, "\"%d\n%.*s\",%d.%d\r\n", i, i % 23,
                             "abcdefghijklmnopqrstuvw", i % 40, i % 10);
    FILE *f = fopen(path, "wb");
    cr_assert(f != NULL && fwrite(text, 1, n, f) == n && fclose(f) == 0);
    double from_file = 0.0, from_memory = 0.0;
    struct vh_digest digest, expected;
    vh_digest_init(&digest);
    vh_digest_init(&expected);
    cr_expect(eq(int, (int)vh_csv_read(path, path, found, &digest, sum, &from_file, NULL), VH_OK));
    cr_expect(
        eq(int, (int)vh_csv_read_memory(text, n, path, found, sum, &from_memory, NULL), VH_OK));
    cr_expect(epsilon_eq(dbl, from_file, from_memory, 0.0));
    cr_expect(lt(dbl, 1e10, from_file));
    vh_digest_add(&expected, text, n);
    vh_digest_text(&digest, digest_text);
    vh_digest_text(&expected, expected_text);
    cr_expect(eq(str, digest_text, expected_text));
    free(text);
}

Test(csv, an_endless_line_in_a_file_is_refused, .init = make_folder, .fini = drop_folder)
{
    const char *const path = path_of("a.csv");
    FILE *f = fopen(path, "wb");
    cr_assert(f != NULL);
    for (int i = 0; i < 5000000; i++)
        putc('x', f);
    cr_assert(fclose(f) == 0);
    expect_file_error(path,
                      "this line is longer than 64 KiB; is it a CSV file with one row a line?");
    f = fopen(path, "wb");
    for (int i = 0; i < 200000; i++)
        putc(i % 8 == 7 ? '\r' : 'x', f);
    cr_assert(fclose(f) == 0);
    expect_file_error(path, "a line end of CR alone; save the file with LF or CRLF line ends");
}

Test(csv, a_complaint_at_a_byte_shows_its_line_without_the_line_s_end)
{
    static const char *const end[] = {"\n", "\r\n", "", "\n1,2\n"};
    for (size_t i = 0; i < sizeof end / sizeof *end; i++) {
        char text[60];
        struct taken t = {"", 0, VH_OK};
        struct vh_messages *m = vh_messages_create();
        snprintf(text, sizeof text, "a,b\n1,2\"3%s", end[i]);
        cr_expect(eq(int, (int)vh_csv_read_memory(text, strlen(text), "a.csv", found, take, &t, m),
                     VH_BAD_INPUT));
        cr_assert(eq(sz, vh_messages_count(m), 1));
        const struct vh_message *said = vh_messages_at(m, 0);
        cr_expect(eq(i64, said->line, 2));
        cr_expect(eq(int, said->column, 4));
        cr_expect(said->excerpt && strcmp(said->excerpt, "1,2\"3") == 0, "%s", said->excerpt);
        vh_messages_free(m);
    }
}

/* ---- rare ways ---- */

Test(csv, a_sign_of_another_kind_in_the_first_cell)
{
    expect_error(
        "a,b\n1\t2,3\n",
        "a.csv:2:0: the header has a comma between its columns, this row another sign; use "
        "one throughout");
    expect_rows("a;b\n\"x;y\";1\n", "H1:[a][b] 2:[x;y][1]");
    expect_rows("a\tb\n\"x\ty\"\t1\n", "H1:[a][b] 2:[x\ty][1]");
    expect_error("a\tb\n1\n", "a.csv:2:0: this row has 1 cell, the header has 2 (separator: tab); "
                              "give every row as many cells as the header");
    expect_rows(" \t\r\n\na,b\n1,2\n", "H3:[a][b] 4:[1][2]");
    expect_error("a,b\n\r", "a.csv:2:1: a line end of CR alone; save the file with LF or CRLF line "
                            "ends");
}

Test(csv, an_endless_line_of_letters_that_are_cut_in_two)
{
    static char text[80 * 1024];
    for (size_t i = 1; i + 2 < sizeof text; i += 2)
        memcpy(text + i, "\xc3\xa9", 2);
    text[0] = 'x'; /* so that half of the longest line ends inside a letter */
    expect_error(text,
                 "a.csv:1:0: this line is longer than 64 KiB; is it a CSV file with one row a "
                 "line?");
}

/* A process's memory is a plain file whose first byte nobody may read. */
Test(csv, a_file_that_the_system_fails_to_read)
{
    struct taken t = {"", 0, VH_OK};
    struct vh_messages *m = vh_messages_create();
    if (access("/proc/self/mem", R_OK) != 0)
        cr_skip_test("no /proc/self/mem here");
    cr_expect(eq(int, (int)vh_csv_read("/proc/self/mem", "log.csv", found, NULL, take, &t, m),
                 VH_NO_FILE));
    cr_expect(eq(sz, vh_messages_count(m), 1));
    vh_messages_free(m);
}
