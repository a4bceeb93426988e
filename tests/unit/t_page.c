#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <math.h>
#include <string.h>

#include "vh_markup.h"
#include "vh_say_numbers.h"
#include "vh_svg.h"
#include "vh_text_width.h"

static const char *marked(const char *text)
{
    static char copy[400];
    struct vh_draft out = {0};

    vh_markup_text(&out, text);
    cr_assert(lt(sz, out.n, sizeof copy));
    memcpy(copy, out.bytes ? out.bytes : "", out.n);
    copy[out.n] = 0;
    vh_draft_clear(&out);
    return copy;
}

Test(page, what_a_person_typed_never_becomes_markup)
{
    cr_expect(eq(str, (char *)marked("<script>alert('1')</script> & \"x\""),
                 (char *)"&lt;script&gt;alert(&#39;1&#39;)&lt;/script&gt; &amp; &quot;x&quot;"));
    cr_expect(
        eq(str, (char *)marked("caf\xC3\xA9 \xE4\xB8\xAD"), (char *)"caf\xC3\xA9 \xE4\xB8\xAD"));
}

Test(page, bytes_that_are_no_text_are_replaced)
{
    /* a lone continuation byte, an overlong slash, half a surrogate pair, a control character */
    cr_expect(eq(str, (char *)marked("a\x80z"), (char *)"a\xEF\xBF\xBDz"));
    cr_expect(eq(str, (char *)marked("\xC0\xAF"), (char *)"\xEF\xBF\xBD\xEF\xBF\xBD"));
    cr_expect(
        eq(str, (char *)marked("\xED\xA0\x80"), (char *)"\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD"));
    cr_expect(eq(str, (char *)marked("a\x01"), (char *)"a\xEF\xBF\xBD"));
}

Test(page, widths_are_those_of_the_font)
{
    /* DejaVu Sans: digits 1303/2048 em, blank 651/2048 em; bold digits 1425/2048 */
    cr_expect(epsilon_eq(dbl, vh_text_width("10 ", 2048.0, false), 1303.0 * 2 + 651.0, 1e-9));
    cr_expect(epsilon_eq(dbl, vh_text_width("7", 2048.0, true), 1425.0, 1e-9));
    cr_expect(epsilon_eq(dbl, vh_text_width("\xE4\xB8\xAD", 12.0, false), 12.0, 1e-9));
}

Test(page, an_amount_axis_has_round_ticks_that_hold_the_most)
{
    const double most[] = {0.7, 3.0, 9.9, 10.0, 47.0, 101.0, 1234.0};

    for (size_t i = 0; i < sizeof most / sizeof most[0]; i++) {
        double step;
        const struct vh_svg_scale s = vh_svg_amounts(0.0, most[i], 200.0, 0.0, &step);
        const double ticks = (s.high - s.low) / step;
        cr_expect(s.low == 0.0 && s.high >= most[i] * (1.0 - 1e-9));
        cr_expect(ticks >= 2.0 && ticks <= 6.5, "%g ticks up to %g", ticks, most[i]);
        cr_expect(epsilon_eq(dbl, vh_svg_at(&s, s.high), 0.0, 1e-9));
        cr_expect(epsilon_eq(dbl, vh_svg_at(&s, s.low), 200.0, 1e-9));
    }
}

Test(page, labels_do_not_cover_each_other_and_stay_in_the_frame)
{
    struct vh_draft out = {0};
    static struct vh_svg svg;
    int placed = 0;

    vh_svg_open(&svg, &out, VH_SVG_PANEL, 200.0, 1, "pa", "t", "d");
    for (int i = 0; i < 40; i++)
        placed += vh_svg_label(&svg, 330.0, 100.0, "", "label of a mark");
    vh_svg_close(&svg);
    cr_expect(placed >= 1 && placed < 40);
    for (int a = 0; a < svg.boxes; a++) {
        const struct vh_svg_box *x = &svg.taken[a];
        cr_expect(x->left >= 0.0 && x->right <= VH_SVG_PANEL && x->top >= 0.0 &&
                  x->bottom <= 200.0);
        for (int b = a + 1; b < svg.boxes; b++) {
            const struct vh_svg_box *y = &svg.taken[b];
            cr_expect(x->right <= y->left || y->right <= x->left || x->bottom <= y->top ||
                      y->bottom <= x->top);
        }
    }
    vh_draft_clear(&out);
}

Test(page, a_line_breaks_where_a_value_is_unknown)
{
    struct vh_draft out = {0};
    static struct vh_svg svg;
    const double x[] = {0, 10, 20, 30, 40}, y[] = {1, 2, (double)NAN, 4, 5};

    vh_svg_open(&svg, &out, 50.0, 50.0, 1, "", "t", "d");
    const size_t before = out.n;
    vh_svg_path(&svg, x, y, 5, "mid");
    const char *const drawn = "<path d=\"M0 1 10 2M30 4 40 5\" class=\"mid\"/>";
    cr_assert(eq(sz, out.n - before, strlen(drawn)));
    cr_expect(memcmp(out.bytes + before, drawn, strlen(drawn)) == 0);
    vh_draft_clear(&out);
}

Test(page, a_note_has_its_lengths_and_weights_in_the_readers_unit)
{
    char said[120];

    /* 15 cm = 5.9 in, 2 to 5 cm = 0.8 to 2.0 in, 0.3 kg = 0.66 lb */
    vh_say_measures_in("over 15 cm: break at 2 to 5 cm", VH_SAY_US, said, sizeof said);
    cr_expect(eq(str, said, (char *)"over 6 in: break at 1 to 2 in"));
    vh_say_measures_in("costs about 0.3 kg of the season", VH_SAY_US, said, sizeof said);
    cr_expect(eq(str, said, (char *)"costs about 0.7 lb of the season"));
    vh_say_measures_in("costs about 0.3 kg, 15 cm", VH_SAY_METRIC, said, sizeof said);
    cr_expect(eq(str, said, (char *)"costs about 0.3 kg, 15 cm"));
    vh_say_measures_in("no number before cm", VH_SAY_US, said, sizeof said);
    cr_expect(eq(str, said, (char *)"no number before cm"));
}

Test(page, what_is_missing_is_said_in_lines_that_fit_the_drawing)
{
    struct vh_draft out = {0};
    static struct vh_svg svg;

    vh_svg_open(&svg, &out, VH_SVG_PANEL, 200.0, 1, "pa", "t", "d");
    vh_svg_why(
        &svg, 100.0,
        "No picks written down yet: weigh what you pick, and a note for each pick is enough to "
        "hold against this forecast.");
    vh_svg_close(&svg);
    cr_expect(ge(int, svg.boxes, 2));
    for (int i = 0; i < svg.boxes; i++)
        cr_expect(svg.taken[i].left >= 0.0 && svg.taken[i].right <= VH_SVG_PANEL);
    vh_draft_clear(&out);
}

Test(page, a_label_keeps_off_lines_where_it_can)
{
    struct vh_draft out = {0};
    static struct vh_svg svg;
    const double x[] = {100.0, 300.0}, y[] = {96.0, 96.0}; /* right of the mark */

    vh_svg_open(&svg, &out, VH_SVG_PANEL, 200.0, 1, "pa", "t", "d");
    vh_svg_path(&svg, x, y, 2, "mid");
    cr_expect(vh_svg_label(&svg, 150.0, 96.0, "", "a label"));
    vh_svg_close(&svg);
    cr_expect(svg.taken[0].bottom <= 96.0 || svg.taken[0].top >= 96.0);
    vh_draft_clear(&out);
}
