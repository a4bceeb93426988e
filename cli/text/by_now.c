#include "vh_by_now.h"

#include <math.h>
#include <string.h>

#include "vh_week_much.h"

/* Picks of a planting as they stand in the records, in its own measure. */
struct written {
    double much, model; /* model: what the model alone has by the last of them */
    double first, last; /* days; NaN: there is none */
};

static struct written written_of(const struct vh_table *picks, const char *planting, bool pieces)
{
    const int whose = picks ? vh_table_find(picks, "planting") : -1;
    double model = 0.0;
    struct written w = {0.0, 0.0, (double)NAN, (double)NAN};

    for (size_t i = 0; picks && i < vh_table_rows(picks); i++) {
        if (whose < 0 || strcmp(vh_table_text(picks, i, (size_t)whose), planting) != 0)
            continue;
        const double much = vh_week_written(picks, i, pieces),
                     date = vh_cell_number(picks, i, "date");
        model += vh_cell_number(picks, i, pieces ? "fruits" : "kg"); /* rows come in date order */
        if (!isfinite(much))
            continue;
        w.much += much;
        w.model = model;
        w.first = fmin(w.first, date);
        w.last = fmax(w.last, date);
    }
    return w;
}

/* "250 kg", "440" pieces. */
static void say_much(double much, bool pieces, bool us, bool unit, char said[VH_SAY_ROOM])
{
    vh_say_season_much(!pieces && us ? vh_say_lb(much) : much, pieces, said);
    if (unit && !pieces)
        strcat(said, us ? " lb" : " kg");
}

void vh_by_now_block(FILE *to, const struct vh_result *season, const struct vh_summary_facts *facts,
                     int indent)
{
    const struct vh_table *summary = vh_result_table_named(season, "summary"),
                          *picks = vh_result_table_named(season, "picks");
    const bool us = facts->units == VH_SAY_US;
    char text[VH_SAY_TEXT] = "", much[VH_SAY_ROOM], model[VH_SAY_ROOM], first[VH_SAY_ROOM],
         last[VH_SAY_ROOM];

    for (size_t i = 0; summary && i < vh_table_rows(summary); i++) {
        const char *planting = vh_cell_text(summary, i, "planting");
        const bool pieces = vh_week_by_pieces(summary, planting);
        const struct written w = written_of(picks, planting, pieces);
        if (!isfinite(w.first))
            continue;
        say_much(w.much, pieces, us, true, much);
        say_much(w.model, pieces, us, false, model);
        vh_say_date(w.first, first);
        vh_say_date(w.last, last);
        vh_say_add(text, "%s%s%s %s",
                   text[0] ? ", " : "counts what you wrote down, and the model elsewhere: ",
                   planting, vh_say_name_end(planting), much);
        if (w.first < w.last)
            vh_say_add(text, " from %s to %s", first, last);
        else
            vh_say_add(text, " on %s", first);
        vh_say_add(text, " (the model has %s by then)", vh_say_is_none(model) ? "none" : model);
    }
    if (!text[0])
        vh_say_add(text, "is what the model counts up to today, not what was weighed");
    vh_say_block(to, "BY NOW", indent, text);
}
