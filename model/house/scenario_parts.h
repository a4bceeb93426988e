/* scenario_parts.h - what the files of the scenario reader hand to each other; private to the
 * folder.
 *
 * Every key of a scenario file stands once in a table of keys: its name, what it may hold, which
 * field of a `vh_raw_...` struct takes it. One walk reads any table by its table of keys; what then
 * comes out is checked against its neighbours and copied into the house.
 */
#ifndef VH_SCENARIO_PARTS_H
#define VH_SCENARIO_PARTS_H

#include "vh_digest.h"
#include "vh_scenario.h"
#include "vh_table.h"
#include "vh_toml.h"
#include "vh_units.h"

#define VH_SHOWN_NAME "scenario.toml" /* of a folder that is named instead of its file */
#define VH_SEASON_D_MOST 1096         /* three years: a longer season is a slip of a date */

/* ---- tables of keys ---- */

enum vh_key_kind {
    VH_KEY_NUMBER,
    VH_KEY_WHOLE, /* a whole number */
    VH_KEY_TEXT,
    VH_KEY_NAME, /* text that can stand in files: letters, digits, space . _ - ( ) */
    VH_KEY_FILE,
    VH_KEY_TRUTH,
    VH_KEY_DATE,
    VH_KEY_WORD,  /* one of some words */
    VH_KEY_FILES, /* a file or a list of them */
    VH_KEY_WORDS, /* a list of some words */
    VH_KEY_NUMBERS,
    VH_KEY_DATES,
    VH_KEY_PRICE, /* a number, or numbers by grade */
    VH_KEY_TABLE,
    VH_KEY_TABLES,   /* [[...]] */
    VH_KEY_TEXT_MAP, /* a table of the person's own keys with text */
    VH_KEY_NUMBER_MAP
};

enum vh_key_flag {
    VH_KEY_UNITS = 1,      /* may be given in the other system of units */
    VH_KEY_DIFFERENCE = 2, /* a temperature difference: no shift between units */
    VH_KEY_REQUIRED = 4,
    VH_KEY_SCALE = 8 /* its 0 is a place on a scale, not none of it */
};

struct vh_key_table;

struct vh_key {
    const char *name;
    enum vh_key_kind kind;
    unsigned flags;
    double low, high;                 /* of numbers, both allowed */
    const char *words;                /* "none|us|eu"; of text: an example */
    const struct vh_key_table *table; /* of VH_KEY_TABLE and VH_KEY_TABLES */
    size_t field;                     /* offset in the raw struct, or VH_NO_FIELD */
    const char *meaning;              /* one line, for explain */
};

struct vh_key_table {
    const char *name; /* as in the brackets: "planting.fruits_kept" */
    const struct vh_key *key;
    size_t keys;
    bool is_array; /* written [[...]] */
};

extern const struct vh_key_table vh_root_keys; /* all of it hangs below this one */
extern const struct vh_key_table vh_house_keys, vh_climate_keys, vh_spell_keys, vh_outside_keys;
extern const struct vh_key_table vh_planting_keys, vh_extra_head_keys, vh_fruits_kept_keys;
extern const struct vh_key_table vh_spray_keys, vh_other_work_keys;
extern const struct vh_key_table vh_price_keys, vh_order_keys;
extern const struct vh_key_table vh_market_keys, vh_labour_keys, vh_stock_keys, vh_records_keys;
extern const struct vh_key_table vh_compare_keys, vh_futures_keys, vh_parameters_keys;
extern const struct vh_key_table vh_parameter_row_keys;

/* ---- what a table held ---- */

/* Zeroed: not given. good: its kind and range are right. */
struct vh_given {
    const struct vh_toml_entry *at; /* NULL: not given */
    bool good;
    double number; /* in our unit */
    int64_t day;
    int word; /* index among the key's words */
    bool truth;
    const char *text;
};

/* Each raw struct begins with the table it was read from; NULL: the scenario has no such table. */
struct vh_raw_house {
    const struct vh_toml_value *table;
    struct vh_given name, latitude_deg, longitude_deg, utc_offset_h, log_daylight_saving;
    struct vh_given floor_area_m2, wire_height_m, row_length_m, row_gap_cm, cover,
        cover_transmission;
    struct vh_given light_factor, currency, heat_loss_w_k, fuel_per_kwh, units;
};

struct vh_raw_roughly {
    const struct vh_toml_value *table;
    struct vh_given warmest_high_c, warmest_low_c, coldest_high_c, coldest_low_c, sky;
};

struct vh_raw_format {
    const struct vh_toml_value *table;
    struct vh_given time, separator, decimal;
};

struct vh_raw_climate {
    const struct vh_toml_value *table;
    struct vh_given log, log_offset_c, outside, normals, heat_c, heat_day_c, heat_night_c, vent_c;
    struct vh_given co2_ppm, shade_share_taken, shade_from, shade_until;
    struct vh_given lamps_umol_m2_s, lamps_on_h, lamps_off_h, spell, columns;
    struct vh_raw_roughly roughly;
    struct vh_raw_format format;
};

struct vh_raw_spell {
    const struct vh_toml_value *table;
    struct vh_given from, until, day_c, night_c, sky;
};

struct vh_raw_outside {
    const struct vh_toml_value *table;
    struct vh_given columns;
};

struct vh_raw_standing {
    const struct vh_toml_value *table;
    struct vh_given on, flowering_truss, picking_truss, stem_cm, leaves, fruits_on_trusses;
};

struct vh_raw_extra_head {
    const struct vh_toml_value *table;
    struct vh_given from, heads_per_plant, new_stem_age_d;
};

struct vh_raw_fruits_kept {
    const struct vh_toml_value *table;
    struct vh_given trusses, fruits, at, from, until;
};

struct vh_raw_leaves {
    const struct vh_toml_value *table;
    struct vh_given keep, down_to, every_d, days, most_per_visit;
};

struct vh_raw_pollination {
    const struct vh_toml_value *table;
    struct vh_given by, every_d, days;
};

struct vh_raw_suckers {
    const struct vh_toml_value *table;
    struct vh_given every_d, days, overlooked;
};

struct vh_raw_lower {
    const struct vh_toml_value *table;
    struct vh_given every_d, days, when, least_cm, most_cm, head_clearance_cm, hook_ahead_cm;
    struct vh_given lean_deg, laid_height_cm, fruit_floor_cm, string_m, turn_cm, path;
    struct vh_given container_cm, truss_hang_cm, bend_least_cm, shoulder_cm;
};

struct vh_raw_top {
    const struct vh_toml_value *table;
    struct vh_given on;
};

struct vh_raw_pick {
    const struct vh_toml_value *table;
    struct vh_given days, every_d, whole_truss, stage, from_g, last_stage, last_from_g, largest_g,
        hold_c;
};

struct vh_raw_clips {
    const struct vh_toml_value *table;
    struct vh_given every_cm, reuse;
};

struct vh_raw_spray {
    const struct vh_toml_value *table;
    struct vh_given on, no_entry_h, no_pick_d;
};

struct vh_raw_planting {
    const struct vh_toml_value *table;
    struct vh_given name, crop, plants, plants_per_m2, rows_apart_cm, plants_apart_cm;
    struct vh_given heads_per_plant, set_out, sow, first_flower, seedling_leaves, pull_out;
    struct vh_given usual_fruit_g, feed_ec_ms_cm, extra_head, fruits_kept;
    struct vh_raw_standing standing;
    struct vh_raw_suckers suckers;
    struct vh_raw_clips clips;
    struct vh_given spray;
    struct vh_raw_lower lower;
    struct vh_raw_leaves leaves;
    struct vh_raw_pollination pollination;
    struct vh_raw_top top;
    struct vh_raw_pick pick;
};

struct vh_raw_price {
    const struct vh_toml_value *table;
    struct vh_given crop, planting, grades, per_kg, per_fruit, sold_by, pack_g, pack_fruits;
    struct vh_given sells_kg, sells_fruits, price_share_beyond, wants_kg, wants_fruits;
};

struct vh_raw_order {
    const struct vh_toml_value *table;
    struct vh_given who, crop, planting, from, until, kg, lb, fruits, packs;
};

struct vh_raw_market {
    const struct vh_toml_value *table;
    struct vh_given days, from, until, dates, promise, price, order;
};

struct vh_raw_parameters {
    const struct vh_toml_value *table;
    struct vh_given file, row;
};

struct vh_raw_parameter_row {
    const struct vh_toml_value *table;
    struct vh_given crop, name, value;
};

struct vh_raw_records {
    const struct vh_toml_value *table;
    struct vh_given file, columns;
};

struct vh_raw_other_work {
    const struct vh_toml_value *table;
    struct vh_given what, hours_per_week;
};

struct vh_raw_labour {
    const struct vh_toml_value *table;
    struct vh_given per_h, hours_per_week, seconds, other_work;
};

struct vh_raw_cost {
    const struct vh_toml_value *table;
    struct vh_given clip, hook, truss_support, string_per_m, plant;
};

struct vh_raw_stock {
    const struct vh_toml_value *table;
    struct vh_given clips, string_m, hooks, truss_supports, delivery_d;
    struct vh_raw_cost cost;
};

struct vh_raw_futures {
    const struct vh_toml_value *table;
    struct vh_given members, draw, temperature_sd_c, persistence, clearness_sd, visit_delay_d;
};

/* lever: by enum vh_lever */
struct vh_raw_compare {
    const struct vh_toml_value *table;
    struct vh_given planting, lever[VH_LEVERS], all_combinations, search, at_least_g;
};

struct vh_raw_root {
    const struct vh_toml_value *table;
    struct vh_raw_house house;
    struct vh_raw_climate climate;
    struct vh_raw_outside outside;
    struct vh_given planting;
    struct vh_raw_market market;
    struct vh_raw_parameters parameters;
    struct vh_raw_records records;
    struct vh_raw_labour labour;
    struct vh_raw_stock stock;
    struct vh_raw_futures futures;
    struct vh_raw_compare compare;
};

/* ---- one reading ---- */

struct vh_reading {
    const struct vh_toml *toml;
    const char *shown_name, *folder;
    const struct vh_parameters *parameters;
    struct vh_scenario *scenario; /* being filled */
    struct vh_digest digest;
    struct vh_messages *messages;
    enum vh_status status; /* the worst so far */
    struct vh_raw_root root;
};

/* Keeps the worst status; for `vh_spoil(r, vh_fail(...))`. */
void vh_spoil(struct vh_reading *r, enum vh_status status);
/* NULL: memory is out, and the reading is spoiled. */
void *vh_reading_room(struct vh_reading *r, size_t count, size_t size);
char *vh_reading_copy(struct vh_reading *r, const char *text);

struct vh_place vh_at_key(const struct vh_reading *r, const struct vh_toml_entry *entry);
struct vh_place vh_at_value(const struct vh_reading *r, const struct vh_toml_value *value);
/* Of a table's header line. */
struct vh_place vh_at_table(const struct vh_reading *r, const struct vh_toml_value *table);

/* ---- the walk ---- */

/* Reads a table into a zeroed raw struct. */
void vh_keys_read(struct vh_reading *r, const struct vh_key_table *keys,
                  const struct vh_toml_value *table, void *raw);
/* The same for item i of [[...]]. */
void vh_keys_read_item(struct vh_reading *r, const struct vh_key_table *keys,
                       const struct vh_given *given, size_t i, void *raw);
/* How many tables [[...]] has; 0: not given. */
size_t vh_keys_items(const struct vh_given *given);

/* Checks one value by its key; *given is filled. unit: from what the person typed to ours. */
void vh_value_read(struct vh_reading *r, const struct vh_key *key,
                   const struct vh_toml_entry *entry, struct vh_unit_pair unit,
                   struct vh_given *given);
/* Says so; the key of this table that was most likely meant, or NULL. */
const struct vh_key *vh_key_unknown(struct vh_reading *r, const struct vh_key_table *keys,
                                    const struct vh_toml_entry *entry);
/* Our key for a word that people use for it ("transplant"); NULL: none. */
const char *vh_key_other_word(const char *name);
/* Is it a table, or a list of tables, as the key asks? */
bool vh_value_is_table(struct vh_reading *r, const struct vh_key *key, const char *path,
                       const struct vh_toml_entry *entry);

#define VH_SHOWN_MOST 40 /* bytes of a person's text that a message repeats */
/* A person's text, short enough for a message; shown has VH_SHOWN_MOST + 4 bytes. */
const char *vh_shown(const char *text, char shown[VH_SHOWN_MOST + 4]);
/* Index of text among words "a|b|c", or -1. */
int vh_word_index(const char *words, const char *text);
/* "\"a\", \"b\" or \"c\"" of "a|b|c". */
void vh_words_listed(const char *words, char *list, size_t size);
/* How far two keys may be apart to be taken for one mistyped. */
size_t vh_near_enough(const char *text);

/* NULL: good; else what is wrong with a name. */
const char *vh_name_fault(const char *name);

/* ---- into the house ---- */

/* Each of them reads on after an error, so that all are told. */
void vh_scenario_fill_house(struct vh_reading *r);
void vh_scenario_fill_climate(struct vh_reading *r);
void vh_scenario_fill_sources(struct vh_reading *r);
void vh_scenario_fill_parameters(struct vh_reading *r);
/* Rows of crops that no planting grows, and rows given twice. */
void vh_scenario_check_rows(struct vh_reading *r);
void vh_scenario_fill_plantings(struct vh_reading *r);
void vh_scenario_fill_policy(struct vh_reading *r, const struct vh_raw_planting *raw,
                             const struct vh_crop_file *crop, struct vh_planting *p);
void vh_scenario_fill_fruits(struct vh_reading *r, const struct vh_raw_planting *raw,
                             const struct vh_crop_file *crop, struct vh_planting *p);
void vh_scenario_fill_visits(struct vh_reading *r, const struct vh_raw_planting *raw,
                             const struct vh_param_set *rows, struct vh_planting *p);
/* What pollinates, where the planting says it; */
void vh_scenario_fill_pollination(struct vh_reading *r, const struct vh_raw_pollination *raw,
                                  const struct vh_param_set *rows, struct vh_planting *p);
/* where it does not: once all plantings are known, for a neighbour may bear no bees. */
void vh_scenario_settle_pollination(struct vh_reading *r, const struct vh_raw_planting *raw);
/* [labour] and [stock]. */
void vh_scenario_fill_work(struct vh_reading *r);
void vh_scenario_fill_lower(struct vh_reading *r, const struct vh_raw_lower *raw,
                            const struct vh_param_set *rows, struct vh_planting *p);
void vh_scenario_fill_heads(struct vh_reading *r, const struct vh_raw_planting *raw,
                            const struct vh_param_set *rows, struct vh_planting *p);
/* What only shows when all plantings are known: names, season, floor, bees. */
void vh_scenario_check_plantings(struct vh_reading *r, const struct vh_raw_planting *raw);

/* The rows in force of a crop: the scenario's own, or those of params/. */
const struct vh_param_set *vh_scenario_crop_rows(const struct vh_scenario *s,
                                                 const struct vh_crop_file *crop);
const struct vh_crop *vh_scenario_crop(const struct vh_scenario *s,
                                       const struct vh_crop_file *crop);
/* The file of a planting's crop; says what is wrong with its name. NULL: none. */
const struct vh_crop_file *vh_scenario_find_crop(struct vh_reading *r, const struct vh_given *crop);

/* Either of the two may be given; a crop's usual rhythm otherwise. what: "planting.pick". */
void vh_rhythm_check(struct vh_reading *r, const char *what, const struct vh_given *every_d,
                     const struct vh_given *days);
void vh_rhythm_fill(const struct vh_given *every_d, const struct vh_given *days, double otherwise_d,
                    struct vh_rhythm *rhythm);
/* The dates are in this order, both may be absent; otherwise an error that names both keys. */
bool vh_dates_in_order(struct vh_reading *r, const struct vh_given *before,
                       const struct vh_given *after, bool may_be_equal);
/* The date lies in the planting's time in the house, as far as that is known. */
bool vh_date_in_season(struct vh_reading *r, const struct vh_given *date,
                       const struct vh_planting *p);
bool vh_planting_is_dated(const struct vh_planting *p);

/* ---- what `check` shows ---- */

void vh_scenario_tables_create(struct vh_reading *r);
/* What the key of any table is to hold (scenario_wanted.c). */
vh_toml_wants vh_key_wanted;
/* A number of which 0 says that there is none. */
bool vh_key_is_amount(const struct vh_key *key);
/* A default in use, by its row. planting NULL: of the house. */
void vh_default_used(struct vh_reading *r, const char *key, const struct vh_planting *planting,
                     const struct vh_param_set *rows, const char *row);
/* The same, its value told by a word of the scenario file. */
void vh_default_row_used(struct vh_reading *r, const char *key, const struct vh_planting *planting,
                         const struct vh_param_row *row, const char *word);
/* A default that no row stands behind. */
void vh_default_word_used(struct vh_reading *r, const char *key, const struct vh_planting *planting,
                          const char *word, const char *basis);
void vh_scenario_list_plantings(struct vh_reading *r);

/* A file the scenario names: its path, and an error at the key that names it where it cannot be
 * opened. must_be: false, nothing is opened. */
void vh_scenario_fill_file(struct vh_reading *r, const struct vh_toml_value *v, bool must_be,
                           struct vh_file_name *out);
void vh_scenario_fill_columns(struct vh_reading *r, const struct vh_given *columns,
                              struct vh_column_map **map, size_t *maps);
/* [records]: what file, by which names; then the file itself, if the plantings
 * are good: without them no row can be judged. */
void vh_scenario_fill_records(struct vh_reading *r, enum vh_status plantings);

/* [market]: days, goods with their prices, orders; after the plantings. */
void vh_scenario_fill_market(struct vh_reading *r);

/* Goods of one reading: what the person wrote of each, while prices and orders are laid on. */
struct vh_goods_reading {
    struct vh_raw_price *price;
    size_t prices;
    size_t *price_of;        /* [planting] which price is its, `prices`: none */
    bool *is_alone;          /* [good] of one planting that has a price of its own */
    const char **table_name; /* [table] as it was written */
};
/* Whose price or order it is. */
struct vh_target {
    bool good;
    size_t planting; /* `plantings`: a whole crop */
    const char *crop;
    const struct vh_given *said;
};
/* what: "market.price". */
struct vh_target vh_market_target(struct vh_reading *r, const char *what,
                                  const struct vh_toml_value *table, const struct vh_given *crop,
                                  const struct vh_given *planting);
void vh_scenario_fill_goods(struct vh_reading *r, struct vh_goods_reading *goods);
/* The grade table that a price names, read once however often it is named; NULL: none, or an error
 * was said. */
const struct vh_grades *vh_market_grades(struct vh_reading *r, struct vh_goods_reading *goods,
                                         const struct vh_given *name);
/* A claim that no such house reaches is questioned. */
void vh_scenario_doubt_records(struct vh_reading *r);
void vh_market_doubt_order(struct vh_reading *r, const struct vh_toml_value *table,
                           const struct vh_order *order);
/* Prices by kilogram or fruit into the good; its unit, what sells and what is wanted. */
void vh_market_fill_price(struct vh_reading *r, const struct vh_raw_price *raw,
                          const struct vh_planting *first, struct vh_good *good);

/* [parameters] file: what another season taught, once the plantings are known. */
void vh_scenario_fill_kept(struct vh_reading *r, enum vh_status plantings);

/* [futures]: how many, and how far they scatter; where the scenario is silent about the weather,
 * its own measured days are asked. */
void vh_scenario_fill_futures(struct vh_reading *r);

/* [compare]: after the plantings, before the climate, whose days must hold those of every choice.
 */
void vh_scenario_fill_compare(struct vh_reading *r);

/* What is seen of a crop that stands already. */
void vh_scenario_fill_standing(struct vh_reading *r, const struct vh_raw_standing *raw,
                               struct vh_planting *p);

#endif
