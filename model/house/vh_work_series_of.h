/* vh_work_series_of.h - from a season that was run to what its work is planned from. */
#ifndef VH_WORK_SERIES_OF_H
#define VH_WORK_SERIES_OF_H

#include "vh_harvest.h"
#include "vh_work_series.h"

/* Points into the season and the house, which must live as long. light_factor: as the season was
 * run with. VH_NO_MEMORY. Clear with vh_work_series_clear. */
enum vh_status vh_work_series_of(const struct vh_house *house, const struct vh_season *season,
                                 double light_factor, struct vh_work_series *out);
/* Picks are those of the harvest, not of the season alone. */
void vh_work_series_take(struct vh_work_series *series, const struct vh_harvest *harvest);
void vh_work_series_clear(struct vh_work_series *series);

#endif
