#include "vh_page.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_markup.h"

enum { SUNDAY = 6 };

void vh_page_add(struct vh_page *p, const char *markup)
{
    vh_draft_add(p->out, markup);
}

void vh_page_say(struct vh_page *p, const char *text)
{
    vh_markup_text(p->out, text);
}

void vh_page_capital(char *text)
{
    if (text[0] >= 'a' && text[0] <= 'z')
        text[0] = (char)(text[0] - 'a' + 'A');
}

const char *vh_page_short(const char *name, char said[VH_PAGE_SHORT])
{
    static const char dots[] = "\xE2\x80\xA6";
    const size_t most = 24;
    size_t n = strlen(name);

    if (n <= most)
        return name;
    for (n = most; n > 1 && name[n] != ' '; n--)
        continue;
    if (n <= 1)
        return name; /* one long word */
    memcpy(said, name, n);
    memcpy(said + n, dots, sizeof dots);
    return said;
}

void vh_page_say_first(struct vh_page *p, const char *text)
{
    char first[2] = {text[0], 0};

    vh_page_capital(first);
    vh_page_say(p, first[0] & 0x80 ? "" : first);
    vh_page_say(p, first[0] && !(first[0] & 0x80) ? text + 1 : text);
}

/* A finding, its numbers kept on one line with what they count. */
static void say_finding(struct vh_page *p, const char *finding)
{
    static const char stays[] = "\xC2\xA0";
    char piece[1000];
    size_t out = 0;

    for (size_t i = 0; finding[i] && out + sizeof stays < sizeof piece; i++) {
        const bool tight =
            finding[i] == ' ' && i > 0 && finding[i - 1] >= '0' && finding[i - 1] <= '9';
        if (tight) {
            memcpy(piece + out, stays, sizeof stays - 1);
            out += sizeof stays - 1;
        } else
            piece[out++] = finding[i];
    }
    piece[out] = 0;
    vh_page_say_first(p, piece);
}

void vh_page_part(struct vh_page *p, const char *id, const char *kicker, const char *finding)
{
    vh_page_add(p, "<section class=\"part\" id=\"");
    vh_page_say(p, id);
    vh_page_add(p, "\"><h2><span class=\"kick\">");
    vh_page_say(p, kicker);
    vh_page_add(p, "</span>");
    say_finding(p, finding);
    vh_page_add(p, "</h2>");
}

void vh_page_part_end(struct vh_page *p)
{
    vh_page_add(p, "</section>\n");
}

void vh_page_empty(struct vh_page *p, const char *id, const char *kicker, const char *sentence)
{
    vh_page_part(p, id, kicker, "");
    vh_page_add(p, "<p class=\"soft\">");
    vh_page_say(p, sentence);
    vh_page_add(p, "</p>");
    vh_page_part_end(p);
}

void vh_page_figure(struct vh_page *p, const char *caption, const char *soft)
{
    vh_page_add(p, "<figure><figcaption>");
    vh_page_say_first(p, caption);
    vh_page_add(p, " <span>");
    vh_page_say(p, soft);
    vh_page_add(p, "</span></figcaption>");
}

void vh_page_figure_end(struct vh_page *p)
{
    vh_page_add(p, "</figure>");
}

const char *vh_page_colour(int planting)
{
    static const char *const colour[] = {"pa", "pb", "pc", "pd"};

    return colour[planting % 4];
}

void vh_page_drawing(struct vh_page *p, struct vh_svg *svg, double height, int planting,
                     const char *title, const char *description)
{
    vh_svg_open(svg, p->out, VH_SVG_PANEL, height, ++p->drawings, vh_page_colour(planting), title,
                description);
}

static void say_cell(struct vh_page *p, const struct vh_table *t, size_t row, int at, int decimals)
{
    const struct vh_column *c = vh_table_column(t, (size_t)at);
    char said[VH_SAY_ROOM] = "";

    if (c->kind == VH_CELL_TEXT) {
        vh_page_say(p, vh_table_text(t, row, (size_t)at));
        return;
    }
    const double value = vh_table_number(t, row, (size_t)at);
    if (c->kind == VH_CELL_DATE)
        vh_say_date(value, said);
    else if (isfinite(value))
        snprintf(said, sizeof said, "%.*f", decimals, value + 0.0);
    vh_page_say(p, said);
}

static void open_numbers(struct vh_page *p, const char *caption)
{
    vh_page_add(p, "<details><summary>The numbers</summary><div class=\"scroll\" tabindex=\"0\" "
                   "role=\"region\" aria-label=\"");
    vh_page_say(p, caption);
    vh_page_add(p, "\"><table><caption>");
    vh_page_say(p, caption);
    vh_page_add(p, "</caption><thead><tr>");
}

void vh_page_numbers(struct vh_page *p, const char *caption, const struct vh_table *table,
                     const struct vh_page_column *column, int columns)
{
    open_numbers(p, caption);
    for (int c = 0; c < columns; c++) {
        if (vh_table_find(table, column[c].column) < 0)
            continue;
        vh_page_add(p, "<th scope=\"col\">");
        vh_page_say(p, column[c].heading);
        vh_page_add(p, "</th>");
    }
    vh_page_add(p, "</tr></thead><tbody>");
    for (size_t row = 0; row < vh_table_rows(table); row++) {
        bool first = true;
        vh_page_add(p, "<tr>");
        for (int c = 0; c < columns; c++) {
            const int at = vh_table_find(table, column[c].column);
            if (at < 0)
                continue;
            vh_page_add(p, first ? "<th scope=\"row\">" : "<td>");
            say_cell(p, table, row, at, column[c].decimals);
            vh_page_add(p, first ? "</th>" : "</td>");
            first = false;
        }
        vh_page_add(p, "</tr>");
    }
    vh_page_add(p, "</tbody></table></div></details>");
}

const struct vh_table *vh_page_table(const struct vh_page *p, const char *name)
{
    const struct vh_table *t =
        p->facts->result ? vh_result_table_named(p->facts->result, name) : NULL;

    for (size_t i = 0; !t && i < p->facts->more_tables; i++)
        if (p->facts->more[i] && !strcmp(vh_table_name(p->facts->more[i]), name))
            t = p->facts->more[i];
    return t && vh_table_rows(t) > 0 ? t : NULL;
}

double vh_page_weight(const struct vh_page *p, double kg)
{
    return p->units == VH_SAY_US ? vh_say_lb(kg) : kg;
}

const char *vh_page_weight_unit(const struct vh_page *p)
{
    return p->units == VH_SAY_US ? "lb" : "kg";
}

bool vh_page_by_piece(const struct vh_page *p, const char *planting)
{
    const struct vh_table *t = vh_page_table(p, "summary");
    const int row = vh_page_planting(p, planting);

    return row >= 0 && !strcmp(vh_cell_text(t, (size_t)row, "unit_word"), "fruits");
}

bool vh_page_by_node(const struct vh_page *p, const char *planting)
{
    const struct vh_table *t = vh_page_table(p, "summary");
    const int row = vh_page_planting(p, planting);

    return row >= 0 && !strcmp(vh_cell_text(t, (size_t)row, "truss_word"), "node");
}

int vh_page_planting(const struct vh_page *p, const char *planting)
{
    for (int i = 0; i < p->plantings; i++)
        if (!strcmp(p->planting[i], planting))
            return i;
    return -1;
}

double vh_page_summary(const struct vh_page *p, const char *planting, const char *column)
{
    const int row = vh_page_planting(p, planting);

    return row < 0 ? (double)NAN : vh_cell_number(vh_page_table(p, "summary"), (size_t)row, column);
}

void vh_page_season(const struct vh_page *p, int64_t *first, int64_t *last)
{
    const struct vh_table *t = vh_page_table(p, "house");

    *first = t ? (int64_t)vh_cell_number(t, 0, "first_day") : p->today;
    *last = t ? (int64_t)vh_cell_number(t, 0, "last_day") : p->today + 1;
    *first -= vh_date_weekday(*first); /* whole weeks, so that each has room for its bar */
    *last += SUNDAY - vh_date_weekday(*last);
}

struct vh_page vh_page_of(struct vh_draft *out, const struct vh_page_facts *facts)
{
    struct vh_page p = {.out = out, .facts = facts, .today = facts->today, .units = facts->units};
    const struct vh_table *t = vh_page_table(&p, "summary");

    for (size_t i = 0; t && i < vh_table_rows(t) && p.plantings < VH_PAGE_PLANTINGS_MOST; i++)
        p.planting[p.plantings++] = vh_cell_text(t, i, "planting");
    return p;
}

void vh_page_head(struct vh_page *p, const char *title, bool dark, void style(struct vh_draft *out))
{
    vh_page_add(p, "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
                   "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                   "style-src 'unsafe-inline'\">"
                   "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">");
    if (dark)
        vh_page_add(p, "<meta name=\"color-scheme\" content=\"light dark\">");
    vh_page_add(p, "<title>");
    vh_page_say(p, p->facts->name);
    vh_page_say(p, ", ");
    vh_page_say(p, title);
    vh_page_add(p, "</title>");
    style(p->out);
    vh_page_add(p, "</head>\n<body><div class=\"page\">");
}

/* "14 July 2026. Thermometer to 13 July, records to 12 July." */
static void say_known(const struct vh_page *p, char *said, size_t room)
{
    const struct vh_table *house = vh_page_table(p, "house");
    char date[VH_SAY_ROOM], log[VH_SAY_ROOM] = "", records[VH_SAY_ROOM] = "";

    vh_say_date_with_year((double)p->today, date);
    if (house) {
        vh_say_date(vh_cell_number(house, 0, "last_logged"), log);
        vh_say_date(vh_cell_number(house, 0, "records_until"), records);
    }
    snprintf(said, room, "%s. %s%s, %s%s.", date, log[0] ? "Thermometer to " : "No thermometer log",
             log, records[0] ? "records to " : "no records", records);
}

static void add_head(struct vh_page *p)
{
    char date[VH_SAY_ROOM], known[3 * VH_SAY_ROOM + 60];

    vh_say_date_with_year((double)p->today, date);
    say_known(p, known, sizeof known);
    vh_page_head(p, date, true, vh_page_report_style);
    vh_page_add(p, "<header class=\"mast\"><h1>");
    vh_page_say(p, p->facts->name);
    vh_page_add(p, "</h1><p>");
    vh_page_say(p, known);
    vh_page_add(p, "</p></header>\n<main>");
}

/* Links to the parts that this page has. */
static void add_ways(struct vh_page *p)
{
    static const struct {
        const char *id, *name, *table;
    } part[] = {
        {"picks", "Weekly picks", NULL},
        {"trusses", "Trusses", NULL},
        {"mass", "Fruit mass", "trusses"},
        {"vine", "The vine", NULL},
        {"load", "Load", NULL},
        {"hours", "Hours and supplies", NULL},
        {"climate", "Climate", "climate_days"},
        {"choices", "Choices", "choices"},
        {"kept", "Said and kept", NULL},
        {"assumptions", "Assumptions and sources", NULL},
    };

    vh_page_add(p, "<nav aria-label=\"On this page\">");
    for (size_t i = 0; i < sizeof part / sizeof part[0]; i++) {
        if (part[i].table && !vh_page_table(p, part[i].table))
            continue;
        vh_page_add(p, "<a href=\"#");
        vh_page_say(p, part[i].id);
        vh_page_add(p, "\">");
        vh_page_say(p, part[i].name);
        vh_page_add(p, "</a>");
    }
    vh_page_add(p, "</nav>\n");
}

void vh_report_page(struct vh_draft *out, const struct vh_page_facts *facts)
{
    struct vh_page p = vh_page_of(out, facts);

    add_head(&p);
    vh_report_market(&p);
    vh_report_work(&p);
    add_ways(&p);
    vh_report_picks(&p);
    vh_report_trusses(&p);
    vh_report_mass(&p);
    vh_report_vine(&p);
    vh_report_load(&p);
    vh_report_hours(&p);
    vh_report_climate(&p);
    vh_report_choices(&p);
    vh_report_kept(&p);
    vh_report_sources(&p);
    vh_page_add(&p, "</main></div></body></html>\n");
}
