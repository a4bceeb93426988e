#include "climate_parts.h"

#include <inttypes.h>
#include <stdio.h>

/* A run of hours with one and the same temperature. Only hours with a reading of their own count:
 * a reading that holds for half a day says nothing about a sensor. */
struct run {
    double value;
    int64_t readings_h;
    struct vh_hour_lines lines;
    size_t last_hour;
};

static enum vh_status tell_run(const struct vh_hour_sums *s, const struct run *run,
                               const struct vh_climate_request *request,
                               const struct vh_house_params *params, struct vh_table *report,
                               struct vh_messages *m)
{
    const char *why = "used as they stand; if the sensor was stuck, empty these cells: the outlook"
                      " stands in";
    const struct vh_row_count c = {run->readings_h, run->lines.first, run->lines.last};
    const int64_t ends = s->window.first_day + (int64_t)(run->last_hour / VH_HOURS_PER_DAY);
    const char *shown = run->lines.file->shown;
    const bool is_told = vh_is_told(ends, request, params);

    if ((double)run->readings_h < params->stuck_h)
        return VH_OK;
    if (is_told)
        vh_warn(m, (struct vh_place){shown, c.first_line, 0, NULL},
                "hours of the same temperature: %" PRId64 " (to line %" PRId64 "); %s", c.count,
                c.last_line, why);
    return vh_log_report_add(report, shown, "hours of the same temperature", c, why,
                             is_told ? VH_FINDING_WARNED : VH_FINDING_OLD);
}

static void add_hour(struct run *run, size_t hour, const struct vh_hour_lines *lines)
{
    run->last_hour = hour;
    if (!lines->file)
        return;
    run->readings_h++;
    if (lines->first < run->lines.first)
        run->lines.first = lines->first;
    if (lines->last > run->lines.last)
        run->lines.last = lines->last;
}

enum vh_status vh_stuck_report(const struct vh_hour_sums *s,
                               const struct vh_climate_request *request,
                               const struct vh_house_params *params, struct vh_table *report,
                               struct vh_messages *m)
{
    const struct vh_hour_sum *warmth = &s->sum[VH_HOURLY_T_AIR];
    const size_t hours = vh_hour_sums_hours(s);
    struct run run = {.readings_h = 0};

    if (!s->warmth_lines)
        return VH_OK;
    for (size_t h = 0; h < hours; h++) {
        const struct vh_hour_lines *lines = &s->warmth_lines[h];
        if (warmth->minutes[h] == 0)
            continue;
        const double value = (double)warmth->sum[h] / warmth->minutes[h]; /* exact: see FIXED */
        const double lost = (double)(h - run.last_hour) - 1.0;
        const bool holds = !lines->file; /* an earlier reading */
        if (run.readings_h > 0 && value >= run.value && value <= run.value &&
            lost <= params->gap_fill_h && (holds || lines->file == run.lines.file)) {
            add_hour(&run, h, lines);
            continue;
        }
        if (run.readings_h > 0) {
            const enum vh_status status = tell_run(s, &run, request, params, report, m);
            if (status != VH_OK)
                return status;
        }
        run = (struct run){.value = value, .last_hour = h};
        if (lines->file) {
            run.lines = *lines;
            run.readings_h = 1;
        }
    }
    return run.readings_h > 0 ? tell_run(s, &run, request, params, report, m) : VH_OK;
}
