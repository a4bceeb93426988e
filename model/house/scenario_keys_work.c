/* Keys of the scenario file: [labour] and [stock]. */
#include "scenario_parts.h"

#include <stddef.h>

#define UNITS VH_KEY_UNITS
#define NEEDED VH_KEY_REQUIRED
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

// clang-format off
#undef AT
#define AT(f) offsetof(struct vh_raw_other_work, f)
static const struct vh_key other_work[] = {
    { "what", VH_KEY_NAME, NEEDED, 0, 0, "what = \"lettuce\"", NULL, AT(what),
      "other work of your week" },
    { "hours_per_week", VH_KEY_NUMBER, NEEDED, 0, 168, "hours_per_week = 9", NULL,
      AT(hours_per_week), "hours a week that it takes; counted, never forecast" },
};
const struct vh_key_table vh_other_work_keys = {
    "labour.other_work", other_work, COUNT(other_work), true };

#undef AT
#define AT(f) offsetof(struct vh_raw_labour, f)
static const struct vh_key labour[] = {
    { "per_h", VH_KEY_NUMBER, 0, 0, 1e6, NULL, NULL, AT(per_h),
      "what an hour of work costs" },
    { "hours_per_week", VH_KEY_NUMBER, 0, 0, 10000, NULL, NULL, AT(hours_per_week),
      "hours of work you have in a week" },
    { "seconds", VH_KEY_NUMBER_MAP, 0, 0, 3600, "lower = 14", NULL, AT(seconds),
      "seconds a task takes you, by your stopwatch" },
    { "other_work", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_other_work_keys, AT(other_work),
      "the rest of your week, counted but never forecast" },
};
const struct vh_key_table vh_labour_keys = { "labour", labour, COUNT(labour), false };

#undef AT
#define AT(f) offsetof(struct vh_raw_cost, f)
static const struct vh_key cost[] = {
    { "clip", VH_KEY_NUMBER, 0, 0, 10000, NULL, NULL, AT(clip),
      "price of a clip" },
    { "hook", VH_KEY_NUMBER, 0, 0, 10000, NULL, NULL, AT(hook),
      "price of a hook" },
    { "truss_support", VH_KEY_NUMBER, 0, 0, 10000, NULL, NULL, AT(truss_support),
      "price of a truss support" },
    { "string_per_m", VH_KEY_NUMBER, UNITS, 0, 10000, NULL, NULL, AT(string_per_m),
      "price of a metre of string" },
    { "plant", VH_KEY_NUMBER, 0, 0, 10000, NULL, NULL, AT(plant),
      "price of a young plant" },
};
static const struct vh_key_table cost_keys = { "stock.cost", cost, COUNT(cost), false };

#undef AT
#define AT(f) offsetof(struct vh_raw_stock, f)
static const struct vh_key stock[] = {
    { "clips", VH_KEY_NUMBER, 0, 0, 1e8, NULL, NULL, AT(clips),
      "clips at hand" },
    { "string_m", VH_KEY_NUMBER, UNITS, 0, 1e8, NULL, NULL, AT(string_m),
      "string at hand" },
    { "hooks", VH_KEY_NUMBER, 0, 0, 1e8, NULL, NULL, AT(hooks),
      "hooks at hand" },
    { "truss_supports", VH_KEY_NUMBER, 0, 0, 1e8, NULL, NULL, AT(truss_supports),
      "truss supports at hand" },
    { "delivery_d", VH_KEY_NUMBER, 0, 0, 365, NULL, NULL, AT(delivery_d),
      "days from an order to its delivery" },
    { "cost", VH_KEY_TABLE, 0, 0, 0, NULL, &cost_keys, AT(cost),
      "what each of them costs" },
};
const struct vh_key_table vh_stock_keys = { "stock", stock, COUNT(stock), false };
#undef AT
// clang-format on
