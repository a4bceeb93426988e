/* What a planting gives over its season, held against what such houses reach. */
#include "vh_summary.h"

#include <math.h>
#include <string.h>

enum { LINE_ROOM = 1200 };

struct column {
    const struct vh_table *t;
    size_t row;
    double scale; /* of a kilogram: what the person weighs in */
};

/* "34", "9.6": a mass in the person's unit, a decimal below ten. */
static void said(const struct column *c, const char *name, double scale, char text[VH_SAY_ROOM])
{
    vh_say_amount(vh_cell_number(c->t, c->row, name) * c->scale * scale, text);
}

static const char *doubt(const char *word)
{
    if (strcmp(word, "much") == 0)
        return ". Questioned: that is more than such houses reach";
    if (strcmp(word, "little") == 0)
        return ". Questioned: that is less than such houses reach";
    return "";
}

static void say_planting(const struct column *c, bool us, char line[LINE_ROOM])
{
    const double area = us ? 1.0 / vh_say_ft2(1.0) : 1.0;
    const char *unit = us ? "lb" : "kg", *square = us ? "ft2" : "m2";
    const char *name = vh_cell_text(c->t, c->row, "planting");
    const char *word = vh_cell_text(c->t, c->row, "reach");
    char plant[VH_SAY_ROOM], m2[VH_SAY_ROOM], low[VH_SAY_ROOM], high[VH_SAY_ROOM];
    char most[VH_SAY_ROOM], weeks[VH_SAY_ROOM];

    line[0] = 0;
    if (strcmp(word, "nothing") == 0)
        snprintf(line, LINE_ROOM, "%.200s nothing is ripe before it is pulled out", name);
    if (!isfinite(vh_cell_number(c->t, c->row, "picking_weeks")))
        return;
    said(c, "kg_per_plant", 1.0, plant);
    said(c, "kg_m2", area, m2);
    said(c, "reach_low_kg_m2", area, low);
    said(c, "reach_high_kg_m2", area, high);
    said(c, "reach_high_kg_plant", 1.0, most);
    vh_say_pieces(vh_cell_number(c->t, c->row, "picking_weeks"), weeks);
    snprintf(line, LINE_ROOM,
             "%.200s%s %s %s a plant, %s a %s in %s weeks of picking; such houses reach %s to %s a"
             " %s, at your spacing %s a plant%s",
             name, vh_say_name_end(name), plant, unit, m2, square, weeks, low, high, square, most,
             doubt(word));
}

void vh_summary_reach(FILE *to, const struct vh_table *summary, enum vh_say_units units,
                      const char *head, int indent)
{
    const bool us = units == VH_SAY_US;
    char line[LINE_ROOM];

    for (size_t i = 0; i < vh_table_rows(summary); i++) {
        const struct column c = {summary, i, us ? vh_say_lb(1.0) : 1.0};
        say_planting(&c, us, line);
        if (!line[0])
            continue;
        vh_say_block(to, head, indent, line);
        head = "";
    }
}
