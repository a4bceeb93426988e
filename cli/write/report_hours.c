/* Hours a week by task, and how long the supplies last. */
#include "vh_report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_her_hours.h"
#include "vh_supply_left.h"

static const double bottom = 182.0, days_per_week = 7.0, bar_share = 0.66;

static void draw_hours(struct vh_page *p, const struct vh_her_hours *h)
{
    struct vh_panel panel;
    char text[160] = "No work to come.", date[VH_SAY_ROOM];

    if (h->worst >= 0) {
        vh_say_date(h->monday[h->worst], date);
        snprintf(text, sizeof text, "Most to come: %.1f hours in the week from Monday %s.",
                 h->total[h->worst], date);
    }
    double most = isfinite(h->has) ? h->has : 0.0;
    for (int k = 0; k < h->n; k++)
        most = fmax(most, h->total[k]);
    vh_page_figure(p, "Hours", "filled: past, open: to come");
    vh_panel_open(p, &panel, 1, bottom, 0.0, fmax(most, 1.0), "hours a week", "Hours a week", text);
    const double width =
        bar_share * days_per_week * (panel.x.to - panel.x.from) / (panel.x.high - panel.x.low);
    for (int k = 0; k < h->n; k++) {
        const double at = vh_svg_at(&panel.x, h->monday[k] + days_per_week / 2.0);
        const double height = panel.y.from - vh_svg_at(&panel.y, h->total[k]);
        const double from = fmax(at - width / 2.0, panel.x.from);
        const double to = fmin(at + width / 2.0, panel.x.to);
        vh_svg_rect(&panel.svg, from, panel.y.from - height, to - from, height,
                    h->monday[k] + days_per_week <= (double)p->today ? "known" : "open");
    }
    if (isfinite(h->has)) {
        const double y = vh_svg_at(&panel.y, h->has);
        vh_svg_line(&panel.svg, VH_PANEL_LEFT, y, VH_PANEL_RIGHT, y, "lim");
        vh_svg_limit_name(&panel.svg, VH_PANEL_LEFT, VH_PANEL_RIGHT, y, "your hours");
    }
    vh_svg_close(&panel.svg);
    vh_page_figure_end(p);
}

/* One line for each item: what is left, until when, and when to order. */
static void add_supplies(struct vh_page *p)
{
    char text[VH_SUPPLY_TEXT];

    vh_page_figure(p, "Supplies", "what the work to come takes");
    vh_page_add(p, "<dl class=\"nums\">");
    for (size_t k = 0; k < VH_SUPPLY_ITEMS; k++) {
        const struct vh_supply_left left =
            vh_supply_left(vh_page_table(p, "supplies"), vh_supply_item[k], p->today);
        vh_supply_say(&left, text);
        vh_page_add(p, "<dt>");
        vh_page_say(p, vh_supply_item[k]);
        vh_page_add(p, "</dt><dd>");
        vh_page_say(p, text);
        vh_page_add(p, "</dd>");
    }
    vh_page_add(p, "</dl>");
    vh_page_figure_end(p);
}

void vh_report_hours(struct vh_page *p)
{
    static const struct vh_page_column column[] = {
        {"monday", "Week of", 0},
        {"task", "Task", 0},
        {"hours", "Hours", 2},
        {"hours_left", "Hours left in the week", 1},
    };
    const struct vh_table *t = vh_page_table(p, "hours");
    struct vh_her_hours h;
    char finding[200], date[VH_SAY_ROOM];

    if (!t) {
        vh_page_empty(p, "hours", "Hours and supplies", "No work is planned in this season.");
        return;
    }
    vh_her_hours(t, p->today, &h);
    if (h.worst < 0)
        snprintf(finding, sizeof finding, "The work of this season is done");
    else {
        vh_say_date(h.monday[h.worst], date);
        snprintf(finding, sizeof finding,
                 "The most work to come is %.1f hours in the week from Monday %s%s",
                 h.total[h.worst], date,
                 !isfinite(h.has) ? ""
                 : round(10.0 * h.total[h.worst]) > round(10.0 * h.has)
                     ? ", more than you have"
                     : "; it fits into your hours");
    }
    vh_page_part(p, "hours", "Hours and supplies", finding);
    vh_page_add(p, "<div class=\"three\">");
    draw_hours(p, &h);
    add_supplies(p);
    vh_page_add(p, "</div>");
    vh_page_numbers(p, "Hours by week and task", t, column,
                    (int)(sizeof column / sizeof column[0]));
    vh_page_part_end(p);
}
