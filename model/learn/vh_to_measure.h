/* vh_to_measure.h - which single count or weighing today would narrow the range of the next market
 * day most: the value of information by covariance over the futures [evensen2009].
 *
 *     var(Y | d) = var(Y) - c^2 / (var(g) + R),   c = C_YM C_MM^-1 C_Mg
 *
 * Y a planting's kg on that market day, g what a season says of the count, R the variance of the
 * count's error (entry, model and what is not known of its bias), M the logs of the factors and the
 * log's offset: what the smoother moves. Weather, visits and straying picks part Y and g from M;
 * they stay, whatever is counted. Correlations are shrunk by what chance alone would show, as the
 * smoother shrinks them.
 */
#ifndef VH_TO_MEASURE_H
#define VH_TO_MEASURE_H

#include "vh_ensemble.h"
#include "vh_record.h"

/* One count that could be made today, and what it is worth. */
struct vh_to_measure {
    size_t planting; /* of the house */
    enum vh_record_item item;
    int truss;      /* 0: of none */
    int of;         /* stems, or fruits, to look at; 0: of the whole planting */
    double expect;  /* mean of the futures */
    int64_t day;    /* the market day; where there is none the last of the seven days to come */
    bool is_market; /* false: picks of those seven days */
    double kg, kg_low, kg_high; /* now: mean, and eight futures in ten between */
    double narrows;             /* share of the range that would go; 0 to 1 */
};

struct vh_measures {
    struct vh_to_measure *item; /* by planting, the most worth first */
    size_t items;
};

/* Of all plantings that stand today, and of what was not measured within the last seven days; in at
 * most record.worth_members of the scenario's futures, as learnt or from the book. None with fewer
 * futures than record.members_least. VH_NO_MEMORY, VH_NO_NUMBER. The caller clears `out`. */
enum vh_status vh_measures_find(const struct vh_scenario *s, struct vh_measures *out,
                                struct vh_messages *m);
/* vh_forecast, and the same measures from its own futures as they are run: *r and *out only if all
 * went well. */
enum vh_status vh_measures_beside(const struct vh_scenario *s, vh_progress progress, void *context,
                                  struct vh_result **r, struct vh_measures *out,
                                  struct vh_messages *m);
void vh_measures_clear(struct vh_measures *all);

#endif
