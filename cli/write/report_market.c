/* The next market day: what is safe to promise, the range, orders, a sentence for customers; then
 * the days after it, and gaps that a sowing could fill. */
#include "vh_gap_names.h"
#include "vh_report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { GOODS_MOST = 24, DRAWN_MOST = 6, LATER_MOST = 3, GAPS_MOST = 4, TEXT_ROOM = 600 };
static const double height = 66.0, left = 2.0, right = 334.0, band_top = 18.0, band_height = 12.0;
static const double bar_top = 36.0, bar_height = 10.0, mark_over = 3.0, label_y = 61.0;
static const double much_less = 0.9, much_more = 1.15, dull_share = 0.85;
static const char *const day_name[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                       "Friday", "Saturday", "Sunday"};

/* One good on one market day, in what people count it in. */
struct offer {
    double likely, low, high, safe, ordered; /* NaN: not known, not given */
    double short_chance, promise_kg;
};

struct good {
    const char *name;        /* as in the table: a planting, or all of a crop */
    char shown[VH_SAY_ROOM]; /* the planting, or the crop in words */
    bool pieces;
    double pack_g; /* NaN: not sold by the pack */
    double sells;  /* at full price beside the orders, in what it is counted in; NaN: not given */
};

struct goods {
    struct good good[GOODS_MOST];
    int n;
};

static bool is_all(const char *name)
{
    return !strncmp(name, "all ", 4);
}

/* The crop of a planting of the summary, "" where there is none of that name. */
static const char *crop_of(const struct vh_page *p, const char *planting)
{
    const int row = vh_page_planting(p, planting);

    return row < 0 ? "" : vh_cell_text(vh_page_table(p, "summary"), (size_t)row, "crop");
}

static bool by_piece(const struct vh_page *p, const char *name)
{
    if (!is_all(name))
        return vh_page_by_piece(p, name);
    for (int i = 0; i < p->plantings; i++)
        if (!strcmp(crop_of(p, p->planting[i]), name + 4))
            return vh_page_by_piece(p, p->planting[i]);
    return false;
}

/* A number of the summary, of the first planting that is sold as this good; NaN: not given. */
static double of_first(const struct vh_page *p, const char *name, const char *column)
{
    const struct vh_table *t = vh_page_table(p, "summary");

    for (size_t i = 0; i < vh_table_rows(t); i++)
        if (is_all(name) ? !strcmp(vh_cell_text(t, i, "crop"), name + 4)
                         : !strcmp(vh_cell_text(t, i, "planting"), name))
            return vh_cell_number(t, i, column);
    return (double)NAN;
}

/* What sells in a day at full price beside the orders. */
static double sells_of(const struct vh_page *p, const char *name, bool pieces)
{
    return pieces ? of_first(p, name, "sells_fruits")
                  : vh_page_weight(p, of_first(p, name, "sells_kg"));
}

static bool is_good_row(const struct vh_table *t, size_t row)
{
    return !strcmp(vh_cell_text(t, row, "grade"), "all") || !vh_cell_text(t, row, "grade")[0];
}

/* Has the table a row of all plantings of the crop? The page knows the crop of so many plantings
 * only: together[] remembers what was asked of each, 0 nothing yet. */
static bool is_sold_together(const struct vh_page *p, const struct vh_table *t,
                             const char *planting, signed char together[VH_PAGE_PLANTINGS_MOST])
{
    const int k = vh_page_planting(p, planting);
    const char *crop = k < 0 ? "" : crop_of(p, planting);

    if (!crop[0])
        return false;
    for (size_t i = 0; i < vh_table_rows(t) && together[k] == 0; i++) {
        const char *other = vh_cell_text(t, i, "planting");
        if (is_all(other) && !strcmp(other + 4, crop))
            together[k] = 1;
    }
    together[k] = together[k] == 1 ? 1 : -1;
    return together[k] == 1;
}

/* Goods of the table; plantings that are sold together stand as one. */
static void read_goods(const struct vh_page *p, const struct vh_table *t, struct goods *g)
{
    signed char together[VH_PAGE_PLANTINGS_MOST] = {0};

    g->n = 0;
    for (size_t i = 0; i < vh_table_rows(t) && g->n < GOODS_MOST; i++) {
        const char *name = vh_cell_text(t, i, "planting");
        bool known = !is_good_row(t, i);
        for (int k = 0; k < g->n && !known; k++)
            known = !strcmp(g->good[k].name, name);
        known = known || (!is_all(name) && is_sold_together(p, t, name, together));
        if (known)
            continue;
        struct good *good = &g->good[g->n++];
        *good = (struct good){
            .name = name, .pieces = by_piece(p, name), .pack_g = of_first(p, name, "pack_g")};
        good->sells = sells_of(p, name, good->pieces);
        if (is_all(name))
            vh_say_crop(name + 4, good->shown);
        else
            snprintf(good->shown, sizeof good->shown, "%.60s", name);
    }
}

static double amount(const struct vh_page *p, const struct vh_table *t, size_t row, bool pieces,
                     const char *stem, const char *suffix)
{
    char column[60];

    snprintf(column, sizeof column, "%s%s%s", stem, pieces ? "fruits" : "kg", suffix);
    const double value = vh_cell_number(t, row, column);
    return pieces ? value : vh_page_weight(p, value);
}

/* False: nothing is said of it on that day. */
static bool read_offer(const struct vh_page *p, const struct good *g, double day, struct offer *o)
{
    const struct vh_table *t = vh_page_table(p, "market_days");

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (vh_cell_number(t, i, "date") != day || !is_good_row(t, i) ||
            strcmp(vh_cell_text(t, i, "planting"), g->name) != 0)
            continue;
        o->likely = amount(p, t, i, g->pieces, "", "_p50");
        if (isnan(o->likely))
            o->likely = amount(p, t, i, g->pieces, "", "");
        o->low = amount(p, t, i, g->pieces, "", "_p10");
        o->high = amount(p, t, i, g->pieces, "", "_p90");
        o->safe = vh_safe_amount(amount(p, t, i, g->pieces, "promise_", ""), g->pieces);
        o->ordered = amount(p, t, i, g->pieces, "orders_", "");
        o->short_chance = vh_cell_number(t, i, "short_chance");
        o->promise_kg = vh_cell_number(t, i, "promise_kg");
        return true;
    }
    *o = (struct offer){(double)NAN, (double)NAN, (double)NAN, (double)NAN,
                        (double)NAN, (double)NAN, (double)NAN};
    return false;
}

/* The first market day after `after`, or NaN. */
static double day_after(const struct vh_page *p, double after)
{
    const struct vh_table *t = vh_page_table(p, "market_days");
    double first = (double)INFINITY;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date");
        if (day > after)
            first = fmin(first, day);
    }
    return isfinite(first) ? first : (double)NAN;
}

/* The last market day before `before`, or NaN. */
static double day_before(const struct vh_page *p, double before)
{
    const struct vh_table *t = vh_page_table(p, "market_days");
    double last = -(double)INFINITY;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const double day = vh_cell_number(t, i, "date");
        if (day < before)
            last = fmax(last, day);
    }
    return isfinite(last) ? last : (double)NAN;
}

static void say(const struct good *g, double value, char *said)
{
    vh_say_much(value, g->pieces, said);
}

static void say_day(double day, char *said)
{
    char date[VH_SAY_ROOM];

    vh_say_date(day, date);
    snprintf(said, VH_SAY_ROOM, "%s %.40s", day_name[vh_date_weekday((int64_t)day)], date);
}

/* "kg", or nothing for what is counted. */
static const char *unit_of(const struct vh_page *p, const struct good *g)
{
    return g->pieces ? "" : vh_page_weight_unit(p);
}

/* Of what is free, what is more than sells in a day; 0: all of it sells. */
static double beyond_of(const struct good *g, double free)
{
    char said[VH_SAY_ROOM];

    if (!(free > g->sells))
        return 0.0;
    const double beyond = vh_left_amount(free, g->sells, g->pieces);
    say(g, beyond, said);
    return vh_say_is_none(said) ? 0.0 : beyond;
}

static void draw_offer(struct vh_page *p, const struct good *g, const struct offer *o, int colour)
{
    const double most = fmax(fmax(isfinite(o->high) ? o->high : o->likely, 1.0),
                             isfinite(o->ordered) ? o->ordered : 0.0);
    const struct vh_svg_scale x = {0.0, most, left, right - 20.0};
    const double safe = isfinite(o->safe) ? o->safe : 0.0, at = vh_svg_at(&x, o->likely);
    const double ordered = isfinite(o->ordered) ? o->ordered : 0.0;
    struct vh_svg svg;
    char title[120], text[300], low[VH_SAY_ROOM], high[VH_SAY_ROOM], likely[VH_SAY_ROOM];

    say(g, o->low, low);
    say(g, o->high, high);
    say(g, o->likely, likely);
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
    say(g, ordered, low);
    const double free = fmax(0.0, vh_left_amount(safe, ordered, g->pieces)),
                 beyond = beyond_of(g, free);
    say(g, beyond > 0.0 ? g->sells : free, high);
    say(g, beyond, likely);
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
static void add_earlier(struct vh_page *p, const struct good *g, double day)
{
    const double safe = vh_page_said(p, g->name, g->pieces, day, (double)p->today);
    char said[VH_SAY_ROOM];

    if (!isfinite(safe))
        return;
    say(g, vh_safe_amount(g->pieces ? safe : vh_page_weight(p, safe), g->pieces), said);
    vh_page_add(p, "; ");
    vh_page_say(p, said);
    vh_page_add(p, " a week ago");
}

static void add_offer(struct vh_page *p, const struct good *g, const struct offer *o, double day,
                      int colour)
{
    char said[VH_SAY_ROOM], text[TEXT_ROOM];
    const bool is_safe = isfinite(o->safe);

    vh_page_add(p, "<div class=\"mkt\"><h3>");
    vh_page_say_first(p, g->shown);
    vh_page_add(p, "</h3><p class=\"big\">");
    say(g, is_safe ? o->safe : o->likely, said);
    vh_page_say(p, said);
    vh_page_add(p, " <small>");
    vh_page_say(p, unit_of(p, g));
    vh_page_add(p, is_safe ? " safe to promise" : " likely; no ranges were run");
    vh_say_packs(o->promise_kg, g->pack_g, said);
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
        say(g, o->ordered - o->safe, said);
        snprintf(text, sizeof text, "%s %s more is ordered than is safe%s", said, unit_of(p, g),
                 o->short_chance > 0.5 ? "; it will more likely be short than not" : "");
        vh_page_add(p, "<p class=\"small urgent\">");
        vh_page_say(p, text);
        vh_page_add(p, ".</p>");
    }
    vh_page_add(p, "</div>");
}

/* Was the last week duller than the two before it? */
static bool was_dull(const struct vh_page *p)
{
    const struct vh_table *t = vh_page_table(p, "climate_days");
    double last = 0.0, before = 0.0;
    int lasts = 0, befores = 0;

    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double ago = (double)p->today - vh_cell_number(t, i, "date");
        const double light = vh_cell_number(t, i, "dli_mol_m2_d");
        if (!isfinite(light) || ago <= 0.0 || ago > 21.0)
            continue;
        *(ago <= 7.0 ? &last : &before) += light;
        *(ago <= 7.0 ? &lasts : &befores) += 1;
    }
    return lasts && befores && last / lasts < dull_share * before / befores;
}

/* All goods of a day as one number: a share of what the next day has. */
static double against(const struct vh_page *p, const struct goods *g, double day, double next)
{
    double sum = 0.0;
    int n = 0;

    for (int k = 0; k < g->n; k++) {
        struct offer one, other;
        if (!read_offer(p, &g->good[k], next, &one) || !(one.likely >= 1.0))
            continue;
        sum += read_offer(p, &g->good[k], day, &other) ? other.likely / one.likely : 0.0;
        n++;
    }
    return n ? sum / n : (double)NAN;
}

/* What she may offer all who read it: safe, and not ordered by somebody already. */
static double free_of(const struct offer *o)
{
    return (isfinite(o->safe) ? o->safe : o->likely) - (o->ordered > 0.0 ? o->ordered : 0.0);
}

/* For a sentence: rounded down, from ten on to fives. */
static void say_about(const struct good *g, double value, char *said)
{
    say(g, value < 10.0 ? floor(value) : 5.0 * floor(value / 5.0), said);
}

/* " About 15 cucumbers are more than the stall sells: ..." of each counted good of which there are
 * such. */
static void say_beyond(const struct vh_page *p, const struct goods *g, double day, char *said,
                       size_t room)
{
    char some[VH_SAY_ROOM];
    bool any = false;

    for (int k = 0; k < g->n; k++) {
        struct offer o;
        const bool is_there = read_offer(p, &g->good[k], day, &o);
        const double beyond = is_there ? beyond_of(&g->good[k], free_of(&o)) : 0.0;
        if (!(beyond >= 1.0))
            continue;
        say_about(&g->good[k], beyond, some);
        snprintf(said + strlen(said), room - strlen(said), "%s about %s%s%s %.60s",
                 any ? "," : " More than the stall sells:", some, g->good[k].pieces ? "" : " ",
                 unit_of(p, &g->good[k]), g->good[k].shown);
        any = true;
    }
    if (any)
        snprintf(said + strlen(said), room - strlen(said), "; order them ahead.");
}

/* Plain words to copy: never above what is free, no grades, no shares. */
static void say_to_customers(const struct vh_page *p, const struct goods *g, double day, char *said,
                             size_t room)
{
    char date[VH_SAY_ROOM], some[VH_SAY_ROOM];
    const double before = day_before(p, day), after = day_after(p, day);
    int n = 0, of = 0;
    bool ordered = false;

    say_day(day, date);
    for (int k = 0; k < g->n; k++) {
        struct offer o;
        of += read_offer(p, &g->good[k], day, &o) && free_of(&o) >= 1.0;
        ordered = ordered || o.ordered > 0.0;
    }
    snprintf(said, room,
             of        ? "On %s we have "
             : ordered ? "What we have on %s is ordered already"
                       : "On %s we have nothing yet",
             date);
    for (int k = 0; k < g->n; k++) {
        struct offer o;
        if (!read_offer(p, &g->good[k], day, &o))
            continue;
        const double offered = free_of(&o);
        if (!(offered >= 1.0))
            continue;
        say_about(&g->good[k], beyond_of(&g->good[k], offered) > 0.0 ? g->good[k].sells : offered,
                  some);
        snprintf(said + strlen(said), room - strlen(said), "%s%s%s%s%.60s",
                 n == 0        ? ""
                 : n == of - 1 ? " and "
                               : ", ",
                 g->good[k].pieces ? "about " : "", g->good[k].pieces ? some : "",
                 g->good[k].pieces ? " " : "", g->good[k].shown);
        n++;
    }
    snprintf(said + strlen(said), room - strlen(said), ".");
    say_beyond(p, g, day, said, room);
    if (of && isfinite(before) && 1.0 / against(p, g, before, day) < much_less)
        snprintf(said + strlen(said), room - strlen(said), " It is a little less than last time%s.",
                 was_dull(p) ? ", after a dull week" : "");
    if (!of || !isfinite(after))
        return;
    vh_say_date(after, date);
    if (against(p, g, after, day) > much_more)
        snprintf(said + strlen(said), room - strlen(said), " More from %s.", date);
    else if (against(p, g, after, day) < much_less)
        snprintf(said + strlen(said), room - strlen(said), " A little less on %s.", date);
}

static void add_customers(struct vh_page *p, const struct goods *g, double day)
{
    char text[TEXT_ROOM];

    vh_page_add(p, "<div><div class=\"said\"><p class=\"small soft\">To send to customers</p><p>");
    say_to_customers(p, g, day, text, sizeof text);
    vh_page_say(p, text);
    vh_page_add(p, "</p></div><p class=\"key\"><i class=\"sw p8\"></i>four times in five it ends "
                   "inside. <i class=\"sw k\"></i>ordered, <i class=\"sw op\"></i>for the stall: "
                   "together what is <b>safe</b>, rounded down.</p></div>");
}

static void add_later_row(struct vh_page *p, const struct goods *g, double day)
{
    char said[VH_SAY_ROOM], low[VH_SAY_ROOM], high[VH_SAY_ROOM], text[300];

    vh_page_add(p, "<tr><th scope=\"row\">");
    vh_say_date(day, said);
    snprintf(text, sizeof text, "%.3s %s", day_name[vh_date_weekday((int64_t)day)], said);
    vh_page_say(p, text);
    vh_page_add(p, "</th>");
    for (int k = 0; k < g->n; k++) {
        struct offer o;
        vh_page_add(p, "<td>");
        const bool any = read_offer(p, &g->good[k], day, &o);
        say(&g->good[k], o.likely, said);
        say(&g->good[k], o.low, low);
        say(&g->good[k], o.high, high);
        if (any && o.likely < 0.05)
            vh_page_add(p, "<b>none</b>");
        else if (any) {
            vh_page_say(p, said);
            snprintf(text, sizeof text, " <span>%s\xE2\x80\x93%s</span>", low, high);
            vh_page_add(p, low[0] ? text : "");
            say(&g->good[k], o.safe, said);
            snprintf(text, sizeof text, " <span class=\"sf\">safe %s</span>", said);
            vh_page_add(p, said[0] ? text : "");
        }
        vh_page_add(p, "</td>");
    }
    vh_page_add(p, "</tr>");
}

static void add_gaps(struct vh_page *p)
{
    const struct vh_table *t = vh_page_table(p, "gaps");
    char from[VH_SAY_ROOM], until[VH_SAY_ROOM], by[VH_SAY_ROOM], text[TEXT_ROOM];
    char name[VH_GAP_NAME];
    int n = 0;

    for (size_t i = 0; t && i < vh_table_rows(t) && n < GAPS_MOST; i++) {
        const double plants = vh_cell_number(t, i, "plants"), sow = vh_cell_number(t, i, "sow_by");
        if (!(vh_cell_number(t, i, "until") >= (double)p->today))
            continue;
        vh_say_date(vh_cell_number(t, i, "from"), from);
        vh_say_date(vh_cell_number(t, i, "until"), until);
        vh_say_date(sow, by);
        vh_page_add(p, n++ ? "; " : "<p class=\"small gaps\"><b>Too few:</b> ");
        vh_gap_name(vh_page_table(p, "summary"), vh_cell_text(t, i, "crop"), name);
        snprintf(text, sizeof text, "%.100s %s%s%s, ", name, from,
                 strcmp(from, until) ? " to " : "", strcmp(from, until) ? until : "");
        vh_page_say(p, text);
        snprintf(text, sizeof text, "<b>sow %.0f by %s</b>", ceil(plants), by);
        vh_page_add(p, sow >= (double)p->today && plants > 0.0 ? text : "too late to sow for it");
    }
    if (n)
        vh_page_add(p, ".</p>");
}

static void add_later(struct vh_page *p, const struct goods *g, double day)
{
    double at = day_after(p, day);
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
    for (int i = 0; i < LATER_MOST && isfinite(at); i++, at = day_after(p, at))
        add_later_row(p, g, at);
    vh_page_add(p, "</tbody></table></div>");
    add_gaps(p);
    vh_page_add(p, "</div>");
}

void vh_report_market(struct vh_page *p)
{
    const struct vh_table *t = vh_page_table(p, "market_days");
    const double day = t ? day_after(p, (double)p->today - 1.0) : (double)NAN;
    struct goods g;
    char finding[TEXT_ROOM] = "", kick[VH_SAY_ROOM + 40], date[VH_SAY_ROOM], said[VH_SAY_ROOM];
    char name[VH_PAGE_SHORT];

    if (!t)
        return;
    if (!isfinite(day)) {
        vh_page_empty(p, "market", "Market days", "No market day is left in this season.");
        return;
    }
    read_goods(p, t, &g);
    say_day(day, date);
    snprintf(kick, sizeof kick, "Next market day: %s", date);
    for (int k = 0; k < g.n && k < 3; k++) {
        struct offer o;
        if (!read_offer(p, &g.good[k], day, &o))
            continue;
        const bool safe = isfinite(o.safe);
        say(&g.good[k], safe ? o.safe : o.likely, said);
        snprintf(finding + strlen(finding), sizeof finding - strlen(finding), "%s%s%s%s %.60s",
                 finding[0] ? ", "
                 : safe     ? "Safe to promise: "
                            : "Likely: ",
                 said, g.good[k].pieces ? "" : " ", unit_of(p, &g.good[k]),
                 vh_page_short(g.good[k].shown, name));
    }
    vh_page_part(p, "market", kick, finding);
    vh_page_add(p, "<div class=\"three mktrow\">");
    for (int k = 0; k < g.n; k++) {
        struct offer o;
        if (read_offer(p, &g.good[k], day, &o))
            add_offer(p, &g.good[k], &o, day, k);
    }
    add_customers(p, &g, day);
    add_later(p, &g, day);
    vh_page_add(p, "</div>");
    vh_page_part_end(p);
}

void vh_market_words(const struct vh_page *p, const char *planting, char *words, size_t room)
{
    const struct vh_table *t = vh_page_table(p, "market_days");
    const double day = t ? day_after(p, (double)p->today - 1.0) : (double)NAN;
    const char *crop = crop_of(p, planting);
    struct goods g;
    struct offer o;
    char said[VH_SAY_ROOM], stall[VH_SAY_ROOM];
    int k = 0;

    words[0] = 0;
    if (!isfinite(day))
        return;
    read_goods(p, t, &g);
    while (k < g.n && strcmp(g.good[k].name, planting) != 0 &&
           !(is_all(g.good[k].name) && !strcmp(g.good[k].name + 4, crop)))
        k++;
    if (k == g.n || !read_offer(p, &g.good[k], day, &o))
        return;
    const struct good *good = &g.good[k];
    say_day(day, said);
    snprintf(words, room, "%s%s%s: ",
             day < (double)p->today + 7.0 ? day_name[vh_date_weekday((int64_t)day)] : said,
             is_all(good->name) ? ", all " : "", is_all(good->name) ? good->shown : "");
    const bool is_safe = isfinite(o.safe);
    say(good, is_safe ? o.safe : o.likely, said);
    snprintf(words + strlen(words), room - strlen(words), "%s %s%s%s", is_safe ? "safe" : "likely",
             said, good->pieces ? "" : " ", unit_of(p, good));
    say(good, o.ordered, said);
    if (o.ordered > 0.0)
        snprintf(words + strlen(words), room - strlen(words), ", %s ordered", said);
    if (!is_safe)
        return;
    const double free = fmax(
                     0.0, vh_left_amount(o.safe, o.ordered > 0.0 ? o.ordered : 0.0, good->pieces)),
                 beyond = beyond_of(good, free);
    say(good, beyond > 0.0 ? good->sells : free, stall);
    say(good, beyond, said);
    if (free > 0.0 && (o.ordered > 0.0 || beyond > 0.0))
        snprintf(words + strlen(words), room - strlen(words), ", %s stall%s%s%s", stall,
                 beyond > 0.0 ? ", " : "", beyond > 0.0 ? said : "",
                 beyond > 0.0 ? " more than sells" : "");
}
