/* vh_arguments.h - what the command line asks for. */
#ifndef VH_ARGUMENTS_H
#define VH_ARGUMENTS_H

#include <stdbool.h>
#include <stdint.h>

#include "vh_say.h"

/* How the program ends, for the shell. */
enum vh_exit { VH_EXIT_DONE = 0, VH_EXIT_COULD_NOT = 1, VH_EXIT_WRONG = 2, VH_EXIT_SIGNAL = 128 };

enum vh_command_name {
    VH_COMMAND_BARE,
    VH_COMMAND_CHECK,
    VH_COMMAND_FORECAST,
    VH_COMMAND_EXPLAIN,
    VH_COMMAND_LEARN,
    VH_COMMAND_NOTE,
    VH_COMMAND_START,
    VH_COMMAND_WEEK,
    VH_COMMAND_COMPARE,
    VH_COMMAND_HOUSES,
    VH_COMMAND_HELP,
    VH_COMMAND_VERSION
};

/* note PLANTING ITEM VALUE */
struct vh_note_arguments {
    const char *planting, *item, *value;
    const char *date; /* as typed; NULL: today */
    int truss, of;    /* 0: not given */
};

/* Answers of `start` as options. */
enum vh_start_option {
    VH_START_OPTION_LATITUDE,
    VH_START_OPTION_HEAT,
    VH_START_OPTION_COVER,
    VH_START_OPTION_WIRE,
    VH_START_OPTION_CROP,
    VH_START_OPTION_PLANTS,
    VH_START_OPTION_SET_OUT,
    VH_START_OPTION_MARKET,
    VH_START_OPTIONS
};

/* explain [SCENARIO] PLANTING TRUSS, or [SCENARIO] DATE; else a name. */
struct vh_explain_arguments {
    const char *planting; /* NULL: no truss is asked for */
    int truss;
    bool has_day;
    int64_t day; /* of a market day */
};

struct vh_arguments {
    const char *program; /* as it was called; NULL: not known */
    enum vh_command_name command;
    const char *scenario; /* NULL: the current folder; houses: the list */
    const char *name;     /* explain: what is to be explained; start: the new folder */
    struct vh_note_arguments note;
    struct vh_explain_arguments explain;
    const char *save;   /* learn: file for what was learnt; NULL: none */
    const char *out;    /* NULL: folder `out` beside the scenario */
    const char *params; /* NULL: the program's own */
    bool has_today;
    int64_t today; /* day number */
    int members;   /* 0: not given */
    int threads;
    uint64_t draw;
    enum vh_say_units units;
    bool has_units;                      /* given, not the default */
    const char *start[VH_START_OPTIONS]; /* as typed; NULL: not given */
    bool no_records, quiet;
};

/* Fills *a. VH_EXIT_WRONG after one line on standard error that says what is wrong and what would
 * be right. */
enum vh_exit vh_arguments_read(int count, char **words, struct vh_arguments *a);

#endif
