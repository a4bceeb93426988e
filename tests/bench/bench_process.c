/* Runs a command N times and prints the median of its wall time and its largest memory.
 * Usage: bench_process N COMMAND ARGUMENT... (standard output of the command is dropped)
 */
#define _DEFAULT_SOURCE /* wait4: memory of the child alone */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/types.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { MOST = 1000 };

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void run_child(char **command)
{
    const int out = open("/dev/null", O_WRONLY);
    if (out >= 0)
        dup2(out, STDOUT_FILENO);
    execvp(command[0], command);
    _exit(127);
}

int main(int argc, char **argv)
{
    static double ms[MOST];
    const int n = argc > 2 ? atoi(argv[1]) : 0;
    long most_kb = 0;

    if (n < 1 || n > MOST)
        return 2;
    for (int k = 0; k < n; k++) {
        struct rusage use;
        int status;
        const double start = now_ms();
        const pid_t child = fork();
        if (child == 0)
            run_child(argv + 2);
        if (child < 0 || wait4(child, &status, 0, &use) < 0)
            return 1;
        ms[k] = now_ms() - start;
        if (!WIFEXITED(status) || WEXITSTATUS(status))
            return 1;
        if (use.ru_maxrss > most_kb)
            most_kb = use.ru_maxrss;
    }
    qsort(ms, (size_t)n, sizeof *ms, by_size);
    printf("median %.1f ms, least %.1f ms, %.1f MB\n", ms[n / 2], ms[0], (double)most_kb / 1024.0);
    return 0;
}
