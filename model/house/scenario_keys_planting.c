/* Keys of the scenario file: [[planting]] and what hangs below it. */
#include "scenario_parts.h"

#include <stddef.h>

#define UNITS VH_KEY_UNITS
#define NEEDED VH_KEY_REQUIRED
#define LATER VH_KEY_LATER
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))
#define WEEKDAYS "mon|tue|wed|thu|fri|sat|sun"
#define EVERY_D_MOST 90 /* a visit a quarter is no rhythm any more */

// clang-format off
#define AT(f) offsetof(struct vh_raw_standing, f)
static const struct vh_key standing[] = {
    { "on", VH_KEY_DATE, NEEDED, 0, 0, "on = 2026-05-12", NULL, AT(on) },
    { "flowering_truss", VH_KEY_NUMBER, NEEDED, 0, 500, "flowering_truss = 9", NULL, AT(flowering_truss) },
    { "picking_truss", VH_KEY_NUMBER, 0, 0, 500, NULL, NULL, AT(picking_truss) },
    { "stem_cm", VH_KEY_NUMBER, UNITS, 1, 5000, NULL, NULL, AT(stem_cm) },
    { "leaves", VH_KEY_NUMBER, 0, 0.1, 200, NULL, NULL, AT(leaves) },
    { "fruits_on_trusses", VH_KEY_NUMBERS, 0, 0, 50, NULL, NULL, AT(fruits_on_trusses) },
};
static const struct vh_key_table standing_keys = {
    "planting.standing", standing, COUNT(standing), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_extra_head, f)
static const struct vh_key extra_head[] = {
    { "from", VH_KEY_DATE, NEEDED, 0, 0, NULL, NULL, AT(from) },
    { "heads_per_plant", VH_KEY_NUMBER, NEEDED, 0.1, 8, "heads_per_plant = 2",
      NULL, AT(heads_per_plant) },
    { "new_stem_age_d", VH_KEY_NUMBER, 0, 0, 100, NULL, NULL, AT(new_stem_age_d) },
};
const struct vh_key_table vh_extra_head_keys = {
    "planting.extra_head", extra_head, COUNT(extra_head), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_fruits_kept, f)
static const struct vh_key fruits_kept[] = {
    { "trusses", VH_KEY_TEXT, 0, 0, 0, "trusses = \"1-2\"", NULL, AT(trusses) },
    { "fruits", VH_KEY_NUMBER, NEEDED, 0, 50, "fruits = 3", NULL, AT(fruits) },
    { "at", VH_KEY_WORD, 0, 0, 0, "bud|pea|marble", NULL, AT(at) },
    { "from", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(from) },
    { "until", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(until) },
};
const struct vh_key_table vh_fruits_kept_keys = {
    "planting.fruits_kept", fruits_kept, COUNT(fruits_kept), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_rhythm, f)
static const struct vh_key suckers[] = {
    { "every_d", VH_KEY_WHOLE, LATER, 1, EVERY_D_MOST, NULL, NULL, AT(every_d) },
    { "days", VH_KEY_WORDS, LATER, 0, 0, WEEKDAYS, NULL, AT(days) },
    { "overlooked", VH_KEY_NUMBER, LATER, 0, 1, NULL, NULL, VH_NO_FIELD },
};
static const struct vh_key_table suckers_keys = {
    "planting.suckers", suckers, COUNT(suckers), false };

static const struct vh_key lower[] = {
    { "every_d", VH_KEY_WHOLE, LATER, 1, EVERY_D_MOST, NULL, NULL, AT(every_d) },
    { "days", VH_KEY_WORDS, LATER, 0, 0, WEEKDAYS, NULL, AT(days) },
    { "when", VH_KEY_WORD, LATER, 0, 0, "head-at-wire", NULL, VH_NO_FIELD },
    { "least_cm", VH_KEY_NUMBER, UNITS | LATER, 0, 300, NULL, NULL, VH_NO_FIELD },
    { "most_cm", VH_KEY_NUMBER, UNITS | LATER, 1, 600, NULL, NULL, VH_NO_FIELD },
    { "head_clearance_cm", VH_KEY_NUMBER, UNITS | LATER, 0, 300, NULL, NULL, VH_NO_FIELD },
    { "hook_ahead_cm", VH_KEY_NUMBER, UNITS | LATER, 0, 2000, NULL, NULL, VH_NO_FIELD },
    { "lean_deg", VH_KEY_NUMBER, LATER, 15, 90, NULL, NULL, VH_NO_FIELD },
    { "laid_height_cm", VH_KEY_NUMBER, UNITS | LATER, 0, 300, NULL, NULL, VH_NO_FIELD },
    { "fruit_floor_cm", VH_KEY_NUMBER, UNITS | LATER, 0, 300, NULL, NULL, VH_NO_FIELD },
    { "string_m", VH_KEY_NUMBER, UNITS | LATER, 1, 100, NULL, NULL, VH_NO_FIELD },
    { "turn_cm", VH_KEY_NUMBER, UNITS | LATER, 1, 200, NULL, NULL, VH_NO_FIELD },
    { "path", VH_KEY_WORD, LATER, 0, 0, "straight|row-end|around-containers", NULL, VH_NO_FIELD },
    { "container_cm", VH_KEY_NUMBER, UNITS | LATER, 5, 300, NULL, NULL, VH_NO_FIELD },
    { "truss_hang_cm", VH_KEY_NUMBER, UNITS | LATER, 0, 100, NULL, NULL, VH_NO_FIELD },
    { "bend_least_cm", VH_KEY_NUMBER, UNITS | LATER, 1, 200, NULL, NULL, VH_NO_FIELD },
    { "shoulder_cm", VH_KEY_NUMBER, UNITS | LATER, 60, 220, NULL, NULL, VH_NO_FIELD },
};
static const struct vh_key_table lower_keys = { "planting.lower", lower, COUNT(lower), false };
#undef AT

static const struct vh_key clips[] = {
    { "every_cm", VH_KEY_NUMBER, UNITS | LATER, 3, 300, NULL, NULL, VH_NO_FIELD },
    { "reuse", VH_KEY_TRUTH, LATER, 0, 0, NULL, NULL, VH_NO_FIELD },
};
static const struct vh_key_table clips_keys = { "planting.clips", clips, COUNT(clips), false };

#define AT(f) offsetof(struct vh_raw_leaves, f)
static const struct vh_key leaves[] = {
    { "keep", VH_KEY_NUMBER, 0, 3, 80, NULL, NULL, AT(keep) },
    { "down_to", VH_KEY_WORD, 0, 0, 0, "picking-truss", NULL, AT(down_to) },
    { "every_d", VH_KEY_WHOLE, 0, 1, EVERY_D_MOST, NULL, NULL, AT(every_d) },
    { "days", VH_KEY_WORDS, 0, 0, 0, WEEKDAYS, NULL, AT(days) },
    { "most_per_visit", VH_KEY_NUMBER, 0, 0.1, 40, NULL, NULL, AT(most_per_visit) },
};
static const struct vh_key_table leaves_keys = { "planting.leaves", leaves, COUNT(leaves), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_pollination, f)
static const struct vh_key pollination[] = {
    { "by", VH_KEY_WORD, 0, 0, 0, "hand|bees|none", NULL, AT(by) },
    { "every_d", VH_KEY_WHOLE, 0, 1, EVERY_D_MOST, NULL, NULL, AT(every_d) },
    { "days", VH_KEY_WORDS, 0, 0, 0, WEEKDAYS, NULL, AT(days) },
};
static const struct vh_key_table pollination_keys = {
    "planting.pollination", pollination, COUNT(pollination), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_top, f)
static const struct vh_key top[] = {
    { "on", VH_KEY_DATE, NEEDED, 0, 0, NULL, NULL, AT(on) },
};
static const struct vh_key_table top_keys = { "planting.top", top, COUNT(top), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_pick, f)
static const struct vh_key pick[] = {
    { "days", VH_KEY_WORDS, 0, 0, 0, WEEKDAYS, NULL, AT(days) },
    { "every_d", VH_KEY_WHOLE, 0, 1, EVERY_D_MOST, NULL, NULL, AT(every_d) },
    { "whole_truss", VH_KEY_TRUTH, 0, 0, 0, NULL, NULL, AT(whole_truss) },
    { "stage", VH_KEY_WORD, 0, 0, 0, "breaker|turning|pink|light-red|red", NULL, AT(stage) },
    { "from_g", VH_KEY_NUMBER, UNITS, 3, 1500, NULL, NULL, AT(from_g) },
    { "largest_g", VH_KEY_NUMBER, UNITS, 5, 3000, NULL, NULL, AT(largest_g) },
    { "hold_c", VH_KEY_NUMBER, UNITS | LATER, 0, 30, NULL, NULL, VH_NO_FIELD },
};
static const struct vh_key_table pick_keys = { "planting.pick", pick, COUNT(pick), false };
#undef AT

static const struct vh_key spray[] = {
    { "on", VH_KEY_DATE, NEEDED | LATER, 0, 0, NULL, NULL, VH_NO_FIELD },
    { "no_entry_h", VH_KEY_NUMBER, LATER, 0, 1000, NULL, NULL, VH_NO_FIELD },
    { "no_pick_d", VH_KEY_NUMBER, LATER, 0, 100, NULL, NULL, VH_NO_FIELD },
};
static const struct vh_key_table spray_keys = { "planting.spray", spray, COUNT(spray), true };

#define AT(f) offsetof(struct vh_raw_planting, f)
static const struct vh_key planting[] = {
    { "name", VH_KEY_NAME, NEEDED, 0, 0, "name = \"slicers\"", NULL, AT(name) },
    { "crop", VH_KEY_TEXT, NEEDED, 0, 0, "crop = \"tomato-large\"", NULL, AT(crop) },
    { "plants", VH_KEY_WHOLE, NEEDED, 1, 1e6, "plants = 48", NULL, AT(plants) },
    { "plants_per_m2", VH_KEY_NUMBER, UNITS, 0.2, 12, "plants_per_m2 = 2.5",
      NULL, AT(plants_per_m2) },
    { "rows_apart_cm", VH_KEY_NUMBER, UNITS, 10, 1000, NULL, NULL, AT(rows_apart_cm) },
    { "plants_apart_cm", VH_KEY_NUMBER, UNITS, 3, 500, NULL, NULL, AT(plants_apart_cm) },
    { "heads_per_plant", VH_KEY_NUMBER, 0, 0.1, 8, NULL, NULL, AT(heads_per_plant) },
    { "set_out", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(set_out) },
    { "sow", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(sow) },
    { "first_flower", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(first_flower) },
    { "seedling_leaves", VH_KEY_NUMBER, 0, 0.5, 40, NULL, NULL, AT(seedling_leaves) },
    { "pull_out", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(pull_out) },
    { "usual_fruit_g", VH_KEY_NUMBER, UNITS, 3, 1500, NULL, NULL, AT(usual_fruit_g) },
    { "feed_ec_ms_cm", VH_KEY_NUMBER, 0, 0.2, 15, NULL, NULL, AT(feed_ec_ms_cm) },
    { "standing", VH_KEY_TABLE, 0, 0, 0, NULL, &standing_keys, AT(standing) },
    { "extra_head", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_extra_head_keys, AT(extra_head) },
    { "fruits_kept", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_fruits_kept_keys, AT(fruits_kept) },
    { "suckers", VH_KEY_TABLE, LATER, 0, 0, NULL, &suckers_keys, AT(suckers) },
    { "lower", VH_KEY_TABLE, LATER, 0, 0, NULL, &lower_keys, AT(lower) },
    { "clips", VH_KEY_TABLE, LATER, 0, 0, NULL, &clips_keys, VH_NO_FIELD },
    { "leaves", VH_KEY_TABLE, 0, 0, 0, NULL, &leaves_keys, AT(leaves) },
    { "pollination", VH_KEY_TABLE, 0, 0, 0, NULL, &pollination_keys, AT(pollination) },
    { "top", VH_KEY_TABLE, 0, 0, 0, NULL, &top_keys, AT(top) },
    { "pick", VH_KEY_TABLE, 0, 0, 0, NULL, &pick_keys, AT(pick) },
    { "spray", VH_KEY_TABLES, LATER, 0, 0, NULL, &spray_keys, VH_NO_FIELD },
};
const struct vh_key_table vh_planting_keys = { "planting", planting, COUNT(planting), true };
#undef AT
// clang-format on
