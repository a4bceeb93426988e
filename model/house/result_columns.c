/* The one list of output columns: CSV, datapackage.json and explain read it. Each table says what
 * futures do to it: `keys` name a row (empty: all columns before the first number), `fixed` are
 * numbers that no future moves, `days` dates that they move; all other numbers get a range. `zero`:
 * a future without the row counts as 0, not as unknown. */
#include "vh_result.h"

#include <string.h>

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))
#define D(name, meaning) { name, VH_CELL_DATE, "", meaning }
#define T(name, meaning) { name, VH_CELL_TEXT, "", meaning }
#define I(name, meaning) { name, VH_CELL_INTEGER, "1", meaning }
#define N(name, unit, meaning) { name, VH_CELL_NUMBER, unit, meaning }
#define E(name, unit, meaning) { name, VH_CELL_ERROR, unit, meaning }

static const struct vh_column picks[] = {
    D("date", "day of the pick"), T("planting", "which planting"), N("fruits", "1", "fruits picked in the planting, by the model alone"),
    N("kg", "kg", "mass picked in the planting, all that comes off the vines (market_days.csv has what of it can be sold), by the model alone; where picked_kg or picked_fruits stands, that counts everywhere else"), N("fruit_g", "g", "mean mass of a fruit picked"),
    N("unmarketable_kg", "kg", "of it cracked, misshapen, rotten at the end, over-ripe or too large to sell"),
    N("picked_kg", "kg", "mass that the records say was picked, without doubtful entries; empty: no entry"),
    D("market_day", "day on which it is sold; empty: no market day takes it"),
    T("pick_colour", "colour in which to pick for that day; empty: it is picked by its size"),
    N("keep_low_c", "degC", "keep it no colder than this until then"),
    N("keep_high_c", "degC", "keep it no warmer than this until then"),
    N("lost_share", "1", "share too old or hurt by cold by then, if it is kept so"),
    T("keep_apart_from", "plantings whose fruit must not lie beside it"),
    N("picked_fruits", "1", "fruits that the records say were picked, without doubtful entries; empty: no entry"),
    N("thrown_kg", "kg", "mass that the records say was thrown away that day, without doubtful entries; empty: no entry"),
};
static const struct vh_column weeks[] = {
    T("week", "ISO 8601 week, 2026-W29"), D("monday", "its first day"), T("planting", "which planting"),
    N("fruits", "1", "fruits picked: written down, else foreseen"), N("kg", "kg", "mass picked: written down, else foreseen; an entry stands for what was taken off since the one before it"),
    N("market_kg", "kg", "of it fit for sale"),
    N("fruit_g", "g", "mean mass of a fruit picked"),
    N("diameter_mm", "mm", "diameter of a fruit of that mass"), N("kg_per_plant", "kg", "mass picked a plant"),
    N("kg_m2", "kg m-2", "mass picked a square metre of floor the planting uses"),
    N("cumulative_kg", "kg", "mass picked since set-out"),
    N("load", "1", "what the plants ask over what the light feeds"),
    N("supply_share", "1", "share of what the plants ask that they get, at most 1"),
    N("picked_kg", "kg", "mass that the records say was picked, by the days of the entries; empty: no entry"),
    N("picked_fruits", "1", "fruits that the records say were picked, by the days of the entries; empty: no entry"),
};
static const struct vh_column market_days[] = {
    D("date", "market day"), T("planting", "which planting; all and the crop: its plantings together"),
    T("grade", "size grade; all: those of the table together; ungraded: too small or too large for them"),
    N("kg", "kg", "mass on the table: what can be sold of the picks (picks.csv has all that comes off the vines)"), N("fruits", "1", "fruits on the table"),
    N("promise_kg", "kg", "mass that is reached with the chance of market.promise"),
    N("promise_fruits", "1", "fruits that are reached with that chance"),
    N("orders_kg", "kg", "mass ordered"), N("orders_fruits", "1", "fruits ordered"),
    N("short_chance", "1", "share of the futures that cannot fill the orders"),
    N("beyond_sales_kg", "kg", "mass above the orders and what sells at full price"),
    N("lost_in_store_kg", "kg", "mass that grew too old in store before the day"),
    N("income", "money", "what it brings, in your currency"),
};
static const struct vh_column gaps[] = {
    T("crop", "which crop, or the planting that has a price of its own"),
    D("from", "first market day whose promise is felt to be below what you want"), D("until", "last of them"),
    N("short_kg", "kg", "what is missing on all of them together"),
    N("short_fruits", "1", "the same, where fruits are wanted"),
    D("sow_by", "last day to sow a batch that fills most of it, in the past where it is too late; empty: none would"),
    N("plants", "1", "plants of that batch; empty: it is too late, or none would"), N("plants_p10", "1", "one future in ten needs fewer"),
    N("plants_p90", "1", "one future in ten needs more"),
    N("short_share", "1", "what is missing, as a share of what you want on those days"),
};
static const struct vh_column said[] = {
    D("said_on", "day on which it was promised"), D("date", "market day"), T("planting", "which planting, as in market_days"),
    T("grade", "size grade, as in market_days"), N("promise_kg", "kg", "what was promised"),
    N("kg_p10", "kg", "one future in ten lay lower"), N("kg_p90", "kg", "one future in ten lay higher"),
};
static const struct vh_column said_fruits[] = {
    D("said_on", "day on which it was promised"), D("date", "market day"), T("planting", "which planting, as in market_days"),
    T("grade", "size grade, as in market_days"), N("promise_fruits", "1", "what was promised of what is sold by the piece"),
    N("fruits_p10", "1", "one future in ten lay lower"), N("fruits_p90", "1", "one future in ten lay higher"),
};
static const struct vh_column trusses[] = {
    T("planting", "which planting"), I("truss", "number of the truss or node, from the ground up"),
    T("status", "to come, in flower, green, picking or picked on the day of the run"),
    D("first_flower", "day the first flower opens"), D("last_flower", "day the last flower opens"),
    N("flowers", "1", "flowers of an average truss"), N("set", "1", "fruits that set on each stem that carries the truss, before any are taken off"),
    N("kept", "1", "fruits left on it, on each stem that carries it"), N("take_off", "1", "fruits to take off by the plan"), D("take_off_on", "day to take them off by the plan, as in tasks.csv; empty: none are taken off"),
    N("aborted", "1", "young fruits of it that drop by themselves, on the mean of all stems"), D("first_ripe", "day the first fruit is ready to pick"),
    D("last_ripe", "day the last fruit is ready to pick"), N("days_flower_to_ripe", "d", "from first flower to first ready fruit"),
    N("fruit_g", "g", "mean mass of the fruits picked"), N("diameter_mm", "mm", "diameter of a fruit of that mass"),
    N("dry_matter_pct", "%", "dry matter of the fruits picked"),
    N("fruit_cv", "1", "scatter of fruit mass on the truss: standard deviation over mean"),
    D("support_on", "day to put a support on its stalk; empty: it needs none"),
};
static const struct vh_column stem[] = {
    D("date", "day"), T("planting", "which planting"), N("stem_cm", "cm", "length of the stem made since sowing"),
    N("leaves", "1", "leaves on a stem"), N("lai_m2_m2", "m2 m-2", "leaf area over floor area"),
    N("head_height_cm", "cm", "growing tip above the floor"), N("lean_deg", "degree", "hanging stem, from the floor"),
    N("laid_cm", "cm", "stem laid along the floor"), N("lowest_fruit_cm", "cm", "lowest fruit above the floor"),
    N("flowering_truss", "1", "number of the truss in flower; 8.5 is half way from 8 to 9; a mean counted on several stems is half a truss less"),
    N("picking_truss", "1", "lowest truss that still has fruit to pick; 5.5 is half picked"),
};
static const struct vh_column lowering[] = {
    D("date", "day of the visit"), T("planting", "which planting"), N("lower_cm", "cm", "string let out"),
    N("turns", "1", "turns of the hook"), N("hook_from_root_cm", "cm", "hook along the wire, from the root"),
    N("hook_moves_cm", "cm", "how far the hook moves along the wire"), N("stem_cm", "cm", "length of the stem"),
    N("laid_cm", "cm", "stem laid along the floor"), N("string_in_use_cm", "cm", "string between stem base and hook"),
    N("string_left_m", "m", "string still wound on the hook"), N("lowest_fruit_cm", "cm", "height of the lowest fruit after the visit"),
    N("leaves_first", "1", "leaves to take off first, per stem: they would lie on the floor"),
    T("warning", "what to look out for at this visit"),
};
static const struct vh_column tasks[] = {
    D("date", "day"), T("planting", "which planting; empty: the house"), T("task", "what is done"),
    N("count", "1", "how many of the unit, by the plan; of picks the mean of the futures"), T("unit", "what is counted"), N("minutes", "min", "time it takes, walking apart"),
    N("may_wait_d", "d", "days it may wait"),
    N("cost_of_waiting", "money", "what a week of waiting would cost, of work due in the coming seven days: money, or kg for market where fruit has no price; 0: nothing that is foreseen"),
    T("note", "how, how many, where"),
    T("if_late", "what a week of waiting brings where the model reckons no kilograms of it, of work due in the coming seven days"),
    N("done", "1", "1: the records say that it was done on that day, for a pick that it was weighed or counted; 0: they do not"),
};
static const struct vh_column hours[] = {
    T("week", "ISO 8601 week, 2026-W29"), D("monday", "its first day"), T("task", "what is done; other work of your week by its own name"),
    N("hours", "h", "hours it takes, the sum of the minutes of tasks.csv"), N("hours_left", "h", "hours of the week left after all tasks, other work not counted; below 0 too few"),
};
static const struct vh_column supplies[] = {
    T("week", "ISO 8601 week, 2026-W29"), D("monday", "its first day"), T("item", "clips, string, hooks or truss supports"),
    N("needed", "1", "used in the week; string in m"), N("stock_left", "1", "left at its end; string in m"),
    D("runs_out", "day the stock is used up"), D("order_by", "last day to order"),
    N("to_come", "1", "of what is needed what is used from the day of the run on; string in m"),
};
static const struct vh_column climate_days[] = {
    D("date", "day"), N("tmean_c", "degC", "mean of 24 hours of air in the house"), N("tmin_c", "degC", "lowest hour"),
    N("tmax_c", "degC", "highest hour"), N("dli_mol_m2_d", "mol m-2 d-1", "light above the crop, lamps included, before light_factor"),
    N("co2_ppm", "ppm", "mean of the hours with light"), N("degree_days_c_d", "degC d", "above the base of params/defaults.csv"),
    N("hours_above_30_c", "h", "hours hotter than 30 degC"), N("heating_kwh", "kWh", "heat asked of the heating"),
    N("hours_logged", "h", "hours of the day known from a log"), N("hours_outlook", "h", "hours of the day from the outlook"),
};
static const struct vh_column plant_days[] = {
    D("date", "day"), T("planting", "which planting"), N("assimilate_g_m2", "g m-2 d-1", "carbohydrate made by the leaves"),
    N("maintenance_g_m2", "g m-2 d-1", "carbohydrate spent on upkeep"),
    N("maintenance_unpaid_g_m2", "g m-2 d-1", "upkeep that could not be paid"),
    N("demand_g_m2", "g m-2 d-1", "carbohydrate that fruits, leaves and stem ask"),
    N("load", "1", "asked over supply"), N("supply_share", "1", "share of what is asked that is met, at most 1"),
    N("reserve_g_m2", "g m-2", "carbohydrate kept for tomorrow"), N("fruit_dm_g_m2", "g m-2 d-1", "fruit dry matter grown"),
    N("leaf_dm_g_m2", "g m-2 d-1", "leaf dry matter grown"), N("stem_dm_g_m2", "g m-2 d-1", "stem and root dry matter grown"),
    E("balance_error", "1", "relative error of the day's account"),
};
static const struct vh_column warnings[] = {
    D("date", "day it concerns"), T("planting", "which planting; empty: the house"), T("what", "what is foreseen"),
    T("why", "where that comes from"), T("what_to_do", "what helps"), D("act_by", "last day it helps"),
    T("matter", "harm: plants, fruit or people come to harm within days if nothing is done; do: something to do; know: good to know"),
};
static const struct vh_column summary[] = {
    T("planting", "which planting"), T("crop", "crop"), T("unit_word", "kg or fruits: what people count it in"),
    T("truss_word", "what a fruiting place is called: truss or node"),
    D("first_pick", "first day with a tenth of a fruit a stem"), N("season_kg", "kg", "whole season: written down, else foreseen"),
    N("season_fruits", "1", "whole season"), N("to_come_kg", "kg", "from the day of the run on, without what is written down of it"),
    N("to_come_fruits", "1", "from the day of the run on, without what is written down of it"), N("kg_per_plant", "kg", "whole season"),
    N("kg_m2", "kg m-2", "whole season"), D("peak_monday", "best week still to come"), N("peak_kg", "kg", "picked in it"),
    N("peak_fruits", "1", "picked in it"), N("fruit_g", "g", "mean of the fruits to come"),
    N("fruit_g_low", "g", "lightest truss to come"), I("fruit_g_low_truss", "its number"),
    N("stem_cm", "cm", "stem on the day of the run"),
    N("stem_week_cm", "cm", "what it grew in the seven days before"), N("stem_end_cm", "cm", "stem at pull-out"),
    N("pick_from_g", "g", "mass that fruit is picked from; empty: picked by its colour"),
    N("small_below_g", "g", "fruit of a smaller mean is picked by its age and told"),
    D("pull_out", "day it is taken out"),
    N("flowering_truss", "1", "on the day of the run"), N("next_week_kg", "kg", "the seven days from the day of the run on"),
    N("next_week_fruits", "1", "the seven days from the day of the run on"),
    N("leaves_made", "1", "leaves a stem made in the season"), N("trusses_made", "1", "trusses a stem opened in the season"),
    N("wire_cm", "cm", "height of the wire"), N("laid_height_cm", "cm", "height of the laid stems"),
    N("fruit_floor_cm", "cm", "least height of the lowest fruit"), N("truss_hang_cm", "cm", "a truss below its joint"),
    N("plants_apart_cm", "cm", "plants in the row"),
    N("flower_below_head_cm", "cm", "along the stem, from the tip to the truss in flower"),
    N("container_cm", "cm", "width of the containers that stems are led around"),
    T("lay_path", "how laid stems are led: straight, row-end or around-containers"),
    N("picking_weeks", "week", "from the first pick to pull-out"),
    N("reach_low_kg_m2", "kg m-2", "in so many weeks less is little"),
    N("reach_high_kg_m2", "kg m-2", "in so many weeks such houses reach no more"),
    N("reach_high_kg_plant", "kg", "the same for a plant"), T("reach", "nothing, little, usual or much"),
    N("sells_kg", "kg", "what sells in a market day at full price, beside the orders; empty: not given"),
    N("sells_fruits", "1", "the same by the piece"),
    N("pack_g", "g", "mass of a pack; empty: not sold by the pack"),
    N("pack_fruits", "1", "fruits in a pack; empty: not counted in packs"),
};
static const struct vh_column house[] = {
    T("name", "house"), D("today", "day of the run"), D("first_day", "first day simulated"), D("last_day", "last day simulated"),
    D("last_logged", "last day of the log"), N("hours_logged", "h", "hours known from logs"),
    N("hours_outlook", "h", "hours from the outlook"), N("light_factor", "1", "light in the plant over the light above"),
    T("roughest", "the weakest assumption"), I("records_used", "values of the records in use"),
    D("records_until", "day of the last of them"),
    T("currency", "sign of the money; empty: not given"),
    N("said_near_d", "d", "so far from a week before its market day a promise may have been made to be judged"),
    N("members_least", "1", "with fewer futures nothing is learnt from the records"),
    I("dull_week", "1: the week before today was duller, for the season, than the two before it"),
};
static const struct vh_column choices[] = {
    T("choice", "what is done otherwise; the first is the plan"), T("planting", "which planting; all: the house"),
    N("fruit_g", "g", "mean mass of a fruit picked; whole season, mean of the futures"),
    N("kg_per_plant", "kg", "mass picked a plant; whole season, mean of the futures"),
    N("market_kg", "kg", "mass for market; whole season, mean of the futures"),
    N("income", "money", "what it brings, in your currency; whole season, mean of the futures"),
    N("hours", "h", "hours of work; whole season, mean of the futures"),
    N("supplies_cost", "money", "plants, clips, string, hooks, supports; whole season, mean of the futures"),
    N("heating_cost", "money", "its share of the heat, by floor; whole season, mean of the futures"),
    N("margin", "money", "income less hours, supplies and heating, as far as their prices are given; whole season, mean of the futures"),
    N("better_chance", "1", "share of the futures in which it has more margin (without prices: more mass for market)"),
    N("floor_need_m2", "m2", "floor that the plantings of the house would need, where that is more than there is and than the plan needs"),
    D("floor_from", "first day without room; empty: there is room, or no floor is given"), D("floor_until", "last of these days"),
    N("fruit_g_diff", "g", "against the plan in the same futures, mean"),
    N("fruit_g_diff_p10", "g", "one future in ten differs by less"), N("fruit_g_diff_p90", "g", "one future in ten differs by more"),
    N("kg_per_plant_diff", "kg", "against the plan in the same futures, mean"),
    N("kg_per_plant_diff_p10", "kg", "one future in ten differs by less"), N("kg_per_plant_diff_p90", "kg", "one future in ten differs by more"),
    N("market_kg_diff", "kg", "against the plan in the same futures, mean"),
    N("market_kg_diff_p10", "kg", "one future in ten differs by less"), N("market_kg_diff_p90", "kg", "one future in ten differs by more"),
    N("income_diff", "money", "against the plan in the same futures, mean"),
    N("income_diff_p10", "money", "one future in ten differs by less"), N("income_diff_p90", "money", "one future in ten differs by more"),
    N("hours_diff", "h", "against the plan in the same futures, mean"),
    N("hours_diff_p10", "h", "one future in ten differs by less"), N("hours_diff_p90", "h", "one future in ten differs by more"),
    N("supplies_cost_diff", "money", "against the plan in the same futures, mean"),
    N("supplies_cost_diff_p10", "money", "one future in ten differs by less"), N("supplies_cost_diff_p90", "money", "one future in ten differs by more"),
    N("heating_cost_diff", "money", "against the plan in the same futures, mean"),
    N("heating_cost_diff_p10", "money", "one future in ten differs by less"), N("heating_cost_diff_p90", "money", "one future in ten differs by more"),
    N("margin_diff", "money", "against the plan in the same futures, mean"),
    N("margin_diff_p10", "money", "one future in ten differs by less"), N("margin_diff_p90", "money", "one future in ten differs by more"),
    T("flips_if", "the assumption that would turn it, with its break-even value"),
};
static const struct vh_column found[] = {
    T("planting", "which planting"), T("search", "what was looked for: margin, steady or size"),
    T("choice", "what was found, as in choices.csv; empty: nothing better than the plan"),
    I("seasons", "choices tried"), I("members", "futures each was tried in"), N("at_least_g", "g", "fruit mass that was wanted"),
    N("steadier_pct", "%", "scatter of the weeks against the plan's"),
    N("chance", "1", "share of the futures with fruit of that mass, or with steadier weeks"),
    N("most_tried", "1", "fruits that it keeps somewhere and beyond which none were tried; empty: it keeps fewer"),
};
static const struct vh_column compared[] = {
    T("planting", "whose choices; empty: all"), I("members", "futures each choice was run in"), I("choices", "choices run"),
    T("decides", "the column by which a choice is better: margin or market_kg"), T("plan", "what the plan has of each lever tried"),
    T("not_counted", "parts of the money that no price is given of"), T("looks_back", "yes: a choice changes what is past; noted: and picks are written down of it"), T("currency", "sign of the money; empty: not given"),
    T("search", "what was looked for besides: margin, steady, size or gaps; empty: nothing"),
};
static const struct vh_column plant_check[] = {
    T("planting", "which planting"), T("item", "what is counted, as in the records"),
    I("truss", "on which truss; empty: on the whole stem"), I("stems", "stems to look at"),
    T("unit", "of the three numbers: 1, cm or mm"),
    N("expect", "1", "mean of the futures; in `unit`"), N("low", "1", "one count in ten is lower"),
    N("high", "1", "one count in ten is higher"),
    T("if_lower", "what may be behind it, and what may be changed"), T("if_higher", "the same"),
};
static const struct vh_column to_measure[] = {
    T("planting", "which planting"), T("item", "what could be counted or weighed today, as in the records"),
    I("truss", "on which truss; empty: on the whole stem"), I("of", "stems, or fruits, to look at; empty: the whole planting"),
    N("expect", "1", "mean of the futures, in the unit of the item"),
    D("market_day", "the next market day; empty: none, the seven days to come stand for it"),
    D("until", "last day of the picks that are foreseen"), N("kg", "kg", "foreseen for that day, as things stand"),
    N("kg_low", "kg", "one future in ten lies lower"), N("kg_high", "kg", "one future in ten lies higher"),
    N("narrows", "1", "share by which that range would narrow if this were known; 0.1: a tenth"),
};
static const struct vh_column hindcast[] = {
    T("week", "ISO 8601 week that was forecast, 2026-W29"), I("weeks_ahead", "weeks from the day of the forecast, a Sunday, to its end"),
    T("planting", "which planting"),
    N("observed_kg", "kg", "what was picked, each entry spread over the days since the one before"),
    N("forecast_kg", "kg", "mean of the futures, by what was written down then"),
    N("forecast_kg_p10", "kg", "one future in ten lay lower"), N("forecast_kg_p50", "kg", "half of the futures lay lower"),
    N("forecast_kg_p90", "kg", "one future in ten lay higher"), N("naive_last_kg", "kg", "as in the last seven days told by then"),
    N("naive_mean3_kg", "kg", "as in the mean week of the last 21 days told by then"),
    N("crps_kg", "kg", "continuous ranked probability score of the futures; 0 is best"),
    N("crps_naive_kg", "kg", "the same of the better naive forecast with its spread"),
};
static const struct vh_column learned[] = {
    T("planting", "which planting; empty: the house"),
    T("name", "what was unknown: a factor on a mechanism of the plant, or what the thermometer is off by"),
    T("unit", "1 for a factor on the book's number, K for log_offset_c"),
    N("before", "1", "as the book has it: mean of the futures before the records were looked at; in `unit`"),
    N("before_low", "1", "one future in ten is below it"), N("before_high", "1", "one future in ten is above it"),
    N("after", "1", "what the records make of it: mean of the futures after"),
    N("after_low", "1", "one future in ten is below it"), N("after_high", "1", "one future in ten is above it"),
    T("told_apart", "yes; or no, with which others it may be mistaken, or why the records do not tell"),
    T("seen_in", "item of the records that tells most of it"), I("entries", "how many of them"),
};

static const struct vh_column grades[] = {
    T("planting", "which planting"), T("grade", "size grade it is sold by"), N("from_g", "g", "least mass of a fruit in it"),
};
static const struct vh_column houses[] = {
    T("scenario", "which house: the name of its result folder"), T("planting", "which planting; empty: the house was not computed"),
    N("kg_m2", "kg m-2", "mass picked a square metre of floor, whole season; the mean run"),
    N("kg_m2_p10", "kg m-2", "one future in ten lies lower"), N("kg_m2_p50", "kg m-2", "half of the futures lie lower"),
    N("kg_m2_p90", "kg m-2", "one future in ten lies higher"),
    N("kg_per_hour", "kg h-1", "mass picked over the hours of the planting's tasks, whole season; rounds of the house not counted"),
    N("said_kg", "kg", "promised a week before the market days gone by, all of them; empty: no promise was made then, or it sells by the piece"),
    N("picked_kg", "kg", "mass that the records say was picked in the weeks that end with those days, each pick once; empty as the promise is"),
    N("said_fruits", "1", "promised likewise by the piece; empty: no promise was made then, or it sells by weight"),
    N("picked_fruits", "1", "fruits that the records say were picked in the weeks that end with those days, each pick once; empty as the promise is"),
    N("recorded_kg", "kg", "mass that the records say was picked in the season; empty: no entry"),
    N("recorded_fruits", "1", "fruits that the records say were picked in the season; empty: no entry"),
    T("worst_warning", "what is foreseen that must be acted on first; empty: nothing"),
    T("status", "done; else what was wrong, or could not be, and where"),
};

static const struct table {
    const char *name, *row;
    bool is_file;
    const struct vh_column *column;
    size_t columns;
    const char *keys, *fixed, *days, *zero, *promise, *chance; /* blanks between names */
    const char *plan; /* numbers of the mean run, beside the range of the futures: one list of work */
    bool of_all; /* its rows are of all futures already */
}
list[VH_RESULT_TABLES] = {
    [VH_TABLE_PICKS] = { "picks", "a pick day of a planting; one of less than half a fruit has none, so weeks.csv may have a little more", true, picks, COUNT(picks),
        .fixed = "picked_kg keep_low_c keep_high_c lost_share picked_fruits thrown_kg" },
    [VH_TABLE_WEEKS] = { "weeks", "an ISO week of a planting", true, weeks, COUNT(weeks),
        .fixed = "picked_kg picked_fruits" },
    [VH_TABLE_MARKET_DAYS] = { "market_days", "a grade of a planting on a market day", true, market_days, COUNT(market_days),
        .fixed = "orders_kg orders_fruits", .promise = "promise_kg promise_fruits", .chance = "short_chance",
        .zero = "kg fruits promise_kg promise_fruits beyond_sales_kg lost_in_store_kg" },
    [VH_TABLE_GAPS] = { "gaps", "market days below what is wanted that one batch could fill", true, gaps, COUNT(gaps),
        .keys = "crop from until", .fixed = "short_kg short_fruits short_share plants plants_p10 plants_p90" },
    [VH_TABLE_SAID] = { "said", "a promise as it was made", true, said, COUNT(said),
        .keys = "said_on date planting grade", .fixed = "promise_kg kg_p10 kg_p90" },
    [VH_TABLE_SAID_FRUITS] = { "said_fruits", "a promise by the piece as it was made", true, said_fruits, COUNT(said_fruits),
        .keys = "said_on date planting grade", .fixed = "promise_fruits fruits_p10 fruits_p90" },
    [VH_TABLE_TRUSSES] = { "trusses", "a truss or node of a planting", true, trusses, COUNT(trusses),
        .keys = "planting truss", .days = "first_flower last_flower take_off_on first_ripe last_ripe",
        .plan = "take_off take_off_on" },
    [VH_TABLE_STEM] = { "stem", "a day of a planting", true, stem, COUNT(stem), .keys = NULL },
    [VH_TABLE_LOWERING] = { "lowering", "a lowering visit of a planting", true, lowering, COUNT(lowering), .keys = NULL },
    [VH_TABLE_TASKS] = { "tasks", "a task of a planting on a day", true, tasks, COUNT(tasks),
        .fixed = "may_wait_d cost_of_waiting done", .zero = "count minutes", .plan = "count minutes" },
    [VH_TABLE_HOURS] = { "hours", "a task in an ISO week", true, hours, COUNT(hours),
        .zero = "hours" },
    [VH_TABLE_SUPPLIES] = { "supplies", "an item in an ISO week", true, supplies, COUNT(supplies),
        .days = "runs_out order_by" },
    [VH_TABLE_CLIMATE_DAYS] = { "climate_days", "a day", true, climate_days, COUNT(climate_days),
        .fixed = "co2_ppm hours_logged hours_outlook" },
    [VH_TABLE_PLANT_DAYS] = { "plant_days", "a day of a planting", true, plant_days, COUNT(plant_days) },
    [VH_TABLE_WARNINGS] = { "warnings", "a warning", true, warnings, COUNT(warnings), .keys = NULL },
    [VH_TABLE_SUMMARY] = { "summary", "a planting", false, summary, COUNT(summary),
        .keys = "planting", .days = "first_pick",
        .fixed = "sells_kg sells_fruits pack_g pack_fruits peak_kg peak_fruits fruit_g_low pick_from_g small_below_g trusses_made wire_cm laid_height_cm fruit_floor_cm "
                 "truss_hang_cm plants_apart_cm flower_below_head_cm container_cm picking_weeks reach_low_kg_m2 "
                 "reach_high_kg_m2 reach_high_kg_plant" },
    [VH_TABLE_HOUSE] = { "house", "the house", false, house, COUNT(house),
        .fixed = "hours_logged hours_outlook light_factor said_near_d members_least" },
    [VH_TABLE_GRADES] = { "grades", "a size grade of a planting", false, grades, COUNT(grades),
        .keys = "planting grade", .fixed = "from_g" },
    [VH_TABLE_LEARNED] = { "learned", "a factor of the house or of a planting", true, learned, COUNT(learned),
        .fixed = "before before_low before_high after after_low after_high" },
    [VH_TABLE_PLANT_CHECK] = { "plant_check", "a count on a few stems", false, plant_check, COUNT(plant_check),
        .fixed = "expect low high" },
    [VH_TABLE_TO_MEASURE] = { "to_measure", "a count that could be made today", true, to_measure, COUNT(to_measure),
        .fixed = "expect kg kg_low kg_high narrows", .of_all = true },
    [VH_TABLE_CHOICES] = { "choices", "a choice of a planting", true, choices, COUNT(choices), .of_all = true },
    [VH_TABLE_FOUND] = { "found", "a search in a planting", false, found, COUNT(found), .of_all = true },
    [VH_TABLE_HOUSES] = { "houses", "a planting of a house", true, houses, COUNT(houses), .of_all = true },
    [VH_TABLE_HINDCAST] = { "hindcast", "a week of a planting as it was forecast", true, hindcast, COUNT(hindcast), .of_all = true },
    [VH_TABLE_COMPARED] = { "compared", "the comparison", false, compared, COUNT(compared), .of_all = true },
};

struct vh_table *vh_result_table_new(enum vh_result_table_id id)
{
    return vh_table_create(list[id].name, list[id].row, list[id].is_file, list[id].column, list[id].columns);
}

struct vh_table *vh_result_table_like(enum vh_result_table_id id, const struct vh_column *columns, size_t count)
{
    return vh_table_create(list[id].name, list[id].row, list[id].is_file, columns, count);
}

const struct vh_column *vh_result_columns(enum vh_result_table_id id, size_t *count)
{
    *count = list[id].columns;
    return list[id].column;
}

static bool is_listed(const char *names, const char *name)
{
    const size_t n = strlen(name);

    for (const char *at = names; at && (at = strstr(at, name)); at++)
        if ((at == names || at[-1] == ' ') && (at[n] == ' ' || at[n] == 0))
            return true;
    return false;
}

static bool is_key(const struct table *t, size_t column)
{
    if (t->keys)
        return is_listed(t->keys, t->column[column].name);
    for (size_t c = 0; c <= column; c++)
        if (t->column[c].kind == VH_CELL_NUMBER)
            return false;
    return true;
}

enum vh_column_role vh_result_column_role(enum vh_result_table_id id, size_t column)
{
    const struct table *t = &list[id];
    const struct vh_column *c = &t->column[column];

    if (is_key(t, column))
        return VH_COLUMN_KEY;
    if (t->of_all)
        return VH_COLUMN_FIXED;
    if (c->kind == VH_CELL_DATE && is_listed(t->days, c->name))
        return VH_COLUMN_DAY;
    if (is_listed(t->promise, c->name))
        return VH_COLUMN_PROMISE;
    if (is_listed(t->chance, c->name))
        return VH_COLUMN_CHANCE;
    return c->kind == VH_CELL_NUMBER && !is_listed(t->fixed, c->name) ? VH_COLUMN_VALUE : VH_COLUMN_FIXED;
}

bool vh_column_is_moved(enum vh_column_role role)
{
    return role != VH_COLUMN_KEY && role != VH_COLUMN_FIXED;
}

bool vh_result_is_moved(enum vh_result_table_id id)
{
    for (size_t c = 0; c < list[id].columns; c++) {
        if (vh_column_is_moved(vh_result_column_role(id, c)))
            return true;
    }
    return false;
}

bool vh_result_is_planned(enum vh_result_table_id id, size_t column)
{
    return is_listed(list[id].plan, list[id].column[column].name);
}

enum vh_row_rule vh_result_row_rule(enum vh_result_table_id id, const char *task)
{
    if (id == VH_TABLE_HOURS)
        return VH_ROW_OF_EITHER;
    if (id != VH_TABLE_TASKS || strcmp(task, vh_task_name(VH_TASK_PICK)) == 0)
        return VH_ROW_OF_FUTURES;
    return strcmp(task, vh_task_name(VH_TASK_WALK)) == 0 || strcmp(task, vh_task_name(VH_TASK_CLEAN)) == 0 ? VH_ROW_OF_EITHER : VH_ROW_OF_PLAN;
}

bool vh_result_absent_is_zero(enum vh_result_table_id id, size_t column)
{
    return is_listed(list[id].zero, list[id].column[column].name);
}
