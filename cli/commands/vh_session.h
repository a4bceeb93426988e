/* vh_session.h - what check and forecast share: parameters and scenario read, complaints shown. */
#ifndef VH_SESSION_H
#define VH_SESSION_H

#include "vh_arguments.h"
#include "vinehand.h"

struct vh_session {
    struct vh_run_options options;
    char *scenario_path; /* NULL: standard input */
    char *out;           /* where results go */
    struct vh_messages *messages;
    struct vh_parameters *parameters;
    struct vh_scenario *scenario;
};

/* Empty but for the options of the run. The caller clears *s, also after a failure. */
enum vh_exit vh_session_begin(struct vh_session *s, const struct vh_arguments *a);
/* Where the scenario lies and where results go. The caller clears *s, also after a failure. */
enum vh_exit vh_session_locate(struct vh_session *s, const struct vh_arguments *a);
/* Reads everything; whatever is wrong has been said on standard error. */
enum vh_exit vh_session_read(struct vh_session *s, const struct vh_arguments *a);
/* Reads the parameters alone into a zeroed *s. */
enum vh_exit vh_session_read_parameters(struct vh_session *s, const struct vh_arguments *a);
void vh_session_clear(struct vh_session *s);
/* Those of --units, else those of the scenario. */
enum vh_say_units vh_session_units(const struct vh_scenario *s, const struct vh_arguments *a);

/* The exit of a status of the library; what it means for the person is said by the messages. */
enum vh_exit vh_session_exit(enum vh_status status);
/* The folder of parameters that belongs to this program. Freed by free(); NULL when memory is out.
 */
char *vh_session_own_params(void);
/* Is it a folder of parameters? If not, that has been said. */
bool vh_session_has_params(const char *folder);

#endif
