/* vh_sales.h - what one run of the house brings to its market days, by planting and grade. */
#ifndef VH_SALES_H
#define VH_SALES_H

#include "vh_market_day.h"
#include "vh_result.h"

/* A planting, or all plantings of a good, on one market day. */
struct vh_sale {
    struct vh_amount all;                      /* of all grades */
    struct vh_amount lost;                     /* in store */
    struct vh_amount part[VH_GRADES_MOST + 1]; /* grades, then what none takes */
    double income;                             /* unknown: no price */
    double beyond_kg;                          /* above orders and what sells */
};

/* Share of the fruit picked on day d of a season that can be sold; of_sound: of fruit without a
 * fault (a member's factor), 1 in the mean run. */
double vh_marketable_frac(const struct vh_house *house, const struct vh_season *s, size_t d,
                          double of_sound);

/* The same of a planting of a run, with the run's own factor. */
double vh_run_marketable_frac(const struct vh_run *run, size_t planting, size_t d);

/* The fruit of one planting's picks that can be sold, in date order, with what is lost in store by
 * the market day that each is for; what was picked is that of vh_harvest.h. */
struct vh_lots {
    struct vh_lot *lot;
    size_t lots;
};
/* VH_NO_MEMORY; the caller clears `out`. */
enum vh_status vh_lots_of(const struct vh_run *run, size_t planting, struct vh_lots *out);
void vh_lots_clear(struct vh_lots *l);
/* Those of all plantings: out[plantings], all 0 before. VH_NO_MEMORY; the caller clears them. */
enum vh_status vh_house_lots_of(const struct vh_run *run, struct vh_lots *out);
void vh_house_lots_clear(struct vh_lots *lots, size_t plantings);

/* Of planting on day `day` of the market, from its lots. */
void vh_sale_of(const struct vh_run *run, const struct vh_lots *lots, size_t planting, size_t day,
                struct vh_sale *out);
/* Has the planting a place on the table on that day: from set-out until a week after pull-out? */
bool vh_sale_is_of(const struct vh_house *house, size_t planting, size_t day);
/* All plantings of a good on a day: sale[plantings of the house] as vh_sale_of left them; their
 * income and beyond_kg are filled as well, by their share of the value. */
void vh_sale_together(const struct vh_house *house, size_t good, size_t day, struct vh_sale *sale,
                      struct vh_sale *out);

/* What a run sells from a day on, by planting: market_kg and income, in all. */
struct vh_outcome {
    double market_kg, income; /* income unknown: no price */
};
/* out: [plantings]; day_kg: [market days * goods], or NULL. Lots hang on neither prices nor buyers:
 * the same may be sold in several ways. */
enum vh_status vh_outcome_of_lots(const struct vh_run *run, const struct vh_lots *lots,
                                  int64_t from, struct vh_outcome *out, double *day_kg);

#endif
