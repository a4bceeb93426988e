/* vinehand(1) */
#include "vh_pages.h"

#include <string.h>

#include "vh_word_list.h"

/* "[SCENARIO] DATE" as macros; a "|" begins the next form. */
static void put_operands(FILE *to, const char *word, const char *operands)
{
    while (*operands) {
        const size_t n = strcspn(operands, " ");
        if (operands[0] == '|')
            fprintf(to, ".Nm\n.Ic %s\n.Op Ar option ...\n", word);
        else if (operands[0] == '[')
            fprintf(to, ".Op Ar %.*s\n", (int)n - 2, operands + 1);
        else
            fprintf(to, ".Ar %.*s\n", (int)n, operands);
        operands += n;
        operands += strspn(operands, " ");
    }
}

static void put_synopsis(FILE *to)
{
    fputs(".Sh SYNOPSIS\n", to);
    for (const struct vh_command_words *c = vh_command_list; c->word; c++) {
        fputs(".Nm\n", to);
        if (c->word[0])
            fprintf(to, ".Ic %s\n", c->word);
        fputs(".Op Ar option ...\n", to);
        put_operands(to, c->word, c->operands);
    }
}

static void put_commands(FILE *to)
{
    fputs(".Bl -tag -width Ds\n", to);
    for (const struct vh_command_words *c = vh_command_list; c->word; c++) {
        if (!c->word[0])
            fputs(".It Nm\n", to);
        else
            fprintf(to, ".It Ic %s Ar %s\n", c->word, c->operands);
        vh_page_text(to, c->says);
    }
    fputs(".El\n", to);
}

static void put_options(FILE *to, bool of_start)
{
    fputs(".Bl -tag -width Ds\n", to);
    for (const struct vh_option_words *o = vh_option_list; o->name; o++) {
        char text[VH_SAY_TEXT] = "";
        const bool is_of_start = o->of && strcmp(o->of, "start") == 0;
        if (is_of_start != of_start)
            continue;
        fprintf(to, o->value ? ".It Fl Fl %s Ar %s\n" : ".It Fl Fl %s\n", o->name + 2, o->value);
        vh_say_add(text, o->of && !of_start ? "Of %s: %s" : "%s%s", o->of && !of_start ? o->of : "",
                   o->says);
        vh_page_text(to, text);
    }
    if (!of_start)
        fputs(".It Fl Fl\nends the options\n", to);
    fputs(".El\n", to);
}

static const char what_it_does[] =
    "Vinehand forecasts the yield and the work of trellised fruiting vines: tomato, cucumber,"
    " pepper and aubergine. It reads a scenario, a text file about one house and its plantings,"
    " and the tables that the scenario names: a log of temperatures, records of what was picked."
    " It prints a summary and writes a folder of results.";

static const char what_a_scenario_is[] =
    "SCENARIO is a file, a folder that holds scenario.toml, or - for standard input; without it"
    " the current folder. Its keys are in";

static const char what_start_takes[] =
    "Options of start; with any of them it asks no questions. Either system of units may be typed.";

static const char what_is_written[] =
    "The results: CSV files whose columns, units and meanings stand in datapackage.json, a report"
    " and a work sheet to print, a calendar. The folder is exchanged whole or not at all.";

static const char what_is_read_of_the_environment[] =
    "Looked at for the letters that the terminal can show, never for dates or numbers.";

static const char examples[] = "A first scenario, a look at it, the season, the week:\n"
                               ".Bd -literal -offset indent\n"
                               "vinehand start my-house\n"
                               "vinehand check my-house\n"
                               "vinehand forecast my-house\n"
                               "vinehand week my-house\n"
                               ".Ed\n"
                               ".Pp\n"
                               "One more record, and what a number of the model is:\n"
                               ".Bd -literal -offset indent\n"
                               "vinehand note my-house slicers picked_kg 14.2\n"
                               "vinehand explain leaf.potential_area_m2\n"
                               ".Ed\n";

void vh_page_program(FILE *to, const char *date)
{
    vh_page_head(to, date, "VINEHAND", 1, "vinehand", "what trellised vines will give, and when");
    put_synopsis(to);
    fputs(".Sh DESCRIPTION\n", to);
    vh_page_text(to, what_it_does);
    put_commands(to);
    fputs(".Pp\n", to);
    vh_page_text(to, what_a_scenario_is);
    fputs(".Xr vinehand-scenario 5 .\n.Sh OPTIONS\n", to);
    put_options(to, false);
    vh_page_text(to, what_start_takes);
    put_options(to, true);
    fputs(".Sh ENVIRONMENT\n.Bl -tag -width Ds\n.It Ev LC_ALL , LC_CTYPE , LANG\n", to);
    vh_page_text(to, what_is_read_of_the_environment);
    fputs(".El\n.Sh FILES\n.Bl -tag -width Ds\n.It Pa out\n", to);
    vh_page_text(to, what_is_written);
    fputs(".El\n.Sh EXIT STATUS\n.Bl -tag -width Ds\n", to);
    for (const struct vh_exit_words *e = vh_exit_list; e->says; e++) {
        fprintf(to, ".It %d\n", e->code);
        vh_page_text(to, e->says);
    }
    fprintf(to, ".El\n.Sh EXAMPLES\n%s.Sh SEE ALSO\n.Xr vinehand-scenario 5\n.Sh CAVEATS\n",
            examples);
    vh_page_text(to, "A model's answer, not advice: local rules, labels and licensed advice come"
                     " first.");
}
