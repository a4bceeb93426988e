/* How good past forecasts were: each week as it was foreseen and as it came, and how far off,
 * beside two rules of thumb. */
#include "vh_report.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_only_counted.h"
#include "vh_unpromised.h"

enum { WEEKS_MOST = 120, AHEAD_MOST = 4 };
static const double bottom = 182.0, half_week_d = 3.5, stroke = 4.0, dot = 3.0;

/* What was off, summed over the weeks of one distance: those that last week could foretell as well,
 * as on the screen (vh_hindcast.h). */
struct off {
    double observed, forecast, last, mean3;
    int weeks, inside; /* inside: within the range */
};

static bool is_ahead(const struct vh_table *t, size_t row, int ahead)
{
    return vh_cell_number(t, row, "weeks_ahead") == ahead &&
           isfinite(vh_cell_number(t, row, "observed_kg")) &&
           isfinite(vh_cell_number(t, row, "forecast_kg_p50"));
}

static struct off how_far_off(const struct vh_table *t, int ahead)
{
    struct off o = {.weeks = 0};

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (!is_ahead(t, i, ahead) || !isfinite(vh_cell_number(t, i, "naive_last_kg")))
            continue;
        const double came = vh_cell_number(t, i, "observed_kg");
        o.observed += came;
        o.forecast += fabs(vh_cell_number(t, i, "forecast_kg_p50") - came);
        o.last += fabs(vh_cell_number(t, i, "naive_last_kg") - came);
        o.mean3 += fabs(vh_cell_number(t, i, "naive_mean3_kg") - came);
        o.inside += came >= vh_cell_number(t, i, "forecast_kg_p10") &&
                    came <= vh_cell_number(t, i, "forecast_kg_p90");
        o.weeks++;
    }
    return o;
}

/* Monday of a row: its own column, or that of its ISO week, "2026-W29". */
static double monday_of(const struct vh_table *t, size_t row)
{
    const double monday = vh_cell_number(t, row, "monday");
    const char *week = vh_cell_text(t, row, "week");
    char text[11];
    int64_t day;

    if (isfinite(monday) || strlen(week) < 8)
        return monday;
    snprintf(text, sizeof text, "%.4s-01-04", week); /* always in the first week */
    if (vh_date_parse(text, &day) != VH_OK)
        return (double)NAN;
    return (double)(day - vh_date_weekday(day) + 7 * ((week[6] - '0') * 10 + week[7] - '0' - 1));
}

/* Are there weeks of this planting to look back on? */
static bool is_told(const struct vh_page *p, const struct vh_table *t, int planting)
{
    for (size_t i = 0; i < vh_table_rows(t); i++)
        if (is_ahead(t, i, 1) && !strcmp(vh_cell_text(t, i, "planting"), p->planting[planting]))
            return true;
    return false;
}

static void draw_panel(struct vh_page *p, const struct vh_table *t, int planting)
{
    struct vh_panel panel;
    double most = 0.0;
    char title[160], unit[20];

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (!is_ahead(t, i, 1) ||
            strcmp(vh_cell_text(t, i, "planting"), p->planting[planting]) != 0)
            continue;
        most = fmax(most, vh_page_weight(p, fmax(vh_cell_number(t, i, "observed_kg"),
                                                 vh_cell_number(t, i, "forecast_kg_p90"))));
    }
    vh_page_figure(p, p->planting[planting], "said a week before");
    snprintf(title, sizeof title, "%.100s: said a week before, and what came",
             p->planting[planting]);
    snprintf(unit, sizeof unit, "%s a week", vh_page_weight_unit(p));
    vh_panel_open(p, &panel, planting, bottom, 0.0, fmax(most, 1.0), unit, title,
                  "Ranges of one week ahead, with what was picked.");
    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (!is_ahead(t, i, 1) ||
            strcmp(vh_cell_text(t, i, "planting"), p->planting[planting]) != 0)
            continue;
        const double x = vh_svg_at(&panel.x, monday_of(t, i) + half_week_d);
        const double said = vh_page_weight(p, vh_cell_number(t, i, "forecast_kg_p50"));
        const double low = vh_page_weight(p, vh_cell_number(t, i, "forecast_kg_p10"));
        const double high = vh_page_weight(p, vh_cell_number(t, i, "forecast_kg_p90"));
        if (isfinite(low))
            vh_svg_line(&panel.svg, x, vh_svg_at(&panel.y, low), x, vh_svg_at(&panel.y, high),
                        "ln");
        vh_svg_line(&panel.svg, x - stroke, vh_svg_at(&panel.y, said), x + stroke,
                    vh_svg_at(&panel.y, said), "ln");
        vh_svg_circle(&panel.svg, x,
                      vh_svg_at(&panel.y, vh_page_weight(p, vh_cell_number(t, i, "observed_kg"))),
                      dot, "known");
    }
    vh_svg_close(&panel.svg);
    vh_page_figure_end(p);
}

static void add_share(struct vh_page *p, double off, double observed)
{
    char text[40] = "";

    if (isfinite(off) && observed > 0.0)
        snprintf(text, sizeof text, "%.0f %%", 100.0 * off / observed);
    vh_page_add(p, "<td>");
    vh_page_say(p, text);
    vh_page_add(p, "</td>");
}

static void add_distances(struct vh_page *p, const struct vh_table *t)
{
    char text[60];

    vh_page_add(
        p,
        "<figure><figcaption>How far off <span>of what was picked, all plantings</span></figcaption>"
        "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"How far off, by "
        "weeks ahead\"><table><caption>How far off, by weeks ahead</caption><thead><tr>"
        "<th scope=\"col\">Weeks ahead</th><th scope=\"col\">This forecast</th><th "
        "scope=\"col\">Same as last week</th><th scope=\"col\">Mean of last three</th>"
        "</tr></thead><tbody>");
    for (int ahead = 1; ahead <= AHEAD_MOST; ahead++) {
        const struct off o = how_far_off(t, ahead);
        if (!o.weeks)
            continue;
        snprintf(text, sizeof text, "<tr><th scope=\"row\">%d</th>", ahead);
        vh_page_add(p, text);
        add_share(p, o.forecast, o.observed);
        add_share(p, o.last, o.observed);
        add_share(p, o.mean3, o.observed);
        vh_page_add(p, "</tr>");
    }
    vh_page_add(p, "</tbody></table></div></figure>");
}

static struct vh_promise_tables tables_of(const struct vh_page *p)
{
    return (struct vh_promise_tables){vh_page_table(p, "said"), vh_page_table(p, "said_fruits"),
                                      vh_page_table(p, "picks"), vh_page_table(p, "summary"),
                                      vh_page_table(p, "house")};
}

double vh_page_said(const struct vh_page *p, const char *planting, bool by_piece, double date,
                    double before)
{
    const struct vh_promise_tables tables = tables_of(p);

    return vh_promise_said(&tables, by_piece, planting, date, before);
}

static bool is_kept(const struct vh_page *p, const struct vh_promise_past *past)
{
    return vh_promise_is_kept(past->promise, past->came, past->by_piece, p->units);
}

/* What was safe, as it was said. */
static void add_safe(struct vh_page *p, double promise, bool by_piece)
{
    char text[VH_SAY_ROOM], said[VH_SAY_ROOM + 8];

    vh_say_much(vh_safe_amount(by_piece ? promise : vh_page_weight(p, promise), by_piece), by_piece,
                text);
    snprintf(said, sizeof said, "%s%s%s", text, by_piece ? "" : " ",
             by_piece ? "" : vh_page_weight_unit(p));
    vh_page_say(p, said);
}

static void add_promise(struct vh_page *p, const struct vh_promise_past *past)
{
    char text[VH_SAY_ROOM], came[VH_SAY_CAME];

    vh_page_add(p, "<tr><th scope=\"row\">");
    vh_say_date(past->date, text);
    vh_page_say(p, text);
    vh_page_add(p, "</th><td class=\"l\">");
    vh_page_say(p, past->planting);
    vh_page_add(p, "</td><td>");
    add_safe(p, past->promise, past->by_piece);
    vh_page_add(p, "</td><td>");
    if (isnan(past->came)) {
        vh_page_add(p, "</td><td>not known: no pick written down between ");
        vh_say_date(past->silent_from, text);
        vh_page_say(p, text);
        vh_page_add(p, " and ");
        vh_say_date(past->date, text);
        vh_page_say(p, text);
        vh_page_add(p, "</td></tr>");
        return;
    }
    vh_say_came(past, p->units, came);
    vh_page_say(p, came);
    vh_page_add(p,
                is_kept(p, past) ? "</td><td>kept</td></tr>" : "</td><td><b>short</b></td></tr>");
}

/* Promises whose day is past: of how many the picks are known, how many of these were kept, and of
 * how many they are not. */
static struct kept {
    int of, kept, unknown;
} promises(const struct vh_page *p)
{
    const struct vh_promise_tables tables = tables_of(p);
    struct vh_promise_past past;
    struct kept k = {0, 0, 0};

    for (size_t row = 0; vh_promise_next(&tables, p->today, &row, &past);) {
        if (!vh_promise_is_any(past.promise, past.by_piece, p->units))
            continue;
        k.of += !isnan(past.came);
        k.unknown += isnan(past.came);
        k.kept += is_kept(p, &past);
    }
    return k;
}

/* The rows of those of one market day; the next such day after it, infinite: none. */
static double add_promises_of(struct vh_page *p, double day)
{
    const struct vh_promise_tables tables = tables_of(p);
    struct vh_promise_past past;
    double next = (double)INFINITY;

    for (size_t row = 0; vh_promise_next(&tables, p->today, &row, &past);) {
        if (!vh_promise_is_any(past.promise, past.by_piece, p->units))
            continue;
        if (past.date > day)
            next = fmin(next, past.date);
        else if (past.date >= day)
            add_promise(p, &past);
    }
    return next;
}

static void add_unpromised(struct vh_page *p)
{
    const struct vh_promise_tables tables = tables_of(p);
    char said[200];

    vh_unpromised(&tables, vh_page_table(p, "market_days"), p->today, said, sizeof said);
    if (!said[0])
        return;
    vh_page_add(p, "<p class=\"key\">Not counted: ");
    vh_page_say(p, said);
    vh_page_add(p, ".</p>");
}

static void add_kept(struct vh_page *p)
{
    vh_page_add(
        p,
        "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Promises whose day "
        "is past\"><table class=\"kept\"><caption>Promises whose day is past, made about a week before. "
        "What a market day was promised does not count for the next");
    vh_page_add(
        p,
        "</caption><thead><tr><th scope=\"col\">Market day</th><th scope=\"col\" class=\"l\">Planting</th>"
        "<th scope=\"col\">Promised</th><th scope=\"col\">Left for it of the week's picks, fit for sale</th><th "
        "scope=\"col\"></th></tr></thead><tbody>");
    for (double day = add_promises_of(p, -(double)INFINITY); isfinite(day);)
        day = add_promises_of(p, day); /* those by the piece stand behind the others in the files */
    vh_page_add(p, "</tbody></table></div>");
    add_unpromised(p);
}

/* All promises as they stand in said.csv. */
static void add_said(struct vh_page *p)
{
    static const struct vh_page_column column[] = {
        {"said_on", "Said on", 0},         {"date", "For", 0},
        {"planting", "Planting", 0},       {"grade", "Grade", 0},
        {"promise_kg", "Promised, kg", 1}, {"kg_p10", "kg, low", 1},
        {"kg_p90", "kg, high", 1},
    };
    static const struct vh_page_column piece[] = {
        {"said_on", "Said on", 0},
        {"date", "For", 0},
        {"planting", "Planting", 0},
        {"grade", "Grade", 0},
        {"promise_fruits", "Promised, fruits", 0},
        {"fruits_p10", "fruits, low", 0},
        {"fruits_p90", "fruits, high", 0},
    };
    const struct vh_table *t = vh_page_table(p, "said");

    if (t)
        vh_page_numbers(p, "Promises as they were made", t, column,
                        (int)(sizeof column / sizeof column[0]));
    const struct vh_table *fruits = vh_page_table(p, "said_fruits");
    if (fruits && vh_table_rows(fruits) > 0)
        vh_page_numbers(p, "Promises by the piece as they were made", fruits, piece,
                        (int)(sizeof piece / sizeof piece[0]));
}

static void say_finding(const struct off *o, char *said, size_t room)
{
    const double per_cent = 100.0 / o->observed;
    const bool naive = isfinite(o->last);

    if (naive)
        snprintf(said, room,
                 "A week ahead the forecast was off by %.0f %%, \xE2\x80\x9Csame as last "
                 "week\xE2\x80\x9D by %.0f %%",
                 per_cent * o->forecast, per_cent * o->last);
    else
        snprintf(said, room, "A week ahead the forecast was off by %.0f %%",
                 per_cent * o->forecast);
}

void vh_report_kept(struct vh_page *p)
{
    static const struct vh_page_column column[] = {
        {"week", "Week", 0},
        {"weeks_ahead", "Weeks ahead", 0},
        {"planting", "Planting", 0},
        {"observed_kg", "Picked, spread over its days, kg", 1},
        {"forecast_kg_p50", "Foreseen, kg", 1},
        {"forecast_kg_p10", "low", 1},
        {"forecast_kg_p90", "high", 1},
        {"naive_last_kg", "Same as last week, kg", 1},
        {"naive_mean3_kg", "Mean of three, kg", 1},
    };
    const struct vh_table *t = vh_page_table(p, "hindcast");
    char finding[240], text[300], left_out[600];

    if (!t && !vh_page_table(p, "said")) {
        vh_page_empty(
            p, "kept", "Said and kept",
            "Nothing to look back on yet: write down picks of some weeks, and "
            "\xE2\x80\x9Cvinehand learn\xE2\x80\x9D holds what would have been said against "
            "what came.");
        return;
    }
    const struct kept kept = promises(p);
    const struct off o = t ? how_far_off(t, 1) : (struct off){.weeks = 0};
    if (o.weeks && o.observed > 0.0)
        say_finding(&o, finding, sizeof finding);
    else if (kept.of)
        snprintf(finding, sizeof finding, "%d of %d promises were kept", kept.kept, kept.of);
    else if (kept.unknown)
        snprintf(finding, sizeof finding, "Whether promises were kept is not known");
    else
        snprintf(finding, sizeof finding, "No promise has come to its day yet");
    vh_page_part(p, "kept", "Said and kept", finding);
    if (!t && !kept.of)
        vh_page_add(p, "<p class=\"none\"></p>"); /* nothing for paper */
    if (t) {
        vh_page_add(p, "<div class=\"three\">");
        for (int i = 0; i < p->plantings; i++)
            if (is_told(p, t, i))
                draw_panel(p, t, i);
        add_distances(p, t);
        snprintf(text, sizeof text,
                 "%d of %d weeks ended inside their range; four in five is the aim.", o.inside,
                 o.weeks);
        vh_page_add(
            p,
            "<p class=\"key\"><b>Upright</b>: the range foreseen a week before, cross "
            "stroke: likely. <b>Dot</b>: what was picked, each entry spread over the days since the one "
            "before. ");
        vh_page_say(p, text);
        vh_only_counted(vh_page_table(p, "summary"), vh_page_table(p, "picks"), t, p->units,
                        left_out, sizeof left_out);
        vh_page_add(p, " ");
        vh_page_say(p, left_out);
        vh_page_add(p, "</p></div>");
        vh_page_numbers(p, "Foreseen and picked", t, column,
                        (int)(sizeof column / sizeof column[0]));
    }
    if (kept.of + kept.unknown)
        add_kept(p);
    add_said(p);
    vh_page_part_end(p);
}
