/* scenario_trial.h - what tests that read scenarios share: the parameters, what was complained of
 * and the scenario at hand; trial_start and trial_stop are the .init and .fini of their suite. */
#ifndef SCENARIO_TRIAL_H
#define SCENARIO_TRIAL_H

#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <stdio.h>
#include <string.h>

#include "vh_date.h"
#include "vinehand.h"

static struct vh_parameters *params;
static struct vh_messages *messages;
static struct vh_scenario *scenario;

static inline void trial_start(void)
{
    messages = vh_messages_create();
    cr_assert(messages != NULL);
    cr_assert(eq(int, vh_parameters_read(VINEHAND_PARAMS, &params, messages), VH_OK));
}

static inline void trial_stop(void)
{
    vh_scenario_free(scenario);
    vh_parameters_free(params);
    vh_messages_free(messages);
}

/* A path below the top of the source tree. */
static inline const char *in_tree(const char *path)
{
    static char whole[1000];

    snprintf(whole, sizeof whole, "%s/../%s", VINEHAND_TEST_DATA, path);
    return whole;
}

static inline int64_t day(const char *text)
{
    int64_t d = 0;

    cr_assert(eq(int, vh_date_parse(text, &d), VH_OK));
    return d;
}

/* Reads anew, files beside the text in that folder; what is complained of is of this text alone. */
static inline enum vh_status trial_parse(const char *folder, const char *text)
{
    const struct vh_run_options options = {.today = day("2026-07-14"), .members = 1};

    vh_scenario_free(scenario);
    scenario = NULL;
    vh_messages_free(messages);
    messages = vh_messages_create();
    return vh_scenario_parse(text, strlen(text), "x.toml", folder, params, &options, &scenario,
                             messages);
}

#endif
