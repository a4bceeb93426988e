/* vh_hindcast.h - how good forecasts would have been: for every week gone by the house is learnt
 * anew from what was written down by its Sunday, and the four weeks after it are forecast from that
 * alone, then held against what came.
 *
 * The forecast of a week is scored by the error of its median, by CRPS over its futures
 * [gneiting2007], by the pinball loss of its 10th, 50th and 90th percentile [koenker1978] and by
 * whether what came lay between the outer two; beside it stand the two naive forecasts of
 * vh_naive.h with the CRPS of their normal spread [gneiting2005, eq. 5]. Picks are spread over the
 * days since the one before on both sides, so that a week with one pick and a week with two can be
 * compared.
 */
#ifndef VH_HINDCAST_H
#define VH_HINDCAST_H

#include "vh_naive.h"
#include "vh_scenario.h"

#define VH_HINDCAST_AHEAD 4 /* weeks, as the file hindcast.csv has them */

/* One week of a planting as it was forecast weeks_ahead weeks before its end. NaN: not known. */
struct vh_hindcast_week {
    int64_t monday; /* of the week that was forecast */
    int weeks_ahead;
    size_t planting;
    double observed_kg;
    double mean_kg, p10_kg, p50_kg, p90_kg;
    double crps_kg, pinball_kg; /* pinball: mean of the three levels */
    double naive_kg[VH_NAIVES], crps_naive_kg[VH_NAIVES];
};

struct vh_hindcast {
    size_t plantings;
    struct vh_hindcast_week *week; /* by week, weeks ahead, planting */
    size_t weeks, room;
    enum vh_naive *better; /* [planting] the naive forecast with the lower sum of CRPS */
    struct vh_table *table, *summary;
};

/* Fills table and summary from the weeks. VH_NO_MEMORY. */
enum vh_status vh_hindcast_tables(const struct vh_scenario *s, struct vh_hindcast *h);

#endif
