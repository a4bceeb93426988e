#include "vh_command.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#ifdef _OPENMP
#include <omp.h>
#endif

#include "vh_complain.h"
#include "vh_houses_folder.h"
#include "vh_houses_summary.h"
#include "vh_interrupt.h"
#include "vh_one_house.h"
#include "vh_ranks.h"
#include "vh_say.h"
#include "vh_session.h"

enum { MOST_SHOWN = 20 };

/* The run of one process, alone or one of several. */
struct houses {
    const struct vh_arguments *a;
    struct vh_ranks ranks;
    struct vh_session session; /* parameters and options alone */
    struct vh_house_list *list;
    char *out;
    struct vh_house_outcome *outcome; /* [houses of the list] */
    size_t count;
    struct vh_progress_line progress;
};

/* Not below a library's status: nothing that a person could mend. */
static enum vh_exit no_memory(void)
{
    vh_complain("there is not enough memory");
    return VH_EXIT_COULD_NOT;
}

/* Every rank meets here; what is wrong is said once, by the first that found it. */
static enum vh_exit agree(const struct houses *h, enum vh_exit mine, const char *why)
{
    bool is_first;
    const int all = vh_ranks_highest(&h->ranks, (int)mine, &is_first);

    if (all != VH_EXIT_DONE && is_first) {
        if (h->session.messages)
            vh_complain_messages(h->session.messages, h->a->quiet);
        if (why)
            vh_complain(why);
    }
    return (enum vh_exit)all;
}

static char *default_out(const char *list)
{
    const char *slash = strrchr(list, '/');
    struct stat sb;
    const size_t folder = stat(list, &sb) == 0 && S_ISDIR(sb.st_mode)
                              ? strlen(list)
                              : (slash ? (size_t)(slash - list) : 0);
    const size_t n = folder + sizeof "/out";
    char *out = malloc(n);

    if (out)
        snprintf(out, n, "%.*s%sout", (int)folder, list, folder == 0 && !slash ? "" : "/");
    return out;
}

static enum vh_exit read_all(struct houses *h, const char **why)
{
    struct vh_session *s = &h->session;
    char *own = h->a->params ? NULL : vh_session_own_params();
    enum vh_status status = VH_NO_MEMORY;

    s->messages = vh_messages_create();
    h->out = h->a->out ? strdup(h->a->out) : default_out(h->a->scenario);
    if (s->messages && h->out && (h->a->params || own))
        status = vh_parameters_read(h->a->params ? h->a->params : own, &s->parameters, s->messages);
    free(own);
    if (status >= 0)
        status = vh_house_list_read(h->a->scenario, &h->list, s->messages);
    if (status >= 0) {
        h->count = vh_house_list_count(h->list);
        h->outcome = calloc(h->count, sizeof *h->outcome);
        status = h->outcome ? VH_OK : VH_NO_MEMORY;
    }
    if (status < 0 && (!s->messages || vh_messages_count_of(s->messages, VH_ERROR) == 0))
        *why = vh_status_text(status);
    return status == VH_NO_FILE ? VH_EXIT_WRONG : vh_session_exit(status);
}

/* Ranks that see different lists would leave houses out. */
static bool list_differs(const struct houses *h)
{
    char sum[65] = "", of_first[65];

    for (size_t i = 0; i < h->count; i++) {
        char text[400];
        const int n = snprintf(text, sizeof text, "%s %.300s", sum, vh_house_list_name(h->list, i));
        vh_digest_of(text, (size_t)n, sum);
    }
    memcpy(of_first, sum, sizeof sum);
    vh_ranks_share(&h->ranks, of_first, sizeof of_first);
    return memcmp(of_first, sum, sizeof sum) != 0;
}

static enum vh_exit prepare(struct houses *h)
{
    const char *why = NULL;
    char reason[VH_WHY] = "";
    enum vh_exit result = vh_session_begin(&h->session, h->a);

    vh_ranks_share(&h->ranks, &h->session.options.today, sizeof h->session.options.today);
    if (result == VH_EXIT_DONE)
        result = read_all(h, &why);
    result = agree(h, result, why);
    if (result != VH_EXIT_DONE)
        return result;
    why = NULL;
    if (list_differs(h)) {
        result = VH_EXIT_COULD_NOT;
        why = "the ranks see different lists; all must reach the same file system";
    }
    result = agree(h, result, why);
    if (result != VH_EXIT_DONE)
        return result;
    if (h->ranks.rank == 0)
        result = vh_session_exit(vh_houses_folder_begin(
            h->out, vh_parameters_digest(h->session.parameters), &h->session.options, reason));
    return agree(h, result, reason);
}

/* Houses side by side; processors that are left over go into the single house. */
static int share_threads(const struct houses *h, size_t own, int *inner)
{
    int threads = h->a->threads;

#ifdef _OPENMP
    if (threads == 0)
        threads = omp_get_num_procs();
    omp_set_max_active_levels(2);
#else
    threads = 1;
#endif
    const int outer = own > 0 && own < (size_t)threads ? (int)own : threads;
    *inner = threads / outer;
    return outer;
}

static void run_own(struct houses *h)
{
    const size_t ranks = (size_t)h->ranks.ranks, rank = (size_t)h->ranks.rank;
    const size_t own = h->count > rank ? (h->count - rank + ranks - 1) / ranks : 0;
    struct vh_many_houses work = {.arguments = h->a,
                                  .parameters = h->session.parameters,
                                  .given = h->session.options,
                                  .list = h->list,
                                  .out = h->out};
    const int outer = share_threads(h, own, &work.given.threads);
    size_t done = 0;

    vh_progress_line_start(&h->progress, h->a->quiet || rank != 0);
#pragma omp parallel for num_threads(outer) schedule(dynamic, 1)
    for (size_t k = 0; k < own; k++) {
        if (!vh_interrupt_came())
            vh_one_house_run(&work, rank + k * ranks, &h->outcome[rank + k * ranks]);
#pragma omp critical(vh_houses_progress)
        vh_progress_line_show(&h->progress, (double)++done / (double)own);
    }
    vh_progress_line_end(&h->progress);
    (void)outer;
}

/* Once, in the order of the list, at most 20. */
static void complain_of(const struct houses *h)
{
    size_t shown = 0, found = 0;

    for (size_t i = 0; i < h->count; i++) {
        const struct vh_house_outcome *o = &h->outcome[i];

        if ((o->came != VH_HOUSE_WRONG && o->came != VH_HOUSE_FAILED) || ++found > MOST_SHOWN)
            continue;
        shown++;
        vh_say_safely(stderr, o->why);
        if (o->errors > 1)
            fprintf(stderr, " (and %d more; vinehand check tells them)", o->errors - 1);
        fputc('\n', stderr);
    }
    if (found > shown)
        fprintf(stderr, "%sand %zu more houses; houses.csv tells them\n",
                vh_say_is_utf8() ? "\xE2\x80\xA6" : "...", found - shown);
}

static enum vh_exit end(const struct houses *h, const struct vh_houses_facts *facts)
{
    struct vh_house_row *row = malloc((h->count + 1) * sizeof *row);
    char(*status)[sizeof h->outcome[0].why + 16] = malloc((h->count + 1) * sizeof *status);
    char why[VH_WHY];
    enum vh_exit result = VH_EXIT_COULD_NOT;

    for (size_t i = 0; i < h->count && row && status; i++) {
        const struct vh_house_outcome *o = &h->outcome[i];
        const bool wrong = o->came == VH_HOUSE_WRONG;

        row[i].name = vh_house_list_name(h->list, i);
        snprintf(status[i], sizeof status[i], "%s: %s", wrong ? "wrong" : "could not", o->why);
        row[i].status = o->why[0] ? status[i] : NULL;
    }
    if (!row || !status) {
        (void)no_memory();
    } else {
        const enum vh_status ended = vh_houses_folder_end(
            h->out, vh_house_list_table(h->list), row, h->count,
            vh_parameters_digest(h->session.parameters), &h->session.options, why);
        if (ended != VH_OK)
            vh_complain(why);
        result = vh_session_exit(ended);
    }
    free(row);
    free(status);
    if (result == VH_EXIT_DONE && !h->a->quiet)
        vh_summary_houses(stdout, facts);
    return result;
}

/* Rank 0: what all of them came to. */
static enum vh_exit close_up(const struct houses *h)
{
    struct vh_houses_facts facts = {.today = h->session.options.today,
                                    .houses = h->count,
                                    .ranks = h->ranks.ranks,
                                    .out = h->out};
    size_t stopped = 0;

    for (size_t i = 0; i < h->count; i++) {
        facts.done += h->outcome[i].came == VH_HOUSE_DONE;
        facts.there += h->outcome[i].came == VH_HOUSE_THERE;
        facts.wrong += h->outcome[i].came == VH_HOUSE_WRONG;
        facts.failed += h->outcome[i].came == VH_HOUSE_FAILED;
        stopped += h->outcome[i].came == VH_HOUSE_STOPPED;
    }
    complain_of(h);
    if (stopped > 0) {
        vh_complain("stopped; what is done stays, and the same command goes on from there");
        return VH_EXIT_COULD_NOT; /* the signal's own exit is main's */
    }
    const enum vh_exit ended = end(h, &facts);
    if (facts.wrong > 0)
        return VH_EXIT_WRONG;
    return facts.failed > 0 ? VH_EXIT_COULD_NOT : ended;
}

enum vh_exit vh_command_houses(const struct vh_arguments *a)
{
    struct houses h = {.a = a};
    enum vh_exit result = VH_EXIT_COULD_NOT;

    if (!vh_ranks_begin(&h.ranks)) {
        vh_complain("the processes of this run cannot reach each other");
        return VH_EXIT_COULD_NOT;
    }
    result = prepare(&h);
    if (result == VH_EXIT_DONE) {
        run_own(&h);
        vh_ranks_gather(&h.ranks, h.outcome, sizeof *h.outcome, h.count);
        if (h.ranks.rank == 0)
            result = close_up(&h);
        vh_ranks_share(&h.ranks, &result, sizeof result);
    }
    if (h.ranks.rank != 0) /* the first speaks for all: who fails early has the others ended */
        result = VH_EXIT_DONE;
    free(h.outcome);
    free(h.out);
    vh_house_list_free(h.list);
    vh_session_clear(&h.session);
    vh_ranks_end(&h.ranks);
    return result;
}
