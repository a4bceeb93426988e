/* The outlook: hours that no log covers, from four temperatures, normals, weather files and spells;
 * what house, shade and lamps make of them. */
#include "climate_bench.h"
#include "vh_math.h"

Test(climate_outlook, four_temperatures_and_a_sky_make_a_year_with_the_right_months)
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

Test(climate_outlook, south_of_the_equator_january_is_the_warmest_month)
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

Test(climate_outlook, normals_keep_the_mean_of_each_month)
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

Test(climate_outlook, days_made_from_months_keep_the_means_in_a_common_and_nearly_in_a_leap_year)
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
Test(climate_outlook, light_is_made_from_sunshine_or_from_the_temperature_range)
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

Test(climate_outlook, an_outside_file_comes_before_normals_and_a_spell_before_both)
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
Test(climate_outlook, the_house_is_heated_warmed_by_the_sun_and_vented)
{
    cr_expect(epsilon_eq(dbl, inside_of(5, 0), 17.0, 1e-9));
    cr_expect(epsilon_eq(dbl, inside_of(10, 500), 20.0, 1e-9));
    cr_expect(epsilon_eq(dbl, inside_of(18, 800), 24.0, 1e-9));
    cr_expect(epsilon_eq(dbl, inside_of(30, 800), 33.0, 1e-9));
    cr_expect(epsilon_eq(dbl, inside_of(30, 50), 31.0, 1e-9));
}

/* recorded 20 degC: over 10 outside the heater gave 10 K, over 19 (above its 17) nothing */
Test(climate_outlook, a_recorded_house_is_heated_only_while_it_would_fall_below_its_set_point)
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

Test(climate_outlook, shade_lamps_and_recorded_lamps_add_to_light_computed_from_outside)
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
Test(climate_outlook, the_last_hour_of_a_log_of_lamps_tells_of_hours_to_come)
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

Test(climate_outlook, wrong_normals_are_refused_with_the_reason)
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

Test(climate_outlook, rare_normals)
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
