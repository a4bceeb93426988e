#include "climate_parts.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

static const struct vh_column report_columns[] = {
    {"file", VH_CELL_TEXT, "", "file the rows stand in"},
    {"what", VH_CELL_TEXT, "", "what was found"},
    {"count", VH_CELL_INTEGER, "", "how many rows, or gaps"},
    {"first_line", VH_CELL_INTEGER, "", "line of the first of them"},
    {"last_line", VH_CELL_INTEGER, "", "line of the last of them"},
    {"why", VH_CELL_TEXT, "", "what was done about it"},
    {"told", VH_CELL_TEXT, "",
     "warning; old warning: told by check alone by now; empty: no warning"},
};
enum { FILE_COLUMN, WHAT_COLUMN, COUNT_COLUMN, FIRST_COLUMN, LAST_COLUMN, WHY_COLUMN, TOLD_COLUMN };

enum { WHY_ROOM = 160 };

struct vh_table *vh_log_report_create(void)
{
    return vh_table_create("log", "a finding in a climate file", false, report_columns,
                           sizeof report_columns / sizeof report_columns[0]);
}

void vh_row_count_add(struct vh_row_count *c, int64_t line)
{
    if (c->count++ == 0)
        c->first_line = line;
    c->last_line = line;
}

enum vh_status vh_log_report_add(struct vh_table *t, const char *file, const char *what,
                                 struct vh_row_count c, const char *why, enum vh_finding_told told)
{
    static const char *const words[] = {"", "warning", "old warning"};
    enum vh_status status = vh_table_add_row(t);

    if (status != VH_OK)
        return status;
    vh_table_set_number(t, COUNT_COLUMN, (double)c.count);
    if (c.count > 0) {
        vh_table_set_number(t, FIRST_COLUMN, (double)c.first_line);
        vh_table_set_number(t, LAST_COLUMN, (double)c.last_line);
    }
    status = vh_table_set_text(t, FILE_COLUMN, file);
    if (status == VH_OK)
        status = vh_table_set_text(t, WHAT_COLUMN, what);
    if (status == VH_OK)
        status = vh_table_set_text(t, WHY_COLUMN, why);
    return status == VH_OK ? vh_table_set_text(t, TOLD_COLUMN, words[told]) : status;
}

bool vh_is_told(int64_t ends, const struct vh_climate_request *request,
                const struct vh_house_params *params)
{
    return (double)(request->today - ends) <= params->gap_told_d;
}

static enum vh_finding_told as_told(bool is_told)
{
    return is_told ? VH_FINDING_WARNED : VH_FINDING_OLD;
}

/* How a kind of trouble is told. note: nothing is lost, so no warning. */
struct telling {
    const char *what, *why;
    bool is_note, is_silent;
};

static struct telling telling_of(enum vh_row_trouble trouble, bool rows_mostly_step_back,
                                 bool is_standard)
{
    switch (trouble) {
    case VH_ROWS_READ:
        return (struct telling){"rows", "read", false, true};
    case VH_ROWS_USED:
        return (struct telling){"rows of the season", "used", false, true};
    case VH_ROWS_AFTER_TODAY:
        return (struct telling){"rows after today", "not used", false, false};
    case VH_ROWS_STEP_BACK:
        if (rows_mostly_step_back)
            return (struct telling){"rows not in order of time", "put in order", true, false};
        return (struct telling){"steps back in time",
                                is_standard
                                    ? "rows put in order; if the logger's clock was set, the rows"
                                      " before are off by that: of one that goes by summer time"
                                      " [house] log_daylight_saving tells"
                                    : "rows put in order; if the logger's clock was set, the rows"
                                      " before are off by that",
                                false, false};
    case VH_ROWS_MISSING_HOUR:
        return (struct telling){"rows in the hour that summer time skips",
                                "not used; is log_daylight_saving right?", false, false};
    case VH_ROWS_BAD_TIME:
        return (struct telling){"rows without a readable time", "not used", false, true};
    case VH_ROWS_REPEATED:
        return (struct telling){"rows of a time already read", "the first is used", false, false};
    case VH_ROWS_SPIKE:
        return (struct telling){"temperatures that cannot be",
                                "the logger, or its column, is at fault", false, false};
    case VH_ROWS_IMPOSSIBLE:
        return (struct telling){"values that cannot be", "not used", false, false};
    case VH_ROWS_BELOW_ZERO:
        return (struct telling){"values of light a little below 0", "read as 0", true, false};
    case VH_ROWS_NOT_NUMBER:
        return (struct telling){"cells without a number", "read as not measured", false, false};
    case VH_ROWS_HALF_DAY:
        return (struct telling){"days with only one of tmin and tmax, or tmax below tmin",
                                "temperature of the day not used", false, false};
    case VH_ROWS_TROUBLES:
        break;
    }
    return (struct telling){"", "", false, true};
}

/* The limits in the unit of her column, as she reads them there. */
static void say_spike(const struct vh_file_use *f, const struct vh_house_params *p, const char *why,
                      char said[WHY_ROOM])
{
    struct vh_unit_pair unit = {1.0, 0.0};

    for (size_t i = 0; i < f->used_columns; i++)
        if (f->used[i].column->is_inside_temperature)
            unit = f->used[i].unit;
    snprintf(said, WHY_ROOM, "below %.4g or above %.4g, not used; %s",
             (p->spike_low_c - unit.shift) / unit.scale,
             (p->spike_high_c - unit.shift) / unit.scale, why);
}

/* Of a file that is refused everything is told: there will be no table. */
static enum vh_status tell_rows(const struct vh_file_use *f, bool is_refused,
                                const struct vh_climate_request *request,
                                const struct vh_house_params *params, struct vh_table *report,
                                struct vh_messages *m)
{
    const int64_t rows = f->trouble[VH_ROWS_READ].count;
    const bool mostly_back =
        f->trouble[VH_ROWS_STEP_BACK].count * 100 > rows && f->trouble[VH_ROWS_STEP_BACK].count > 1;

    for (int k = 0; k < VH_ROWS_TROUBLES; k++) {
        const struct vh_row_count c = f->trouble[k];
        struct telling t = telling_of((enum vh_row_trouble)k, mostly_back,
                                      request->log_clock == VH_CLOCK_STANDARD);
        char limits[WHY_ROOM];
        if (c.count == 0 && k != VH_ROWS_USED && k != VH_ROWS_READ)
            continue;
        if (k == VH_ROWS_SPIKE) {
            say_spike(f, params, t.why, limits);
            t.why = limits;
        }
        const bool is_told = is_refused || vh_is_told(f->trouble_ends[k], request, params);
        const enum vh_status status =
            vh_log_report_add(report, f->name->shown, t.what, c, t.why,
                              t.is_note || t.is_silent ? VH_FINDING_NOTED : as_told(is_told));
        if (status != VH_OK)
            return status;
        if (t.is_silent || (!t.is_note && !is_told))
            continue;
        const struct vh_place place = {f->name->shown, c.first_line, 0, NULL};
        if (t.is_note)
            vh_remark(m, place, "%s: %" PRId64 " (last at line %" PRId64 "); %s", t.what, c.count,
                      c.last_line, t.why);
        else
            vh_warn(m, place, "%s: %" PRId64 " (last at line %" PRId64 "); %s", t.what, c.count,
                    c.last_line, t.why);
    }
    return VH_OK;
}

static enum vh_status tell_gaps(const struct vh_file_use *f,
                                const struct vh_climate_request *request,
                                const struct vh_house_params *params, struct vh_table *report,
                                struct vh_messages *m)
{
    for (size_t i = 0; i < f->used_columns; i++) {
        const struct vh_climate_column *column = f->used[i].column;
        if (column->kind != VH_COLUMN_HOURLY)
            continue;
        const struct vh_row_count brief = f->short_gap[column->index];
        const struct vh_row_count longer = f->long_gap[column->index];
        char what[96], why[96];
        enum vh_status status = VH_OK;
        if (brief.count > 0) {
            snprintf(what, sizeof what, "gaps of %s up to %g h", column->name, params->gap_fill_h);
            const bool is_told = vh_is_told(f->short_gap_ends[column->index], request, params);
            status = vh_log_report_add(report, f->name->shown, what, brief, "interpolated",
                                       as_told(is_told));
            if (is_told)
                vh_warn(m, (struct vh_place){f->name->shown, brief.first_line, 0, NULL},
                        "%s: %" PRId64 " (the last after line %" PRId64 "); interpolated", what,
                        brief.count, brief.last_line);
        }
        if (status == VH_OK && longer.count > 0) {
            snprintf(what, sizeof what, "gaps of %s longer than %g h", column->name,
                     params->gap_fill_h);
            snprintf(why, sizeof why, "%" PRId64 " h from the outlook",
                     f->long_gap_hours[column->index]);
            const bool is_told = vh_is_told(f->long_gap_ends[column->index], request, params);
            status = vh_log_report_add(report, f->name->shown, what, longer, why, as_told(is_told));
            if (is_told)
                vh_warn(m, (struct vh_place){f->name->shown, longer.first_line, 0, NULL},
                        "%s: %" PRId64 " (the last after line %" PRId64 "); %s", what, longer.count,
                        longer.last_line, why);
        }
        if (status != VH_OK)
            return status;
    }
    return VH_OK;
}

/* What would be right for a cell that is no number, from how the first such cell is written. */
static const char *number_advice(const char *cell, char decimal)
{
    if (decimal == ',')
        return strchr(cell, '.') ? "write 12,5, or without decimal = \",\" in [climate.format]"
                                 : "write 12,5 without a unit, or name the right column";
    return strchr(cell, ',') ? "write 12.5, or say decimal = \",\" in [climate.format]"
                             : "write 12.5 without a unit, or name the right column";
}

/* A column that holds mostly text is the wrong column, or written with the other decimal sign. */
static enum vh_status tell_not_numbers(const struct vh_file_use *f, const struct vh_used_column *u,
                                       char decimal, struct vh_messages *m)
{
    const struct vh_place place = {f->name->shown, u->first_not_number_line, 0, NULL};
    const char *cell = u->first_not_number;

    if (2 * u->not_numbers <= u->cells)
        return VH_OK;
    return vh_fail(m, VH_BAD_INPUT, place,
                   "%" PRId64 " of %" PRId64 " cells of `%s` are no numbers%s%s%s; %s",
                   u->not_numbers, u->cells, u->column->name, cell[0] ? ", as \"" : "", cell,
                   cell[0] ? "\"" : "", number_advice(cell, decimal));
}

/* A logger that fails shows cold as often as heat; many readings too hot for any house are written
 * in Fahrenheit under a name that says Celsius. */
static enum vh_status tell_too_hot(const struct vh_file_use *f, const struct vh_used_column *u,
                                   const struct vh_house_params *params, struct vh_messages *m)
{
    const int64_t one_in = 10; /* a few are faults, and are left out with a warning */
    const char *name = u->column->name;
    const struct vh_place place = {f->name->shown, u->first_too_hot_line, 0, NULL};

    if (one_in * u->too_hot <= u->cells || u->unit.scale != 1.0)
        return VH_OK;
    return vh_fail(m, VH_BAD_INPUT, place,
                   "%" PRId64 " of %" PRId64 " cells of `%s` are above %g degrees Celsius; if the"
                   " file is in Fahrenheit, call the column %.*s_f",
                   u->too_hot, u->cells, name, params->spike_high_c, (int)strlen(name) - 2, name);
}

enum { PATTERNS_ROOM = 120 };

/* Patterns of a file's times as loggers write them, into text: those two at most that its first
 * unreadable time fits, day and month either way round; else the one most in use. How many fit. */
static size_t say_patterns(const char *time, char text[PATTERNS_ROOM])
{
    static const char *const dates[] = {"%m/%d/%Y", "%m/%d/%y", "%d/%m/%Y", "%d/%m/%y", "%d.%m.%Y",
                                        "%d.%m.%y", "%m-%d-%Y", "%d-%m-%Y", "%Y/%m/%d", "%Y.%m.%d"};
    static const char *const clocks[] = {"", " %H:%M", " %H:%M:%S", " %I:%M %p", " %I:%M:%S %p"};
    size_t found = 0, used = 0;

    for (size_t d = 0; d < sizeof dates / sizeof dates[0]; d++)
        for (size_t c = 0; c < sizeof clocks / sizeof clocks[0] && found < 2; c++) {
            char pattern[40];
            int64_t minute;
            int offset;
            bool has_offset, has_time;
            snprintf(pattern, sizeof pattern, "%s%s", dates[d], clocks[c]);
            if (vh_time_parse(time, strlen(time), pattern, &minute, &has_offset, &offset,
                              &has_time) != VH_OK)
                continue;
            used += (size_t)snprintf(text + used, PATTERNS_ROOM - used, "%s\"%s\"",
                                     found++ ? ", or " : "", pattern);
        }
    if (found == 0)
        snprintf(text, PATTERNS_ROOM, "\"%%m/%%d/%%Y %%I:%%M %%p\"");
    return found;
}

static enum vh_status tell_bad_time(const struct vh_file_use *f,
                                    const struct vh_climate_request *request, struct vh_messages *m)
{
    const struct vh_row_count c = f->trouble[VH_ROWS_BAD_TIME];
    const struct vh_place place = {f->name->shown, c.first_line, 0, NULL};
    const char *asked = request->time_pattern;
    char rows[120] = "1 row has no readable time", patterns[PATTERNS_ROOM] = "";

    if (c.count > 1)
        snprintf(rows, sizeof rows,
                 "%" PRId64 " rows have no readable time (last at line %" PRId64 ")", c.count,
                 c.last_line);
    if ((asked || say_patterns(f->bad_time, patterns) == 0) && f->bad_time[0])
        snprintf(rows + strlen(rows), sizeof rows - strlen(rows), "%s\"%s\"",
                 c.count > 1 ? ", as " : ", ", f->bad_time);
    return vh_fail(
        m, VH_BAD_INPUT, place, "%s; write %s%s%s", rows, asked ? asked : "2026-03-01T14:00",
        asked ? "" : ", or say how the file writes it in [climate.format], as in time = ",
        patterns);
}

/* A log without a row yet is no harm where something else tells the weather. */
static bool is_begun(const struct vh_file_use *f, const struct vh_climate_request *request)
{
    return f->kind == VH_FILE_LOG &&
           (request->outside.path || request->normals.path || request->has_roughly);
}

static enum vh_status tell_wrong_columns(const struct vh_file_use *f,
                                         const struct vh_climate_request *request,
                                         const struct vh_house_params *params,
                                         struct vh_messages *m)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < f->used_columns; i++) {
        if (tell_not_numbers(f, &f->used[i], request->decimal, m) != VH_OK ||
            tell_too_hot(f, &f->used[i], params, m) != VH_OK)
            status = VH_BAD_INPUT;
    }
    if (f->trouble[VH_ROWS_BAD_TIME].count > 0)
        status = tell_bad_time(f, request, m);
    if (f->trouble[VH_ROWS_READ].count == 0 && !is_begun(f, request))
        status = vh_fail(m, VH_BAD_INPUT, (struct vh_place){f->name->shown, 1, 0, NULL},
                         "there is no row below the header; add rows or take the file out of"
                         " [climate]");
    return status;
}

enum vh_status vh_file_report(const struct vh_file_use *f, const struct vh_climate_request *request,
                              const struct vh_house_params *params, struct vh_table *report,
                              struct vh_messages *m)
{
    const enum vh_status wrong = tell_wrong_columns(f, request, params, m);
    enum vh_status status = tell_rows(f, wrong != VH_OK, request, params, report, m);

    if (status == VH_OK)
        status = tell_gaps(f, request, params, report, m);
    if (status == VH_OK && wrong == VH_OK && f->trouble[VH_ROWS_USED].count == 0)
        vh_warn(m, (struct vh_place){f->name->shown, 0, 0, NULL}, "%s; the outlook stands in",
                f->trouble[VH_ROWS_HALF_DAY].count + f->trouble[VH_ROWS_SPIKE].count +
                            f->trouble[VH_ROWS_NOT_NUMBER].count >
                        0
                    ? "no row of the season can be used"
                : f->trouble[VH_ROWS_READ].count == 0 ? "there is no row below the header yet"
                                                      : "no row lies in the season");
    return status == VH_OK ? wrong : status;
}
