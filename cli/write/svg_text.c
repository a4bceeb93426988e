#include "vh_svg.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_markup.h"
#include "vh_text_width.h"

/* Share of the text size above and below the base line, and the room a label keeps around it. */
static const double above_line = 0.80, below_line = 0.24, label_gap = 4.0, frame_gap = 4.0;

static struct vh_svg_box box_of(double x, double y, enum vh_svg_anchor anchor, const char *css,
                                const char *text)
{
    const double width = vh_text_width(text, VH_SVG_TEXT, strchr(css, 'n') != NULL);
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

bool vh_svg_label(struct vh_svg *svg, double x, double y, const char *css, const char *text)
{
    const double middle = y + 0.5 * (above_line - below_line) * VH_SVG_TEXT;
    const struct {
        double x, y;
        enum vh_svg_anchor anchor;
    } place[] = {
        {x + label_gap, middle, VH_SVG_START},
        {x - label_gap, middle, VH_SVG_END},
        {x, y - label_gap, VH_SVG_MIDDLE},
        {x, y - label_gap, VH_SVG_START},
        {x, y - label_gap, VH_SVG_END},
        {x, y + label_gap + above_line * VH_SVG_TEXT, VH_SVG_MIDDLE},
    };

    for (size_t i = 0; i < sizeof place / sizeof place[0]; i++) {
        const struct vh_svg_box box = box_of(place[i].x, place[i].y, place[i].anchor, css, text);
        if (!is_free(svg, box))
            continue;
        write_text(svg, place[i].x, place[i].y, place[i].anchor, css, true, text);
        take(svg, box);
        return true;
    }
    return false;
}
