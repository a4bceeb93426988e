/* Hours a week by task, and how long the supplies last. */
#include "vh_report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_task_words.h"

enum { WEEKS_MOST = 160 };
static const double bottom = 182.0, days_per_week = 7.0, bar_share = 0.66;

struct hours {
    int n;
    double monday[WEEKS_MOST], total[WEEKS_MOST], left[WEEKS_MOST];
    double most, has; /* has: hours a week; NaN: not given */
    int worst;        /* week to come with the most work; -1: none */
};

static void read_hours(const struct vh_page *p, struct hours *h)
{
    const struct vh_table *t = vh_page_table(p, "hours");

    *h = (struct hours){.has = (double)NAN, .worst = -1};
    for (size_t i = 0; t && i < vh_table_rows(t); i++) {
        const double monday = vh_cell_number(t, i, "monday");
        if (!vh_task_words(vh_cell_text(t, i, "task")))
            continue; /* other work of her week: hours_left leaves it out too */
        if (h->n == 0 || h->monday[h->n - 1] < monday) {
            if (h->n == WEEKS_MOST)
                break;
            h->monday[h->n] = monday;
            h->left[h->n] = vh_cell_number(t, i, "hours_left");
            h->total[h->n++] = 0.0;
        }
        h->total[h->n - 1] += vh_cell_number(t, i, "hours");
    }
    for (int k = 0; k < h->n; k++) {
        h->most = fmax(h->most, h->total[k]);
        if (isfinite(h->left[k]))
            h->has = h->total[k] + h->left[k];
        if (h->monday[k] + days_per_week > (double)p->today &&
            (h->worst < 0 || h->total[k] > h->total[h->worst]))
            h->worst = k;
    }
    if (isfinite(h->has))
        h->most = fmax(h->most, h->has);
}

static void draw_hours(struct vh_page *p, const struct hours *h)
{
    struct vh_panel panel;
    char text[160] = "No work to come.", date[VH_SAY_ROOM];

    if (h->worst >= 0) {
        vh_say_date(h->monday[h->worst], date);
        snprintf(text, sizeof text, "Most to come: %.1f hours in the week of %s.",
                 h->total[h->worst], date);
    }
    vh_page_figure(p, "Hours", "filled: past, open: to come");
    vh_panel_open(p, &panel, 1, bottom, 0.0, fmax(h->most, 1.0), "hours a week", "Hours a week",
                  text);
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
    static const char *const item[] = {"clips", "string", "hooks", "truss supports"};
    const struct vh_table *t = vh_page_table(p, "supplies");
    char text[400], day[VH_SAY_ROOM], by[VH_SAY_ROOM], rest[VH_SAY_ROOM], more[VH_SAY_ROOM];

    vh_page_figure(p, "Supplies", "what the work to come takes");
    vh_page_add(p, "<dl class=\"nums\">");
    for (size_t k = 0; k < sizeof item / sizeof item[0]; k++) {
        double needed = 0.0, left = (double)NAN, out = (double)NAN, order = (double)NAN;
        double maybe = (double)NAN; /* in some futures */
        for (size_t i = 0; t && i < vh_table_rows(t); i++) {
            if (strcmp(vh_cell_text(t, i, "item"), item[k]) != 0)
                continue;
            if (vh_cell_number(t, i, "monday") + days_per_week > (double)p->today) {
                needed += fmax(0.0, vh_cell_number(t, i, "to_come"));
                if (isfinite(left))
                    continue; /* the row of this week tells, as on the screen */
                left = vh_cell_number(t, i, "stock_left"); /* NaN: no stock is known */
                left = isfinite(left) ? floor(fmax(0.0, left)) : left;
                out = vh_cell_number(t, i, "runs_out");
                maybe = vh_cell_number(t, i, "runs_out_p10");
                order = vh_cell_number(t, i, "order_by");
            }
        }
        vh_say_pieces(left, rest);
        vh_say_pieces(needed, more);
        vh_say_date(out, day);
        vh_say_date(order, by);
        if (out > 0.0 && isfinite(left)) {
            snprintf(text, sizeof text,
                     "%s left after this week, gone %s: order by %s; %s are used to the end",
                     rest, day, by, more);
        } else if (needed > 0.0 && isfinite(left) && maybe > 0.0) {
            vh_say_date(maybe, day);
            snprintf(text, sizeof text, "%s left after this week, likely enough; may be gone by %s",
                     rest, day);
        } else if (needed > 0.0) {
            snprintf(text, sizeof text, "%s are used to the end%s", more,
                     isfinite(left) ? "; they last" : "");
        } else {
            snprintf(text, sizeof text, "none is used any more");
        }
        vh_page_add(p, "<dt>");
        vh_page_say(p, item[k]);
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
    struct hours h;
    char finding[200], date[VH_SAY_ROOM];

    if (!t) {
        vh_page_empty(p, "hours", "Hours and supplies", "No work is planned in this season.");
        return;
    }
    read_hours(p, &h);
    if (h.worst < 0)
        snprintf(finding, sizeof finding, "The work of this season is done");
    else {
        vh_say_date(h.monday[h.worst], date);
        snprintf(finding, sizeof finding, "The most work to come is %.1f hours in the week of %s%s",
                 h.total[h.worst], date,
                 !isfinite(h.has)           ? ""
                 : h.total[h.worst] > h.has ? ", more than you have"
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
