#include "vh_page.h"

#include <math.h>
#include <stdlib.h>

static const double under_axis = 24.0, today_rise = 6.0;

void vh_panel_open(struct vh_page *p, struct vh_panel *panel, int planting, double bottom,
                   double low, double most, const char *unit, const char *title,
                   const char *description)
{
    int64_t first, last;
    double step;

    vh_page_season(p, &first, &last);
    panel->x =
        (struct vh_svg_scale){(double)first, (double)last + 1.0, VH_PANEL_LEFT, VH_PANEL_RIGHT};
    panel->y = vh_svg_amounts(low, most, bottom, VH_PANEL_TOP, &step);
    vh_page_drawing(p, &panel->svg, bottom + under_axis, planting, title, description);
    vh_svg_amount_axis(&panel->svg, &panel->y, step, VH_PANEL_LEFT, VH_PANEL_RIGHT, unit);
    vh_svg_month_axis(&panel->svg, &panel->x, bottom);
    if ((double)p->today > panel->x.low && (double)p->today < panel->x.high)
        vh_svg_today(&panel->svg, vh_svg_at(&panel->x, (double)p->today), VH_PANEL_TOP - today_rise,
                     bottom);
}

/* Places of the points for which `past` is as asked; both sides share the point at the seam. */
static size_t places(const struct vh_page *p, const struct vh_panel *panel, const double *day,
                     const double *value, size_t n, bool past, double *x, double *y)
{
    size_t out = 0;

    for (size_t i = 0; i < n; i++) {
        const bool is_past = day[i] < (double)p->today;
        const bool at_seam = past && i > 0 && !is_past && day[i - 1] < (double)p->today;
        if (is_past != past && !at_seam)
            continue;
        x[out] = vh_svg_at(&panel->x, day[i]);
        y[out++] = vh_svg_at(&panel->y, value[i]);
    }
    return out;
}

void vh_panel_line(const struct vh_page *p, struct vh_panel *panel, const double *day,
                   const double *value, size_t n, const char *known, const char *foreseen)
{
    double *x = calloc(2 * n + 1, sizeof *x), *y = x ? x + n : NULL;

    if (!x) {
        panel->svg.out->failed = true;
        return;
    }
    size_t m = places(p, panel, day, value, n, true, x, y);
    vh_svg_path(&panel->svg, x, y, m, known);
    m = places(p, panel, day, value, n, false, x, y);
    vh_svg_path(&panel->svg, x, y, m, foreseen);
    free(x);
}
