/* Keys of the scenario file whose work is not built yet, all checked: [compare]; and [records],
 * [futures] and [parameters], of which single rows work. */
#include "scenario_parts.h"

#include <stddef.h>

#define UNITS VH_KEY_UNITS
#define DELTA VH_KEY_DIFFERENCE
#define NEEDED VH_KEY_REQUIRED
#define LATER VH_KEY_LATER
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))
#define COLOURS "breaker|turning|pink|light-red|red"
#define NONE VH_NO_FIELD

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

static const struct vh_key compare[] = {
    { "planting", VH_KEY_NAME, LATER, 0, 0, "planting = \"slicers\"", NULL, NONE,
      "planting whose choices are compared; without it all" },
    { "fruits_kept", VH_KEY_NUMBERS, LATER, 0, 50, NULL, NULL, NONE,
      "fruits left on every truss that the rules do not strip" },
    { "suckers_every_d", VH_KEY_NUMBERS, LATER, 1, 90, NULL, NULL, NONE,
      "days between two visits for suckers" },
    { "lower_every_d", VH_KEY_NUMBERS, LATER, 1, 90, NULL, NULL, NONE,
      "days between two visits for lowering" },
    { "leaves_kept", VH_KEY_NUMBERS, LATER, 3, 80, NULL, NULL, NONE,
      "leaves kept on a stem" },
    { "heads_per_plant", VH_KEY_NUMBERS, LATER, 0.1, 8, NULL, NULL, NONE,
      "heads (leaders) of a plant" },
    { "set_out", VH_KEY_DATES, LATER, 0, 0, NULL, NULL, NONE,
      "days of setting out (transplanting)" },
    { "pull_out", VH_KEY_DATES, LATER, 0, 0, NULL, NULL, NONE,
      "last days in the house" },
    { "pick_stage", VH_KEY_WORDS, LATER, 0, 0, COLOURS, NULL, NONE,
      "colours at which fruit is picked" },
    { "plants_per_m2", VH_KEY_NUMBERS, UNITS | LATER, 0.2, 12, NULL, NULL, NONE,
      "plants per floor area, paths included" },
    { "pollination_every_d", VH_KEY_NUMBERS, LATER, 1, 90, NULL, NULL, NONE,
      "days between two pollination visits" },
    { "top_on", VH_KEY_DATES, LATER, 0, 0, NULL, NULL, NONE,
      "days on which the heads are taken off" },
    { "all_combinations", VH_KEY_TRUTH, LATER, 0, 0, NULL, NULL, NONE,
      "whether every choice is run with every other" },
    { "search", VH_KEY_WORD, LATER, 0, 0, "margin|steady|size|gaps", NULL, NONE,
      "what to look for the best of" },
    { "at_least_g", VH_KEY_NUMBER, UNITS | LATER, 3, 1500, NULL, NULL, NONE,
      "least fruit mass in a search for size" },
};
const struct vh_key_table vh_compare_keys = { "compare", compare, COUNT(compare), false };

#define AT(f) offsetof(struct vh_raw_futures, f)
static const struct vh_key futures[] = {
    { "members", VH_KEY_WHOLE, 0, 1, 100000, NULL, NULL, AT(members),
      "how many futures are computed; 1: mean values only" },
    { "draw", VH_KEY_WHOLE, 0, 0, 1e15, NULL, NULL, AT(draw),
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
    { "value", VH_KEY_NUMBER, NEEDED, -1e12, 1e12, "value = 0.095", NULL, AT(value),
      "your value" },
};
const struct vh_key_table vh_parameter_row_keys = { "parameters.row", row, COUNT(row), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_parameters, f)
static const struct vh_key parameters[] = {
    { "file", VH_KEY_FILE, LATER, 0, 0, "file = \"kept.csv\"", NULL, NONE,
      "file of what was learnt here before" },
    { "row", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_parameter_row_keys, AT(row),
      "a single number of the model, replaced by yours" },
};
const struct vh_key_table vh_parameters_keys = {
    "parameters", parameters, COUNT(parameters), false };
#undef AT
// clang-format on
