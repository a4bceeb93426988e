/* vh_crop_tables.h - what every season of a crop looks up, worked out once and then only read: by
 * hundreds of members at the same time.
 */
#ifndef VH_CROP_TABLES_H
#define VH_CROP_TABLES_H

#include "vh_day.h"

/* The standard normal distribution between -VH_SCATTER_FAR and VH_SCATTER_FAR, with its slope, so
 * that the many looks at it at a pick are cheap: cubic between the points, within 4e-9, and without
 * a kink. */
#define VH_SCATTER_FAR 8.0
#define VH_SCATTER_STEPS 512
struct vh_scatter {
    double share[VH_SCATTER_STEPS + 1], slope[VH_SCATTER_STEPS + 1];
};
void vh_scatter_init(struct vh_scatter *s);
double vh_scatter_share(const struct vh_scatter *s, double x);

struct vh_crop_tables {
    struct vh_fgp fgp;
    struct vh_growth_curve curve;
    struct vh_scatter scatter;
    struct vh_pollen pollen;
};
/* VH_NO_NUMBER as vh_fgp_init. */
enum vh_status vh_crop_tables_init(const struct vh_crop *crop, struct vh_crop_tables *t);

#endif
