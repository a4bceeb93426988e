#include "vh_summary.h"

#include <math.h>
#include <string.h>

/* The scenario's tables in the order in which they are read, with what stands above each. */
static const struct {
    const char *name, *title;
} parts[] = {
    {"plantings", "PLANTINGS"},
    {"log", "CLIMATE FILES"},
    {"records", "RECORDS"},
    {"defaults", "DEFAULTS IN USE (yours may differ: give the key in the scenario)"},
};

enum { KEY_COLUMN = 2, WORTH_COLUMN = 40, LINE_ROOM = 1000, PART_ROOM = 300 };

/* "K m2 W-1" behind a value; a number without unit has none. */
static void add_part(char line[LINE_ROOM], const char *between, const char *part)
{
    const size_t n = strlen(line);

    if (part[0])
        snprintf(line + n, LINE_ROOM - n, "%s%.300s", n ? between : "", part);
}

/* One default: its key, what it is worth, and where that comes from. */
static void print_default(FILE *to, const struct vh_table *t, size_t row, enum vh_say_units units)
{
    char head[PART_ROOM], line[LINE_ROOM] = "", value[40] = "", hers[PART_ROOM];
    const double number = vh_cell_number(t, row, "value");

    if (isfinite(number))
        snprintf(value, sizeof value, "%.6g", number + 0.0);
    snprintf(head, sizeof head, "%*s%.200s", KEY_COLUMN, "", vh_cell_text(t, row, "key"));
    add_part(line, "", value[0] ? value : vh_cell_text(t, row, "value"));
    add_part(line, " ",
             strcmp(vh_cell_text(t, row, "unit"), "1") == 0 ? "" : vh_cell_text(t, row, "unit"));
    vh_say_measures_in(line, units, hers, sizeof hers);
    if (strcmp(hers, line) != 0) /* behind it, for the key is metric */
        snprintf(line + strlen(line), sizeof line - strlen(line), " (%s)", hers);
    add_part(line, "; ", vh_cell_text(t, row, "basis"));
    add_part(line, ", ", vh_cell_text(t, row, "source"));
    if (vh_say_width(head) > VH_SAY_COLUMNS) { /* it has lines for itself */
        vh_say_block(to, "", KEY_COLUMN, vh_cell_text(t, row, "key"));
        head[0] = '\0';
    }
    vh_say_block(to, head, WORTH_COLUMN, line);
}

/* Of one: "gap of t_air_c", "row after today". A finding begins with its noun and has no verb with
 * a number, so nothing else in it changes. */
static const char *of_one(const char *what, char room[PART_ROOM])
{
    static const char *const many[] = {"gaps",  "rows",  "values", "temperatures",
                                       "cells", "steps", "days"};

    for (size_t i = 0; i < sizeof many / sizeof many[0]; i++) {
        const size_t n = strlen(many[i]);
        if (strncmp(what, many[i], n) != 0 || (what[n] && what[n] != ' '))
            continue;
        snprintf(room, PART_ROOM, "%.*s%s", (int)n - 1, what, what + n);
        return room;
    }
    return what;
}

/* One finding in a climate file: "inside.csv: 3366 rows, read". */
static void print_finding(FILE *to, const struct vh_table *t, size_t row)
{
    const double first = vh_cell_number(t, row, "first_line");
    const double last = vh_cell_number(t, row, "last_line");
    const double count = vh_cell_number(t, row, "count");
    char head[PART_ROOM], line[LINE_ROOM] = "", number[80] = "", one[PART_ROOM];

    snprintf(head, sizeof head, "%*s%.200s ", KEY_COLUMN, "", vh_cell_text(t, row, "file"));
    if (isfinite(count))
        snprintf(number, sizeof number, "%.0f", count);
    add_part(line, "", vh_cell_text(t, row, "told")[0] ? "warning:" : "");
    add_part(line, " ", number);
    const char *what = vh_cell_text(t, row, "what");
    add_part(line, " ", count == 1.0 ? of_one(what, one) : what);
    add_part(line, ": ", vh_cell_text(t, row, "why"));
    if (isfinite(first) && isfinite(last)) {
        if (first < last)
            snprintf(number, sizeof number, "(lines %.0f to %.0f)", first, last);
        else
            snprintf(number, sizeof number, "(line %.0f)", first);
        add_part(line, " ", number);
    }
    vh_say_block(to, head, (int)vh_say_width(head), line);
}

static void print_part(FILE *to, const struct vh_table *t, const char *name,
                       enum vh_say_units units)
{
    const bool findings = strcmp(name, "log") == 0 || strcmp(name, "records") == 0,
               defaults = strcmp(name, "defaults") == 0;

    if ((!findings && !defaults) || vh_table_rows(t) == 0) {
        vh_summary_table(to, t, units);
        return;
    }
    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (findings)
            print_finding(to, t, i);
        else
            print_default(to, t, i, units);
    }
}

/* Warnings that were on the screen once and stand in the list alone by now. */
static size_t old_warnings(const struct vh_table *log)
{
    size_t n = 0;

    for (size_t i = 0; log && i < vh_table_rows(log); i++)
        n += strcmp(vh_cell_text(log, i, "told"), "old warning") == 0;
    return n;
}

static const struct vh_table *table_named(const struct vh_scenario *scenario, const char *name)
{
    for (size_t i = 0; i < vh_scenario_table_count(scenario); i++) {
        const struct vh_table *table = vh_scenario_table(scenario, i);

        if (table && strcmp(vh_table_name(table), name) == 0)
            return table;
    }
    return NULL;
}

/* What the harvest above begins with. */
static void say_before_learning(FILE *to, const char *kept)
{
    char text[VH_SAY_TEXT] = "";

    vh_say_add(text, kept ? "begins with %.200s of [parameters]" : "by the book", kept);
    vh_say_add(text, ", before learning from your records; forecast and week learn from them");
    vh_say_block(to, "", KEY_COLUMN, text);
}

void vh_summary_check(FILE *to, const struct vh_scenario *scenario, const struct vh_result *season,
                      const struct vh_check_facts *facts)
{
    const struct vh_table *summary = season ? vh_result_table_named(season, "summary") : NULL;
    const size_t warnings = facts->warnings + old_warnings(table_named(scenario, "log"));
    const char *dot = vh_say_is_utf8() ? "\xC2\xB7" : "-";
    char date[VH_SAY_ROOM], head[VH_SAY_TEXT] = "";

    vh_say_date_with_year((double)facts->today, date);
    vh_say_add(head, "%s %s check %s %s", vh_scenario_name(scenario), dot, dot, date);
    vh_say_block(to, "", 0, head);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        const struct vh_table *table = table_named(scenario, parts[i].name);

        if (!table)
            continue;
        fprintf(to, "\n%s\n", parts[i].title);
        print_part(to, table, parts[i].name, facts->units);
        if (i == 0 && summary && vh_table_rows(summary) > 0) {
            fputs("\nHARVEST, AND WHAT SUCH HOUSES REACH\n", to);
            vh_summary_reach(to, summary, facts->units, "", KEY_COLUMN);
            const struct vh_table *records = table_named(scenario, "records");
            if (records && vh_table_rows(records) > 0)
                say_before_learning(to, vh_scenario_kept_file(scenario));
        }
    }
    if (warnings == 0)
        fputs("\nNo error, no warning. Nothing was written.\n", to);
    else
        fprintf(to, "\nNo error; %zu warning%s above. Nothing was written.\n", warnings,
                warnings == 1 ? "" : "s");
}
