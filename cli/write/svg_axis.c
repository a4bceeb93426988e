#include "vh_svg.h"

#include <math.h>
#include <stdio.h>

#include "vh_text_width.h"
#include "vinehand.h"

/* Room between an axis and its numbers, length of a tick, base line of month names under the axis.
 */
static const double number_gap = 5.0, tick_length = 4.0, month_drop = 15.0, month_gap = 3.0;
static const double unit_rise = 12.0, number_sink = 4.0;
/* Room that a month's first three letters take, of the widest of them. */
static const double three_room = 30.0;

double vh_svg_at(const struct vh_svg_scale *s, double value)
{
    return s->from + (value - s->low) / (s->high - s->low) * (s->to - s->from);
}

/* The first of 1, 2, 5 times a power of ten that is not below `least`. */
static double round_step(double least)
{
    static const double round_ones[] = {1.0, 2.0, 5.0, 10.0};
    const double power = pow(10.0, floor(log10(least)));

    for (size_t i = 0; i < sizeof round_ones / sizeof round_ones[0]; i++)
        if (round_ones[i] * power >= least * (1.0 - 1e-9))
            return round_ones[i] * power;
    return 10.0 * power;
}

struct vh_svg_scale vh_svg_amounts(double low, double most, double from, double to, double *step)
{
    const double ticks = 5.0, range = most > low ? most - low : 1.0;
    struct vh_svg_scale s = {.from = from, .to = to};

    *step = round_step(range / ticks);
    s.low = *step * floor(low / *step + 1e-9);
    s.high = s.low + *step * ceil((most - s.low) / *step - 1e-9);
    if (s.high <= s.low)
        s.high = s.low + *step;
    return s;
}

void vh_svg_amount_axis(struct vh_svg *svg, const struct vh_svg_scale *y, double step, double left,
                        double right, const char *unit)
{
    const int ticks = (int)floor((y->high - y->low) / step + 0.5);
    char number[40];

    for (int i = 0; i <= ticks; i++) {
        const double value = y->low + step * i, at = vh_svg_at(y, value);
        if (i > 0)
            vh_svg_line(svg, left, at, right, at, "grid");
        snprintf(number, sizeof number, "%.6g", fabs(value) < step * 1e-9 ? 0.0 : value);
        vh_svg_text(svg, left - number_gap, at + number_sink, VH_SVG_END, "t", number);
    }
    if (unit[0])
        vh_svg_text(svg, 0.0, vh_svg_at(y, y->high) - unit_rise, VH_SVG_START, "t", unit);
}

/* Year and month of a day number, by its ISO text. */
static void month_of(int64_t day, int *year, int *month)
{
    char text[11];

    vh_date_format(day, text);
    *year = (text[0] - '0') * 1000 + (text[1] - '0') * 100 + (text[2] - '0') * 10 + (text[3] - '0');
    *month = (text[5] - '0') * 10 + (text[6] - '0');
}

static int64_t first_of(int year, int month)
{
    char text[24];
    int64_t day = 0;

    snprintf(text, sizeof text, "%04d-%02d-01", year, month);
    if (vh_date_parse(text, &day) != VH_OK)
        return INT64_MAX;
    return day;
}

void vh_svg_month_axis(struct vh_svg *svg, const struct vh_svg_scale *x, double y)
{
    static const char *const name[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const double month_d = 30.4, width = month_d / (x->high - x->low) * (x->to - x->from);
    int year, month;

    vh_svg_line(svg, x->from, y, x->to, y, "axis");
    month_of((int64_t)floor(x->low), &year, &month);
    for (;;) {
        const int64_t first = first_of(year, month);
        const double at = vh_svg_at(x, (double)first);
        char said[8];
        if (first == INT64_MAX || at > x->to)
            break;
        /* no longer name where there is room for one: charts side by side say a month alike */
        snprintf(said, sizeof said, "%.*s", width < three_room ? 1 : 3, name[month - 1]);
        if (at >= x->from) {
            vh_svg_line(svg, at, y, at, y + tick_length, "axis");
            if (at + month_gap + vh_text_width(said, VH_SVG_TEXT, false) < svg->width)
                vh_svg_text(svg, at + month_gap, y + month_drop, VH_SVG_START, "t", said);
        }
        year += month / 12;
        month = month % 12 + 1;
    }
}

void vh_svg_today(struct vh_svg *svg, double x, double top, double bottom)
{
    vh_svg_line(svg, x, top, x, bottom, "now");
    vh_svg_word(svg, x, top - number_sink, "today");
}
