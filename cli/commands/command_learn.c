#include "vh_command.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "vh_complain.h"
#include "vh_learn_summary.h"
#include "vh_run_season.h"
#include "vh_safe_file.h"

/* Nothing is written over: what another season taught may lie there. */
static enum vh_exit check_free(const char *path)
{
    char why[VH_WHY];
    struct stat sb;

    if (lstat(path, &sb) != 0 && errno == ENOENT)
        return VH_EXIT_DONE;
    snprintf(why, sizeof why,
             "%.400s is there already and stays as it is; save under another name, or move it away"
             " first",
             path);
    vh_complain(why);
    return VH_EXIT_WRONG;
}

static enum vh_exit save(void *context, const struct vh_session *s, const struct vh_arguments *a)
{
    const struct vh_table *learned = vh_scenario_learned(s->scenario);
    char why[VH_WHY], *text = NULL;
    size_t n = 0;

    (void)context;
    if (!learned || vh_table_rows(learned) == 0) {
        vh_complain("nothing was learnt, so nothing was saved; vinehand check tells which records"
                    " were read");
        return VH_EXIT_COULD_NOT;
    }
    enum vh_status status = vh_scenario_kept(s->scenario, &text, &n);
    if (status != VH_OK)
        vh_complain(vh_status_text(status));
    else if (check_free(a->save) != VH_EXIT_DONE) /* it may have come meanwhile */
        status = VH_BAD_INPUT;
    else if ((status = vh_safe_file_replace(a->save, NULL, 0, text, n, why)) != VH_OK)
        vh_complain(why);
    free(text);
    return vh_session_exit(status);
}

enum vh_exit vh_command_learn(const struct vh_arguments *a)
{
    const struct vh_season_steps steps = {.say = vh_summary_learn, .keep = a->save ? save : NULL};
    const enum vh_exit free_place = a->save ? check_free(a->save) : VH_EXIT_DONE;

    if (free_place != VH_EXIT_DONE)
        return free_place;
    const enum vh_exit result = vh_run_season_steps(a, "learn", &steps);
    if (result != VH_EXIT_DONE || a->quiet)
        return result;
    if (a->save) {
        printf("\nKept in ");
        vh_say_safely(stdout, a->save);
        printf(" for next season: [parameters] file = \"");
        vh_say_safely(stdout, a->save);
        printf("\"\nNothing in your files was changed.\n");
    } else {
        printf("\nNothing in your files was changed. To keep what was learnt for next season:\n"
               "vinehand learn --save kept.csv\n");
    }
    return result;
}
