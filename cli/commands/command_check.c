#include "vh_command.h"

#include "vh_complain.h"
#include "vh_session.h"
#include "vh_summary.h"

enum vh_exit vh_command_check(const struct vh_arguments *a)
{
    struct vh_session s;
    enum vh_exit result = vh_session_locate(&s, a);

    if (result == VH_EXIT_DONE)
        result = vh_session_read(&s, a);
    if (result == VH_EXIT_DONE && !a->quiet)
        vh_summary_check(stdout, s.scenario, s.options.today,
                         vh_messages_count_of(s.messages, VH_WARNING));
    vh_session_clear(&s);
    return result;
}
