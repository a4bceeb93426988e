/* What stands in the cells of a records file: words, numbers, dates, plantings. */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "record_parts.h"
#include "scenario_parts.h"

#define WORD_ROOM 64

static struct vh_place at_row(const struct vh_csv_row *row)
{
    return (struct vh_place){row->file, row->line, 0, NULL};
}

void vh_record_wrong(struct vh_record_reading *r, const struct vh_csv_row *row, const char *format,
                     ...)
{
    char text[600];
    va_list arguments;

    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    const enum vh_status status = vh_fail(r->messages, VH_BAD_INPUT, at_row(row), "%s", text);
    if (r->status != VH_NO_MEMORY)
        r->status = status;
    r->line_good = false;
}

/* The cell of a role without blanks around it; "" where it is empty or there is no such column. One
   that is longer than the room ends with "...", so that a cut number is none. */
void vh_record_cell(const struct vh_csv_row *row, int column, char *text, size_t room)
{
    const char *cell = column >= 0 ? row->cell[column].text : NULL;
    static const char cut[] = "...";
    size_t n = cell ? row->cell[column].length : 0;

    while (n > 0 && (cell[n - 1] == ' ' || cell[n - 1] == '\t'))
        n--;
    while (n > 0 && (*cell == ' ' || *cell == '\t'))
        cell++, n--;
    if (n < room)
        snprintf(text, room, "%.*s", (int)n, cell ? cell : "");
    else
        snprintf(text, room, "%.*s%s", (int)(room - sizeof cut), cell, cut);
}

/* ---- numbers ---- */

bool vh_record_number(struct vh_record_reading *r, const char *text, double *value)
{
    const struct vh_csv_cell cell = {text, strlen(text)};

    if (vh_csv_number(cell, '.', value)) {
        r->sheet->has_point = r->sheet->has_point || strchr(text, '.');
        return true;
    }
    if (r->decimal || !vh_csv_number(cell, ',', value))
        return false;
    r->sheet->has_comma = true;
    return true;
}

/* A whole number from 1 on; 0: the cell is empty. */
int vh_record_whole(struct vh_record_reading *r, const struct vh_csv_row *row,
                    enum vh_record_role role, const char *name, int most)
{
    char text[WORD_ROOM];
    double value = 0.0;

    vh_record_cell(row, vh_sheet_column(r->sheet, role), text, sizeof text);
    if (!text[0])
        return 0;
    if (vh_csv_number((struct vh_csv_cell){text, strlen(text)}, '.', &value) && value >= 1.0 &&
        value <= most && value == (double)(int)value)
        return (int)value;
    vh_record_wrong(r, row,
                    "`%s` is %.40s; write a whole number from 1 to %d, or leave the cell empty",
                    name, text, most);
    return 0;
}

/* ---- dates ---- */

/* Three whole numbers with one kind of sign between them, as people write dates. */
static bool three_numbers(const char *text, int n[3])
{
    char sign = 0;

    for (int k = 0;; k++) {
        int digits = 0;
        n[k] = 0;
        for (; *text >= '0' && *text <= '9' && digits < 5; text++, digits++)
            n[k] = n[k] * 10 + (*text - '0');
        if (digits == 0)
            return false;
        if (k == 2)
            return *text == '\0' || *text == ' ';
        if (!*text || !strchr("./-", *text) || (sign && *text != sign))
            return false;
        sign = *text++;
    }
}

static bool say_date(int year, int month, int day, char text[11])
{
    const struct vh_civil c = {year, month, day};

    if (!vh_civil_is_date(c))
        return false;
    vh_date_format(vh_day_from_civil(c), text);
    return true;
}

static void wrong_date(struct vh_record_reading *r, const struct vh_csv_row *row, const char *text)
{
    char one[11], other[11];
    int n[3];

    if (three_numbers(text, n) && n[0] < 100 && n[2] < 100)
        n[2] += 2000; /* 12/7/26 */
    else if (!three_numbers(text, n))
        n[0] = n[1] = n[2] = 0;
    if (say_date(n[0], n[1], n[2], one)) {
        vh_record_wrong(r, row, "a date is written year-month-day; write %s", one);
        return;
    }
    const bool day_first = say_date(n[2], n[1], n[0], one);
    const bool month_first = say_date(n[2], n[0], n[1], other);
    if (day_first && month_first && strcmp(one, other) != 0)
        vh_record_wrong(r, row, "a date is written year-month-day; write %s or %s", one, other);
    else if (day_first || month_first)
        vh_record_wrong(r, row, "a date is written year-month-day; write %s",
                        day_first ? one : other);
    else if (!text[0])
        vh_record_wrong(r, row, "the date is missing; write it as 2026-07-12");
    else
        vh_record_wrong(r, row, "\"%.40s\" is no date; write it as 2026-07-12", text);
}

bool vh_record_date(struct vh_record_reading *r, const struct vh_csv_row *row, int64_t *day)
{
    char text[WORD_ROOM];
    int64_t minute;
    int offset;
    bool has_offset, has_time;

    vh_record_cell(row, vh_sheet_column(r->sheet, VH_ROLE_DATE), text, sizeof text);
    if (vh_date_parse(text, day) == VH_OK)
        return true;
    if (vh_time_parse(text, strlen(text), NULL, &minute, &has_offset, &offset, &has_time) ==
        VH_OK) { /* a phone's form adds the time of day */
        text[10] = '\0';
        return vh_date_parse(text, day) == VH_OK;
    }
    wrong_date(r, row, text);
    return false;
}

/* ---- plantings ---- */

bool vh_record_planting(struct vh_record_reading *r, const struct vh_csv_row *row, size_t *planting)
{
    char text[VH_SHOWN_MOST * 2], shown[VH_SHOWN_MOST + 4];
    const char *near = NULL;
    size_t least;

    vh_record_cell(row, vh_sheet_column(r->sheet, VH_ROLE_PLANTING), text, sizeof text);
    if (!text[0]) {
        vh_record_wrong(r, row, "the planting is missing; write its name, as in %s",
                        r->house->planting[0].name);
        return false;
    }
    least = vh_near_enough(text) + 1;
    for (size_t i = 0; i < r->house->plantings; i++) {
        const char *name = r->house->planting[i].name;
        if (strcmp(name, text) == 0) {
            *planting = i;
            return true;
        }
        const size_t d = vh_key_distance(name, text, least);
        if (d < least) {
            least = d;
            near = name;
        }
    }
    vh_shown(text, shown);
    if (near)
        vh_record_wrong(r, row, "no planting is called \"%s\"; did you mean %s?", shown, near);
    else
        vh_record_wrong(r, row,
                        "no planting is called \"%s\"; write a name of the scenario, as in %s",
                        shown, r->house->planting[0].name);
    return false;
}
