#include "climate_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Every file is read twice: first the minutes that have a reading are marked, then each reading is
 * weighted by the time to the next mark. So the order of rows does not matter, and memory depends
 * on the season, not on the rows. */
#define DAILY_STEP_MIN 1200 /* a file whose rows are at least this far apart holds days */

struct reading {
    struct vh_hour_sums *sums;
    struct vh_file_use *file;
    const struct vh_climate_request *request;
    const struct vh_house_params *params;
    struct vh_messages *messages;
    struct vh_column_map *map;
    size_t maps;
    struct vh_row_clock clock;
    struct vh_minutes *file_minutes; /* of this file, first pass */
    bool first_pass, any, last_inside;
    int64_t last_minute;
    enum vh_status status; /* of an allocation inside a row */
};

static void later_of(int64_t *day, int64_t other)
{
    *day = other > *day ? other : *day;
}

static void count_row(struct vh_file_use *f, enum vh_row_trouble trouble, int64_t line, int64_t day)
{
    if (f->trouble[trouble].count == 0)
        f->trouble_ends[trouble] = day;
    later_of(&f->trouble_ends[trouble], day);
    vh_row_count_add(&f->trouble[trouble], line);
}

/* Humidity is checked, but nothing asks for its hours yet. */
static bool is_stored(const struct vh_climate_column *c)
{
    return c->kind == VH_COLUMN_DAILY || c->index != VH_HOURLY_RH;
}

/* ---- one cell ---- */

enum cell { CELL_EMPTY, CELL_GOOD, CELL_NO_NUMBER, CELL_SPIKE, CELL_IMPOSSIBLE, CELL_BELOW_ZERO };

static enum cell read_cell(const struct reading *r, const struct vh_used_column *u,
                           struct vh_csv_cell cell, double *value)
{
    const struct vh_climate_column *c = u->column;
    const char decimal = r->request->decimal ? r->request->decimal : '.';
    const bool is_log = r->file->kind == VH_FILE_LOG;

    if (!cell.text || cell.length == 0)
        return CELL_EMPTY;
    /* [climate.format] is the logger's; a weather file beside it may well write points */
    if (!vh_csv_number(cell, is_log ? decimal : '.', value) &&
        (is_log || decimal == '.' || !vh_csv_number(cell, decimal, value)))
        return CELL_NO_NUMBER;
    *value = *value * u->unit.scale + u->unit.shift;
    if (c->is_inside_temperature) {
        const double nearly = 1e-9; /* 140 F are 60 C and a crumb of arithmetic */
        if (!(*value >= r->params->spike_low_c - nearly &&
              *value <= r->params->spike_high_c + nearly))
            return CELL_SPIKE;
        *value -= isnan(r->request->log_offset_c) ? 0.0 : r->request->log_offset_c;
        return CELL_GOOD;
    }
    if (*value < c->low && *value >= c->low - c->dark) {
        *value = c->low;
        return CELL_BELOW_ZERO;
    }
    return *value >= c->low && *value <= c->high ? CELL_GOOD : CELL_IMPOSSIBLE;
}

/* ---- one reading into the sums ---- */

static size_t hold_of(struct reading *r, enum vh_hourly q, size_t minute, int64_t line)
{
    const struct vh_minutes *seen = &r->sums->sum[q].seen;
    const size_t typical = (size_t)r->file->typical_step_min;
    const size_t longest = typical > VH_MINUTES_PER_HOUR ? typical : VH_MINUTES_PER_HOUR;
    const size_t next = vh_minutes_next(seen, minute);

    if (next >= seen->count)
        return typical;
    if (next - minute <= longest)
        return next - minute;

    const size_t last_hour = (minute + typical - 1) / VH_MINUTES_PER_HOUR;
    const size_t next_hour = next / VH_MINUTES_PER_HOUR;
    const size_t lost = next_hour > last_hour ? next_hour - last_hour - 1 : 0;
    const int64_t ends =
        r->sums->window.first_day + (int64_t)(next_hour / (size_t)VH_HOURS_PER_DAY);
    if (lost > 0 && (double)lost <= r->params->gap_fill_h) {
        vh_row_count_add(&r->file->short_gap[q], line);
        later_of(&r->file->short_gap_ends[q], ends);
    } else if (lost > 0) {
        vh_row_count_add(&r->file->long_gap[q], line);
        r->file->long_gap_hours[q] += (int64_t)lost;
        later_of(&r->file->long_gap_ends[q], ends);
    }
    return typical;
}

/* false: that day has a value already */
static bool put_day(struct reading *r, enum vh_daily q, size_t day, double value)
{
    if (vh_fill_nan(&r->sums->daily[q], r->sums->window.days) != VH_OK) {
        r->status = VH_NO_MEMORY;
        return true;
    }
    if (!isnan(r->sums->daily[q][day]))
        return false;
    r->sums->daily[q][day] = value;
    return true;
}

/* A row for a whole day: these quantities get the course of the day later, the rest holds. */
static bool as_day_value(const struct vh_house_params *p, enum vh_hourly q, enum vh_daily *day,
                         double *factor)
{
    const double per_day = VH_SECONDS_PER_DAY * VH_PER_MILLION;

    *factor = 1.0;
    if (q == VH_HOURLY_T_AIR) {
        *day = VH_DAILY_TMEAN;
    } else if (q == VH_HOURLY_PAR) {
        *day = VH_DAILY_DLI;
        *factor = per_day;
    } else if (q == VH_HOURLY_RADIATION_IN) {
        *day = VH_DAILY_DLI;
        *factor = per_day * p->par_share * p->par_umol_per_j;
    } else if (q == VH_HOURLY_RADIATION_OUT) {
        *day = VH_DAILY_RADIATION;
        *factor = per_day;
    } else {
        return false;
    }
    return true;
}

/* Lines come in their order; of several files with one hour the last is named. */
static void note_lines(struct reading *r, size_t minute, int64_t line)
{
    struct vh_hour_lines *l = &r->sums->warmth_lines[minute / VH_MINUTES_PER_HOUR];

    l->first = l->file == r->file->name ? l->first : line;
    l->last = line;
    l->file = r->file->name;
}

static bool put_hour(struct reading *r, const struct vh_climate_column *c, size_t minute,
                     bool is_day, int64_t line, double value)
{
    const enum vh_hourly q = (enum vh_hourly)c->index;
    enum vh_daily day;
    double factor;

    if (is_day && as_day_value(r->params, q, &day, &factor))
        return put_day(r, day, minute / VH_MINUTES_PER_DAY, value * factor);
    if (!vh_minutes_add(&r->sums->sum[q].taken, minute))
        return false;
    vh_hour_sums_add(r->sums, q, minute, hold_of(r, q, minute, line), value);
    if (q == VH_HOURLY_T_AIR)
        note_lines(r, minute, line);
    return true;
}

/* ---- one row ---- */

static void mark_row(struct reading *r, const struct vh_csv_row *row, size_t minute, bool is_date)
{
    for (size_t i = 0; i < r->file->used_columns; i++) {
        const struct vh_used_column *u = &r->file->used[i];
        double value, factor;
        enum vh_daily day;
        if (u->column->kind != VH_COLUMN_HOURLY || !is_stored(u->column))
            continue;
        const enum vh_hourly q = (enum vh_hourly)u->column->index;
        if (is_date && as_day_value(r->params, q, &day, &factor))
            continue;
        const enum cell kind = read_cell(r, u, row->cell[u->cell], &value);
        if (kind != CELL_GOOD && kind != CELL_BELOW_ZERO)
            continue;
        vh_minutes_add(&r->sums->sum[q].seen, minute);
        vh_minutes_add(r->file_minutes, minute);
    }
}

static enum vh_row_trouble trouble_of(enum cell kind)
{
    switch (kind) {
    case CELL_NO_NUMBER:
        return VH_ROWS_NOT_NUMBER;
    case CELL_SPIKE:
        return VH_ROWS_SPIKE;
    case CELL_IMPOSSIBLE:
        return VH_ROWS_IMPOSSIBLE;
    case CELL_BELOW_ZERO:
        return VH_ROWS_BELOW_ZERO;
    case CELL_EMPTY:
    case CELL_GOOD:
    default:
        return VH_ROWS_TROUBLES;
    }
}

struct day_ends {
    double low, high;
};

/* Both ends of a day's temperature or none: half of them would bend the day. */
static bool put_ends(struct reading *r, struct day_ends ends, size_t day, int64_t line, bool *used)
{
    if (isnan(ends.low) && isnan(ends.high))
        return true;
    if (isnan(ends.low) || isnan(ends.high) || ends.high < ends.low) {
        count_row(r->file, VH_ROWS_HALF_DAY, line, r->sums->window.first_day + (int64_t)day);
        return true;
    }
    if (!put_day(r, VH_DAILY_TMIN, day, ends.low))
        return false;
    *used = true;
    return put_day(r, VH_DAILY_TMAX, day, ends.high);
}

static void note_warmth(struct reading *r, size_t minute)
{
    if (r->sums->warmth_file && minute <= r->sums->last_warmth)
        return;
    r->sums->last_warmth = minute;
    r->sums->warmth_file = r->file->name;
}

static void use_row(struct reading *r, const struct vh_csv_row *row, size_t minute, bool is_date)
{
    struct vh_file_use *f = r->file;
    const bool is_day = is_date || f->typical_step_min >= DAILY_STEP_MIN;
    const size_t day = minute / VH_MINUTES_PER_DAY;
    const int64_t date = r->sums->window.first_day + (int64_t)day;
    struct day_ends ends = {(double)NAN, (double)NAN};
    bool seen[VH_ROWS_TROUBLES] = {false}, used = false, repeated = false;

    for (size_t i = 0; i < f->used_columns; i++) {
        struct vh_used_column *u = &f->used[i];
        double value = (double)NAN;
        const enum cell kind = read_cell(r, u, row->cell[u->cell], &value);
        if (kind != CELL_EMPTY)
            u->cells++;
        if (kind == CELL_NO_NUMBER && u->not_numbers++ == 0) {
            u->first_not_number_line = row->line;
            if (strlen(row->cell[u->cell].text) < sizeof u->first_not_number)
                snprintf(u->first_not_number, sizeof u->first_not_number, "%s",
                         row->cell[u->cell].text);
        }
        if (kind == CELL_SPIKE && value > r->params->spike_high_c && u->too_hot++ == 0)
            u->first_too_hot_line = row->line;
        if (trouble_of(kind) != VH_ROWS_TROUBLES)
            seen[trouble_of(kind)] = true;
        if ((kind != CELL_GOOD && kind != CELL_BELOW_ZERO) || !is_stored(u->column))
            continue;
        if (u->column->is_inside_temperature)
            note_warmth(r, minute);
        if (u->column->kind == VH_COLUMN_DAILY && u->column->index == VH_DAILY_TMIN)
            ends.low = value;
        else if (u->column->kind == VH_COLUMN_DAILY && u->column->index == VH_DAILY_TMAX)
            ends.high = value;
        else if (u->column->kind == VH_COLUMN_DAILY
                     ? put_day(r, (enum vh_daily)u->column->index, day, value)
                     : put_hour(r, u->column, minute, is_day, row->line, value))
            used = true;
        else
            repeated = true;
    }
    if (!put_ends(r, ends, day, row->line, &used))
        repeated = true;
    for (int k = 0; k < VH_ROWS_TROUBLES; k++) {
        if (seen[k])
            count_row(f, (enum vh_row_trouble)k, row->line, date);
    }
    if (repeated)
        count_row(f, VH_ROWS_REPEATED, row->line, date);
    if (used)
        count_row(f, VH_ROWS_USED, row->line, date);
}

static enum vh_status take_header(struct reading *r, const struct vh_csv_row *row)
{
    if (!r->first_pass)
        return VH_OK;
    enum vh_status status = vh_file_columns(r->file, row, r->map, r->maps, r->messages);
    for (size_t i = 0; status == VH_OK && i < r->file->used_columns; i++) {
        const struct vh_climate_column *c = r->file->used[i].column;
        if (c->kind == VH_COLUMN_HOURLY && is_stored(c))
            status = vh_hour_sums_prepare(r->sums, (enum vh_hourly)c->index);
    }
    return status;
}

static void count_bad_time(struct vh_file_use *f, const struct vh_csv_row *row)
{
    const struct vh_csv_cell cell = row->cell[f->has_time ? f->time.cell : f->date.cell];
    const size_t room = sizeof f->bad_time;

    if (f->trouble[VH_ROWS_BAD_TIME].count == 0 && cell.text && cell.length < room)
        snprintf(f->bad_time, room, "%.*s", (int)cell.length, cell.text);
    vh_row_count_add(&f->trouble[VH_ROWS_BAD_TIME], row->line);
}

static enum vh_status take_row(void *context, const struct vh_csv_row *row, bool is_header)
{
    struct reading *r = context;
    int64_t minute;
    bool is_date;

    if (is_header)
        return take_header(r, row);
    const enum vh_row_time time = vh_row_clock_read(
        &r->clock, r->file->has_date ? &row->cell[r->file->date.cell] : NULL,
        r->file->has_time ? &row->cell[r->file->time.cell] : NULL, &minute, &is_date);
    const bool counts = !r->first_pass;
    if (counts)
        vh_row_count_add(&r->file->trouble[VH_ROWS_READ], row->line);
    if (time == VH_TIME_BAD) {
        if (counts)
            count_bad_time(r->file, row);
        return VH_OK;
    }
    const int64_t first = r->sums->window.first_day * VH_MINUTES_PER_DAY;
    const int64_t after = first + (int64_t)r->sums->window.days * VH_MINUTES_PER_DAY;
    const int64_t day = vh_floor_day(minute);
    const bool is_future = minute >= (r->sums->last_used_day + 1) * VH_MINUTES_PER_DAY;
    const bool is_inside = minute >= first && minute < after;
    if (counts && is_future)
        count_row(r->file, VH_ROWS_AFTER_TODAY, row->line, day);
    if (counts && r->any && minute < r->last_minute && (is_inside || r->last_inside))
        count_row(r->file, VH_ROWS_STEP_BACK, row->line, vh_floor_day(r->last_minute));
    if (counts && is_inside && time == VH_TIME_MISSING_HOUR)
        count_row(r->file, VH_ROWS_MISSING_HOUR, row->line, day);
    r->any = true;
    r->last_minute = minute;
    r->last_inside = is_inside;
    if (is_future || !is_inside || time == VH_TIME_MISSING_HOUR)
        return VH_OK;
    if (r->first_pass)
        mark_row(r, row, (size_t)(minute - first), is_date);
    else
        use_row(r, row, (size_t)(minute - first), is_date);
    return r->status;
}

/* ---- files ---- */

static enum vh_status pass(struct reading *r, bool first_pass, struct vh_digest *digest)
{
    const struct vh_climate_request *q = r->request;
    const bool is_log = r->file->kind == VH_FILE_LOG;
    const struct vh_csv_format format = {is_log ? q->separator : '\0', is_log ? q->decimal : '\0'};

    r->first_pass = first_pass;
    r->any = r->last_inside = false;
    r->clock = (struct vh_row_clock){.rule = q->log_clock,
                                     .utc_offset_min = q->utc_offset_min,
                                     .pattern = q->time_pattern,
                                     .may_be_iso = !is_log};
    return vh_csv_read(r->file->name->path, r->file->name->shown, format, digest, take_row, r,
                       r->messages);
}

static enum vh_status unused_maps(const struct vh_column_map *map, size_t maps, const char *shown,
                                  struct vh_messages *m)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < maps; i++) {
        if (!map[i].used)
            status = vh_fail(m, VH_BAD_INPUT, map[i].place,
                             "no header `%s` in %s; write it as it stands in the file, or take the"
                             " line out",
                             map[i].theirs, shown);
    }
    return status;
}

static enum vh_status read_files(struct reading *r, struct vh_file_use *use, size_t files,
                                 struct vh_digest *digest, struct vh_table *report)
{
    enum vh_status status = VH_OK;

    for (size_t i = 0; i < files; i++) {
        r->file = &use[i];
        vh_minutes_empty(r->file_minutes);
        const enum vh_status got = pass(r, true, digest);
        use[i].typical_step_min = vh_minutes_typical_step(r->file_minutes, VH_MINUTES_PER_HOUR);
        status = got != VH_OK ? got : status;
        if (got == VH_NO_MEMORY)
            return got;
    }
    if (status == VH_OK)
        status = unused_maps(r->map, r->maps, files > 1 ? "any of the logs" : use[0].name->shown,
                             r->messages);
    if (status != VH_OK)
        return status;
    for (size_t i = 0; i < files; i++) {
        r->file = &use[i];
        enum vh_status got = pass(r, false, NULL);
        if (got == VH_OK)
            got = vh_file_report(&use[i], r->request, r->params, report, r->messages);
        status = got != VH_OK ? got : status;
    }
    return status;
}

enum vh_status vh_hour_sums_read(struct vh_hour_sums *s, enum vh_climate_file kind,
                                 const struct vh_file_name *file, size_t files,
                                 const struct vh_climate_request *request,
                                 const struct vh_house_params *params, struct vh_digest *digest,
                                 struct vh_table *report, struct vh_messages *m)
{
    const bool is_log = kind == VH_FILE_LOG;
    struct vh_minutes file_minutes = {0, NULL};
    struct reading r = {.sums = s,
                        .request = request,
                        .params = params,
                        .messages = m,
                        .map = is_log ? request->log_column : request->outside_column,
                        .maps = is_log ? request->log_columns : request->outside_columns,
                        .file_minutes = &file_minutes,
                        .status = VH_OK};
    struct vh_file_use *use = calloc(files > 0 ? files : 1, sizeof *use);
    enum vh_status status = VH_NO_MEMORY;

    if (use &&
        vh_minutes_init(&file_minutes, vh_hour_sums_hours(s) * VH_MINUTES_PER_HOUR) == VH_OK) {
        for (size_t i = 0; i < files; i++) {
            use[i].name = &file[i];
            use[i].kind = kind;
        }
        for (size_t i = 0; i < r.maps; i++)
            r.map[i].used = false;
        status = files > 0 ? read_files(&r, use, files, digest, report) : VH_OK;
        if (status == VH_OK && is_log)
            status = vh_stuck_report(s, request, params, report, r.messages);
        if (status == VH_OK)
            status = vh_hour_sums_finish(s, params->gap_fill_h);
    }
    vh_minutes_clear(&file_minutes);
    free(use);
    return status;
}
