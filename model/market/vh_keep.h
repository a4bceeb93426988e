/* vh_keep.h - in which colour to pick for a market day, and where to keep the fruit until then.
 *
 * Searched over the colours from breaker to red and over the places there are: a warm room in which
 * fruit colours (store.ripen_low_c to ripen_high_c) and the grower's store (her hold_c, else the
 * crop's best range). For each pair the off-vine table says the colour on the market day, and
 * vh_store.h what is lost by then, both at the middle of the place's range. Of the pairs that reach
 * the colour that buyers want (or come within half a colour step of it) and lose at most KEEP_EVEN
 * more than the best of them, the ripest at the pick is taken: it was longest on the vine. Where
 * none reaches it, the pair that comes nearest. In a place colder than the off-vine table fruit is
 * not counted on to colour.
 */
#ifndef VH_KEEP_H
#define VH_KEEP_H

#include "vh_store.h"

#define VH_KEEP_EVEN 0.02 /* losses so close are the same to a grower [assumed] */

enum vh_keep_place { VH_KEEP_WARM, VH_KEEP_STORE };

struct vh_keep_request {
    const struct vh_store_params *store;
    const struct vh_ripen_table *ripen; /* NULL: nothing colours on */
    double days;                        /* from the pick to the market day, from 0 */
    double wanted;                      /* colour that buyers want, on the scale of vh_ripen.h */
    double own_stage;                   /* colour of the planting's own rule; NaN: picked by size */
    bool own_only; /* the colour is not hers to choose: picked by size, or whole trusses */
    double hold_c; /* of her store; NaN: the crop's best range */
};

struct vh_keep {
    double stage; /* colour at the pick; NaN: picked by size */
    enum vh_keep_place place;
    double low_c, high_c; /* keep between these; equal where she gave hold_c */
    double stage_then;    /* on the market day */
    double lost;          /* share of the fruit, too old or chilled by then */
    bool reaches;         /* the colour that is wanted; true where there is no colour */
};

void vh_keep_best(const struct vh_keep_request *q, struct vh_keep *out);
/* "breaker" ... "red", the nearest whole stage; "" for NaN. */
const char *vh_keep_colour_word(double stage);
/* Days after which half of the fruit is hurt by cold at hold_c; endless where it is warm enough. */
double vh_keep_bears_cold_d(const struct vh_store_params *p, double hold_c);
/* True where one of the two gives off ethylene and the other yellows from it. */
bool vh_keep_apart(const struct vh_store_params *a, const struct vh_store_params *b);

#endif
