#include "vh_session.h"

#include <errno.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "vh_complain.h"
#include "vh_interrupt.h"

enum { LARGEST_INPUT = (1 << 20) + 1 }; /* bytes: one more than a scenario may have */

enum vh_exit vh_session_exit(enum vh_status status)
{
    switch (status) {
    case VH_OK:
    case VH_FILLED:
        return VH_EXIT_DONE;
    case VH_BAD_INPUT:
        return VH_EXIT_WRONG;
    case VH_NO_MEMORY:
    case VH_NO_FILE:
    case VH_NO_NUMBER:
    case VH_INTERRUPTED:
        break;
    }
    return VH_EXIT_COULD_NOT;
}

static enum vh_exit no_memory(void)
{
    vh_complain("there is not enough memory");
    return VH_EXIT_COULD_NOT;
}

/* The system date in local time, as a day number. */
static bool system_today(int64_t *day)
{
    const time_t now = time(NULL);
    struct tm local;
    char text[40];

    if (now == (time_t)-1 || !localtime_r(&now, &local))
        return false;
    snprintf(text, sizeof text, "%04d-%02d-%02d", local.tm_year + 1900, local.tm_mon + 1,
             local.tm_mday);
    return vh_date_parse(text, day) == VH_OK;
}

static char *joined(const char *folder, size_t n, const char *name)
{
    char *path = malloc(n + strlen(name) + 2);

    if (path) {
        memcpy(path, folder, n);
        if (n > 0 && folder[n - 1] != '/')
            path[n++] = '/';
        strcpy(path + n, name);
    }
    return path;
}

enum vh_exit vh_session_begin(struct vh_session *s, const struct vh_arguments *a)
{
    *s = (struct vh_session){0};
    s->options = (struct vh_run_options){.today = a->today,
                                         .members = a->members,
                                         .draw = a->draw,
                                         .threads = a->threads,
                                         .no_records = a->no_records};
    if (!a->has_today && !system_today(&s->options.today)) {
        vh_complain("the system's date cannot be read; give --today, as in --today 2026-07-14");
        return VH_EXIT_COULD_NOT;
    }
    return VH_EXIT_DONE;
}

enum vh_exit vh_session_locate(struct vh_session *s, const struct vh_arguments *a)
{
    const char *given = a->scenario ? a->scenario : "", *slash;
    const bool standard_input = strcmp(given, "-") == 0;
    const enum vh_exit begun = vh_session_begin(s, a);
    struct stat sb;

    if (begun != VH_EXIT_DONE)
        return begun;
    if (!a->scenario && access("scenario.toml", F_OK) != 0) {
        vh_complain("there is no scenario.toml in this folder; name the folder of yours, as in "
                    "vinehand week my-house, or begin one: vinehand start my-house");
        return VH_EXIT_WRONG;
    }
    if (!standard_input) {
        const bool folder = !a->scenario || (stat(given, &sb) == 0 && S_ISDIR(sb.st_mode));

        s->scenario_path = folder ? joined(given, strlen(given), "scenario.toml") : strdup(given);
        if (!s->scenario_path)
            return no_memory();
    }
    slash = s->scenario_path ? strrchr(s->scenario_path, '/') : NULL;
    s->out = a->out ? strdup(a->out)
                    : joined(slash ? s->scenario_path : "",
                             slash ? (size_t)(slash - s->scenario_path) + 1 : 0, "out");
    return s->out ? VH_EXIT_DONE : no_memory();
}

enum vh_say_units vh_session_units(const struct vh_scenario *s, const struct vh_arguments *a)
{
    if (a->has_units)
        return a->units;
    return vh_scenario_is_in_us_units(s) ? VH_SAY_US : VH_SAY_METRIC;
}

/* All of standard input, but no more than a scenario may have and one byte. */
static enum vh_exit read_standard_input(char **text, size_t *n)
{
    ssize_t got = 1;

    *n = 0;
    *text = malloc(LARGEST_INPUT);
    if (!*text)
        return no_memory();
    while (got != 0 && *n < LARGEST_INPUT) {
        got = read(STDIN_FILENO, *text + *n, LARGEST_INPUT - *n);
        if (got > 0)
            *n += (size_t)got;
        if (got < 0 && (errno != EINTR || vh_interrupt_came()))
            break;
    }
    if (got >= 0)
        return VH_EXIT_DONE;
    if (!vh_interrupt_came()) {
        char why[200];
        snprintf(why, sizeof why, "standard input cannot be read: %s", strerror(errno));
        vh_complain(why);
    }
    free(*text);
    *text = NULL;
    return VH_EXIT_WRONG;
}

static enum vh_status read_scenario(struct vh_session *s, enum vh_exit *failed)
{
    enum vh_status status;
    char *text = NULL;
    size_t n = 0;

    if (s->scenario_path)
        return vh_scenario_read(s->scenario_path, s->parameters, &s->options, &s->scenario,
                                s->messages);
    *failed = read_standard_input(&text, &n);
    if (*failed != VH_EXIT_DONE)
        return VH_BAD_INPUT;
    status = vh_scenario_parse(text, n, "standard input", ".", s->parameters, &s->options,
                               &s->scenario, s->messages);
    free(text);
    return status;
}

/* *failed: the folder holds none, and that has been said. */
static enum vh_status read_parameters(struct vh_session *s, const struct vh_arguments *a,
                                      enum vh_exit *failed)
{
    char *own = a->params ? NULL : vh_session_own_params();
    const char *folder = a->params ? a->params : own;
    enum vh_status status = VH_NO_MEMORY;

    if (folder && !vh_session_has_params(folder)) {
        *failed = VH_EXIT_WRONG;
        status = VH_NO_FILE;
    } else if (folder) {
        status = vh_parameters_read(folder, &s->parameters, s->messages);
    }
    free(own);
    return status;
}

/* Says what was wrong; the exit that follows. */
static enum vh_exit read_ended(const struct vh_session *s, const struct vh_arguments *a,
                               enum vh_status status)
{
    vh_complain_messages(s->messages, a->quiet);
    if (status >= 0)
        return VH_EXIT_DONE;
    if (vh_messages_count_of(s->messages, VH_ERROR) == 0)
        vh_complain(vh_status_text(status));
    /* A file that is not there is the scenario's or the command line's mistake. */
    return status == VH_NO_FILE ? VH_EXIT_WRONG : vh_session_exit(status);
}

enum vh_exit vh_session_read(struct vh_session *s, const struct vh_arguments *a)
{
    enum vh_exit result = VH_EXIT_DONE;
    enum vh_status status;

    s->messages = vh_messages_create();
    if (!s->messages)
        return no_memory();
    status = read_parameters(s, a, &result);
    if (status >= 0)
        status = read_scenario(s, &result);
    if (result != VH_EXIT_DONE) {
        vh_complain_messages(s->messages, a->quiet);
        return result;
    }
    if (status >= 0)
        s->options = *vh_scenario_options(s->scenario);
    return read_ended(s, a, status);
}

enum vh_exit vh_session_read_parameters(struct vh_session *s, const struct vh_arguments *a)
{
    enum vh_exit result = VH_EXIT_DONE;
    enum vh_status status;

    s->messages = vh_messages_create();
    if (!s->messages)
        return no_memory();
    status = read_parameters(s, a, &result);
    return result != VH_EXIT_DONE ? result : read_ended(s, a, status);
}

void vh_session_clear(struct vh_session *s)
{
    vh_scenario_free(s->scenario);
    vh_parameters_free(s->parameters);
    vh_messages_free(s->messages);
    free(s->scenario_path);
    free(s->out);
    *s = (struct vh_session){0};
}
