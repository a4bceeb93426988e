#include "vh_command.h"

#include <stdio.h>
#include <string.h>

#include "vh_word_list.h"
#include "vinehand.h"

enum { COMMAND_COLUMN = 33, OPTION_COLUMN = 23, HEAD_ROOM = 120 };

static void print_commands(FILE *to)
{
    char head[HEAD_ROOM];

    for (const struct vh_command_words *c = vh_command_list; c->word; c++) {
        snprintf(head, sizeof head, c->word[0] ? "  vinehand %-8s %s" : "  vinehand%s%s", c->word,
                 c->operands);
        if (strlen(head) >= COMMAND_COLUMN) {
            fprintf(to, "%s\n", head);
            head[0] = 0;
        }
        vh_say_block(to, head, COMMAND_COLUMN, c->says);
    }
}

static void print_options(FILE *to, bool of_start)
{
    for (const struct vh_option_words *o = vh_option_list; o->name; o++) {
        char head[HEAD_ROOM], text[VH_SAY_TEXT] = "";
        const bool is_of_start = o->of && strcmp(o->of, "start") == 0;

        if (is_of_start != of_start)
            continue;
        snprintf(head, sizeof head, "  %s%s%s", o->name, o->value ? " " : "",
                 o->value ? o->value : "");
        vh_say_add(text, o->of && !of_start ? "of %s: %s" : "%s%s", o->of && !of_start ? o->of : "",
                   o->says);
        vh_say_block(to, head, OPTION_COLUMN, text);
    }
}

void vh_help_print(FILE *to)
{
    fputs("vinehand - what trellised vines will give, and when\n\n", to);
    print_commands(to);
    fputs("\n"
          "SCENARIO is a file, a folder that holds scenario.toml, or - for standard input;\n"
          "without it the current folder.\n"
          "\n"
          "Options\n",
          to);
    print_options(to, false);
    vh_say_block(to, "  --", OPTION_COLUMN, "ends the options");
    fputs("Options of start (no questions then; either system of units may be typed)\n", to);
    print_options(to, true);
    fputs("\n"
          "Standard output: the summary. Standard error: warnings, errors, progress.\n"
          "Exit:\n",
          to);
    for (const struct vh_exit_words *e = vh_exit_list; e->says; e++)
        fprintf(to, "  %3d  %s\n", e->code, e->says);
    fputs("\n"
          "US words: a truss is a cluster, to set out is to transplant, an aubergine is an\n"
          "eggplant (crop names may begin with eggplant-).\n"
          "\n"
          "A model's answer, not advice: local rules, labels, licensed advice first.\n"
          "Free software under the GNU GPL, version 3 or later; no warranty.\n",
          to);
}

enum vh_exit vh_command_help(void)
{
    vh_help_print(stdout);
    return VH_EXIT_DONE;
}

enum vh_exit vh_command_version(void)
{
    printf("vinehand %s\n"
           "Licence: GNU GPL version 3 or later. No warranty.\n",
           vh_version());
    return VH_EXIT_DONE;
}
