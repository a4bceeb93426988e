/* Keys of the scenario file: [market], its prices and its orders. */
#include "scenario_parts.h"

#include <stddef.h>

#define UNITS VH_KEY_UNITS
#define NEEDED VH_KEY_REQUIRED
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))
#define WEEKDAYS "mon|tue|wed|thu|fri|sat|sun"

// clang-format off
#define AT(f) offsetof(struct vh_raw_price, f)
static const struct vh_key price[] = {
    { "crop", VH_KEY_TEXT, 0, 0, 0, "crop = \"tomato-large\"", NULL, AT(crop),
      "crop whose price this is" },
    { "planting", VH_KEY_NAME, 0, 0, 0, "planting = \"slicers\"", NULL, AT(planting),
      "planting whose price this is, instead of crop" },
    { "grades", VH_KEY_TEXT, 0, 0, 0, "grades = \"tomato-us\"", NULL, AT(grades),
      "file of size grades; without it all marketable fruit is one grade" },
    { "per_kg", VH_KEY_PRICE, UNITS, 0, 10000, NULL, NULL, AT(per_kg),
      "price of a kilogram; one number, or one for each grade" },
    { "per_fruit", VH_KEY_PRICE, 0, 0, 10000, NULL, NULL, AT(per_fruit),
      "price of a fruit, where it is sold by the piece" },
    { "sold_by", VH_KEY_WORD, 0, 0, 0, "kg|lb|each|pack", NULL, AT(sold_by),
      "what customers buy it by" },
    { "pack_g", VH_KEY_NUMBER, UNITS, 10, 50000, NULL, NULL, AT(pack_g),
      "mass of a pack" },
    { "pack_fruits", VH_KEY_NUMBER, 0, 2, 1000, NULL, NULL, AT(pack_fruits),
      "fruits in a pack, where they are counted" },
    { "sells_kg", VH_KEY_NUMBER, UNITS, 0, 1e6, NULL, NULL, AT(sells_kg),
      "kilograms that go on one market day at full price" },
    { "sells_fruits", VH_KEY_NUMBER, 0, 0, 1e7, NULL, NULL, AT(sells_fruits),
      "fruits that go on one market day at full price" },
    { "price_share_beyond", VH_KEY_NUMBER, 0, 0, 1, NULL, NULL, AT(price_share_beyond),
      "share of the full price for what is above that" },
    { "wants_kg", VH_KEY_NUMBER, UNITS, 0, 1e6, NULL, NULL, AT(wants_kg),
      "below a promise of so many kilograms a market day is a gap" },
    { "wants_fruits", VH_KEY_NUMBER, 0, 0, 1e7, NULL, NULL, AT(wants_fruits),
      "below a promise of so many fruits a market day is a gap" },
};
const struct vh_key_table vh_price_keys = { "market.price", price, COUNT(price), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_order, f)
static const struct vh_key order[] = {
    { "who", VH_KEY_NAME, NEEDED, 0, 0, "who = \"restaurant\"", NULL, AT(who),
      "who ordered" },
    { "crop", VH_KEY_TEXT, 0, 0, 0, "crop = \"tomato-large\"", NULL, AT(crop),
      "crop that is ordered" },
    { "planting", VH_KEY_NAME, 0, 0, 0, "planting = \"slicers\"", NULL, AT(planting),
      "planting that the order is filled from, instead of crop" },
    { "from", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(from),
      "first market day of the order" },
    { "until", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(until),
      "last market day of the order" },
    { "kg", VH_KEY_NUMBER, 0, 0.01, 1e6, NULL, NULL, AT(kg),
      "kilograms each market day" },
    { "lb", VH_KEY_NUMBER, 0, 0.01, 1e6, NULL, NULL, AT(lb),
      "pounds each market day" },
    { "fruits", VH_KEY_NUMBER, 0, 1, 1e7, NULL, NULL, AT(fruits),
      "fruits each market day, where they are sold by the piece" },
    { "packs", VH_KEY_NUMBER, 0, 1, 1e6, NULL, NULL, AT(packs),
      "packs each market day, where it is sold by the pack" },
};
const struct vh_key_table vh_order_keys = { "market.order", order, COUNT(order), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_market, f)
static const struct vh_key market[] = {
    { "days", VH_KEY_WORDS, 0, 0, 0, WEEKDAYS, NULL, AT(days),
      "weekdays on which you sell" },
    { "from", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(from),
      "first market day of the year" },
    { "until", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(until),
      "last market day of the year" },
    { "dates", VH_KEY_DATES, 0, 0, 0, NULL, NULL, AT(dates),
      "single days on which you sell besides; a choice to compare adds none" },
    { "promise", VH_KEY_NUMBER, 0, 0.01, 0.99, NULL, NULL, AT(promise),
      "chance with which a promise to a customer must hold" },
    { "price", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_price_keys, AT(price),
      "price of a crop or planting, and how much sells at it" },
    { "order", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_order_keys, AT(order),
      "what a customer takes each market day" },
};
const struct vh_key_table vh_market_keys = { "market", market, COUNT(market), false };
#undef AT
// clang-format on
