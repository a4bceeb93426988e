/* vh_page.h - report.html: one page that opens from disk, needs no script and asks for nothing.
 *
 * Every part is a function of its own in a file report_*.c that draws from the result's tables
 * alone; page.c holds what they share. The rules behind the looks stand in page_style.c.
 */
#ifndef VH_PAGE_H
#define VH_PAGE_H

#include "vh_draft.h"
#include "vh_say_numbers.h"
#include "vh_svg.h"
#include "vinehand.h"

#define VH_PAGE_PLANTINGS_MOST 64

/* What a page is drawn from. */
struct vh_page_facts {
    const struct vh_result *result;
    const struct vh_table *const *more; /* tables beside those of the result: said, hindcast ... */
    size_t more_tables;
    const struct vh_scenario *scenario; /* for the defaults in use; NULL: they are left out */
    const char *name;                   /* of the house */
    int64_t today;
    int members;
    enum vh_say_units units;
};

struct vh_page {
    struct vh_draft *out;
    const struct vh_page_facts *facts;
    int64_t today;
    enum vh_say_units units;
    int drawings;                                 /* so far; numbers their ids */
    const char *planting[VH_PAGE_PLANTINGS_MOST]; /* in the order of the scenario */
    int plantings;
};

/* sheet.html: the week to hang up in the house. */
void vh_sheet_page(struct vh_draft *out, const struct vh_page_facts *facts);

void vh_page_report_style(struct vh_draft *out);
void vh_page_sheet_style(struct vh_draft *out);

/* ---- for the parts ---- */

/* Everything up to the page's own header: a policy that lets nothing be asked for, the title behind
 * the house's name, the style; dark: has dark colours too. */
void vh_page_head(struct vh_page *p, const char *title, bool dark,
                  void style(struct vh_draft *out));
void vh_page_add(struct vh_page *p, const char *markup); /* markup of ours, as it is */
void vh_page_say(struct vh_page *p, const char *text);   /* text, escaped */
/* The same with a large first letter: a name of hers that begins a sentence. */
void vh_page_say_first(struct vh_page *p, const char *text);
/* The page of these facts, with the plantings of their result. */
struct vh_page vh_page_of(struct vh_draft *out, const struct vh_page_facts *facts);
/* A name of hers for a sentence or a list: cut at a word where it is long, with three dots. The
 * whole of it stands in its panels. */
#define VH_PAGE_SHORT 40
const char *vh_page_short(const char *name, char said[VH_PAGE_SHORT]);
/* A large first letter for text[], where it is one of a-z. */
void vh_page_capital(char *text);
/* Opens a part: id, the small line that names it, and the finding; close it with
 * vh_page_part_end. */
void vh_page_part(struct vh_page *p, const char *id, const char *kicker, const char *finding);
void vh_page_part_end(struct vh_page *p);
/* A figure with its caption; the drawing follows, then vh_page_figure_end. */
void vh_page_figure(struct vh_page *p, const char *caption, const char *soft);
/* The same of a kind (class): "other" is left out on paper. */
void vh_page_figure_of(struct vh_page *p, const char *kind, const char *caption, const char *soft);
void vh_page_figure_end(struct vh_page *p);
/* Colour class of planting i: "pa", "pb" ... */
const char *vh_page_colour(int planting);
/* A drawing of a panel. */
void vh_page_drawing(struct vh_page *p, struct vh_svg *svg, double height, int planting,
                     const char *title, const char *description);
/* "The numbers": chosen columns of a table, all rows for which `keep` is true (NULL: all), a click
 * away. heading[i] names column[i] for people. */
struct vh_page_column {
    const char *column, *heading;
    int decimals; /* of a number */
};
void vh_page_numbers(struct vh_page *p, const char *caption, const struct vh_table *table,
                     const struct vh_page_column *column, int columns);
/* A table by its name, of the result or beside it; NULL when this run has none or it is empty. */
const struct vh_table *vh_page_table(const struct vh_page *p, const char *name);
/* An empty part: its name and one sentence on what is missing and how to get it. */
void vh_page_empty(struct vh_page *p, const char *id, const char *kicker, const char *sentence);
/* Is there such a planting? Its place, else -1. */
int vh_page_planting(const struct vh_page *p, const char *planting);
/* A number of the planting's row in table "summary". */
double vh_page_summary(const struct vh_page *p, const char *planting, const char *column);
/* What was promised of a planting for a market day about a week before `before`, in kg or by the
 * piece; NaN: nothing. */
double vh_page_said(const struct vh_page *p, const char *planting, bool by_piece, double date,
                    double before);
/* kg as the reader's unit; "kg" or "lb". */
double vh_page_weight(const struct vh_page *p, double kg);
const char *vh_page_weight_unit(const struct vh_page *p);
/* Is this planting counted by the piece? */
bool vh_page_by_piece(const struct vh_page *p, const char *planting);
/* Are its fruiting places called nodes, not trusses? */
bool vh_page_by_node(const struct vh_page *p, const char *planting);
/* First and last day of the season of all plantings. */
void vh_page_season(const struct vh_page *p, int64_t *first, int64_t *last);

/* Places in a panel with an amount axis left and months below. */
#define VH_PANEL_LEFT 34.0
#define VH_PANEL_RIGHT 326.0
#define VH_PANEL_TOP 38.0

/* Opens the drawing of a panel over the whole season: amount axis from low to beyond most, months,
 * today. The marks follow, then vh_svg_close. */
struct vh_panel {
    struct vh_svg svg;
    struct vh_svg_scale x, y;
};
void vh_panel_open(struct vh_page *p, struct vh_panel *panel, int planting, double bottom,
                   double low, double most, const char *unit, const char *title,
                   const char *description);
/* Two lines in one: ink up to today, then css. n points of day and value, in date order. */
void vh_panel_line(const struct vh_page *p, struct vh_panel *panel, const double *day,
                   const double *value, size_t n, const char *known, const char *foreseen);

/* ---- the parts ---- */

#endif
