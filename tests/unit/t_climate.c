/* Hours out of rows, days out of hours, and the parameters of both. */
#include "climate_bench.h"
#include "vh_math.h"

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
