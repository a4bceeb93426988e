/* The hourly climate from synthetic files whose right answer is known by construction. */
#include <criterion/criterion.h>
#include <criterion/new/assert.h>

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "climate_parts.h"
#include "may_house.h"
#include "vh_climate.h"
#include "vh_climate_columns.h"
#include "vh_math.h"

/* ---- a house, a folder, a log ---- */

struct bench {
    char folder[32], path[4][128], shown[4][32];
    int files;
    struct vh_file_name name[4];
    struct vh_climate_request request;
    struct vh_house_params params;
    struct vh_climate climate;
    struct vh_messages *messages;
};

static int64_t day_of(const char *text)
{
    int64_t day;

    cr_assert(eq(int, vh_date_parse(text, &day), VH_OK));
    return day;
}

static struct bench *bench_make(void)
{
    struct bench *b = calloc(1, sizeof *b);

    cr_assert(ne(ptr, b, NULL));
    strcpy(b->folder, "/tmp/t_climate-XXXXXX");
    cr_assert(ne(ptr, mkdtemp(b->folder), NULL));
    b->params = may_params;
    b->messages = vh_messages_create();
    b->request = may_request();
    return b;
}

static void bench_free(struct bench *b)
{
    vh_climate_clear(&b->climate);
    vh_messages_free(b->messages);
    for (int i = 0; i < b->files; i++)
        unlink(b->path[i]);
    rmdir(b->folder);
    free(b);
}

static FILE *new_file(struct bench *b)
{
    const int i = b->files++;

    char path[128];

    snprintf(b->shown[i], sizeof b->shown[i], "file%d.csv", i);
    snprintf(path, sizeof path, "%s/file%d.csv", b->folder, i);
    strcpy(b->path[i], path);
    b->name[i] = (struct vh_file_name){b->path[i], b->shown[i]};
    FILE *f = fopen(b->path[i], "w");
    cr_assert(ne(ptr, f, NULL));
    return f;
}

/* The files made so far are the logs. */
static void logs(struct bench *b)
{
    b->request.log = b->name;
    b->request.logs = (size_t)b->files;
}

/* f is written, and the last of them. */
static void logs_end(struct bench *b, FILE *f)
{
    fclose(f);
    logs(b);
}

static enum vh_status run(struct bench *b)
{
    return vh_climate_read(&b->request, &b->params, NULL, &b->climate, b->messages);
}

static void must_run(struct bench *b)
{
    const enum vh_status status = run(b);

    for (size_t i = 0; status != VH_OK && i < vh_messages_count(b->messages); i++)
        cr_log_error("%s", vh_messages_at(b->messages, i)->text);
    cr_assert(eq(int, status, VH_OK));
}

/* How many messages hold a text. */
static int said(const struct bench *b, const char *text)
{
    int n = 0;

    for (size_t i = 0; i < vh_messages_count(b->messages); i++)
        n += strstr(vh_messages_at(b->messages, i)->text, text) != NULL;
    return n;
}

/* A number of the log's report; NaN: no such row. */
static double counted(const struct bench *b, const char *what, const char *column)
{
    const struct vh_table *t = b->climate.log_report;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (strcmp(vh_table_text(t, i, (size_t)vh_table_find(t, "what")), what) == 0)
            return vh_table_number(t, i, (size_t)vh_table_find(t, column));
    }
    return NAN;
}

static void stamp(FILE *f, int64_t minute)
{
    char date[11];

    vh_date_format(minute / 1440, date);
    fprintf(f, "%sT%02d:%02d", date, (int)(minute % 1440) / 60, (int)(minute % 60));
}

/* Rows every `step` minutes from..until (days), value(minute) as t_air_c. */
static void rows(FILE *f, const char *from, const char *until, int step, double (*value)(int64_t))
{
    for (int64_t m = day_of(from) * 1440; m < (day_of(until) + 1) * 1440; m += step) {
        stamp(f, m);
        fprintf(f, ",%.10g\n", value(m));
    }
}

static double twenty(int64_t minute)
{
    (void)minute;
    return 20.0;
}

/* 15 at midnight, rising by 0.5 an hour */
static double ramp(int64_t minute)
{
    return 15.0 + 0.5 * (double)(minute % 1440) / 60.0;
}

/* ---- hours out of rows ---- */

Test(climate, constant_hourly_rows_give_constant_hours_and_their_degree_days)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_air_c\n", f);
    rows(f, "2026-05-01", "2026-05-10", 60, twenty);
    logs_end(b, f);
    must_run(b);
    cr_expect(eq(sz, b->climate.days, 10));
    for (size_t h = 0; h < 240; h++) {
        cr_expect(eq(dbl, b->climate.t_c[h], 20.0));
        cr_expect(eq(int, b->climate.logged[h], 1));
    }
    cr_expect(epsilon_eq(dbl, b->climate.degree_days_c_d[3], 10.0, 1e-12));
    cr_expect(eq(dbl, b->climate.hours_logged[9], 24.0));
    cr_expect(eq(dbl, b->climate.hours_above_hot[3], 0.0));
    cr_expect(eq(i64, b->climate.last_logged_day, day_of("2026-05-10")));
    cr_expect(eq(sz, vh_messages_count_of(b->messages, VH_WARNING), 0));
    cr_expect(eq(dbl, counted(b, "rows", "count"), 240.0));
    cr_expect(not(b->climate.light_from_log));
    bench_free(b);
}

/* the mean of 60 readings of a straight line is its value half a step before the middle of the hour
 */
Test(climate, minute_rows_give_the_mean_of_the_hour)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_air_c\n", f);
    rows(f, "2026-05-01", "2026-05-10", 1, ramp);
    logs_end(b, f);
    must_run(b);
    for (int h = 0; h < 24; h++)
        cr_expect(
            epsilon_eq(dbl, b->climate.t_c[5 * 24 + h], ramp(h * 60) + 0.5 * 29.5 / 60.0, 1e-9));
    bench_free(b);
}

Test(climate, a_reading_holds_until_the_next_one_at_most_an_hour)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    /* 10 minutes of 10, 50 minutes of 22: mean 20, though the readings' plain mean is 16 */
    fputs("time,t_air_c\n", f);
    for (int64_t hour = day_of("2026-05-01") * 24; hour <= day_of("2026-05-11") * 24; hour++) {
        stamp(f, hour * 60);
        fputs(",10\n", f);
        stamp(f, hour * 60 + 10);
        fputs(",22\n", f);
    }
    logs_end(b, f);
    must_run(b);
    cr_expect(epsilon_eq(dbl, b->climate.t_c[30], 20.0, 1e-9));
    bench_free(b);
}

Test(climate, the_order_of_rows_changes_no_bit)
{
    struct bench *b = bench_make(), *shuffled = bench_make();
    static char line[10 * 288][48];
    size_t n = 0;
    FILE *f = new_file(b), *g = new_file(shuffled);
    uint32_t state = 12345;

    fputs("time,t_air_c\n", f);
    fputs("time,t_air_c\n", g);
    for (int64_t m = day_of("2026-05-01") * 1440; m < day_of("2026-05-11") * 1440; m += 5, n++) {
        char date[11];
        vh_date_format(m / 1440, date);
        snprintf(line[n], sizeof line[n], "%sT%02d:%02d,%.2f\n", date, (int)(m % 1440) / 60,
                 (int)(m % 60), 18.0 + 7.3 * sin((double)m / 211.0));
        fputs(line[n], f);
    }
    for (size_t i = n - 1; i > 0; i--) {
        char keep[48];
        state = state * 1664525u + 1013904223u;
        const size_t k = state % (i + 1);
        memcpy(keep, line[i], sizeof keep);
        memcpy(line[i], line[k], sizeof keep);
        memcpy(line[k], keep, sizeof keep);
    }
    for (size_t i = 0; i < n; i++)
        fputs(line[i], g);
    fclose(f);
    fclose(g);
    logs(b);
    logs(shuffled);
    must_run(b);
    must_run(shuffled);
    cr_expect(eq(int, memcmp(b->climate.t_c, shuffled->climate.t_c, 240 * sizeof(double)), 0));
    cr_expect(eq(int, said(shuffled, "rows not in order of time"), 1));
    cr_expect(eq(int, said(b, "rows not in order of time"), 0));
    bench_free(b);
    bench_free(shuffled);
}

/* ---- what loggers do ---- */

static void log_with_gap(struct bench *b, int from_hour, int hours)
{
    FILE *f = new_file(b);

    fputs("time,t_air_c\n", f);
    for (int64_t m = day_of("2026-05-01") * 1440; m < day_of("2026-05-11") * 1440; m += 15) {
        const int64_t hour = m / 60 - day_of("2026-05-05") * 24;
        if (hour >= from_hour && hour < from_hour + hours)
            continue;
        stamp(f, m);
        fprintf(f, ",%g\n", hour < from_hour ? 16.0 : 22.0);
    }
    logs_end(b, f);
}

Test(climate, a_gap_of_two_hours_is_a_straight_line)
{
    struct bench *b = bench_make();

    log_with_gap(b, 8, 2);
    must_run(b);
    const double *t = &b->climate.t_c[4 * 24];
    cr_expect(epsilon_eq(dbl, t[7], 16.0, 1e-9));
    cr_expect(epsilon_eq(dbl, t[8], 18.0, 1e-9));
    cr_expect(epsilon_eq(dbl, t[9], 20.0, 1e-9));
    cr_expect(epsilon_eq(dbl, t[10], 22.0, 1e-9));
    cr_expect(eq(dbl, b->climate.hours_logged[4], 24.0));
    cr_expect(eq(int, said(b, "gaps of t_air_c up to 3 h: 1"), 1));
    /* 4 days of 96 rows and 8 hours of 4 stand before it, below the header */
    cr_expect(eq(dbl, counted(b, "gaps of t_air_c up to 3 h", "first_line"), 4 * 96 + 32 + 1.0));
    bench_free(b);
}

/* Of 5 May, told on the 10th: five days are told of, not four; the table has it either way. */
Test(climate, an_old_gap_stands_in_the_table_alone)
{
    for (int told_d = 4; told_d <= 5; told_d++) {
        struct bench *b = bench_make();
        b->params.gap_told_d = told_d;
        log_with_gap(b, 8, 10);
        must_run(b);
        cr_expect(eq(int, said(b, "10 h from the outlook"), told_d == 5));
        cr_expect(eq(dbl, counted(b, "gaps of t_air_c longer than 3 h", "count"), 1.0));
        bench_free(b);
        b = bench_make();
        b->params.gap_told_d = told_d;
        log_with_gap(b, 8, 2);
        must_run(b);
        cr_expect(eq(int, said(b, "gaps of t_air_c up to 3 h: 1"), told_d == 5));
        bench_free(b);
    }
}

Test(climate, a_gap_of_ten_hours_is_left_to_the_outlook_and_reported_once)
{
    struct bench *b = bench_make(), *no_log = bench_make();

    log_with_gap(b, 8, 10);
    must_run(b);
    must_run(no_log);
    for (int h = 8; h < 18; h++) {
        cr_expect(eq(dbl, b->climate.t_c[96 + h], no_log->climate.t_c[96 + h]));
        cr_expect(eq(int, b->climate.logged[96 + h], 0));
    }
    cr_expect(eq(dbl, b->climate.t_c[96 + 18], 22.0));
    cr_expect(eq(dbl, b->climate.hours_logged[4], 14.0));
    cr_expect(eq(int, said(b, "10 h from the outlook"), 1));
    cr_expect(eq(sz, vh_messages_count_of(b->messages, VH_WARNING), 1));
    bench_free(b);
    bench_free(no_log);
}

/* Hourly rows from 1 May that rise and fall, in steps of `step_h`, but for `still` rows from the
 * tenth on; a row is lost after the first `before_lost` of these. */
static void log_that_sticks(struct bench *b, int step_h, int still, int before_lost, int lost)
{
    FILE *f = new_file(b);
    int64_t hour = day_of("2026-05-01") * 24;

    b->params.stuck_h = 72;
    fputs("time,t_air_c\n", f);
    for (int n = 0; hour < day_of("2026-05-11") * 24; n++, hour += step_h) {
        if (n == 10 + before_lost)
            hour += lost;
        stamp(f, hour * 60);
        fprintf(f, ",%g\n", n >= 10 && n < 10 + still ? 21.5 : 18.0 + n % 5);
    }
    logs_end(b, f);
}

static const char *const stuck = "hours of the same temperature";

Test(climate, a_sensor_that_stands_still_is_told_with_its_lines_and_its_readings_stay)
{
    struct bench *b = bench_make();

    log_that_sticks(b, 1, 80, 0, 0);
    must_run(b);
    cr_expect(eq(int, said(b, "hours of the same temperature: 80 (to line 91); used"), 1));
    cr_expect(eq(dbl, counted(b, stuck, "count"), 80.0));
    cr_expect(eq(dbl, counted(b, stuck, "first_line"), 12.0));
    cr_expect(eq(dbl, counted(b, stuck, "last_line"), 91.0));
    cr_expect(eq(sz, vh_messages_count_of(b->messages, VH_WARNING), 1));
    cr_expect(eq(i64, vh_messages_at(b->messages, 0)->line, 12));
    for (int h = 10; h < 90; h++)
        cr_expect(eq(dbl, b->climate.t_c[h], 21.5));
    bench_free(b);
}

Test(climate, a_sensor_is_stuck_from_so_many_hours_on_and_not_an_hour_earlier)
{
    for (int still = 71; still <= 72; still++) {
        struct bench *b = bench_make();
        log_that_sticks(b, 1, still, 0, 0);
        must_run(b);
        cr_expect(eq(int, said(b, stuck), still == 72));
        bench_free(b);
    }
}

/* Up to 3 h are bridged; more begin anew, and neither half is long enough. */
Test(climate, a_stuck_sensor_may_miss_what_is_interpolated)
{
    for (int lost = 3; lost <= 4; lost++) {
        struct bench *b = bench_make();
        log_that_sticks(b, 1, 80, 40, lost);
        must_run(b);
        cr_expect(eq(int, said(b, stuck), lost == 3));
        bench_free(b);
    }
}

/* 30 rows of 6 h are a week, but thirty readings. */
Test(climate, coarse_rows_count_by_their_readings)
{
    struct bench *b = bench_make();

    log_that_sticks(b, 6, 30, 0, 0);
    must_run(b);
    cr_expect(eq(int, said(b, stuck), 0));
    bench_free(b);
}

/* Of 4 May, told on the 10th. */
Test(climate, old_faults_stand_in_the_table_alone)
{
    for (int told_d = 5; told_d <= 6; told_d++) {
        struct bench *b = bench_make();
        log_that_sticks(b, 1, 80, 0, 0);
        b->params.gap_told_d = told_d;
        must_run(b);
        cr_expect(eq(int, said(b, stuck), told_d == 6));
        cr_expect(eq(dbl, counted(b, stuck, "count"), 80.0));
        bench_free(b);
        b = bench_make();
        FILE *f = new_file(b);
        fputs("time,t_air_c\n", f);
        for (int64_t h = day_of("2026-05-01") * 24; h < day_of("2026-05-11") * 24; h++) {
            stamp(f, h * 60);
            fprintf(f, ",%s\n", h / 24 == day_of("2026-05-04") ? "-40" : h % 2 ? "18" : "19");
        }
        logs_end(b, f);
        b->params.gap_told_d = told_d;
        must_run(b);
        cr_expect(eq(int, said(b, "temperatures that cannot be"), told_d == 6));
        cr_expect(eq(dbl, counted(b, "temperatures that cannot be", "count"), 24.0));
        bench_free(b);
    }
}

Test(climate, repeated_rows_spikes_and_impossible_values_are_counted_with_their_lines_and_left_out)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_air_c,co2_ppm,par_umol_m2_s\n", f);
    for (int64_t h = day_of("2026-05-01") * 24; h < day_of("2026-05-11") * 24; h++) {
        const int64_t n = h - day_of("2026-05-01") * 24;
        stamp(f, h * 60);
        fprintf(f, ",%s,%s,%s\n", n == 30 || n == 50 ? "850" : "20", n == 40 ? "99999" : "400",
                n == 60   ? "-400"
                : n == 61 ? "-0.7"
                          : "100");
        if (n == 100 || n == 101) {
            stamp(f, h * 60);
            fputs(",25,400,100\n", f);
        }
    }
    logs_end(b, f);
    must_run(b);
    cr_expect(eq(dbl, b->climate.t_c[30], 20.0));
    cr_expect(eq(dbl, b->climate.t_c[100], 20.0));
    cr_expect(eq(dbl, b->climate.co2_ppm[40], 400.0));
    cr_expect(
        eq(dbl, b->climate.par_umol_m2_s[60], 50.0)); /* between 100 and the 0 of the next hour */
    cr_expect(eq(dbl, b->climate.par_umol_m2_s[61], 0.0));
    cr_expect(eq(dbl, counted(b, "temperatures that cannot be", "count"), 2.0));
    cr_expect(eq(dbl, counted(b, "temperatures that cannot be", "first_line"), 32.0));
    cr_expect(eq(dbl, counted(b, "temperatures that cannot be", "last_line"), 52.0));
    cr_expect(eq(dbl, counted(b, "values that cannot be", "count"), 2.0));
    cr_expect(eq(dbl, counted(b, "values of light a little below 0", "count"), 1.0));
    cr_expect(eq(dbl, counted(b, "rows of a time already read", "count"), 2.0));
    cr_expect(eq(dbl, counted(b, "rows of a time already read", "first_line"), 103.0));
    cr_expect(eq(int, said(b, "temperatures that cannot be"), 1));
    cr_expect(b->climate.light_from_log);
    bench_free(b);
}

Test(climate, rows_after_today_are_counted_and_not_used)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    b->request.today = day_of("2026-05-04");
    fputs("time,t_air_c\n", f);
    rows(f, "2026-04-01", "2026-06-10", 60, twenty);
    logs_end(b, f);
    must_run(b);
    cr_expect(eq(dbl, counted(b, "rows after today", "count"), (27 + 10) * 24.0));
    cr_expect(eq(int, said(b, "rows after today"), 1));
    cr_expect(eq(dbl, b->climate.hours_logged[3], 24.0));
    cr_expect(eq(dbl, b->climate.hours_logged[4], 0.0));
    cr_expect(eq(i64, b->climate.last_logged_day, day_of("2026-05-04")));
    bench_free(b);
}

Test(climate, a_log_that_ended_days_ago_is_one_note)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_air_c\n", f);
    rows(f, "2026-05-01", "2026-05-05", 60, twenty);
    logs_end(b, f);
    must_run(b);
    cr_expect(eq(int, said(b, "temperatures end on 2026-05-05"), 1));
    cr_expect(eq(sz, vh_messages_count_of(b->messages, VH_WARNING), 0));
    cr_expect(eq(sz, vh_messages_count_of(b->messages, VH_NOTE), 1));
    bench_free(b);
}

Test(climate, a_clock_set_back_is_told_once)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_air_c\n", f);
    rows(f, "2026-05-01", "2026-05-06", 60, twenty);
    rows(f, "2026-05-05", "2026-05-10", 60, twenty);
    rows(f, "2025-03-01", "2025-03-05", 60,
         twenty); /* before the season, in disorder: passed over */
    rows(f, "2025-02-01", "2025-02-05", 60, twenty);
    logs_end(b, f);
    must_run(b);
    cr_expect(eq(int, said(b, "steps back in time: 2"), 1));
    cr_expect(
        eq(int, said(b, "of one that goes by summer time [house] log_daylight_saving tells"), 1));
    cr_expect(eq(dbl, counted(b, "steps back in time", "first_line"), 6 * 24 + 2.0));
    bench_free(b);
}

/* ---- clocks ---- */

/* value tells the true standard hour: standard hour of the season's first day counted from 0, times
 * 0.1 */
static void dst_log(struct bench *b, const char *first_day, int hours, int64_t back_wall_hour,
                    int64_t ahead_wall_hour, bool newest_first)
{
    static char line[2000][64];
    const int64_t first = day_of(first_day) * 24;
    int n = 0;
    FILE *f = new_file(b);

    for (int64_t h = 0; h < hours; h++) {
        const int64_t standard = first + h;
        const bool summer =
            back_wall_hour ? standard < back_wall_hour : standard >= ahead_wall_hour;
        const int64_t wall = standard + summer;
        char date[11];
        vh_date_format(wall / 24, date);
        snprintf(line[n++], sizeof line[0], "%s %02d:00,%.1f\n", date, (int)(wall % 24),
                 10.0 + 0.1 * (double)h);
    }
    fputs("time,t_air_c\n", f);
    for (int i = 0; i < n; i++)
        fputs(line[newest_first ? n - 1 - i : i], f);
    logs_end(b, f);
}

static void expect_true_hours(const struct bench *b, int from, int until)
{
    for (int h = from; h < until; h++)
        cr_expect(epsilon_eq(dbl, b->climate.t_c[h], 10.0 + 0.1 * h, 1e-9), "hour %d", h);
}

/* 15 U.S.C. 260a: back on the first Sunday of November, 1 November 2026, at 02:00 daylight = 01:00
 * standard */
Test(climate, the_doubled_hour_of_autumn_lands_on_both_its_hours)
{
    for (int newest_first = 0; newest_first < 2; newest_first++) {
        struct bench *b = bench_make();
        b->request.first_day = day_of("2026-10-30");
        b->request.last_day = b->request.today = day_of("2026-11-03");
        b->request.log_clock = VH_CLOCK_US;
        dst_log(b, "2026-10-30", 5 * 24, day_of("2026-11-01") * 24 + 1, 0, newest_first);
        must_run(b);
        expect_true_hours(b, 0, 5 * 24);
        cr_expect(eq(dbl, b->climate.hours_logged[2], 24.0));
        cr_expect(eq(sz, vh_messages_count_of(b->messages, VH_WARNING), 0));
        bench_free(b);
    }
}

/* Directive 2000/84/EC: ahead on the last Sunday of March, 29 March 2026, at 01:00 UTC = 02:00 of
 * UTC+1 */
Test(climate, the_missing_hour_of_spring_leaves_no_gap)
{
    struct bench *b = bench_make();
    FILE *f;

    b->request.first_day = day_of("2026-03-27");
    b->request.last_day = b->request.today = day_of("2026-03-31");
    b->request.log_clock = VH_CLOCK_EU;
    b->request.utc_offset_min = 60;
    b->request.longitude_deg = 10;
    dst_log(b, "2026-03-27", 5 * 24, 0, day_of("2026-03-29") * 24 + 2, false);
    must_run(b);
    expect_true_hours(b, 0, 5 * 24);
    cr_expect(eq(dbl, b->climate.hours_logged[2], 24.0));
    vh_climate_clear(&b->climate);

    /* a row inside the missing hour cannot be: the clock does not follow the rule */
    f = fopen(b->path[0], "a");
    fputs("2026-03-29 02:30,50\n", f);
    fclose(f);
    must_run(b);
    cr_expect(eq(dbl, counted(b, "rows in the hour that summer time skips", "count"), 1.0));
    expect_true_hours(b, 0, 5 * 24);
    bench_free(b);
}

Test(climate, a_time_with_its_own_offset_is_converted_by_it)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    b->request.log_clock = VH_CLOCK_US; /* no part in it */
    fputs("time,t_air_c\n", f);
    for (int h = 0; h < 240; h++) {
        char date[11];
        const int utc = h + 5; /* the house is at -5 */
        vh_date_format(day_of("2026-05-01") + utc / 24, date);
        if (h % 2) {
            fprintf(f, "%sT%02d:00Z,%.1f\n", date, utc % 24, 10.0 + 0.1 * h);
            continue;
        }
        vh_date_format(day_of("2026-05-01") + (utc + 2) / 24, date);
        fprintf(f, "%sT%02d:00+02:00,%.1f\n", date, (utc + 2) % 24, 10.0 + 0.1 * h);
    }
    logs_end(b, f);
    must_run(b);
    expect_true_hours(b, 0, 240);
    bench_free(b);
}

/* ---- forms of files ---- */

Test(climate, a_mark_semicolons_decimal_commas_maps_patterns_and_fahrenheit_are_read)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);
    struct vh_column_map map[] = {{.ours = "time", .theirs = "Date/Time"},
                                  {.ours = "t_air_f", .theirs = "Temp (°F)"}};
    char pattern[] = "%m/%d/%y %I:%M %p";

    fputs("\xef\xbb\xbf"
          "No;Date/Time;Temp (°F)\r\n",
          f);
    for (int h = 0; h < 240; h++)
        fprintf(f, "%d;05/%02d/26 %02d:00 %s;%d,5\r\n", h, 1 + h / 24, h % 12 ? h % 12 : 12,
                h % 24 < 12 ? "AM" : "PM", 50 + h % 24);
    logs_end(b, f);
    b->request.log_column = map;
    b->request.log_columns = 2;
    b->request.time_pattern = pattern;
    b->request.separator = ';';
    b->request.decimal = ',';
    must_run(b);
    for (int h = 0; h < 24; h++)
        cr_expect(epsilon_eq(dbl, b->climate.t_c[72 + h], (50.5 + h - 32.0) / 1.8, 1e-9));
    cr_expect(map[0].used);
    bench_free(b);
}

Test(climate, date_and_time_in_two_columns_are_read_as_one)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("date,time,t_air_c\n", f);
    for (int h = 0; h < 240; h++)
        fprintf(f, "2026-05-%02d,%02d:00,%.1f\n", 1 + h / 24, h % 24, 10.0 + 0.1 * h);
    logs_end(b, f);
    must_run(b);
    expect_true_hours(b, 0, 240);
    bench_free(b);
}

Test(climate, several_logs_are_merged_by_quantity_and_a_header_that_one_lacks_is_passed_over)
{
    struct bench *b = bench_make();
    struct vh_column_map map[] = {{.ours = "t_air_c", .theirs = "air"},
                                  {.ours = "par_umol_m2_s", .theirs = "light"}};
    FILE *f = new_file(b);

    fputs("time,air\n", f);
    rows(f, "2026-05-01", "2026-05-06", 10, twenty);
    fclose(f);
    f = new_file(b);
    fputs("time,light\n", f);
    rows(f, "2026-05-01", "2026-05-10", 60, twenty);
    fclose(f);
    f = new_file(b);
    fputs("time,air\n", f);
    rows(f, "2026-05-05", "2026-05-10", 10,
         twenty); /* two days twice: the usual overlap of downloads */
    logs_end(b, f);
    b->request.log_column = map;
    b->request.log_columns = 2;
    must_run(b);
    for (int h = 0; h < 240; h++) {
        cr_expect(eq(dbl, b->climate.t_c[h], 20.0));
        cr_expect(eq(dbl, b->climate.par_umol_m2_s[h], 20.0));
    }
    cr_expect(eq(dbl, counted(b, "rows of a time already read", "count"), 2 * 144.0));
    cr_expect(epsilon_eq(dbl, b->climate.dli_mol_m2_d[2], 20.0 * 0.0864, 1e-12));
    cr_expect(b->climate.light_from_log);
    bench_free(b);
}

/* ---- days ---- */

Test(climate, a_daily_row_gets_the_sine_between_its_ends_and_keeps_its_mean)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("date,tmin_c,tmax_c,dli_mol_m2_d\n", f);
    for (int d = 1; d <= 10; d++)
        fprintf(f, "2026-05-%02d,14,26,18\n", d);
    logs_end(b, f);
    must_run(b);
    for (int d = 0; d < 10; d++) {
        cr_expect(epsilon_eq(dbl, b->climate.tmean_c[d], 20.0, 1e-6), "%g", b->climate.tmean_c[d]);
        cr_expect(epsilon_eq(dbl, b->climate.dli_mol_m2_d[d], 18.0, 1e-9));
        cr_expect(eq(dbl, b->climate.hours_logged[d], 24.0));
    }
    /* hours are middles: the extremes of the curve lie within half an hour of 14.5 and 2.5 h */
    cr_expect(epsilon_eq(dbl, b->climate.tmin_c[4], 14.0, 0.06));
    cr_expect(epsilon_eq(dbl, b->climate.tmax_c[4], 26.0, 0.06));
    cr_expect(lt(dbl, b->climate.t_c[96 + 8], b->climate.t_c[96 + 14]));
    cr_expect(eq(dbl, b->climate.par_umol_m2_s[96 + 1], 0.0));
    cr_expect(lt(dbl, b->climate.par_umol_m2_s[96 + 8], b->climate.par_umol_m2_s[96 + 12]));
    cr_expect(b->climate.light_from_log);
    bench_free(b);
}

Test(climate, light_above_what_the_sun_let_in_is_spread_evenly_over_the_lamp_hours)
{
    struct bench *b = bench_make(), *dark = bench_make();
    FILE *f = new_file(b);

    must_run(dark); /* what the sun lets in, without lamps */
    fputs("date,tmean_c,dli_mol_m2_d\n", f);
    for (int d = 1; d <= 10; d++)
        fprintf(f, "2026-05-%02d,21.5,%.10g\n", d, dark->climate.dli_mol_m2_d[d - 1] + 7.2);
    logs_end(b, f);
    b->request.longitude_deg = NAN; /* solar hours are clock hours */
    dark->request.longitude_deg = NAN;
    b->request.lamps_on_h = 20.0;
    b->request.lamps_off_h = 6.0;
    must_run(b);
    /* 7.2 mol over 10 hours: 200 umol m-2 s-1 */
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[48 + 22], 200.0, 1e-6));
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[48 + 2], 200.0, 1e-6));
    cr_expect(
        epsilon_eq(dbl, b->climate.dli_mol_m2_d[2], dark->climate.dli_mol_m2_d[2] + 7.2, 1e-6));
    /* the mean is kept, the course is the outlook's */
    cr_expect(epsilon_eq(dbl, b->climate.tmean_c[2], 21.5, 1e-9));
    cr_expect(lt(dbl, 1.0, b->climate.tmax_c[2] - b->climate.tmin_c[2]));
    bench_free(b);
    bench_free(dark);
}

/* [allen76]: from yesterday's maximum down to today's minimum, up, and down to tomorrow's minimum
 */
Test(climate, the_curve_of_a_day_runs_from_end_to_end_without_a_step)
{
    cr_expect(epsilon_eq(dbl, vh_day_sine(14.5, 14.5, 10, 20, 24, 13), 20.0, 1e-12));
    cr_expect(epsilon_eq(dbl, vh_day_sine(14.5, 2.5, 10, 20, 24, 13), 10.0, 1e-12));
    cr_expect(epsilon_eq(dbl, vh_day_sine(14.5, 8.5, 10, 20, 24, 13), 15.0, 1e-12));
    /* midnight belongs to both days: the evening of one is the night of the next */
    cr_expect(epsilon_eq(dbl, vh_day_sine(14.5, 24.0, 10, 20, 24, 13),
                         vh_day_sine(14.5, 0.0, 13, 22, 20, 11), 1e-12));
    cr_expect(epsilon_eq(dbl, vh_day_sine(14.5, 0.0, 10, 20, 24, 13),
                         17.0 + 7.0 * cos(M_PI * 14.5 / 12.0), 1e-9));
}

/* ---- outlook ---- */

Test(climate, four_temperatures_and_a_sky_make_a_year_with_the_right_months)
{
    struct bench *b = bench_make();
    double july = 0.0, january = 0.0, light = 0.0;

    b->request.first_day = day_of("2026-01-01");
    b->request.last_day = day_of("2026-12-31");
    b->request.today = day_of("2025-12-31");
    must_run(b);
    for (int d = 0; d < 31; d++) {
        for (int h = 0; h < 24; h++) {
            january += b->climate.t_out_c[d * 24 + h] / (31 * 24);
            july += b->climate.t_out_c[(d + 181) * 24 + h] / (31 * 24);
        }
        light += b->climate.dli_mol_m2_d[d + 181] / 31;
    }
    cr_expect(epsilon_eq(dbl, january, -7.0, 0.02), "%g", january);
    cr_expect(epsilon_eq(dbl, july, 22.0, 0.02), "%g", july);
    /* mixed sky: half of Ra (FAO-56 table 2.6 at 44 N: July 40.7) x cover x 0.5 x 4.57; 0.5
     * for 44.5 N */
    cr_expect(epsilon_eq(dbl, light, 0.5 * 40.7 * 0.6 * 0.5 * 4.57, 0.3), "%g", light);
    cr_expect(eq(dbl, b->climate.tmin_c[15], 17.0)); /* heated in winter nights */
    cr_expect(eq(dbl, b->climate.hours_logged[200], 0.0));
    cr_expect(eq(i64, b->climate.last_logged_day, INT64_MIN));
    cr_expect(isnan(b->climate.heating_kwh[0]));
    bench_free(b);
}

Test(climate, south_of_the_equator_january_is_the_warmest_month)
{
    struct bench *b = bench_make();

    b->request.latitude_deg = -36;
    b->request.first_day = day_of("2026-01-01");
    b->request.last_day = day_of("2026-07-31");
    must_run(b);
    cr_expect(lt(dbl, 25.0, b->climate.t_out_c[15 * 24 + 14]));
    cr_expect(lt(dbl, b->climate.t_out_c[200 * 24 + 3], 0.0));
    bench_free(b);
}

static void write_normals(struct bench *b, const char *last_column, double value)
{
    FILE *f = new_file(b);
    /* invented */
    static const double low[12] = {-10, -9, -4, 2, 8, 13, 16, 15, 10, 4, -1, -7};

    fprintf(f, "month,tmin_c,tmax_c%s%s\n", *last_column ? "," : "", last_column);
    for (int i = 0; i < 12; i++) {
        fprintf(f, "%d,%g,%g", i + 1, low[i], low[i] + 11.0);
        if (*last_column)
            fprintf(f, ",%g", value);
        fputs("\n", f);
    }
    fclose(f);
    b->request.has_roughly = false;
    b->request.normals = b->name[b->files - 1];
}

Test(climate, normals_keep_the_mean_of_each_month)
{
    struct bench *b = bench_make();
    static const int length[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    static const double low[12] = {-10, -9, -4, 2, 8, 13, 16, 15, 10, 4, -1, -7};

    write_normals(b, "radiation_mj_m2_d", 15.0);
    b->request.first_day = day_of("2026-01-01");
    b->request.last_day = day_of("2026-12-31");
    must_run(b);
    size_t day = 0;
    for (int month = 0; month < 12; month++) {
        double t = 0.0, light = 0.0;
        for (int d = 0; d < length[month]; d++, day++) {
            for (int h = 0; h < 24; h++)
                t += b->climate.t_out_c[day * 24 + (size_t)h] / (24.0 * length[month]);
            light += b->climate.dli_mol_m2_d[day] / length[month];
        }
        /* the day's mean takes a little of its neighbours' ends: at most a fifth of a day's step of
         * 0.2 K */
        cr_expect(epsilon_eq(dbl, t, low[month] + 5.5, 0.04), "month %d: %g", month + 1, t);
        cr_expect(epsilon_eq(dbl, light, 15.0 * 0.6 * 0.5 * 4.57, 1e-9));
    }
    bench_free(b);
}

Test(climate, days_made_from_months_keep_the_means_in_a_common_and_nearly_in_a_leap_year)
{
    static const double mean[12] = {3, 5, 9, 14, 19, 21, 20, 17, 12, 7, 4, 2.5}; /* invented */
    struct vh_normals n;

    vh_normals_none(&n);
    vh_normals_set(&n, VH_NORMAL_RADIATION, mean);
    for (int year = 2025; year <= 2028; year++) {
        double sum[12] = {0};
        int days[12] = {0};
        const int64_t first = vh_day_from_civil((struct vh_civil){year, 1, 1});
        for (int64_t d = first; vh_civil_from_day(d).year == year; d++) {
            const int month = vh_civil_from_day(d).month - 1;
            sum[month] += vh_normals_day(&n, VH_NORMAL_RADIATION, d);
            days[month]++;
        }
        for (int m = 0; m < 12; m++)
            cr_expect(epsilon_eq(dbl, sum[m] / days[m], mean[m], days[1] == 28 ? 1e-9 : 1e-3),
                      "%d-%d", year, m + 1);
    }
    cr_expect(isnan(vh_normals_day(&n, VH_NORMAL_TMIN, 0)));
}

/* eq. 50 with a range of 11 K at 44.5 N, and eq. 35 with no sun at all */
Test(climate, light_is_made_from_sunshine_or_from_the_temperature_range)
{
    struct bench *b = bench_make(), *sunless = bench_make(), *mixed = bench_make();

    write_normals(b, "", 0);
    write_normals(sunless, "sunshine_h", 0);
    must_run(b);
    must_run(sunless);
    must_run(mixed); /* half of Ra */
    for (int d = 0; d < 10; d++) {
        const double ra = mixed->climate.dli_mol_m2_d[d] / 0.5;
        cr_expect(epsilon_eq(dbl, b->climate.dli_mol_m2_d[d] / ra, 0.16 * sqrt(11.0), 1e-3));
        cr_expect(epsilon_eq(dbl, sunless->climate.dli_mol_m2_d[d] / ra, 0.25, 1e-9));
    }
    bench_free(b);
    bench_free(sunless);
    bench_free(mixed);
}

Test(climate, an_outside_file_comes_before_normals_and_a_spell_before_both)
{
    struct bench *b = bench_make();
    struct vh_spell spell = {.day_c = 33, .night_c = 21, .sky = 0};

    write_normals(b, "radiation_mj_m2_d", 15.0);
    FILE *f = new_file(b);
    fputs("time,t_out_c,radiation_out_w_m2\n", f);
    for (int h = 0; h < 5 * 24; h++)
        fprintf(f, "2026-05-%02dT%02d:00,12.5,200\n", 1 + h / 24, h % 24);
    fputs("2027-05-01T00:00,12.5,200\n", f); /* long after the season: passed over in silence */
    fclose(f);
    b->request.outside = b->name[1];
    spell.from = spell.until = day_of("2026-05-03");
    b->request.spell = &spell;
    b->request.spells = 1;
    b->request.today = day_of("2026-05-01"); /* foreseen weather lies after today */
    must_run(b);
    cr_expect(eq(sz, vh_messages_count(b->messages), 0));
    cr_expect(eq(dbl, b->climate.t_out_c[24 + 12], 12.5));
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[24 + 12], 200 * 0.6 * 0.5 * 4.57, 1e-9));
    cr_expect(epsilon_eq(dbl, b->climate.t_out_c[48 + 14], 33.0, 0.1));
    cr_expect(ne(dbl, b->climate.par_umol_m2_s[48 + 12], b->climate.par_umol_m2_s[24 + 12]));
    cr_expect(ne(dbl, b->climate.t_out_c[6 * 24 + 12], 12.5));
    /* the house on a day of 12.5 degC and 200 W m-2: 12.5 + 0.02 x 200 = 16.5, heated to 17 */
    cr_expect(eq(dbl, b->climate.t_c[24 + 12], 17.0));
    bench_free(b);
}

static double inside_of(double outside_c, double radiation)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_out_c,radiation_out_w_m2\n", f);
    for (int h = 0; h < 240; h++)
        fprintf(f, "2026-05-%02dT%02d:00,%g,%g\n", 1 + h / 24, h % 24, outside_c, radiation);
    fclose(f);
    b->request.outside = b->name[0];
    b->request.heat_loss_w_k = 900;
    must_run(b);
    const double inside = b->climate.t_c[100], kwh = b->climate.heating_kwh[4];
    const double lack = vh_max(17.0 - outside_c - 0.02 * radiation, 0.0);
    cr_expect(epsilon_eq(dbl, kwh, 0.9 * 24.0 * lack, 1e-9), "%g", kwh);
    bench_free(b);
    return inside;
}

/* max(T_heat, min(T_out + gain R, max(T_vent, T_out + lift))), 17, 0.02, 24, 3 */
Test(climate, the_house_is_heated_warmed_by_the_sun_and_vented)
{
    cr_expect(epsilon_eq(dbl, inside_of(5, 0), 17.0, 1e-9));
    cr_expect(epsilon_eq(dbl, inside_of(10, 500), 20.0, 1e-9));
    cr_expect(epsilon_eq(dbl, inside_of(18, 800), 24.0, 1e-9));
    cr_expect(epsilon_eq(dbl, inside_of(30, 800), 33.0, 1e-9));
    cr_expect(epsilon_eq(dbl, inside_of(30, 50), 31.0, 1e-9));
}

/* recorded 20 degC: over 10 outside the heater gave 10 K, over 19 (above its 17) nothing */
Test(climate, a_recorded_house_is_heated_only_while_it_would_fall_below_its_set_point)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_air_c,t_out_c,radiation_out_w_m2\n", f);
    for (int h = 0; h < 240; h++)
        fprintf(f, "2026-05-%02dT%02d:00,20,%d,0\n", 1 + h / 24, h % 24, h < 120 ? 10 : 19);
    logs_end(b, f);
    b->request.heat_loss_w_k = 1000;
    must_run(b);
    cr_expect(epsilon_eq(dbl, b->climate.heating_kwh[2], 240.0, 1e-9));
    cr_expect(eq(dbl, b->climate.heating_kwh[7], 0.0));
    bench_free(b);
}

/* Outside, ten days of the same dull light around the clock. */
static void dull_outside(struct bench *b)
{
    FILE *f = new_file(b);

    fputs("time,t_out_c,radiation_out_w_m2\n", f);
    for (int h = 0; h < 240; h++)
        fprintf(f, "2026-05-%02dT%02d:00,15,100\n", 1 + h / 24, h % 24);
    fclose(f);
    b->request.outside = b->name[1];
    b->request.longitude_deg = NAN;
}

Test(climate, shade_lamps_and_recorded_lamps_add_to_light_computed_from_outside)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_air_c,lamps_pct\n", f);
    for (int h = 0; h < 48; h++)
        fprintf(f, "2026-05-%02dT%02d:00,20,%d\n", 1 + h / 24, h % 24, h % 24 == 1 ? 50 : 0);
    logs_end(b, f);
    dull_outside(b);
    b->request.shade_share = 0.25;
    b->request.shade_from = day_of("2026-05-05");
    b->request.shade_until = day_of("2026-05-06");
    b->request.lamps_umol_m2_s = 120;
    b->request.lamps_on_h = 22;
    b->request.lamps_off_h = 2.5;
    must_run(b);
    const double sun = 100 * 0.6 * 0.5 * 4.57;
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[1], sun + 60, 1e-9)); /* recorded: half */
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[23], sun, 1e-9));     /* recorded: off */
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[72 + 23], sun + 120, 1e-9));
    cr_expect(
        epsilon_eq(dbl, b->climate.par_umol_m2_s[72 + 2], sun + 60, 1e-9)); /* half of the hour */
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[72 + 12], sun, 1e-9));
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[96 + 12], sun * 0.75, 1e-9));
    bench_free(b);
}

/* A log of lamps that ends with the hour from midnight: that hour tells too. Of three midnights the
 * lamps burnt in the last alone: a third of their light on those to come. */
Test(climate, the_last_hour_of_a_log_of_lamps_tells_of_hours_to_come)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_air_c,lamps_pct\n", f);
    for (int h = 0; h <= 48; h++)
        fprintf(f, "2026-05-%02dT%02d:00,20,%d\n", 1 + h / 24, h % 24, h == 48 ? 100 : 0);
    logs_end(b, f);
    dull_outside(b);
    b->request.lamps_umol_m2_s = 120;
    b->params.recent_d = 3;
    b->params.recent_half_d = 7;
    must_run(b);
    const double sun = 100 * 0.6 * 0.5 * 4.57;
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[48], sun + 120, 1e-9));
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[72], sun + 40, 1e-9));
    cr_expect(epsilon_eq(dbl, b->climate.par_umol_m2_s[73], sun, 1e-9));
    bench_free(b);
}

/* ---- what cannot be done ---- */

Test(climate, hours_without_any_source_are_one_error_with_their_dates_and_what_helps)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    b->request.has_roughly = false;
    fputs("time,t_air_c,par_umol_m2_s\n", f);
    for (int h = 0; h < 6 * 24; h++)
        fprintf(f, "2026-05-%02dT%02d:00,20,100\n", 1 + h / 24, h % 24);
    logs_end(b, f);
    cr_expect(eq(int, run(b), VH_BAD_INPUT));
    cr_expect(
        eq(int, said(b, "no source of temperature for 4 days from 2026-05-07 to 2026-05-10"), 1));
    cr_expect(eq(int, said(b, "normals"), 2));
    cr_expect(eq(ptr, b->climate.t_c, NULL));
    bench_free(b);
}

Test(climate, light_without_latitude_asks_for_it)
{
    struct bench *b = bench_make();

    b->request.latitude_deg = NAN;
    cr_expect(eq(int, run(b), VH_BAD_INPUT));
    cr_expect(eq(int, said(b, "no source of light"), 1));
    cr_expect(ge(int, said(b, "latitude_deg"), 1));
    bench_free(b);
}

static void expect_refused(const char *text, const char *why)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs(text, f);
    logs_end(b, f);
    cr_expect(eq(int, run(b), VH_BAD_INPUT), "%s", text);
    cr_expect(eq(int, said(b, why), 1), "%s: %s", text,
              vh_messages_count(b->messages) ? vh_messages_at(b->messages, 0)->text
                                             : "(nothing said)");
    cr_expect(eq(ptr, b->climate.t_c, NULL));
    bench_free(b);
}

/* A log is begun with its header: as long as something else tells the weather it stands in. */
Test(climate, a_log_without_a_row_is_refused_only_where_nothing_stands_in)
{
    for (int has_roughly = 0; has_roughly < 2; has_roughly++) {
        struct bench *b = bench_make();
        FILE *f = new_file(b);

        fputs("time,t_air_c\n", f);
        logs_end(b, f);
        b->request.has_roughly = has_roughly;
        cr_expect(eq(int, run(b), has_roughly ? VH_OK : VH_BAD_INPUT));
        cr_expect(eq(int, said(b, "no row below the header"), 1));
        cr_expect(eq(int, (int)vh_messages_count_of(b->messages, VH_ERROR), !has_roughly));
        bench_free(b);
    }
}

Test(climate, wrong_logs_are_refused_with_the_reason)
{
    expect_refused("stamp,warmth\n2026-05-01T00:00,20\n", "the headers are stamp, warmth");
    expect_refused("time,warmth\n2026-05-01T00:00,20\n", "expected are time, date, t_air_c");
    expect_refused("time,t_air_c\nyesterday,20\n", "no readable time");
    expect_refused("time,t_air_c\n2026-02-29T00:00,20\n2026-03-01T00:00,20\n",
                   "1 row has no readable time, \"2026-02-29T00:00\"; write");
    expect_refused("time,t_air_c\n13.5.2026,20\n2026-05-02T00:00,20\n", "no readable time");
    expect_refused("time,t_air_c\n13.5.2026,20\n", "1 row has no readable time; write");
    /* what its own first time shows */
    expect_refused("time,t_air_c\n14/07/2026 10:00,20\n", "as in time = \"%d/%m/%Y %H:%M\"");
    expect_refused("time,t_air_c\n7/14/26 2:05 PM,20\n", "as in time = \"%m/%d/%y %I:%M %p\"");
    expect_refused("time,t_air_c\n14.07.2026 10:00:30,20\n", "as in time = \"%d.%m.%Y %H:%M:%S\"");
    expect_refused("time,t_air_c\n3/4/2026 10:00,20\n",
                   "as in time = \"%m/%d/%Y %H:%M\", or \"%d/%m/%Y %H:%M\"");
    expect_refused("time;t_air_c\n2026-05-01T00:00;20,5\n2026-05-01T01:00;20,5\n",
                   "decimal = \",\"");
    expect_refused("time,t_air_c,t_air_f\n2026-05-01T00:00,20,68\n", "given by two columns");
}

Test(climate, a_mapped_header_that_no_file_has_is_refused)
{
    struct bench *b = bench_make();
    struct vh_column_map map[] = {{.ours = "t_air_c", .theirs = "Temp"}};
    FILE *f = new_file(b);

    fputs("time,t_air_c\n2026-05-01T00:00,20\n", f);
    logs_end(b, f);
    b->request.log_column = map;
    b->request.log_columns = 1;
    cr_expect(eq(int, run(b), VH_BAD_INPUT));
    cr_expect(eq(int, said(b, "no header `Temp` in file0.csv"), 1));
    map[0].ours = "t_airr_c";
    cr_expect(eq(int, run(b), VH_BAD_INPUT));
    cr_expect(eq(int, said(b, "no climate column is called `t_airr_c`"), 1));
    bench_free(b);
}

static void expect_bad_normals(const char *text, const char *why)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs(text, f);
    fclose(f);
    b->request.normals = b->name[0];
    cr_expect(eq(int, run(b), VH_BAD_INPUT), "%s", text);
    cr_expect(eq(int, said(b, why), 1), "%s: %s", text,
              vh_messages_count(b->messages) ? vh_messages_at(b->messages, 0)->text
                                             : "(nothing said)");
    bench_free(b);
}

Test(climate, wrong_normals_are_refused_with_the_reason)
{
    expect_bad_normals("month,tmin_c\n1,2\n",
                       "columns are missing; monthly normals need month, tmin_c, tmax_c");
    expect_bad_normals("month,tmin_c,tmax_c\n1,2,8\n", "month 2 is missing");
    expect_bad_normals("month,tmin_c,tmax_c\n1,2,8\n1,2,8\n", "month 1 stands here twice");
    expect_bad_normals("month,tmin_c,tmax_c\n13,2,8\n", "month `13` is none");
    expect_bad_normals("month,tmin_c,tmax_c\n1.5,2,8\n", "month `1.5` is none");
    expect_bad_normals("month,tmin_c,tmax_c\n1,9,8\n", "tmax_c is below tmin_c");
    expect_bad_normals("month,tmin_c,tmax_c\n1,,8\n", "`tmin_c` is no number");
    expect_bad_normals("month,tmin_c,tmax_c\n1,\"\",8\n", "normals need a value in every month");
    expect_bad_normals("month,tmin_c,tmax_c\n1,2,800\n", "cannot be");
}

/* ---- the parameter rows ---- */

Test(climate, every_house_parameter_has_a_field_of_its_own)
{
    size_t n;
    const struct vh_param_field *field = vh_house_param_fields(&n);

    cr_expect(eq(sz, n * sizeof(double), sizeof(struct vh_house_params)));
    for (size_t i = 0; i < n; i++) {
        for (size_t k = 0; k < i; k++) {
            cr_expect(ne(sz, field[i].offset, field[k].offset));
            cr_expect(ne(int, strcmp(field[i].name, field[k].name), 0));
        }
    }
}

Test(climate, the_rows_of_the_defaults_file_fit_their_fields)
{
    struct bench *b = bench_make();
    struct vh_house_params read = {0};
    struct vh_param_set set = {0};
    size_t n;
    const struct vh_param_field *field = vh_house_param_fields(&n);

    const enum vh_status status = vh_param_read(VINEHAND_TEST_DATA "/../params", "defaults", field,
                                                n, NULL, NULL, &read, &set, b->messages);
    for (size_t i = 0; status != VH_OK && i < vh_messages_count(b->messages); i++)
        cr_log_error("%s", vh_messages_at(b->messages, i)->text);
    cr_expect(eq(int, status, VH_OK));
    cr_expect(eq(sz, set.rows, n));
    cr_expect(eq(dbl, read.solar_constant_mj_m2_min, 0.0820));
    vh_param_set_clear(&set);
    bench_free(b);
}

/* interface.md section 3, file by file; what a log has of outside stands in both. */
static enum vh_status list_column(void *context, const struct vh_brought_column *c)
{
    char *list = context;

    sprintf(list + strlen(list), " %s.%s%s", c->file, c->name, isnan(c->low) ? "" : "#");
    return VH_OK;
}

Test(climate, each_column_is_of_its_files_alone_and_numbers_have_bounds)
{
    char list[2000] = "";

    cr_assert(eq(int, vh_climate_columns(&may_params, list_column, list), VH_OK));
    cr_expect(eq(str, list,
                 " log.time outside.time log.date outside.date log.t_air_c# log.rh_pct#"
                 " log.co2_ppm# log.par_umol_m2_s# log.radiation_in_w_m2#"
                 " log.radiation_out_w_m2# outside.radiation_out_w_m2# log.t_out_c#"
                 " outside.t_out_c# log.lamps_pct# log.tmin_c# log.tmax_c# log.tmean_c#"
                 " log.dli_mol_m2_d# outside.tmin_c# outside.tmax_c#"
                 " outside.radiation_mj_m2_d# outside.sunshine_h# normals.month# normals.tmin_c#"
                 " normals.tmax_c# normals.radiation_mj_m2_d# normals.sunshine_h#"));
}

/* ---- rare rows ---- */

static void write_log(struct bench *b, const char *text)
{
    FILE *f = new_file(b);

    fputs(text, f);
    fclose(f);
}

Test(climate, rare_headers)
{
    char text[500];

    snprintf(text, sizeof text, "%0300d,stamp\n2026-05-01T00:00,20\n", 0);
    expect_refused(text, "the headers are stamp;");
    expect_refused("time,,warmth\n2026-05-01T00:00,,20\n", "the headers are time, warmth;");
    expect_refused("date,t_air_c\nyesterday,20\n", "no readable time");
    expect_refused("date,t_air_c\n,20\n", "no readable time");
    expect_refused("time,t_air_c\n,20\n", "no readable time");
    snprintf(text, sizeof text, "time,t_air_c\n%0100d,20\n", 0); /* too long to be shown */
    expect_refused(text, "no readable time");
    snprintf(text, sizeof text, "date,time,t_air_c\n%070d,%070d,20\n,12:00,20\n,,20\n", 0, 0);
    expect_refused(text, "no readable time");
}

Test(climate, a_mapped_header_beside_one_without_a_name)
{
    struct bench *b = bench_make();
    struct vh_column_map map[] = {{.ours = "t_air_c", .theirs = "Temp"}};

    write_log(b, "time,,Temp\n2026-05-01T00:00,x,21\n2026-05-01T01:00,x,21\n");
    logs(b);
    b->request.log_column = map;
    b->request.log_columns = 1;
    must_run(b);
    cr_expect(eq(dbl, b->climate.t_c[0], 21.0));
    bench_free(b);
}

/* Leaves feel it by day; at night the air gathers what the plants breathe out. A dark day has no
 * other hours. */
Test(climate, co2_of_a_day_is_that_of_its_hours_with_light)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_air_c,par_umol_m2_s,co2_ppm\n", f);
    for (int64_t h = 0; h < 10 * 24; h++) {
        const bool is_day = h % 24 >= 8 && h % 24 < 18;
        stamp(f, (day_of("2026-05-01") * 24 + h) * 60);
        fprintf(f, ",20,%s,%s\n", is_day && h / 24 != 4 ? "300" : "0", is_day ? "800" : "440");
    }
    logs_end(b, f);
    must_run(b);
    cr_expect(epsilon_eq(dbl, b->climate.co2_day_ppm[3], 800.0, 1e-9));
    cr_expect(epsilon_eq(dbl, b->climate.co2_day_ppm[4], (10 * 800.0 + 14 * 440.0) / 24, 1e-9));
    bench_free(b);
}

/* A file of whole days: what is measured by the hour in other files is the mean of the day here. */
Test(climate, rows_of_whole_days)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("date,t_air_c,par_umol_m2_s,co2_ppm\n", f);
    for (int d = 1; d <= 10; d++)
        fprintf(f, "2026-05-%02d,20,200,600\n", d);
    logs_end(b, f);
    must_run(b);
    cr_expect(epsilon_eq(dbl, b->climate.tmean_c[4], 20.0, 1e-6));
    cr_expect(epsilon_eq(dbl, b->climate.dli_mol_m2_d[4], 200 * 86400 / 1e6, 1e-9));
    bench_free(b);

    b = bench_make();
    f = new_file(b);
    fputs("time,radiation_in_w_m2,t_air_c\n", f);
    for (int d = 1; d <= 10; d++) /* the same, told by their distance */
        fprintf(f, "2026-05-%02dT12:00,100,20\n", d);
    logs_end(b, f);
    must_run(b);
    cr_expect(epsilon_eq(dbl, b->climate.dli_mol_m2_d[4], 100 * 86400 / 1e6 * 0.5 * 4.57, 1e-9));
    bench_free(b);

    b = bench_make();
    f = new_file(b);
    fputs("date,radiation_out_w_m2,t_out_c\n", f);
    for (int d = 1; d <= 10; d++)
        fprintf(f, "2026-05-%02d,200,15\n", d);
    fclose(f);
    b->request.outside = b->name[0];
    must_run(b);
    cr_expect(
        epsilon_eq(dbl, b->climate.dli_mol_m2_d[4], 200 * 86400 / 1e6 * 0.6 * 0.5 * 4.57, 1e-9));
    bench_free(b);
}

Test(climate, half_days_turned_days_and_days_that_stand_twice_are_counted)
{
    struct bench *b = bench_make();

    write_log(b, "date,tmin_c,tmax_c,tmean_c\n2026-05-01,14,26,20\n2026-05-01,15,27,21\n"
                 "2026-05-02,14,,\n2026-05-03,,26,\n2026-05-04,26,14,\n2026-05-05,,,\n"
                 "2026-05-05,14,26,\n");
    logs(b);
    must_run(b);
    cr_expect(epsilon_eq(dbl, b->climate.tmean_c[0], 20.0, 1e-6));
    cr_expect(epsilon_eq(dbl, b->climate.tmean_c[4], 20.0, 1e-6));
    cr_expect(eq(dbl, b->climate.hours_logged[1], 0.0));
    cr_expect(eq(dbl, b->climate.hours_logged[3], 0.0));
    bench_free(b);
}

Test(climate, cells_that_are_no_reading)
{
    struct bench *b = bench_make();
    FILE *f = new_file(b);

    fputs("time,t_air_c,rh_pct,lamps_pct\n", f);
    for (int h = 0; h < 24; h++)
        fprintf(f, "2026-05-01T%02d:00,%s,80,0\n", h,
                h == 5   ? "-40"
                : h == 6 ? "\"\""
                : h == 7 ? "out of order since the frost of May"
                         : "20");
    logs_end(b, f);
    b->request.log_offset_c = 1.0;
    must_run(b);
    cr_expect(eq(dbl, b->climate.t_c[0], 19.0));
    cr_expect(eq(dbl, b->climate.t_c[6], 19.0));
    vh_climate_clear(&b->climate);
    b->request.log_offset_c = NAN;
    must_run(b);
    cr_expect(eq(dbl, b->climate.t_c[0], 20.0));
    bench_free(b);
}

/* [climate.format] is the logger's; a weather file may write commas too, or points. */
Test(climate, decimal_signs_of_a_weather_file)
{
    static const struct {
        char decimal;
        const char *cell;
        double t_c;
    } cases[] = {{',', "12,5", 12.5},
                 {',', "12.5", 12.5},
                 {',', "x", NAN},
                 {'.', "12,5", NAN},
                 {'.', "12.5", 12.5}};

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct bench *b = bench_make();
        FILE *f = new_file(b);
        fputs("time;t_out_c;radiation_out_w_m2\n", f);
        for (int h = 0; h < 24; h++)
            fprintf(f, "2026-05-02T%02d:00;%s;200\n", h, h == 12 ? cases[i].cell : "10");
        fclose(f);
        b->request.outside = b->name[0];
        b->request.decimal = cases[i].decimal;
        must_run(b);
        if (isnan(cases[i].t_c))
            cr_expect(epsilon_eq(dbl, b->climate.t_out_c[24 + 12], 10.0, 1e-9), "case %zu", i);
        else
            cr_expect(eq(dbl, b->climate.t_out_c[24 + 12], cases[i].t_c), "case %zu", i);
        bench_free(b);
    }
}

/* The logger's pattern is not the weather file's. */
Test(climate, times_of_a_weather_file_may_be_iso_beside_a_pattern)
{
    struct bench *b = bench_make();
    char pattern[] = "%d.%m.%Y %H:%M";

    write_log(b, "time,t_out_c\n2026-05-01T00:00,12\n2026-05-01T01:00,12\n01.05.2026 02:00,12\n");
    b->request.outside = b->name[0];
    b->request.time_pattern = pattern;
    must_run(b);
    cr_expect(eq(dbl, b->climate.t_out_c[1], 12.0));
    cr_expect(eq(dbl, b->climate.t_out_c[2], 12.0));
    bench_free(b);
    b = bench_make();
    write_log(b, "time,t_air_c\n2026-05-01T00:00,12\n");
    logs(b); /* but the logger's is */
    b->request.time_pattern = pattern;
    cr_expect(eq(int, run(b), VH_BAD_INPUT));
    cr_expect(eq(int, said(b, "no readable time"), 1));
    bench_free(b);
    b = bench_make();
    write_log(b, "time,t_out_c\n1st of May,12\n");
    b->request.outside = b->name[0];
    b->request.time_pattern = pattern;
    cr_expect(eq(int, run(b), VH_BAD_INPUT));
    cr_expect(eq(int, said(b, "no readable time"), 1));
    bench_free(b);
}

/* An hour and a minute after the last reading: no whole hour is lost, the reading holds its hour.
 */
Test(climate, a_pause_that_loses_no_whole_hour)
{
    struct bench *b = bench_make();

    write_log(b, "time,t_air_c\n2026-05-01T00:01,20\n2026-05-01T01:01,20\n2026-05-01T02:02,20\n"
                 "2026-05-01T03:01,20\n2026-05-01T04:01,20\n");
    logs(b);
    must_run(b);
    cr_expect(eq(dbl, b->climate.t_c[2], 20.0));
    cr_expect(eq(int, said(b, "gap"), 0));
    bench_free(b);
}

/* The doubled hour as the first rows of a file, newest first with a jump of more than a day, and of
 * two years running. */
Test(climate, doubled_hours_at_the_edges_of_a_file)
{
    static const char *const texts[] = {
        "time,t_air_c\n2026-11-01 01:00,20\n2026-11-01 01:30,20\n2026-11-01 01:00,21\n"
        "2026-11-01 01:30,21\n2026-11-01 01:30,21\n2026-11-01 02:00,22\n",
        "time,t_air_c\n2026-11-03 05:00,20\n2026-11-01 01:30,20\n2026-11-01 01:00,20\n",
        "time,t_air_c\n2026-11-01 02:00,22\n2026-11-01 01:30,21\n2026-11-01 01:00,21\n"
        "2026-11-01 01:30,20\n2026-11-01 01:30,20\n2026-11-01 01:00,20\n2026-11-01 00:30,20\n",
        "time,t_air_c\n2025-11-02 01:30,20\n2026-11-01 01:30,20\n",
    };
    static const double second[] = {20, 20, 20, 20}; /* 01:00 daylight = 00:00 standard */

    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct bench *b = bench_make();
        b->request.first_day = day_of("2026-10-30");
        b->request.last_day = b->request.today = day_of("2026-11-03");
        b->request.log_clock = VH_CLOCK_US;
        write_log(b, texts[i]);
        logs(b);
        must_run(b);
        cr_expect(eq(dbl, b->climate.t_c[2 * 24], second[i]), "file %zu", i);
        if (i == 0 || i == 2)
            cr_expect(eq(dbl, b->climate.t_c[2 * 24 + 1], 21.0), "file %zu", i);
        bench_free(b);
    }
}

/* What a thermometer shows outside in a hard winter would be a fault of one inside: the outside
 * file has limits of its own, of both ends of the day. */
Test(climate, outside_may_be_colder_than_a_logger_inside_may_say)
{
    struct bench *b = bench_make();

    write_log(b,
              "date,tmin_c,tmax_c\n2026-05-01,-31,-22\n2026-05-02,-31,-22\n2026-05-03,-31,-22\n");
    b->request.outside = b->name[0];
    b->request.first_day = day_of("2026-05-01");
    b->request.last_day = b->request.today = day_of("2026-05-03");
    must_run(b);
    double least = 100.0, most = -100.0;
    for (size_t h = 24; h < 2 * 24; h++) { /* the day that lies between two others */
        least = fmin(least, b->climate.t_out_c[h]);
        most = fmax(most, b->climate.t_out_c[h]);
    }
    cr_expect(epsilon_eq(dbl, least, -31.0, 0.2));
    cr_expect(epsilon_eq(dbl, most, -22.0, 0.2));
    bench_free(b);
}

/* Directive 2000/84/EC: back at 01:00 UTC everywhere; one hour behind UTC (the Azores) that is at
 * midnight, so the doubled hour begins with a day's first minute. */
Test(climate, a_doubled_hour_may_begin_at_midnight)
{
    struct bench *b = bench_make();

    b->request.first_day = day_of("2026-10-24");
    b->request.last_day = b->request.today = day_of("2026-10-26");
    b->request.log_clock = VH_CLOCK_EU;
    b->request.utc_offset_min = -60;
    write_log(b, "time,t_air_c\n2026-10-25 00:00,20\n2026-10-25 00:30,22\n2026-10-25 00:00,24\n"
                 "2026-10-25 00:30,26\n2026-10-25 01:00,28\n");
    logs(b);
    must_run(b);
    cr_expect(eq(dbl, b->climate.t_c[23], 21.0));
    cr_expect(eq(dbl, b->climate.t_c[24], 25.0));
    cr_expect(eq(dbl, b->climate.t_c[25], 28.0));
    bench_free(b);
}

Test(climate, rare_normals)
{
    expect_bad_normals("tmin_c,tmax_c\n2,8\n", "month, tmin_c, tmax_c");
    expect_bad_normals("month,tmax_c\n1,8\n", "month, tmin_c, tmax_c");
    expect_bad_normals("month,tmin_c,tmax_c\n,2,8\n", "month `` is none");
    expect_bad_normals("month,tmin_c,tmax_c\n\"\",2,8\n", "month `` is none");
    expect_bad_normals("month,tmin_c,tmax_c\nMay,2,8\n", "month `May` is none");
    expect_bad_normals("month,tmin_c,tmax_c\n0,2,8\n", "month `0` is none");
    expect_bad_normals("month,tmin_c,tmax_c,\n1,-200,8,\n", "cannot be");
    expect_bad_normals("month,tmin_c,tmax_c\n1,x,8\n",
                       "`tmin_c` is no number, \"x\"; write digits alone");
    expect_bad_normals("month;tmin_c;tmax_c\n1;2,5;8\n",
                       "`tmin_c` is no number, \"2,5\"; write 2.5");
    struct bench *b = bench_make();
    FILE *f = new_file(b);
    fputs("month;tmin_c;tmax_c\n", f);
    for (int i = 1; i <= 12; i++)
        fprintf(f, "%d;2,5;8.5\n", i);
    fclose(f);
    b->request.has_roughly = false;
    b->request.normals = b->name[0];
    b->request.decimal = ',';
    must_run(b);
    bench_free(b);
    b = bench_make();
    write_log(b, "month;tmin_c;tmax_c\n1;x;8\n");
    b->request.normals = b->name[0];
    b->request.decimal = ',';
    cr_expect(eq(int, run(b), VH_BAD_INPUT));
    cr_expect(eq(int, said(b, "`tmin_c` is no number"), 1));
    bench_free(b);
}

/* The middle one of all steps: two of 5 minutes and three of 15, by hand. */
Test(climate, the_typical_step_is_the_middle_one)
{
    static const size_t at[] = {10, 15, 20, 35, 50, 65};
    struct vh_minutes m;

    cr_assert(eq(int, vh_minutes_init(&m, 1000), VH_OK));
    cr_expect(eq(int, vh_minutes_typical_step(&m, 60), 60));
    for (size_t i = 0; i < sizeof at / sizeof at[0]; i++)
        vh_minutes_add(&m, at[i]);
    cr_expect(eq(int, vh_minutes_typical_step(&m, 60), 15));
    vh_minutes_add(&m, 70);
    cr_expect(eq(int, vh_minutes_typical_step(&m, 60), 5));
    vh_minutes_clear(&m);

    cr_assert(eq(int, vh_minutes_init(&m, 1000), VH_OK)); /* one step, then two: the shorter */
    vh_minutes_add(&m, 10);
    vh_minutes_add(&m, 40);
    cr_expect(eq(int, vh_minutes_typical_step(&m, 60), 30));
    vh_minutes_add(&m, 60);
    cr_expect(eq(int, vh_minutes_typical_step(&m, 60), 20));
    vh_minutes_clear(&m);
}
