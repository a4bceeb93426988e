/* vh_compare_view.h - what the parts of the summary of `compare` share. */
#ifndef VH_COMPARE_VIEW_H
#define VH_COMPARE_VIEW_H

#include "vh_summary.h"

enum { VH_COMPARE_TEXT = 2000 };

/* What the rows are about. */
struct vh_compare_view {
    const struct vh_table *t;
    const struct vh_summary_facts *f;
    const char *planting; /* whose rows are shown */
    const char *decides;  /* "margin" or "market_kg" */
    const char *money;    /* sign of it; "" */
    size_t plan;          /* row of the plan */
    bool by_margin, has_range;
};

/* A number of a row, by column + ending. */
double vh_compare_number(const struct vh_compare_view *v, size_t row, const char *column,
                         const char *ending);
/* What a choice is judged by, column + ending ("_diff"): mass as the reader weighs it, money as it
 * is. */
double vh_compare_decided(const struct vh_compare_view *v, size_t row, const char *ending);
/* Is the whole range of a column on one side of nothing? -1, 0, 1. */
int vh_compare_sure_side(const struct vh_compare_view *v, size_t row, const char *column);
/* "-310", "+12"; "0" for what rounds to it. */
void vh_say_signed(double value, char said[VH_SAY_ROOM]);
/* "8 in 10", "1 in 20", "hardly ever" */
void vh_say_chance(double chance, char said[VH_SAY_ROOM]);

#endif
