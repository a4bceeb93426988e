#include "vh_command.h"

#include "vh_run_season.h"
#include "vh_week_summary.h"

enum vh_exit vh_command_week(const struct vh_arguments *a)
{
    return vh_run_season(a, "week", vh_summary_week);
}
