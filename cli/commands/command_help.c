#include "vh_command.h"

#include <stdio.h>

#include "vinehand.h"

static const char help_text[] =
    "vinehand - what trellised vines will give, and when\n"
    "\n"
    "  vinehand                       where scenario.toml lies: vinehand week\n"
    "  vinehand check    [SCENARIO]   read everything, say what is wrong or doubtful,\n"
    "                                 list the defaults in use; writes nothing\n"
    "  vinehand forecast [SCENARIO]   the season: picks, weeks, trusses, climate\n"
    "\n"
    "  vinehand note     [SCENARIO] PLANTING ITEM VALUE\n"
    "                                 add one checked line to the records, as in\n"
    "                                 vinehand note slicers picked_kg 14.2\n"
    "\n"
    "  vinehand explain  NAME         what a parameter, a key of the scenario, a\n"
    "                                 column, a crop or a source is: value, unit,\n"
    "                                 range, source, where it is used\n"
    "  vinehand explain  [SCENARIO] PLANTING TRUSS | [SCENARIO] DATE\n"
    "                                 how a truss, or a market day, came about,\n"
    "                                 step by step, each with its equation and source\n"
    "\n"
    "  vinehand week     [SCENARIO]   the coming seven days on one screen: what to do\n"
    "                                 first, what will be ripe, what to order\n"
    "  vinehand compare  [SCENARIO]   the same season under each choice of its\n"
    "                                 [compare] table: fruits, money, hours, in the\n"
    "                                 same futures\n"
    "  vinehand learn    [SCENARIO]   what the records say of the house, and what\n"
    "                                 they cannot tell yet; forecast, week and\n"
    "                                 compare learn by themselves\n"
    "  vinehand start    FOLDER       a first scenario from eight questions, or from\n"
    "                                 the options below; never overwrites\n"
    "\n"
    "To come, not built yet: houses\n"
    "\n"
    "SCENARIO is a file, a folder that holds scenario.toml, or - for standard input;\n"
    "without it the current folder.\n"
    "\n"
    "Options\n"
    "  --out DIR            where results go; default: out beside the scenario file.\n"
    "                       The folder is replaced whole; files of yours in it stay\n"
    "  --today DATE         the line between past and future, as in 2026-07-14;\n"
    "                       default: the system date\n"
    "  --members N          futures to compute, for ranges; default: what the\n"
    "                       scenario says, else 400; 1: mean values only\n"
    "  --draw N             which random weathers; default: the scenario's, else 1\n"
    "  --threads N          processors to use; 0 (the default): all\n"
    "  --units metric|us    of what is printed here; files stay metric\n"
    "  --params DIR         another folder of parameters\n"
    "  --save FILE          of learn: what was learnt, for next season's scenario\n"
    "  --date DATE          of a note: its day; default: today\n"
    "  --truss N, --of N    of a note: which truss; how many stems were looked at\n"
    "  --no-records         leave the records unread\n"
    "  --quiet              print nothing but errors\n"
    "  --help, --version\n"
    "Options of start (no questions then; either system of units may be typed)\n"
    "  --latitude 44.5      or 44 30 N, 33 S        --heat 55F   or 13C, none\n"
    "  --cover film-single  or film-double, glass,  --wire-height 7ft   or 2.2m\n"
    "                       polycarbonate           --crop tomato-large\n"
    "  --set-out 2026-05-15 or 15 May               --plants 48\n"
    "  --market-day sat     or wed,sat\n"
    "  --                   ends the options\n"
    "\n"
    "Standard output: the summary. Standard error: warnings, errors, progress.\n"
    "Exit: 0 done; 1 could not (memory, disk, a folder that cannot be written);\n"
    "2 the input or the command line is wrong; 130 stopped by Ctrl-C.\n"
    "\n"
    "US words: a truss is a cluster, to set out is to transplant, an aubergine is an\n"
    "eggplant (crop names may begin with eggplant-).\n"
    "\n"
    "A model's answer, not advice: local rules, labels, licensed advice first.\n"
    "Free software under the GNU GPL, version 3 or later; no warranty.\n";

enum vh_exit vh_command_help(void)
{
    fputs(help_text, stdout);
    return VH_EXIT_DONE;
}

enum vh_exit vh_command_version(void)
{
    printf("vinehand %s\n"
           "Licence: GNU GPL version 3 or later. No warranty.\n",
           vh_version());
    return VH_EXIT_DONE;
}
