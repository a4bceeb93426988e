/* Climate of the house: temperature, light and hot hours, logged and outlook apart. */
#include "vh_report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { DAYS_MOST = 1200 };
static const double bottom = 182.0, week_d = 7.0;
static const char degree_c[] = "\xC2\xB0"
                               "C",
                  degree_f[] = "\xC2\xB0"
                               "F";

/* Weekly means of a column of climate_days: single days would be a hedge, not a line. */
struct weekly {
    size_t n;
    double day[DAYS_MOST], value[DAYS_MOST];
};

static void read_weekly(const struct vh_page *p, const char *column, bool sum, struct weekly *w)
{
    const struct vh_table *t = vh_page_table(p, "climate_days");
    double total = 0.0;
    int days = 0;

    w->n = 0;
    for (size_t i = 0; t && i < vh_table_rows(t) && w->n < DAYS_MOST; i++) {
        const double value = vh_cell_number(t, i, column), date = vh_cell_number(t, i, "date");
        if (isfinite(value)) {
            total += value;
            days++;
        }
        if (vh_date_weekday((int64_t)date) != 6 && i + 1 < vh_table_rows(t))
            continue;
        w->day[w->n] = date - week_d / 2.0 + 0.5;
        w->value[w->n++] = days == 0 ? (double)NAN : sum ? total : total / days;
        total = 0.0;
        days = 0;
    }
}

static double highest(const struct weekly *w)
{
    double most = 0.0;

    for (size_t i = 0; i < w->n; i++)
        if (isfinite(w->value[i]))
            most = fmax(most, w->value[i]);
    return most;
}

static double lowest(const struct weekly *w)
{
    double least = (double)INFINITY;

    for (size_t i = 0; i < w->n; i++)
        if (isfinite(w->value[i]))
            least = fmin(least, w->value[i]);
    return isfinite(least) ? least : 0.0;
}

static void in_readers_unit(const struct vh_page *p, struct weekly *w)
{
    for (size_t i = 0; i < w->n && p->units == VH_SAY_US; i++)
        w->value[i] = vh_say_f(w->value[i]);
}

static void places(const struct vh_panel *panel, const struct weekly *low,
                   const struct weekly *high, double *x, double *down, double *up)
{
    for (size_t i = 0; i < low->n; i++) {
        x[i] = vh_svg_at(&panel->x, low->day[i]);
        down[i] = vh_svg_at(&panel->y, low->value[i]);
        up[i] = vh_svg_at(&panel->y, high->value[i]);
    }
}

static void draw_temperature(struct vh_page *p)
{
    struct weekly *w = calloc(3, sizeof *w);
    double *x = calloc(3 * (size_t)DAYS_MOST, sizeof *x);
    struct vh_panel panel;

    if (!w || !x) {
        p->out->failed = true;
    } else {
        read_weekly(p, "tmean_c", false, &w[0]);
        read_weekly(p, "tmin_c", false, &w[1]);
        read_weekly(p, "tmax_c", false, &w[2]);
        for (int i = 0; i < 3; i++)
            in_readers_unit(p, &w[i]);
        vh_page_figure(p, "Temperature", "mean, low and high, by week");
        vh_panel_open(p, &panel, 1, bottom, lowest(&w[1]) - 1.0, highest(&w[2]) + 1.0,
                      p->units == VH_SAY_US ? degree_f : degree_c, "Temperature in the house",
                      "Weekly means of the days' mean, low and high.");
        places(&panel, &w[1], &w[2], x, x + DAYS_MOST, x + 2 * DAYS_MOST);
        vh_svg_band(&panel.svg, x, x + DAYS_MOST, x + 2 * DAYS_MOST, w[1].n, "band8");
        vh_panel_line(p, &panel, w[0].day, w[0].value, w[0].n, "kline", "mid");
        vh_svg_close(&panel.svg);
        vh_page_figure_end(p);
    }
    free(w);
    free(x);
}

static void draw_sums(struct vh_page *p, const char *column, bool sum, const char *caption,
                      const char *soft, const char *unit, const char *empty)
{
    struct weekly *w = calloc(1, sizeof *w);
    struct vh_panel panel;

    if (!w) {
        p->out->failed = true;
        return;
    }
    read_weekly(p, column, sum, w);
    const double most = highest(w);
    vh_page_figure(p, caption, soft);
    vh_panel_open(p, &panel, 1, bottom, 0.0, fmax(most, 1.0), unit, caption, soft);
    if (most > 0.0)
        vh_panel_line(p, &panel, w->day, w->value, w->n, "kline", "mid");
    else
        vh_svg_why(&panel.svg, bottom - 20.0, empty);
    vh_svg_close(&panel.svg);
    vh_page_figure_end(p);
    free(w);
}

void vh_report_climate(struct vh_page *p)
{
    static const struct vh_page_column column[] = {
        {"date", "Day", 0},
        {"tmean_c",
         "Mean, \xC2\xB0"
         "C",
         1},
        {"tmin_c", "Lowest", 1},
        {"tmax_c", "Highest", 1},
        {"dli_mol_m2_d", "Light, mol", 1},
        {"hours_above_30_c", "Hours above 30", 0},
        {"hours_logged", "Hours logged", 0},
    };
    const struct vh_table *t = vh_page_table(p, "climate_days"), *house = vh_page_table(p, "house");
    char finding[200], date[VH_SAY_ROOM] = "", hot[VH_SAY_ROOM + 20], limit[VH_SAY_ROOM];

    if (!t)
        return;
    vh_say_date(house ? vh_cell_number(house, 0, "last_logged") : (double)NAN, date);
    if (date[0])
        snprintf(finding, sizeof finding, "Your thermometer to %s, the outlook after that", date);
    else
        snprintf(finding, sizeof finding, "No thermometer log: all of it is an outlook");
    vh_say_degrees(30.0, p->units, "\xC2\xB0", limit);
    snprintf(hot, sizeof hot, "Hours above %s", limit);
    vh_page_part(p, "climate", "Climate of the house", finding);
    vh_page_add(p, "<div class=\"three\">");
    draw_temperature(p);
    draw_sums(p, "dli_mol_m2_d", false, "Light", "above the crop, mean of the week", "mol a day",
              "none");
    draw_sums(p, "hours_above_30_c", true, hot, "in the week", "hours", "none");
    vh_page_add(p, "<p class=\"key pb\"><i class=\"sw kl\"></i>until today, <i class=\"sw ln\"></i>"
                   "outlook.</p></div>");
    vh_page_numbers(p, "Climate by day", t, column, (int)(sizeof column / sizeof column[0]));
    vh_page_part_end(p);
}
