/* vh_store.h - fruit between its pick and the market day: how much of it is too old or hurt by
 * cold by then.
 *
 *     life(T)  = life_d q10^(-max(0, T - best_high)/10)      [rule of thumb: twice to three times
 *                as fast per 10 K]
 *     too old  = P(L < days - days to red at T), L log-normal around life(T) with life_cv; fruit
 *                that does not colour on in store ages from its pick
 *     chilled  = P(D < days), D log-normal around chill_d 2^((T - chill)/chill_halving) with
 *                life_cv, below chill alone [times and temperatures: the rows' sources]
 *     lost     = 1 - (1 - too old)(1 - chilled)
 *
 * Ripening in store is tabulated between two temperatures; colder it is taken as at the lowest,
 * warmer as at the highest [assumed]: fruit is then rather older than reckoned younger.
 */
#ifndef VH_STORE_H
#define VH_STORE_H

#include "vh_after_pick.h"
#include "vh_ripen.h"

/* Share of the fruit lost after `days` at hold_c, 0..1. stage: colour at the pick on the scale of
 * vh_ripen.h; NaN: picked by size, not by colour. ripen may be NULL where nothing colours on. */
double vh_store_lost_frac(const struct vh_store_params *p, const struct vh_ripen_table *ripen,
                          double stage, double hold_c, double days);
/* The two parts of it. */
double vh_store_old_frac(const struct vh_store_params *p, const struct vh_ripen_table *ripen,
                         double stage, double hold_c, double days);
double vh_store_chilled_frac(const struct vh_store_params *p, double hold_c, double days);
/* Days until red in store; 0 for fruit that does not colour on or has no colour. */
double vh_store_days_to_red(const struct vh_store_params *p, const struct vh_ripen_table *ripen,
                            double stage, double hold_c);
/* Colour after so many days in store; the stage itself where it does not colour on. */
double vh_store_stage_after(const struct vh_store_params *p, const struct vh_ripen_table *ripen,
                            double stage, double hold_c, double days);

/* The colour of a stage of the plant's ripening clock (s at breaker, turning, pink, light red and
 * red), on the scale of vh_ripen.h; straight between them, mature green below breaker down to
 * s = breaker - (turning - breaker). */
struct vh_colours;
double vh_store_colour_of(const struct vh_colours *c, double s);

#endif
