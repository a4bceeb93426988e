#include "vh_session.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "vh_complain.h"

/* A folder of parameters is known by this file. */
static bool holds_params(const char *folder)
{
    char path[PATH_MAX];
    const int n = snprintf(path, sizeof path, "%s/sources.csv", folder);

    return n > 0 && (size_t)n < sizeof path && access(path, R_OK) == 0;
}

char *vh_session_own_params(void)
{
    /* In an installed prefix; in a build folder, which has a link. */
    static const char *const beside[] = {"../share/vinehand/params", "params"};
    char program[PATH_MAX / 2], path[PATH_MAX] = "params beside the program";
    const ssize_t n = readlink("/proc/self/exe", program, sizeof program - 1);
    char *slash;

    program[n > 0 ? n : 0] = 0;
    slash = strrchr(program, '/');
    if (slash) {
        *slash = 0;
        for (size_t i = 0; i < sizeof beside / sizeof beside[0]; i++) {
            snprintf(path, sizeof path, "%s/%s", program, beside[i]);
            if (holds_params(path))
                return strdup(path);
        }
    }
    /* none, and that is said: the current folder may hold a stranger's, so that one must be named
     */
    return strdup(path);
}

bool vh_session_has_params(const char *folder)
{
    char why[PATH_MAX];

    if (holds_params(folder))
        return true;
    snprintf(why, sizeof why,
             "%.3000s holds no parameters (sources.csv is not there); name their folder, as in "
             "--params params",
             folder);
    vh_complain(why);
    return false;
}
