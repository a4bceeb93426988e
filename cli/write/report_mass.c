/* Fruit mass by truss: the mean fruit of each, its range, and how it falls and rises. */
#include "vh_report.h"
#include "vh_to_come.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { NODES_FROM = 40, NODES_MOST = 600 };
static const double bottom = 182.0, under = 24.0, dot = 3.0, number_drop = 15.0;

struct masses {
    double first, last; /* trusses with a known mass */
    double least, most; /* in the reader's unit, ranges included */
    int n;
};

/* Grams as the reader counts them. */
static double mass_of(const struct vh_page *p, const struct vh_table *t, size_t row,
                      const char *column)
{
    const double g = vh_cell_number(t, row, column);

    return p->units == VH_SAY_US ? vh_say_oz(g) : g;
}

static bool is_row(const struct vh_table *t, size_t i, const char *planting)
{
    return !strcmp(vh_cell_text(t, i, "planting"), planting) &&
           isfinite(vh_cell_number(t, i, "fruit_g"));
}

static struct masses read_masses(const struct vh_page *p, const char *planting)
{
    const struct vh_table *t = vh_page_table(p, "trusses");
    struct masses m = {.first = (double)NAN, .least = (double)INFINITY};

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        if (!is_row(t, i, planting))
            continue;
        const double g = mass_of(p, t, i, "fruit_g"), truss = vh_cell_number(t, i, "truss");
        const double low = mass_of(p, t, i, "fruit_g_p10");
        const double high = mass_of(p, t, i, "fruit_g_p90");
        m.first = isnan(m.first) ? truss : m.first;
        m.last = truss;
        m.least = fmin(m.least, isfinite(low) ? low : g);
        m.most = fmax(m.most, isfinite(high) ? high : g);
        m.n++;
    }
    return m;
}

/* Nodes stand too close for marks of their own: a line and a band, as for weeks. */
static void draw_band(struct vh_page *p, struct vh_svg *svg, const char *planting,
                      const struct vh_svg_scale *x, const struct vh_svg_scale *y)
{
    const struct vh_table *t = vh_page_table(p, "trusses");
    double at[NODES_MOST], g[NODES_MOST], low[NODES_MOST], high[NODES_MOST];
    size_t n = 0, past = 0;

    for (size_t i = 0; i < vh_table_rows(t) && n < NODES_MOST; i++) {
        if (!is_row(t, i, planting))
            continue;
        at[n] = vh_svg_at(x, vh_cell_number(t, i, "truss"));
        g[n] = vh_svg_at(y, mass_of(p, t, i, "fruit_g"));
        low[n] = vh_svg_at(y, mass_of(p, t, i, "fruit_g_p10"));
        high[n++] = vh_svg_at(y, mass_of(p, t, i, "fruit_g_p90"));
        if (!strcmp(vh_cell_text(t, i, "status"), "picked"))
            past = n;
    }
    vh_svg_band(svg, at, low, high, past, "kband");
    vh_svg_band(svg, at + past, low + past, high + past, n - past, "band8");
    vh_svg_path(svg, at, g, past, "kline");
    vh_svg_path(svg, at + past, g + past, n - past, "mid");
}

static void draw_marks(struct vh_page *p, struct vh_svg *svg, const char *planting,
                       const struct vh_svg_scale *x, const struct vh_svg_scale *y)
{
    const struct vh_table *t = vh_page_table(p, "trusses");

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (!is_row(t, i, planting))
            continue;
        const bool past = !strcmp(vh_cell_text(t, i, "status"), "picked");
        const double at = vh_svg_at(x, vh_cell_number(t, i, "truss"));
        const double low = mass_of(p, t, i, "fruit_g_p10");
        if (isfinite(low))
            vh_svg_line(svg, at, vh_svg_at(y, low), at,
                        vh_svg_at(y, mass_of(p, t, i, "fruit_g_p90")), past ? "kthin" : "thin");
        vh_svg_circle(svg, at, vh_svg_at(y, mass_of(p, t, i, "fruit_g")), dot,
                      past ? "known" : "dot");
    }
}

static void draw_numbers(struct vh_svg *svg, const struct vh_svg_scale *x, const struct masses *m)
{
    const double every = m->last - m->first > 60.0   ? 20.0
                         : m->last - m->first > 20.0 ? 5.0
                         : m->last - m->first > 8.0  ? 2.0
                                                     : 1.0;
    char text[24];

    vh_svg_line(svg, VH_PANEL_LEFT, bottom, VH_PANEL_RIGHT, bottom, "axis");
    for (double k = every * ceil(m->first / every); k <= m->last; k += every) {
        snprintf(text, sizeof text, "%.0f", k);
        vh_svg_text(svg, vh_svg_at(x, k), bottom + number_drop, VH_SVG_MIDDLE, "t", text);
    }
}

/* Where a grade begins, within the axis: dotted, with its name. */
static void draw_grades(struct vh_page *p, struct vh_svg *svg, const char *planting,
                        const struct vh_svg_scale *y)
{
    const struct vh_table *t = vh_page_table(p, "grades");

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double from = mass_of(p, t, i, "from_g");
        if (strcmp(vh_cell_text(t, i, "planting"), planting) != 0 || !(from > y->low) ||
            !(from < y->high))
            continue;
        vh_svg_line(svg, VH_PANEL_LEFT, vh_svg_at(y, from), VH_PANEL_RIGHT, vh_svg_at(y, from),
                    "lim");
        vh_svg_limit_name(svg, VH_PANEL_LEFT, VH_PANEL_RIGHT, vh_svg_at(y, from),
                          vh_cell_text(t, i, "grade"));
    }
}

static void draw_panel(struct vh_page *p, int planting)
{
    const struct masses m = read_masses(p, p->planting[planting]);
    const struct vh_fruit_to_come to_come =
        vh_fruit_to_come(vh_page_table(p, "trusses"), p->planting[planting]);
    const double room = 0.05 * (m.most - m.least) + 1.0;
    struct vh_svg svg;
    char title[160], text[160], mass[VH_SAY_ROOM];
    double step;

    snprintf(title, sizeof title, "%.100s: fruit mass", p->planting[planting]);
    vh_say_fruit_mass(to_come.mean_g, p->units, mass);
    snprintf(text, sizeof text, "Mean of those to come: %s.", mass[0] ? mass : "none");
    vh_page_drawing(p, &svg, bottom + under, planting, title, text);
    if (m.n == 0) {
        vh_svg_why(&svg, bottom / 2.0, "No fruit is picked in this season.");
        vh_svg_close(&svg);
        return;
    }
    const struct vh_svg_scale x = {m.first - 1.0, m.last + 1.0, VH_PANEL_LEFT, VH_PANEL_RIGHT};
    const struct vh_svg_scale y =
        vh_svg_amounts(fmax(0.0, m.least - room), m.most + room, bottom, VH_PANEL_TOP, &step);
    vh_svg_amount_axis(&svg, &y, step, VH_PANEL_LEFT, VH_PANEL_RIGHT,
                       p->units == VH_SAY_US ? "oz a fruit" : "g a fruit");
    draw_numbers(&svg, &x, &m);
    if (m.n > NODES_FROM)
        draw_band(p, &svg, p->planting[planting], &x, &y);
    else
        draw_marks(p, &svg, p->planting[planting], &x, &y);
    draw_grades(p, &svg, p->planting[planting], &y);
    vh_svg_close(&svg);
}

void vh_report_mass(struct vh_page *p)
{
    static const struct vh_page_column column[] = {
        {"planting", "Planting", 0}, {"truss", "Truss", 0},      {"fruit_g", "g", 0},
        {"fruit_g_p10", "low", 0},   {"fruit_g_p90", "high", 0}, {"diameter_mm", "mm across", 0},
    };
    const struct vh_table *t = vh_page_table(p, "trusses");
    char finding[300] = "", mass[VH_SAY_ROOM], low[VH_SAY_ROOM];

    if (!t || p->plantings == 0)
        return;
    const struct vh_fruit_to_come to_come = vh_fruit_to_come(t, p->planting[0]);
    vh_say_fruit_mass(to_come.mean_g, p->units, mass);
    vh_say_fruit_mass(to_come.low_g, p->units, low);
    if (mass[0])
        snprintf(finding, sizeof finding,
                 "%.60s to come weigh about %s; %s %.0f has the smallest%s, %s", p->planting[0],
                 mass, vh_page_by_node(p, p->planting[0]) ? "node" : "truss", to_come.low_truss,
                 to_come.cut_is_smaller ? " of those ripe in time" : "", low);
    else
        snprintf(finding, sizeof finding, "All that will be picked has been picked");
    vh_page_part(p, "mass", "Fruit mass by truss", finding);
    vh_page_add(p, "<div class=\"three\">");
    for (int i = 0; i < p->plantings; i++) {
        vh_page_figure(p, p->planting[i],
                       vh_page_by_node(p, p->planting[i]) ? "mean fruit by node"
                                                          : "mean fruit by truss");
        draw_panel(p, i);
        vh_page_figure_end(p);
    }
    vh_page_add(p, "<p class=\"key\"><i class=\"sw kl\"></i>picked. <i class=\"sw ln\"></i>"
                   "foreseen. Dot: the mean fruit of a truss or node; upright: where it lies four "
                   "times in five. Numbers below: truss or node, from the ground up. ");
    vh_page_add(p, vh_page_table(p, "grades")
                       ? "<i class=\"sw li\"></i>where a grade begins.</p></div>"
                       : "</p></div>");
    vh_page_numbers(p, "Mean fruit by truss", t, column, (int)(sizeof column / sizeof column[0]));
    vh_page_part_end(p);
}
