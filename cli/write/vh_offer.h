/* vh_offer.h - what there is of each good on a market day: likely, safe, ordered, free. */
#ifndef VH_OFFER_H
#define VH_OFFER_H

#include "vh_page.h"

enum { VH_GOODS_MOST = 24 };

/* One good on one market day, in what people count it in. */
struct vh_offer {
    double likely, low, high, safe, ordered; /* NaN: not known, not given */
    double short_chance, promise; /* of which packs are made: in kg or pieces */
};

struct vh_good {
    const char *name;        /* as in the table: a planting, or all of a crop */
    char shown[VH_SAY_ROOM]; /* the planting, or the crop in words */
    bool pieces;
    double pack;   /* in kg or pieces; NaN: not sold by the pack */
    double sells;  /* at full price beside the orders, in what it is counted in; NaN: not given */
};

struct vh_goods {
    struct vh_good good[VH_GOODS_MOST];
    int n;
};

/* Goods of the table; plantings that are sold together stand as one. */
void vh_goods_read(const struct vh_page *p, const struct vh_table *t, struct vh_goods *g);
/* False: nothing is said of it on that day. */
bool vh_offer_read(const struct vh_page *p, const struct vh_good *g, double day,
                   struct vh_offer *o);
/* The first market day after `after`, or NaN. */
double vh_market_after(const struct vh_page *p, double after);
/* The last market day before `before`, or NaN. */
double vh_market_before(const struct vh_page *p, double before);
/* "Saturday". */
const char *vh_market_weekday(double day);
/* "Saturday 18 July". */
void vh_market_say_day(double day, char *said);
/* An amount of it, "24", as people say it. */
void vh_good_say(const struct vh_good *g, double value, char *said);
/* "kg", or nothing for what is counted. */
const char *vh_good_unit(const struct vh_page *p, const struct vh_good *g);
/* What she may offer all who read it: safe, and not ordered by somebody already. */
double vh_offer_free(const struct vh_offer *o);
/* Of what is free, what is more than sells in a day; 0: all of it sells. */
double vh_good_beyond(const struct vh_good *g, double free);
/* ", short in 6 of 10" where more is ordered than is safe, else "". */
void vh_offer_say_short(const struct vh_offer *o, char said[VH_SAY_ROOM]);
/* "Saturday: safe 21 kg, 6.8 ordered, 14 stall": the next market day of a planting, or of all
 * plantings that are sold with it, for the sheet, and of the same week those whose orders are more
 * likely to be short than not; "" where there is none. */
void vh_market_words(const struct vh_page *p, const char *planting, char *words, size_t room);

#endif
