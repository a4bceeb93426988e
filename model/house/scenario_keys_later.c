/* Keys of the scenario file whose work is not built yet, all checked: market, labour, stock,
 * records, compare, futures; and [parameters], of which single rows work. */
#include "scenario_parts.h"

#include <stddef.h>

#define UNITS VH_KEY_UNITS
#define DELTA VH_KEY_DIFFERENCE
#define NEEDED VH_KEY_REQUIRED
#define LATER VH_KEY_LATER
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))
#define WEEKDAYS "mon|tue|wed|thu|fri|sat|sun"
#define COLOURS "breaker|turning|pink|light-red|red"
#define NONE VH_NO_FIELD

// clang-format off
static const struct vh_key price[] = {
    { "crop", VH_KEY_TEXT, LATER, 0, 0, "crop = \"tomato-large\"", NULL, NONE },
    { "planting", VH_KEY_NAME, LATER, 0, 0, "planting = \"slicers\"", NULL, NONE },
    { "grades", VH_KEY_TEXT, LATER, 0, 0, "grades = \"tomato-us\"", NULL, NONE },
    { "per_kg", VH_KEY_PRICE, UNITS | LATER, 0, 10000, NULL, NULL, NONE },
    { "per_fruit", VH_KEY_PRICE, LATER, 0, 10000, NULL, NULL, NONE },
    { "sold_by", VH_KEY_WORD, LATER, 0, 0, "kg|lb|each|pack", NULL, NONE },
    { "pack_g", VH_KEY_NUMBER, UNITS | LATER, 10, 50000, NULL, NULL, NONE },
    { "sells_kg", VH_KEY_NUMBER, UNITS | LATER, 0, 1e6, NULL, NULL, NONE },
    { "sells_fruits", VH_KEY_NUMBER, LATER, 0, 1e7, NULL, NULL, NONE },
    { "price_share_beyond", VH_KEY_NUMBER, LATER, 0, 1, NULL, NULL, NONE },
    { "wants_kg", VH_KEY_NUMBER, UNITS | LATER, 0, 1e6, NULL, NULL, NONE },
    { "wants_fruits", VH_KEY_NUMBER, LATER, 0, 1e7, NULL, NULL, NONE },
};
static const struct vh_key_table price_keys = { "market.price", price, COUNT(price), true };

static const struct vh_key order[] = {
    { "who", VH_KEY_NAME, LATER | NEEDED, 0, 0, "who = \"restaurant\"", NULL, NONE },
    { "crop", VH_KEY_TEXT, LATER, 0, 0, "crop = \"tomato-large\"", NULL, NONE },
    { "planting", VH_KEY_NAME, LATER, 0, 0, "planting = \"slicers\"", NULL, NONE },
    { "from", VH_KEY_DATE, LATER, 0, 0, NULL, NULL, NONE },
    { "until", VH_KEY_DATE, LATER, 0, 0, NULL, NULL, NONE },
    { "kg", VH_KEY_NUMBER, LATER, 0, 1e6, NULL, NULL, NONE },
    { "lb", VH_KEY_NUMBER, LATER, 0, 1e6, NULL, NULL, NONE },
    { "fruits", VH_KEY_NUMBER, LATER, 0, 1e7, NULL, NULL, NONE },
};
static const struct vh_key_table order_keys = { "market.order", order, COUNT(order), true };

static const struct vh_key market[] = {
    { "days", VH_KEY_WORDS, LATER, 0, 0, WEEKDAYS, NULL, NONE },
    { "from", VH_KEY_DATE, LATER, 0, 0, NULL, NULL, NONE },
    { "until", VH_KEY_DATE, LATER, 0, 0, NULL, NULL, NONE },
    { "dates", VH_KEY_DATES, LATER, 0, 0, NULL, NULL, NONE },
    { "promise", VH_KEY_NUMBER, LATER, 0.01, 0.99, NULL, NULL, NONE },
    { "price", VH_KEY_TABLES, LATER, 0, 0, NULL, &price_keys, NONE },
    { "order", VH_KEY_TABLES, LATER, 0, 0, NULL, &order_keys, NONE },
};
const struct vh_key_table vh_market_keys = { "market", market, COUNT(market), false };

static const struct vh_key other_work[] = {
    { "what", VH_KEY_NAME, LATER | NEEDED, 0, 0, "what = \"lettuce\"", NULL, NONE },
    { "hours_per_week", VH_KEY_NUMBER, LATER, 0, 1000, NULL, NULL, NONE },
};
static const struct vh_key_table other_work_keys = {
    "labour.other_work", other_work, COUNT(other_work), true };

static const struct vh_key labour[] = {
    { "per_h", VH_KEY_NUMBER, LATER, 0, 1e6, NULL, NULL, NONE },
    { "hours_per_week", VH_KEY_NUMBER, LATER, 0, 10000, NULL, NULL, NONE },
    { "seconds", VH_KEY_NUMBER_MAP, LATER, 0, 3600, "lower = 14", NULL, NONE },
    { "other_work", VH_KEY_TABLES, LATER, 0, 0, NULL, &other_work_keys, NONE },
};
const struct vh_key_table vh_labour_keys = { "labour", labour, COUNT(labour), false };

static const struct vh_key cost[] = {
    { "clip", VH_KEY_NUMBER, LATER, 0, 10000, NULL, NULL, NONE },
    { "hook", VH_KEY_NUMBER, LATER, 0, 10000, NULL, NULL, NONE },
    { "truss_support", VH_KEY_NUMBER, LATER, 0, 10000, NULL, NULL, NONE },
    { "string_per_m", VH_KEY_NUMBER, UNITS | LATER, 0, 10000, NULL, NULL, NONE },
    { "plant", VH_KEY_NUMBER, LATER, 0, 10000, NULL, NULL, NONE },
};
static const struct vh_key_table cost_keys = { "stock.cost", cost, COUNT(cost), false };

static const struct vh_key stock[] = {
    { "clips", VH_KEY_NUMBER, LATER, 0, 1e8, NULL, NULL, NONE },
    { "string_m", VH_KEY_NUMBER, UNITS | LATER, 0, 1e8, NULL, NULL, NONE },
    { "hooks", VH_KEY_NUMBER, LATER, 0, 1e8, NULL, NULL, NONE },
    { "truss_supports", VH_KEY_NUMBER, LATER, 0, 1e8, NULL, NULL, NONE },
    { "delivery_d", VH_KEY_NUMBER, LATER, 0, 365, NULL, NULL, NONE },
    { "cost", VH_KEY_TABLE, LATER, 0, 0, NULL, &cost_keys, NONE },
};
const struct vh_key_table vh_stock_keys = { "stock", stock, COUNT(stock), false };

static const struct vh_key records[] = {
    { "file", VH_KEY_FILE, LATER, 0, 0, "file = \"records.csv\"", NULL, NONE },
    { "columns", VH_KEY_TEXT_MAP, LATER, 0, 0, "picked_kg = \"Harvest\"", NULL, NONE },
};
const struct vh_key_table vh_records_keys = { "records", records, COUNT(records), false };

static const struct vh_key compare[] = {
    { "planting", VH_KEY_NAME, LATER, 0, 0, "planting = \"slicers\"", NULL, NONE },
    { "fruits_kept", VH_KEY_NUMBERS, LATER, 0, 50, NULL, NULL, NONE },
    { "suckers_every_d", VH_KEY_NUMBERS, LATER, 1, 90, NULL, NULL, NONE },
    { "lower_every_d", VH_KEY_NUMBERS, LATER, 1, 90, NULL, NULL, NONE },
    { "leaves_kept", VH_KEY_NUMBERS, LATER, 3, 80, NULL, NULL, NONE },
    { "heads_per_plant", VH_KEY_NUMBERS, LATER, 0.1, 8, NULL, NULL, NONE },
    { "set_out", VH_KEY_DATES, LATER, 0, 0, NULL, NULL, NONE },
    { "pull_out", VH_KEY_DATES, LATER, 0, 0, NULL, NULL, NONE },
    { "pick_stage", VH_KEY_WORDS, LATER, 0, 0, COLOURS, NULL, NONE },
    { "plants_per_m2", VH_KEY_NUMBERS, UNITS | LATER, 0.2, 12, NULL, NULL, NONE },
    { "pollination_every_d", VH_KEY_NUMBERS, LATER, 1, 90, NULL, NULL, NONE },
    { "top_on", VH_KEY_DATES, LATER, 0, 0, NULL, NULL, NONE },
    { "all_combinations", VH_KEY_TRUTH, LATER, 0, 0, NULL, NULL, NONE },
    { "search", VH_KEY_WORD, LATER, 0, 0, "margin|steady|size|gaps", NULL, NONE },
    { "at_least_g", VH_KEY_NUMBER, UNITS | LATER, 3, 1500, NULL, NULL, NONE },
};
const struct vh_key_table vh_compare_keys = { "compare", compare, COUNT(compare), false };

static const struct vh_key futures[] = {
    { "members", VH_KEY_WHOLE, LATER, 1, 100000, NULL, NULL, NONE },
    { "draw", VH_KEY_WHOLE, LATER, 0, 1e15, NULL, NULL, NONE },
    { "temperature_sd_c", VH_KEY_NUMBER, UNITS | DELTA | LATER, 0, 15, NULL, NULL, NONE },
    { "persistence", VH_KEY_NUMBER, LATER, 0, 0.99, NULL, NULL, NONE },
    { "clearness_sd", VH_KEY_NUMBER, LATER, 0, 2, NULL, NULL, NONE },
    { "visit_delay_d", VH_KEY_NUMBER, LATER, 0, 30, NULL, NULL, NONE },
};
const struct vh_key_table vh_futures_keys = { "futures", futures, COUNT(futures), false };

#define AT(f) offsetof(struct vh_raw_parameter_row, f)
static const struct vh_key row[] = {
    { "crop", VH_KEY_TEXT, NEEDED, 0, 0, "crop = \"tomato-large\"", NULL, AT(crop) },
    { "name", VH_KEY_TEXT, NEEDED, 0, 0, "name = \"leaf.potential_area_m2\"", NULL, AT(name) },
    { "value", VH_KEY_NUMBER, NEEDED, -1e12, 1e12, "value = 0.095", NULL, AT(value) },
};
const struct vh_key_table vh_parameter_row_keys = { "parameters.row", row, COUNT(row), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_parameters, f)
static const struct vh_key parameters[] = {
    { "file", VH_KEY_FILE, LATER, 0, 0, "file = \"kept.csv\"", NULL, NONE },
    { "row", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_parameter_row_keys, AT(row) },
};
const struct vh_key_table vh_parameters_keys = {
    "parameters", parameters, COUNT(parameters), false };
#undef AT
// clang-format on
