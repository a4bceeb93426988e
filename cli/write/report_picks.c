/* Weekly picks: bars of what was picked, a line with its bands for what is to come. */
#include "vh_report.h"
#include "vh_text_width.h"
#include "vh_to_come.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { WEEKS_MOST = 160 };
static const double panel_height = 214.0, left = 34.0, right = 326.0, top = 38.0, bottom = 190.0;
static const double days_per_week = 7.0, bar_width = 0.66, headroom = 2.0;
static const double label_height = 20.0; /* kept free above the bands for the best week's */

struct weeks {
    int n;
    bool pieces, ranges;
    double monday[WEEKS_MOST], likely[WEEKS_MOST], low[WEEKS_MOST], high[WEEKS_MOST];
    double recorded[WEEKS_MOST];             /* NaN: nothing was written down */
    double reckoned[WEEKS_MOST];             /* by the model alone */
    double reckoned_sum, recorded_sum, most; /* sums of the past; most: of the axis */
    int peak;                                /* best week from today on; -1: none */
};

static double amount_of(const struct vh_page *p, bool pieces, const struct vh_table *t, size_t row,
                        const char *suffix)
{
    char column[40];

    snprintf(column, sizeof column, "%s%s", pieces ? "fruits" : "kg", suffix);
    const double value = vh_cell_number(t, row, column);
    return pieces ? value : vh_page_weight(p, value);
}

/* What was written down, in what the planting is counted in. */
static double recorded_of(const struct vh_page *p, bool pieces, const struct vh_table *t,
                          size_t row)
{
    return pieces ? vh_cell_number(t, row, "picked_fruits")
                  : vh_page_weight(p, vh_cell_number(t, row, "picked_kg"));
}

/* What the model alone picks, beside what was written down. */
static void read_reckoned(const struct vh_page *p, const char *planting, struct weeks *w)
{
    const struct vh_table *t = vh_page_table(p, "picks");

    for (size_t i = 0; t && w->n > 0 && i < vh_table_rows(t); i++) {
        const double at = floor((vh_cell_number(t, i, "date") - w->monday[0]) / days_per_week);
        const double much = amount_of(p, w->pieces, t, i, "");
        if (at >= 0.0 && at < (double)w->n && isfinite(much) &&
            strcmp(vh_cell_text(t, i, "planting"), planting) == 0)
            w->reckoned[(int)at] += much;
    }
    for (int n = 0; n < w->n; n++)
        if (w->monday[n] + days_per_week <= (double)p->today)
            w->reckoned_sum += w->reckoned[n];
}

/* A week that is past, of which nothing was written down: a bar of its own, never on another. */
static bool is_reckoned(const struct weeks *w, int n, double today)
{
    return w->monday[n] + days_per_week <= today && !isfinite(w->recorded[n]);
}

static void read_weeks(const struct vh_page *p, const char *planting, struct weeks *w)
{
    const struct vh_table *t = vh_page_table(p, "weeks");

    *w = (struct weeks){
        .pieces = vh_page_by_piece(p, planting), .recorded_sum = (double)NAN, .peak = -1};
    const int best = vh_best_week_row(t, planting, w->pieces, p->today);
    for (size_t i = 0; t && i < vh_table_rows(t) && w->n < WEEKS_MOST; i++) {
        if (strcmp(vh_cell_text(t, i, "planting"), planting) != 0)
            continue;
        const int n = w->n++;
        w->monday[n] = vh_cell_number(t, i, "monday");
        w->likely[n] = amount_of(p, w->pieces, t, i, "");
        w->low[n] = amount_of(p, w->pieces, t, i, "_p10");
        w->high[n] = amount_of(p, w->pieces, t, i, "_p90");
        w->ranges = w->ranges || isfinite(w->low[n]);
        w->recorded[n] = recorded_of(p, w->pieces, t, i);
        if (isfinite(w->recorded[n]))
            w->recorded_sum = w->recorded[n] + (isfinite(w->recorded_sum) ? w->recorded_sum : 0.0);
        if ((int)i == best)
            w->peak = n;
        w->most = fmax(w->most, isfinite(w->high[n]) ? fmin(w->high[n], headroom * w->likely[n])
                                                     : w->likely[n]);
        w->most = fmax(w->most, isfinite(w->recorded[n]) ? w->recorded[n] : 0.0);
    }
    read_reckoned(p, planting, w);
    for (int n = 0; n < w->n; n++)
        if (is_reckoned(w, n, (double)p->today))
            w->most = fmax(w->most, w->reckoned[n]);
}

/* The height of the bands where they are highest, from today on. */
static double bands_top(const struct weeks *w, const struct vh_svg_scale *y, double today)
{
    double most = 0.0;

    for (int i = 0; i < w->n; i++)
        if (w->monday[i] + days_per_week > today)
            most = fmax(most, isfinite(w->high[i]) ? w->high[i] : w->likely[i]);
    return vh_svg_at(y, fmin(most, y->high));
}

/* The highest of the bars of the past that begin right of `from`. */
static double bars_top(const struct weeks *w, const struct vh_svg_scale *x,
                       const struct vh_svg_scale *y, double from, double today)
{
    double most = 0.0;

    for (int i = 0; i < w->n; i++) {
        const double much = is_reckoned(w, i, today) ? w->reckoned[i] : w->recorded[i];
        if (vh_svg_at(x, w->monday[i] + days_per_week) > from && much > most)
            most = much;
    }
    return vh_svg_at(y, fmin(most, y->high));
}

static void say_peak(const struct weeks *w, char *said, size_t room)
{
    char date[VH_SAY_ROOM], low[VH_SAY_ROOM], high[VH_SAY_ROOM];

    said[0] = 0;
    if (w->peak < 0)
        return;
    vh_say_date(w->monday[w->peak], date);
    if (isfinite(w->low[w->peak])) {
        vh_say_much(w->low[w->peak], w->pieces, low);
        vh_say_much(w->high[w->peak], w->pieces, high);
        snprintf(said, room, "%s: %s\xE2\x80\x93%s", date, low, high);
    } else {
        vh_say_much(w->likely[w->peak], w->pieces, low);
        snprintf(said, room, "%s: %s", date, low);
    }
}

static void draw_bars(struct vh_svg *svg, const struct weeks *w, const struct vh_svg_scale *x,
                      const struct vh_svg_scale *y, double today)
{
    const double width = bar_width * days_per_week * (x->to - x->from) / (x->high - x->low);

    for (int i = 0; i < w->n; i++) {
        const double at = vh_svg_at(x, w->monday[i] + days_per_week / 2.0);
        const double from = fmax(at - width / 2.0, x->from), to = fmin(at + width / 2.0, x->to);
        const double reckoned = vh_svg_at(y, w->reckoned[i]),
                     weighed = vh_svg_at(y, w->recorded[i]);
        if (isfinite(w->recorded[i]))
            vh_svg_rect(svg, from, weighed, to - from, y->from - weighed, "known");
        if (is_reckoned(w, i, today))
            vh_svg_rect(svg, from, reckoned, to - from, y->from - reckoned, "open");
    }
}

static void draw_foreseen(struct vh_svg *svg, const struct weeks *w, const struct vh_svg_scale *x,
                          const struct vh_svg_scale *y, double today)
{
    double at[WEEKS_MOST], likely[WEEKS_MOST], low[WEEKS_MOST], high[WEEKS_MOST];
    size_t n = 0;

    for (int i = 0; i < w->n; i++) {
        if (w->monday[i] + days_per_week <= today)
            continue;
        at[n] = vh_svg_at(x, w->monday[i] + days_per_week / 2.0);
        likely[n] = vh_svg_at(y, w->likely[i]);
        low[n] = vh_svg_at(y, w->low[i]);
        high[n] = vh_svg_at(y, fmin(w->high[i], y->high));
        n++;
    }
    vh_svg_band(svg, at, low, high, n, "band8");
    vh_svg_path(svg, at, likely, n, "case");
    vh_svg_path(svg, at, likely, n, "mid");
}

/* Above the bands; where it finds no room on their right, above the bars on their left too. */
static void label_peak(struct vh_svg *svg, const struct weeks *w, const struct vh_svg_scale *x,
                       const struct vh_svg_scale *y, double today)
{
    char text[200];

    say_peak(w, text, sizeof text);
    const double at = vh_svg_at(x, w->monday[w->peak] + days_per_week / 2.0),
                 wide = vh_text_width(text, VH_SVG_TEXT, true);
    double above = bands_top(w, y, today);
    if (at + wide > svg->width)
        above = fmin(above, bars_top(w, x, y, at - wide, today));
    vh_svg_label_above(svg, at, fmax(above, top + label_height), "n", text);
}

static void draw_panel(struct vh_page *p, int planting, const struct weeks *w)
{
    const double today = (double)p->today;
    int64_t first, last;
    double step;
    char title[200], text[200], amount[VH_SAY_ROOM], unit[40];
    struct vh_svg svg;

    vh_page_season(p, &first, &last);
    const struct vh_svg_scale x = {(double)first, (double)last + 1.0, left, right};
    const double room = (bottom - top) / (bottom - top - label_height);
    const struct vh_svg_scale y =
        vh_svg_amounts(0.0, fmax(room * w->most, 1.0), bottom, top, &step);
    snprintf(title, sizeof title, "%.100s: weekly picks", p->planting[planting]);
    vh_say_much(isfinite(w->recorded_sum) ? w->recorded_sum : w->reckoned_sum, w->pieces, amount);
    say_peak(w, text, sizeof text);
    snprintf(text + strlen(text), sizeof text - strlen(text), "%suntil now %s%s",
             text[0] ? "; " : "", amount, isfinite(w->recorded_sum) ? " written down" : "");
    vh_page_drawing(p, &svg, panel_height, planting, title, text);
    snprintf(unit, sizeof unit, "%s a week", w->pieces ? "pieces" : vh_page_weight_unit(p));
    vh_svg_amount_axis(&svg, &y, step, left, right, unit);
    draw_foreseen(&svg, w, &x, &y, today);
    draw_bars(&svg, w, &x, &y, today);
    vh_svg_month_axis(&svg, &x, bottom);
    if (today > x.low && today < x.high)
        vh_svg_today(&svg, vh_svg_at(&x, today), top - 6.0, bottom);
    if (w->peak >= 0)
        label_peak(&svg, w, &x, &y, today);
    if (!(w->most > 0.0))
        vh_svg_why(&svg, (top + bottom) / 2.0, "No fruit is ripe in this season.");
    vh_svg_close(&svg);
}

/* Has any planting a week with fruit after its best one? Where all end with it "best" says nothing.
 */
static bool is_more_to_come(const struct vh_page *p)
{
    for (int k = 0; k < p->plantings; k++) {
        struct weeks w;
        read_weeks(p, p->planting[k], &w);
        for (int i = w.peak + 1; w.peak >= 0 && i < w.n; i++)
            if (w.likely[i] > 0.0)
                return true;
    }
    return false;
}

/* "Best week to come: slicers 20 July: 37-56 kg; plums ..." */
static void say_finding(struct vh_page *p, char *said, size_t room)
{
    const char *first = is_more_to_come(p) ? "Best week to come: " : "The last week of picks: ";
    size_t n = 0;

    said[0] = 0;
    for (int i = 0; i < p->plantings && i < 3; i++) {
        struct weeks w;
        char peak[200], name[VH_PAGE_SHORT];
        read_weeks(p, p->planting[i], &w);
        if (w.peak < 0)
            continue;
        say_peak(&w, peak, sizeof peak);
        if (!(w.likely[w.peak] > 0.0))
            continue;
        const int wrote =
            snprintf(said + n, room - n, "%s%.60s %.100s%s%s",
                     n ? "; " : first, vh_page_short(p->planting[i], name), peak,
                     w.pieces ? "" : " ", w.pieces ? "" : vh_page_weight_unit(p));
        if (wrote < 0 || (size_t)wrote >= room - n)
            return;
        n += (size_t)wrote;
    }
}

/* "kg, 285 written down" */
static void say_until_now(const struct vh_page *p, const struct weeks *w, char *said, size_t room)
{
    const char *unit = w->pieces ? "pieces" : vh_page_weight_unit(p);
    char amount[VH_SAY_ROOM];

    vh_say_much(isfinite(w->recorded_sum) ? w->recorded_sum : w->reckoned_sum, w->pieces, amount);
    if (isfinite(w->recorded_sum))
        snprintf(said, room, "%s, %s written down", unit, amount);
    else
        snprintf(said, room, "%s%s", unit, w->reckoned_sum > 0.0 ? "" : ", none ripe yet");
}

void vh_report_picks(struct vh_page *p)
{
    static const struct vh_page_column column[] = {
        {"monday", "Week of", 0},    {"planting", "Planting", 0}, {"kg", "kg", 1},
        {"kg_p10", "kg, low", 1},    {"kg_p90", "kg, high", 1},   {"fruits", "Fruits", 0},
        {"fruit_g", "g a fruit", 0},
    };
    const struct vh_table *t = vh_page_table(p, "weeks");
    char finding[600], soft[VH_SAY_ROOM + 60];

    if (!t) {
        vh_page_empty(p, "picks", "Weekly picks", "Nothing is picked in this season.");
        return;
    }
    say_finding(p, finding, sizeof finding);
    if (!finding[0])
        snprintf(finding, sizeof finding, "Nothing more is picked in this season");
    vh_page_part(p, "picks", "Weekly picks", finding);
    vh_page_add(p, "<div class=\"three\">");
    for (int i = 0; i < p->plantings; i++) {
        struct weeks w;
        read_weeks(p, p->planting[i], &w);
        say_until_now(p, &w, soft, sizeof soft);
        vh_page_figure(p, p->planting[i], soft);
        draw_panel(p, i, &w);
        vh_page_figure_end(p);
    }
    vh_page_add(
        p,
        "<p class=\"key\"><i class=\"sw k\"></i>written down. <i class=\"sw op\"></i>"
        "reckoned, in weeks without an entry. <i class=\"sw ln\"></i>likely from today on. <i class=\"sw p8\"></i>four weeks in five end in here. "
        "The further ahead, the wider.</p></div>");
    vh_page_numbers(p, "Picks by week", t, column, (int)(sizeof column / sizeof column[0]));
    vh_page_part_end(p);
}
