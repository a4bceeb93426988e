#include "vh_earlier_run.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { LARGEST = 1 << 26 }; /* bytes; a run.json has a few thousand, promises grow by the year */

/* size: as the file says; it may have changed since. 0 or errno. */
static int read_all(int fd, size_t size, char **bytes, size_t *n)
{
    char *text = malloc(size + 1);
    size_t have = 0;
    int e = text ? 0 : ENOMEM;

    while (e == 0 && have < size) {
        const ssize_t got = read(fd, text + have, size - have);
        if (got < 0 && errno != EINTR)
            e = errno;
        if (got == 0)
            e = EIO; /* it became shorter: another program is at work there */
        have += got > 0 ? (size_t)got : 0;
    }
    if (e != 0) {
        free(text);
        return e;
    }
    text[size] = 0;
    *bytes = text;
    *n = size;
    return 0;
}

int vh_earlier_run_file(int folder, const char *name, char **bytes, size_t *n)
{
    /* O_NONBLOCK: a pipe of that name must not make us wait. */
    const int fd = openat(folder, name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    struct stat sb;
    int e = 0;

    *bytes = NULL;
    *n = 0;
    if (fd < 0)
        return errno == ENOENT || errno == ELOOP || errno == ENXIO ? 0 : errno;
    if (fstat(fd, &sb) != 0)
        e = errno;
    else if (S_ISREG(sb.st_mode))
        e = sb.st_size > LARGEST ? EFBIG : read_all(fd, (size_t)sb.st_size, bytes, n);
    close(fd);
    return e;
}

int vh_earlier_run_read(int folder, char **run_json)
{
    size_t n;
    const int e = vh_earlier_run_file(folder, "run.json", run_json, &n);

    if (*run_json && strncmp(*run_json, "{\n  \"program\": \"vinehand\",\n", 27) != 0) {
        free(*run_json);
        *run_json = NULL;
    }
    return e;
}

bool vh_earlier_run_is_of_houses(const char *run_json)
{
    return strstr(run_json, "\n  \"command\": \"houses\",\n") != NULL &&
           strstr(run_json, "\n  \"scenario\": ") == NULL;
}

bool vh_earlier_run_wrote(const char *run_json, const char *name)
{
    char line[300];
    const int n = snprintf(line, sizeof line, "\"path\": \"%s\",\n", name);

    if (strcmp(name, "run.json") == 0)
        return true;
    return n > 0 && (size_t)n < sizeof line && strstr(run_json, line) != NULL;
}

bool vh_earlier_run_is_whole(int folder, const char *run_json, const char *inputs_sha256)
{
    static const char path_key[] = "\"path\": \"", bytes_key[] = "\"bytes\": ";
    char line[128];
    const char *at;

    snprintf(line, sizeof line, "\"inputs_sha256\": \"%s\",\n", inputs_sha256);
    if (!strstr(run_json, line))
        return false;
    for (at = run_json; (at = strstr(at, path_key)) != NULL;) {
        char name[300];
        const char *from = at + sizeof path_key - 1, *end = strchr(from, '"');
        const char *digit = end ? strstr(end, bytes_key) : NULL;
        struct stat sb;
        off_t bytes = 0;

        if (!digit || (size_t)(end - from) >= sizeof name)
            return false;
        memcpy(name, from, (size_t)(end - from));
        name[end - from] = 0;
        for (digit += sizeof bytes_key - 1; *digit >= '0' && *digit <= '9'; digit++)
            bytes = bytes * 10 + (*digit - '0');
        if (fstatat(folder, name, &sb, AT_SYMLINK_NOFOLLOW) != 0 || !S_ISREG(sb.st_mode) ||
            sb.st_size != bytes)
            return false;
        at = digit;
    }
    return true;
}
