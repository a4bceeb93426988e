/* Vines to the scale of the house: wire, laid and hanging stem, string and fruit, on three days of
 * each planting. */
#include "vh_report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { DAYS_DRAWN = 3, LOOPS_DRAWN = 4, WEEKS_MOST = 60 };
enum { PLANTINGS_BY_WEEK = 4 };
static const double room = 20.0, above = 30.0, under_floor = 20.0, most_rise = 210.0;
static const double hooks_beside = 2.0, steepest_sine = 0.1;
static const double fruit_radius = 3.2, flower_radius = 1.8;

/* All in cm, on one day. */
struct vine {
    bool known;
    double day;
    double wire, base, floor; /* heights of the wire, of the laid stem, least of the fruit */
    double stem, laid, head, lean_deg, lowest;
    double apart;     /* plants in the row */
    double hang;      /* a truss below its joint */
    double near_head; /* from the tip to the truss in flower */
    double container; /* that stems are led around; NaN: they are led along the row */
    double picking, flowering;
};

/* What the vines of a planting share. */
struct scale {
    double per_cm;
    double height; /* of a drawing */
};

static void read_house(const struct vh_page *p, const char *planting, struct vine *v)
{
    v->wire = vh_page_summary(p, planting, "wire_cm");
    v->base = vh_page_summary(p, planting, "laid_height_cm");
    v->floor = vh_page_summary(p, planting, "fruit_floor_cm");
    v->hang = vh_page_summary(p, planting, "truss_hang_cm");
    v->apart = vh_page_summary(p, planting, "plants_apart_cm");
    v->near_head = vh_page_summary(p, planting, "flower_below_head_cm");
    v->container = vh_page_summary(p, planting, "container_cm");
}

static void read_day(const struct vh_table *stem, size_t row, struct vine *v)
{
    v->day = vh_cell_number(stem, row, "date");
    v->stem = vh_cell_number(stem, row, "stem_cm");
    v->laid = vh_cell_number(stem, row, "laid_cm");
    v->head = vh_cell_number(stem, row, "head_height_cm");
    v->lean_deg = vh_cell_number(stem, row, "lean_deg");
    v->lowest = vh_cell_number(stem, row, "lowest_fruit_cm");
    v->picking = vh_cell_number(stem, row, "picking_truss");
    v->flowering = vh_cell_number(stem, row, "flowering_truss");
    v->known = isfinite(v->laid) && isfinite(v->wire) && isfinite(v->stem) && isfinite(v->lean_deg);
}

static bool is_row(const struct vh_table *stem, size_t row, const char *planting)
{
    return !strcmp(vh_cell_text(stem, row, "planting"), planting);
}

static struct vine vine_of(const struct vh_page *p, const char *planting, double day)
{
    const struct vh_table *stem = vh_page_table(p, "stem");
    struct vine v = {.known = false};

    read_house(p, planting, &v);
    const int date = stem ? vh_table_find(stem, "date") : -1;
    for (size_t i = 0; date >= 0 && i < vh_table_rows(stem); i++)
        if (vh_table_number(stem, i, (size_t)date) == day && is_row(stem, i, planting))
            read_day(stem, i, &v);
    return v;
}

/* Three days worth seeing: when stem is first laid down (else half way up to the second one),
 * today (else the nearest day that it stands), and when fruit hangs lowest after that. */
static int days_of(const struct vh_page *p, const char *planting, double day[DAYS_DRAWN])
{
    const struct vh_table *stem = vh_page_table(p, "stem");
    double begin = (double)NAN, end = (double)NAN, laid = (double)NAN, least = (double)INFINITY;
    int n = 0;

    for (size_t i = 0; stem && i < vh_table_rows(stem); i++) {
        if (!is_row(stem, i, planting) || !isfinite(vh_cell_number(stem, i, "laid_cm")))
            continue;
        end = vh_cell_number(stem, i, "date");
        begin = isfinite(begin) ? begin : end;
        if (!isfinite(laid) && vh_cell_number(stem, i, "laid_cm") > 0.0)
            laid = end;
    }
    if (!isfinite(begin))
        return 0;
    const double now = fmin(fmax((double)p->today, begin), end);
    double worst = end;
    for (size_t i = 0; i < vh_table_rows(stem); i++) {
        const double at = vh_cell_number(stem, i, "date");
        const double fruit = vh_cell_number(stem, i, "lowest_fruit_cm");
        if (!is_row(stem, i, planting) || at <= now || !(fruit < least - 0.5))
            continue;
        least = fruit;
        worst = at;
    }
    if (isfinite(laid) && laid < now)
        day[n++] = laid;
    day[n++] = now;
    if (worst > now)
        day[n++] = worst;
    return n;
}

/* Mondays on which the vines of a planting are known; of many plantings every second one, so that
 * the page stays small. */
static int weeks_of(const struct vh_page *p, const char *planting, double day[WEEKS_MOST])
{
    const struct vh_table *stem = vh_page_table(p, "stem");
    const int every = p->plantings > PLANTINGS_BY_WEEK ? 2 : 1;
    int mondays = 0, n = 0;

    for (size_t i = 0; stem && i < vh_table_rows(stem) && n < WEEKS_MOST; i++) {
        const double date = vh_cell_number(stem, i, "date");
        if (!is_row(stem, i, planting) || !isfinite(vh_cell_number(stem, i, "laid_cm")) ||
            vh_date_weekday((int64_t)date) != 0)
            continue;
        if (mondays++ % every == 0)
            day[n++] = date;
    }
    return n;
}

/* Along the floor as it is drawn: what is wound around a container goes nowhere. */
static double laid_across(const struct vine *v)
{
    return isfinite(v->container) ? 0.0 : v->laid;
}

static double lean_of(const struct vine *v)
{
    return v->lean_deg * acos(-1.0) / 180.0;
}

/* From the root to the hook, along the wire. */
static double hook_of(const struct vine *v)
{
    return laid_across(v) +
           (v->wire - v->base) * cos(lean_of(v)) / fmax(sin(lean_of(v)), steepest_sine);
}

/* From the root to the head, along the floor: past the hook where a stem was not lowered in time.
 */
static double tip_of(const struct vine *v)
{
    return laid_across(v) + (v->stem - v->laid) * cos(lean_of(v));
}

static double foot_of(const struct vine *v)
{
    return isfinite(v->container) ? v->container : v->base;
}

/* The scale in which all days of a planting fit their panel. */
static struct scale scale_of(const struct vh_page *p, const char *planting)
{
    double across = 1.0, wire = 1.0, day[DAYS_DRAWN + WEEKS_MOST];
    const int days = days_of(p, planting, day), n = days + weeks_of(p, planting, day + days);

    for (int k = 0; k < n; k++) {
        const struct vine v = vine_of(p, planting, day[k]);
        const double beside = isfinite(v.apart) ? hooks_beside * v.apart : 0.0;
        if (!v.known)
            continue;
        across = fmax(across, fmax(hook_of(&v) + beside, tip_of(&v)) + foot_of(&v) / 2.0);
        wire = fmax(wire, fmax(v.wire, v.head));
    }
    const double per_cm = fmin((VH_SVG_PANEL - 2.0 * room) / across, most_rise / wire);
    return (struct scale){per_cm, per_cm * wire + above + under_floor};
}

/* Where things stand in one drawing. */
struct drawing {
    struct vh_svg svg;
    double x0, y0; /* of the root, of the floor */
    double per_cm;
};

/* Trusses between the one being picked and the one in flower, evenly along the hanging stem. All
 * stalks are one path: a page of many plantings has thousands. */
static void draw_trusses(struct drawing *d, const struct vine *v)
{
    enum { DRAWN_MOST = 60, POINTS = 3 }; /* of a stalk: both ends and a break */
    const double lean = lean_of(v), hanging = v->stem - v->laid, s = d->per_cm;
    const double low = isfinite(v->lowest)
                           ? (v->lowest + v->hang - v->base) / fmax(sin(lean), steepest_sine)
                           : hanging;
    const int first = (int)floor(v->picking), last = (int)floor(v->flowering);
    double x[POINTS * DRAWN_MOST], y[POINTS * DRAWN_MOST];
    size_t n = 0;

    if (!isfinite(v->picking) || !isfinite(v->flowering) || last - first >= DRAWN_MOST)
        return;
    for (int k = first; k <= last; k++, n += POINTS) {
        const double share = last > first ? (double)(k - first) / (last - first) : 1.0;
        const double along = low + share * (fmax(hanging - v->near_head, low) - low);
        x[n] = x[n + 1] = d->x0 + s * (laid_across(v) + along * cos(lean));
        y[n] = d->y0 - s * (v->base + along * sin(lean));
        y[n + 1] = y[n] + s * v->hang;
        x[n + 2] = y[n + 2] = (double)NAN;
    }
    if (s * v->hang > fruit_radius) /* a shorter one lies under its fruit */
        vh_svg_path(&d->svg, x, y, n, "thin");
    for (size_t i = 0; i < n; i += POINTS)
        vh_svg_circle(&d->svg, x[i + 1], y[i + 1],
                      i + POINTS == n ? flower_radius : fruit_radius, i == 0 ? "dot" : "ring");
}

/* The container with the loops of stem around it, or the bundle's rest. */
static void draw_foot(struct drawing *d, const struct vine *v)
{
    const double wide = d->per_cm * foot_of(v), high = d->per_cm * v->base;
    const double loops = isfinite(v->container) ? v->laid / (acos(-1.0) * v->container) : 0.0;

    vh_svg_rect(&d->svg, d->x0 - wide / 2.0, d->y0 - high, wide, high, "kring");
    for (int i = 0; i < (int)fmin(ceil(loops), LOOPS_DRAWN); i++) {
        const double y = d->y0 - high * (0.25 + 0.2 * i);
        vh_svg_line(&d->svg, d->x0 - wide / 2.0 - 3.0, y, d->x0 + wide / 2.0 + 3.0, y - 2.0,
                    "stem s2");
    }
}

static void draw_frame(const struct vh_page *p, struct drawing *d, const struct vine *v)
{
    const double left = room / 2.0, right = VH_SVG_PANEL - room / 2.0;
    const double wire = d->y0 - d->per_cm * v->wire, hook = hook_of(v);
    char text[VH_SAY_ROOM + 20], said[VH_SAY_ROOM];

    vh_svg_line(&d->svg, left, d->y0, right, d->y0, "axis");
    vh_svg_line(&d->svg, left, wire, right, wire, "kline");
    vh_say_length(v->wire, p->units, said);
    snprintf(text, sizeof text, "wire %s", said);
    vh_svg_text(&d->svg, left, wire - 6.0, VH_SVG_START, "t", text);
    for (int k = 1; isfinite(v->apart) && k <= (int)hooks_beside; k++) {
        const double x = d->x0 + d->per_cm * (hook + k * v->apart);
        if (x < right)
            vh_svg_line(&d->svg, x, wire, x, wire + 6.0, "axis");
    }
    draw_foot(d, v);
    if (!isfinite(v->floor))
        return;
    const double y = d->y0 - d->per_cm * v->floor;
    vh_svg_line(&d->svg, d->x0, y, right, y, "lim");
}

/* From the foot of the hanging stem to the lowest fruit, along the floor. */
static double lowest_across(const struct vine *v)
{
    const double lean = lean_of(v);

    return (v->lowest + v->hang - v->base) * cos(lean) / fmax(sin(lean), steepest_sine);
}

static void draw_labels(const struct vh_page *p, struct drawing *d, const struct vine *v)
{
    const double right = VH_SVG_PANEL - room / 2.0;
    char text[VH_SAY_ROOM + 30], said[VH_SAY_ROOM];

    if (v->laid >= 1.0) {
        vh_say_length(v->laid, p->units, said);
        snprintf(text, sizeof text, isfinite(v->container) ? "%s wound around" : "laid %s", said);
        vh_svg_text(&d->svg, d->x0, d->y0 + 15.0, VH_SVG_START, "", text);
    }
    vh_say_length(v->floor, p->units, said);
    snprintf(text, sizeof text, "fruit above %s", said);
    if (said[0])
        vh_svg_text(&d->svg, right, d->y0 + 15.0, VH_SVG_END, "t", text);
    vh_say_length(v->lowest, p->units, said);
    snprintf(text, sizeof text, "lowest %s", said);
    if (said[0])
        vh_svg_label(&d->svg, d->x0 + d->per_cm * (laid_across(v) + lowest_across(v)) + 6.0,
                     d->y0 - d->per_cm * v->lowest, "", text);
}

/* whose: the planting's name; of a picker of weeks, that has the name already, the day. */
static void draw_vine(struct vh_page *p, int planting, const struct vine *v, const char *whose,
                      struct scale scale)
{
    struct drawing d; /* of some size: vh_page_drawing begins it, the rest is set here */
    char title[120], text[240], stem[VH_SAY_ROOM], laid[VH_SAY_ROOM], hook[VH_SAY_ROOM];

    d.per_cm = scale.per_cm;
    d.x0 = room + d.per_cm * foot_of(v) / 2.0;
    d.y0 = scale.height - under_floor;
    snprintf(title, sizeof title, "One vine of %.80s, to scale", whose);
    vh_say_length(v->stem, p->units, stem);
    vh_say_length(v->laid, p->units, laid);
    vh_say_length(hook_of(v), p->units, hook);
    snprintf(text, sizeof text, "Stem %s, %s of it laid down; hook %s from the root.", stem, laid,
             hook);
    vh_page_drawing(p, &d.svg, scale.height, planting, title, text);
    draw_frame(p, &d, v);
    const double s = d.per_cm;
    const double x[] = {d.x0, d.x0 + s * laid_across(v), d.x0 + s * tip_of(v)};
    const double y[] = {d.y0 - s * v->base, d.y0 - s * v->base, d.y0 - s * v->head};
    vh_svg_line(&d.svg, x[2], y[2], d.x0 + s * hook_of(v), d.y0 - s * v->wire, "axis");
    vh_svg_path(&d.svg, x, y, 3, "stem");
    draw_trusses(&d, v);
    draw_labels(p, &d, v);
    vh_svg_close(&d.svg);
}

/* What kind of day it is, for the caption. */
static const char *which_day(const struct vh_page *p, const struct vine *v, int k, int n)
{
    if (v->day == (double)p->today)
        return "today";
    if (k == n - 1 && v->day > (double)p->today)
        return isfinite(v->lowest) ? "lowest still to come" : "last day";
    return v->day < (double)p->today && k == n - 1 ? "last day" : "first laid down";
}

static void add_planting(struct vh_page *p, int planting)
{
    const struct scale scale = scale_of(p, p->planting[planting]);
    double day[DAYS_DRAWN];
    const int n = days_of(p, p->planting[planting], day);
    char soft[VH_SAY_ROOM + 60], date[VH_SAY_ROOM];
    bool has_today = false;

    for (int k = 0; k < n; k++)
        has_today = has_today || day[k] == (double)p->today;
    for (int k = 0; k < n; k++) {
        const struct vine v = vine_of(p, p->planting[planting], day[k]);
        if (!v.known)
            continue;
        vh_say_date(day[k], date);
        snprintf(soft, sizeof soft, "%s, %s", date, which_day(p, &v, k, n));
        vh_page_figure_of(p, has_today && day[k] != (double)p->today ? "other" : "",
                          p->planting[planting], soft);
        draw_vine(p, planting, &v, p->planting[planting], scale);
        vh_page_figure_end(p);
    }
    for (int k = n; k < DAYS_DRAWN; k++)
        vh_page_add(p, "<div class=\"gap\"></div>");
}

/* "<b>June</b> 1", "8": the month where it begins. */
static void add_chip(struct vh_page *p, int planting, int k, double day, bool first, bool chosen)
{
    char text[300], date[VH_SAY_ROOM];

    vh_say_date(day, date);
    const char *month = strchr(date, ' ');
    const int number = (int)(month ? month - date : 0);
    snprintf(text, sizeof text,
             "<input type=\"radio\" name=\"w%d\" id=\"w%d-%d\" aria-label=\"Week of %s\"%s>"
             "<label for=\"w%d-%d\">%s%s%s%.*s</label>",
             planting, planting, k, date, chosen ? " checked" : "", planting, k, first ? "<b>" : "",
             first && month ? month + 1 : "", first ? "</b> " : "", number, date);
    vh_page_add(p, text);
}

/* Any week of the season, chosen without a script: the drawing behind the chosen week shows. */
static void add_weeks(struct vh_page *p, int planting)
{
    const struct scale scale = scale_of(p, p->planting[planting]);
    double day[WEEKS_MOST];
    const int n = weeks_of(p, p->planting[planting], day);
    char date[VH_SAY_ROOM], month[VH_SAY_ROOM] = "", name[VH_PAGE_SHORT];
    int chosen = 0;

    if (n == 0)
        return;
    for (int k = 0; k < n; k++)
        chosen = day[k] <= (double)p->today ? k : chosen;
    vh_page_add(p, "<details class=\"weeks\"><summary>");
    vh_page_say_first(p, vh_page_short(p->planting[planting], name));
    vh_page_add(p,
                " in any week</summary><div class=\"pick\" role=\"radiogroup\" aria-label=\"Week "
                "that begins on\">");
    for (int k = 0; k < n; k++) {
        const struct vine v = vine_of(p, p->planting[planting], day[k]);
        vh_say_date(day[k], date);
        const char *now = strchr(date, ' ');
        const bool first = now && strcmp(now, month) != 0;
        add_chip(p, planting, k, day[k], first, k == chosen);
        snprintf(month, sizeof month, "%s", now ? now : "");
        vh_page_figure(p, date, "");
        draw_vine(p, planting, &v, date, scale);
        vh_page_figure_end(p);
    }
    vh_page_add(p, "</div></details>");
}

/* How the laid stems are led, where a drawing from the side cannot show it. */
static const char *path_said(const struct vh_page *p)
{
    const struct vh_table *t = vh_page_table(p, "summary");
    const char *said = "";

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        if (!strcmp(vh_cell_text(t, i, "lay_path"), "row-end"))
            said = " At the end of the row the laid stems turn round it and come back; here they "
                   "are drawn out straight.";
        if (!strcmp(vh_cell_text(t, i, "lay_path"), "around-containers"))
            said =
                " Laid stem is wound around the containers; short strokes beside them are loops.";
    }
    return said;
}

static bool say_finding(const struct vh_page *p, char *said, size_t room_for)
{
    char stem[VH_SAY_ROOM], laid[VH_SAY_ROOM];
    bool any = false;

    snprintf(said, room_for, "No vine stands in the house today");
    for (int i = 0; i < p->plantings; i++) {
        const struct vine v = vine_of(p, p->planting[i], (double)p->today);
        if (!v.known)
            continue;
        vh_say_length(v.stem, p->units, stem);
        vh_say_length(v.laid, p->units, laid);
        if (!any)
            snprintf(said, room_for, "%.60s: %s of stem, %s of it laid down now", p->planting[i],
                     stem, laid);
        any = true;
    }
    return any;
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
    char finding[300];
    const bool any = say_finding(p, finding, sizeof finding);

    if (!t && !any) {
        vh_page_empty(p, "vine", "The vine in your house",
                      "Give wire_height_m in [house], and lowering is planned and drawn here.");
        return;
    }
    vh_page_part(p, "vine", "The vine in your house, to scale", finding);
    vh_page_add(p, "<div class=\"three\">");
    for (int i = 0; i < p->plantings; i++)
        add_planting(p, i);
    vh_page_add(
        p,
        "<p class=\"key\"><span class=\"other\">The three of a planting are on one scale. </span>Filled: the truss being picked. Rings: "
        "green; the smallest is in flower. Short ticks on the wire are the "
        "neighbours\xE2\x80\x99 hooks. Dotted: no fruit is to hang below it.");
    vh_page_say(p, path_said(p));
    vh_page_add(p, "</p></div>");
    for (int i = 0; i < p->plantings; i++)
        add_weeks(p, i);
    if (t)
        vh_page_numbers(p, "Lowering, visit by visit", t, column,
                        (int)(sizeof column / sizeof column[0]));
    vh_page_part_end(p);
}
