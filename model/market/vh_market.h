/* vh_market.h - when, what and at which price the grower sells: plain structs that the scenario
 * fills.
 *
 * Plantings whose fruit meets the same buyers are one good: those of a crop together, or a planting
 * alone where it has a price of its own. Prices, what sells in a day, what is wanted and orders
 * belong to a good.
 */
#ifndef VH_MARKET_H
#define VH_MARKET_H

#include "vh_grade.h"
#include "vh_policy.h"

/* What buyers count in; packs of counted fruit are EACH. */
enum vh_sell_unit { VH_SELL_KG, VH_SELL_LB, VH_SELL_EACH, VH_SELL_PACK };

struct vh_good {
    char *name;                     /* of the crop, or of the planting that has its own price */
    size_t plantings;               /* sold together, at least 1 */
    const size_t *planting;         /* [plantings] of the house, rising; in market.by_good */
    const struct vh_grades *grades; /* NULL: one grade, all marketable fruit */
    double *per_kg, *per_fruit;     /* [grades, at least 1] unknown: no price of this kind */
    bool priced;                    /* false: nothing is known of its money */
    enum vh_sell_unit sold_by;
    double pack_g, pack_fruits;    /* sold by the pack, one of them; else unknown */
    double sells_kg, sells_fruits; /* in a market day at full price; endless: not given */
    double price_share_beyond;     /* of the price for what is above that, 0..1 */
    double wants_kg, wants_fruits; /* below such a promise a day is a gap; 0: not given */
    struct vh_place place;         /* of its [[market.price]] header, where it has one */
};

/* Taken on each market day from..until, both inclusive. */
struct vh_order {
    char *who;
    size_t good;
    int64_t from, until;
    double kg, fruits; /* one of them; the other 0 */
};

/* When she sells, as the scenario says it: whatever plants stand then. */
struct vh_market_open {
    bool weekday[VH_DAYS_PER_WEEK]; /* from..until, both inclusive; [0] Monday */
    int64_t from, until;            /* INT64_MIN, INT64_MAX: always */
    int64_t *date;                  /* [dates] single days beside them */
    size_t dates;
};

struct vh_market {
    bool given; /* the scenario has [market] */
    struct vh_market_open open;
    int64_t
        *day; /* [days] rising, each while a planting stands, or soon after one was pulled out */
    size_t days;
    int64_t sold_after_d; /* so many days after its pull-out a planting's fruit is still sold */
    double promise;       /* chance with which a promise must hold */
    struct vh_good *good;
    size_t goods;
    size_t *good_of; /* [planting of the house] */
    size_t *by_good; /* [plantings of the house] one good after the other */
    struct vh_order *order;
    size_t orders;
    struct vh_grades *table; /* the grade tables that goods point into */
    size_t tables;
};

void vh_market_clear(struct vh_market *m);

#endif
