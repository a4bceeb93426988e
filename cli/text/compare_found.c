/* What the search of `compare` found: what it tried, and how sure it is. */
#include "vh_compare_found.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "vh_gap_names.h"

enum { INDENT = 11 };

/* "money left over +45 (-60 to +160)" of a choice of a planting. */
static void say_gain(const struct vh_compare_view *v, size_t row, char text[VH_COMPARE_TEXT])
{
    char much[VH_SAY_ROOM], low[VH_SAY_ROOM], high[VH_SAY_ROOM];

    vh_say_signed(vh_compare_decided(v, row, "_diff"), much);
    vh_say_signed(vh_compare_decided(v, row, "_diff_p10"), low);
    vh_say_signed(vh_compare_decided(v, row, "_diff_p90"), high);
    snprintf(text, VH_COMPARE_TEXT, low[0] ? "%s %s (%s to %s)" : "%s %s",
             v->by_margin               ? "money left over"
             : v->f->units == VH_SAY_US ? "for market, lb,"
                                        : "for market, kg,",
             much, low, high);
}

static size_t row_of(const struct vh_table *t, const char *choice, const char *planting)
{
    size_t i = 0;

    while (i < vh_table_rows(t) && (strcmp(vh_cell_text(t, i, "choice"), choice) != 0 ||
                                    strcmp(vh_cell_text(t, i, "planting"), planting) != 0))
        i++;
    return i;
}

/* What the choice that was found comes to, and how sure that is. */
static void say_found(const struct vh_compare_view *v, const struct vh_table *found, size_t i,
                      char text[VH_COMPARE_TEXT])
{
    const char *search = vh_cell_text(found, i, "search"),
               *planting = vh_cell_text(found, i, "planting");
    const size_t row = row_of(v->t, vh_cell_text(found, i, "choice"), planting);
    const double wanted = vh_cell_number(found, i, "at_least_g"),
                 g = vh_cell_number(v->t, row, "fruit_g"),
                 steadier = vh_cell_number(found, i, "steadier_pct");
    char gain[VH_COMPARE_TEXT], mass[VH_SAY_ROOM], least[VH_SAY_ROOM], sure[VH_SAY_ROOM];

    vh_say_chance(vh_cell_number(found, i, "chance"), sure);

    say_gain(v, row, gain);
    if (strcmp(search, "size") == 0) {
        vh_say_fruit_mass(g, v->f->units, mass);
        vh_say_fruit_mass(wanted, v->f->units, least);
        snprintf(text, VH_COMPARE_TEXT, "fruit of %s, %s %s (so much: %s); %.200s", mass,
                 g < wanted ? "short of" : "at least", least, sure, gain);
    } else if (strcmp(search, "steady") == 0) {
        snprintf(text, VH_COMPARE_TEXT, "weeks scatter %.0f %% %s (%s); %.200s", fabs(steadier),
                 steadier < 0.0 ? "less" : "more", sure, gain);
    } else {
        const int side = vh_compare_sure_side(v, row, v->decides);
        snprintf(text, VH_COMPARE_TEXT, "%.200s: %s", gain,
                 side > 0 ? "a gain in nine futures of ten" : "no sure gain, so keep the plan");
    }
}

static void say_search(FILE *to, const struct vh_compare_view *v, const struct vh_result *result)
{
    const struct vh_table *found = vh_result_table_named(result, "found");
    const char *head = "SEARCH";

    for (size_t i = 0; found && i < vh_table_rows(found); i++) {
        const char *choice = vh_cell_text(found, i, "choice"),
                   *search = vh_cell_text(found, i, "search");
        const double most = vh_cell_number(found, i, "most_tried");
        char text[VH_COMPARE_TEXT], came[VH_COMPARE_TEXT] = "nothing better than the plan";
        char bound[48] = "";
        if (isfinite(most))
            snprintf(bound, sizeof bound, "; more than %.3g were not tried", most);
        if (choice[0])
            say_found(v, found, i, came);
        snprintf(text, sizeof text,
                 "%s, for %s: %.0f choices of fruits tried in %.0f %s: %.200s%s%.600s%s.",
                 vh_cell_text(found, i, "planting"),
                 strcmp(search, "size") == 0     ? "size"
                 : strcmp(search, "steady") == 0 ? "steadier weeks"
                                                 : "more money",
                 vh_cell_number(found, i, "seasons"), vh_cell_number(found, i, "members"),
                 vh_cell_number(found, i, "members") == 1.0 ? "future" : "other futures", choice,
                 choice[0] ? ": " : "", came, bound);
        vh_say_block(to, head, INDENT, text);
        head = "";
    }
}

/* The batches that gaps.csv holds, where gaps were asked for. */
static void say_gaps(FILE *to, const struct vh_compare_view *v, const struct vh_result *result)
{
    const struct vh_table *t = vh_result_table_named(result, "gaps");
    const char *head = "GAPS";

    for (size_t i = t ? vh_gap_next(t, SIZE_MAX) : 0; t && i < vh_table_rows(t);
         i = vh_gap_next(t, i)) {
        char said[VH_GAP_SAID];
        vh_gap_say(vh_result_table_named(result, "summary"), t, i, v->f->units, said);
        vh_say_block(to, head, INDENT, said);
        head = "";
    }
    if (head[0])
        vh_say_block(to, head, INDENT,
                     "no market day to come stays below what you want (wants_kg)");
}

void vh_compare_say_found(FILE *to, const struct vh_compare_view *v, const struct vh_result *result,
                          const char *search)
{
    say_search(to, v, result);
    if (strcmp(search, "gaps") == 0)
        say_gaps(to, v, result);
}
