/* vh_word_list.h - every command and option there is, once: the reader of the command line, --help,
 * the manual pages and the completions all take them from here. */
#ifndef VH_WORD_LIST_H
#define VH_WORD_LIST_H

#include <stdio.h>

#include "vh_arguments.h"

enum vh_option {
    VH_OPTION_OUT,
    VH_OPTION_TODAY,
    VH_OPTION_MEMBERS,
    VH_OPTION_DRAW,
    VH_OPTION_THREADS,
    VH_OPTION_UNITS,
    VH_OPTION_PARAMS,
    VH_OPTION_SAVE,
    VH_OPTION_DATE,
    VH_OPTION_TRUSS,
    VH_OPTION_OF,
    VH_OPTION_NO_RECORDS,
    VH_OPTION_QUIET,
    VH_OPTION_HELP,
    VH_OPTION_VERSION,
    VH_OPTION_LATITUDE, /* from here on in the order of enum vh_start_option */
    VH_OPTION_HEAT,
    VH_OPTION_COVER,
    VH_OPTION_WIRE_HEIGHT,
    VH_OPTION_CROP,
    VH_OPTION_PLANTS,
    VH_OPTION_SET_OUT,
    VH_OPTION_MARKET_DAY,
    VH_OPTIONS
};

/* One form of a command; a command with two forms stands twice. */
struct vh_command_words {
    const char *word; /* "" for the program called alone */
    enum vh_command_name name;
    const char *operands; /* "[SCENARIO] DATE" */
    const char *says;     /* what it is for, without a full stop */
};

struct vh_option_words {
    const char *name;    /* "--today" */
    const char *value;   /* what follows: "DATE"; NULL: nothing does */
    const char *example; /* "2026-07-14"; NULL where no value follows */
    const char *of;      /* the only command that takes it; NULL: all do */
    const char *choices; /* words it may be, parted by blanks; NULL: any */
    const char *says;
};

/* How the program can end. */
struct vh_exit_words {
    int code;
    const char *says;
};

extern const struct vh_command_words vh_command_list[];             /* ended by a NULL word */
extern const struct vh_option_words vh_option_list[VH_OPTIONS + 1]; /* ended by a NULL name */
extern const struct vh_exit_words vh_exit_list[];                   /* ended by a NULL text */

/* "check, forecast and note": the words of the commands. */
void vh_commands_said(char text[VH_SAY_TEXT]);
/* All of --help, 80 columns. */
void vh_help_print(FILE *to);

#endif
