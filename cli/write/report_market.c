/* The next market day: what is safe to promise, the range, orders, a sentence for customers; then
 * the days after it, and gaps that a sowing could fill. */
#include "vh_gap_names.h"
#include "vh_offer.h"
#include "vh_report.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

enum { DRAWN_MOST = 6, LATER_MOST = 3, GAPS_MOST = 4, TEXT_ROOM = 600 };
static const double height = 66.0, left = 2.0, right = 334.0, band_top = 18.0, band_height = 12.0;
static const double bar_top = 36.0, bar_height = 10.0, mark_over = 3.0, label_y = 61.0;
static const double some_less = 0.9, far_less = 0.7, much_more = 1.15;

static void draw_offer(struct vh_page *p, const struct vh_good *g, const struct vh_offer *o,
                       int colour)
{
    const double most = fmax(fmax(isfinite(o->high) ? o->high : o->likely, 1.0),
                             isfinite(o->ordered) ? o->ordered : 0.0);
    const struct vh_svg_scale x = {0.0, most, left, right - 20.0};
    const double safe = isfinite(o->safe) ? o->safe : 0.0, at = vh_svg_at(&x, o->likely);
    const double ordered = isfinite(o->ordered) ? o->ordered : 0.0;
    struct vh_svg svg;
    char title[120], text[300], low[VH_SAY_ROOM], high[VH_SAY_ROOM], likely[VH_SAY_ROOM];

    vh_good_say(g, o->low, low);
    vh_good_say(g, o->high, high);
    vh_good_say(g, o->likely, likely);
    if ((o->likely < 0.05 && !(o->high >= 0.05)) || strcmp(low, high) == 0)
        low[0] = high[0] = 0;
    snprintf(title, sizeof title, "%.80s on the next market day", g->shown);
    snprintf(text, sizeof text, "Likely %s%s%s%s%s.", likely, low[0] ? ", between " : "", low,
             low[0] ? " and " : "", high);
    vh_svg_open(&svg, p->out, VH_SVG_PANEL, height, ++p->drawings, vh_page_colour(colour), title,
                text);
    if (isfinite(o->low))
        vh_svg_rect(&svg, vh_svg_at(&x, o->low), band_top,
                    vh_svg_at(&x, o->high) - vh_svg_at(&x, o->low), band_height, "band8");
    vh_svg_line(&svg, at, band_top - mark_over, at, band_top + band_height + mark_over, "cross");
    vh_svg_rect(&svg, left, bar_top, vh_svg_at(&x, safe) - left, bar_height, "open");
    vh_svg_rect(&svg, left, bar_top, vh_svg_at(&x, ordered) - left, bar_height, "known");
    vh_svg_line(&svg, left, bar_top - mark_over, left, bar_top + bar_height + mark_over, "axis");
    snprintf(text, sizeof text, "likely %s%s%s%s%s", o->likely < 0.05 ? "none" : likely,
             low[0] ? ", " : "", low, low[0] ? " to " : "", high);
    const double half = 100.0; /* a label of such a length, so that it stays inside */
    vh_svg_text(&svg, fmin(fmax(at, half), right - half), band_top - 7.0, VH_SVG_MIDDLE, "", text);
    if (!isfinite(o->safe)) {
        vh_svg_close(&svg);
        return;
    }
    vh_good_say(g, ordered, low);
    const double free = fmax(0.0, vh_left_amount(safe, ordered, g->pieces)),
                 beyond = vh_good_beyond(g, free);
    vh_good_say(g, beyond > 0.0 ? g->sells : free, high);
    vh_good_say(g, beyond, likely);
    snprintf(text, sizeof text, "%s%s%s for the stall%s%s%s", ordered > 0.0 ? low : "",
             ordered > 0.0 ? " ordered, " : "", high,
             beyond > 0.0    ? ", "
             : ordered > 0.0 ? ""
                             : ", nothing ordered",
             beyond > 0.0 ? likely : "", beyond > 0.0 ? " more than sells" : "");
    vh_svg_text(&svg, left, label_y, VH_SVG_START, "t", text);
    vh_svg_close(&svg);
}

/* "; 22 a week ago" */
static void add_earlier(struct vh_page *p, const struct vh_good *g, double day)
{
    const double safe = vh_page_said(p, g->name, g->pieces, day, (double)p->today);
    char said[VH_SAY_ROOM];

    if (!isfinite(safe))
        return;
    vh_good_say(g, vh_safe_amount(g->pieces ? safe : vh_page_weight(p, safe), g->pieces), said);
    vh_page_add(p, "; ");
    vh_page_say(p, said);
    vh_page_add(p, " a week ago");
}

static void add_offer(struct vh_page *p, const struct vh_good *g, const struct vh_offer *o,
                      double day, int colour)
{
    char said[VH_SAY_ROOM], text[TEXT_ROOM];
    const bool is_safe = isfinite(o->safe);

    vh_page_add(p, "<div class=\"mkt\"><h3>");
    vh_page_say_first(p, g->shown);
    vh_page_add(p, "</h3><p class=\"big\">");
    vh_good_say(g, is_safe ? o->safe : o->likely, said);
    vh_page_say(p, said);
    vh_page_add(p, " <small>");
    vh_page_say(p, vh_good_unit(p, g));
    vh_page_add(p, is_safe ? " safe to promise" : " likely; no ranges were run");
    vh_say_packs(o->promise, g->pack, said);
    if (said[0]) {
        vh_page_add(p, ", ");
        vh_page_say(p, said);
    }
    if (is_safe)
        add_earlier(p, g, day);
    vh_page_add(p, "</small></p>");
    if (colour < DRAWN_MOST)
        draw_offer(p, g, o, colour);
    if (is_safe && o->ordered > o->safe) {
        vh_good_say(g, o->ordered - o->safe, said);
        snprintf(text, sizeof text, "%s %s more is ordered than is safe%s", said,
                 vh_good_unit(p, g),
                 o->short_chance > 0.5 ? "; it will more likely be short than not" : "");
        vh_page_add(p, "<p class=\"small urgent\">");
        vh_page_say(p, text);
        vh_page_add(p, ".</p>");
    }
    vh_page_add(p, "</div>");
}

/* All goods of a day as one number: a share of what the next day has. */
static double against(const struct vh_page *p, const struct vh_goods *g, double day, double next)
{
    double sum = 0.0;
    int n = 0;

    for (int k = 0; k < g->n; k++) {
        struct vh_offer one, other;
        if (!vh_offer_read(p, &g->good[k], next, &one) || !(one.likely >= 1.0))
            continue;
        sum += vh_offer_read(p, &g->good[k], day, &other) ? other.likely / one.likely : 0.0;
        n++;
    }
    return n ? sum / n : (double)NAN;
}

/* For a sentence: rounded down, from ten on to fives. */
static void say_about(const struct vh_good *g, double value, char *said)
{
    const double whole = value < 10.0 ? floor(value) : 5.0 * floor(value / 5.0);

    if (whole < 10.0)
        snprintf(said, VH_SAY_ROOM, "%.0f", whole);
    else
        vh_good_say(g, whole, said);
}

/* "15 cucumbers", "35 kg of slicers" */
static const char *of_what(const struct vh_good *g)
{
    return g->pieces ? " " : " of ";
}

/* " About 15 cucumbers are more than the stall sells: ..." of each counted good of which there are
 * such. */
static void say_beyond(const struct vh_page *p, const struct vh_goods *g, double day, char *said,
                       size_t room)
{
    char some[VH_SAY_ROOM];
    bool any = false;

    for (int k = 0; k < g->n; k++) {
        struct vh_offer o;
        const bool is_there = vh_offer_read(p, &g->good[k], day, &o);
        const double beyond = is_there ? vh_good_beyond(&g->good[k], vh_offer_free(&o)) : 0.0;
        if (!(beyond >= 1.0))
            continue;
        say_about(&g->good[k], beyond, some);
        snprintf(said + strlen(said), room - strlen(said), "%s about %s%s%s%s%.60s",
                 any ? "," : " More than the stall sells:", some, g->good[k].pieces ? "" : " ",
                 vh_good_unit(p, &g->good[k]), of_what(&g->good[k]), g->good[k].shown);
        any = true;
    }
    if (any)
        snprintf(said + strlen(said), room - strlen(said), "; order them ahead.");
}

/* Plain words to copy: never above what is free, no grades, no shares. */
static void say_to_customers(const struct vh_page *p, const struct vh_goods *g, double day,
                             char *said, size_t room)
{
    char date[VH_SAY_ROOM], some[VH_SAY_ROOM];
    const double before = vh_market_before(p, day), after = vh_market_after(p, day);
    int n = 0, of = 0;
    bool ordered = false;

    vh_market_say_day(day, date);
    for (int k = 0; k < g->n; k++) {
        struct vh_offer o;
        of += vh_offer_read(p, &g->good[k], day, &o) && vh_offer_free(&o) >= 1.0;
        ordered = ordered || o.ordered > 0.0;
    }
    snprintf(said, room,
             of        ? "On %s we have "
             : ordered ? "What we have on %s is ordered already"
                       : "On %s we have nothing yet",
             date);
    for (int k = 0; k < g->n; k++) {
        struct vh_offer o;
        if (!vh_offer_read(p, &g->good[k], day, &o))
            continue;
        const double offered = vh_offer_free(&o);
        if (!(offered >= 1.0))
            continue;
        say_about(&g->good[k],
                  vh_good_beyond(&g->good[k], offered) > 0.0 ? g->good[k].sells : offered, some);
        snprintf(said + strlen(said), room - strlen(said), "%sabout %s%s%s%s%.60s",
                 n == 0        ? ""
                 : n == of - 1 ? " and "
                               : ", ",
                 some, g->good[k].pieces ? "" : " ", vh_good_unit(p, &g->good[k]),
                 of_what(&g->good[k]), g->good[k].shown);
        n++;
    }
    snprintf(said + strlen(said), room - strlen(said), ".");
    say_beyond(p, g, day, said, room);
    const double than_before = isfinite(before) ? 1.0 / against(p, g, before, day) : 1.0;
    if (of && than_before < some_less)
        snprintf(said + strlen(said), room - strlen(said), " It is %s less than last time%s.",
                 than_before < far_less ? "much" : "a little",
                 vh_cell_number(vh_page_table(p, "house"), 0, "dull_week") > 0.0
                     ? ", after a dull week"
                     : "");
    if (!of || !isfinite(after))
        return;
    vh_say_date(after, date);
    const double then = against(p, g, after, day);
    if (then > much_more)
        snprintf(said + strlen(said), room - strlen(said), " More from %s.", date);
    else if (then < some_less)
        snprintf(said + strlen(said), room - strlen(said), " %s less on %s.",
                 then < far_less ? "Much" : "A little", date);
}

static void add_customers(struct vh_page *p, const struct vh_goods *g, double day)
{
    char text[TEXT_ROOM];

    vh_page_add(p, "<div><div class=\"said\"><p class=\"small soft\">To send to customers</p><p>");
    say_to_customers(p, g, day, text, sizeof text);
    vh_page_say(p, text);
    vh_page_add(p, "</p></div><p class=\"key\"><i class=\"sw p8\"></i>four times in five it ends "
                   "inside. <i class=\"sw k\"></i>ordered, <i class=\"sw op\"></i>for the stall: "
                   "together what is <b>safe</b>, rounded down.</p></div>");
}

/* " 3.0 ordered, short in 6 of 10": more than is safe */
static void add_short_order(struct vh_page *p, const struct vh_good *g, const struct vh_offer *o)
{
    char said[VH_SAY_ROOM], text[200], chance[VH_SAY_ROOM];

    vh_good_say(g, o->ordered, said);
    vh_offer_say_short(o, chance);
    snprintf(text, sizeof text, " <span class=\"urgent\">%s ordered%s</span>", said, chance);
    vh_page_add(p, text);
}

static void add_later_row(struct vh_page *p, const struct vh_goods *g, double day)
{
    char said[VH_SAY_ROOM], low[VH_SAY_ROOM], high[VH_SAY_ROOM], text[300];

    vh_page_add(p, "<tr><th scope=\"row\">");
    vh_say_date(day, said);
    snprintf(text, sizeof text, "%.3s %s", vh_market_weekday(day), said);
    vh_page_say(p, text);
    vh_page_add(p, "</th>");
    for (int k = 0; k < g->n; k++) {
        struct vh_offer o;
        vh_page_add(p, "<td>");
        const bool any = vh_offer_read(p, &g->good[k], day, &o);
        vh_good_say(&g->good[k], o.likely, said);
        vh_good_say(&g->good[k], o.low, low);
        vh_good_say(&g->good[k], o.high, high);
        if (any && o.likely < 0.05)
            vh_page_add(p, "<b>none</b>");
        else if (any) {
            vh_page_say(p, said);
            snprintf(text, sizeof text, " <span>%s\xE2\x80\x93%s</span>", low, high);
            vh_page_add(p, low[0] ? text : "");
            vh_good_say(&g->good[k], o.safe, said);
            snprintf(text, sizeof text, " <span class=\"sf\">safe %s</span>", said);
            vh_page_add(p, said[0] ? text : "");
        }
        if (any && o.ordered > o.safe)
            add_short_order(p, &g->good[k], &o);
        vh_page_add(p, "</td>");
    }
    vh_page_add(p, "</tr>");
}

static void add_gaps(struct vh_page *p)
{
    const struct vh_table *t = vh_page_table(p, "gaps");
    char from[VH_SAY_ROOM], until[VH_SAY_ROOM], by[VH_SAY_ROOM], text[TEXT_ROOM];
    char name[VH_GAP_NAME], less[VH_GAP_MISSING];
    int n = 0, more = 0;

    size_t i = t ? vh_gap_next(t, SIZE_MAX) : 0;

    for (; t && i < vh_table_rows(t); i = vh_gap_next(t, i)) {
        const double plants = vh_cell_number(t, i, "plants");
        if (!(vh_cell_number(t, i, "until") >= (double)p->today))
            continue;
        if (n == GAPS_MOST) {
            more++;
            continue;
        }
        vh_say_date(vh_cell_number(t, i, "from"), from);
        vh_say_date(vh_cell_number(t, i, "until"), until);
        vh_say_date(vh_cell_number(t, i, "sow_by"), by);
        vh_page_add(p, n++ ? "; " : "<p class=\"small gaps\"><b>Too few:</b> ");
        vh_gap_name(vh_page_table(p, "summary"), vh_cell_text(t, i, "crop"), name);
        vh_gap_say_missing(t, i, p->units, less);
        snprintf(text, sizeof text, "%.100s: %s%s%s, %s, ", name, from,
                 strcmp(from, until) ? " to " : "", strcmp(from, until) ? until : "", less);
        vh_page_say(p, text);
        snprintf(text, sizeof text, "<b>sow %.0f by %s</b>", ceil(plants), by);
        vh_page_add(p, vh_gap_may_be_sown(t, i) ? text
                       : by[0]                  ? "too late to sow for it"
                                                : "no batch fills it");
    }
    snprintf(text, sizeof text, "; %d more in gaps.csv", more);
    vh_page_add(p, more ? text : "");
    if (n)
        vh_page_add(p, ".</p>");
}

static void add_later(struct vh_page *p, const struct vh_goods *g, double day)
{
    double at = vh_market_after(p, day);
    char name[VH_PAGE_SHORT];

    if (!isfinite(at)) {
        vh_page_add(p, "<div class=\"later\">");
        add_gaps(p);
        vh_page_add(p, "</div>");
        return;
    }
    vh_page_add(p, "<div class=\"later\"><div class=\"scroll\" tabindex=\"0\" role=\"region\" "
                   "aria-label=\"Days after\"><table><caption>Days after: likely, range, safe to "
                   "promise</caption><thead><tr><th scope=\"col\">Day</th>");
    for (int k = 0; k < g->n; k++) {
        vh_page_add(p, "<th scope=\"col\">");
        vh_page_say_first(p, vh_page_short(g->good[k].shown, name));
        if (!g->good[k].pieces) {
            vh_page_add(p, ", ");
            vh_page_say(p, vh_page_weight_unit(p));
        }
        vh_page_add(p, "</th>");
    }
    vh_page_add(p, "</tr></thead><tbody>");
    for (int i = 0; i < LATER_MOST && isfinite(at); i++, at = vh_market_after(p, at))
        add_later_row(p, g, at);
    vh_page_add(p, "</tbody></table></div>");
    add_gaps(p);
    vh_page_add(p, "</div>");
}

void vh_report_market(struct vh_page *p)
{
    const struct vh_table *t = vh_page_table(p, "market_days");
    const double day = t ? vh_market_after(p, (double)p->today - 1.0) : (double)NAN;
    struct vh_goods g;
    char finding[TEXT_ROOM] = "", kick[VH_SAY_ROOM + 40], date[VH_SAY_ROOM], said[VH_SAY_ROOM];
    char name[VH_PAGE_SHORT];

    if (!t)
        return;
    if (!isfinite(day)) {
        vh_page_empty(p, "market", "Market days", "No market day is left in this season.");
        return;
    }
    vh_goods_read(p, t, &g);
    vh_market_say_day(day, date);
    snprintf(kick, sizeof kick, "Next market day: %s", date);
    for (int k = 0; k < g.n && k < 3; k++) {
        struct vh_offer o;
        if (!vh_offer_read(p, &g.good[k], day, &o))
            continue;
        const bool safe = isfinite(o.safe);
        vh_good_say(&g.good[k], safe ? o.safe : o.likely, said);
        snprintf(finding + strlen(finding), sizeof finding - strlen(finding), "%s%s%s%s %.60s",
                 finding[0] ? ", "
                 : safe     ? "Safe to promise: "
                            : "Likely: ",
                 said, g.good[k].pieces ? "" : " ", vh_good_unit(p, &g.good[k]),
                 vh_page_short(g.good[k].shown, name));
    }
    vh_page_part(p, "market", kick, finding);
    vh_page_add(p, "<div class=\"three mktrow\">");
    for (int k = 0; k < g.n; k++) {
        struct vh_offer o;
        if (vh_offer_read(p, &g.good[k], day, &o))
            add_offer(p, &g.good[k], &o, day, k);
    }
    add_customers(p, &g, day);
    add_later(p, &g, day);
    vh_page_add(p, "</div>");
    vh_page_part_end(p);
}
