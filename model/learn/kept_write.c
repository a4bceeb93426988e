/* What was learnt as a file for the next season: crop_or_planting,name,factor,low,high. */
#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vh_learn.h"
#include "vh_math.h"
#include "vh_table.h"

#define HEAD "crop_or_planting,name,factor,low,high\n"
#define TENTH 1.2815515655446004 /* standard deviations to the 10th and the 90th percentile */

/* The row of the learned table; (size_t)-1: none. */
static size_t row_of(const struct vh_table *t, const char *planting, const char *name)
{
    const size_t none = (size_t)-1;
    const size_t at = t ? (size_t)vh_table_find(t, "planting") : 0,
                 named = t ? (size_t)vh_table_find(t, "name") : 0;

    for (size_t row = 0; t && row < vh_table_rows(t); row++)
        if (strcmp(vh_table_text(t, row, at), planting) == 0 &&
            strcmp(vh_table_text(t, row, named), name) == 0)
            return row;
    return none;
}

/* The file as it grows; there is room for all of it. */
struct text {
    char *bytes;
    size_t n, room;
};

static void say(struct text *to, const char *who, const char *name, double factor, double low,
                double high)
{
    const int n = snprintf(to->bytes + to->n, to->room - to->n, "%s,%s,%.6g,%.6g,%.6g\n", who, name,
                           factor, low, high);

    assert(n > 0 && (size_t)n < to->room - to->n);
    to->n += (size_t)n;
}

/* What this season taught, else what an earlier one did; what neither knows is left to the book. */
static void write_kind(struct text *to, const struct vh_scenario *s, size_t planting,
                       enum vh_kept_kind kind)
{
    const bool of_house = vh_kept_is_of_house(kind);
    const char *who = of_house ? VH_KEPT_HOUSE : s->house.planting[planting].name;
    const char *name = vh_kept_name(kind);
    const struct vh_kept *kept =
        of_house ? &s->house.kept[kind] : &s->house.planting[planting].kept[kind];
    const size_t row = row_of(s->learned, of_house ? "" : who, name);

    if (row != (size_t)-1)
        say(to, who, name, vh_cell_number(s->learned, row, "after"),
            vh_cell_number(s->learned, row, "after_low"),
            vh_cell_number(s->learned, row, "after_high"));
    else if (kept->given && kind == VH_KEPT_LOG_OFFSET)
        say(to, who, name, kept->mean, kept->mean - TENTH * kept->sd,
            kept->mean + TENTH * kept->sd);
    else if (kept->given)
        say(to, who, name, kept->mean, kept->mean * vh_exp(-TENTH * kept->sd),
            kept->mean * vh_exp(TENTH * kept->sd));
}

enum vh_status vh_scenario_kept(const struct vh_scenario *s, char **text, size_t *n)
{
    const size_t line = 80; /* bytes of three numbers and a factor's name */
    struct text to = {.room = sizeof HEAD};

    for (size_t p = 0; p < s->house.plantings; p++)
        to.room += VH_KEPT_KINDS * (line + strlen(s->house.planting[p].name));
    to.room += VH_KEPT_KINDS * (line + strlen(VH_KEPT_HOUSE));
    to.bytes = malloc(to.room);
    *text = NULL;
    *n = 0;
    if (!to.bytes)
        return VH_NO_MEMORY;
    memcpy(to.bytes, HEAD, sizeof HEAD);
    to.n = sizeof HEAD - 1;
    for (int k = 0; k < VH_KEPT_KINDS; k++)
        if (vh_kept_is_of_house((enum vh_kept_kind)k))
            write_kind(&to, s, 0, (enum vh_kept_kind)k);
    for (size_t p = 0; p < s->house.plantings; p++)
        for (int k = 0; k < VH_KEPT_KINDS; k++)
            if (!vh_kept_is_of_house((enum vh_kept_kind)k))
                write_kind(&to, s, p, (enum vh_kept_kind)k);
    *text = to.bytes;
    *n = to.n;
    return VH_OK;
}
