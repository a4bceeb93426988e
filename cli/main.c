/* main.c - the program: what is asked for, the command that answers, how it ends. */
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

#include "vh_command.h"
#include "vh_complain.h"
#include "vh_interrupt.h"

/* With a standard stream closed, the next file opened would get its number and our lines with it.
 */
static void fill_standard_streams(void)
{
    int fd;

    do
        fd = open("/dev/null", O_RDONLY);
    while (fd >= 0 && fd <= STDERR_FILENO);
    if (fd >= 0)
        close(fd);
}

/* Memory that a season gives back is there for the next one: the system would clear its pages anew
 * each time. */
static void keep_freed_memory(void)
{
#ifdef __GLIBC__
    enum { MIB = 1024 * 1024, OWN_MAPPING_FROM = 32 * MIB, KEPT_MOST = 512 * MIB };
    (void)mallopt(M_MMAP_THRESHOLD, OWN_MAPPING_FROM);
    (void)mallopt(M_TRIM_THRESHOLD, KEPT_MOST);
#endif
}

static enum vh_exit run(const struct vh_arguments *a)
{
    switch (a->command) {
    case VH_COMMAND_CHECK:
        return vh_command_check(a);
    case VH_COMMAND_EXPLAIN:
        return vh_command_explain(a);
    case VH_COMMAND_LEARN:
        return vh_command_learn(a);
    case VH_COMMAND_NOTE:
        return vh_command_note(a);
    case VH_COMMAND_START:
        return vh_command_start(a);
    case VH_COMMAND_HOUSES:
        return vh_command_houses(a);
    case VH_COMMAND_HELP:
        return vh_command_help();
    case VH_COMMAND_VERSION:
        return vh_command_version();
    case VH_COMMAND_COMPARE:
        return vh_command_compare(a);
    case VH_COMMAND_FORECAST:
        return vh_command_forecast(a);
    case VH_COMMAND_BARE:
    case VH_COMMAND_WEEK:
        break;
    }
    return vh_command_week(a);
}

/* fflush, ferror, fclose in this order: fclose alone can call a lost line good. */
static enum vh_exit close_standard_output(enum vh_exit result)
{
    int lost = fflush(stdout) != 0 ? errno : 0;
    char why[200];

    if (ferror(stdout) && !lost)
        lost = EIO;
    if (fclose(stdout) != 0 && !lost)
        lost = errno;
    if (!lost || result != VH_EXIT_DONE)
        return result;
    if (lost == EPIPE) /* who reads no further, as `head`, has what it wants: as a signal ends it */
        return VH_EXIT_SIGNAL + SIGPIPE;
    snprintf(why, sizeof why, "standard output cannot be written: %s", strerror(lost));
    vh_complain(why);
    return VH_EXIT_COULD_NOT;
}

int main(int count, char **words)
{
    struct vh_arguments a;
    enum vh_exit result;

    keep_freed_memory();
    fill_standard_streams();
    vh_interrupt_watch();
    result = vh_arguments_read(count, words, &a);
    if (result == VH_EXIT_DONE)
        result = run(&a);
    result = close_standard_output(result);
    if (result != VH_EXIT_DONE && vh_interrupt_came())
        return VH_EXIT_SIGNAL + vh_interrupt_came();
    return (int)result;
}
