#include "vh_command.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "vh_complain.h"
#include "vh_interrupt.h"
#include "vh_learn_summary.h"
#include "vh_run_season.h"
#include "vh_safe_file.h"

/* The folder that the file would lie in must be there. */
static enum vh_exit check_folder(const char *path)
{
    const char *slash = strrchr(path, '/');
    const size_t n = slash ? (size_t)(slash - path) : 0;
    char why[VH_WHY], *const folder = strndup(path, n);
    struct stat sb;

    if (!folder) {
        vh_complain(vh_status_text(VH_NO_MEMORY));
        return VH_EXIT_COULD_NOT;
    }
    const bool is_there = n == 0 || (stat(folder, &sb) == 0 && S_ISDIR(sb.st_mode));
    if (!is_there) {
        snprintf(why, sizeof why, "there is no folder %.400s to save in; make it, or name another",
                 folder);
        vh_complain(why);
    }
    free(folder);
    return is_there ? VH_EXIT_DONE : VH_EXIT_WRONG;
}

/* Nothing is written over: what another season taught may lie there. */
static enum vh_exit check_free(const char *path)
{
    char why[VH_WHY];
    struct stat sb;

    if (lstat(path, &sb) != 0)
        return check_folder(path);
    snprintf(why, sizeof why,
             "%.400s is there already and stays as it is; save under another name, or move it away"
             " first",
             path);
    vh_complain(why);
    return VH_EXIT_WRONG;
}

/* Past forecasts made again: what of them is written, and what is said. */
struct looking_back {
    struct vh_hindcast *hindcast;
    const struct vh_table *weeks, *summary;
    struct vh_progress_line line;
    bool has_learnt;
};

static bool go_on(void *context, double share_done)
{
    struct looking_back *l = context;

    vh_progress_line_show(&l->line, share_done);
    return vh_interrupt_came() == 0;
}

static enum vh_exit look_back(void *context, const struct vh_session *s,
                              const struct vh_arguments *a)
{
    struct looking_back *l = context;
    const struct vh_table *learned = vh_scenario_learned(s->scenario);
    struct vh_messages *messages;

    l->has_learnt = learned && vh_table_rows(learned) > 0;
    if (!l->has_learnt)
        return VH_EXIT_DONE;
    messages = vh_messages_create();
    vh_progress_line_start(&l->line, a->quiet);
    const enum vh_status status =
        messages ? vh_hindcast(s->scenario, go_on, l, &l->hindcast, messages) : VH_NO_MEMORY;
    vh_progress_line_end(&l->line);
    const bool said = messages && vh_messages_count_of(messages, VH_ERROR) > 0;
    if (said) /* what is doubtful was told when the files were read */
        vh_complain_messages(messages, true);
    vh_messages_free(messages);
    if (vh_interrupt_came())
        vh_complain("stopped; earlier results stay as they were");
    else if (status < 0 && !said)
        vh_complain(vh_status_text(status));
    if (status < 0)
        return vh_interrupt_came() ? VH_EXIT_COULD_NOT : vh_session_exit(status);
    l->weeks = vh_hindcast_table(l->hindcast);
    l->summary = vh_hindcast_summary(l->hindcast);
    return VH_EXIT_DONE;
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
    const enum vh_exit place = check_free(a->save); /* something may have come there meanwhile */
    if (place != VH_EXIT_DONE)
        return place;
    enum vh_status status = vh_scenario_kept(s->scenario, &text, &n);
    if (status != VH_OK)
        vh_complain(vh_status_text(status));
    else if ((status = vh_safe_file_replace(a->save, NULL, 0, text, n, why)) != VH_OK)
        vh_complain(why);
    free(text);
    return vh_session_exit(status);
}

enum vh_exit vh_command_learn(const struct vh_arguments *a)
{
    struct looking_back back = {.hindcast = NULL};
    const struct vh_season_steps steps = {.say = vh_summary_learn,
                                          .look_back = look_back,
                                          .keep = a->save ? save : NULL,
                                          .context = &back,
                                          .more_file = &back.weeks,
                                          .more_said = &back.summary};
    const enum vh_exit free_place = a->save ? check_free(a->save) : VH_EXIT_DONE;

    if (free_place != VH_EXIT_DONE)
        return free_place;
    const enum vh_exit result = vh_run_season_steps(a, "learn", &steps);
    vh_hindcast_free(back.hindcast);
    if (result != VH_EXIT_DONE || a->quiet)
        return result;
    if (a->save) {
        printf("\nKept in ");
        vh_say_safely(stdout, a->save);
        printf(" for next season: [parameters] file = \"");
        vh_say_safely(stdout, a->save);
        printf("\"\nNothing in your files was changed.\n");
    } else {
        printf("\nNothing in your files was changed.");
        if (back.has_learnt) {
            const char *name = a->scenario ? a->scenario : "";
            const char *mark = strpbrk(name, " \t") ? "\"" : "";
            printf(" To keep what was learnt for next season:\nvinehand learn %s", mark);
            vh_say_safely(stdout, name);
            printf("%s%s--save kept.csv", mark, *name ? " " : "");
        }
        putchar('\n');
    }
    return result;
}
