/* Keys of the scenario file: the whole, [house], [climate], [outside] (interface.md section 2). */
#include "scenario_parts.h"

#include <stddef.h>

#define UNITS VH_KEY_UNITS
#define DELTA VH_KEY_DIFFERENCE
#define NEEDED VH_KEY_REQUIRED
#define LATER VH_KEY_LATER
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

/* Ranges are what can be meant at all; beyond them a slip of the hand or of the unit is certain. */

// clang-format off
#define AT(f) offsetof(struct vh_raw_house, f)
static const struct vh_key house[] = {
    { "name", VH_KEY_NAME, NEEDED, 0, 0, "name = \"Two bays\"", NULL, AT(name) },
    { "latitude_deg", VH_KEY_NUMBER, 0, -90, 90, NULL, NULL, AT(latitude_deg) },
    { "longitude_deg", VH_KEY_NUMBER, 0, -180, 180, NULL, NULL, AT(longitude_deg) },
    { "utc_offset_h", VH_KEY_NUMBER, 0, -12, 14, NULL, NULL, AT(utc_offset_h) },
    { "log_daylight_saving", VH_KEY_WORD, 0, 0, 0, "none|us|eu", NULL, AT(log_daylight_saving) },
    { "floor_area_m2", VH_KEY_NUMBER, UNITS, 1, 1e6, NULL, NULL, AT(floor_area_m2) },
    { "wire_height_m", VH_KEY_NUMBER, UNITS | LATER, 1, 8, NULL, NULL, AT(wire_height_m) },
    { "row_length_m", VH_KEY_NUMBER, UNITS | LATER, 0.5, 1000, NULL, NULL, AT(row_length_m) },
    { "row_gap_cm", VH_KEY_NUMBER, UNITS | LATER, 10, 1000, NULL, NULL, VH_NO_FIELD },
    { "cover", VH_KEY_WORD, 0, 0, 0, "glass|film-single|film-double|polycarbonate",
      NULL, AT(cover) },
    { "cover_transmission", VH_KEY_NUMBER, 0, 0.05, 1, NULL, NULL, AT(cover_transmission) },
    { "light_factor", VH_KEY_NUMBER, 0, 0.05, 3, NULL, NULL, AT(light_factor) },
    { "currency", VH_KEY_TEXT, LATER, 0, 0, "currency = \"USD\"", NULL, VH_NO_FIELD },
    { "heat_loss_w_k", VH_KEY_NUMBER, 0, 0, 1e6, NULL, NULL, AT(heat_loss_w_k) },
    { "fuel_per_kwh", VH_KEY_NUMBER, LATER, 0, 100, NULL, NULL, VH_NO_FIELD },
};
const struct vh_key_table vh_house_keys = { "house", house, COUNT(house), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_roughly, f)
static const struct vh_key roughly[] = {
    { "warmest_high_c", VH_KEY_NUMBER, UNITS | NEEDED, -60, 60, NULL, NULL, AT(warmest_high_c) },
    { "warmest_low_c", VH_KEY_NUMBER, UNITS | NEEDED, -60, 60, NULL, NULL, AT(warmest_low_c) },
    { "coldest_high_c", VH_KEY_NUMBER, UNITS | NEEDED, -60, 60, NULL, NULL, AT(coldest_high_c) },
    { "coldest_low_c", VH_KEY_NUMBER, UNITS | NEEDED, -60, 60, NULL, NULL, AT(coldest_low_c) },
    { "sky", VH_KEY_WORD, 0, 0, 0, "clear|mixed|dull", NULL, AT(sky) },
};
static const struct vh_key_table roughly_keys = {
    "climate.roughly", roughly, COUNT(roughly), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_spell, f)
static const struct vh_key spell[] = {
    { "from", VH_KEY_DATE, NEEDED, 0, 0, NULL, NULL, AT(from) },
    { "until", VH_KEY_DATE, NEEDED, 0, 0, NULL, NULL, AT(until) },
    { "day_c", VH_KEY_NUMBER, UNITS, -60, 60, NULL, NULL, AT(day_c) },
    { "night_c", VH_KEY_NUMBER, UNITS, -60, 60, NULL, NULL, AT(night_c) },
    { "sky", VH_KEY_WORD, 0, 0, 0, "clear|mixed|dull", NULL, AT(sky) },
};
const struct vh_key_table vh_spell_keys = { "climate.spell", spell, COUNT(spell), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_format, f)
static const struct vh_key format[] = {
    { "time", VH_KEY_TEXT, 0, 0, 0, "time = \"%m/%d/%y %I:%M %p\"", NULL, AT(time) },
    { "separator", VH_KEY_WORD, 0, 0, 0, ",|;|\t|tab", NULL, AT(separator) },
    { "decimal", VH_KEY_WORD, 0, 0, 0, ".|,", NULL, AT(decimal) },
};
static const struct vh_key_table format_keys = { "climate.format", format, COUNT(format), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_climate, f)
static const struct vh_key climate[] = {
    { "log", VH_KEY_FILES, 0, 0, 0, "log = \"inside.csv\"", NULL, AT(log) },
    { "log_offset_c", VH_KEY_NUMBER, UNITS | DELTA, -10, 10, NULL, NULL, AT(log_offset_c) },
    { "outside", VH_KEY_FILE, 0, 0, 0, "outside = \"weather.csv\"", NULL, AT(outside) },
    { "normals", VH_KEY_FILE, 0, 0, 0, "normals = \"normals.csv\"", NULL, AT(normals) },
    { "heat_c", VH_KEY_NUMBER, UNITS, -20, 45, NULL, NULL, AT(heat_c) },
    { "heat_day_c", VH_KEY_NUMBER, UNITS, -20, 45, NULL, NULL, AT(heat_day_c) },
    { "heat_night_c", VH_KEY_NUMBER, UNITS, -20, 45, NULL, NULL, AT(heat_night_c) },
    { "vent_c", VH_KEY_NUMBER, UNITS, 0, 60, NULL, NULL, AT(vent_c) },
    { "co2_ppm", VH_KEY_NUMBER, 0, 100, 5000, NULL, NULL, AT(co2_ppm) },
    { "shade_share_taken", VH_KEY_NUMBER, 0, 0, 0.95, NULL, NULL, AT(shade_share_taken) },
    { "shade_from", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(shade_from) },
    { "shade_until", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(shade_until) },
    { "lamps_umol_m2_s", VH_KEY_NUMBER, 0, 0, 2000, NULL, NULL, AT(lamps_umol_m2_s) },
    { "lamps_on_h", VH_KEY_NUMBER, 0, 0, 24, NULL, NULL, AT(lamps_on_h) },
    { "lamps_off_h", VH_KEY_NUMBER, 0, 0, 24, NULL, NULL, AT(lamps_off_h) },
    { "roughly", VH_KEY_TABLE, 0, 0, 0, NULL, &roughly_keys, AT(roughly) },
    { "spell", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_spell_keys, AT(spell) },
    { "columns", VH_KEY_TEXT_MAP, 0, 0, 0, "t_air_c = \"Temperature\"", NULL, AT(columns) },
    { "format", VH_KEY_TABLE, 0, 0, 0, NULL, &format_keys, AT(format) },
};
const struct vh_key_table vh_climate_keys = { "climate", climate, COUNT(climate), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_outside, f)
static const struct vh_key outside[] = {
    { "columns", VH_KEY_TEXT_MAP, 0, 0, 0, "t_out_c = \"Temperature\"", NULL, AT(columns) },
};
const struct vh_key_table vh_outside_keys = { "outside", outside, COUNT(outside), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_root, f)
static const struct vh_key root[] = {
    { "house", VH_KEY_TABLE, NEEDED, 0, 0, NULL, &vh_house_keys, AT(house) },
    { "climate", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_climate_keys, AT(climate) },
    { "outside", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_outside_keys, AT(outside) },
    { "planting", VH_KEY_TABLES, NEEDED, 0, 0, NULL, &vh_planting_keys, AT(planting) },
    { "market", VH_KEY_TABLE, LATER, 0, 0, NULL, &vh_market_keys, VH_NO_FIELD },
    { "labour", VH_KEY_TABLE, LATER, 0, 0, NULL, &vh_labour_keys, VH_NO_FIELD },
    { "stock", VH_KEY_TABLE, LATER, 0, 0, NULL, &vh_stock_keys, VH_NO_FIELD },
    { "records", VH_KEY_TABLE, LATER, 0, 0, NULL, &vh_records_keys, VH_NO_FIELD },
    { "compare", VH_KEY_TABLE, LATER, 0, 0, NULL, &vh_compare_keys, VH_NO_FIELD },
    { "futures", VH_KEY_TABLE, LATER, 0, 0, NULL, &vh_futures_keys, VH_NO_FIELD },
    { "parameters", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_parameters_keys, AT(parameters) },
};
const struct vh_key_table vh_root_keys = { "", root, COUNT(root), false };
#undef AT
// clang-format on
