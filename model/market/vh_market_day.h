/* vh_market_day.h - from fruit picked on many days to what lies on the table on a market day, and
 * what it brings.
 *
 * A market day has the fruit of the picks since the one before, its own morning's too. Fruit that
 * has grown too old in store by then is lost. Orders come first, then the stall, both at full
 * price; what is above them both goes at price_share_beyond of it.
 */
#ifndef VH_MARKET_DAY_H
#define VH_MARKET_DAY_H

#include "vh_market.h"

/* Fruit of one pick that can be sold. */
struct vh_lot {
    int64_t on;
    double fruits, kg;
    double mass_cv;   /* coefficient of variation of its fruits' mass */
    double lost_frac; /* too old on the market day it is for, 0..1 */
};

struct vh_amount {
    double fruits, kg;
};

/* Relation of mass to diameter, for grades that go by diameter: mass = a_g D^exponent, D in mm. */
struct vh_mass_shape {
    double a_g, exponent;
};

/* What the lots of (after, until] give: part[grades of the table, 1 without one, + 1]: each grade,
 * then what no grade takes (too small, too large; nothing without a table). lost: in store. */
void vh_market_gather(const struct vh_lot *lot, size_t lots, int64_t after, int64_t until,
                      const struct vh_grades *grades, struct vh_mass_shape shape,
                      struct vh_amount *part, struct vh_amount *lost);
/* Number of grades of a good: 1 without a table. */
size_t vh_good_grades(const struct vh_good *g);

/* What all orders of a good take on a day. */
struct vh_amount vh_market_orders(const struct vh_market *m, size_t good, int64_t day);

struct vh_takings {
    double income;    /* unknown where the good has no price */
    double beyond_kg; /* above orders and what sells */
};

/* What an amount of grade i brings at full price; 0 where it has no price. */
double vh_market_value(const struct vh_good *g, size_t i, struct vh_amount amount);
/* Of what the good has on a day, part as above. Fruit that no grade takes brings nothing. */
struct vh_takings vh_market_takings(const struct vh_good *g, const struct vh_amount *part,
                                    struct vh_amount orders);

#endif
