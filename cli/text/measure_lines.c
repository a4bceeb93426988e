#include "vh_measure_lines.h"

#include <math.h>
#include <string.h>

#include "vh_learnt_words.h"
#include "vh_say.h"

/* Less of a range is not felt by anyone. */
#define LEAST 0.02

static const char *const head = "MEASURE";

/* "Saturday's range" */
static void say_range(const struct vh_table *t, size_t row, char text[VH_SAY_TEXT])
{
    static const char *const day_name[] = {"Monday", "Tuesday",  "Wednesday", "Thursday",
                                           "Friday", "Saturday", "Sunday"};
    const double day = vh_cell_number(t, row, "market_day");

    if (isfinite(day))
        vh_say_add(text, "%s's range", day_name[vh_date_weekday((int64_t)day)]);
    else
        vh_say_add(text, "the range of the seven days to come");
}

/* "truss", of cucumbers "node"; summary: NULL if there is none. */
static const char *truss_word(const struct vh_table *summary, const char *planting)
{
    for (size_t i = 0; summary && i < vh_table_rows(summary); i++)
        if (strcmp(vh_cell_text(summary, i, "planting"), planting) == 0)
            return vh_cell_text(summary, i, "truss_word");
    return "truss";
}

/* "grams a fruit (fruit_g), 20 fruits"; "fruits set (fruits_set) on truss 15, 5 plants" */
static void say_count(const struct vh_table *t, size_t row, const struct vh_table *summary,
                      char text[VH_SAY_TEXT])
{
    const char *item = vh_cell_text(t, row, "item");
    const double truss = vh_cell_number(t, row, "truss"), of = vh_cell_number(t, row, "of");

    const char *word = truss_word(summary, vh_cell_text(t, row, "planting"));
    const char *said =
        strcmp(item, "unmarketable_kg") == 0 ? "weigh what you throw away" : vh_learnt_item(item);
    const size_t n = strlen("truss");
    if (strncmp(said, "truss", n) == 0) /* "truss in flower", of cucumbers "node in flower" */
        vh_say_add(text, "%s%s (%s)", word, said + n, item);
    else
        vh_say_add(text, "%s (%s)", said, item);
    if (isfinite(truss))
        vh_say_add(text, " on %s %.0f", word, truss);
    if (isfinite(of))
        vh_say_add(text, ", %.0f %s", of, strcmp(item, "fruit_g") == 0 ? "fruits" : "plants");
}

/* Is the market's row of plantings sold together, "all CROP", that of this crop? */
static bool is_sold_together(const struct vh_table *market, const char *crop)
{
    for (size_t i = 0; crop[0] && market && i < vh_table_rows(market); i++) {
        const char *name = vh_cell_text(market, i, "planting");
        if (strncmp(name, "all ", 4) == 0 && strcmp(name + 4, crop) == 0)
            return true;
    }
    return false;
}

static const char *crop_of(const struct vh_table *summary, const char *planting)
{
    for (size_t i = 0; summary && i < vh_table_rows(summary); i++)
        if (strcmp(vh_cell_text(summary, i, "planting"), planting) == 0)
            return vh_cell_text(summary, i, "crop");
    return "";
}

/* Of the range of what is sold: a planting that is sold with others is only a part of that, by the
 * widths of their ranges, for the weather moves them together. */
static double narrows_good(const struct vh_result *result, size_t row)
{
    const struct vh_table *t = vh_result_table_named(result, "to_measure"),
                          *summary = vh_result_table_named(result, "summary");
    const char *crop = crop_of(summary, vh_cell_text(t, row, "planting")), *last = "";
    const double own = vh_cell_number(t, row, "kg_high") - vh_cell_number(t, row, "kg_low");
    double all = 0.0;

    if (!is_sold_together(vh_result_table_named(result, "market_days"), crop))
        return vh_cell_number(t, row, "narrows");
    for (size_t i = 0; i < vh_table_rows(t); i++) { /* rows of a planting follow each other */
        const char *planting = vh_cell_text(t, i, "planting");
        if (strcmp(planting, last) != 0 && strcmp(crop_of(summary, planting), crop) == 0)
            all += vh_cell_number(t, i, "kg_high") - vh_cell_number(t, i, "kg_low");
        last = planting;
    }
    return all > 0.0 ? vh_cell_number(t, row, "narrows") * own / all : 0.0;
}

bool vh_measure_line(FILE *to, const struct vh_result *result, int indent)
{
    const struct vh_table *t = vh_result_table_named(result, "to_measure");
    char text[VH_SAY_TEXT] = "";
    double narrows = 0.0;
    size_t best = 0;

    for (size_t row = 0; t && row < vh_table_rows(t); row++) {
        const double by = narrows_good(result, row);
        if (by > narrows) {
            narrows = by;
            best = row;
        }
    }
    if (narrows < LEAST)
        return false;
    vh_say_add(text, "%s: ", vh_cell_text(t, best, "planting"));
    say_count(t, best, vh_result_table_named(result, "summary"), text);
    vh_say_add(text, ", narrows ");
    say_range(t, best, text);
    vh_say_add(text, " most (%.0f %%)", 100.0 * narrows);
    vh_say_block(to, head, indent, text);
    return true;
}

void vh_measure_lines(FILE *to, const struct vh_result *result, int indent)
{
    const struct vh_table *t = vh_result_table_named(result, "to_measure");
    const struct vh_table *summary = vh_result_table_named(result, "summary");
    char text[VH_SAY_TEXT] = "";

    if (!t || vh_table_rows(t) == 0)
        return;
    vh_say_add(text, "one count today would narrow ");
    say_range(t, 0, text);
    vh_say_add(text, " most: ");
    for (size_t row = 0; row < vh_table_rows(t); row++) {
        const char *planting = vh_cell_text(t, row, "planting");
        const double narrows = vh_cell_number(t, row, "narrows");
        if (row > 0 && strcmp(planting, vh_cell_text(t, row - 1, "planting")) == 0)
            continue; /* the first row of each is the most worth */
        vh_say_add(text, "%s%s, ", row > 0 ? "; " : "", planting);
        if (narrows < LEAST) {
            vh_say_add(text, "none by as much as %.0f %%", 100.0 * LEAST);
            continue;
        }
        say_count(t, row, summary, text);
        vh_say_add(text, ", by %.0f %%", 100.0 * narrows);
    }
    vh_say_block(to, head, indent, text);
}
