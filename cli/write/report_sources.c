/* What stands on guesses: what was learnt, the weakest assumption, and every default in use with
 * its basis and source. */
#include "vh_report.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "vh_learnt_names.h"

static const struct vh_table *defaults_of(const struct vh_page *p)
{
    const struct vh_scenario *s = p->facts->scenario;

    for (size_t i = 0; s && i < vh_scenario_table_count(s); i++) {
        const struct vh_table *t = vh_scenario_table(s, i);
        if (!strcmp(vh_table_name(t), "defaults"))
            return vh_table_rows(t) ? t : NULL;
    }
    return NULL;
}

/* How many of the defaults stand on a guess of ours. */
static int guesses(const struct vh_table *t)
{
    int n = 0;

    for (size_t i = 0; i < vh_table_rows(t); i++) {
        const char *basis = vh_cell_text(t, i, "basis");
        n += !strcmp(basis, "assumed") || !strcmp(basis, "from memory");
    }
    return n;
}

static void add_learned(struct vh_page *p, const struct vh_table *t)
{
    char text[VH_LEARNT_ROOM];

    vh_page_add(
        p,
        "<div class=\"scroll learnt\" tabindex=\"0\" role=\"region\" aria-label=\"Learnt from your "
        "records\"><table class=\"txt\"><caption>Learnt from your records</caption><thead>"
        "<tr><th scope=\"col\">What</th><th scope=\"col\">Book</th><th scope=\"col\">Now</th>"
        "<th scope=\"col\">Range</th><th scope=\"col\">Told apart</th></tr></thead><tbody>");
    for (size_t i = 0; i < vh_table_rows(t); i++) {
        vh_page_add(p, "<tr><th scope=\"row\">");
        const bool is_offset = strcmp(vh_cell_text(t, i, "name"), VH_LEARNT_OFFSET) == 0;
        const double per = is_offset ? vh_learnt_degrees(1.0, p->units) : 1.0;
        vh_learnt_name(t, i, p->units, text);
        vh_page_say_first(p, text);
        snprintf(text, sizeof text,
                 "</th><td>%.2f</td><td>%.2f</td><td class=\"whole\">%.2f to %.2f</td><td>",
                 per * vh_cell_number(t, i, "before"), per * vh_cell_number(t, i, "after"),
                 per * vh_cell_number(t, i, "after_low"), per * vh_cell_number(t, i, "after_high"));
        vh_page_add(p, text);
        vh_learnt_mistaken(t, i, text);
        vh_page_say_first(p, text[0] ? "no, from " : vh_cell_text(t, i, "told_apart"));
        vh_page_say(p, text);
        vh_page_add(p, "</td></tr>");
    }
    vh_page_add(p, "</tbody></table></div>");
}

void vh_report_sources(struct vh_page *p)
{
    static const struct vh_page_column column[] = {
        {"key", "What", 0},    {"value", "In use", 3},  {"unit", "Unit", 0},
        {"basis", "Basis", 0}, {"source", "Source", 0},
    };
    const struct vh_table *house = vh_page_table(p, "house"), *defaults = defaults_of(p);
    const struct vh_table *learned = vh_page_table(p, "learned");
    const char *roughest = house ? vh_cell_text(house, 0, "roughest") : "";
    char finding[300], text[400];

    snprintf(finding, sizeof finding, "%s%.200s", roughest[0] ? "The weakest number here: " : "",
             roughest[0] ? roughest : "What this page stands on");
    vh_page_part(p, "assumptions", "Assumptions and sources", finding);
    if (learned)
        add_learned(p, learned);
    snprintf(text, sizeof text,
             p->facts->members > 1
                 ? "Ranges come from %d futures that differ in weather, pace and light. They hold "
                   "four times in five if those differ as much as real ones do."
                 : "One mean run (%d member): no ranges.",
             p->facts->members);
    vh_page_add(p, "<p>");
    vh_page_say(p, text);
    vh_page_add(p, " It is a model\xE2\x80\x99s answer, not advice.</p>");
    if (defaults) {
        snprintf(
            text, sizeof text,
            "%zu numbers that you did not give are defaults; %d of them are guesses of ours. "
            "\xE2\x80\x9Cvinehand explain NAME\xE2\x80\x9D tells of each what it means and where "
            "it comes from, and of a source its title.",
            vh_table_rows(defaults), guesses(defaults));
        vh_page_add(p, "<p class=\"other\">");
        vh_page_say(p, text);
        vh_page_add(p, "</p>");
        vh_page_numbers(p, "Defaults in use", defaults, column,
                        (int)(sizeof column / sizeof column[0]));
    }
    vh_page_add(p,
                "<p class=\"paper\">On the screen this page has more: every table, the load, the "
                "climate, the vines in any week, what was learnt.</p>");
    vh_page_part_end(p);
}
