#include "vh_command.h"

#include <stdio.h>

#include "vh_complain.h"
#include "vh_run_season.h"

/* What a scenario without choices should get. */
static enum vh_exit has_choices(const struct vh_session *s)
{
    if (vh_scenario_choices(s->scenario) > 0)
        return VH_EXIT_DONE;
    vh_complain("nothing to compare: the scenario has no choices; add what you would do otherwise,"
                " a list each:");
    fputs("\n"
          "    [compare]\n"
          "    planting = \"slicers\"          # one of yours; without it all\n"
          "    fruits_kept = [2, 3, 4]       # fruits left on a truss\n"
          "    suckers_every_d = [4, 7, 14]  # days between two visits\n"
          "\n"
          "All lists there are: vinehand explain compare\n",
          stderr);
    return VH_EXIT_WRONG;
}

enum vh_exit vh_command_compare(const struct vh_arguments *a)
{
    return vh_run_season_by(a, "compare", vh_compare, has_choices, vh_summary_compare);
}
