/* The scenario's subset of TOML. Truth: TOML v1.0.0 (toml.io, 2021-01-11) for what is valid; the
 * interface's list of what is read; messages are our own. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_toml.h"

static struct vh_toml *read_n(const char *text, size_t n)
{
    struct vh_toml *t = NULL;
    struct vh_messages *m = vh_messages_create();
    const enum vh_status status = vh_toml_parse(text, n, "a.toml", &t, m);
    cr_assert(eq(int, (int)status, VH_OK), "%s: %s", text,
              vh_messages_count(m) ? vh_messages_at(m, 0)->text : "");
    cr_assert(eq(sz, vh_messages_count(m), 0));
    vh_messages_free(m);
    return t;
}

static struct vh_toml *read_text(const char *text)
{
    return read_n(text, strlen(text));
}

static const struct vh_toml_value *value_of(const struct vh_toml_value *table, const char *key)
{
    const struct vh_toml_entry *e = vh_toml_find(table, key);
    cr_assert(e != NULL, "%s", key);
    return e->value;
}

static char *shown(const struct vh_message *m)
{
    static char text[700];
    snprintf(text, sizeof text, "%lld:%d: %s", (long long)m->line, m->column, m->text);
    return text;
}

/* Exactly one error, as "line:column: text". */
static void expect_error_n(const char *text, size_t n, const char *message)
{
    struct vh_toml *t = (struct vh_toml *)1;
    struct vh_messages *m = vh_messages_create();
    const enum vh_status status = vh_toml_parse(text, n, "a.toml", &t, m);
    cr_expect(eq(int, (int)status, VH_BAD_INPUT), "%s", text);
    cr_expect(t == NULL);
    cr_expect(eq(sz, vh_messages_count(m), 1), "%s", text);
    if (vh_messages_count(m) > 0)
        cr_expect(eq(str, shown(vh_messages_at(m, 0)), (char *)(uintptr_t)message), "%s", text);
    vh_messages_free(m);
}

static void expect_error(const char *text, const char *message)
{
    expect_error_n(text, strlen(text), message);
}

/* The value's own trouble, the key being a. */
static void expect_bad_value(const char *value, int column, const char *message)
{
    char text[300], whole[700];
    snprintf(text, sizeof text, "[t]\na = %s\nb = 1\n", value);
    snprintf(whole, sizeof whole, "2:%d: %s", column, message);
    expect_error(text, whole);
}

Test(toml, every_kind_of_value_is_read)
{
    struct vh_toml *t = read_text("a = \"x\"\nb = 'C:\\y'\nc = 12\nd = -12.5\ne = true\nf = false\n"
                                  "g = 2026-03-01\nh = 1e3\ni = +0.5E-1\nj = 0\n");
    const struct vh_toml_value *r = vh_toml_root(t);
    cr_expect(eq(int, r->kind, VH_TOML_TABLE));
    cr_expect(eq(str, (char *)(uintptr_t)value_of(r, "a")->text, (char *)"x"));
    cr_expect(eq(str, (char *)(uintptr_t)value_of(r, "b")->text, (char *)"C:\\y"));
    cr_expect(value_of(r, "c")->is_integer && value_of(r, "c")->kind == VH_TOML_NUMBER);
    cr_expect(epsilon_eq(dbl, value_of(r, "c")->number, 12.0, 0.0));
    cr_expect(not(value_of(r, "d")->is_integer));
    cr_expect(epsilon_eq(dbl, value_of(r, "d")->number, -12.5, 0.0));
    cr_expect(value_of(r, "e")->kind == VH_TOML_BOOL && value_of(r, "e")->truth);
    cr_expect(value_of(r, "f")->kind == VH_TOML_BOOL && !value_of(r, "f")->truth);
    cr_expect(value_of(r, "g")->kind == VH_TOML_DATE);
    char date[11];
    vh_date_format(value_of(r, "g")->day, date);
    cr_expect(eq(str, date, (char *)"2026-03-01"));
    cr_expect(epsilon_eq(dbl, value_of(r, "h")->number, 1000.0, 0.0));
    cr_expect(not(value_of(r, "h")->is_integer));
    cr_expect(epsilon_eq(dbl, value_of(r, "i")->number, 0.05, 0.0));
    cr_expect(epsilon_eq(dbl, value_of(r, "j")->number, 0.0, 0.0));
    vh_toml_free(t);
}

Test(toml, keys_and_values_know_their_place)
{
    struct vh_toml *t =
        read_text("# note\n[house]\n  name =  \"Two bays\" # mine\n\nrows=[1,\n 2]\n");
    const struct vh_toml_entry *house = vh_toml_find(vh_toml_root(t), "house");
    const struct vh_toml_entry *name = vh_toml_find(house->value, "name");
    const struct vh_toml_entry *rows = vh_toml_find(house->value, "rows");
    cr_expect(house->line == 2 && house->column == 2);
    cr_expect(house->value->line == 2 && house->value->column == 1);
    cr_expect(name->line == 3 && name->column == 3);
    cr_expect(name->value->line == 3 && name->value->column == 11);
    cr_expect(rows->line == 5 && rows->column == 1 && rows->value->column == 6);
    cr_expect(rows->value->item[1]->line == 6 && rows->value->item[1]->column == 2);
    cr_expect(
        eq(str, (char *)(uintptr_t)vh_toml_line(t, 3), (char *)"  name =  \"Two bays\" # mine"));
    cr_expect(eq(str, (char *)(uintptr_t)vh_toml_line(t, 7), (char *)""));
    cr_expect(vh_toml_line(t, 8) == NULL && vh_toml_line(t, 0) == NULL);
    cr_expect(eq(str, (char *)(uintptr_t)vh_toml_name(t), (char *)"a.toml"));
    vh_toml_free(t);
}

Test(toml, tables_lists_of_tables_and_dotted_headers_nest)
{
    struct vh_toml *t =
        read_text("top = 1\n[[planting]]\nname = \"a\"\n[planting.lower]\nmost_cm = 40\n"
                  "[[planting.spray]]\n[[planting.spray]]\non = 2026-06-03\n"
                  "[[planting]]\nname = \"b\"\n[ climate . roughly ]\n[climate]\n");
    const struct vh_toml_value *r = vh_toml_root(t);
    const struct vh_toml_value *planting = value_of(r, "planting");
    cr_assert(planting->kind == VH_TOML_LIST && planting->is_table_array);
    cr_assert(eq(sz, planting->items, 2));
    cr_expect(eq(sz, value_of(planting->item[0], "spray")->items, 2));
    cr_expect(value_of(value_of(planting->item[0], "spray")->item[1], "on")->kind == VH_TOML_DATE);
    cr_expect(value_of(value_of(planting->item[0], "lower"), "most_cm")->is_integer);
    cr_expect(planting->item[1]->line == 9 && planting->item[1]->column == 1);
    cr_expect(vh_toml_find(planting->item[1], "lower") == NULL);
    cr_expect(value_of(value_of(r, "climate"), "roughly")->kind == VH_TOML_TABLE);
    cr_expect(value_of(r, "climate")->line == 12);
    vh_toml_free(t);
}

Test(toml, lists_run_over_lines_and_inline_tables_stand_on_one)
{
    struct vh_toml *t =
        read_text("a = [ # first\n  1, 2.5,\n\n  \"x]#\", # note ]\n  2026-03-01, true,\n]\n"
                  "b = []\nper_kg = { large = 7.5, medium = 6 }\nc = {}\n");
    const struct vh_toml_value *r = vh_toml_root(t);
    const struct vh_toml_value *a = value_of(r, "a");
    cr_assert(a->kind == VH_TOML_LIST && !a->is_table_array && a->items == 5);
    cr_expect(eq(str, (char *)(uintptr_t)a->item[2]->text, (char *)"x]#"));
    cr_expect(eq(sz, value_of(r, "b")->items, 0));
    cr_expect(epsilon_eq(dbl, value_of(value_of(r, "per_kg"), "medium")->number, 6.0, 0.0));
    cr_expect(value_of(r, "c")->kind == VH_TOML_TABLE && value_of(r, "c")->first == NULL);
    vh_toml_free(t);
}

Test(toml, escapes_become_letters)
{
    struct vh_toml *t =
        read_text("a = \"q\\\" b\\\\ t\\t \\u00e9 \\u20AC \\U0001F345\"\nb = \"\"\nc = ''\n");
    const struct vh_toml_value *r = vh_toml_root(t);
    cr_expect(eq(str, (char *)(uintptr_t)value_of(r, "a")->text,
                 (char *)"q\" b\\ t\t \xc3\xa9 \xe2\x82\xac \xf0\x9f\x8d\x85"));
    cr_expect(eq(str, (char *)(uintptr_t)value_of(r, "b")->text, (char *)""));
    cr_expect(eq(str, (char *)(uintptr_t)value_of(r, "c")->text, (char *)""));
    vh_toml_free(t);
}

Test(toml, marks_line_ends_tabs_and_no_text_at_all_are_fine)
{
    struct vh_toml *t = read_text("\xef\xbb\xbf[a]\r\n\tb\t=\t1\t# x\r\n");
    cr_expect(vh_toml_find(value_of(vh_toml_root(t), "a"), "b")->column == 2);
    cr_expect(eq(str, (char *)(uintptr_t)vh_toml_line(t, 1), (char *)"[a]"));
    vh_toml_free(t);
    t = read_text("");
    cr_expect(vh_toml_root(t)->first == NULL);
    vh_toml_free(t);
    t = read_text("a = 1");
    vh_toml_free(t);
    vh_toml_free(NULL);
}

Test(toml, numbers_of_other_habits_are_told_with_the_right_one)
{
    expect_bad_value("12,5", 5, "a decimal comma; write 12.5");
    expect_bad_value("-0,25 # x", 5, "a decimal comma; write -0.25");
    expect_bad_value("{ l = 12,5 }", 11, "a decimal comma; write 12.5");
    expect_bad_value("1,250", 5, "a comma in a number; write 1.250 or 1250");
    expect_bad_value("1,234.5", 5, "commas in a number; write 1234.5");
    expect_bad_value("1,234,567", 5, "commas in a number; write 1234567");
    expect_bad_value("1_000", 5, "a number has no underscores; write 1000");
    expect_bad_value("012", 5, "a number of an odd form; write 12");
    expect_bad_value(".5", 5, "a number of an odd form; write 0.5");
    expect_bad_value("-.5", 5, "a number of an odd form; write -0.5");
    expect_bad_value("5.", 5, "a number of an odd form; write 5.0");
    expect_bad_value("3 000", 6, "a blank in a number; write 3000");
    expect_bad_value("7 1/2", 5, "a fraction; write 7.5");
    expect_bad_value("7 1/0", 6, "a blank in a number; write 71");
    expect_error("a = 7 1", "1:6: a blank in a number; write 71");
    expect_error("a = 7 /2",
                 "1:7: more stands behind the number; only a note that begins with # may");
    expect_bad_value("\xe2\x88\x92\x35", 5, "a minus sign of typesetting; write -5");
    expect_bad_value("12cm", 5, "letters behind a number; the key names the unit: write 12");
    expect_bad_value("12.5 cm", 10, "letters behind a number; the key names the unit: write 12.5");
    expect_bad_value("17\xc2\xb0\x43", 5,
                     "letters behind a number; the key names the unit: write 17");
    expect_bad_value("$7.5", 5, "a sign of money; write 7.5 alone");
    expect_bad_value("\xe2\x82\xac\x37", 5, "a sign of money; write 7 alone");
    expect_bad_value("80%", 5, "a percent sign; write 80, or its hundredth for a share");
    expect_bad_value("1e999", 5, "too great a number; a smaller one would be right");
    expect_bad_value("9007199254740992", 5, "too great a number; a smaller one would be right");
}

Test(toml, dates_of_other_habits_are_told_with_the_right_one)
{
    expect_bad_value("14.7.2026", 5, "a date is written year-month-day; write 2026-07-14");
    expect_bad_value("04.07.2026", 5, "a date is written year-month-day; write 2026-07-04");
    expect_bad_value("14.7.26", 5, "a date is written year-month-day; write 2026-07-14");
    expect_bad_value("14/7/2026", 5, "a date is written year-month-day; write 2026-07-14");
    expect_bad_value("7/14/2026", 5, "a date is written year-month-day; write 2026-07-14");
    expect_bad_value("7/8/2026", 5,
                     "a date is written year-month-day; write 2026-08-07 or 2026-07-08");
    expect_bad_value("7/7/2026", 5, "a date is written year-month-day; write 2026-07-07");
    expect_bad_value("2026/7/14", 5, "a date is written year-month-day; write 2026-07-14");
    expect_bad_value("2026-7-4", 5, "a date is written year-month-day; write 2026-07-04");
    expect_bad_value("31.13.2026", 5,
                     "no date; a day that exists, written as 2026-07-14, would be right");
    expect_bad_value("2026-02-30", 5,
                     "2026-02-30 is no date; a day that exists, 1900 to 2199, would be right");
    expect_bad_value("1776-07-04", 5,
                     "1776-07-04 is no date; a day that exists, 1900 to 2199, would be right");
}

Test(toml, what_else_toml_knows_is_refused_by_name)
{
    expect_bad_value(
        "\"\"\"x\"\"\"", 5,
        "multi-line text (three quotes) is not read; write it on one line in one pair of "
        "quotes");
    expect_bad_value(
        "'''x'''", 5,
        "multi-line text (three quotes) is not read; write it on one line in one pair of "
        "quotes");
    expect_bad_value("0x1F", 5,
                     "hexadecimal, octal and binary numbers are not read; write it in tens");
    expect_bad_value("0o17", 5,
                     "hexadecimal, octal and binary numbers are not read; write it in tens");
    expect_bad_value("0b11", 5,
                     "hexadecimal, octal and binary numbers are not read; write it in tens");
    expect_bad_value("inf", 5, "inf and nan are not read; write a number");
    expect_bad_value("-inf", 5, "inf and nan are not read; write a number");
    expect_bad_value("nan", 5, "inf and nan are not read; write a number");
    expect_bad_value("22:30", 5, "a time of day is not read; write hours as a number, 22.50");
    expect_bad_value("7:05:00", 5, "a time of day is not read; write hours as a number, 7.08");
    expect_bad_value("99:99", 5, "a time of day is not read; write hours as a number");
    expect_bad_value("2026-03-01T12:00:00Z", 5, "a date with a time is not read; write 2026-03-01");
    expect_bad_value("2026-03-01 12:00", 16,
                     "a date with a time is not read; write the date alone");
    expect_bad_value("{ b = { c = 1 } }", 11,
                     "a table inside an inline table is not read; write it with a header");
    expect_bad_value("{ b = [1] }", 11,
                     "a list inside an inline table is not read; write a table with a header");
    expect_bad_value("{ b.c = 1 }", 8,
                     "dotted keys are not read here; write a table with a header");
    expect_bad_value("[[1, 2], [3]]", 6, "a list inside a list is not read; write one list");
    expect_bad_value(
        "[{ b = 1 }]", 6,
        "a table inside a list is not read; give each table a header of its own in double "
        "brackets");
    expect_error("a.b = 1\n",
                 "1:1: a dotted key is not read; write its table as a header, then the "
                 "key alone");
    expect_error("\"a\" = 1\n", "1:1: a quoted key is not read; write the key without quotes");
    expect_error("[\"a\"]\n", "1:2: a table's name stands without quotes; take them away");
}

Test(toml, text_without_quotes_or_with_wrong_ones_is_told)
{
    expect_bad_value("film-double", 5, "text stands in quotes; write \"film-double\"");
    expect_bad_value("Two bays # home", 5, "text stands in quotes; write \"Two bays\"");
    expect_bad_value("[mon, tue]", 6, "text stands in quotes; write \"mon\"");
    expect_bad_value("{ by = hand }", 12, "text stands in quotes; write \"hand\"");
    expect_bad_value("\xe2\x80\x9cTwo bays\xe2\x80\x9d", 5,
                     "curly quotes are not read; use straight ones; write \"Two bays\"");
    expect_bad_value("\xc2\xabTwo\xc2\xbb", 5,
                     "curly quotes are not read; use straight ones; write \"Two\"");
    expect_bad_value("\"Two bays\xe2\x80\x9d", 14,
                     "a curly quote; use straight quotes on both sides");
    expect_bad_value("\"Two bays", 5, "text without a closing quote; close it on the same line");
    expect_bad_value("'Two bays\"", 5, "text without a closing quote; close it on the same line");
    expect_bad_value("\"Two bays\\", 5, "text without a closing quote; close it on the same line");
    expect_error("a = \"x\\\n# \"\n",
                 "1:5: text without a closing quote; close it on the same line");
    expect_bad_value("True", 5, "True is no value here; write true");
    expect_bad_value("yes", 5, "yes is no value here; write \"yes\" if it is text, else true");
    expect_bad_value("OFF", 5, "OFF is no value here; write \"OFF\" if it is text, else false");
    expect_bad_value("\"a\"b\"", 8,
                     "more stands behind the closing quote; inside text a quote is written \\\"");
}

Test(toml, bad_escapes_and_control_characters_are_refused)
{
    expect_bad_value(
        "\"C:\\logs\"", 8,
        "a lone backslash; write \\\\ for it, put the text in single quotes, or use / in "
        "file names");
    expect_bad_value("\"a\\nb\"", 7, "\\n puts a control character into text; take it out");
    expect_bad_value("\"\\u0000\"", 6, "\\u puts a control character into text; take it out");
    expect_bad_value("\"\\u001b[31m\"", 6, "\\u puts a control character into text; take it out");
    expect_bad_value("\"\\u0085\"", 6, "\\u puts a control character into text; take it out");
    expect_bad_value("\"\\u12\"", 6, "\\u without its 4 hex digits; write the letter itself");
    expect_bad_value("\"\\ud800\"", 6, "\\u names no letter; write the letter itself");
    expect_bad_value("\"\\U00110000\"", 6, "\\U names no letter; write the letter itself");
    expect_error_n(
        "a = \"\0\"\n", 8,
        "1:6: a zero byte; this is no text file, or it is damaged: save it again as text "
        "(UTF-8)");
    expect_error("a = 1\nb = \"\x1b[31m\"\n", "2:6: a control character; take it out");
    expect_error("a = 1 # \x7f\n", "1:9: a control character; take it out");
    expect_error("a = 1\nb = \"\xe9\"\n", "2:6: a byte that is not UTF-8; save the file as UTF-8");
    expect_error("a = \"\xed\xa0\x80\"\n", "1:6: a byte that is not UTF-8; save the file as UTF-8");
    expect_error("a = 1\rb = 2\r",
                 "1:6: a line end of CR alone; save the file with LF or CRLF line ends");
    expect_error_n("\xff\xfe"
                   "a\0",
                   4, "0:0: the file is written in UTF-16; save it as UTF-8");
}

Test(toml, lines_of_other_notations_are_told)
{
    expect_error("name: \"x\"\n", "1:5: a colon behind a key; write name = \"x\"");
    expect_error("name \"x\"\n", "1:6: = is missing behind name; write name = and its value");
    expect_error("name\n", "1:5: = is missing behind name; write name = and its value");
    expect_error("wire height = 3\n", "1:1: a key has no blanks; write wire_height");
    expect_error("= 3\n", "1:1: no key before =; write key = value");
    expect_error("; note\n", "1:1: a note begins with #");
    expect_error("// note\n", "1:1: a note begins with #");
    expect_error("{ a = 1 }\n",
                 "1:1: not a line of a scenario; key = value, [table] or # note would be right");
    expect_bad_value("", 5,
                     "no value here; a number, \"text\", true, false or a date would be right");
    expect_bad_value("# x", 5,
                     "no value here; a number, \"text\", true, false or a date would be right");
    expect_bad_value("5;", 6, "; behind a value; take it away");
    expect_bad_value("\"x\";", 8, "; behind a value; take it away");
    expect_bad_value("\"x\",", 8, ", behind a value; take it away");
    expect_bad_value("5 // x", 7, "a note begins with #, not with //");
    expect_bad_value("true b = 2", 10,
                     "more stands on this line; one key and its value, or one header, a line");
    expect_bad_value("{ b: 1 }", 8, "a colon behind a key; write =");
    expect_bad_value("{ b = 1, }", 14, "a comma before }; take it away");
    expect_bad_value("{ b = 1 c = 2 }", 13, "a comma is missing between two keys; put one here");
    expect_bad_value("{ b = 1", 12, "{ is not closed on its line; put } behind the last value");
    expect_bad_value("{ b = 1,", 13, "{ is not closed on its line; put } behind the last value");
    expect_bad_value("[1 2]", 8, "a comma is missing between two values of a list; put one here");
    expect_bad_value("[1,, 2]", 8,
                     "no value here; a number, \"text\", true, false or a date would be right");
}

Test(toml, wrong_headers_are_told)
{
    expect_error("[house\n", "1:7: the brackets do not match; write [house]");
    expect_error("[[planting]\n", "1:11: the brackets do not match; write [[planting]]");
    expect_error("[[planting] slicers\n", "1:11: the brackets do not match; write [[planting]]");
    expect_error("[house]]\n", "1:7: the brackets do not match; write [house]");
    expect_error("[]\n", "1:2: a table's name is missing; as in [house] or [[planting]]");
    expect_error("[a.]\n", "1:4: a table's name is missing; as in [house] or [[planting]]");
    expect_error("[my house]\n",
                 "1:5: a table's name takes letters, digits, _ and - only; ] would be right");
    expect_error("[house] a = 1\n", "1:9: more stands on this line; one key and its value, or one "
                                    "header, a line");
    expect_error("[a.b.c.d.e.f.g.h.i]\n",
                 "1:18: a header of more than 8 parts; fewer would be right");
}

Test(toml, what_stands_twice_names_both_lines)
{
    expect_error("a = 1\n\na = 2\n", "3:1: a is given twice, first on line 1; keep one");
    expect_error("[a]\n[b]\n[a]\nc = 1\n",
                 "3:2: a is given twice, first on line 1; put all its keys under one");
    expect_error("[a.b]\n[a]\nb = 1\n", "3:1: b is given twice, first on line 1; keep one");
    expect_error("[a]\nb = 1\n[a.b]\n",
                 "3:4: b is given twice, first on line 2; put all its keys under one");
    expect_error("[a]\nb = 1\n[a.b.c]\n",
                 "3:4: b was given a value on line 2, so it cannot be a table; keep one");
    expect_error("a = { b = 1 }\n[a]\n",
                 "2:2: a is given twice, first on line 1; put all its keys under one");
    expect_error("a = { b = 1 }\n[a.c]\n",
                 "2:2: a was given a value on line 1, so it cannot be a table; keep one");
    expect_error("a = { b = 1, b = 2 }\n", "1:14: b is given twice, first on line 1; keep one");
    expect_error(
        "[[a]]\n[a]\n",
        "2:2: a stands in double brackets on line 1; keep one of the two, or write [[...]] here too if there may be several");
    expect_error("[a]\n[[a]]\n", "2:3: a is no list of tables on line 1; keep one of the two, or "
                                 "write both in double brackets if there may be several");
    expect_error("a = [1]\n[[a]]\n",
                 "2:3: a is no list of tables on line 1; keep one of the two, or "
                 "write both in double brackets if there may be several");
}

Test(toml, a_bad_line_does_not_hide_the_next)
{
    const char text[] = "a = 12,5\n"
                        "b = [1,\n"
                        "  x,\n"
                        "  2,\n"
                        "]\n"
                        "c = [1, 2\n"
                        "d = 3\n"
                        "[e\n"
                        "a = 1\n"
                        "f = [\n"
                        "  [1, 2],\n"
                        "  [3],\n"
                        "]\n"
                        "g = nan\n";
    const char *const expected[] = {
        "1:5: a decimal comma; write 12.5",
        "3:3: text stands in quotes; write \"x\"",
        "7:1: the list that begins on line 6 is not closed; put ] behind its last value",
        "8:3: the brackets do not match; write [e]",
        "11:3: a list inside a list is not read; write one list",
        "14:5: inf and nan are not read; write a number",
    };
    struct vh_toml *t = NULL;
    struct vh_messages *m = vh_messages_create();
    cr_expect(eq(int, (int)vh_toml_parse(text, sizeof text - 1, "a", &t, m), VH_BAD_INPUT));
    cr_assert(eq(sz, vh_messages_count(m), sizeof expected / sizeof expected[0]));
    for (size_t i = 0; i < vh_messages_count(m); i++)
        cr_expect(eq(str, shown(vh_messages_at(m, i)), (char *)(uintptr_t)expected[i]));
    cr_expect(eq(str, (char *)(uintptr_t)vh_messages_at(m, 0)->excerpt, (char *)"a = 12,5"));
    vh_messages_free(m);
}

Test(toml, open_lists_at_the_end_of_the_file_are_told_once)
{
    expect_error("a = [1,\n2",
                 "2:2: the list that begins on line 1 is not closed; put ] behind its "
                 "last value");
    expect_error("a = [1,\n2,\n", "3:1: the list that begins on line 1 is not closed; put ] behind "
                                  "its last value");
    expect_error("a = [",
                 "1:6: the list that begins on line 1 is not closed; put ] behind its last "
                 "value");
    expect_error("a = [1\n[house]\n", "2:1: the list that begins on line 1 is not closed; put ] "
                                      "behind its last value");
}

Test(toml, twenty_errors_are_enough)
{
    char text[1000] = "";
    for (int i = 0; i < 50; i++)
        strcat(text, "x\n");
    struct vh_toml *t = NULL;
    struct vh_messages *m = vh_messages_create();
    cr_expect(eq(int, (int)vh_toml_parse(text, strlen(text), "a", &t, m), VH_BAD_INPUT));
    cr_expect(eq(sz, vh_messages_count(m), 20));
    vh_messages_free(m);
}

Test(toml, a_mebibyte_is_read_and_a_byte_more_refused)
{
    const size_t n = 1024 * 1024;
    char *text = malloc(n + 1);
    memset(text, '#', n + 1);
    vh_toml_free(read_n(text, n));
    expect_error_n(
        text, n + 1,
        "0:0: the file is larger than 1 MiB; a scenario is far smaller: is this the right "
        "file?");
    free(text);
}

Test(toml, a_thousand_keys_stand_in_one_table_and_no_more)
{
    char *text = calloc(1, 20000);
    for (int i = 0; i < 1000; i++)
        sprintf(text + strlen(text), "k%d = %d\n", i, i);
    vh_toml_free(read_text(text));
    strcat(text, "more = 1\n");
    expect_error(text, "1001:1: more than 1000 keys in one table; is this the right file?");
    free(text);
}

Test(toml, long_lists_keep_their_order)
{
    char *text = calloc(1, 200000);
    size_t n = (size_t)sprintf(text, "a = [");
    for (int i = 0; i < 20000; i++)
        n += (size_t)sprintf(text + n, "%d,", i);
    strcat(text, "]\n");
    struct vh_toml *t = read_text(text);
    const struct vh_toml_value *a = value_of(vh_toml_root(t), "a");
    cr_assert(eq(sz, a->items, 20000));
    for (size_t i = 0; i < a->items; i++)
        cr_assert(epsilon_eq(dbl, a->item[i]->number, (double)i, 0.0));
    vh_toml_free(t);
    free(text);
}

/* How many bytes the line has; -1: there is no such line. */
static int line_length(const char *text, size_t n, int64_t line)
{
    size_t at = 0;

    for (int64_t k = 1; k < line; k++) {
        const char *end = memchr(text + at, '\n', n - at);
        if (!end)
            return -1;
        at = (size_t)(end - text) + 1;
    }
    const char *end = memchr(text + at, '\n', n - at);
    return (int)((end ? end : text + n) - text - (ptrdiff_t)at);
}

/* Wherever a text breaks off, or has one letter put in: it is read, or told of at a place that is
 * in it. */
static void expect_a_place_within(const char *text, size_t n)
{
    char *exact = malloc(n + 1); /* a read behind its end is seen under sanitizers */
    struct vh_toml *t = NULL;
    struct vh_messages *m = vh_messages_create();

    memcpy(exact, text, n);
    const enum vh_status status = vh_toml_parse(exact, n, "a.toml", &t, m);
    cr_assert(eq(int, status == VH_OK, vh_messages_count(m) == 0), "%.*s", (int)n, text);
    cr_assert(status == VH_OK || status == VH_BAD_INPUT);
    cr_assert(eq(int, status == VH_OK, t != NULL));
    for (size_t i = 0; i < vh_messages_count(m); i++) {
        const struct vh_message *one = vh_messages_at(m, i);
        const int length = line_length(text, n, one->line);
        cr_assert(one->line >= 1 && length >= 0 && one->column >= 1 && one->column <= length + 1,
                  "%.*s\nsays %s", (int)n, text, shown(one));
        cr_assert(one->text[0] != '\0');
    }
    vh_messages_free(m);
    vh_toml_free(t);
    free(exact);
}

Test(toml, a_text_that_breaks_off_anywhere_is_told_of_within_it)
{
    static const char *const text[] = {
        "\xEF\xBB\xBF# note\r\n[house] # mine\r\nname = \"B\\u00e4y \\\"1\\\"\"\r\nb = 'x'\n",
        "a = [1, -2.5e3, # one\n +3 , ]\nb = [[1], [\"x\", 'y']]\nc = { d = 1, e = { f = true } }\n",
        "[[planting]]\non = 2026-03-01\n[planting.pick]\nx = false\n[[planting]]\n",
        "a = 12,5\nb = 1 000\nc = 5 %\nd = 14/7/2026\ne = 2026-03-01T14:00\nf = 14:30\n",
        "a = \xE2\x80\x9Cx\xE2\x80\x9D\nb = 5m\nc = [a, b; c]\nd = {x = 1, }\ne = 0x1F\n",
        "a = yes\nb = True\nc: 3\nd e = 1\n\"f\" = 1\ng.h = 1\n[ i ]\n[j\n[[k]\n[]\n= 1\n",
        "a = \"\"\"x\"\"\"\nb = \"\\q\"\nc = \"x\nd = 'y\ne = 1 [f]\n[g] h = 1\n",
        "[t]\na = [1,\n[u]\nb = [2,\nc = 3\n"};
    static const char put[] = {'"', '\'', '[',  ']', '{', '}', '=', ',',
                               '.', '#',  '\n', '-', '5', 'e', ' ', '\\'};
    char changed[400];

    for (size_t i = 0; i < sizeof text / sizeof *text; i++) {
        const size_t whole = strlen(text[i]);
        for (size_t n = 0; n <= whole; n++) {
            expect_a_place_within(text[i], n);
            for (size_t k = 0; k < sizeof put; k++) {
                memcpy(changed, text[i], n);
                changed[n] = put[k];
                memcpy(changed + n + 1, text[i] + n, whole - n);
                expect_a_place_within(changed, whole + 1);
            }
        }
    }
}

/* ---- rare forms: each takes a way through the reader that the ones above do not ---- */

Test(toml, rare_numbers)
{
    struct vh_toml *t = read_text("a = 1e+5\n");
    cr_expect(epsilon_eq(dbl, value_of(vh_toml_root(t), "a")->number, 1e5, 0.0));
    vh_toml_free(t);
    expect_bad_value("-9007199254740993", 5, "too great a number; a smaller one would be right");
    expect_bad_value("{ l = 12,5\t}", 11, "a decimal comma; write 12.5");
    expect_bad_value("{ l = 12,5, m = 1 }", 11, "a decimal comma; write 12.5");
    expect_error("a = { l = 12,5", "1:11: a decimal comma; write 12.5");
    expect_bad_value("-", 5, "text stands in quotes; write \"-\"");
    expect_bad_value("........................................", 5, /* a 0 behind each has room */
                     "text stands in quotes; write \"........................................\"");
    expect_bad_value("012345678901234567890123456789012345678901", 5,
                     "letters behind a number; the key names the unit: write 0");
    expect_bad_value("1234567890123456789012345678901234567890,5", 5,
                     "a number of an odd form; write 1234567890123456789012345678901234567890");
    expect_bad_value("\xe2\x88\x92x", 5, "text stands in quotes; write \"\xe2\x88\x92x\"");
    expect_bad_value("\xe2\x88\x92"
                     "12345678901234567890123456789012345678901",
                     5,
                     "text stands in quotes; write "
                     "\"\xe2\x88\x92"
                     "12345678901234567890123456789012345678901\"");
    expect_bad_value("$x", 5, "text stands in quotes; write \"$x\"");
    expect_bad_value("$12345678901234567890123456789012345678901", 5,
                     "text stands in quotes; write \"$12345678901234567890123456789012345678901\"");
    expect_bad_value("abc;", 5, "text stands in quotes; write \"abc;\"");
    expect_bad_value("0.1234567890123456789012345678901234567890123 x", 51,
                     "more stands behind the number; only a note that begins with # may");
    expect_bad_value("0.12345678901234567890 1234567890123456789012345", 28,
                     "more stands behind the number; only a note that begins with # may");
    expect_bad_value("12 %", 8,
                     "more stands behind the number; only a note that begins with # may");
    expect_bad_value("12 \xc2\xb0", 8, "letters behind a number; the key names the unit: write 12");
    expect_bad_value("1 /", 7, "more stands behind the number; only a note that begins with # may");
}

Test(toml, rare_dates_and_times)
{
    expect_bad_value("2026-07-14t12:00", 5, "a date with a time is not read; write 2026-07-14");
    expect_bad_value("2026-07x14T12:00", 5,
                     "letters behind a number; the key names the unit: write 2026");
    expect_bad_value("2026x07-14T12:00", 5,
                     "letters behind a number; the key names the unit: write 2026");
    expect_bad_value("2026-07-14-12:00", 5,
                     "letters behind a number; the key names the unit: write 2026");
    expect_bad_value("27:30", 5, "a time of day is not read; write hours as a number");
    expect_bad_value("2026-07-14 7:30", 16, "a date with a time is not read; write the date alone");
    expect_bad_value("2026-07-14 7:3", 16, "a date with a time is not read; write the date alone");
    expect_bad_value("2026-07-14 12x30", 16,
                     "more stands on this line; one key and its value, or one header, a line");
}

Test(toml, rare_texts)
{
    struct vh_toml *t = read_text("a = \"x\\u0009y\"\n");
    cr_expect(eq(str, (char *)(uintptr_t)value_of(vh_toml_root(t), "a")->text, (char *)"x\ty"));
    vh_toml_free(t);
    expect_bad_value("[big one\t, x]", 6, "text stands in quotes; write \"big one\"");
    expect_bad_value("big one\t# note", 5, "text stands in quotes; write \"big one\"");
    expect_bad_value("\xe2\x80\xa6", 5, "text stands in quotes; write \"\xe2\x80\xa6\"");
    expect_bad_value("\xe2\x80\x90", 5, "text stands in quotes; write \"\xe2\x80\x90\"");
    expect_bad_value("\xe2\x81\x98", 5, "text stands in quotes; write \"\xe2\x81\x98\"");
    expect_error("a = \"x\\\r\n", "1:5: text without a closing quote; close it on the same line");
}

Test(toml, rare_keys_and_headers)
{
    expect_error("[\xe2\x80\x9chouse\xe2\x80\x9d]\n",
                 "1:2: a table's name stands without quotes; take them away");
    expect_error("[t]\na = [1]\n[t.a.b]\n",
                 "3:4: a was given a value on line 2, so it cannot be a table; keep one");
    expect_error("[t]\na = [1]\n[t.a]\n",
                 "3:4: a is given twice, first on line 2; put all its keys under one");
    expect_error("a = 1\n[a.b.c]\n",
                 "2:2: a was given a value on line 1, so it cannot be a table; keep one");
    expect_error("_ _ = 1\n", "1:1: a key has no blanks; write ___");
    expect_error("_ = 1\n_  x\n", "2:4: = is missing behind _; write _ = and its value");
    expect_error("a wire of some height that nobody would ever measure at all in metres = 1\n",
                 "1:3: = is missing behind a; write a = and its value");
    expect_error("[t] /x\n",
                 "1:5: more stands on this line; one key and its value, or one header, a line");
    expect_error("a = [1,\n\tb\t= 2\n",
                 "2:2: the list that begins on line 1 is not closed; put ] behind its last value");
    expect_error("a = [1,\n[t] \n", "2:1: the list that begins on line 1 is not closed; put ] "
                                    "behind its last value");
    expect_error("a = [1 # no more", "1:17: the list that begins on line 1 is not closed; put ] "
                                     "behind its last value");
}

Test(toml, numbers_are_read_in_words)
{
    static const struct {
        const char *words;
        int number; /* -1: none */
    } list[] = {
        {"zero", 0},         {"twelve", 12},       {"Forty", 40},         {"twenty-one", 21},
        {"Ninety nine", 99}, {"a dozen", 12},      {"two hundred", 200},  {"hundred", 100},
        {"a", -1},           {"much", -1},         {"twenty much", -1},   {"much twenty", -1},
        {"ten hundred", -1}, {"eleven dozen", -1}, {"five two", -1},      {"hundred one", -1},
        {"twenty zero", -1}, {"twenty ten", -1},   {"twenty eleven", -1},
    };

    for (size_t i = 0; i < sizeof list / sizeof *list; i++)
        cr_expect(
            eq(int, vh_toml_number_word(list[i].words, strlen(list[i].words)), list[i].number),
            "%s", list[i].words);
}
