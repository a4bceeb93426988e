#include "vh_command.h"

#include "vh_complain.h"
#include "vh_session.h"
#include "vh_summary.h"

/* Where no season can be run, the rest is shown all the same: forecast says why. */
static void show(const struct vh_session *s, const struct vh_arguments *a)
{
    const struct vh_check_facts facts = {.today = s->options.today,
                                         .warnings = vh_messages_count_of(s->messages, VH_WARNING),
                                         .units = a->units};
    struct vh_result *season = NULL;

    if (vh_mean_season(s->scenario, &season, NULL) != VH_OK)
        season = NULL;
    vh_summary_check(stdout, s->scenario, season, &facts);
    vh_result_free(season);
}

enum vh_exit vh_command_check(const struct vh_arguments *a)
{
    struct vh_session s;
    enum vh_exit result = vh_session_locate(&s, a);

    if (result == VH_EXIT_DONE)
        result = vh_session_read(&s, a);
    if (result == VH_EXIT_DONE && !a->quiet)
        show(&s, a);
    vh_session_clear(&s);
    return result;
}
