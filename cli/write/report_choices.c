/* Choices against the plan: one row a choice, one panel a quantity, the plan at 0. */
#include "vh_report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_text_width.h"

enum { ROWS_MOST = 40, PANELS = 3, ROW_TEXT = 200 };
static const double top = 34.0, row_height = 30.0, name_rise = 6.0, mark_drop = 8.0, under = 20.0;
static const double unit_y = 12.0, left = 14.0, right = 322.0, radius = 3.5;

/* A quantity that choices are drawn in. */
struct quantity {
    const char *column;         /* its difference is column_diff */
    const char *caption, *unit; /* "USD", "g a fruit" */
    bool chance;                /* is the better share told beside it? */
};

struct rows {
    size_t row[ROWS_MOST];
    int n;
};

static bool is_plan(const struct vh_table *t, size_t row)
{
    return !strcmp(vh_cell_text(t, row, "choice"), "as planned");
}

/* Whose rows are drawn: the planting that the choices are for, or "all". */
static const char *whose(const struct vh_page *p, const struct vh_table *t)
{
    const struct vh_table *compared = vh_page_table(p, "compared");
    const char *first = vh_cell_text(t, 0, "planting");

    if (compared && vh_cell_text(compared, 0, "planting")[0])
        return vh_cell_text(compared, 0, "planting");
    for (size_t i = 1; i < vh_table_rows(t); i++)
        if (strcmp(vh_cell_text(t, i, "planting"), first) != 0)
            return "all";
    return first;
}

static double diff(const struct vh_page *p, const struct vh_table *t, size_t row,
                   const struct quantity *q, const char *suffix)
{
    char column[60];

    snprintf(column, sizeof column, "%s_diff%s", q->column, suffix);
    const double value = vh_cell_number(t, row, column);
    if (p->units == VH_SAY_US && !strcmp(q->column, "fruit_g"))
        return vh_say_oz(value);
    return p->units == VH_SAY_US && strstr(q->column, "kg") ? vh_say_lb(value) : value;
}

/* Rows that have this quantity, the plan left out. */
static void read_rows(const struct vh_page *p, const struct vh_table *t, const struct quantity *q,
                      struct rows *r)
{
    const char *planting = whose(p, t);

    r->n = 0;
    for (size_t i = 0; i < vh_table_rows(t) && r->n < ROWS_MOST; i++)
        if (!is_plan(t, i) && !strcmp(vh_cell_text(t, i, "planting"), planting) &&
            isfinite(diff(p, t, i, q, "")))
            r->row[r->n++] = i;
}

/* "nearly always better", "better in 8 of 10" futures. */
static void say_chance(double chance, char *said, size_t room)
{
    if (chance < 0.05)
        snprintf(said, room, "hardly ever better");
    else if (chance > 0.95)
        snprintf(said, room, "nearly always better");
    else
        snprintf(said, room, "better in %.0f of 10", fmin(9.0, fmax(1.0, round(10.0 * chance))));
}

/* "+24 (10 to 38)", with a true minus. */
static void say_diff(double value, char *said)
{
    char plain[VH_SAY_ROOM];

    vh_say_amount(fabs(value), plain);
    snprintf(said, VH_SAY_ROOM, "%s%.40s",
             vh_say_is_none(plain) ? ""
             : value < 0.0         ? "\xE2\x88\x92"
                                   : "+",
             plain);
}

/* "+24, better in 8 of 10". */
static void say_row(const struct vh_page *p, const struct vh_table *t, size_t row,
                    const struct quantity *q, char text[ROW_TEXT])
{
    char said[VH_SAY_ROOM], chance[40] = "";

    say_diff(diff(p, t, row, q, ""), said);
    if (q->chance && isfinite(vh_cell_number(t, row, "better_chance")))
        say_chance(vh_cell_number(t, row, "better_chance"), chance, sizeof chance);
    snprintf(text, ROW_TEXT, "%s%s%s", said, chance[0] ? ", " : "", chance);
}

/* The name of a choice in as many lines as it takes, and what it comes to behind the last of them,
 * or in a line more where it has no room there. svg NULL: nothing is drawn. Answers by how much
 * that is higher than one line. */
static double put_words(const struct vh_page *p, struct vh_svg *svg, const struct vh_table *t,
                        size_t row, const struct quantity *q, double y)
{
    const double line_height = 14.0, apart = 8.0, started = y;
    const char *name = vh_cell_text(t, row, "choice");
    char line[VH_SVG_LINE], text[ROW_TEXT];

    say_row(p, t, row, q, text);
    while (*name) {
        name = vh_svg_take_line(name, right - left, line);
        if (svg)
            vh_svg_text(svg, left, y, VH_SVG_START, "halo", line);
        if (*name || vh_text_width(line, VH_SVG_TEXT, false) +
                             vh_text_width(text, VH_SVG_TEXT, false) + apart >=
                         right - left)
            y += line_height;
    }
    if (svg)
        vh_svg_text(svg, right, y, VH_SVG_END, "t halo", text);
    return y - started;
}

static void draw_row(const struct vh_page *p, struct vh_svg *svg, const struct vh_table *t,
                     size_t row, const struct quantity *q, const struct vh_svg_scale *x, double y)
{
    const double value = diff(p, t, row, q, ""), low = diff(p, t, row, q, "_p10");
    const double high = diff(p, t, row, q, "_p90");
    const bool clear = isfinite(low) && (low > 0.0 || high < 0.0);
    const double at = y + mark_drop + put_words(p, svg, t, row, q, y - name_rise + 4.0);

    if (isfinite(low))
        vh_svg_line(svg, vh_svg_at(x, low), at, vh_svg_at(x, high), at, "ln");
    vh_svg_circle(svg, vh_svg_at(x, value), at, radius, clear ? "dot" : "ring");
}

static void draw_panel(struct vh_page *p, const struct vh_table *t, const struct quantity *q)
{
    struct rows r;
    struct vh_svg svg;
    double least = 0.0, most = 0.0, more = 0.0, step;
    char title[120], text[200];

    read_rows(p, t, q, &r);
    for (int i = 0; i < r.n; i++) {
        const double low = diff(p, t, r.row[i], q, "_p10"), value = diff(p, t, r.row[i], q, "");
        const double high = diff(p, t, r.row[i], q, "_p90");
        least = fmin(least, isfinite(low) ? low : value);
        most = fmax(most, isfinite(high) ? high : value);
        more += put_words(p, NULL, t, r.row[i], q, 0.0);
    }
    const struct vh_svg_scale x =
        vh_svg_amounts(least, fmax(most, least + 1e-3), left + 8.0, right - 8.0, &step);
    const double bottom = top + row_height * r.n + more + 4.0;
    snprintf(title, sizeof title, "Choices: %s against the plan", q->caption);
    snprintf(text, sizeof text, "%d choices; the plan is at 0.", r.n);
    vh_page_drawing(p, &svg, bottom + under, 1, title, text);
    vh_svg_text(&svg, left, unit_y, VH_SVG_START, "t", q->unit);
    for (int i = 0; i <= (int)round((x.high - x.low) / step); i++) {
        const double value = x.low + step * i, at = vh_svg_at(&x, value);
        const bool plan = fabs(value) < step * 1e-6;
        char number[VH_SAY_ROOM];
        vh_svg_line(&svg, at, top - 14.0, at, bottom, plan ? "now" : "grid");
        snprintf(number, sizeof number, "%s%.6g", value < -step * 1e-6 ? "\xE2\x88\x92" : "",
                 plan ? 0.0 : fabs(value));
        vh_svg_text(&svg, at, bottom + 15.0, VH_SVG_MIDDLE, "t", plan ? "plan" : number);
    }
    double y = top + 0.3 * row_height;
    for (int i = 0; i < r.n; i++) {
        draw_row(p, &svg, t, r.row[i], q, &x, y);
        y += row_height + put_words(p, NULL, t, r.row[i], q, 0.0);
    }
    vh_svg_close(&svg);
}

/* The clearest gain that there is room for and the clearest loss in what decides, or that nothing
 * is clear. */
static void say_finding(const struct vh_page *p, const struct vh_table *t, const struct quantity *q,
                        char *said, size_t room)
{
    struct rows r;
    double best = 0.0, worst = 0.0, chance = 0.0;
    const char *good = NULL, *bad = NULL;
    char often[40];

    read_rows(p, t, q, &r);
    for (int i = 0; i < r.n; i++) {
        const double low = diff(p, t, r.row[i], q, "_p10"), high = diff(p, t, r.row[i], q, "_p90");
        if (low > best && !isfinite(vh_cell_number(t, r.row[i], "floor_need_m2"))) {
            best = low;
            chance = vh_cell_number(t, r.row[i], "better_chance");
            good = vh_cell_text(t, r.row[i], "choice");
        }
        if (high < worst) {
            worst = high;
            bad = vh_cell_text(t, r.row[i], "choice");
        }
    }
    say_chance(chance, often, sizeof often);
    if (good)
        snprintf(said, room, "%.100s is %s%s than the plan%s%.100s%s", good, often,
                 strstr(often, " of ") ? " futures" : "", bad ? "; " : "", bad ? bad : "",
                 bad ? " is worse" : "");
    else if (bad)
        snprintf(said, room, "Nothing is clearly better than the plan; %.100s is clearly worse",
                 bad);
    else
        snprintf(said, room, "Nothing is clearly better or worse than the plan");
}

static void add_flips(struct vh_page *p, const struct vh_table *t)
{
    const char *planting = whose(p, t);
    bool any = false;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const char *flip = vh_cell_text(t, i, "flips_if");
        if (!flip[0] || strcmp(vh_cell_text(t, i, "planting"), planting) != 0)
            continue;
        vh_page_add(p, any ? " " : " <b>What would turn it:</b> ");
        vh_page_say_first(p, vh_cell_text(t, i, "choice"));
        vh_page_add(p, ": ");
        char hers[200];
        vh_say_price_in(flip, p->units, hers, sizeof hers);
        vh_page_say(p, hers);
        vh_page_add(p, ".");
        any = true;
    }
}

static void add_no_room(struct vh_page *p, const struct vh_table *t)
{
    const char *planting = whose(p, t);
    bool any = false;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        if (!isfinite(vh_cell_number(t, i, "floor_need_m2")) ||
            strcmp(vh_cell_text(t, i, "planting"), planting) != 0)
            continue;
        vh_page_add(p, any ? "; " : " <b>No room on the floor for:</b> ");
        vh_page_say(p, vh_cell_text(t, i, "choice"));
        any = true;
    }
    vh_page_add(p, any ? "." : "");
}

/* Her currency; `else_` where none is given. */
static const char *money_unit(const struct vh_page *p, const char *else_)
{
    const struct vh_table *house = vh_page_table(p, "house");
    const char *currency = house ? vh_cell_text(house, 0, "currency") : "";

    return currency[0] ? currency : else_;
}

void vh_report_choices(struct vh_page *p)
{
    char income[80], left_over[80];
    snprintf(income, sizeof income, "Income, %.60s", money_unit(p, "money"));
    snprintf(left_over, sizeof left_over, "Money left, %.60s", money_unit(p, "money"));
    const struct vh_page_column column[] = {
        {"choice", "Choice", 0},
        {"planting", "Planting", 0},
        {"fruit_g", "g a fruit", 0},
        {"market_kg", "For sale, kg", 0},
        {"income", income, 0},
        {"hours", "Hours", 0},
        {"margin", left_over, 0},
        {"margin_diff", "against the plan", 0},
        {"margin_diff_p10", "low", 0},
        {"margin_diff_p90", "high", 0},
        {"better_chance", "Better, share", 2},
    };
    const struct vh_table *t = vh_page_table(p, "choices");
    const bool us = p->units == VH_SAY_US;
    struct rows money;
    char finding[400], kick[100];

    if (!t)
        return;
    const struct quantity margin = {"margin", "Money left", money_unit(p, "money"), true};
    const struct quantity market = {"market_kg", "For sale", us ? "lb" : "kg", true};
    read_rows(p, t, &margin, &money);
    const struct quantity panel[PANELS] = {
        {"fruit_g", "Fruit mass", us ? "oz a fruit" : "g a fruit", false},
        money.n ? margin : market,
        {"hours", "Hours", "hours", false}};
    say_finding(p, t, &panel[1], finding, sizeof finding);
    snprintf(kick, sizeof kick, strcmp(whose(p, t), "all") ? "Choices for %.80s" : "Choices",
             whose(p, t));
    vh_page_part(p, "choices", kick, finding);
    vh_page_add(p, "<div class=\"three\">");
    for (int i = 0; i < PANELS; i++) {
        struct rows r;
        read_rows(p, t, &panel[i], &r);
        if (r.n == 0)
            continue;
        vh_page_figure(p, panel[i].caption,
                       i == 0 ? "against the plan" : "a season, against the plan");
        draw_panel(p, t, &panel[i]);
        vh_page_figure_end(p);
    }
    vh_page_add(p,
                "<p class=\"key\"><b>Filled dot</b>: the difference is clear; <b>ring</b>: it may "
                "go either way. Line: four futures in five, the same ones for every choice.");
    add_flips(p, t);
    add_no_room(p, t);
    vh_page_add(p, "</p></div>");
    vh_page_numbers(p, "Choices", t, column, (int)(sizeof column / sizeof column[0]));
    vh_page_part_end(p);
}
