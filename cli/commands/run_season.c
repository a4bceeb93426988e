#include "vh_run_season.h"

#include <stdio.h>
#include <stdlib.h>

#include "vh_complain.h"
#include "vh_interrupt.h"
#include "vh_run_files.h"
#include "vh_safe_folder.h"
#include "vh_session.h"

/* Learning comes before the season, on one line of progress. */
struct way {
    struct vh_progress_line line;
    double done, share;
};

static bool go_on(void *context, double share_done)
{
    struct way *w = context;

    vh_progress_line_show(&w->line, w->done + w->share * share_done);
    return vh_interrupt_came() == 0;
}

/* Does anything have to be learnt first? One future alone is the plants of the book. */
static bool learns(const struct vh_session *s)
{
    return s->options.members > 1 && !s->options.no_records;
}

static enum vh_status learn_and_compute(const struct vh_session *s, vh_compute compute,
                                        struct way *way, struct vh_result **season,
                                        struct vh_messages *m)
{
    const double learning = 0.6; /* of the time */
    enum vh_status status = VH_OK;

    way->share = 1.0;
    if (learns(s)) {
        way->share = learning;
        status = vh_scenario_learn(s->scenario, go_on, way, m);
        way->done = learning;
        way->share = 1.0 - learning;
    }
    return status == VH_OK ? compute(s->scenario, go_on, way, season, m) : status;
}

static enum vh_exit stopped(void)
{
    vh_complain("stopped; earlier results stay as they were");
    return VH_EXIT_COULD_NOT; /* the signal's own exit is main's */
}

/* Complains of a folder that will not do. */
static enum vh_exit no_folder(enum vh_status status, const char *why)
{
    vh_complain(why);
    return vh_session_exit(status);
}

static enum vh_exit run_computation(const struct vh_session *s, const struct vh_arguments *a,
                                    vh_compute compute, struct vh_result **season)
{
    struct vh_messages *messages = vh_messages_create();
    struct way way = {.done = 0.0};
    enum vh_status status = VH_NO_MEMORY;

    vh_progress_line_start(&way.line, a->quiet);
    if (messages)
        status = learn_and_compute(s, compute, &way, season, messages);
    vh_progress_line_end(&way.line);
    if (messages)
        vh_complain_messages(messages, a->quiet);
    const bool said = messages && vh_messages_count_of(messages, VH_ERROR) > 0;
    vh_messages_free(messages);
    if (vh_interrupt_came())
        return stopped();
    if (status < 0 && !said)
        vh_complain(vh_status_text(status));
    return vh_session_exit(status);
}

/* Promises of this run behind those of the earlier ones. A file of them that is not as we left it
 * is kept as it is: what was promised is worth more than what is promised now. */
static enum vh_exit say_promises(const struct vh_session *s, const struct vh_arguments *a,
                                 struct vh_result *result, struct vh_said_file said[VH_SAID_TABLES])
{
    struct vh_messages *messages = vh_messages_create();
    enum vh_status status = VH_NO_MEMORY;

    if (messages)
        status = vh_said_files_say(said, s->out, result, s->scenario, messages);
    if (messages)
        vh_complain_messages(messages, a->quiet);
    vh_messages_free(messages);
    if (status == VH_BAD_INPUT)
        vh_complain("mend that file, or move it away: its lines are kept as they were written");
    else if (status < 0)
        vh_complain(vh_status_text(status));
    return vh_session_exit(status);
}

/* The season, what waiting would cost, and what to measure. */
static enum vh_status forecast(const struct vh_scenario *s, vh_progress progress, void *context,
                               struct vh_result **out, struct vh_messages *m)
{
    struct vh_result *r = NULL;
    enum vh_status status = vh_forecast_measuring(s, progress, context, &r, m);

    if (status != VH_OK)
        return status;
    status = vh_waiting_costs(s, r, m);
    if (status == VH_OK)
        *out = r;
    else
        vh_result_free(r);
    return status;
}

enum vh_exit vh_run_season_compute(const struct vh_session *s, const struct vh_arguments *a,
                                   struct vh_result **season)
{
    return run_computation(s, a, vh_forecast, season);
}

/* Fills the hidden folder and lets it take the place of the old one. */
static enum vh_exit write_set(const struct vh_session *s, const struct vh_arguments *a,
                              const char *command, struct vh_result *result,
                              const struct vh_table *more, struct vh_safe_folder *folder,
                              size_t *files)
{
    struct vh_run_facts facts = {.command = command,
                                 .scenario = s->scenario,
                                 .parameters = s->parameters,
                                 .options = s->options,
                                 .units = vh_session_units(s->scenario, a),
                                 .more = more};
    char why[VH_WHY];
    enum vh_status status = vh_said_files_read(folder, facts.said, why);
    const enum vh_exit promised =
        status == VH_OK ? say_promises(s, a, result, facts.said) : no_folder(status, why);

    if (promised == VH_EXIT_DONE)
        status = vh_run_files_write(folder, &facts, result, files, why);
    vh_said_files_clear(facts.said);
    if (promised != VH_EXIT_DONE)
        return promised;
    if (vh_interrupt_came())
        return stopped();
    if (status == VH_OK)
        status = vh_safe_folder_commit(folder, why);
    return status == VH_OK ? VH_EXIT_DONE : no_folder(status, why);
}

static enum vh_exit open_folder(const struct vh_session *s, struct vh_safe_folder **folder)
{
    char why[VH_WHY];
    enum vh_status status = vh_safe_folder_check(s->out, why);

    if (status == VH_OK)
        status = vh_safe_folder_open(s->out, folder, why);
    return status == VH_OK ? VH_EXIT_DONE : no_folder(status, why);
}

static void say_all(const struct vh_session *s, const struct vh_arguments *a,
                    const struct vh_season_steps *steps, const struct vh_result *season,
                    size_t files)
{
    const struct vh_summary_facts facts = {.name = vh_scenario_name(s->scenario),
                                           .kept = vh_scenario_kept_file(s->scenario),
                                           .today = s->options.today,
                                           .members = s->options.members,
                                           .units = vh_session_units(s->scenario, a),
                                           .out = s->out,
                                           .files = files,
                                           .hindcast = steps->more_said ? *steps->more_said : NULL};
    steps->say(stdout, season, &facts);
}

enum vh_exit vh_run_season_steps(const struct vh_arguments *a, const char *command,
                                 const struct vh_season_steps *steps)
{
    struct vh_session s;
    struct vh_safe_folder *folder = NULL;
    struct vh_result *season = NULL;
    size_t files = 0;
    enum vh_exit result = vh_session_locate(&s, a);

    if (result == VH_EXIT_DONE) /* first: a scenario that is not there has no folder beside it */
        result = vh_session_read(&s, a);
    if (result == VH_EXIT_DONE && steps->first)
        result = steps->first(&s);
    if (result == VH_EXIT_DONE)
        result = open_folder(&s, &folder);
    if (result == VH_EXIT_DONE)
        result = run_computation(&s, a, steps->compute ? steps->compute : forecast, &season);
    if (result == VH_EXIT_DONE && steps->look_back)
        result = steps->look_back(steps->context, &s, a);
    if (result == VH_EXIT_DONE)
        result = write_set(&s, a, command, season, steps->more_file ? *steps->more_file : NULL,
                           folder, &files);
    vh_safe_folder_free(folder);
    if (result == VH_EXIT_DONE && steps->keep)
        result = steps->keep(steps->context, &s, a);
    if (result == VH_EXIT_DONE && !a->quiet)
        say_all(&s, a, steps, season, files);
    vh_result_free(season);
    vh_session_clear(&s);
    return result;
}

enum vh_exit vh_run_season(const struct vh_arguments *a, const char *command, vh_say_season say)
{
    const struct vh_season_steps steps = {.say = say};

    return vh_run_season_steps(a, command, &steps);
}

enum vh_exit vh_run_season_by(const struct vh_arguments *a, const char *command, vh_compute compute,
                              enum vh_exit (*first)(const struct vh_session *s), vh_say_season say)
{
    const struct vh_season_steps steps = {.say = say, .compute = compute, .first = first};

    return vh_run_season_steps(a, command, &steps);
}
