#define _XOPEN_SOURCE 700 /* realpath */
#include "vh_command.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "vh_complain.h"
#include "vh_first_files.h"
#include "vh_interrupt.h"
#include "vh_run_season.h"
#include "vh_session.h"
#include "vh_start_summary.h"

enum { FILES = 3, ANSWER = 200 };

struct first {
    struct vh_start_answers asked, all; /* all: guesses filled in */
    struct vh_draft scenario;
    struct vh_first_file file[FILES];
    char *stage; /* NULL: not staged */
    int held;    /* its lock */
    int lines;   /* of standard input, where that is no terminal */
};

/* One line of standard input into answer[ANSWER]; what does not fit is dropped. False at the end of
 * the input or on Ctrl-C. */
static bool read_line(char *answer)
{
    size_t n = 0;
    int c;

    while ((c = getchar()) != EOF && c != '\n')
        if (n + 1 < ANSWER)
            answer[n++] = (char)c;
    answer[n] = 0;
    return (c != EOF || n > 0) && !vh_interrupt_came();
}

/* The same of a terminal, which gives a line at a time; one that was not ended is no answer. */
static bool read_typed(char *answer)
{
    answer[0] = 0;
    return vh_interrupt_wait_input(STDIN_FILENO) && read_line(answer) && !feof(stdin);
}

/* Asks each question until the answer is one. */
static enum vh_exit ask(struct vh_start_answers *answers, bool knows_units)
{
    enum { INDENT = 3 };
    char answer[ANSWER], why[VH_START_WHY], head[12], text[VH_START_WHY + 40];

    puts("Eight questions. Press Enter where you do not know.");
    for (int q = knows_units ? 1 : 0; q < VH_START_QUESTIONS; q++) {
        bool read = false;

        while (!read) {
            snprintf(head, sizeof head, "%d", q + 1);
            vh_say_block(stdout, head, INDENT,
                         vh_start_question_text((enum vh_start_question)q, answers->units));
            fputs("> ", stdout);
            fflush(stdout);
            if (!read_typed(answer)) {
                putchar('\n');
                vh_complain("stopped before the last question; nothing was written");
                return VH_EXIT_COULD_NOT;
            }
            read = vh_start_read((enum vh_start_question)q, answer, answers, why);
            snprintf(text, sizeof text, "That was not understood; %s.", why);
            if (!read)
                vh_say_block(stdout, "", INDENT, text);
        }
    }
    putchar('\n');
    return VH_EXIT_DONE;
}

/* The answers line by line, as they would be typed; those that no line is left for are unknown. */
static enum vh_exit read_lines(struct vh_start_answers *answers, bool knows_units, int *lines)
{
    char answer[ANSWER], why[VH_START_WHY], text[ANSWER + VH_START_WHY + 80];

    for (int q = knows_units ? 1 : 0; q < VH_START_QUESTIONS && read_line(answer); q++) {
        ++*lines;
        if (vh_start_read((enum vh_start_question)q, answer, answers, why))
            continue;
        snprintf(text, sizeof text, "standard input, line %d: %s is not understood; %s", *lines,
                 answer, why);
        vh_complain(text);
        return VH_EXIT_WRONG;
    }
    if (!vh_interrupt_came())
        return VH_EXIT_DONE;
    vh_complain("stopped before the last question; nothing was written");
    return VH_EXIT_COULD_NOT;
}

static const struct {
    enum vh_start_option option;
    const char *name;
    enum vh_start_question question;
} option_list[] = {
    {VH_START_OPTION_LATITUDE, "--latitude", VH_START_LATITUDE},
    {VH_START_OPTION_HEAT, "--heat", VH_START_HEAT},
    {VH_START_OPTION_COVER, "--cover", VH_START_COVER},
    {VH_START_OPTION_WIRE, "--wire-height", VH_START_WIRE},
    {VH_START_OPTION_CROP, "--crop", VH_START_CROP},
    {VH_START_OPTION_PLANTS, "--plants", VH_START_QUESTIONS},
    {VH_START_OPTION_SET_OUT, "--set-out", VH_START_SET_OUT},
    {VH_START_OPTION_MARKET, "--market-day", VH_START_MARKET},
};

static enum vh_exit read_options(const struct vh_arguments *a, struct vh_start_answers *answers)
{
    char why[VH_START_WHY], text[600];

    for (size_t i = 0; i < sizeof option_list / sizeof option_list[0]; i++) {
        const char *value = a->start[option_list[i].option];
        if (!value)
            continue;
        const bool read = option_list[i].question == VH_START_QUESTIONS
                              ? vh_start_read_plants(value, answers, why)
                              : vh_start_read(option_list[i].question, value, answers, why);
        if (!read) {
            snprintf(text, sizeof text, "%s %.200s is not understood; %s", option_list[i].name,
                     value, why);
            vh_complain(text);
            return VH_EXIT_WRONG;
        }
    }
    return VH_EXIT_DONE;
}

static bool has_options(const struct vh_arguments *a)
{
    for (int i = 0; i < VH_START_OPTIONS; i++)
        if (a->start[i])
            return true;
    return false;
}

/* The last part of the folder's name where it can be a house's, else "My house". */
static void house_name(const char *folder, char name[VH_START_WORD])
{
    size_t end = strlen(folder), from;

    while (end > 0 && folder[end - 1] == '/')
        end--;
    for (from = end; from > 0 && folder[from - 1] != '/'; from--)
        ;
    snprintf(name, VH_START_WORD, "%.*s", (int)(end - from), folder + from);
    bool good = end > from && end - from < VH_START_WORD && name[0] != ' ' && name[0] != '-' &&
                name[0] != '.' && name[0] != '_' && name[0] != '(';
    for (const char *p = name; *p; p++)
        good = good && ((*p >= 'a' && *p <= 'z') || (*p >= 'A' && *p <= 'Z') ||
                        (*p >= '0' && *p <= '9') || strchr(" -_.()", *p));
    if (!good)
        snprintf(name, VH_START_WORD, "My house");
}

static enum vh_exit no_files(enum vh_status status, const char *why)
{
    vh_complain(why);
    return vh_session_exit(status);
}

/* All but the bytes of the scenario, which the answers make. The log is in the answers' units. */
static void name_files(struct first *f, enum vh_say_units units)
{
    f->file[0] = (struct vh_first_file){"scenario.toml", NULL, 0};
    f->file[1] =
        (struct vh_first_file){"records.csv", vh_start_records(), strlen(vh_start_records())};
    f->file[2] =
        (struct vh_first_file){"inside.csv", vh_start_log(units), strlen(vh_start_log(units))};
}

static void make_files(struct first *f, const struct vh_parameters *parameters, const char *folder)
{
    char name[VH_START_WORD];

    name_files(f, f->asked.units);
    f->all = f->asked;
    vh_start_guess(parameters, &f->all);
    house_name(folder, name);
    vh_start_scenario(&f->scenario, &f->all, &f->asked, name);
    f->file[0].bytes = f->scenario.bytes;
    f->file[0].n = f->scenario.n;
}

/* Reads what was staged and runs it, so that nothing appears that would not run. */
static enum vh_exit try_it(struct vh_session *s, const struct vh_arguments *a,
                           const struct first *f, const char *folder, struct vh_result **season)
{
    char shown[ANSWER + 20];
    enum vh_status status;

    snprintf(shown, sizeof shown, "%.*s/scenario.toml", ANSWER, folder);
    status = vh_scenario_parse(f->scenario.bytes, f->scenario.n, shown, f->stage, s->parameters,
                               &s->options, &s->scenario, s->messages);
    if (status < 0) { /* warnings of a good file are for `check` to say */
        vh_complain_messages(s->messages, true);
        if (vh_messages_count_of(s->messages, VH_ERROR) == 0)
            vh_complain(vh_status_text(status));
        return vh_session_exit(status);
    }
    return vh_run_season_compute(s, a, season);
}

static enum vh_exit run_first(struct vh_session *s, const struct vh_arguments *a, struct first *f,
                              struct vh_result **season)
{
    char why[VH_WHY];

    make_files(f, s->parameters, a->name);
    if (f->scenario.failed) {
        vh_complain("there is not enough memory");
        return VH_EXIT_COULD_NOT;
    }
    enum vh_status status = vh_first_files_stage(a->name, f->file, FILES, &f->stage, &f->held, why);
    if (status != VH_OK)
        return no_files(status, why);
    const enum vh_exit result = try_it(s, a, f, a->name, season);
    if (result != VH_EXIT_DONE)
        return result;
    status = vh_first_files_commit(a->name, f->stage, f->file, FILES, why);
    return status == VH_OK ? VH_EXIT_DONE : no_files(status, why);
}

/* Is there anybody to be asked, and is anything left to ask? */
static bool can_ask(const struct vh_arguments *a)
{
    return !has_options(a) && isatty(STDIN_FILENO) && isatty(STDOUT_FILENO) && !a->quiet;
}

/* Can lines have been sent in, from a pipe or a file? */
static bool is_sent(void)
{
    struct stat in;

    return fstat(STDIN_FILENO, &in) == 0 && (S_ISFIFO(in.st_mode) || S_ISREG(in.st_mode));
}

static enum vh_exit read_answers(const struct vh_arguments *a, const struct vh_session *s,
                                 struct first *f)
{
    vh_start_nothing(&f->asked, s->options.today, a->units);
    if (can_ask(a))
        return ask(&f->asked, a->has_units);
    if (!has_options(a) && is_sent())
        return read_lines(&f->asked, a->has_units, &f->lines);
    return read_options(a, &f->asked);
}

/* Called by its path, it lies on no PATH as far as is known: the next line has the whole path. */
static void say_it(const struct vh_arguments *a, const struct first *f,
                   const struct vh_result *season)
{
    char *path = a->program && strchr(a->program, '/') ? realpath(a->program, NULL) : NULL;

    if (!has_options(a) && !can_ask(a) && f->lines == 0)
        puts("Nothing was asked, for this is no terminal; options answer, as in\n"
             "--latitude 44.5 --crop \"48 tomatoes\" (all of them: vinehand --help).\n");
    vh_summary_start(stdout, season, &f->all, &f->asked, a->name, path ? path : "vinehand");
    free(path);
}

enum vh_exit vh_command_start(const struct vh_arguments *a)
{
    struct vh_session s;
    struct first f = {.stage = NULL};
    struct vh_result *season = NULL;
    char why[VH_WHY];

    name_files(&f, a->units);
    const enum vh_status status = vh_first_files_check(a->name, f.file, FILES, why);

    if (status != VH_OK)
        return no_files(status, why);
    enum vh_exit result = vh_session_begin(&s, a);
    if (result == VH_EXIT_DONE) /* before she is asked anything */
        result = vh_session_read_parameters(&s, a);
    if (result == VH_EXIT_DONE)
        result = read_answers(a, &s, &f);
    if (result == VH_EXIT_DONE)
        result = run_first(&s, a, &f, &season);
    if (f.stage)
        vh_first_files_drop(f.stage, f.held, f.file, FILES);
    if (result == VH_EXIT_DONE && !a->quiet)
        say_it(a, &f, season);
    free(f.stage);
    vh_draft_clear(&f.scenario);
    vh_result_free(season);
    vh_session_clear(&s);
    return result;
}
