#include "vh_learnt_words.h"

#include <math.h>
#include <string.h>

#include "vh_say.h"

/* How a mechanism is said to have changed. */
static const struct kind {
    const char *name, *more, *less;
} kinds[] = {
    {"light", "%.0f %% more light on the crop", "%.0f %% less light on the crop"},
    {"truss_pace", "trusses come %.0f %% faster", "trusses come %.0f %% slower"},
    {"fruit_pace", "fruit ripens %.0f %% faster", "fruit ripens %.0f %% slower"},
    {"fruit_mass", "fruit could be %.0f %% heavier", "fruit could be %.0f %% lighter"},
    {"set", "%.0f %% more fruit sets", "%.0f %% less fruit sets"},
    {"stem_pace", "stems grow %.0f %% faster", "stems grow %.0f %% slower"},
    {"sucker_pace", "suckers grow %.0f %% faster", "suckers grow %.0f %% slower"},
    {"marketable", "%.0f %% more of it can be sold", "%.0f %% less of it can be sold"},
    {VH_LEARNT_OFFSET, "the plants live %.1f %s warmer than the log says",
     "the plants live %.1f %s cooler than the log says"},
};

static const struct {
    const char *item, *words;
} items[] = {
    {"picked_kg", "picks"},
    {"picked_fruits", "fruits picked"},
    {"fruit_g", "grams a fruit"},
    {"flowering_truss", "truss in flower"},
    {"picking_truss", "truss being picked"},
    {"fruits_set", "fruits set"},
    {"breaker_fruits", "fruits at breaker"},
    {"turning_fruits", "fruits turning"},
    {"fruit_mm", "fruit diameter"},
    {"leaves_on_stem", "leaves on a stem"},
    {"leaves_made", "leaves made"},
    {"stem_cm", "stem length"},
    {"stem_growth_cm", "stem growth"},
    {"flower_to_pick_d", "days from flower to pick"},
    {"unmarketable_kg", "thrown away"},
    {"pulled_sucker_cm", "sucker length"},
};

static const struct kind *kind_of(const struct vh_table *t, size_t row)
{
    const char *name = vh_cell_text(t, row, "name");

    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(kinds[i].name, name) == 0)
            return &kinds[i];
    return NULL;
}

const char *vh_learnt_item(const char *item)
{
    for (size_t i = 0; i < sizeof items / sizeof items[0]; i++)
        if (strcmp(items[i].item, item) == 0)
            return items[i].words;
    return item;
}

static bool is_offset(const struct vh_table *t, size_t row)
{
    return strcmp(vh_cell_text(t, row, "name"), VH_LEARNT_OFFSET) == 0;
}

/* Share gained, or kelvin. */
static double change(const struct vh_table *t, size_t row)
{
    const double before = vh_cell_number(t, row, "before"), after = vh_cell_number(t, row, "after");

    return is_offset(t, row) ? after - before : after / before - 1.0;
}

static bool is_worth_saying(const struct vh_table *t, size_t row)
{
    const double least_share = 0.01, least_k = 0.2; /* less is not felt by anyone */

    return fabs(change(t, row)) >= (is_offset(t, row) ? least_k : least_share);
}

/* The words of more and less lie in the table above; the compiler checks neither of them. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
void vh_learnt_change(const struct vh_table *learned, size_t row, enum vh_say_units units,
                      char said[VH_LEARNT_ROOM])
{
    const struct kind *k = kind_of(learned, row);
    const double by = change(learned, row),
                 shown = is_offset(learned, row) ? vh_learnt_degrees(by, units) : 100.0 * by;
    const char *planting = vh_cell_text(learned, row, "planting");

    said[0] = 0;
    if (!k || !is_worth_saying(learned, row))
        return;
    if (planting[0])
        snprintf(said, VH_LEARNT_ROOM, "%.60s: ", planting);
    const size_t n = strlen(said);
    snprintf(said + n, VH_LEARNT_ROOM - n, by > 0.0 ? k->more : k->less, fabs(shown),
             units == VH_SAY_US ? "F" : "C");
}
#pragma GCC diagnostic pop

bool vh_learnt_is_sure(const struct vh_table *t, size_t row)
{
    return strcmp(vh_cell_text(t, row, "told_apart"), "yes") == 0;
}

/* How far it moved against how little was known of it. */
static double weight(const struct vh_table *t, size_t row)
{
    const double wide =
        vh_cell_number(t, row, "before_high") - vh_cell_number(t, row, "before_low");

    return wide > 0.0
               ? fabs(vh_cell_number(t, row, "after") - vh_cell_number(t, row, "before")) / wide
               : 0.0;
}

/* What moved and is sure, or is not and moved enough to be felt: the most first; how many. */
static size_t add_changes(char *text, size_t room, const struct vh_table *learned,
                          enum vh_say_units units, bool sure, size_t most)
{
    const double felt_share = 0.05, felt_k = 0.5; /* of what is not sure */
    double below = (double)INFINITY;
    char said[VH_LEARNT_ROOM];
    size_t count = 0;

    for (; count < most; count++) {
        size_t best = vh_table_rows(learned);
        for (size_t row = 0; row < vh_table_rows(learned); row++) {
            const double least = is_offset(learned, row) ? felt_k : felt_share;
            if (vh_learnt_is_sure(learned, row) == sure && is_worth_saying(learned, row) &&
                (sure || fabs(change(learned, row)) >= least) && weight(learned, row) < below &&
                (best == vh_table_rows(learned) || weight(learned, row) > weight(learned, best)))
                best = row;
        }
        if (best == vh_table_rows(learned))
            break;
        below = weight(learned, best);
        vh_learnt_change(learned, best, units, said);
        const size_t n = strlen(text);
        snprintf(text + n, room - n, "%s%s", count > 0 ? "; " : "", said);
    }
    return count;
}

void vh_learnt_block(FILE *to, const struct vh_table *learned, enum vh_say_units units, int indent,
                     size_t most, double last)
{
    const size_t most_unsure = 2;
    char text[2000] = "", unsure[1000] = "", day[VH_SAY_ROOM];

    if (!learned || vh_table_rows(learned) == 0)
        return;
    vh_say_date(last, day);
    snprintf(text, sizeof text, "from your records%s%s, against the book: ", day[0] ? " to " : "",
             day);
    if (add_changes(text, sizeof text, learned, units, true, most) == 0)
        snprintf(text + strlen(text), sizeof text - strlen(text), "nothing stands out yet");
    if (add_changes(unsure, sizeof unsure, learned, units, false, most_unsure) > 0)
        snprintf(text + strlen(text), sizeof text - strlen(text),
                 "; reckoned with, but not sure yet: %s", unsure);
    vh_say_block(to, "LEARNT", indent, text);
}
