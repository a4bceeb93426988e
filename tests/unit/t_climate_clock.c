/* Clocks and times of a log: summer time, offsets, hours that come twice or never. */
#include "climate_bench.h"

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
Test(climate_clock, the_doubled_hour_of_autumn_lands_on_both_its_hours)
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
Test(climate_clock, the_missing_hour_of_spring_leaves_no_gap)
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

Test(climate_clock, a_time_with_its_own_offset_is_converted_by_it)
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

Test(climate_clock, date_and_time_in_two_columns_are_read_as_one)
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

/* The logger's pattern is not the weather file's. */
Test(climate_clock, times_of_a_weather_file_may_be_iso_beside_a_pattern)
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

/* The doubled hour as the first rows of a file, newest first with a jump of more than a day, and of
 * two years running. */
Test(climate_clock, doubled_hours_at_the_edges_of_a_file)
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

/* Directive 2000/84/EC: back at 01:00 UTC everywhere; one hour behind UTC (the Azores) that is at
 * midnight, so the doubled hour begins with a day's first minute. */
Test(climate_clock, a_doubled_hour_may_begin_at_midnight)
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
