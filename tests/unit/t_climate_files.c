/* Forms of climate files: signs, headers, cells, whole days; which are refused, and why. */
#include "climate_bench.h"
#include "vh_climate_columns.h"

Test(climate_files, a_mark_semicolons_decimal_commas_maps_patterns_and_fahrenheit_are_read)
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

Test(climate_files, several_logs_are_merged_by_quantity_and_a_header_that_one_lacks_is_passed_over)
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
Test(climate_files, a_log_without_a_row_is_refused_only_where_nothing_stands_in)
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

Test(climate_files, wrong_logs_are_refused_with_the_reason)
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

Test(climate_files, a_mapped_header_that_no_file_has_is_refused)
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

/* interface.md section 3, file by file; what a log has of outside stands in both. */
static enum vh_status list_column(void *context, const struct vh_brought_column *c)
{
    char *list = context;

    sprintf(list + strlen(list), " %s.%s%s", c->file, c->name, isnan(c->low) ? "" : "#");
    return VH_OK;
}

Test(climate_files, each_column_is_of_its_files_alone_and_numbers_have_bounds)
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

Test(climate_files, rare_headers)
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

Test(climate_files, a_mapped_header_beside_one_without_a_name)
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

/* A file of whole days: what is measured by the hour in other files is the mean of the day here. */
Test(climate_files, rows_of_whole_days)
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

Test(climate_files, half_days_turned_days_and_days_that_stand_twice_are_counted)
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

Test(climate_files, cells_that_are_no_reading)
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
Test(climate_files, decimal_signs_of_a_weather_file)
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
