/* One vine of each planting to the scale of the house: wire, laid and hanging stem, string, fruit.
 */
#include "vh_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double wide = 704.0, room = 24.0, most_height = 420.0, hooks_beside = 3.0;
static const double fruit_radius = 4.0, flower_radius = 2.2, under_floor = 20.0;

/* All in cm, on one day. */
struct vine {
    bool known;
    double wire, base, floor; /* heights of the wire, of the laid stem, least of the fruit */
    double stem, laid, head, lean_deg, lowest;
    double apart; /* plants in the row */
    double hang;  /* a truss below its joint */
    double picking, flowering;
};

static struct vine vine_of(const struct vh_page *p, const char *planting, double day)
{
    const struct vh_table *stem = vh_page_table(p, "stem"), *house = vh_page_table(p, "summary");
    struct vine v = {.known = false};

    for (size_t i = 0; house && i < vh_table_rows(house); i++) {
        if (strcmp(vh_cell_text(house, i, "planting"), planting) != 0)
            continue;
        v.wire = vh_cell_number(house, i, "wire_cm");
        v.base = vh_cell_number(house, i, "laid_height_cm");
        v.floor = vh_cell_number(house, i, "fruit_floor_cm");
        v.hang = vh_cell_number(house, i, "truss_hang_cm");
        v.apart = vh_cell_number(house, i, "plants_apart_cm");
    }
    for (size_t i = 0; stem && i < vh_table_rows(stem); i++) {
        if (strcmp(vh_cell_text(stem, i, "planting"), planting) != 0 ||
            vh_cell_number(stem, i, "date") != day)
            continue;
        v.stem = vh_cell_number(stem, i, "stem_cm");
        v.laid = vh_cell_number(stem, i, "laid_cm");
        v.head = vh_cell_number(stem, i, "head_height_cm");
        v.lean_deg = vh_cell_number(stem, i, "lean_deg");
        v.lowest = vh_cell_number(stem, i, "lowest_fruit_cm");
        v.picking = vh_cell_number(stem, i, "picking_truss");
        v.flowering = vh_cell_number(stem, i, "flowering_truss");
        v.known = isfinite(v.laid) && isfinite(v.wire);
    }
    return v;
}

/* Trusses between the one being picked and the one in flower, evenly along the hanging stem. */
static void draw_trusses(struct vh_svg *svg, const struct vine *v, double scale, double x0,
                         double y0)
{
    const double lean = v->lean_deg * acos(-1.0) / 180.0, hanging = v->stem - v->laid;
    const double low =
        isfinite(v->lowest) ? (v->lowest + v->hang - v->base) / fmax(sin(lean), 0.1) : hanging;
    const int first = (int)floor(v->picking), last = (int)floor(v->flowering);
    const double near_head = 20.0; /* of the truss in flower, as hang.flower_below_head_cm */

    for (int k = first; k <= last && last - first < 60; k++) {
        const double share = last > first ? (double)(k - first) / (last - first) : 1.0;
        const double along = low + share * (fmax(hanging - near_head, low) - low);
        const double x = x0 + scale * (v->laid + along * cos(lean));
        const double y = y0 - scale * (v->base + along * sin(lean));
        const bool flower = k == last;
        vh_svg_line(svg, x, y, x, y + scale * v->hang, "thin");
        vh_svg_circle(svg, x, y + scale * v->hang, flower ? flower_radius : fruit_radius,
                      k == first ? "dot" : "ring");
    }
}

static void draw_frame(struct vh_svg *svg, const struct vine *v, double scale, double x0, double y0,
                       double right)
{
    char text[40];

    vh_svg_line(svg, x0 - room / 2.0, y0, right, y0, "axis");
    vh_svg_line(svg, x0 - room / 2.0, y0 - scale * v->wire, right, y0 - scale * v->wire, "kline");
    vh_svg_line(svg, x0, y0 - scale * v->floor, right, y0 - scale * v->floor, "lim");
    snprintf(text, sizeof text, "wire %.0f", v->wire);
    vh_svg_text(svg, x0 - room / 2.0, y0 - scale * v->wire - 6.0, VH_SVG_START, "t", text);
    snprintf(text, sizeof text, "fruit not below %.0f", v->floor);
    vh_svg_text(svg, right, y0 - scale * v->floor - 4.0, VH_SVG_END, "t", text);
    vh_svg_rect(svg, x0 - scale * v->base / 2.0, y0 - scale * v->base, scale * v->base,
                scale * v->base, "kring");
}

static void draw_vine(struct vh_page *p, int planting, const struct vine *v, double width)
{
    const double lean = v->lean_deg * acos(-1.0) / 180.0, rise = v->wire - v->base;
    const double hook = v->laid + rise * cos(lean) / fmax(sin(lean), 0.1);
    const double beside = isfinite(v->apart) ? hooks_beside * v->apart : 0.0;
    const double scale = fmin((width - 2.0 * room) / (hook + beside + v->base),
                              (most_height - 2.0 * room) / v->wire);
    const double height = scale * v->wire + room + under_floor, x0 = room + scale * v->base / 2.0;
    const double y0 = height - under_floor, right = width - room / 2.0;
    struct vh_svg svg;
    char title[120], text[200];

    snprintf(title, sizeof title, "One vine of %.80s, to scale", p->planting[planting]);
    snprintf(text, sizeof text, "Stem %.0f cm, %.0f of it laid down; hook %.0f cm from the root.",
             v->stem, v->laid, hook);
    vh_svg_open(&svg, p->out, width, height, ++p->drawings, vh_page_colour(planting), title, text);
    draw_frame(&svg, v, scale, x0, y0, right);
    for (int k = 1; k <= (int)hooks_beside && isfinite(v->apart); k++) {
        const double x = x0 + scale * (hook + k * v->apart);
        vh_svg_line(&svg, x, y0 - scale * v->wire, x, y0 - scale * v->wire + 6.0, "axis");
    }
    const double along = v->stem - v->laid, tip_x = v->laid + along * cos(lean);
    const double x[] = {x0, x0 + scale * v->laid, x0 + scale * tip_x};
    const double y[] = {y0 - scale * v->base, y0 - scale * v->base, y0 - scale * v->head};
    vh_svg_line(&svg, x[2], y[2], x0 + scale * hook, y0 - scale * v->wire, "axis");
    vh_svg_path(&svg, x, y, 3, "stem");
    draw_trusses(&svg, v, scale, x0, y0);
    snprintf(text, sizeof text, "laid %.0f", v->laid);
    if (v->laid > 0.0)
        vh_svg_text(&svg, x0 + scale * v->laid / 2.0, y0 + under_floor - 6.0, VH_SVG_MIDDLE, "",
                    text);
    vh_svg_close(&svg);
}

static void add_numbers(struct vh_page *p, const struct vine *v)
{
    char said[VH_SAY_ROOM];
    const struct {
        const char *name;
        double cm;
    } line[] = {{"Stem", v->stem},
                {"Laid on the floor", v->laid},
                {"Head at", v->head},
                {"Lowest fruit", v->lowest},
                {"Wire and hooks", v->wire}};

    vh_page_add(p, "<dl class=\"nums\">");
    for (size_t i = 0; i < sizeof line / sizeof line[0]; i++) {
        vh_say_length(line[i].cm, p->units, said);
        if (!said[0])
            continue;
        vh_page_add(p, "<dt>");
        vh_page_say(p, line[i].name);
        vh_page_add(p, "</dt><dd>");
        vh_page_say(p, said);
        vh_page_add(p, "</dd>");
    }
    vh_page_add(p, "</dl>");
}

void vh_report_vine(struct vh_page *p)
{
    static const struct vh_page_column column[] = {
        {"date", "Visit", 0},
        {"planting", "Planting", 0},
        {"lower_cm", "Let out, cm", 0},
        {"turns", "Turns", 1},
        {"hook_moves_cm", "Hook moves, cm", 0},
        {"laid_cm", "Laid, cm", 0},
        {"lowest_fruit_cm", "Lowest fruit, cm", 0},
        {"string_left_m", "String left, m", 1},
    };
    const struct vh_table *t = vh_page_table(p, "lowering");
    char finding[200] = "No vine stands in the house today";
    bool any = false;

    for (int i = 0; i < p->plantings; i++) {
        const struct vine v = vine_of(p, p->planting[i], (double)p->today);
        if (!v.known)
            continue;
        if (!any)
            snprintf(finding, sizeof finding, "%.60s: %.0f cm of stem, %.0f laid down now",
                     p->planting[i], v.stem, v.laid);
        any = true;
    }
    if (!t && !any) {
        vh_page_empty(p, "vine", "The vine in your house",
                      "Give wire_height_m in [house], and lowering is planned and drawn here.");
        return;
    }
    vh_page_part(p, "vine", "The vine in your house, to scale", finding);
    for (int i = 0; i < p->plantings; i++) {
        const struct vine v = vine_of(p, p->planting[i], (double)p->today);
        if (!v.known)
            continue;
        vh_page_add(p, "<div class=\"vine\">");
        vh_page_figure(p, p->planting[i], "today, lengths in cm");
        draw_vine(p, i, &v, wide);
        vh_page_figure_end(p);
        add_numbers(p, &v);
        vh_page_add(p, "</div>");
    }
    vh_page_add(p,
                "<p class=\"key\">Filled: the truss being picked. Rings: green. Short ticks on the "
                "wire are the neighbours\xE2\x80\x99 hooks.</p>");
    if (t)
        vh_page_numbers(p, "Lowering, visit by visit", t, column,
                        (int)(sizeof column / sizeof column[0]));
    vh_page_part_end(p);
}
