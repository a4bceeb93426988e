#include "vh_folder_tree.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { DEEPEST = 64 }; /* folders in folders that are followed */

const char *vh_folder_fault(int e)
{
    switch (e) {
    case ENOENT: /* where a folder is, but nothing can be made in it, the system's word misleads */
        return "nothing can be made there; name another folder";
    case EACCES:
    case EPERM:
        return "Permission denied; name another folder, or give yourself the right to write there";
    case EROFS:
        return "Read-only file system; name another folder";
    case ENOSPC:
        return "No space left on device; make room there, or name another folder";
    case ENAMETOOLONG:
        return "File name too long; give a shorter one";
    default:
        return strerror(e);
    }
}

size_t vh_folder_parent(const char *path)
{
    size_t n = strlen(path);

    while (n > 1 && path[n - 1] == '/')
        n--;
    while (n > 0 && path[n - 1] != '/')
        n--;
    return n;
}

bool vh_folder_parent_is_there(const char *path)
{
    const size_t n = vh_folder_parent(path);
    char *parent = n > 0 ? strndup(path, n) : strdup(".");
    struct stat sb;
    const bool is_there = parent && stat(parent, &sb) == 0 && S_ISDIR(sb.st_mode);

    free(parent);
    return is_there;
}

int vh_folder_open_parent(const char *path, int *fd)
{
    const size_t n = vh_folder_parent(path);
    char *parent = n > 0 ? strndup(path, n) : strdup(".");
    int e = parent ? 0 : ENOMEM;

    *fd = parent ? open(parent, O_RDONLY | O_DIRECTORY | O_CLOEXEC) : -1;
    if (e == 0 && *fd < 0 && errno != EACCES)
        e = errno;
    free(parent);
    return e;
}

DIR *vh_folder_entries(int folder)
{
    const int own = openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *entries;

    if (own < 0)
        return NULL;
    entries = fdopendir(own);
    if (!entries) {
        const int e = errno;
        close(own);
        errno = e;
    }
    return entries;
}

const char *vh_folder_next(DIR *entries)
{
    const struct dirent *d;

    do {
        errno = 0;
        d = readdir(entries);
        if (!d)
            return NULL;
    } while (strcmp(d->d_name, ".") == 0 || strcmp(d->d_name, "..") == 0);
    return d->d_name;
}

static int remove_deep(int parent, const char *name, int depth)
{
    int e = 0, fd;
    const char *entry;
    DIR *entries;

    if (unlinkat(parent, name, 0) == 0 || errno == ENOENT)
        return 0;
    if (errno != EISDIR && errno != EPERM)
        return errno;
    if (depth > DEEPEST)
        return ELOOP;
    fd = openat(parent, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (fd < 0)
        return errno;
    entries = vh_folder_entries(fd);
    if (!entries)
        e = errno;
    while (entries && e == 0 && (entry = vh_folder_next(entries)) != NULL)
        e = remove_deep(fd, entry, depth + 1);
    if (entries)
        closedir(entries);
    close(fd);
    if (e == 0 && unlinkat(parent, name, AT_REMOVEDIR) != 0)
        e = errno;
    return e;
}

int vh_folder_remove(int parent, const char *name)
{
    return remove_deep(parent, name, 0);
}

int vh_folder_write(int fd, const void *bytes, size_t n)
{
    const char *p = bytes;
    int e = 0;

    while (n > 0 && e == 0) {
        const ssize_t done = write(fd, p, n);

        if (done > 0) {
            p += done;
            n -= (size_t)done;
        } else if (done < 0 && errno != EINTR) {
            e = errno;
        }
    }
    return e;
}

int vh_folder_write_file(int fd, const void *bytes, size_t n)
{
    int e = vh_folder_write(fd, bytes, n);

    if (e == 0 && fsync(fd) != 0)
        e = errno;
    if (close(fd) != 0 && e == 0)
        e = errno;
    return e;
}

int vh_folder_sync(int folder)
{
    return fsync(folder) == 0 || errno == EINVAL ? 0 : errno;
}

static int copy_file(int from, int to, const char *name, const struct stat *sb)
{
    char block[65536];
    int e = 0, out;
    ssize_t got = 1;
    const int in = openat(from, name, O_RDONLY | O_NOFOLLOW | O_CLOEXEC);

    if (in < 0)
        return errno;
    out = openat(to, name, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
    if (out < 0) {
        e = errno;
        close(in);
        return e;
    }
    while (e == 0 && got > 0) {
        got = read(in, block, sizeof block);
        if (got < 0 && errno != EINTR)
            e = errno;
        for (ssize_t done = 0, w; e == 0 && done < got; done += w) {
            w = write(out, block + done, (size_t)(got - done));
            if (w < 0 && errno != EINTR)
                e = errno;
            w = w < 0 ? 0 : w;
        }
        got = got < 0 ? 1 : got;
    }
    close(in);
    if (e == 0 && fchmod(out, sb->st_mode & 07777) != 0)
        e = errno;
    if (e == 0) {
        const struct timespec times[2] = {sb->st_atim, sb->st_mtim};
        (void)futimens(out, times);
    }
    if (e == 0)
        return vh_folder_write_file(out, block, 0);
    close(out);
    return e;
}

static int mirror_link(int from, int to, const char *name)
{
    char target[4096];
    const ssize_t n = readlinkat(from, name, target, sizeof target - 1);

    if (n < 0)
        return errno;
    target[n] = 0;
    return symlinkat(target, to, name) == 0 ? 0 : errno;
}

static int mirror_deep(int from, int to, const char *name, int depth);

static int mirror_folder(int from, int to, const char *name, const struct stat *sb, int depth)
{
    const char *entry;
    DIR *entries = NULL;
    int e = 0, in = -1, out = -1;

    if (mkdirat(to, name, 0700) != 0)
        return errno;
    in = openat(from, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    out = openat(to, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (in < 0 || out < 0 || !(entries = vh_folder_entries(in)))
        e = errno;
    while (entries && e == 0 && (entry = vh_folder_next(entries)) != NULL)
        e = mirror_deep(in, out, entry, depth + 1);
    if (e == 0) /* a list that broke off would lose what was not seen */
        e = errno;
    if (e == 0)
        e = fchmod(out, sb->st_mode & 07777) == 0 ? vh_folder_sync(out) : errno;
    if (entries)
        closedir(entries);
    if (in >= 0)
        close(in);
    if (out >= 0)
        close(out);
    return e;
}

static int mirror_deep(int from, int to, const char *name, int depth)
{
    struct stat sb;

    if (fstatat(from, name, &sb, AT_SYMLINK_NOFOLLOW) != 0)
        return errno;
    if (depth > DEEPEST)
        return ELOOP;
    if (S_ISDIR(sb.st_mode))
        return mirror_folder(from, to, name, &sb, depth);
    if (S_ISLNK(sb.st_mode))
        return mirror_link(from, to, name);
    if (!S_ISREG(sb.st_mode))
        return EINVAL;
    if (linkat(from, name, to, name, 0) == 0)
        return 0;
    if (errno == EEXIST)
        return EEXIST;
    return copy_file(from, to, name, &sb); /* no links here, or not on somebody's file */
}

int vh_folder_mirror(int from, int to, const char *name)
{
    return mirror_deep(from, to, name, 0);
}
