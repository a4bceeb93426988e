#include "vh_one_house.h"

#include <fcntl.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "vh_earlier_run.h"
#include "vh_houses_folder.h"
#include "vh_interrupt.h"
#include "vh_run_files.h"
#include "vh_safe_folder.h"
#include "vh_session.h"

/* One house on its way. */
struct work {
    const struct vh_many_houses *all;
    const char *name;
    char *out; /* its result folder */
    char inputs[65];
    struct vh_scenario *scenario;
    struct vh_result *result;
    struct vh_messages *messages;
    struct vh_safe_folder *folder;
    char why[VH_WHY]; /* of the system, where no message says it */
};

static bool go_on(void *context, double share_done)
{
    (void)context;
    (void)share_done;
    return vh_interrupt_came() == 0;
}

/* All that the results depend on, as one digest. */
static void digest_inputs(struct work *w)
{
    const struct vh_run_options *o = vh_scenario_options(w->scenario);
    char text[600];

    const int n =
        snprintf(text, sizeof text, "%s %s %s %" PRId64 " %d %" PRIu64 " %d %d %.256s",
                 vh_version(), vh_scenario_digest(w->scenario),
                 vh_parameters_digest(w->all->parameters), o->today, o->members, o->draw,
                 o->no_records, (int)vh_session_units(w->scenario, w->all->arguments), w->name);
    vh_digest_of(text, n > 0 && (size_t)n < sizeof text ? (size_t)n : sizeof text - 1, w->inputs);
}

static bool is_there(const struct work *w)
{
    const int fd = open(w->out, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    char *run_json = NULL;
    const bool whole = fd >= 0 && vh_earlier_run_read(fd, &run_json) == 0 && run_json &&
                       vh_earlier_run_is_whole(fd, run_json, w->inputs);

    free(run_json);
    if (fd >= 0)
        close(fd);
    return whole;
}

static enum vh_status compute(struct work *w)
{
    const struct vh_run_options *o = vh_scenario_options(w->scenario);
    enum vh_status status = VH_OK;

    if (o->members > 1 && !o->no_records)
        status = vh_scenario_learn(w->scenario, go_on, NULL, w->messages);
    if (status >= 0)
        status = vh_forecast_measuring(w->scenario, go_on, NULL, &w->result, w->messages);
    return status >= 0 ? vh_waiting_costs(w->scenario, w->result, w->messages) : status;
}

static enum vh_status write_set(struct work *w)
{
    struct vh_run_facts facts = {.command = "houses",
                                 .scenario = w->scenario,
                                 .parameters = w->all->parameters,
                                 .options = *vh_scenario_options(w->scenario),
                                 .units = vh_session_units(w->scenario, w->all->arguments),
                                 .inputs_sha256 = w->inputs};
    size_t files;
    enum vh_status status = vh_said_files_read(w->folder, facts.said, w->why);

    if (status == VH_OK)
        status = vh_said_files_say(facts.said, w->out, w->result, w->scenario, w->messages);

    if (status == VH_OK)
        status = vh_result_add_houses(w->result, w->name);
    if (status == VH_OK)
        status = vh_run_files_write(w->folder, &facts, w->result, &files, w->why);
    vh_said_files_clear(facts.said);
    if (status == VH_OK && vh_interrupt_came())
        status = VH_INTERRUPTED;
    if (status == VH_OK)
        status = vh_houses_folder_changes(w->all->out, w->why);
    return status == VH_OK ? vh_safe_folder_commit(w->folder, w->why) : status;
}

/* *there: nothing had to be done. */
static enum vh_status run(struct work *w, size_t i, bool *there)
{
    const struct vh_many_houses *all = w->all;
    enum vh_status status;

    w->messages = vh_messages_create();
    const size_t n = strlen(all->out) + strlen(w->name) + 2;
    w->out = malloc(n);
    if (!w->messages || !w->out)
        return VH_NO_MEMORY;
    snprintf(w->out, n, "%s/%s", all->out, w->name);
    status = vh_scenario_read(vh_house_list_path(all->list, i), all->parameters, &all->given,
                              &w->scenario, w->messages);
    if (status < 0)
        return status == VH_NO_FILE ? VH_BAD_INPUT : status; /* as in the other commands */
    digest_inputs(w);
    *there = is_there(w);
    if (*there)
        return VH_OK;
    status = vh_safe_folder_open_in_tidy(w->out, &w->folder, w->why);
    if (status == VH_OK)
        status = compute(w);
    return status >= 0 ? write_set(w) : status;
}

/* Files that a scenario names lie beside it and are called as it calls them: with its folder in
 * front, of many houses the right one is found. */
static void say_file(const struct vh_many_houses *all, size_t i, const char *file, char said[300])
{
    const char *scenario = vh_house_list_path(all->list, i), *end = strrchr(scenario, '/');
    const int folder = strchr(file, '/') || !end ? 0 : (int)(end - scenario) + 1;

    snprintf(said, 300, "%.*s%s", folder < 200 ? folder : 200, scenario, file);
}

/* The first error as one line. */
static void say_why(const struct work *w, size_t house, enum vh_status status,
                    struct vh_house_outcome *o)
{
    const size_t n = w->messages ? vh_messages_count(w->messages) : 0;

    const int64_t line_of_list = vh_house_list_line(w->all->list, house);
    const char *scenario = vh_house_list_path(w->all->list, house);
    if (line_of_list > 0 && access(scenario, F_OK) != 0) { /* the list is what is wrong */
        o->errors = 1;
        snprintf(o->why, sizeof o->why,
                 "%.200s:%" PRId64 ": there is no %.300s; mend the name, or take the line out",
                 w->all->arguments->scenario, line_of_list, scenario);
        return;
    }
    o->errors = w->messages ? (int)vh_messages_count_of(w->messages, VH_ERROR) : 0;
    for (size_t i = 0; i < n; i++) {
        const struct vh_message *m = vh_messages_at(w->messages, i);
        char line[48] = "", file[300];

        if (m->severity != VH_ERROR)
            continue;
        if (m->line > 0 && m->column > 0)
            snprintf(line, sizeof line, ":%" PRId64 ":%d", m->line, m->column);
        else if (m->line > 0)
            snprintf(line, sizeof line, ":%" PRId64, m->line);
        say_file(w->all, house, m->file ? m->file : w->name, file);
        snprintf(o->why, sizeof o->why, "%s%s: %.340s", file, line, m->text);
        return;
    }
    o->errors = 1;
    snprintf(o->why, sizeof o->why, "%.200s: %.450s", w->name,
             w->why[0] ? w->why : vh_status_text(status));
}

void vh_one_house_run(const struct vh_many_houses *w, size_t i, struct vh_house_outcome *o)
{
    struct work one = {.all = w, .name = vh_house_list_name(w->list, i)};
    bool there = false;
    const enum vh_status status = run(&one, i, &there);

    *o = (struct vh_house_outcome){.came = there ? VH_HOUSE_THERE : VH_HOUSE_DONE};
    if (status < 0) {
        o->came = status == VH_BAD_INPUT ? VH_HOUSE_WRONG : VH_HOUSE_FAILED;
        say_why(&one, i, status, o);
    }
    if (status < 0 && (status == VH_INTERRUPTED || vh_interrupt_came()))
        *o = (struct vh_house_outcome){.came = VH_HOUSE_STOPPED};
    vh_safe_folder_free(one.folder);
    vh_result_free(one.result);
    vh_scenario_free(one.scenario);
    vh_messages_free(one.messages);
    free(one.out);
}
