#include "vh_command.h"

#include "vh_complain.h"
#include "vh_session.h"
#include "vh_summary.h"

enum vh_exit vh_command_explain(const struct vh_arguments *a)
{
    struct vh_session s = {0};
    struct vh_explanation *explanation = NULL;
    struct vh_messages *messages = vh_messages_create();
    enum vh_exit result = vh_session_read_parameters(&s, a);

    if (result == VH_EXIT_DONE) {
        const enum vh_status status =
            messages ? vh_explain(s.parameters, a->name, &explanation, messages) : VH_NO_MEMORY;
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
