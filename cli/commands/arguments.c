#include "vh_arguments.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "vh_asked_words.h"
#include "vh_word_list.h"
#include "vinehand.h"

enum vh_exit vh_arguments_wrong(const char *format, ...)
{
    char text[1200];
    va_list arguments;

    va_start(arguments, format);
    vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    fputs("vinehand: ", stderr);
    vh_say_safely(stderr, text);
    fputc('\n', stderr);
    return VH_EXIT_WRONG;
}

static int place_of_option(const char *word, size_t n)
{
    for (int i = 0; i < VH_OPTIONS; i++)
        if (strlen(vh_option_list[i].name) == n && strncmp(word, vh_option_list[i].name, n) == 0)
            return i;
    return -1;
}

bool vh_arguments_whole(const char *text, uint64_t low, uint64_t high, uint64_t *value)
{
    uint64_t v = 0;

    if (!*text)
        return false;
    for (; *text; text++) {
        if (*text < '0' || *text > '9' || v > (UINT64_MAX - 9) / 10)
            return false;
        v = v * 10 + (uint64_t)(*text - '0');
    }
    *value = v;
    return v >= low && v <= high;
}

enum { MOST_MEMBERS = 100000, MOST_THREADS = 1024, MOST_TRUSS = 1000, MOST_STEMS = 10000 };

static enum vh_exit read_number(enum vh_option option, const char *text, struct vh_arguments *a)
{
    uint64_t v = 0;

    if (option == VH_OPTION_MEMBERS) {
        if (!vh_arguments_whole(text, 1, MOST_MEMBERS, &v))
            return vh_arguments_wrong("--members %s is no whole number from 1 to %d", text,
                                      MOST_MEMBERS);
        a->members = (int)v;
    } else if (option == VH_OPTION_THREADS) {
        if (!vh_arguments_whole(text, 0, MOST_THREADS, &v))
            return vh_arguments_wrong("--threads %s is no whole number from 0 (all) to %d", text,
                                      MOST_THREADS);
        a->threads = (int)v;
    } else if (option == VH_OPTION_TRUSS || option == VH_OPTION_OF) {
        const uint64_t most = option == VH_OPTION_TRUSS ? MOST_TRUSS : MOST_STEMS;
        if (!vh_arguments_whole(text, 1, most, &v))
            return vh_arguments_wrong("%s %s is no whole number from 1 to %d",
                                      vh_option_list[option].name, text, (int)most);
        *(option == VH_OPTION_TRUSS ? &a->note.truss : &a->note.of) = (int)v;
    } else if (!vh_arguments_whole(text, 0, INT64_MAX, &a->draw)) {
        return vh_arguments_wrong("--draw %s is no whole number; write digits, as in --draw 1",
                                  text);
    }
    return VH_EXIT_DONE;
}

static enum vh_exit read_value(enum vh_option option, const char *text, struct vh_arguments *a)
{
    if (option == VH_OPTION_OUT) {
        a->out = text;
    } else if (option == VH_OPTION_PARAMS) {
        a->params = text;
    } else if (option == VH_OPTION_SAVE) {
        a->save = text;
    } else if (option == VH_OPTION_TODAY) {
        if (vh_date_parse(text, &a->today) != VH_OK)
            return vh_arguments_wrong(
                "--today %s is no date; write year-month-day, as in --today 2026-07-14", text);
        a->has_today = true;
    } else if (option == VH_OPTION_DATE) {
        a->note.date = text;
    } else if (option == VH_OPTION_UNITS) {
        if (strcmp(text, "metric") != 0 && strcmp(text, "us") != 0)
            return vh_arguments_wrong("--units %s is not known; it is metric or us", text);
        a->has_units = true;
        a->units = strcmp(text, "us") == 0 ? VH_SAY_US : VH_SAY_METRIC;
    } else if (option >= VH_OPTION_LATITUDE) {
        a->start[option - VH_OPTION_LATITUDE] = text;
    } else {
        return read_number(option, text, a);
    }
    return VH_EXIT_DONE;
}

static enum vh_exit unknown_option(const char *word, size_t n)
{
    char name[64];
    const char *names[VH_OPTIONS + 1], *nearest;

    for (int i = 0; i <= VH_OPTIONS; i++)
        names[i] = vh_option_list[i].name;
    snprintf(name, sizeof name, "%.*s", (int)(n < sizeof name ? n : sizeof name - 1), word);
    nearest = vh_nearest_word(name, names);
    if (nearest)
        return vh_arguments_wrong("there is no option %s; did you mean %s?", name, nearest);
    return vh_arguments_wrong("there is no option %s; vinehand --help lists them "
                              "(a file name that begins with - goes behind --)",
                              name);
}

/* Reads the option at words[*at] and moves *at to its last word. */
static enum vh_exit read_option(int count, char **words, int *at, bool seen[VH_OPTIONS],
                                struct vh_arguments *a)
{
    const char *word = words[*at], *equals = strchr(word, '=');
    const size_t n = equals ? (size_t)(equals - word) : strlen(word);
    const int option = place_of_option(word, n);
    const char *value = equals ? equals + 1 : NULL;

    if (option < 0)
        return unknown_option(word, n);
    if (seen[option])
        return vh_arguments_wrong("%s is given twice; give it once", vh_option_list[option].name);
    seen[option] = true;
    if (!vh_option_list[option].example) {
        if (equals)
            return vh_arguments_wrong("%s takes no value; write %s alone",
                                      vh_option_list[option].name, vh_option_list[option].name);
        a->no_records = a->no_records || option == VH_OPTION_NO_RECORDS;
        a->quiet = a->quiet || option == VH_OPTION_QUIET;
        return VH_EXIT_DONE;
    }
    if (!value) {
        if (*at + 1 >= count || strncmp(words[*at + 1], "--", 2) == 0)
            return vh_arguments_wrong("%s wants a value, as in %s %s", vh_option_list[option].name,
                                      vh_option_list[option].name, vh_option_list[option].example);
        value = words[++*at];
    }
    if (!*value)
        return vh_arguments_wrong("%s wants a value, as in %s %s", vh_option_list[option].name,
                                  vh_option_list[option].name, vh_option_list[option].example);
    return read_value((enum vh_option)option, value, a);
}

static const char *nearest_command(const char *word)
{
    enum { MOST_WORDS = 40 };
    const char *known[MOST_WORDS + 1];
    int n = 0;

    for (const struct vh_command_words *c = vh_command_list; c->word && n < MOST_WORDS - 1; c++)
        if (c->word[0])
            known[n++] = c->word;
    known[n++] = "--help";
    known[n] = NULL;
    return vh_nearest_word(word, known);
}

static enum vh_exit read_command(const char *word, struct vh_arguments *a)
{
    const struct vh_command_words *c = vh_command_list;
    char working[VH_SAY_TEXT];
    const char *nearest;
    struct stat sb;

    while (c->word && (!c->word[0] || strcmp(c->word, word) != 0))
        c++;
    if (c->word) {
        a->command = c->name;
        return VH_EXIT_DONE;
    }
    vh_commands_said(working);
    if (strcmp(word, "-") == 0 || stat(word, &sb) == 0)
        return vh_arguments_wrong("%s is no command; did you mean vinehand week %s?", word, word);
    nearest = nearest_command(word);
    if (nearest)
        return vh_arguments_wrong("there is no command %s; did you mean %s?", word, nearest);
    return vh_arguments_wrong("there is no command %s; %s work (vinehand --help)", word, working);
}

/* What follows the command: the scenario, or the folder of a new one. */
static enum vh_exit read_name(const char *word, struct vh_arguments *a)
{
    if (a->command == VH_COMMAND_START) {
        if (!*word)
            return vh_arguments_wrong(
                "the name of the folder is empty; as in vinehand start my-house");
        if (a->name)
            return vh_arguments_wrong("%s is one name too many; one folder at a time", word);
        a->name = word;
        return VH_EXIT_DONE;
    }
    if (!*word)
        return vh_arguments_wrong("the name of the scenario is empty; name a file or a folder");
    if (a->command == VH_COMMAND_HOUSES && (a->scenario || strcmp(word, "-") == 0))
        return vh_arguments_wrong(
            "%s is no list, or one too many; houses wants one folder whose folders each "
            "hold a scenario.toml, or one file with a scenario a line",
            word);
    if (a->scenario)
        return vh_arguments_wrong("%s is one name too many; one scenario at a time", word);
    a->scenario = word;
    return VH_EXIT_DONE;
}

/* --help and --version stand above all else on the line, in the order given. */
static bool asks_only(int count, char **words, struct vh_arguments *a)
{
    for (int i = 1; i < count && strcmp(words[i], "--") != 0; i++) {
        if (strcmp(words[i], "--help") == 0 || strcmp(words[i], "-h") == 0) {
            a->command = VH_COMMAND_HELP;
            return true;
        }
        if (strcmp(words[i], "--version") == 0) {
            a->command = VH_COMMAND_VERSION;
            return true;
        }
    }
    return false;
}

/* What only shows when all words are read. */
static enum vh_exit check_together(const char *const word[VH_ASKED_WORDS], int words,
                                   const bool seen[VH_OPTIONS], struct vh_arguments *a)
{
    if (a->command == VH_COMMAND_START && !a->name)
        return vh_arguments_wrong("start wants a folder, as in vinehand start my-house");
    if (a->command == VH_COMMAND_HOUSES && !a->scenario)
        return vh_arguments_wrong(
            "houses wants a list: a folder whose folders each hold a scenario.toml, or a "
            "file with a scenario a line; as in vinehand houses scenarios");
    for (int i = 0; i < VH_START_OPTIONS && a->command != VH_COMMAND_START; i++)
        if (a->start[i])
            return vh_arguments_wrong(
                "%s belongs to vinehand start; elsewhere the scenario says it",
                vh_option_list[VH_OPTION_LATITUDE + i].name);
    if (a->save && a->command != VH_COMMAND_LEARN)
        return vh_arguments_wrong("--save belongs to learn, as in vinehand learn --save kept.csv");
    if (a->command == VH_COMMAND_NOTE)
        return vh_take_note(word, words, a);
    for (int option = VH_OPTION_DATE; option <= VH_OPTION_OF; option++) {
        if (seen[option])
            return vh_arguments_wrong(
                "%s belongs to note, as in vinehand note slicers picked_kg 14.2",
                vh_option_list[option].name);
    }
    if (a->command == VH_COMMAND_EXPLAIN)
        return vh_take_explain(word, words, a);
    return VH_EXIT_DONE;
}

/* "-5" of a note is a number that can be refused as one, no option. */
static bool is_value_below_0(const struct vh_arguments *a, const char *word)
{
    return a->command == VH_COMMAND_NOTE && word[1] >= '0' && word[1] <= '9';
}

enum vh_exit vh_arguments_read(int count, char **words, struct vh_arguments *a)
{
    bool seen[VH_OPTIONS] = {false}, options_ended = false, has_command = false;
    const char *note_word[VH_ASKED_WORDS] = {NULL};
    int note_words = 0;

    *a = (struct vh_arguments){.program = count > 0 ? words[0] : NULL};
    if (asks_only(count, words, a))
        return VH_EXIT_DONE;
    for (int i = 1; i < count; i++) {
        enum vh_exit result = VH_EXIT_DONE;
        const char *word = words[i];

        if (!options_ended && strcmp(word, "--") == 0)
            options_ended = true;
        else if (!options_ended && word[0] == '-' && word[1] && !is_value_below_0(a, word))
            result = read_option(count, words, &i, seen, a);
        else if (!has_command) {
            has_command = true;
            result = read_command(word, a);
        } else if (a->command == VH_COMMAND_NOTE || a->command == VH_COMMAND_EXPLAIN) {
            if (note_words < VH_ASKED_WORDS)
                note_word[note_words] = word;
            note_words++;
        } else {
            result = read_name(word, a);
        }
        if (result != VH_EXIT_DONE)
            return result;
    }
    return check_together(note_word, note_words, seen, a);
}
