#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "record_parts.h"
#include "scenario_parts.h"
#include "vh_math.h"

#define MINUTES "minutes_"
#define DONE "done_"
#define BY_WEIGHT                                                                                  \
    "it is known by weight alone: weigh them, or take the pieces times what one weighs, and "      \
    "write %s"

/* most: of a whole planting per plant and entry. Rates: cucumbers, the fastest, make a node a day
 * and 10 cm of stem (common practice, no source); the bounds leave room. */
// clang-format off
static const struct vh_item_kind kind[VH_RECORD_ITEMS] = {
    /*                               name            planting stems  truss rises sum    whole  most  a day */
    [VH_RECORD_PICKED_KG]        = { "picked_kg",        true,  false, false, false, true,  false, 15,    0 },
    [VH_RECORD_PICKED_FRUITS]    = { "picked_fruits",    true,  false, false, false, true,  true,  1000,  0 },
    [VH_RECORD_UNMARKETABLE_KG]  = { "unmarketable_kg",  true,  false, false, false, true,  false, 15,    0 },
    [VH_RECORD_ROT_KG]           = { "rot_kg",           true,  false, false, false, true,  false, 15,    0 },
    [VH_RECORD_FRUIT_G]          = { "fruit_g",          false, false, false, false, false, false, 3000,  0 },
    [VH_RECORD_FLOWERING_TRUSS]  = { "flowering_truss",  false, true,  false, true,  false, false, 400,   2 },
    [VH_RECORD_PICKING_TRUSS]    = { "picking_truss",    false, true,  false, true,  false, false, 400,   3 },
    [VH_RECORD_FRUITS_SET]       = { "fruits_set",       false, true,  true,  false, true,  false, 100,   0 },
    [VH_RECORD_FRUITS_LEFT]      = { "fruits_left",      false, true,  true,  false, true,  false, 100,   0 },
    [VH_RECORD_BREAKER_FRUITS]   = { "breaker_fruits",   false, true,  false, false, true,  false, 200,   0 },
    [VH_RECORD_TURNING_FRUITS]   = { "turning_fruits",   false, true,  false, false, true,  false, 200,   0 },
    [VH_RECORD_FRUIT_MM]         = { "fruit_mm",         false, false, true,  false, false, false, 500,   0 },
    [VH_RECORD_LEAVES_ON_STEM]   = { "leaves_on_stem",   false, true,  false, false, false, false, 150,   0 },
    [VH_RECORD_LEAVES_MADE]      = { "leaves_made",      false, true,  false, true,  false, false, 500,   2 },
    [VH_RECORD_STEM_CM]          = { "stem_cm",          false, true,  false, true,  false, false, 3000,  15 },
    [VH_RECORD_STEM_GROWTH_CM]   = { "stem_growth_cm",   false, true,  false, false, true,  false, 1000,  0 },
    [VH_RECORD_STEM_MM]          = { "stem_mm",          false, true,  false, false, false, false, 40,    0 },
    [VH_RECORD_FLOWER_TO_PICK_D] = { "flower_to_pick_d", false, false, false, false, false, false, 150,   0 },
    [VH_RECORD_LOWERED_CM]       = { "lowered_cm",       false, true,  false, false, true,  false, 400,   0 },
    [VH_RECORD_PULLED_SUCKER_CM] = { "pulled_sucker_cm", false, false, false, false, true,  false, 300,   0 },
    [VH_RECORD_STRING_LEFT_M]    = { "string_left_m",    false, true,  false, false, true,  false, 100,   0 },
    [VH_RECORD_PLANTS_LOST]      = { "plants_lost",      true,  false, false, false, true,  true,  1,     0 },
    [VH_RECORD_SOLD_KG]          = { "sold_kg",          true,  false, false, false, true,  false, 100,   0 },
    [VH_RECORD_LEFT_KG]          = { "left_kg",          true,  false, false, false, true,  false, 100,   0 },
    [VH_RECORD_MINUTES]          = { MINUTES,            true,  false, false, false, true,  false, 0,     0 },
    [VH_RECORD_DONE]             = { DONE,               true,  false, false, false, true,  false, 0,     0 },
};

#define E(item, part, row, unit)                                                                   \
    { row, unit, VH_PARAM_NUMBER, offsetof(struct vh_record_params, error[item].part), NULL,       \
      part##_words }
#define share_words "error of the reading as a share of the value"
#define own_words "error of the reading itself, whatever the value"
#define stems_share_words "scatter from stem to stem, as a share of the value"
#define stems_words "scatter from stem to stem"
#define model_share_words "error of the model from entry to entry, as a share of what it says"
#define model_words "error of the model from entry to entry"
#define bias_share_words "error of the model that all entries share, as a share of what it says"
#define bias_words "error of the model that all entries share"
#define MODEL(item, name, unit)                                                                    \
    E(item, model_share, "record." name ".model_share", "1"),                                      \
        E(item, model, "record." name ".model", unit),                                             \
        E(item, bias_share, "record." name ".bias_share", "1"),                                    \
        E(item, bias, "record." name ".bias", unit)
static const struct vh_param_field fields[] = {
    E(VH_RECORD_PICKED_KG, share, "record.picked_kg.share", "1"),
    E(VH_RECORD_PICKED_KG, own, "record.picked_kg.own", "kg"),
    E(VH_RECORD_PICKED_FRUITS, share, "record.picked_fruits.share", "1"),
    E(VH_RECORD_PICKED_FRUITS, own, "record.picked_fruits.own", "1"),
    E(VH_RECORD_UNMARKETABLE_KG, share, "record.unmarketable_kg.share", "1"),
    E(VH_RECORD_UNMARKETABLE_KG, own, "record.unmarketable_kg.own", "kg"),
    E(VH_RECORD_ROT_KG, share, "record.rot_kg.share", "1"),
    E(VH_RECORD_ROT_KG, own, "record.rot_kg.own", "kg"),
    E(VH_RECORD_FRUIT_G, own, "record.fruit_g.own", "g"),
    E(VH_RECORD_FRUIT_G, stems_share, "record.fruit_g.stems_share", "1"),
    E(VH_RECORD_FLOWERING_TRUSS, own, "record.flowering_truss.own", "1"),
    E(VH_RECORD_FLOWERING_TRUSS, stems, "record.flowering_truss.stems", "1"),
    E(VH_RECORD_PICKING_TRUSS, own, "record.picking_truss.own", "1"),
    E(VH_RECORD_PICKING_TRUSS, stems, "record.picking_truss.stems", "1"),
    E(VH_RECORD_FRUITS_SET, own, "record.fruits_set.own", "1"),
    E(VH_RECORD_FRUITS_SET, stems, "record.fruits_set.stems", "1"),
    E(VH_RECORD_FRUITS_LEFT, own, "record.fruits_left.own", "1"),
    E(VH_RECORD_FRUITS_LEFT, stems, "record.fruits_left.stems", "1"),
    E(VH_RECORD_BREAKER_FRUITS, own, "record.breaker_fruits.own", "1"),
    E(VH_RECORD_BREAKER_FRUITS, stems, "record.breaker_fruits.stems", "1"),
    E(VH_RECORD_TURNING_FRUITS, own, "record.turning_fruits.own", "1"),
    E(VH_RECORD_TURNING_FRUITS, stems, "record.turning_fruits.stems", "1"),
    E(VH_RECORD_FRUIT_MM, own, "record.fruit_mm.own", "mm"),
    E(VH_RECORD_FRUIT_MM, stems_share, "record.fruit_mm.stems_share", "1"),
    E(VH_RECORD_LEAVES_ON_STEM, own, "record.leaves_on_stem.own", "1"),
    E(VH_RECORD_LEAVES_ON_STEM, stems, "record.leaves_on_stem.stems", "1"),
    E(VH_RECORD_LEAVES_MADE, own, "record.leaves_made.own", "1"),
    E(VH_RECORD_LEAVES_MADE, stems, "record.leaves_made.stems", "1"),
    E(VH_RECORD_STEM_CM, share, "record.stem_cm.share", "1"),
    E(VH_RECORD_STEM_CM, own, "record.stem_cm.own", "cm"),
    E(VH_RECORD_STEM_CM, stems_share, "record.stem_cm.stems_share", "1"),
    E(VH_RECORD_STEM_GROWTH_CM, own, "record.stem_growth_cm.own", "cm"),
    E(VH_RECORD_STEM_GROWTH_CM, stems_share, "record.stem_growth_cm.stems_share", "1"),
    E(VH_RECORD_STEM_MM, own, "record.stem_mm.own", "mm"),
    E(VH_RECORD_STEM_MM, stems_share, "record.stem_mm.stems_share", "1"),
    E(VH_RECORD_FLOWER_TO_PICK_D, own, "record.flower_to_pick_d.own", "d"),
    E(VH_RECORD_FLOWER_TO_PICK_D, stems, "record.flower_to_pick_d.stems", "d"),
    E(VH_RECORD_LOWERED_CM, share, "record.lowered_cm.share", "1"),
    E(VH_RECORD_LOWERED_CM, own, "record.lowered_cm.own", "cm"),
    E(VH_RECORD_PULLED_SUCKER_CM, own, "record.pulled_sucker_cm.own", "cm"),
    E(VH_RECORD_PULLED_SUCKER_CM, stems_share, "record.pulled_sucker_cm.stems_share", "1"),
    E(VH_RECORD_STRING_LEFT_M, own, "record.string_left_m.own", "m"),
    E(VH_RECORD_STRING_LEFT_M, stems_share, "record.string_left_m.stems_share", "1"),
    E(VH_RECORD_PLANTS_LOST, own, "record.plants_lost.own", "1"),
    E(VH_RECORD_SOLD_KG, share, "record.sold_kg.share", "1"),
    E(VH_RECORD_SOLD_KG, own, "record.sold_kg.own", "kg"),
    E(VH_RECORD_LEFT_KG, share, "record.left_kg.share", "1"),
    E(VH_RECORD_LEFT_KG, own, "record.left_kg.own", "kg"),
    E(VH_RECORD_MINUTES, share, "record.minutes.share", "1"),
    E(VH_RECORD_MINUTES, own, "record.minutes.own", "min"),
    MODEL(VH_RECORD_PICKED_KG, "picked_kg", "kg"),
    MODEL(VH_RECORD_PICKED_FRUITS, "picked_fruits", "1"),
    MODEL(VH_RECORD_UNMARKETABLE_KG, "unmarketable_kg", "kg"),
    MODEL(VH_RECORD_FRUIT_G, "fruit_g", "g"),
    MODEL(VH_RECORD_FLOWERING_TRUSS, "flowering_truss", "1"),
    MODEL(VH_RECORD_PICKING_TRUSS, "picking_truss", "1"),
    MODEL(VH_RECORD_FRUITS_SET, "fruits_set", "1"),
    MODEL(VH_RECORD_BREAKER_FRUITS, "breaker_fruits", "1"),
    MODEL(VH_RECORD_TURNING_FRUITS, "turning_fruits", "1"),
    MODEL(VH_RECORD_FRUIT_MM, "fruit_mm", "mm"),
    MODEL(VH_RECORD_LEAVES_ON_STEM, "leaves_on_stem", "1"),
    MODEL(VH_RECORD_LEAVES_MADE, "leaves_made", "1"),
    MODEL(VH_RECORD_STEM_CM, "stem_cm", "cm"),
    MODEL(VH_RECORD_STEM_GROWTH_CM, "stem_growth_cm", "cm"),
    MODEL(VH_RECORD_FLOWER_TO_PICK_D, "flower_to_pick_d", "d"),
    MODEL(VH_RECORD_PULLED_SUCKER_CM, "pulled_sucker_cm", "cm"),
    { "record.doubt_ratio", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, doubt_ratio),
      NULL, "an entry this many times its neighbours is doubtful" },
    { "record.pick_doubt_ratio", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, pick_doubt_ratio),
      NULL, "a pick more than so many times the usual one is doubtful" },
    { "record.pick_low_ratio", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, pick_low_ratio),
      NULL, "the last pick is questioned where the usual one is more than so many times it" },
    { "record.pick_reach_weeks", "week", VH_PARAM_NUMBER, offsetof(struct vh_record_params, pick_reach_weeks),
      NULL, "a week's pick that is more than such crops reach in so many weeks is doubtful" },
    { "record.known_doubt_ratio", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, known_doubt_ratio),
      NULL, "so many times what the planting is said to have, or so small a part of it, is doubtful" },
    { "record.thrown_doubt_share", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, thrown_doubt_share),
      NULL, "more of a day's pick thrown away than this is doubtful" },
    { "record.thrown_ask_share", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, thrown_ask_share),
      NULL, "the last entry is questioned where more of a day's pick was thrown away than this" },
    { "record.pick_soon_share", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, pick_soon_share),
      NULL, "a pick sooner after set-out than this share of the fewest days from flower to pick is doubtful" },
    { "record.trusses_ahead", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, trusses_ahead),
      NULL, "trusses that a count may lie above the fastest plant" },
    { "record.doubt_widens", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, doubt_widens),
      NULL, "error of a doubted count, or of a pick after a gap in which one may be missing, over that of a good one" },
    { "record.given_up_d", "d", VH_PARAM_NUMBER, offsetof(struct vh_record_params, given_up_d),
      NULL, "days for which what was left undone is asked for again" },
    { "record.stems_silent", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, stems_silent),
      NULL, "stems looked at where the record does not say" },
    { "record.passes", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, passes), NULL,
      "passes of the smoother" },
    { "record.members_least", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, members_least), NULL,
      "futures below which nothing is learnt" },
    { "record.far", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, far), NULL,
      "an entry so many standard deviations from the futures is weighed down" },
    { "record.least_pick_d", "d", VH_PARAM_NUMBER, offsetof(struct vh_record_params, least_pick_d), NULL,
      "picks closer together are taken as one" },
    { "record.drift_per_sqrt_week", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, drift_per_sqrt_week), NULL,
      "drift of what the picks say, a share a week, as a random walk" },
    { "record.spread_left", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, spread_left), NULL,
      "share of the spread of a factor that learning leaves at least" },
    { "record.chance_times", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, chance_times), NULL,
      "what hangs together in the futures is believed above so many times what chance would show" },
    { "record.worth_members", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, worth_members), NULL,
      "futures in which it is reckoned what a count would tell, at most" },
    { "record.fruits_weighed", "1", VH_PARAM_NUMBER, offsetof(struct vh_record_params, fruits_weighed), NULL,
      "fruits to weigh where grams a fruit are asked for" },
    { "record.set_seen_d", "d", VH_PARAM_NUMBER, offsetof(struct vh_record_params, set_seen_d), NULL,
      "after its last flower the plant check counts a truss" },
    { "record.gone_over_d", "d", VH_PARAM_NUMBER, offsetof(struct vh_record_params, gone_over_d), NULL,
      "after its first flower a truss is counted: what is set is to be seen" },
    { "record.stem_recent_d", "d", VH_PARAM_NUMBER, offsetof(struct vh_record_params, stem_recent_d), NULL,
      "stems measured so lately stand for what is usual" },
};
// clang-format on

const struct vh_param_field *vh_record_param_fields(size_t *count)
{
    *count = sizeof fields / sizeof fields[0];
    return fields;
}

const struct vh_item_kind *vh_item_kind(enum vh_record_item item)
{
    return &kind[item];
}

bool vh_record_is_pick(enum vh_record_item item)
{
    return item == VH_RECORD_PICKED_KG || item == VH_RECORD_PICKED_FRUITS;
}

const char *vh_record_item_name(enum vh_record_item item)
{
    return kind[item].name;
}

bool vh_record_is_of_planting(enum vh_record_item item)
{
    return kind[item].of_planting;
}

double vh_record_sd(const struct vh_record_params *p, const struct vh_record *r)
{
    if (r->item == VH_RECORD_DONE)
        return VH_UNKNOWN;
    const struct vh_record_error *e = &p->error[r->item];
    const double n = r->of > 0 ? (double)r->of : p->stems_silent;
    const double share = e->share * r->value, stems_share = e->stems_share * r->value;
    const double reading = share * share + e->own * e->own;
    const double stems = (stems_share * stems_share + e->stems * e->stems) / n;

    return sqrt(reading + stems) * (r->doubt ? p->doubt_widens : 1.0);
}

double vh_record_counted_truss(double clock)
{
    const double half = 0.5; /* mean of what a number between two whole ones is above the lower */

    return clock < half ? 0.0 : clock - half;
}

double vh_record_model_sd(const struct vh_record_params *p, enum vh_record_item item, double value)
{
    const struct vh_record_error *e = &p->error[item];
    const double share = e->model_share * value;

    return sqrt(share * share + e->model * e->model);
}

double vh_record_bias_sd(const struct vh_record_params *p, enum vh_record_item item, double value)
{
    const struct vh_record_error *e = &p->error[item];
    const double share = e->bias_share * value;

    return sqrt(share * share + e->bias * e->bias);
}

/* ---- words ---- */

/* A word that a task's name follows. */
static bool of_task(const char *word, enum vh_record_item item, struct vh_item_word *w)
{
    const size_t n = strlen(kind[item].name);

    if (strncmp(word, kind[item].name, n) != 0)
        return false;
    const int task = vh_task_of_name(word + n);
    if (task < 0)
        return false;
    *w = (struct vh_item_word){item, (enum vh_task)task, {1.0, 0.0}, ""};
    return true;
}

enum vh_item_found vh_item_of_word(const char *word, struct vh_item_word *w,
                                   enum vh_record_item *other)
{
    size_t found = 0;

    if (of_task(word, VH_RECORD_DONE, w) || of_task(word, VH_RECORD_MINUTES, w))
        return VH_ITEM_FOUND;
    for (int i = 0; i < VH_RECORD_MINUTES; i++) {
        struct vh_unit_pair unit;
        if (!vh_units_match(kind[i].name, word, false, &unit))
            continue;
        if (found++ == 0) {
            *w = (struct vh_item_word){(enum vh_record_item)i, VH_TASK_POLLINATE, unit, ""};
            if (strcmp(kind[i].name, word) != 0)
                snprintf(w->unit_word, sizeof w->unit_word, "%.3s", strrchr(word, '_') + 1);
        } else if (other)
            *other = (enum vh_record_item)i;
    }
    return found == 0 ? VH_ITEM_NONE : found == 1 ? VH_ITEM_FOUND : VH_ITEM_TWO;
}

struct nearest {
    const char *word;
    size_t least;
    char *near;
    size_t room;
};

static void try_name(struct nearest *n, const char *before, const char *name)
{
    char whole[64];

    snprintf(whole, sizeof whole, "%s%s", before, name);
    const size_t length = strlen(n->word);
    /* "picked" leaves out the unit: that is as near as one slip */
    const bool is_begun = strncmp(whole, n->word, length) == 0 && whole[length] == '_';
    const size_t d = is_begun ? 1 : vh_key_distance(whole, n->word, n->least);
    if (d >= n->least)
        return;
    n->least = d;
    snprintf(n->near, n->room, "%s", whole);
}

/* Is it "sold_fruits" for sold_kg: the same thing in a unit that is not kept? */
static bool is_other_unit(const char *word, const char *name)
{
    const char *unit = strrchr(word, '_'), *own = strrchr(name, '_');

    return unit && own && unit > word && unit - word == own - name &&
           strncmp(word, name, (size_t)(unit - word)) == 0;
}

/* "picked_kg"; "picked_lb" in a house that is told of in pounds. */
static const char *in_house_unit(const char *name, bool us, char *text, size_t room)
{
    const char *unit = strrchr(name, '_');
    const bool in_lb = us && unit && strcmp(unit, "_kg") == 0;

    snprintf(text, room, "%.*s%s", (int)(in_lb ? unit - name : (long)strlen(name)), name,
             in_lb ? "_lb" : "");
    return text;
}

/* False: nothing but the unit is known. A number of pieces must not be written as kilograms. */
static bool try_units(const char *word, bool us, char *hint, size_t room)
{
    const char *first = NULL, *second = NULL;

    for (int i = 0; i < VH_RECORD_MINUTES; i++) {
        if (!is_other_unit(word, kind[i].name))
            continue;
        if (!first)
            first = kind[i].name;
        else if (!second)
            second = kind[i].name;
    }
    char one[64], other[64];
    if (first)
        in_house_unit(first, us, one, sizeof one);
    if (second)
        snprintf(hint, room, "did you mean %s or %s?", one,
                 in_house_unit(second, us, other, sizeof other));
    else if (first && strcmp(strrchr(first, '_'), "_kg") == 0)
        snprintf(hint, room, BY_WEIGHT, one);
    else if (first)
        snprintf(hint, room, "did you mean %s?", one);
    return first != NULL;
}

/* A number of kg must not be written as one of lb, in whatever house. */
static bool is_told_in_lb(const char *word, bool us)
{
    const char *unit = strrchr(word, '_');

    return unit && strcmp(unit, "_lb") == 0 ? true : us && !(unit && strcmp(unit, "_kg") == 0);
}

bool vh_item_hint(const char *word, bool us_units, char *hint, size_t room)
{
    const bool us = is_told_in_lb(word, us_units);
    char near[64], own[64];
    struct nearest n = {word, vh_near_enough(word) + 1, near, sizeof near};
    const size_t start = n.least;
    static const char thrown[] = "thrown";

    for (int i = 0; i < VH_RECORD_MINUTES; i++)
        try_name(&n, "", kind[i].name);
    for (int t = 0; t < VH_TASKS; t++) {
        try_name(&n, DONE, vh_task_name((enum vh_task)t));
        try_name(&n, MINUTES, vh_task_name((enum vh_task)t));
    }
    if (n.least < start) {
        snprintf(hint, room, "did you mean %s?", in_house_unit(near, us, own, sizeof own));
        return true;
    }
    if (strncmp(word, thrown, sizeof thrown - 1) == 0) {
        snprintf(hint, room, BY_WEIGHT,
                 in_house_unit(kind[VH_RECORD_UNMARKETABLE_KG].name, us, own, sizeof own));
        return true;
    }
    return try_units(word, us, hint, room);
}

void vh_item_say(const struct vh_record *r, char *text, size_t room)
{
    const bool has_task = r->item >= VH_RECORD_MINUTES;
    const char *name = kind[r->item].name;
    const size_t stem = r->wrote_unit[0] ? (size_t)(strrchr(name, '_') + 1 - name) : strlen(name);

    snprintf(text, room, "%.*s%s", (int)stem, name,
             has_task ? vh_task_name(r->task) : r->wrote_unit);
}

double vh_item_wrote(const struct vh_record *r, double value)
{
    return r->wrote_unit[0] ? (value - r->wrote.shift) / r->wrote.scale : value;
}
