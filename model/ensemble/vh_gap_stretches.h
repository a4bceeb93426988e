/* vh_gap_stretches.h - which market days that lack something belong together. */
#ifndef VH_GAP_STRETCHES_H
#define VH_GAP_STRETCHES_H

#include <stddef.h>
#include <stdint.h>

/* What keeps stretches apart (market.gap_felt, gap_valley, gap_near_d). */
struct vh_gap_rules {
    double felt;   /* share of what is wanted: less is not felt */
    double valley; /* two stretches: between them less than this share of the smaller is missing */
    double near_d; /* days around one whose mean is looked at, so that no single day decides */
};
struct vh_gap_stretch {
    size_t first, last; /* market days; on both of them so much is missing that it is felt */
};

/* The stretches of `days` market days in date order, of which share[i] of what is wanted is missing
 * on day[i]. A day on which that is felt lies in one of them; between their ends there may be
 * others. out[days] has room for them; the return is how many there are. scratch[2 * days]. */
size_t vh_gap_stretches(const struct vh_gap_rules *rules, const int64_t *day, const double *share,
                        size_t days, struct vh_gap_stretch *out, double *scratch);

#endif
