/* vh_svg.h - drawings for the report: lines, bars, bands, axes, and labels that are measured before
 * they are placed.
 *
 * Coordinates are user units of the drawing, y downwards. How a mark looks is the style sheet's
 * matter: every mark has a class of page_style.c. Text is always escaped.
 */
#ifndef VH_SVG_H
#define VH_SVG_H

#include <stdint.h>

#include "vh_draft.h"

#define VH_SVG_PANEL 336.0 /* width of a panel */
#define VH_SVG_TEXT 12.0   /* size of its text */
#define VH_SVG_BOXES_MOST 400
#define VH_SVG_POINTS_MOST 1500

struct vh_svg_box {
    double left, top, right, bottom;
};

struct vh_svg {
    struct vh_draft *out;
    double width, height;
    struct vh_svg_box taken[VH_SVG_BOXES_MOST]; /* where text stands already */
    int boxes;
    struct vh_svg_point {
        double x, y;
    } line[VH_SVG_POINTS_MOST]; /* where lines run: labels keep off them if they can */
    int points;
};

/* Opens a drawing with a title and a description for screen readers; number: of this drawing in the
 * page, for its ids. css: class of the drawing ("pa": the first planting's colour). */
void vh_svg_open(struct vh_svg *svg, struct vh_draft *out, double width, double height, int number,
                 const char *css, const char *title, const char *description);
/* A drawing that screen readers pass over: the words beside it say the same. */
void vh_svg_open_hidden(struct vh_svg *svg, struct vh_draft *out, double width, double height,
                        const char *css);
void vh_svg_close(struct vh_svg *svg);

void vh_svg_line(struct vh_svg *svg, double x1, double y1, double x2, double y2, const char *css);
void vh_svg_rect(struct vh_svg *svg, double x, double y, double width, double height,
                 const char *css);
void vh_svg_circle(struct vh_svg *svg, double x, double y, double radius, const char *css);
/* A line through n points; points with NaN break it. */
void vh_svg_path(struct vh_svg *svg, const double *x, const double *y, size_t n, const char *css);
/* The area between two lines; points where one is NaN break it. */
void vh_svg_band(struct vh_svg *svg, const double *x, const double *low, const double *high,
                 size_t n, const char *css);

enum vh_svg_anchor { VH_SVG_START, VH_SVG_MIDDLE, VH_SVG_END };
/* Text on its base line; css holds looks only ("t", "n"), the anchor is set here. Its place counts
 * as taken. */
void vh_svg_text(struct vh_svg *svg, double x, double y, enum vh_svg_anchor anchor, const char *css,
                 const char *text);
/* A label with a halo beside a mark at (x, y): right of it, left, above or below, wherever it
 * covers least of the lines that are drawn already; false: nothing was free and nothing was drawn.
 */
bool vh_svg_label(struct vh_svg *svg, double x, double y, const char *css, const char *text);

/* A label over what reaches up to y: from x to the right, in the middle, or to the left of it. */
bool vh_svg_label_above(struct vh_svg *svg, double x, double y, const char *css, const char *text);

/* A word over an upright line at x: in the middle, right or left of it; nothing where nothing is
 * free. */
void vh_svg_word(struct vh_svg *svg, double x, double y, const char *text);
/* The name of a limit, above or below its line at y, at the left or the right end, wherever it
 * covers least. */
bool vh_svg_limit_name(struct vh_svg *svg, double left, double right, double y, const char *text);
enum { VH_SVG_LINE = 120 };
/* The words of `text` that fit into `most` px, one at least; answers where the next line begins: at
 * the end where there is none, or where a word is longer than any of ours. */
const char *vh_svg_take_line(const char *text, double most, char line[VH_SVG_LINE]);
/* In the middle of a drawing that has nothing to show: why. Broken into lines of its width. */
void vh_svg_why(struct vh_svg *svg, double middle, const char *text);

/* ---- axes ---- */

/* From values to places. */
struct vh_svg_scale {
    double low, high; /* values at the ends */
    double from, to;  /* their places */
};

double vh_svg_at(const struct vh_svg_scale *scale, double value);

/* Round steps of 1, 2 or 5 times a power of ten such that about four to six of them reach from low
 * (floored to a step) beyond `most`; the scale's ends are set to ticks. */
struct vh_svg_scale vh_svg_amounts(double low, double most, double from, double to, double *step);
/* Horizontal gridlines with their numbers left of them, and the unit top left. */
void vh_svg_amount_axis(struct vh_svg *svg, const struct vh_svg_scale *y, double step, double left,
                        double right, const char *unit);
/* Month names right of a tick at the first of the month, under a line at y; days are day numbers.
 */
void vh_svg_month_axis(struct vh_svg *svg, const struct vh_svg_scale *x, double y);
/* The line between past and future. */
void vh_svg_today(struct vh_svg *svg, double x, double top, double bottom);

#endif
