/* vh_harvest.h - what was or will be picked of a planting, day by day: her own numbers where she
 * wrote them down, the model's elsewhere.
 *
 * The one rule, for everything that tells what is picked or sold: an entry stands for all that was
 * taken off since the entry before it. In that time it counts instead of the model's picks, which
 * only share it among their days; of a weight alone the number of fruits follows by their mass, and
 * of a number alone the mass. Where the model picks nothing in that time it lies on the day of the
 * entry, at the usual mass of a fruit. After a silence of more than twice the usual time an entry
 * may be missing: then it stands for the usual time alone. A doubted entry counts for nothing, and
 * days of which no entry tells are the model's. What is written has no spread.
 *
 * The model's own picks (picks.csv) stay as they are: learning, past forecasts made again and the
 * line BY NOW hold them against the entries.
 */
#ifndef VH_HARVEST_H
#define VH_HARVEST_H

#include "vh_market_day.h"
#include "vh_season.h"

struct vh_harvest_day {
    struct vh_amount picked; /* of the planting, also what cannot be sold */
    bool written;            /* an entry tells of this day */
};

struct vh_harvest {
    struct vh_harvest_day *day; /* [days] of the season */
    size_t days;
};

/* Of planting number `planting` of the house. VH_NO_MEMORY; the caller clears `out`. */
enum vh_status vh_harvest_of(const struct vh_house *house, size_t planting,
                             const struct vh_season *s, struct vh_harvest *out);
void vh_harvest_clear(struct vh_harvest *h);

/* Of all plantings: season and *out [plantings]; NULL: no memory. */
struct vh_harvest *vh_harvests_of(const struct vh_house *house, const struct vh_season *season);
void vh_harvests_free(struct vh_harvest *h, size_t plantings);

#endif
