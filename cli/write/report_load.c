/* Load over the season: what fruit and growth ask for, over what the light can feed. */
#include "vh_report.h"
#include "vh_to_come.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Of more plantings than OTHERS_MOST no line would be told from another behind one of them. */
enum { WEEKS_MOST = 400, OTHERS_MOST = 12 };
static const double bottom = 146.0, half_week_d = 3.5, load_shown_least = 4.0,
                    load_shown_most = 8.0;

struct loads {
    size_t n;
    double day[WEEKS_MOST], load[WEEKS_MOST];
    double most; /* of the hungriest week to come */
    int worst;   /* that week; -1: none */
};

static void read_loads(const struct vh_page *p, const char *planting, struct loads *l)
{
    const struct vh_table *t = vh_page_table(p, "weeks");
    const int whose = t ? vh_table_find(t, "planting") : -1;
    int this_week;
    const int worst = vh_hungriest_week_row(t, planting, p->today, &this_week);

    *l = (struct loads){.worst = -1};
    for (size_t i = 0; t && i < vh_table_rows(t) && l->n < WEEKS_MOST; i++) {
        if (whose < 0 || strcmp(vh_table_text(t, i, (size_t)whose), planting) != 0)
            continue;
        const double load = vh_cell_number(t, i, "load");
        if (!isfinite(load))
            continue;
        l->day[l->n] = vh_cell_number(t, i, "monday") + half_week_d;
        l->load[l->n] = load;
        if ((int)i == worst) {
            l->worst = (int)l->n;
            l->most = load;
        }
        l->n++;
    }
}

/* The highest of all weeks, or of those to come. */
static double highest(const struct vh_page *p, bool to_come)
{
    double most = 0.0;

    for (int i = 0; i < p->plantings; i++) {
        struct loads l;
        read_loads(p, p->planting[i], &l);
        for (size_t k = 0; k < l.n; k++)
            if (!to_come || l.day[k] >= (double)p->today)
                most = fmax(most, l.load[k]);
    }
    return most;
}

static void cut_off(struct loads *l, double most)
{
    for (size_t k = 0; k < l->n; k++)
        l->load[k] = fmin(l->load[k], most);
}

static void draw_panel(struct vh_page *p, int planting, double most)
{
    struct vh_panel panel;
    struct loads l;
    char title[160], text[160] = "No week to come.", date[VH_SAY_ROOM];

    read_loads(p, p->planting[planting], &l);
    snprintf(title, sizeof title, "%.100s: load", p->planting[planting]);
    if (l.worst >= 0) {
        vh_say_date(l.day[l.worst] - half_week_d, date);
        snprintf(text, sizeof text, "Highest to come: %.1f in the week of %s.", l.most, date);
    }
    cut_off(&l, most);
    vh_panel_open(p, &panel, planting, bottom, 0.0, most, "asked over fed", title, text);
    const double fed = vh_svg_at(&panel.y, 1.0);
    vh_svg_line(&panel.svg, VH_PANEL_LEFT, fed, VH_PANEL_RIGHT, fed, "lim");
    for (int i = 0; i < p->plantings && p->plantings <= OTHERS_MOST; i++) {
        struct loads other;
        if (i == planting)
            continue;
        read_loads(p, p->planting[i], &other);
        cut_off(&other, most);
        vh_panel_line(p, &panel, other.day, other.load, other.n, "back", "back");
    }
    vh_panel_line(p, &panel, l.day, l.load, l.n, "kline", "mid");
    vh_svg_limit_name(&panel.svg, VH_PANEL_LEFT, VH_PANEL_RIGHT, fed, "1: all is fed");
    vh_svg_close(&panel.svg);
}

static void say_finding(const struct vh_page *p, char *said, size_t room)
{
    double most = 0.0, day = (double)NAN;
    int planting = -1;
    char date[VH_SAY_ROOM];

    for (int i = 0; i < p->plantings; i++) {
        struct loads l;
        read_loads(p, p->planting[i], &l);
        if (l.worst < 0 || l.most <= most)
            continue;
        most = l.most;
        day = l.day[l.worst] - half_week_d;
        planting = i;
    }
    vh_say_date(day, date);
    if (planting < 0)
        snprintf(said, room, "The season is over");
    else if (most > 1.0)
        snprintf(said, room,
                 "The hungriest to come are %.60s in the week of %s: they ask %.1f "
                 "times what the light feeds",
                 p->planting[planting], date, most);
    else
        snprintf(said, room, "The light feeds all that the plants will ask");
}

void vh_report_load(struct vh_page *p)
{
    static const struct vh_page_column column[] = {
        {"monday", "Week of", 0},
        {"planting", "Planting", 0},
        {"load", "Load", 2},
        {"supply_share", "Share fed", 2},
    };
    const struct vh_table *t = vh_page_table(p, "weeks");
    char finding[300];

    if (!t) {
        vh_page_empty(p, "load", "Load over the season", "There is no week in this season.");
        return;
    }
    say_finding(p, finding, sizeof finding);
    vh_page_part(p, "load", "Load over the season", finding);
    vh_page_add(p, "<div class=\"three\">");
    /* young plants with few leaves ask many times what they get: not to be drawn in full */
    const double shown = fmax(load_shown_least, fmin(ceil(highest(p, true)), load_shown_most));
    for (int i = 0; i < p->plantings; i++) {
        vh_page_figure(p, p->planting[i],
                       p->plantings > 1 && p->plantings <= OTHERS_MOST ? "the others dotted" : "");
        draw_panel(p, i, shown);
        vh_page_figure_end(p);
    }
    vh_page_add(p, "<p class=\"key\">What fruit and growth ask for, divided by what the light can "
                   "feed. At <b>1</b> everything asked is fed; above it fruit stays smaller and "
                   "young fruit may drop. <i class=\"sw kl\"></i>until today, "
                   "<i class=\"sw ln\"></i>foreseen.");
    if (highest(p, false) > shown) {
        char cut[60];
        snprintf(cut, sizeof cut, " What is above %.0f is drawn at %.0f.", shown, shown);
        vh_page_add(p, cut);
    }
    vh_page_add(p, "</p></div>");
    vh_page_numbers(p, "Load: asked divided by fed", t, column,
                    (int)(sizeof column / sizeof column[0]));
    vh_page_part_end(p);
}
