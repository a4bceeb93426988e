#include "vh_svg.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_markup.h"

static void add_attribute(struct vh_draft *out, const char *name, double value)
{
    vh_draft_add(out, " ");
    vh_draft_add(out, name);
    vh_draft_add(out, "=\"");
    vh_draft_add_place(out, value);
    vh_draft_add(out, "\"");
}

static void add_class(struct vh_draft *out, const char *css)
{
    if (css && css[0]) {
        vh_draft_add(out, " class=\"");
        vh_markup_text(out, css);
        vh_draft_add(out, "\"");
    }
}

static void open_drawing(struct vh_svg *svg, struct vh_draft *out, double width, double height)
{
    svg->out = out;
    svg->width = width;
    svg->height = height;
    svg->boxes = 0;
    svg->points = 0;
    vh_draft_add(out, "<svg viewBox=\"0 0 ");
    vh_draft_add_place(out, width);
    vh_draft_add(out, " ");
    vh_draft_add_place(out, height);
    vh_draft_add(out, "\"");
}

void vh_svg_open(struct vh_svg *svg, struct vh_draft *out, double width, double height, int number,
                 const char *css, const char *title, const char *description)
{
    char ids[120];

    open_drawing(svg, out, width, height);
    snprintf(ids, sizeof ids, " role=\"img\" aria-labelledby=\"t%d d%d\"", number, number);
    vh_draft_add(out, ids);
    add_class(out, css);
    snprintf(ids, sizeof ids, "><title id=\"t%d\">", number);
    vh_draft_add(out, ids);
    vh_markup_text(out, title);
    snprintf(ids, sizeof ids, "</title><desc id=\"d%d\">", number);
    vh_draft_add(out, ids);
    vh_markup_text(out, description);
    vh_draft_add(out, "</desc>");
}

void vh_svg_open_hidden(struct vh_svg *svg, struct vh_draft *out, double width, double height,
                        const char *css)
{
    open_drawing(svg, out, width, height);
    vh_draft_add(out, " aria-hidden=\"true\"");
    add_class(out, css);
    vh_draft_add(out, ">");
}

void vh_svg_close(struct vh_svg *svg)
{
    vh_draft_add(svg->out, "</svg>");
}

/* Remembers where a line runs, a point every few units. */
static void keep_off(struct vh_svg *svg, double x1, double y1, double x2, double y2)
{
    const double every = 4.0, length = hypot(x2 - x1, y2 - y1);
    const int steps = isfinite(length) ? (int)ceil(length / every) : 0;

    for (int i = 0; i <= steps && svg->points < VH_SVG_POINTS_MOST; i++) {
        const double share = steps ? (double)i / steps : 0.0;
        svg->line[svg->points++] =
            (struct vh_svg_point){x1 + share * (x2 - x1), y1 + share * (y2 - y1)};
    }
}

void vh_svg_line(struct vh_svg *svg, double x1, double y1, double x2, double y2, const char *css)
{
    if (strcmp(css, "grid") != 0 && strcmp(css, "lim") != 0) /* labels may stand on these */
        keep_off(svg, x1, y1, x2, y2);
    vh_draft_add(svg->out, "<line");
    add_attribute(svg->out, "x1", x1);
    add_attribute(svg->out, "y1", y1);
    add_attribute(svg->out, "x2", x2);
    add_attribute(svg->out, "y2", y2);
    add_class(svg->out, css);
    vh_draft_add(svg->out, "/>");
}

void vh_svg_rect(struct vh_svg *svg, double x, double y, double width, double height,
                 const char *css)
{
    if (!(width > 0.0) || !(height > 0.0))
        return;
    vh_draft_add(svg->out, "<rect");
    add_attribute(svg->out, "x", x);
    add_attribute(svg->out, "y", y);
    add_attribute(svg->out, "width", width);
    add_attribute(svg->out, "height", height);
    add_class(svg->out, css);
    vh_draft_add(svg->out, "/>");
}

void vh_svg_circle(struct vh_svg *svg, double x, double y, double radius, const char *css)
{
    vh_draft_add(svg->out, "<circle");
    add_attribute(svg->out, "cx", x);
    add_attribute(svg->out, "cy", y);
    add_attribute(svg->out, "r", radius);
    add_class(svg->out, css);
    vh_draft_add(svg->out, "/>");
}

static void open_path(struct vh_draft *out)
{
    vh_draft_add(out, "<path d=\"");
}

static void close_path(struct vh_draft *out, const char *css)
{
    vh_draft_add(out, "\"");
    add_class(out, css);
    vh_draft_add(out, "/>");
}

static void add_point(struct vh_draft *out, double x, double y, bool first)
{
    vh_draft_add(out, first ? "M" : " ");
    vh_draft_add_place(out, x);
    vh_draft_add(out, " ");
    vh_draft_add_place(out, y);
}

void vh_svg_path(struct vh_svg *svg, const double *x, const double *y, size_t n, const char *css)
{
    bool drawing = false, any = false;

    for (size_t i = 0; i < n; i++) {
        const bool known = isfinite(x[i]) && isfinite(y[i]);
        if (known && !any)
            open_path(svg->out);
        if (known)
            add_point(svg->out, x[i], y[i], !drawing);
        if (known && drawing)
            keep_off(svg, x[i - 1], y[i - 1], x[i], y[i]);
        any = any || known;
        drawing = known;
    }
    if (any)
        close_path(svg->out, css);
}

void vh_svg_band(struct vh_svg *svg, const double *x, const double *low, const double *high,
                 size_t n, const char *css)
{
    for (size_t i = 0; i < n;) {
        size_t end = i;
        while (end < n && isfinite(x[end]) && isfinite(low[end]) && isfinite(high[end]))
            end++;
        if (end - i >= 2) {
            open_path(svg->out);
            for (size_t k = i; k < end; k++)
                add_point(svg->out, x[k], high[k], k == i);
            for (size_t k = end; k > i; k--)
                add_point(svg->out, x[k - 1], low[k - 1], false);
            vh_draft_add(svg->out, "Z");
            close_path(svg->out, css);
        }
        i = end > i ? end : i + 1;
    }
}
