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
