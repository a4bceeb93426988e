#include "vh_ics_out.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_say_numbers.h"
#include "vh_task_words.h"

enum { LONGEST = 75, UID_DIGITS = 16 }; /* octets of a line, its CRLF apart [RFC 5545, 3.1] */

/* TEXT [RFC 5545, 3.3.11]. */
static void add_escaped(struct vh_draft *line, const char *text)
{
    for (const char *p = text; *p; p++) {
        if (*p == '\\' || *p == ';' || *p == ',')
            vh_draft_add(line, "\\");
        if (*p == '\n')
            vh_draft_add(line, "\\n");
        else if ((unsigned char)*p >= 0x20 && *p != 0x7F)
            vh_draft_add_bytes(line, p, 1);
    }
}

static bool begins_character(char byte)
{
    return ((unsigned char)byte & 0xC0) != 0x80;
}

static void fold(struct vh_draft *out, const struct vh_draft *line)
{
    size_t from = 0, room = LONGEST;

    while (line->n - from > room) {
        size_t end = from + room;

        while (end > from + 1 && !begins_character(line->bytes[end]))
            end--;
        if (end == from + 1) /* no text at all: bytes that follow no first one */
            end = from + room;
        vh_draft_add_bytes(out, line->bytes + from, end - from);
        vh_draft_add(out, "\r\n ");
        from = end;
        room = LONGEST - 1; /* the blank counts */
    }
    vh_draft_add_bytes(out, line->bytes + from, line->n - from);
    vh_draft_add(out, "\r\n");
}

void vh_ics_line(struct vh_draft *out, const char *name, const char *value)
{
    struct vh_draft line = {0};

    vh_draft_add(&line, name);
    vh_draft_add(&line, ":");
    add_escaped(&line, value);
    if (line.failed)
        out->failed = true;
    else
        fold(out, &line);
    vh_draft_clear(&line);
}

void vh_ics_task(struct vh_draft *out, const struct vh_table *tasks, size_t row,
                 enum vh_say_units units)
{
    enum { NOTE_ROOM = 400 };
    const bool is_lb = units == VH_SAY_US && strcmp(vh_cell_text(tasks, row, "unit"), "kg") == 0;
    const double metric = vh_cell_number(tasks, row, "count"),
                 count = is_lb ? vh_say_lb(metric) : metric;
    char note[NOTE_ROOM], said[VH_TASK_UNIT];
    const double minutes = vh_cell_number(tasks, row, "minutes");
    const char *planting = vh_cell_text(tasks, row, "planting");
    const char *unit = is_lb ? "lb" : vh_cell_text(tasks, row, "unit");

    vh_say_measures_in(vh_cell_text(tasks, row, "note"), units, note, sizeof note);
    for (const char *p = vh_cell_text(tasks, row, "task"); *p; p++)
        vh_draft_add_bytes(out, *p == '_' ? " " : p, 1);
    vh_draft_add(out, planting[0] ? " " : "");
    vh_draft_add(out, planting);
    if (isfinite(count)) {
        vh_draft_add(out, ", ");
        vh_draft_add_whole(out, count);
        vh_task_unit(count, unit, said);
        vh_draft_add(out, said[0] ? " " : "");
        vh_draft_add(out, said);
    }
    if (isfinite(minutes)) {
        vh_draft_add(out, ", ");
        vh_draft_add_whole(out, minutes);
        vh_draft_add(out, " min");
    }
    vh_draft_add(out, note[0] ? ": " : "");
    vh_draft_add(out, note);
}

/* "20260714" */
static void compact_date(int64_t day, char text[9])
{
    char date[11];

    vh_date_format(day, date);
    snprintf(text, 9, "%.4s%.2s%.2s", date, date + 5, date + 8);
}

/* Of a day to come all is told; of today what is not written down as done. Walking and cleaning of
 * the blades, which are of no planting, go with the rest. */
static bool is_left(const struct vh_table *tasks, size_t row, int64_t today)
{
    return vh_cell_number(tasks, row, "date") != (double)today ||
           !(vh_cell_number(tasks, row, "done") > 0.0);
}

static bool is_any_left(const struct vh_table *tasks, size_t from, size_t until, int64_t today)
{
    for (size_t i = from; i < until; i++)
        if (vh_cell_text(tasks, i, "planting")[0] && is_left(tasks, i, today))
            return true;
    return vh_cell_number(tasks, from, "date") != (double)today;
}

/* Rows [from, until) of one day; of today without what is written down as done. The event stays
 * where all is: only so it takes the place of an earlier one. */
static void add_day(struct vh_draft *out, const struct vh_table *tasks, size_t from, size_t until,
                    const char *house, int64_t today, enum vh_say_units units)
{
    const int64_t day = (int64_t)vh_cell_number(tasks, from, "date");
    struct vh_draft list = {0};
    char text[260], date[9], digest[65], time[VH_SAY_ROOM];
    double minutes = 0.0;
    size_t left = 0;

    const size_t end = is_any_left(tasks, from, until, today) ? until : from;
    for (size_t i = from; i < end; i++) {
        const double own = vh_cell_number(tasks, i, "minutes");
        if (!is_left(tasks, i, today))
            continue;
        minutes += isfinite(own) ? own : 0.0;
        vh_draft_add(&list, left > 0 ? "\n" : "");
        vh_ics_task(&list, tasks, i, units);
        left++;
    }
    vh_draft_add(&list, left > 0 ? "" : "all done");
    vh_draft_add_bytes(&list, "", 1);
    vh_digest_of(house, strlen(house), digest);
    compact_date(day, date);
    vh_ics_line(out, "BEGIN", "VEVENT");
    snprintf(text, sizeof text, "%s-%.*s@vinehand", date, UID_DIGITS, digest);
    vh_ics_line(out, "UID", text);
    vh_ics_line(out, "DTSTART;VALUE=DATE", date);
    compact_date(today, date);
    snprintf(text, sizeof text, "%sT000000Z", date);
    vh_ics_line(out, "DTSTAMP", text);
    compact_date(day + 1, date); /* the day after the last one */
    vh_ics_line(out, "DTEND;VALUE=DATE", date);
    vh_say_time(minutes, time);
    if (left > 0)
        snprintf(text, sizeof text, "%.120s: %s%s%zu task%s", house, time, time[0] ? ", " : "",
                 left, left == 1 ? "" : "s");
    else
        snprintf(text, sizeof text, "%.120s: all done", house);
    vh_ics_line(out, "SUMMARY", text);
    if (list.failed)
        out->failed = true;
    else
        vh_ics_line(out, "DESCRIPTION", list.bytes);
    vh_ics_line(out, "TRANSP", "TRANSPARENT"); /* she is not busy all day */
    vh_ics_line(out, "END", "VEVENT");
    vh_draft_clear(&list);
}

void vh_ics_out(struct vh_draft *out, const struct vh_table *tasks, const char *house,
                int64_t today, enum vh_say_units units)
{
    const size_t rows = tasks ? vh_table_rows(tasks) : 0;
    char maker[80];

    vh_ics_line(out, "BEGIN", "VCALENDAR");
    vh_ics_line(out, "VERSION", "2.0");
    snprintf(maker, sizeof maker, "-//vinehand//vinehand %s//EN", vh_version());
    vh_ics_line(out, "PRODID", maker);
    vh_ics_line(out, "CALSCALE", "GREGORIAN");
    for (size_t from = 0, until; from < rows; from = until) {
        const double day = vh_cell_number(tasks, from, "date");

        for (until = from + 1; until < rows && vh_cell_number(tasks, until, "date") == day; until++)
            ;
        if (day >= (double)today) /* what is past is no appointment any more */
            add_day(out, tasks, from, until, house, today, units);
    }
    vh_ics_line(out, "END", "VCALENDAR");
}
