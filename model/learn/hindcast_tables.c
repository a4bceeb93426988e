/* The hindcast as people read it: week by week, and by how far ahead it looked. */
#include <math.h>
#include <stdio.h>

#include "vh_hindcast.h"
#include "vh_math.h"
#include "vh_result.h"

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

/* Of the columns in model/house/result_columns.c. */
enum {
    WEEK,
    WEEKS_AHEAD,
    PLANTING,
    OBSERVED,
    FORECAST,
    P10,
    P50,
    P90,
    NAIVE_LAST,
    NAIVE_MEAN3,
    CRPS,
    CRPS_NAIVE
};

static enum vh_status add_row(struct vh_table *t, const struct vh_scenario *s,
                              const struct vh_hindcast *h, const struct vh_hindcast_week *w)
{
    char week[VH_WEEK_TEXT];
    enum vh_status status = vh_table_add_row(t);

    vh_date_week_format(w->monday, week);
    if (status == VH_OK)
        status = vh_table_set_text(t, WEEK, week);
    if (status == VH_OK)
        status = vh_table_set_text(t, PLANTING, s->house.planting[w->planting].name);
    if (status != VH_OK)
        return status;
    vh_table_set_number(t, WEEKS_AHEAD, w->weeks_ahead);
    vh_table_set_number(t, OBSERVED, w->observed_kg);
    vh_table_set_number(t, FORECAST, w->mean_kg);
    vh_table_set_number(t, P10, w->p10_kg);
    vh_table_set_number(t, P50, w->p50_kg);
    vh_table_set_number(t, P90, w->p90_kg);
    vh_table_set_number(t, NAIVE_LAST, w->naive_kg[VH_NAIVE_LAST]);
    vh_table_set_number(t, NAIVE_MEAN3, w->naive_kg[VH_NAIVE_MEAN3]);
    vh_table_set_number(t, CRPS, w->crps_kg);
    vh_table_set_number(t, CRPS_NAIVE, w->crps_naive_kg[h->better[w->planting]]);
    return VH_OK;
}

/* ---- by horizon ---- */

enum {
    S_PLANTING,
    S_AHEAD,
    S_WEEKS,
    S_OFF_KG,
    S_OFF,
    S_NAIVE_OFF,
    S_NAIVE,
    S_PINBALL,
    S_CRPS,
    S_CRPS_NAIVE,
    S_HELD,
    S_LAST,
    S_WITHIN
};

static const struct vh_column summary_columns[] = {
    {"planting", VH_CELL_TEXT, "", "which planting; empty: all"},
    {"weeks_ahead", VH_CELL_INTEGER, "1", "how far ahead was looked"},
    {"weeks", VH_CELL_INTEGER, "1", "weeks that were forecast and came"},
    {"off_kg", VH_CELL_NUMBER, "kg", "mean error of the forecast (its median), without sign"},
    {"off", VH_CELL_NUMBER, "1", "the errors over what was picked"},
    {"naive_off", VH_CELL_NUMBER, "1", "the same of the better naive forecast"},
    {"naive", VH_CELL_TEXT, "", "which that is: last or mean3"},
    {"pinball_kg", VH_CELL_NUMBER, "kg", "mean pinball loss of the three percentiles"},
    {"crps_kg", VH_CELL_NUMBER, "kg", "mean score of the futures"},
    {"crps_naive_kg", VH_CELL_NUMBER, "kg", "mean score of the better naive forecast"},
    {"held", VH_CELL_NUMBER, "1", "share of the weeks inside the range of eight in ten futures"},
    {"last", VH_CELL_INTEGER, "1", "of the latest weeks, at most ten,"},
    {"within", VH_CELL_INTEGER, "1", "so many came within a tenth of the forecast"},
};

struct sums {
    int weeks, held, last, within;
    double observed, off, naive_off, pinball, crps, crps_naive;
};

static bool is_compared(const struct vh_hindcast *h, const struct vh_hindcast_week *w,
                        size_t planting, int ahead)
{
    return w->planting == planting && w->weeks_ahead == ahead &&
           !isnan(w->naive_kg[h->better[planting]]);
}

static struct sums sum_of(const struct vh_hindcast *h, size_t planting, int ahead, double within)
{
    const int latest = 10;
    const enum vh_naive naive = h->better[planting];
    struct sums s = {0};

    for (size_t i = h->weeks; i-- > 0;) {
        const struct vh_hindcast_week *w = &h->week[i];
        if (!is_compared(h, w, planting, ahead))
            continue;
        const double off = fabs(w->p50_kg - w->observed_kg);
        s.weeks++;
        s.held += w->observed_kg >= w->p10_kg && w->observed_kg <= w->p90_kg;
        s.observed += w->observed_kg;
        s.off += off;
        s.naive_off += fabs(w->naive_kg[naive] - w->observed_kg);
        s.pinball += w->pinball_kg;
        s.crps += w->crps_kg;
        s.crps_naive += w->crps_naive_kg[naive];
        if (s.last < latest) {
            s.last++;
            s.within += off <= within * w->observed_kg;
        }
    }
    return s;
}

static enum vh_status add_sums(struct vh_table *t, const struct vh_scenario *s,
                               const struct vh_hindcast *h, size_t planting, int ahead)
{
    const struct sums a = sum_of(h, planting, ahead, s->parameters->futures.hindcast_within);
    enum vh_status status = VH_OK;

    if (a.weeks == 0)
        return VH_OK;
    status = vh_table_add_row(t);
    if (status == VH_OK)
        status = vh_table_set_text(t, S_PLANTING, s->house.planting[planting].name);
    if (status == VH_OK)
        status =
            vh_table_set_text(t, S_NAIVE, h->better[planting] == VH_NAIVE_LAST ? "last" : "mean3");
    if (status != VH_OK)
        return status;
    vh_table_set_number(t, S_AHEAD, ahead);
    vh_table_set_number(t, S_WEEKS, a.weeks);
    vh_table_set_number(t, S_OFF_KG, a.off / a.weeks);
    vh_table_set_number(t, S_OFF, a.observed > 0.0 ? a.off / a.observed : VH_UNKNOWN);
    vh_table_set_number(t, S_NAIVE_OFF, a.observed > 0.0 ? a.naive_off / a.observed : VH_UNKNOWN);
    vh_table_set_number(t, S_PINBALL, a.pinball / a.weeks);
    vh_table_set_number(t, S_CRPS, a.crps / a.weeks);
    vh_table_set_number(t, S_CRPS_NAIVE, a.crps_naive / a.weeks);
    vh_table_set_number(t, S_HELD, (double)a.held / a.weeks);
    vh_table_set_number(t, S_LAST, a.last);
    vh_table_set_number(t, S_WITHIN, a.within);
    return VH_OK;
}

enum vh_status vh_hindcast_tables(const struct vh_scenario *s, struct vh_hindcast *h)
{
    enum vh_status status = VH_OK;

    h->table = vh_result_table_new(VH_TABLE_HINDCAST);
    h->summary = vh_table_create("hindcast_summary", "a planting and how far ahead", false,
                                 summary_columns, COUNT(summary_columns));
    if (!h->table || !h->summary)
        return VH_NO_MEMORY;
    for (size_t i = 0; i < h->weeks && status == VH_OK; i++)
        status = add_row(h->table, s, h, &h->week[i]);
    for (size_t k = 0; k < h->plantings; k++)
        for (int ahead = 1; ahead <= VH_HINDCAST_AHEAD && status == VH_OK; ahead++)
            status = add_sums(h->summary, s, h, k, ahead);
    return status;
}
