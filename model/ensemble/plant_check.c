/* The ten-minute plant check: what counts on a few stems should give this week, and between what
 * they usually lie. */
#include <stdio.h>
#include <string.h>

#include "vh_math.h"
#include "vh_plant_check.h"
#include "vh_table.h"

#define TENTH 1.2815515655446004 /* standard deviations to the 10th and the 90th percentile */

enum { PLANTING, ITEM, TRUSS, STEMS, EXPECT, LOW, HIGH, IF_OUTSIDE };

/* A number of a result table, with what one future in ten lies below and above, if many were run.
 */
struct foreseen {
    double value, low, high;
};

static double cell(const struct vh_table *t, size_t row, const char *name, const char *more)
{
    char column[64];
    int at;

    snprintf(column, sizeof column, "%.50s%.8s", name, more);
    at = vh_table_find(t, column);
    return at < 0 ? VH_UNKNOWN : vh_table_number(t, row, (size_t)at);
}

static struct foreseen foreseen(const struct vh_table *t, size_t row, const char *name)
{
    return (struct foreseen){cell(t, row, name, ""), cell(t, row, name, "_p10"),
                             cell(t, row, name, "_p90")};
}

static const char *words_of(enum vh_record_item item)
{
    if (item == VH_RECORD_FLOWERING_TRUSS)
        return "lower: cooler by the plants than by the log, or a slower variety; higher: warmer";
    if (item == VH_RECORD_LEAVES_ON_STEM)
        return "lower: more leaves came off than planned; higher: a visit was missed";
    return "lower: flowers were too hot, too cold or not reached; higher: more to take off";
}

/* The futures' spread and that of a count on so many stems, taken together. */
static enum vh_status add(struct vh_table *t, const struct vh_record_params *p,
                          const char *planting, enum vh_record_item item, double truss,
                          struct foreseen f)
{
    const struct vh_record entry = {.item = item, .value = f.value};
    const double count = TENTH * vh_record_sd(p, &entry);
    const double below = isnan(f.low) ? 0.0 : f.value - f.low,
                 above = isnan(f.high) ? 0.0 : f.high - f.value;

    if (isnan(f.value))
        return VH_OK;
    if (vh_table_add_row(t) != VH_OK || vh_table_set_text(t, PLANTING, planting) != VH_OK ||
        vh_table_set_text(t, ITEM, vh_record_item_name(item)) != VH_OK ||
        vh_table_set_text(t, IF_OUTSIDE, words_of(item)) != VH_OK)
        return VH_NO_MEMORY;
    vh_table_set_number(t, TRUSS, truss);
    vh_table_set_number(t, STEMS, p->stems_silent);
    vh_table_set_number(t, EXPECT, f.value);
    vh_table_set_number(t, LOW, vh_max(0.0, f.value - sqrt(below * below + count * count)));
    vh_table_set_number(t, HIGH, f.value + sqrt(above * above + count * count));
    return VH_OK;
}

static bool is_of(const struct vh_table *t, size_t row, const char *planting)
{
    return strcmp(vh_table_text(t, row, (size_t)vh_table_find(t, "planting")), planting) == 0;
}

static enum vh_status add_leaves(struct vh_table *t, const struct vh_record_params *p,
                                 const struct vh_table *stem, const char *planting, int64_t today)
{
    for (size_t row = 0; row < vh_table_rows(stem); row++)
        if (is_of(stem, row, planting) && cell(stem, row, "date", "") == (double)today)
            return add(t, p, planting, VH_RECORD_LEAVES_ON_STEM, VH_UNKNOWN,
                       foreseen(stem, row, "leaves"));
    return VH_OK;
}

/* On the highest truss whose last flower has been open for some days: its set can be counted. */
static enum vh_status add_set(struct vh_table *t, const struct vh_record_params *p,
                              const struct vh_table *trusses, const char *planting, int64_t today)
{
    const double wait_d = 7.0;
    size_t best = vh_table_rows(trusses);

    for (size_t row = 0; row < vh_table_rows(trusses); row++)
        if (is_of(trusses, row, planting) &&
            cell(trusses, row, "last_flower", "") <= (double)today - wait_d)
            best = row;
    if (best == vh_table_rows(trusses))
        return VH_OK;
    return add(t, p, planting, VH_RECORD_FRUITS_SET, cell(trusses, best, "truss", ""),
               foreseen(trusses, best, "set"));
}

enum vh_status vh_plant_check_fill(struct vh_result *r, const struct vh_scenario *s)
{
    const struct vh_record_params *p = &s->parameters->record;
    const struct vh_table *summary = r->table[VH_TABLE_SUMMARY];
    struct vh_table *t = r->table[VH_TABLE_PLANT_CHECK];
    enum vh_status status = VH_OK;

    for (size_t row = 0; row < vh_table_rows(summary) && status == VH_OK; row++) {
        const char *planting =
            vh_table_text(summary, row, (size_t)vh_table_find(summary, "planting"));
        status = add(t, p, planting, VH_RECORD_FLOWERING_TRUSS, VH_UNKNOWN,
                     foreseen(summary, row, "flowering_truss"));
        if (status == VH_OK)
            status = add_leaves(t, p, r->table[VH_TABLE_STEM], planting, s->house.today);
        if (status == VH_OK)
            status = add_set(t, p, r->table[VH_TABLE_TRUSSES], planting, s->house.today);
    }
    return status;
}
