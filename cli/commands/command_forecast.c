#include "vh_command.h"

#include "vh_run_season.h"

enum vh_exit vh_command_forecast(const struct vh_arguments *a)
{
    return vh_run_season(a, "forecast", vh_summary_season);
}
