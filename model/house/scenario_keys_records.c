/* Keys of the scenario file: [records], [futures] and [parameters]. */
#include "scenario_parts.h"

#include <stddef.h>

#define UNITS VH_KEY_UNITS
#define DELTA VH_KEY_DIFFERENCE
#define NEEDED VH_KEY_REQUIRED
#define SCALE VH_KEY_SCALE
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

// clang-format off
#define AT(f) offsetof(struct vh_raw_records, f)
static const struct vh_key records[] = {
    { "file", VH_KEY_FILE, NEEDED, 0, 0, "file = \"records.csv\"", NULL, AT(file),
      "file of your records: picks, counts, work done" },
    { "columns", VH_KEY_TEXT_MAP, 0, 0, 0, "picked_kg = \"Harvest\"", NULL, AT(columns),
      "which header of the records stands for which item of ours" },
};
const struct vh_key_table vh_records_keys = { "records", records, COUNT(records), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_futures, f)
static const struct vh_key futures[] = {
    { "members", VH_KEY_WHOLE, 0, 1, 100000, NULL, NULL, AT(members),
      "how many futures are computed; 1: mean values only" },
    { "draw", VH_KEY_WHOLE, SCALE, 0, 1e15, NULL, NULL, AT(draw),
      "which random weathers; the same number gives the same ones" },
    { "temperature_sd_c", VH_KEY_NUMBER, UNITS | DELTA, 0, 15, NULL, NULL, AT(temperature_sd_c),
      "how far a day's temperature strays from the usual" },
    { "persistence", VH_KEY_NUMBER, 0, 0, 0.99, NULL, NULL, AT(persistence),
      "how much of that is still there on the next day" },
    { "clearness_sd", VH_KEY_NUMBER, 0, 0, 2, NULL, NULL, AT(clearness_sd),
      "how far a day's light strays from the usual" },
    { "visit_delay_d", VH_KEY_NUMBER, 0, 0, 30, NULL, NULL, AT(visit_delay_d),
      "how late a visit comes on average; picks are on their day" },
};
#undef AT
const struct vh_key_table vh_futures_keys = { "futures", futures, COUNT(futures), false };

#define AT(f) offsetof(struct vh_raw_parameter_row, f)
static const struct vh_key row[] = {
    { "crop", VH_KEY_TEXT, NEEDED, 0, 0, "crop = \"tomato-large\"", NULL, AT(crop),
      "crop whose row is replaced; house for a row of defaults.csv" },
    { "name", VH_KEY_TEXT, NEEDED, 0, 0, "name = \"leaf.potential_area_m2\"", NULL, AT(name),
      "name of the row, as in vinehand explain" },
    { "value", VH_KEY_NUMBER, NEEDED | SCALE, -1e12, 1e12, "value = 0.095", NULL, AT(value),
      "your value" },
};
const struct vh_key_table vh_parameter_row_keys = { "parameters.row", row, COUNT(row), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_parameters, f)
static const struct vh_key parameters[] = {
    { "file", VH_KEY_FILE, 0, 0, 0, "file = \"kept.csv\"", NULL, AT(file),
      "file of what was learnt here before, as vinehand learn --save writes it" },
    { "row", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_parameter_row_keys, AT(row),
      "a single number of the model, replaced by yours" },
};
const struct vh_key_table vh_parameters_keys = {
    "parameters", parameters, COUNT(parameters), false };
#undef AT
// clang-format on
