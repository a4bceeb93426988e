#include "vh_keep_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { NAMED_MOST = 3 };

static int names_in(const char *names)
{
    int n = names[0] != '\0';

    for (; *names; names++)
        n += *names == ',';
    return n;
}

/* Does the planting's name stand in "slicers, row 1 tomato"? */
static bool stands_in(const char *name, const char *names)
{
    const size_t n = strlen(name);

    for (const char *at = strstr(names, name); at; at = strstr(at + 1, name))
        if ((at == names || at[-1] == ' ') && (at[n] == '\0' || at[n] == ','))
            return true;
    return false;
}

/* "tomatoes, peppers" of many plantings. */
static void say_kinds(const struct vh_table *summary, const char *names, char said[VH_KEEP_ROOM])
{
    char kind[VH_SAY_ROOM], whole[VH_SAY_ROOM];

    said[0] = 0;
    for (size_t i = 0; summary && i < vh_table_rows(summary); i++) {
        if (!stands_in(vh_cell_text(summary, i, "planting"), names))
            continue;
        const char *crop = vh_cell_text(summary, i, "crop");
        snprintf(whole, sizeof whole, "%.*s", (int)strcspn(crop, "-"), crop);
        vh_say_crop(whole, kind);
        if (!stands_in(kind, said))
            snprintf(said + strlen(said), VH_KEEP_ROOM - strlen(said), "%s%s", said[0] ? ", " : "",
                     kind);
    }
}

void vh_keep_words(const struct vh_table *picks, size_t row, const struct vh_table *summary,
                   bool say_apart, enum vh_say_units units, const char *degree,
                   char said[VH_KEEP_ROOM])
{
    const double low = vh_cell_number(picks, row, "keep_low_c"),
                 high = vh_cell_number(picks, row, "keep_high_c");
    const char *apart = vh_cell_text(picks, row, "keep_apart_from");
    char from[VH_SAY_ROOM], to[VH_SAY_ROOM], kinds[VH_KEEP_ROOM];

    said[0] = 0;
    if (isnan(low) || isnan(high))
        return;
    vh_say_degrees(low, units, degree, from);
    vh_say_degrees(high, units, degree, to);
    if (high > low)
        snprintf(said, VH_KEEP_ROOM, "keep at %.*s to %s", (int)strcspn(from, " "), from, to);
    else
        snprintf(said, VH_KEEP_ROOM, "keep at %s", from);
    if (!apart[0] || !say_apart)
        return;
    if (names_in(apart) > NAMED_MOST)
        say_kinds(summary, apart, kinds);
    else
        snprintf(kinds, sizeof kinds, "%s", apart);
    vh_say_list(kinds, sizeof kinds, "or");
    snprintf(said + strlen(said), VH_KEEP_ROOM - strlen(said), ", never beside %s", kinds);
}

const char *vh_pick_colour(const struct vh_table *picks, size_t row)
{
    const char *colour = vh_cell_text(picks, row, "pick_colour");

    return strcmp(colour, "light-red") == 0 ? "light red" : colour;
}
