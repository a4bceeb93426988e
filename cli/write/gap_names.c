#include "vh_gap_names.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

void vh_gap_name(const struct vh_table *summary, const char *crop, char said[VH_GAP_NAME])
{
    enum { NAMED_MOST = 2 };
    size_t used = 0, named = 0;

    snprintf(said, VH_GAP_NAME, "%s", crop);
    for (size_t i = 0; summary && i < vh_table_rows(summary); i++) {
        if (strcmp(vh_cell_text(summary, i, "crop"), crop) != 0)
            continue;
        if (++named > NAMED_MOST) { /* batch after batch: the fruit is what is missed */
            vh_say_crop(crop, said);
            return;
        }
        const int wrote = snprintf(said + used, VH_GAP_NAME - used, "%s%s", used ? ", " : "",
                                   vh_cell_text(summary, i, "planting"));
        if (wrote < 0 || (size_t)wrote >= VH_GAP_NAME - used) { /* too long */
            vh_say_crop(crop, said);
            return;
        }
        used += (size_t)wrote;
    }
    vh_say_list(said, VH_GAP_NAME, "and");
}

/* Of kilograms or of fruits: each gap has one of them. */
static double missing(const struct vh_table *gaps, size_t row)
{
    const double kg = vh_cell_number(gaps, row, "short_kg"),
                 fruits = vh_cell_number(gaps, row, "short_fruits");

    return isfinite(kg) ? kg : isfinite(fruits) ? fruits : 0.0;
}

bool vh_gap_may_be_sown(const struct vh_table *gaps, size_t row)
{
    return vh_cell_number(gaps, row, "plants") > 0.0;
}

/* Does one stand behind the other? */
static bool is_behind(const struct vh_table *gaps, size_t one, size_t other)
{
    const bool is_late = !vh_gap_may_be_sown(gaps, one);
    const double less = vh_cell_number(gaps, one, "short_share"),
                 more = vh_cell_number(gaps, other, "short_share");

    if (is_late != !vh_gap_may_be_sown(gaps, other))
        return is_late;
    return less < more || (less == more && one > other);
}

size_t vh_gap_next(const struct vh_table *gaps, size_t row)
{
    const size_t rows = vh_table_rows(gaps);
    size_t next = rows;

    for (size_t i = 0; i < rows; i++)
        if ((row == SIZE_MAX || is_behind(gaps, i, row)) &&
            (next == rows || is_behind(gaps, next, i)))
            next = i;
    return next;
}

void vh_gap_say_missing(const struct vh_table *gaps, size_t row, enum vh_say_units units,
                        char said[VH_GAP_MISSING])
{
    const bool by_piece = isfinite(vh_cell_number(gaps, row, "short_fruits"));
    const bool us = units == VH_SAY_US && !by_piece;
    char much[VH_SAY_ROOM];

    vh_say_much(us ? vh_say_lb(missing(gaps, row)) : missing(gaps, row), by_piece, much);
    snprintf(said, VH_GAP_MISSING, "%s%s less than you want", much,
             by_piece ? strcmp(much, "1") == 0 ? " fruit" : " fruits"
             : us     ? " lb"
                      : " kg");
}

void vh_gap_say(const struct vh_table *summary, const struct vh_table *gaps, size_t row,
                enum vh_say_units units, char said[VH_GAP_SAID])
{
    char from[VH_SAY_ROOM], until[VH_SAY_ROOM], by[VH_SAY_ROOM], less[VH_GAP_MISSING];
    char plants[VH_SAY_ROOM], low[VH_SAY_ROOM], high[VH_SAY_ROOM], name[VH_GAP_NAME];

    vh_say_date(vh_cell_number(gaps, row, "from"), from);
    vh_say_date(vh_cell_number(gaps, row, "until"), until);
    vh_say_date(vh_cell_number(gaps, row, "sow_by"), by);
    vh_gap_say_missing(gaps, row, units, less);
    vh_gap_name(summary, vh_cell_text(gaps, row, "crop"), name);
    const bool is_one = strcmp(from, until) == 0;
    snprintf(said, VH_GAP_SAID, "%s: %s%s%s, %s; ", name, from, is_one ? "" : " to ",
             is_one ? "" : until, less);
    const size_t n = strlen(said);
    if (!vh_gap_may_be_sown(gaps, row)) {
        snprintf(said + n, VH_GAP_SAID - n, by[0] ? "too late to sow for it" : "no batch fills it");
        return;
    }
    vh_say_pieces(ceil(vh_cell_number(gaps, row, "plants")), plants);
    vh_say_pieces(ceil(vh_cell_number(gaps, row, "plants_p10")), low);
    vh_say_pieces(ceil(vh_cell_number(gaps, row, "plants_p90")), high);
    if (low[0] && high[0] && strcmp(low, high) != 0)
        snprintf(said + n, VH_GAP_SAID - n, "sow %s (%s to %s) by %s", plants, low, high, by);
    else
        snprintf(said + n, VH_GAP_SAID - n, "sow %s by %s", plants, by);
}
