#include "vh_word_list.h"

#include <stddef.h>
#include <string.h>

// clang-format off
const struct vh_command_words vh_command_list[] = {
    { "", VH_COMMAND_BARE, "",
      "where scenario.toml lies: vinehand week" },
    { "start", VH_COMMAND_START, "FOLDER",
      "a first scenario from eight questions, or from the options below; never overwrites" },
    { "check", VH_COMMAND_CHECK, "[SCENARIO]",
      "read everything, say what is wrong or doubtful, list the defaults in use; writes nothing" },
    { "forecast", VH_COMMAND_FORECAST, "[SCENARIO]",
      "the season: market days, picks, trusses, stem, work, supplies, climate, the report" },
    { "week", VH_COMMAND_WEEK, "[SCENARIO]",
      "the coming seven days on one screen: what to do first, what will be ripe, what to order" },
    { "note", VH_COMMAND_NOTE, "[SCENARIO] PLANTING ITEM VALUE",
      "add one checked line to the records, as in vinehand note slicers picked_kg 14.2; vinehand"
      " explain items lists what may stand for ITEM" },
    { "compare", VH_COMMAND_COMPARE, "[SCENARIO]",
      "the same season under each choice of its [compare] table: fruits, money, hours, in the"
      " same futures" },
    { "learn", VH_COMMAND_LEARN, "[SCENARIO]",
      "what the records say of the house, and what they cannot tell yet; forecast, week and"
      " compare learn by themselves" },
    { "explain", VH_COMMAND_EXPLAIN, "NAME",
      "what a parameter, a key of the scenario, an item of the records, a column, a crop or a"
      " source is: value, unit, range, source, where it is used" },
    { "explain", VH_COMMAND_EXPLAIN, "[SCENARIO] PLANTING TRUSS | [SCENARIO] DATE",
      "how a truss, or a market day, came about, step by step, each with its equation and"
      " source" },
    { "houses", VH_COMMAND_HOUSES, "LIST",
      "many scenarios side by side, one result folder each and houses.csv over all. LIST: a"
      " folder whose folders each hold a scenario.toml, or a file with a scenario a line. What is"
      " there already from the same inputs is left alone" },
    { NULL, VH_COMMAND_BARE, NULL, NULL },
};

const struct vh_option_words vh_option_list[VH_OPTIONS + 1] = {
    [VH_OPTION_OUT] = { "--out", "DIR", "out", NULL, NULL,
      "where results go; default: out beside the scenario file. The folder is replaced whole;"
      " files of yours in it stay" },
    [VH_OPTION_TODAY] = { "--today", "DATE", "2026-07-14", NULL, NULL,
      "the line between past and future, as in 2026-07-14; default: the system date" },
    [VH_OPTION_MEMBERS] = { "--members", "N", "1", NULL, NULL,
      "futures to compute, for ranges; default: what the scenario says, else 400; 1: mean values"
      " only" },
    [VH_OPTION_DRAW] = { "--draw", "N", "1", NULL, NULL,
      "which random weathers; default: the scenario's, else 1" },
    [VH_OPTION_THREADS] = { "--threads", "N", "2", NULL, NULL,
      "processors to use; 0 (the default): all" },
    [VH_OPTION_UNITS] = { "--units", "metric|us", "us", NULL, "metric us",
      "of what is printed here; files stay metric; default: what the scenario says" },
    [VH_OPTION_PARAMS] = { "--params", "DIR", "params", NULL, NULL,
      "another folder of parameters" },
    [VH_OPTION_SAVE] = { "--save", "FILE", "kept.csv", "learn", NULL,
      "what was learnt, for next season's scenario" },
    [VH_OPTION_DATE] = { "--date", "DATE", "2026-07-14", "note", NULL,
      "its day: 2026-07-14, or 14 July; default: today" },
    [VH_OPTION_TRUSS] = { "--truss", "N", "12", "note", NULL,
      "which truss" },
    [VH_OPTION_OF] = { "--of", "N", "5", "note", NULL,
      "how many stems, or fruits, were looked at" },
    [VH_OPTION_NO_RECORDS] = { "--no-records", NULL, NULL, NULL, NULL,
      "leave the records unread" },
    [VH_OPTION_QUIET] = { "--quiet", NULL, NULL, NULL, NULL,
      "print nothing but errors" },
    [VH_OPTION_HELP] = { "--help", NULL, NULL, NULL, NULL,
      "this text" },
    [VH_OPTION_VERSION] = { "--version", NULL, NULL, NULL, NULL,
      "name and version" },
    [VH_OPTION_LATITUDE] = { "--latitude", "DEGREES", "44.5", "start", NULL,
      "how far north: 44.5, or 44 30 N; 33 S" },
    [VH_OPTION_HEAT] = { "--heat", "DEGREES", "13C", "start", "none",
      "what heating holds: 55F, 13C, or none" },
    [VH_OPTION_COVER] = { "--cover", "COVER", "film-single", "start",
      "film-single film-double glass polycarbonate",
      "film-single, film-double, glass or polycarbonate" },
    [VH_OPTION_WIRE_HEIGHT] = { "--wire-height", "LENGTH", "2.2m", "start", NULL,
      "how high the strings hang: 7ft, or 2.2m" },
    [VH_OPTION_CROP] = { "--crop", "CROP", "tomato-large", "start", NULL,
      "what grows, as in tomato-large" },
    [VH_OPTION_PLANTS] = { "--plants", "N", "48", "start", NULL,
      "how many" },
    [VH_OPTION_SET_OUT] = { "--set-out", "DATE", "2026-05-15", "start", NULL,
      "when they go into the house: 2026-05-15, or 15 May" },
    [VH_OPTION_MARKET_DAY] = { "--market-day", "DAYS", "sat", "start", NULL,
      "when you sell: sat, or wed,sat" },
};

const struct vh_exit_words vh_exit_list[] = {
    { VH_EXIT_DONE, "done" },
    { VH_EXIT_COULD_NOT, "could not (memory, disk, a folder that cannot be written)" },
    { VH_EXIT_WRONG, "the input or the command line is wrong" },
    { VH_EXIT_SIGNAL + 2, "stopped by Ctrl-C" },
    { 0, NULL },
};
// clang-format on

void vh_commands_said(char text[VH_SAY_TEXT])
{
    const struct vh_command_words *last = NULL;

    text[0] = 0;
    for (const struct vh_command_words *c = vh_command_list; c->word; c++) {
        const bool stands_twice = c > vh_command_list && strcmp(c[-1].word, c->word) == 0;
        if (!c->word[0] || stands_twice)
            continue;
        if (last)
            vh_say_add(text, "%s%s", text[0] ? ", " : "", last->word);
        last = c;
    }
    if (last)
        vh_say_add(text, "%s%s", text[0] ? " and " : "", last->word);
}
