/* Keys of the scenario file: [[planting]] and what hangs below it. */
#include "scenario_parts.h"

#include <stddef.h>

#define UNITS VH_KEY_UNITS
#define NEEDED VH_KEY_REQUIRED
#define SCALE VH_KEY_SCALE
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))
#define WEEKDAYS "mon|tue|wed|thu|fri|sat|sun"
#define EVERY_D_MOST 90 /* a visit a quarter is no rhythm any more */

// clang-format off
#define AT(f) offsetof(struct vh_raw_standing, f)
static const struct vh_key standing[] = {
    { "on", VH_KEY_DATE, NEEDED, 0, 0, "on = 2026-05-12", NULL, AT(on),
      "day on which the crop was looked at" },
    { "flowering_truss", VH_KEY_NUMBER, NEEDED, 0, 500, "flowering_truss = 9",
      NULL, AT(flowering_truss),
      "number of the truss (node) then in flower: 8 on the day its first flower opens, 8.5 half way to the next; for a mean counted on several stems add 0.5" },
    { "picking_truss", VH_KEY_NUMBER, 0, 0, 500, NULL, NULL, AT(picking_truss),
      "lowest truss (node) that then had fruit to pick" },
    { "stem_cm", VH_KEY_NUMBER, UNITS, 1, 5000, NULL, NULL, AT(stem_cm),
      "length of the whole stem on that day, the laid part too" },
    { "leaves", VH_KEY_NUMBER, 0, 0.1, 200, NULL, NULL, AT(leaves),
      "leaves on a stem on that day" },
    { "fruits_on_trusses", VH_KEY_NUMBERS, 0, 0, 50, NULL, NULL, AT(fruits_on_trusses),
      "fruits on each truss on that day, from the picking truss up" },
};
static const struct vh_key_table standing_keys = {
    "planting.standing", standing, COUNT(standing), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_extra_head, f)
static const struct vh_key extra_head[] = {
    { "from", VH_KEY_DATE, NEEDED, 0, 0, NULL, NULL, AT(from),
      "first day with that number of heads" },
    { "heads_per_plant", VH_KEY_NUMBER, NEEDED, 0.1, 8, "heads_per_plant = 2",
      NULL, AT(heads_per_plant),
      "heads (leaders) of a plant from then on" },
    { "new_stem_age_d", VH_KEY_NUMBER, 0, -60, 100, NULL, NULL, AT(new_stem_age_d),
      "days of trusses that the new stems already carry; below 0, so many days pass until their first flower" },
};
const struct vh_key_table vh_extra_head_keys = {
    "planting.extra_head", extra_head, COUNT(extra_head), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_fruits_kept, f)
static const struct vh_key fruits_kept[] = {
    { "trusses", VH_KEY_TEXT, 0, 0, 0, "trusses = \"1-2\"", NULL, AT(trusses),
      "trusses (nodes) the rule is for, from the ground up: \"1-2\", \"3-\", \"5\"" },
    { "fruits", VH_KEY_NUMBER, NEEDED, 0, 50, "fruits = 3", NULL, AT(fruits),
      "fruits left on each truss (node); 0 strips it, 0.5 keeps one on every second" },
    { "at", VH_KEY_WORD, 0, 0, 0, "bud|pea|marble", NULL, AT(at),
      "how large the fruits are when the others are taken off" },
    { "from", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(from),
      "first day of flowering the rule is for" },
    { "until", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(until),
      "last day of flowering the rule is for" },
};
const struct vh_key_table vh_fruits_kept_keys = {
    "planting.fruits_kept", fruits_kept, COUNT(fruits_kept), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_suckers, f)
static const struct vh_key suckers[] = {
    { "every_d", VH_KEY_WHOLE, 0, 1, EVERY_D_MOST, NULL, NULL, AT(every_d),
      "days between two visits for suckers (side shoots)" },
    { "days", VH_KEY_WORDS, 0, 0, 0, WEEKDAYS, NULL, AT(days),
      "weekdays of the visits for suckers, instead of every_d" },
    { "overlooked", VH_KEY_NUMBER, 0, 0, 1, NULL, NULL, AT(overlooked),
      "share of the shoots missed at a visit" },
};
static const struct vh_key_table suckers_keys = {
    "planting.suckers", suckers, COUNT(suckers), false };

#undef AT
#define AT(f) offsetof(struct vh_raw_lower, f)
static const struct vh_key lower[] = {
    { "every_d", VH_KEY_WHOLE, 0, 1, EVERY_D_MOST, NULL, NULL, AT(every_d),
      "days between two visits for lowering" },
    { "days", VH_KEY_WORDS, 0, 0, 0, WEEKDAYS, NULL, AT(days),
      "weekdays of the visits for lowering, instead of every_d" },
    { "when", VH_KEY_WORD, 0, 0, 0, "head-at-wire", NULL, AT(when),
      "lower when the head reaches the wire, not by the calendar" },
    { "least_cm", VH_KEY_NUMBER, UNITS, 0, 300, NULL, NULL, AT(least_cm),
      "less than this is not worth a visit" },
    { "most_cm", VH_KEY_NUMBER, UNITS, 1, 600, NULL, NULL, AT(most_cm),
      "most that is let out at one visit" },
    { "head_clearance_cm", VH_KEY_NUMBER, UNITS, 0, 300, NULL, NULL, AT(head_clearance_cm),
      "head kept so far below the wire" },
    { "hook_ahead_cm", VH_KEY_NUMBER, UNITS, 0, 2000, NULL, NULL, AT(hook_ahead_cm),
      "hook ahead, along the wire, of where the stem leaves the bundle" },
    { "lean_deg", VH_KEY_NUMBER, 0, 15, 90, NULL, NULL, AT(lean_deg),
      "lean of the stem from the floor, instead of hook_ahead_cm" },
    { "laid_height_cm", VH_KEY_NUMBER, UNITS, 0, 300, NULL, NULL, AT(laid_height_cm),
      "height of the laid stems and the stem's base above the floor" },
    { "fruit_floor_cm", VH_KEY_NUMBER, UNITS, 0, 300, NULL, NULL, AT(fruit_floor_cm),
      "least height of the lowest fruit above the floor" },
    { "string_m", VH_KEY_NUMBER, UNITS, 1, 100, NULL, NULL, AT(string_m),
      "string wound on one hook" },
    { "turn_cm", VH_KEY_NUMBER, UNITS, 1, 200, NULL, NULL, AT(turn_cm),
      "string let out by one turn of the hook" },
    { "path", VH_KEY_WORD, 0, 0, 0, "straight|row-end|around-containers", NULL, AT(path),
      "way the laid stems take" },
    { "container_cm", VH_KEY_NUMBER, UNITS, 5, 300, NULL, NULL, AT(container_cm),
      "width of the containers that stems are led around" },
    { "truss_hang_cm", VH_KEY_NUMBER, UNITS, 0, 100, NULL, NULL, AT(truss_hang_cm),
      "how far a truss hangs below the stem it grows from" },
    { "bend_least_cm", VH_KEY_NUMBER, UNITS, 1, 200, NULL, NULL, AT(bend_least_cm),
      "tightest bend a stem takes" },
    { "shoulder_cm", VH_KEY_NUMBER, UNITS, 60, 220, NULL, NULL, AT(shoulder_cm),
      "height of your shoulder; work above it is told apart" },
};
static const struct vh_key_table lower_keys = { "planting.lower", lower, COUNT(lower), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_clips, f)
static const struct vh_key clips[] = {
    { "every_cm", VH_KEY_NUMBER, UNITS, 3, 300, NULL, NULL, AT(every_cm),
      "stem between two clips" },
    { "reuse", VH_KEY_TRUTH, 0, 0, 0, NULL, NULL, AT(reuse),
      "whether clips are used again" },
};
static const struct vh_key_table clips_keys = { "planting.clips", clips, COUNT(clips), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_leaves, f)
static const struct vh_key leaves[] = {
    { "keep", VH_KEY_NUMBER, 0, 3, 80, NULL, NULL, AT(keep),
      "leaves kept on a stem; older ones are taken off" },
    { "down_to", VH_KEY_WORD, 0, 0, 0, "picking-truss", NULL, AT(down_to),
      "take leaves off up to the truss being picked, instead of keep" },
    { "every_d", VH_KEY_WHOLE, 0, 1, EVERY_D_MOST, NULL, NULL, AT(every_d),
      "days between two visits for leaves" },
    { "days", VH_KEY_WORDS, 0, 0, 0, WEEKDAYS, NULL, AT(days),
      "weekdays of the visits for leaves, instead of every_d" },
    { "most_per_visit", VH_KEY_NUMBER, 0, 0.1, 40, NULL, NULL, AT(most_per_visit),
      "most leaves taken off a stem at one visit" },
};
static const struct vh_key_table leaves_keys = { "planting.leaves", leaves, COUNT(leaves), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_pollination, f)
static const struct vh_key pollination[] = {
    { "by", VH_KEY_WORD, 0, 0, 0, "hand|bees|none", NULL, AT(by),
      "what pollinates: your hand, bees, or nothing; where it is not said as the crop has it, but by"
      " hand beside seedless cucumbers, which bees spoil" },
    { "every_d", VH_KEY_WHOLE, 0, 1, EVERY_D_MOST, NULL, NULL, AT(every_d),
      "days between two pollination visits by hand" },
    { "days", VH_KEY_WORDS, 0, 0, 0, WEEKDAYS, NULL, AT(days),
      "weekdays of the pollination visits, instead of every_d" },
};
static const struct vh_key_table pollination_keys = {
    "planting.pollination", pollination, COUNT(pollination), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_top, f)
static const struct vh_key top[] = {
    { "on", VH_KEY_DATE, NEEDED, 0, 0, NULL, NULL, AT(on),
      "day on which the heads are taken off" },
};
static const struct vh_key_table top_keys = { "planting.top", top, COUNT(top), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_pick, f)
static const struct vh_key pick[] = {
    { "days", VH_KEY_WORDS, 0, 0, 0, WEEKDAYS, NULL, AT(days),
      "weekdays on which you pick" },
    { "every_d", VH_KEY_WHOLE, 0, 1, EVERY_D_MOST, NULL, NULL, AT(every_d),
      "days between two picks, instead of days" },
    { "whole_truss", VH_KEY_TRUTH, 0, 0, 0, NULL, NULL, AT(whole_truss),
      "whether trusses are picked whole, when their last fruit is ripe" },
    { "stage", VH_KEY_WORD, 0, 0, 0, "breaker|turning|pink|light-red|red", NULL, AT(stage),
      "colour at which fruit is picked" },
    { "from_g", VH_KEY_NUMBER, UNITS, 3, 1500, NULL, NULL, AT(from_g),
      "mass from which fruit is picked; for crops picked by size" },
    { "last_stage", VH_KEY_WORD, 0, 0, 0, "breaker|turning|pink|light-red|red", NULL,
      AT(last_stage),
      "colour from which fruit goes too on the last day (pull_out); whole trusses with their last" },
    { "last_from_g", VH_KEY_NUMBER, UNITS, 3, 1500, NULL, NULL, AT(last_from_g),
      "mass from which fruit goes too on the last day (pull_out); for crops picked by size" },
    { "largest_g", VH_KEY_NUMBER, UNITS, 5, 3000, NULL, NULL, AT(largest_g),
      "heavier fruit cannot be sold; for crops picked by size" },
    { "hold_c", VH_KEY_NUMBER, UNITS | SCALE, 0, 30, NULL, NULL, AT(hold_c),
      "temperature of the store" },
};
static const struct vh_key_table pick_keys = { "planting.pick", pick, COUNT(pick), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_spray, f)
static const struct vh_key spray[] = {
    { "on", VH_KEY_DATE, NEEDED, 0, 0, NULL, NULL, AT(on),
      "day of a spray" },
    { "no_entry_h", VH_KEY_NUMBER, 0, 0, 1000, NULL, NULL, AT(no_entry_h),
      "hours nobody may go in, from your label" },
    { "no_pick_d", VH_KEY_NUMBER, 0, 0, 100, NULL, NULL, AT(no_pick_d),
      "days nothing may be picked, from your label" },
};
const struct vh_key_table vh_spray_keys = { "planting.spray", spray, COUNT(spray), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_planting, f)
static const struct vh_key planting[] = {
    { "name", VH_KEY_NAME, NEEDED, 0, 0, "name = \"slicers\"", NULL, AT(name),
      "what the planting is called" },
    { "crop", VH_KEY_TEXT, NEEDED, 0, 0, "crop = \"tomato-large\"", NULL, AT(crop),
      "kind of crop, a file of params/crops: tomato-large, tomato-plum, tomato-cherry, tomato-cluster, tomato-cocktail, cucumber-long, "
      "cucumber-mini, pepper-large, pepper-small, aubergine-large" },
    { "plants", VH_KEY_WHOLE, NEEDED, 1, 1e6, "plants = 48", NULL, AT(plants),
      "plants set out" },
    { "plants_per_m2", VH_KEY_NUMBER, UNITS, 0.2, 12, "plants_per_m2 = 2.5",
      NULL, AT(plants_per_m2),
      "plants per floor area that they use, paths included" },
    { "rows_apart_cm", VH_KEY_NUMBER, UNITS, 10, 1000, NULL, NULL, AT(rows_apart_cm),
      "distance of rows, instead of plants_per_m2" },
    { "plants_apart_cm", VH_KEY_NUMBER, UNITS, 3, 500, NULL, NULL, AT(plants_apart_cm),
      "distance of plants in the row" },
    { "heads_per_plant", VH_KEY_NUMBER, 0, 0.1, 8, NULL, NULL, AT(heads_per_plant),
      "heads (leaders) of a plant at set-out" },
    { "set_out", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(set_out),
      "day of setting out (transplanting)" },
    { "sow", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(sow),
      "day of sowing, instead of set_out" },
    { "first_flower", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(first_flower),
      "day of the first open flower, seen or expected" },
    { "seedling_leaves", VH_KEY_NUMBER, 0, 0.5, 40, NULL, NULL, AT(seedling_leaves),
      "unfolded leaves of a plant at set-out" },
    { "pull_out", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(pull_out),
      "last day in the house" },
    { "usual_fruit_g", VH_KEY_NUMBER, UNITS, 3, 1500, NULL, NULL, AT(usual_fruit_g),
      "usual fruit mass of your variety; tomatoes: smaller fruit hangs in larger numbers, unless a row gives"
      " flower.flowers" },
    { "feed_ec_ms_cm", VH_KEY_NUMBER, 0, 0.2, 15, NULL, NULL, AT(feed_ec_ms_cm),
      "strength of the feed" },
    { "standing", VH_KEY_TABLE, 0, 0, 0, NULL, &standing_keys, AT(standing),
      "the crop as it stands on a day, to begin there and not at set-out" },
    { "extra_head", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_extra_head_keys, AT(extra_head),
      "more stems from side shoots, or fewer, from a day on" },
    { "fruits_kept", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_fruits_kept_keys, AT(fruits_kept),
      "how many fruits a truss (node) keeps; the last rule that fits holds" },
    { "suckers", VH_KEY_TABLE, 0, 0, 0, NULL, &suckers_keys, AT(suckers),
      "when side shoots are taken off" },
    { "lower", VH_KEY_TABLE, 0, 0, 0, NULL, &lower_keys, AT(lower),
      "how vines are lowered" },
    { "clips", VH_KEY_TABLE, 0, 0, 0, NULL, &clips_keys, AT(clips),
      "how stems are held to the string" },
    { "leaves", VH_KEY_TABLE, 0, 0, 0, NULL, &leaves_keys, AT(leaves),
      "how many leaves stay, and when old ones are taken off" },
    { "pollination", VH_KEY_TABLE, 0, 0, 0, NULL, &pollination_keys, AT(pollination),
      "who pollinates, and how often" },
    { "top", VH_KEY_TABLE, 0, 0, 0, NULL, &top_keys, AT(top),
      "when the heads are taken off" },
    { "pick", VH_KEY_TABLE, 0, 0, 0, NULL, &pick_keys, AT(pick),
      "when fruit is picked, and how ripe or large" },
    { "spray", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_spray_keys, AT(spray),
      "a spray by your label, so that work and picks keep out of its way" },
};
const struct vh_key_table vh_planting_keys = { "planting", planting, COUNT(planting), true };
#undef AT
// clang-format on
