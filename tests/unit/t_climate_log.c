/* What loggers do: gaps, sensors that stand still, spikes, rows twice. */
#include "climate_bench.h"

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

Test(climate_log, a_gap_of_two_hours_is_a_straight_line)
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
Test(climate_log, an_old_gap_stands_in_the_table_alone)
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

Test(climate_log, a_gap_of_ten_hours_is_left_to_the_outlook_and_reported_once)
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

Test(climate_log, a_sensor_that_stands_still_is_told_with_its_lines_and_its_readings_stay)
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

Test(climate_log, a_sensor_is_stuck_from_so_many_hours_on_and_not_an_hour_earlier)
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
Test(climate_log, a_stuck_sensor_may_miss_what_is_interpolated)
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
Test(climate_log, coarse_rows_count_by_their_readings)
{
    struct bench *b = bench_make();

    log_that_sticks(b, 6, 30, 0, 0);
    must_run(b);
    cr_expect(eq(int, said(b, stuck), 0));
    bench_free(b);
}

/* Of 4 May, told on the 10th. */
Test(climate_log, old_faults_stand_in_the_table_alone)
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

Test(climate_log,
     repeated_rows_spikes_and_impossible_values_are_counted_with_their_lines_and_left_out)
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

Test(climate_log, rows_after_today_are_counted_and_not_used)
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

Test(climate_log, a_log_that_ended_days_ago_is_one_note)
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

Test(climate_log, a_clock_set_back_is_told_once)
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

/* An hour and a minute after the last reading: no whole hour is lost, the reading holds its hour.
 */
Test(climate_log, a_pause_that_loses_no_whole_hour)
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

/* What a thermometer shows outside in a hard winter would be a fault of one inside: the outside
 * file has limits of its own, of both ends of the day. */
Test(climate_log, outside_may_be_colder_than_a_logger_inside_may_say)
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

/* The middle one of all steps: two of 5 minutes and three of 15, by hand. */
Test(climate_log, the_typical_step_is_the_middle_one)
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
