#include "vh_interrupt.h"

#include <signal.h>
#include <stddef.h>
#include <sys/select.h>

/* The one piece of state outside of functions: a signal handler can reach nothing else. */
static volatile sig_atomic_t came = 0;

static void note_it(int number)
{
    came = number;
}

static void watch(int number)
{
    struct sigaction now, act = {.sa_handler = note_it};

    /* RESETHAND: whoever asks twice means at once. No SA_RESTART: a wait for input must end. */
    act.sa_flags = (int)SA_RESETHAND;
    sigemptyset(&act.sa_mask);
    /* What the caller told us to ignore (nohup, a job in the background) stays ignored. */
    if (sigaction(number, NULL, &now) == 0 && now.sa_handler != SIG_IGN)
        (void)sigaction(number, &act, NULL);
}

void vh_interrupt_watch(void)
{
    struct sigaction ignore = {.sa_handler = SIG_IGN};

    sigemptyset(&ignore.sa_mask);
    (void)sigaction(SIGPIPE, &ignore, NULL);
    (void)sigaction(SIGXFSZ, &ignore, NULL);
    watch(SIGINT);
    watch(SIGTERM);
    watch(SIGHUP);
}

int vh_interrupt_came(void)
{
    return came;
}

bool vh_interrupt_wait_input(int fd)
{
    sigset_t watched, before;
    fd_set ready;

    sigemptyset(&watched);
    sigaddset(&watched, SIGINT);
    sigaddset(&watched, SIGTERM);
    sigaddset(&watched, SIGHUP);
    FD_ZERO(&ready);
    FD_SET(fd, &ready);
    /* held back but while it waits: one that comes between asking and waiting would be lost */
    (void)sigprocmask(SIG_BLOCK, &watched, &before);
    const bool waited = came == 0 && pselect(fd + 1, &ready, NULL, NULL, NULL, &before) > 0;
    (void)sigprocmask(SIG_SETMASK, &before, NULL);
    return waited && came == 0;
}
