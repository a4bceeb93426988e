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
    vh_page_add(p, "<p class=\"soft none\">");
    vh_page_say(p, sentence);
    vh_page_add(p, "</p>");
    vh_page_part_end(p);
}

void vh_page_figure(struct vh_page *p, const char *caption, const char *soft)
{
    vh_page_figure_of(p, "", caption, soft);
}

void vh_page_figure_of(struct vh_page *p, const char *kind, const char *caption, const char *soft)
{
    vh_page_add(p, kind[0] ? "<figure class=\"" : "<figure");
    vh_page_add(p, kind);
    vh_page_add(p, kind[0] ? "\"><figcaption>" : "><figcaption>");
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

static double mm_in(double mm)
{
    return vh_say_in(mm / 10.0);
}

static double m_ft(double m)
{
    return vh_say_in(100.0 * m) / 12.0; /* inches a foot */
}

/* What a reader of US units reads in place of a measure. */
static const struct measure {
    const char *unit;      /* of the column */
    const char *word, *us; /* in a heading */
    double (*of)(double);
    int decimals; /* more than the metric number has */
} measures[] = {
    {"kg", "kg", "lb", vh_say_lb, 0}, {"g", "g", "oz", vh_say_oz, 1},
    {"cm", "cm", "in", vh_say_in, 1}, {"mm", "mm", "in", mm_in, 2},
    {"m", "m", "ft", m_ft, 0},        {"degC", "\xC2\xB0\x43", "\xC2\xB0\x46", vh_say_f, 0},
    {"h", "30", "86", NULL, 0}, /* hours above 30 degC */
};

/* NULL: it is shown as it is. */
static const struct measure *measure_of(const struct vh_page *p, const struct vh_column *c)
{
    for (size_t i = 0; p->units == VH_SAY_US && i < sizeof measures / sizeof measures[0]; i++)
        if (!strcmp(measures[i].unit, c->unit))
            return &measures[i];
    return NULL;
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* A heading with its unit in the reader's: the word where it stands alone. */
static void say_heading(struct vh_page *p, const char *heading, const struct measure *m)
{
    const char *at = m ? strstr(heading, m->word) : NULL;
    char said[VH_SAY_ROOM + 40];

    while (at && ((at > heading && is_letter(at[-1])) || is_letter(at[strlen(m->word)])))
        at = strstr(at + 1, m->word);
    if (at)
        snprintf(said, sizeof said, "%.*s%s%s", (int)(at - heading), heading, m->us,
                 at + strlen(m->word));
    vh_page_say(p, at ? said : heading);
}

static void say_cell(struct vh_page *p, const struct vh_table *t, size_t row, int at, int decimals)
{
    const struct vh_column *c = vh_table_column(t, (size_t)at);
    const struct measure *m = measure_of(p, c);
    char said[VH_SAY_ROOM] = "";

    if (c->kind == VH_CELL_TEXT) {
        vh_page_say(p, vh_table_text(t, row, (size_t)at));
        return;
    }
    const double value = vh_table_number(t, row, (size_t)at);
    if (c->kind == VH_CELL_DATE)
        vh_say_date(value, said);
    else if (isfinite(value))
        snprintf(said, sizeof said, "%.*f", decimals + (m ? m->decimals : 0),
                 (m && m->of ? m->of(value) : value) + 0.0);
    vh_page_say(p, said);
}

static void open_numbers(struct vh_page *p, const char *caption)
{
    vh_page_add(p, "<details><summary>The numbers · ");
    vh_page_say(p, caption);
    vh_page_add(p, "</summary><div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"");
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
        say_heading(
            p, column[c].heading,
            measure_of(p, vh_table_column(table, (size_t)vh_table_find(table, column[c].column))));
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
