#include "vh_command.h"

#include "vh_complain.h"
#include "vh_session.h"
#include "vh_summary.h"

/* Where no season can be run, the rest is shown all the same: forecast says why. */
static enum vh_exit show(const struct vh_session *s, const struct vh_arguments *a)
{
    const struct vh_check_facts facts = {.today = s->options.today,
                                         .warnings = vh_messages_count_of(s->messages, VH_WARNING),
                                         .units = vh_session_units(s->scenario, a)};
    struct vh_result *season = NULL;

    const enum vh_status status = vh_mean_season(s->scenario, &season, NULL);
    if (status == VH_NO_MEMORY) {
        vh_complain(vh_status_text(status));
        return vh_session_exit(status);
    }
    if (status != VH_OK)
        season = NULL;
    vh_summary_check(stdout, s->scenario, season, &facts);
    vh_result_free(season);
    return VH_EXIT_DONE;
}

enum vh_exit vh_command_check(const struct vh_arguments *a)
{
    struct vh_session s;
    enum vh_exit result = vh_session_locate(&s, a);

    if (result == VH_EXIT_DONE)
        result = vh_session_read(&s, a);
    if (result == VH_EXIT_DONE && !a->quiet)
        result = show(&s, a);
    vh_session_clear(&s);
    return result;
}
