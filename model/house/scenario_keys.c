/* Keys of the scenario file: the whole, [house], [climate], [outside] (interface.md section 2). */
#include "scenario_parts.h"

#include <stddef.h>

#define UNITS VH_KEY_UNITS
#define DELTA VH_KEY_DIFFERENCE
#define NEEDED VH_KEY_REQUIRED
#define SCALE VH_KEY_SCALE
#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

/* Ranges are what can be meant at all; beyond them a slip of the hand or of the unit is certain. */

// clang-format off
#define AT(f) offsetof(struct vh_raw_house, f)
static const struct vh_key house[] = {
    { "name", VH_KEY_NAME, NEEDED, 0, 0, "name = \"Two bays\"", NULL, AT(name),
      "what the house is called" },
    { "latitude_deg", VH_KEY_NUMBER, SCALE, -90, 90, NULL, NULL, AT(latitude_deg),
      "how far north the house lies, south negative; needed to compute the sun" },
    { "longitude_deg", VH_KEY_NUMBER, SCALE, -180, 180, NULL, NULL, AT(longitude_deg),
      "how far east the house lies, west negative; gives the clock where utc_offset_h is absent" },
    { "utc_offset_h", VH_KEY_NUMBER, SCALE, -12, 14, NULL, NULL, AT(utc_offset_h),
      "hours the standard time of your clock is ahead of Greenwich" },
    { "log_daylight_saving", VH_KEY_WORD, 0, 0, 0, "none|us|eu|au|nz", NULL, AT(log_daylight_saving),
      "whose summer time the clock of the log follows" },
    { "floor_area_m2", VH_KEY_NUMBER, UNITS, 1, 1e6, NULL, NULL, AT(floor_area_m2),
      "floor of the house; a warning comes when the plantings need more" },
    { "wire_height_m", VH_KEY_NUMBER, UNITS, 1, 8, NULL, NULL, AT(wire_height_m),
      "height of the wire that the strings hang from" },
    { "row_length_m", VH_KEY_NUMBER, UNITS, 0.5, 1000, NULL, NULL, AT(row_length_m),
      "length of a row of plants" },
    { "row_gap_cm", VH_KEY_NUMBER, UNITS, 10, 1000, NULL, NULL, AT(row_gap_cm),
      "gap between double rows, for walking and for turning stems" },
    { "cover", VH_KEY_WORD, 0, 0, 0, "glass|film-single|film-double|polycarbonate",
      NULL, AT(cover),
      "what the house is covered with; says how much light comes in" },
    { "cover_transmission", VH_KEY_NUMBER, 0, 0.05, 1, NULL, NULL, AT(cover_transmission),
      "share of the light outside that comes in, if you measured it, instead of cover" },
    { "light_factor", VH_KEY_NUMBER, 0, 0.05, 3, NULL, NULL, AT(light_factor),
      "light the crop gets over the light recorded or computed" },
    { "currency", VH_KEY_TEXT, 0, 0, 0, "currency = \"USD\"", NULL, AT(currency),
      "sign of the money that prices and costs are given in" },
    { "units", VH_KEY_WORD, 0, 0, 0, "metric|us", NULL, AT(units),
      "what the answers are said in: kilograms and metres, or pounds and feet" },
    { "heat_loss_w_k", VH_KEY_NUMBER, 0, 0, 1e6, NULL, NULL, AT(heat_loss_w_k),
      "heat the house loses per degree inside over outside" },
    { "fuel_per_kwh", VH_KEY_NUMBER, 0, 0, 100, NULL, NULL, AT(fuel_per_kwh),
      "price of the heat" },
};
const struct vh_key_table vh_house_keys = { "house", house, COUNT(house), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_roughly, f)
static const struct vh_key roughly[] = {
    { "warmest_high_c", VH_KEY_NUMBER, UNITS | NEEDED | SCALE, -60, 60, NULL, NULL, AT(warmest_high_c),
      "usual high outside in the warmest month" },
    { "warmest_low_c", VH_KEY_NUMBER, UNITS | NEEDED | SCALE, -60, 60, NULL, NULL, AT(warmest_low_c),
      "usual low outside in the warmest month" },
    { "coldest_high_c", VH_KEY_NUMBER, UNITS | NEEDED | SCALE, -60, 60, NULL, NULL, AT(coldest_high_c),
      "usual high outside in the coldest month" },
    { "coldest_low_c", VH_KEY_NUMBER, UNITS | NEEDED | SCALE, -60, 60, NULL, NULL, AT(coldest_low_c),
      "usual low outside in the coldest month" },
    { "sky", VH_KEY_WORD, 0, 0, 0, "clear|mixed|dull", NULL, AT(sky),
      "what the sky is mostly like" },
};
static const struct vh_key_table roughly_keys = {
    "climate.roughly", roughly, COUNT(roughly), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_spell, f)
static const struct vh_key spell[] = {
    { "from", VH_KEY_DATE, NEEDED, 0, 0, NULL, NULL, AT(from),
      "first day of the weather you expect" },
    { "until", VH_KEY_DATE, NEEDED, 0, 0, NULL, NULL, AT(until),
      "last day of the weather you expect" },
    { "day_c", VH_KEY_NUMBER, UNITS | SCALE, -60, 60, NULL, NULL, AT(day_c),
      "highest temperature outside on such a day" },
    { "night_c", VH_KEY_NUMBER, UNITS | SCALE, -60, 60, NULL, NULL, AT(night_c),
      "lowest temperature outside on such a night" },
    { "sky", VH_KEY_WORD, 0, 0, 0, "clear|mixed|dull", NULL, AT(sky),
      "what the sky will be like in the spell" },
};
const struct vh_key_table vh_spell_keys = { "climate.spell", spell, COUNT(spell), true };
#undef AT

#define AT(f) offsetof(struct vh_raw_format, f)
static const struct vh_key format[] = {
    { "time", VH_KEY_TEXT, 0, 0, 0, "time = \"%m/%d/%y %I:%M %p\"", NULL, AT(time),
      "how time is written in the log, with the usual % letters" },
    { "separator", VH_KEY_WORD, 0, 0, 0, ",|;|\t|tab", NULL, AT(separator),
      "what stands between two cells of the log" },
    { "decimal", VH_KEY_WORD, 0, 0, 0, ".|,", NULL, AT(decimal),
      "sign before the decimals in the log" },
};
static const struct vh_key_table format_keys = { "climate.format", format, COUNT(format), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_climate, f)
static const struct vh_key climate[] = {
    { "log", VH_KEY_FILES, 0, 0, 0, "log = \"inside.csv\"", NULL, AT(log),
      "file or files of your thermometer or logger inside the house" },
    { "log_offset_c", VH_KEY_NUMBER, UNITS | DELTA, -10, 10, NULL, NULL, AT(log_offset_c),
      "how much warmer the logger reads than the crop is" },
    { "outside", VH_KEY_FILE, 0, 0, 0, "outside = \"weather.csv\"", NULL, AT(outside),
      "file of the weather outside, measured or foreseen" },
    { "normals", VH_KEY_FILE, 0, 0, 0, "normals = \"normals.csv\"", NULL, AT(normals),
      "file of monthly means, for all hours that no other file covers" },
    { "heat_c", VH_KEY_NUMBER, UNITS, -20, 45, NULL, NULL, AT(heat_c),
      "heating keeps the house at least this warm, day and night" },
    { "heat_day_c", VH_KEY_NUMBER, UNITS, -20, 45, NULL, NULL, AT(heat_day_c),
      "heating keeps the house at least this warm by day" },
    { "heat_night_c", VH_KEY_NUMBER, UNITS, -20, 45, NULL, NULL, AT(heat_night_c),
      "heating keeps the house at least this warm by night" },
    { "vent_c", VH_KEY_NUMBER, UNITS | SCALE, 0, 60, NULL, NULL, AT(vent_c),
      "vents open from this temperature on" },
    { "co2_ppm", VH_KEY_NUMBER, 0, 100, 5000, NULL, NULL, AT(co2_ppm),
      "CO2 of the air in the house where the log has none" },
    { "shade_share_taken", VH_KEY_NUMBER, 0, 0, 0.95, NULL, NULL, AT(shade_share_taken),
      "share of the light that your shading takes" },
    { "shade_from", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(shade_from),
      "first day with shading" },
    { "shade_until", VH_KEY_DATE, 0, 0, 0, NULL, NULL, AT(shade_until),
      "last day with shading" },
    { "lamps_umol_m2_s", VH_KEY_NUMBER, 0, 0, 2000, NULL, NULL, AT(lamps_umol_m2_s),
      "light of the lamps on the crop" },
    { "lamps_on_h", VH_KEY_NUMBER, SCALE, 0, 24, NULL, NULL, AT(lamps_on_h),
      "solar hour at which the lamps go on" },
    { "lamps_off_h", VH_KEY_NUMBER, SCALE, 0, 24, NULL, NULL, AT(lamps_off_h),
      "solar hour at which the lamps go off" },
    { "roughly", VH_KEY_TABLE, 0, 0, 0, NULL, &roughly_keys, AT(roughly),
      "four temperatures and a sky word, instead of a file of normals" },
    { "spell", VH_KEY_TABLES, 0, 0, 0, NULL, &vh_spell_keys, AT(spell),
      "weather you expect for some days to come" },
    { "columns", VH_KEY_TEXT_MAP, 0, 0, 0, "t_air_c = \"Temperature\"", NULL, AT(columns),
      "which header of the log stands for which column of ours" },
    { "format", VH_KEY_TABLE, 0, 0, 0, NULL, &format_keys, AT(format),
      "how time and numbers are written in the log" },
};
const struct vh_key_table vh_climate_keys = { "climate", climate, COUNT(climate), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_outside, f)
static const struct vh_key outside[] = {
    { "columns", VH_KEY_TEXT_MAP, 0, 0, 0, "t_out_c = \"Temperature\"", NULL, AT(columns),
      "which header of the file of weather outside stands for which column of ours" },
};
const struct vh_key_table vh_outside_keys = { "outside", outside, COUNT(outside), false };
#undef AT

#define AT(f) offsetof(struct vh_raw_root, f)
static const struct vh_key root[] = {
    { "house", VH_KEY_TABLE, NEEDED, 0, 0, NULL, &vh_house_keys, AT(house),
      "the house: where it lies, how large it is, what light comes in" },
    { "climate", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_climate_keys, AT(climate),
      "what the crop feels: files, heating, venting, shade, lamps" },
    { "outside", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_outside_keys, AT(outside),
      "headers of the file of weather outside" },
    { "planting", VH_KEY_TABLES, NEEDED, 0, 0, NULL, &vh_planting_keys, AT(planting),
      "one crop on one set of rows, from set-out to pull-out; one or more" },
    { "market", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_market_keys, AT(market),
      "when and where you sell" },
    { "labour", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_labour_keys, AT(labour),
      "hours you have and what they cost" },
    { "stock", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_stock_keys, AT(stock),
      "clips, string and hooks at hand, and what they cost" },
    { "records", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_records_keys, AT(records),
      "what you weighed, counted and did" },
    { "compare", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_compare_keys, AT(compare),
      "choices to run against the scenario as it stands" },
    { "futures", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_futures_keys, AT(futures),
      "how many weathers to come are tried, and how far they scatter" },
    { "parameters", VH_KEY_TABLE, 0, 0, 0, NULL, &vh_parameters_keys, AT(parameters),
      "numbers of the model that you replace by your own" },
};
const struct vh_key_table vh_root_keys = { "", root, COUNT(root), false };
#undef AT
// clang-format on
