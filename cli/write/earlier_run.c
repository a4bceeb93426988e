#include "vh_earlier_run.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { LARGEST = 1 << 23 }; /* bytes; a run.json has a few thousand, promises grow by the year */

static char *read_small(int fd, size_t *size)
{
    char *text = malloc(LARGEST + 1);
    size_t n = 0;
    ssize_t got = 1;

    while (text && n < LARGEST && got != 0) {
        got = read(fd, text + n, LARGEST - n);
        if (got < 0 && errno != EINTR)
            break;
        n += got > 0 ? (size_t)got : 0;
    }
    if (text && got != 0) {
        free(text);
        return NULL;
    }
    if (text)
        text[n] = 0;
    *size = n;
    return text;
}

char *vh_earlier_run_file(int folder, const char *name, size_t *n)
{
    /* O_NONBLOCK: a pipe of that name must not make us wait. */
    const int fd = openat(folder, name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    struct stat sb;
    char *text = NULL;

    *n = 0;
    if (fd < 0)
        return NULL;
    if (fstat(fd, &sb) == 0 && S_ISREG(sb.st_mode))
        text = read_small(fd, n);
    close(fd);
    return text;
}

char *vh_earlier_run_read(int folder)
{
    size_t n;
    char *text = vh_earlier_run_file(folder, "run.json", &n);

    if (text && strncmp(text, "{\n  \"program\": \"vinehand\",\n", 27) != 0) {
        free(text);
        return NULL;
    }
    return text;
}

bool vh_earlier_run_wrote(const char *run_json, const char *name)
{
    char line[300];
    const int n = snprintf(line, sizeof line, "\"path\": \"%s\",\n", name);

    if (strcmp(name, "run.json") == 0)
        return true;
    return n > 0 && (size_t)n < sizeof line && strstr(run_json, line) != NULL;
}
