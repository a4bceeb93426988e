/* Where one gap ends and the next begins: in a valley of what is missing. A run of days that are
 * short would be joined by one day that lacks a single fruit, and cut by one that lacks none. */
#include "vh_gap_stretches.h"

#include <math.h>

#include "vh_math.h"

/* Mean of the days around each. */
static void smooth(const struct vh_gap_rules *rules, const int64_t *day, const double *share,
                   size_t days, double *out)
{
    for (size_t i = 0, from = 0; i < days; i++) {
        double sum = 0.0;
        size_t k;

        while ((double)(day[i] - day[from]) > rules->near_d)
            from++;
        for (k = from; k < days && (double)(day[k] - day[i]) <= rules->near_d; k++)
            sum += share[k];
        out[i] = sum / (double)(k - from);
    }
}

struct ground {
    const struct vh_gap_rules *rules;
    const double *share, *near; /* of each day, and of the days around it */
    double *before;             /* [days], the highest peak up to a day */
};

/* Only days on which it is felt are peaks. */
static double peak(const struct ground *g, size_t day)
{
    return g->share[day] >= g->rules->felt ? g->near[day] : 0.0;
}

/* The lowest day that parts two stretches; `last + 1`: none does. */
static size_t valley_of(const struct ground *g, size_t first, size_t last)
{
    size_t found = last + 1;
    double most = 0.0;

    for (size_t i = first; i <= last; i++)
        g->before[i] = most = vh_max(most, peak(g, i));
    most = 0.0;
    for (size_t i = last + 1; i-- > first;) {
        most = vh_max(most, peak(g, i));
        if (g->near[i] < g->rules->valley * vh_min(g->before[i], most) &&
            (found > last || g->near[i] < g->near[found]))
            found = i;
    }
    return found;
}

/* From `first` on, up to the last day of the first stretch and no further. */
static size_t end_of_first(const struct ground *g, size_t first, size_t last)
{
    for (size_t v = valley_of(g, first, last); v <= last; v = valley_of(g, first, last))
        last = v;
    return last;
}

size_t vh_gap_stretches(const struct vh_gap_rules *rules, const int64_t *day, const double *share,
                        size_t days, struct vh_gap_stretch *out, double *scratch)
{
    const struct ground g = {rules, share, scratch, scratch + days};
    size_t n = 0;

    smooth(rules, day, share, days, scratch);
    for (size_t from = 0; from < days;) {
        const size_t end = end_of_first(&g, from, days - 1);
        struct vh_gap_stretch s = {from, end};
        while (s.first < end && share[s.first] < rules->felt)
            s.first++;
        while (s.last > s.first && share[s.last] < rules->felt)
            s.last--;
        if (share[s.first] >= rules->felt)
            out[n++] = s;
        from = end + 1;
    }
    return n;
}
