#include "vh_svg.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_markup.h"
#include "vh_text_width.h"

/* Share of the text size above and below the base line, and the room a label keeps around it. */
static const double above_line = 0.80, below_line = 0.24, label_gap = 4.0, frame_gap = 4.0;

static bool is_bold(const char *css)
{
    return !strcmp(css, "n");
}

static struct vh_svg_box box_of(double x, double y, enum vh_svg_anchor anchor, const char *css,
                                const char *text)
{
    const double width = vh_text_width(text, VH_SVG_TEXT, is_bold(css));
    const double left = x - (anchor == VH_SVG_MIDDLE ? width / 2.0
                             : anchor == VH_SVG_END  ? width
                                                     : 0.0);

    return (struct vh_svg_box){left, y - above_line * VH_SVG_TEXT, left + width,
                               y + below_line * VH_SVG_TEXT};
}

static void take(struct vh_svg *svg, struct vh_svg_box box)
{
    if (svg->boxes < VH_SVG_BOXES_MOST)
        svg->taken[svg->boxes++] = box;
}

static bool is_free(const struct vh_svg *svg, struct vh_svg_box box)
{
    if (box.left < frame_gap || box.right > svg->width - frame_gap || box.top < 0.0 ||
        box.bottom > svg->height)
        return false;
    for (int i = 0; i < svg->boxes; i++) {
        const struct vh_svg_box *t = &svg->taken[i];
        if (box.left < t->right && box.right > t->left && box.top < t->bottom &&
            box.bottom > t->top)
            return false;
    }
    return true;
}

static void write_text(struct vh_svg *svg, double x, double y, enum vh_svg_anchor anchor,
                       const char *css, bool halo, const char *text)
{
    static const char *const anchored[] = {"", " m", " e"};
    char tag[160];

    snprintf(tag, sizeof tag, "<text x=\"%.1f\" y=\"%.1f\" class=\"%s%.40s%s\"%s>", x, y,
             halo ? "halo " : "", css, anchored[anchor], halo ? " paint-order=\"stroke\"" : "");
    vh_draft_add(svg->out, tag);
    vh_markup_text(svg->out, text);
    vh_draft_add(svg->out, "</text>");
}

void vh_svg_text(struct vh_svg *svg, double x, double y, enum vh_svg_anchor anchor, const char *css,
                 const char *text)
{
    write_text(svg, x, y, anchor, css, false, text);
    take(svg, box_of(x, y, anchor, css, text));
}

/* How many points of lines a box would cover. */
static int covers(const struct vh_svg *svg, const struct vh_svg_box *box)
{
    int n = 0;

    for (int i = 0; i < svg->points; i++) {
        const struct vh_svg_point *p = &svg->line[i];
        n += p->x > box->left && p->x < box->right && p->y > box->top && p->y < box->bottom;
    }
    return n;
}

struct place {
    double x, y;
    enum vh_svg_anchor anchor;
};

/* Writes at the first of those free places that cover least. */
static bool write_at_best(struct vh_svg *svg, const struct place *place, size_t n, const char *css,
                          const char *text)
{
    size_t best = n;
    int least = 0;

    for (size_t i = 0; i < n; i++) {
        const struct vh_svg_box box = box_of(place[i].x, place[i].y, place[i].anchor, css, text);
        if (!is_free(svg, box))
            continue;
        const int covered = covers(svg, &box);
        if (best < n && covered >= least)
            continue;
        best = i;
        least = covered;
    }
    if (best == n)
        return false;
    write_text(svg, place[best].x, place[best].y, place[best].anchor, css, true, text);
    take(svg, box_of(place[best].x, place[best].y, place[best].anchor, css, text));
    return true;
}

void vh_svg_word(struct vh_svg *svg, double x, double y, const char *text)
{
    const struct place place[] = {
        {x, y, VH_SVG_MIDDLE}, {x + 2.0, y, VH_SVG_START}, {x - 2.0, y, VH_SVG_END}};
    const int points = svg->points;

    svg->points = 0; /* its own line runs up to it */
    write_at_best(svg, place, sizeof place / sizeof place[0], "", text);
    svg->points = points;
}

bool vh_svg_limit_name(struct vh_svg *svg, double left, double right, double y, const char *text)
{
    const double above = y - label_gap, below = y + label_gap + above_line * VH_SVG_TEXT;
    const struct place place[] = {
        {right, above, VH_SVG_END},
        {left + label_gap, above, VH_SVG_START},
        {right, below, VH_SVG_END},
        {left + label_gap, below, VH_SVG_START},
        {(left + right) / 2.0, above, VH_SVG_MIDDLE},
        {(left + right) / 2.0, below, VH_SVG_MIDDLE},
    };

    return write_at_best(svg, place, sizeof place / sizeof place[0], "t", text);
}

const char *vh_svg_take_line(const char *text, double most, char line[VH_SVG_LINE])
{
    size_t end = 0, fits = 0;

    do { /* one word more as long as they fit */
        end += strspn(text + end, " ");
        end += strcspn(text + end, " ");
        if (end >= VH_SVG_LINE)
            break;
        memcpy(line, text, end);
        line[end] = 0;
        if (fits && vh_text_width(line, VH_SVG_TEXT, false) > most)
            break;
        fits = end;
    } while (text[end]);
    line[fits] = 0;
    text += fits;
    return fits ? text + strspn(text, " ") : text + strlen(text);
}

void vh_svg_why(struct vh_svg *svg, double middle, const char *text)
{
    const double line_height = 16.0, most = svg->width - 60.0;

    for (double y = middle - line_height / 2.0; *text; y += line_height) {
        char line[VH_SVG_LINE];
        text = vh_svg_take_line(text, most, line);
        vh_svg_text(svg, svg->width / 2.0, y, VH_SVG_MIDDLE, "t why", line);
    }
}

bool vh_svg_label(struct vh_svg *svg, double x, double y, const char *css, const char *text)
{
    const double middle = y + 0.5 * (above_line - below_line) * VH_SVG_TEXT;
    const struct place place[] = {
        {x + label_gap, middle, VH_SVG_START},
        {x - label_gap, middle, VH_SVG_END},
        {x, y - label_gap, VH_SVG_MIDDLE},
        {x, y - label_gap, VH_SVG_START},
        {x, y - label_gap, VH_SVG_END},
        {x, y + label_gap + above_line * VH_SVG_TEXT, VH_SVG_MIDDLE},
    };

    return write_at_best(svg, place, sizeof place / sizeof place[0], css, text);
}

bool vh_svg_label_above(struct vh_svg *svg, double x, double y, const char *css, const char *text)
{
    const struct place place[] = {{x, y - label_gap, VH_SVG_START},
                                  {x, y - label_gap, VH_SVG_MIDDLE},
                                  {x, y - label_gap, VH_SVG_END}};

    return write_at_best(svg, place, sizeof place / sizeof place[0], css, text);
}
