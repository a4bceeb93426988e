#define _XOPEN_SOURCE 700 /* realpath */

#include "vh_safe_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "vh_folder_swap.h"
#include "vh_folder_tree.h"

#define HIDDEN ".vh-note-XXXXXX"

static enum vh_status could_not(const char *path, int e, char why[VH_WHY])
{
    snprintf(why, VH_WHY, "%.400s cannot be written: %.200s; it is as it was", path, strerror(e));
    return VH_NO_FILE;
}

/* The old bytes are gone by then, so there is nothing to go back to. */
static enum vh_status may_not_last(const char *path, int e, char why[VH_WHY])
{
    snprintf(why, VH_WHY,
             "%.400s is written, but the disk may not keep it: %.200s; look into it before you do "
             "this again",
             path, strerror(e));
    return VH_NO_FILE;
}

/* The hidden file's name in the folder of `path`. NULL: no memory. */
static char *hidden_beside(const char *path)
{
    const char *slash = strrchr(path, '/');
    const size_t folder = slash ? (size_t)(slash - path) + 1 : 0;
    char *name = malloc(folder + sizeof HIDDEN);

    if (name) {
        memcpy(name, path, folder);
        memcpy(name + folder, HIDDEN, sizeof HIDDEN);
    }
    return name;
}

/* *same: does the open file still hold just these bytes, and does the name still stand for it? 0 or
 * errno: nobody knows. */
static int compare(int fd, const char *path, const void *old, size_t old_n, bool *same)
{
    struct stat opened, named;
    char *now = malloc(old_n + 1);
    size_t got = 0;
    ssize_t one = 1;
    int e = now ? 0 : ENOMEM;

    while (e == 0 && one != 0 && got <= old_n) {
        one = read(fd, now + got, old_n + 1 - got);
        if (one < 0 && errno != EINTR)
            e = errno;
        got += one > 0 ? (size_t)one : 0;
    }
    *same = e == 0 && one == 0 && got == old_n && memcmp(now, old, old_n) == 0 &&
            fstat(fd, &opened) == 0 && stat(path, &named) == 0 && opened.st_ino == named.st_ino &&
            opened.st_dev == named.st_dev;
    free(now);
    return e;
}

/* Waits for its turn among programs like this one. */
static int lock(int fd)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    int result;

    do
        result = fcntl(fd, F_SETLKW, &whole);
    while (result != 0 && errno == EINTR);
    return result == 0 || errno == ENOLCK || errno == EINVAL ? 0 : errno;
}

/* The hidden file, and in *held a lock on it that outlives the descriptor returned. -1: errno. */
static int make_hidden(char *hidden, int *held)
{
    enum { TRIES = 10 };
    char *letters = hidden + strlen(hidden) - strlen("XXXXXX");

    *held = -1;
    for (int i = 0; i < TRIES; i++) {
        strcpy(letters, "XXXXXX");
        const int fd = mkstemp(hidden);
        if (fd < 0)
            return -1;
        *held = dup(fd);
        if (*held >= 0 && vh_folder_swap_hold(*held))
            return fd;
        const int e = *held < 0 ? errno : EAGAIN;
        if (*held >= 0)
            close(*held);
        close(fd);
        unlink(hidden);
        *held = -1;
        errno = e;
    }
    return -1;
}

/* Fills the open file and closes it. 0 or errno. */
static int fill(int fd, mode_t mode, const void *bytes, size_t n)
{
    if (fchmod(fd, mode) == 0)
        return vh_folder_write_file(fd, bytes, n);
    const int e = errno;
    close(fd);
    return e;
}

static int take_name(const char *hidden, const char *path, bool is_new)
{
    if (is_new && link(hidden, path) == 0) {
        unlink(hidden);
        return 0;
    }
    if (is_new && errno == EEXIST)
        return EEXIST;
    return rename(hidden, path) == 0 ? 0 : errno;
}

/* mode: of the new file. is_new: no file of that name may be there. */
static enum vh_status put_in_place(const char *path, bool is_new, mode_t mode, const void *bytes,
                                   size_t n, char why[VH_WHY])
{
    char *hidden = hidden_beside(path);
    int fd = -1, held = -1, folder = -1;
    int e = hidden ? vh_folder_open_parent(path, &folder) : ENOMEM;
    enum vh_status status = VH_OK;

    if (folder >= 0)
        vh_folder_swap_clean(folder); /* what killed runs left */
    if (e == 0 && (fd = make_hidden(hidden, &held)) < 0)
        e = errno;
    if (e == 0)
        e = fill(fd, mode, bytes, n);
    if (e == 0)
        e = take_name(hidden, path, is_new);
    if (e != 0) {
        status = could_not(path, e, why);
        if (fd >= 0)
            unlink(hidden);
    } else if (folder >= 0 && (e = vh_folder_sync(folder)) != 0) {
        status = may_not_last(path, e, why);
    }
    if (held >= 0)
        close(held);
    if (folder >= 0)
        close(folder);
    free(hidden);
    return status;
}

static enum vh_status create(const char *path, const void *bytes, size_t n, char why[VH_WHY])
{
    const mode_t mask = umask(0);

    umask(mask);
    return put_in_place(path, true, 0666 & ~mask, bytes, n, why);
}

static enum vh_status replace(const char *path, const void *old, size_t old_n, const void *bytes,
                              size_t n, char why[VH_WHY])
{
    struct stat sb = {0};
    const int fd = open(path, O_RDWR | O_NONBLOCK | O_CLOEXEC);
    int e = fd < 0 || fstat(fd, &sb) != 0 ? errno : 0;
    enum vh_status status = VH_OK;
    bool same = false;

    if (e == 0 && !S_ISREG(sb.st_mode)) {
        snprintf(why, VH_WHY, "%.400s is no plain file; it is left alone", path);
        status = VH_BAD_INPUT;
    }
    if (e == 0 && status == VH_OK)
        e = lock(fd);
    if (e == 0 && status == VH_OK)
        e = compare(fd, path, old, old_n, &same);
    if (e == 0 && status == VH_OK && !same) {
        snprintf(why, VH_WHY,
                 "%.400s was changed by another program just now; nothing was written, try again",
                 path);
        status = VH_BAD_INPUT;
    }
    if (e == 0 && status == VH_OK)
        status = put_in_place(path, false, sb.st_mode & 07777, bytes, n, why);
    if (fd >= 0)
        close(fd);
    return e != 0 ? could_not(path, e, why) : status;
}

enum vh_status vh_safe_file_replace(const char *path, const void *old, size_t old_n,
                                    const void *bytes, size_t n, char why[VH_WHY])
{
    if (!old)
        return create(path, bytes, n, why);
    char *real = realpath(path, NULL); /* what a symbolic link points to is what is changed */
    if (!real)
        return could_not(path, errno, why);
    const enum vh_status status = replace(real, old, old_n, bytes, n, why);
    free(real);
    return status;
}

enum vh_status vh_safe_file_put(const char *path, const void *bytes, size_t n, char why[VH_WHY])
{
    const mode_t mask = umask(0);

    umask(mask);
    return put_in_place(path, false, 0666 & ~mask, bytes, n, why);
}
