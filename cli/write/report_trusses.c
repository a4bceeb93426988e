/* The truss ladder: each truss on a time line from flower to ripe, read upwards as the vine grows.
 */
#include "vh_report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { ROWS_MOST = 400, DOTTED_MOST = 40, DOTS_MOST = 10 };
static const double top = 32.0, tall_row = 15.0, short_row = 11.0, thin_row = 2.2;
static const double left_dots = 22.0, number_right = 17.0, dot_step = 5.0, dot_radius = 1.9,
                    plot_gap = 8.0;
static const double block = 5.0, under = 24.0, mass_room = 34.0;

struct ladder {
    const struct vh_table *t;
    size_t row[ROWS_MOST];
    int n;
    bool nodes; /* too many to label each one */
    double pull_out;
    double row_height, bottom, left;
    struct vh_svg_scale x;
};

static void read_ladder(const struct vh_page *p, const char *planting, struct ladder *l)
{
    int64_t first, last;
    double most = 0.0;

    *l = (struct ladder){.t = vh_page_table(p, "trusses")};
    for (size_t i = 0; l->t && i < vh_table_rows(l->t) && l->n < ROWS_MOST; i++) {
        if (strcmp(vh_cell_text(l->t, i, "planting"), planting) != 0 ||
            !isfinite(vh_cell_number(l->t, i, "first_flower")))
            continue;
        most = fmax(most, vh_cell_number(l->t, i, "kept") + vh_cell_number(l->t, i, "take_off"));
        l->row[l->n++] = i;
    }
    l->nodes = l->n > DOTTED_MOST;
    l->row_height = l->nodes ? thin_row : l->n > 24 ? short_row : tall_row;
    l->bottom = top + l->row_height * l->n + plot_gap;
    l->left =
        l->nodes ? VH_PANEL_LEFT : left_dots + dot_step * fmin(DOTS_MOST, ceil(most)) + plot_gap;
    l->pull_out = vh_page_summary(p, planting, "pull_out");
    vh_page_season(p, &first, &last);
    l->x = (struct vh_svg_scale){(double)first, (double)last + 1.0, l->left,
                                 VH_PANEL_RIGHT - (l->nodes ? 0.0 : mass_room)};
}

/* Fruits left as dots, those taken off as rings; over ten as words would not fit: left out. */
static void draw_dots(struct vh_svg *svg, const struct ladder *l, size_t row, double y)
{
    const int left = (int)floor(vh_cell_number(l->t, row, "kept") + 0.5);
    const int off = (int)floor(vh_cell_number(l->t, row, "take_off") + 0.5);

    for (int i = 0; i < left + off && i < DOTS_MOST; i++)
        vh_svg_circle(svg, left_dots + dot_step * (i + 0.5), y, dot_radius,
                      i < left ? "known" : "kring");
}

static void draw_row(const struct vh_page *p, struct vh_svg *svg, const struct ladder *l, int k)
{
    const size_t row = l->row[k];
    const double y = l->bottom - plot_gap - l->row_height * (k + 0.5), number_sink = 4.0;
    /* of a crop that stands when the season begins the first flowers lie before it */
    const double flower = fmax(vh_cell_number(l->t, row, "first_flower"), l->x.low);
    const double ripe = vh_cell_number(l->t, row, "first_ripe");
    const double last = vh_cell_number(l->t, row, "last_ripe");
    const double end = isfinite(ripe) ? ripe : fmin(l->pull_out, l->x.high);
    const char *status = vh_cell_text(l->t, row, "status");
    const bool past = !strcmp(status, "picked"), to_come = flower > (double)p->today;
    const double truss = vh_cell_number(l->t, row, "truss");
    char text[24], said[VH_SAY_ROOM];

    if (l->nodes && vh_cell_number(l->t, row, "kept") < 0.05)
        return; /* a stripped node has no line */
    vh_svg_line(svg, vh_svg_at(&l->x, flower), y,
                vh_svg_at(&l->x, fmax(fmin(end, l->x.high), l->x.low)), y,
                past      ? (l->nodes ? "kthin" : "kline")
                : to_come ? (l->nodes ? "thin dash" : "ln dash")
                          : (l->nodes ? "thin" : "ln"));
    if (isfinite(ripe) && isfinite(last) && !l->nodes)
        vh_svg_rect(svg, vh_svg_at(&l->x, ripe), y - block / 2.0,
                    fmax(1.5, vh_svg_at(&l->x, last + 1.0) - vh_svg_at(&l->x, ripe)), block,
                    past ? "known" : "dot");
    if (l->nodes ? fmod(truss, 20.0) == 0.0
                 : l->row_height >= tall_row || fmod(truss, 2.0) == 0.0) {
        snprintf(text, sizeof text, "%.0f", truss);
        vh_svg_text(svg, l->nodes ? l->left - 5.0 : number_right, y + number_sink, VH_SVG_END, "t",
                    text);
        vh_say_fruit_mass(vh_cell_number(l->t, row, "fruit_g"), p->units, said);
        if (!l->nodes && said[0])
            vh_svg_text(svg, VH_PANEL_RIGHT + plot_gap, y + number_sink, VH_SVG_END, "", said);
    }
    if (!l->nodes)
        draw_dots(svg, l, row, y);
}

static void draw_panel(struct vh_page *p, int planting)
{
    struct ladder l;
    struct vh_svg svg;
    char title[200], text[200];

    read_ladder(p, p->planting[planting], &l);
    snprintf(title, sizeof title, "%.100s: each truss from flower to ripe", p->planting[planting]);
    snprintf(text, sizeof text, "%d in flower so far or to come in this season.", l.n);
    vh_page_drawing(p, &svg, l.bottom + under, planting, title, text);
    vh_svg_month_axis(&svg, &l.x, l.bottom);
    for (int k = 0; k < l.n; k++)
        draw_row(p, &svg, &l, k);
    if ((double)p->today > l.x.low && (double)p->today < l.x.high)
        vh_svg_today(&svg, vh_svg_at(&l.x, (double)p->today), top - 10.0, l.bottom);
    vh_svg_close(&svg);
}

/* Least and most days from flower to ripe of a planting's trusses. */
static void say_days(const struct vh_page *p, int planting, char *said, size_t room)
{
    struct ladder l;
    double least = (double)INFINITY, most = 0.0;
    char name[VH_PAGE_SHORT];

    read_ladder(p, p->planting[planting], &l);
    for (int k = 0; k < l.n; k++) {
        const double d = vh_cell_number(l.t, l.row[k], "days_flower_to_ripe");
        if (!isfinite(d) || vh_cell_number(l.t, l.row[k], "kept") < 0.05)
            continue;
        least = fmin(least, d);
        most = fmax(most, d);
    }
    if (most > 0.0)
        snprintf(said, room, "%.60s take %.0f to %.0f days from flower to ripe",
                 vh_page_short(p->planting[planting], name), least, most);
    else
        said[0] = 0;
}

void vh_report_trusses(struct vh_page *p)
{
    static const struct vh_page_column column[] = {
        {"planting", "Planting", 0},        {"truss", "Truss", 0},
        {"first_flower", "In flower", 0},   {"kept", "Left", 1},
        {"take_off", "Taken off", 1},       {"first_ripe", "First ripe", 0},
        {"days_flower_to_ripe", "Days", 0}, {"fruit_g", "g a fruit", 0},
    };
    const struct vh_table *t = vh_page_table(p, "trusses");
    char finding[400] = "", one[160];

    if (!t) {
        vh_page_empty(p, "trusses", "Every truss, flower to ripe", "No truss flowers yet.");
        return;
    }
    for (int i = 0; i < p->plantings && i < 2; i++) {
        say_days(p, i, one, sizeof one);
        snprintf(finding + strlen(finding), sizeof finding - strlen(finding), "%s%s",
                 finding[0] && one[0] ? "; " : "", one);
    }
    vh_page_part(p, "trusses", "Every truss, flower to ripe", finding);
    vh_page_add(p, "<div class=\"three\">");
    for (int i = 0; i < p->plantings; i++) {
        vh_page_figure(p, p->planting[i], "flower to ripe");
        draw_panel(p, i);
        vh_page_figure_end(p);
    }
    vh_page_add(p, "<p class=\"key\"><i class=\"sw kl\"></i>picked. <i class=\"sw ln\"></i>on the "
                   "vine now. <i class=\"sw da\"></i>not yet in flower. The block at the end is "
                   "the picking of that truss. Dots: fruits left; rings: taken off. Read upwards, "
                   "as it grows.</p></div>");
    vh_page_numbers(p, "Trusses", t, column, (int)(sizeof column / sizeof column[0]));
    vh_page_part_end(p);
}
