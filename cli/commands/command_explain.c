#include "vh_command.h"

#include <string.h>
#include <unistd.h>

#include "vh_asked_words.h"
#include "vh_chain_text.h"
#include "vh_complain.h"
#include "vh_market_lines.h"
#include "vh_run_season.h"
#include "vh_session.h"
#include "vh_short_answer.h"
#include "vh_summary.h"

/* Is it the name of a planting of the scenario in this folder? Then the truss was forgotten. */
static bool is_planting_here(const struct vh_parameters *parameters, const struct vh_arguments *a)
{
    struct vh_session s;
    struct vh_messages *m = vh_messages_create();
    const struct vh_table *t = NULL;
    bool found = false;

    if (m && access("scenario.toml", R_OK) == 0 && vh_session_begin(&s, a) == VH_EXIT_DONE) {
        s.options.no_records = true;
        vh_scenario_read("scenario.toml", parameters, &s.options, &s.scenario, m);
        for (size_t i = 0; s.scenario && i < vh_scenario_table_count(s.scenario); i++)
            if (strcmp(vh_table_name(vh_scenario_table(s.scenario, i)), "plantings") == 0)
                t = vh_scenario_table(s.scenario, i);
        for (size_t i = 0; t && i < vh_table_rows(t); i++)
            found = found || strcmp(vh_cell_text(t, i, "planting"), a->name) == 0;
        vh_session_clear(&s);
    }
    vh_messages_free(m);
    return found;
}

static enum vh_exit explain_name(const struct vh_arguments *a)
{
    struct vh_session s = {0};
    struct vh_explanation *explanation = NULL;
    struct vh_messages *messages = vh_messages_create();
    enum vh_exit result = vh_session_read_parameters(&s, a);

    if (result == VH_EXIT_DONE) {
        const enum vh_status status =
            messages ? vh_explain(s.parameters, a->name, &explanation, messages) : VH_NO_MEMORY;
        if (status == VH_BAD_INPUT && is_planting_here(s.parameters, a)) {
            vh_messages_free(messages);
            vh_session_clear(&s);
            return vh_arguments_wrong("%.60s is a planting; write the truss too, as in vinehand "
                                      "explain %.60s 12",
                                      a->name, a->name);
        }
        if (messages)
            vh_complain_messages(messages, a->quiet);
        if (status < 0 && (!messages || vh_messages_count_of(messages, VH_ERROR) == 0))
            vh_complain(vh_status_text(status));
        result = vh_session_exit(status);
    }
    if (result == VH_EXIT_DONE && !a->quiet)
        vh_summary_explain(stdout, explanation);
    vh_explanation_free(explanation);
    vh_messages_free(messages);
    vh_session_clear(&s);
    return result;
}

/* The answer first, then how it came about. */
static void print_chain(const struct vh_session *s, const struct vh_arguments *a,
                        const struct vh_result *season, const struct vh_chain *chain)
{
    const struct vh_summary_facts facts = {.name = vh_scenario_name(s->scenario),
                                           .today = s->options.today,
                                           .units = vh_session_units(s->scenario, a)};
    const char *dot = vh_say_is_utf8() ? "\xC2\xB7" : "-";
    const char *units = facts.units == VH_SAY_US ? "US units, in brackets metric" : "metric";
    char title[300], day[VH_SAY_ROOM];

    vh_say_date_with_year((double)a->explain.day, day);
    if (a->explain.has_day)
        snprintf(title, sizeof title, "%.100s %s market day %s %s from the picks to the table, %s",
                 facts.name, dot, day, dot, units);
    else
        snprintf(title, sizeof title, "%.100s %s truss or node %d %s from flower to pick, %s",
                 a->explain.planting, dot, a->explain.truss, dot, units);
    vh_say_block(stdout, "", 0, title);
    fputc('\n', stdout);
    if (a->explain.has_day)
        vh_market_day_lines(stdout, season, &facts, a->explain.day);
    else
        vh_short_answer_truss(stdout, season, &facts, a->explain.planting, a->explain.truss);
    fputc('\n', stdout);
    vh_chain_print(stdout, chain, facts.units);
}

/* The chain to what `season` says; NULL: to the mean run. */
static enum vh_exit work_out(const struct vh_session *s, const struct vh_arguments *a,
                             const struct vh_result *season, struct vh_chain **chain)
{
    const struct vh_explain_arguments *asked = &a->explain;
    struct vh_messages *m = vh_messages_create();
    enum vh_status status = VH_NO_MEMORY;

    if (m)
        status = asked->has_day ? vh_explain_market_day(s->scenario, season, asked->day, chain, m)
                                : vh_explain_truss(s->scenario, season, asked->planting,
                                                   asked->truss, chain, m);
    if (m)
        vh_complain_messages(m, a->quiet);
    if (status < 0 && (!m || vh_messages_count_of(m, VH_ERROR) == 0))
        vh_complain(vh_status_text(status));
    vh_messages_free(m);
    return vh_session_exit(status);
}

/* How a truss, or a market day's number, came about. Nothing is written. */
static enum vh_exit explain_chain(const struct vh_arguments *a)
{
    struct vh_session s;
    struct vh_chain *chain = NULL;
    struct vh_result *season = NULL;
    enum vh_exit result = vh_session_locate(&s, a);

    if (result == VH_EXIT_DONE)
        result = vh_session_read(&s, a);
    if (result == VH_EXIT_DONE) /* what cannot be asked is refused before anything takes long */
        result = work_out(&s, a, NULL, &chain);
    if (result == VH_EXIT_DONE)
        result = vh_run_season_compute(&s, a, &season);
    if (result == VH_EXIT_DONE) {
        vh_chain_free(chain);
        chain = NULL;
        result = work_out(&s, a, season, &chain);
    }
    if (result == VH_EXIT_DONE && !a->quiet)
        print_chain(&s, a, season, chain);
    vh_chain_free(chain);
    vh_result_free(season);
    vh_session_clear(&s);
    return result;
}

enum vh_exit vh_command_explain(const struct vh_arguments *a)
{
    return a->name ? explain_name(a) : explain_chain(a);
}
