/* vh_run_season.h - what forecast, week and start share: the season computed, its files written. */
#ifndef VH_RUN_SEASON_H
#define VH_RUN_SEASON_H

#include "vh_session.h"
#include "vh_summary.h"

/* vh_forecast, or what else makes a result of a scenario. */
typedef enum vh_status (*vh_compute)(const struct vh_scenario *s, vh_progress progress,
                                     void *context, struct vh_result **out, struct vh_messages *m);

/* Computes the season of a scenario that was read; what is wrong has been said. The caller frees
 * *season. */
enum vh_exit vh_run_season_compute(const struct vh_session *s, const struct vh_arguments *a,
                                   struct vh_result **season);

typedef void (*vh_say_season)(FILE *to, const struct vh_result *season,
                              const struct vh_summary_facts *facts);

/* What a command does beyond that; each may be NULL. */
struct vh_season_steps {
    vh_say_season say;
    vh_compute compute;                                /* NULL: the forecast */
    enum vh_exit (*first)(const struct vh_session *s); /* before anything is computed */
    /* before any file is written: a table more for the folder, and one for `say` */
    enum vh_exit (*look_back)(void *context, const struct vh_session *s,
                              const struct vh_arguments *a);
    enum vh_exit (*keep)(void *context, const struct vh_session *s, const struct vh_arguments *a);
    void *context;
    const struct vh_table *const *more_file, *const *more_said;
};
enum vh_exit vh_run_season_steps(const struct vh_arguments *a, const char *command,
                                 const struct vh_season_steps *steps);

/* Reads the scenario, computes, writes the result folder (`command` stands in run.json), then
 * prints by `say` unless --quiet. */
enum vh_exit vh_run_season(const struct vh_arguments *a, const char *command, vh_say_season say);
/* The same with another computation. first: asked once the scenario is read, before anything is
 * computed; what is wrong it says itself. NULL: nothing is asked. */
enum vh_exit vh_run_season_by(const struct vh_arguments *a, const char *command, vh_compute compute,
                              enum vh_exit (*first)(const struct vh_session *s), vh_say_season say);

#endif
