#include "vh_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "vh_digest.h"

static struct vh_place in_file(const char *shown_name)
{
    return (struct vh_place){shown_name, 0, 0, NULL};
}

/* strerror is not asked: its text follows the locale and its buffer may be shared. */
static enum vh_status fail_open(int error, const char *shown_name, struct vh_messages *m)
{
    const struct vh_place where = in_file(shown_name);
    switch (error) {
    case ENOENT:
        return vh_fail(m, VH_BAD_INPUT, where,
                       "there is no such file; mend the name or put the file there");
    case ENOTDIR:
        return vh_fail(m, VH_BAD_INPUT, where,
                       "part of this name is a file, not a folder; mend the name");
    case EACCES:
    case EPERM:
        return vh_fail(m, VH_BAD_INPUT, where,
                       "may not be read; give yourself the right to read it");
    case ENAMETOOLONG:
        return vh_fail(m, VH_BAD_INPUT, where,
                       "the name is too long for this system; give a shorter one");
    case ELOOP:
        return vh_fail(m, VH_BAD_INPUT, where,
                       "links that lead round in a circle; name the file itself");
    case ENXIO:
    case EISDIR:
        return vh_fail(m, VH_BAD_INPUT, where, "is no plain file; name a file");
    default:
        return vh_fail(m, VH_NO_FILE, where, "could not be opened (system error %d)", error);
    }
}

enum vh_status vh_file_open(const char *path, const char *shown_name, int *descriptor,
                            struct vh_messages *m)
{
    /* without O_NONBLOCK the open of a pipe that nobody writes to would wait for ever */
    int fd;
    do {
        fd = open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    } while (fd < 0 && errno == EINTR);
    if (fd < 0)
        return fail_open(errno, shown_name, m);
    struct stat about;
    enum vh_status status = VH_OK;
    if (fstat(fd, &about) != 0)
        status = fail_open(errno, shown_name, m);
    else if (S_ISDIR(about.st_mode))
        status = vh_fail(m, VH_BAD_INPUT, in_file(shown_name), "is a folder; name a file");
    else if (!S_ISREG(about.st_mode))
        status = vh_fail(m, VH_BAD_INPUT, in_file(shown_name),
                         "is a pipe or a device; name a plain file");
    if (status == VH_OK)
        *descriptor = fd;
    else
        close(fd);
    return status;
}

enum vh_status vh_file_read_some(int descriptor, const char *shown_name, char *buffer, size_t room,
                                 size_t *got, struct vh_messages *m)
{
    ssize_t n;
    do {
        n = read(descriptor, buffer, room);
    } while (n < 0 && errno == EINTR);
    if (n < 0)
        return vh_fail(m, VH_NO_FILE, in_file(shown_name), "could not be read (system error %d)",
                       errno);
    *got = (size_t)n;
    return VH_OK;
}

static enum vh_status fail_memory(const char *shown_name, struct vh_messages *m)
{
    return vh_fail(m, VH_NO_MEMORY, in_file(shown_name), "memory is out; close other programs");
}

/* Reads to the end into a buffer that doubles; most + 1 bytes tell that there are too many. */
static enum vh_status read_to_end(int fd, const char *shown_name, size_t most, char **buffer,
                                  size_t *n, struct vh_messages *m)
{
    size_t room = 0, used = 0, got = 0;
    do {
        if (used == room) {
            room = room == 0 ? 64 * 1024 : 2 * room;
            char *more = realloc(*buffer, room + 1);
            if (more == NULL)
                return fail_memory(shown_name, m);
            *buffer = more;
        }
        const enum vh_status status =
            vh_file_read_some(fd, shown_name, *buffer + used, room - used, &got, m);
        if (status != VH_OK)
            return status;
        used += got;
    } while (got > 0 && used <= most);
    if (used > most)
        return vh_fail(m, VH_BAD_INPUT, in_file(shown_name),
                       "is larger than %zu bytes; is this the right file?", most);
    (*buffer)[used] = '\0';
    *n = used;
    return VH_OK;
}

enum vh_status vh_file_read(const char *path, const char *shown_name, size_t most,
                            struct vh_digest *digest, char **text, size_t *n, struct vh_messages *m)
{
    int fd = -1;
    enum vh_status status = vh_file_open(path, shown_name, &fd, m);
    if (status != VH_OK)
        return status;
    char *buffer = NULL;
    size_t length = 0;
    status = read_to_end(fd, shown_name, most, &buffer, &length, m);
    close(fd);
    if (status != VH_OK) {
        free(buffer);
        return status;
    }
    if (digest != NULL)
        vh_digest_add(digest, buffer, length);
    *text = buffer;
    *n = length;
    return VH_OK;
}

enum vh_status vh_file_digest(const char *path, const char *shown_name, struct vh_digest *digest,
                              struct vh_messages *m)
{
    char piece[16 * 1024];
    size_t got = 1;
    int fd = -1;
    enum vh_status status = vh_file_open(path, shown_name, &fd, m);

    if (status != VH_OK)
        return status;
    while (got > 0 && status == VH_OK) {
        status = vh_file_read_some(fd, shown_name, piece, sizeof piece, &got, m);
        if (status == VH_OK)
            vh_digest_add(digest, piece, got);
    }
    close(fd);
    return status;
}

bool vh_file_is_there(const char *path)
{
    return access(path, F_OK) == 0;
}
