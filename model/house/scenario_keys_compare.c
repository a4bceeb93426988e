/* Keys of the scenario file: [compare]. */
#include "scenario_parts.h"

#include <stddef.h>

#define UNITS VH_KEY_UNITS
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))
#define COLOURS "breaker|turning|pink|light-red|red"
#define EVERY_D_MOST 90 /* a visit a quarter is no rhythm any more */

// clang-format off
#define AT(f) offsetof(struct vh_raw_compare, f)
#define LEVER(l) offsetof(struct vh_raw_compare, lever[l])
static const struct vh_key compare[] = {
    { "planting", VH_KEY_NAME, 0, 0, 0, "planting = \"slicers\"", NULL, AT(planting),
      "planting whose choices are compared; without it all" },
    { "fruits_kept", VH_KEY_NUMBERS, 0, 0, 50, NULL, NULL, LEVER(VH_LEVER_FRUITS_KEPT),
      "fruits left on every truss that the rules do not strip" },
    { "stripped_nodes", VH_KEY_NUMBERS, 0, 0, 60, NULL, NULL, LEVER(VH_LEVER_STRIPPED),
      "first nodes (trusses) of a stem that keep no fruit; above them as planned" },
    { "suckers_every_d", VH_KEY_NUMBERS, 0, 1, EVERY_D_MOST, NULL, NULL, LEVER(VH_LEVER_SUCKERS),
      "days between two visits for suckers" },
    { "lower_every_d", VH_KEY_NUMBERS, 0, 1, EVERY_D_MOST, NULL, NULL, LEVER(VH_LEVER_LOWER),
      "days between two visits for lowering" },
    { "leaves_kept", VH_KEY_NUMBERS, 0, 3, 80, NULL, NULL, LEVER(VH_LEVER_LEAVES),
      "leaves kept on a stem" },
    { "heads_per_plant", VH_KEY_NUMBERS, 0, 0.1, 8, NULL, NULL, LEVER(VH_LEVER_HEADS),
      "heads (leaders) of a plant" },
    { "set_out", VH_KEY_DATES, 0, 0, 0, NULL, NULL, LEVER(VH_LEVER_SET_OUT),
      "days of setting out (transplanting)" },
    { "pull_out", VH_KEY_DATES, 0, 0, 0, NULL, NULL, LEVER(VH_LEVER_PULL_OUT),
      "last days in the house" },
    { "pick_stage", VH_KEY_WORDS, 0, 0, 0, COLOURS, NULL, LEVER(VH_LEVER_PICK_STAGE),
      "colours at which fruit is picked" },
    { "plants_per_m2", VH_KEY_NUMBERS, UNITS, 0.2, 12, NULL, NULL, LEVER(VH_LEVER_DENSITY),
      "plants per floor area, paths included; on the same floor" },
    { "pollination_every_d", VH_KEY_NUMBERS, 0, 1, EVERY_D_MOST, NULL, NULL,
      LEVER(VH_LEVER_POLLINATION),
      "days between two pollination visits" },
    { "top_on", VH_KEY_DATES, 0, 0, 0, NULL, NULL, LEVER(VH_LEVER_TOP),
      "days on which the heads are taken off" },
    { "all_combinations", VH_KEY_TRUTH, 0, 0, 0, NULL, NULL, AT(all_combinations),
      "whether every choice is run with every other" },
    { "search", VH_KEY_WORD, 0, 0, 0, "margin|steady|size|gaps", NULL, AT(search),
      "what to look for the best of" },
    { "at_least_g", VH_KEY_NUMBER, UNITS, 3, 1500, NULL, NULL, AT(at_least_g),
      "least fruit mass in a search for size" },
};
#undef LEVER
#undef AT
const struct vh_key_table vh_compare_keys = { "compare", compare, COUNT(compare), false };
// clang-format on
