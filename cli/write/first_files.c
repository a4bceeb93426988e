#include "vh_first_files.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "vh_folder_swap.h"
#include "vh_folder_tree.h"

enum { FILES_MOST = 8 };

/* WHY is for a person: what could not be done, and the system's reason. */
static enum vh_status system_says(char why[VH_WHY], const char *path, int e)
{
    snprintf(why, VH_WHY, "cannot write into %.900s: %s", path, vh_folder_fault(e));
    return VH_NO_FILE;
}

static enum vh_status may_not_last(char why[VH_WHY], const char *path, int e)
{
    snprintf(why, VH_WHY,
             "%.900s is written, but the disk may not keep it: %s; look into it before you do this "
             "again",
             path, strerror(e));
    return VH_NO_FILE;
}

static bool is_folder(const char *path)
{
    struct stat sb;

    return stat(path, &sb) == 0 && S_ISDIR(sb.st_mode);
}

/* Does `path` hold just what we would write? A run that was killed between two files left it. */
static bool is_written(const char *path, const struct vh_first_file *file)
{
    const int fd = open(path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    struct stat sb;
    char *bytes = file->bytes ? malloc(file->n + 1) : NULL;
    bool same = fd >= 0 && bytes && fstat(fd, &sb) == 0 && S_ISREG(sb.st_mode);

    same = same && read(fd, bytes, file->n + 1) == (ssize_t)file->n;
    same = same && memcmp(bytes, file->bytes, file->n) == 0;
    free(bytes);
    if (fd >= 0)
        close(fd);
    return same;
}

enum vh_status vh_first_files_check(const char *folder, const struct vh_first_file *file,
                                    size_t files, char why[VH_WHY])
{
    char path[PATH_MAX];
    struct stat sb;

    if (lstat(folder, &sb) != 0) {
        if (errno != ENOENT)
            return system_says(why, folder, errno);
        if (vh_folder_parent_is_there(folder))
            return VH_OK;
        snprintf(why, VH_WHY, "there is no folder %.*s; make it first",
                 (int)vh_folder_parent(folder), folder);
        return VH_BAD_INPUT;
    }
    if (!is_folder(folder)) {
        snprintf(why, VH_WHY, "%.900s is there already and is no folder; name a new one", folder);
        return VH_BAD_INPUT;
    }
    for (size_t i = 0; i < files; i++) {
        snprintf(path, sizeof path, "%s/%s", folder, file[i].name);
        if (lstat(path, &sb) == 0 && !is_written(path, &file[i])) {
            snprintf(why, VH_WHY,
                     "%.800s is there already and is left as it is; name another folder", path);
            return VH_BAD_INPUT;
        }
    }
    return VH_OK;
}

/* What killed runs left in a folder ("": this one); no reason to fail. */
static void clean(const char *folder)
{
    const int fd = open(folder[0] ? folder : ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);

    if (fd >= 0) {
        vh_folder_swap_clean(fd);
        close(fd);
    }
}

static int write_staged(const char *stage, const struct vh_first_file *file)
{
    char path[PATH_MAX];

    snprintf(path, sizeof path, "%s/%s", stage, file->name);
    const int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    return fd < 0 ? errno : vh_folder_write_file(fd, file->bytes, file->n);
}

enum vh_status vh_first_files_stage(const char *folder, const struct vh_first_file *file,
                                    size_t files, char **stage, int *held, char why[VH_WHY])
{
    static const char hidden[] = ".vh-start-XXXXXX";
    const bool there = is_folder(folder);
    const size_t n = there ? strlen(folder) : vh_folder_parent(folder);
    char *path = malloc(n + sizeof hidden + 1);
    int e = 0;

    if (!path) {
        snprintf(why, VH_WHY, "there is not enough memory");
        return VH_NO_MEMORY;
    }
    memcpy(path, folder, n);
    strcpy(path + n, there ? "/" : "");
    clean(path);
    strcat(path, hidden);
    if (!mkdtemp(path)) {
        e = errno;
        free(path);
        return system_says(why, folder, e);
    }
    *held = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (*held < 0)
        e = errno;
    else if (!vh_folder_swap_hold(*held))
        e = EAGAIN; /* another run cleaned it away in this very moment */
    const mode_t mask = umask(0);
    umask(mask);
    if (e == 0 && chmod(path, 0777 & ~mask) != 0) /* mkdtemp's folder is closed to all others */
        e = errno;
    for (size_t i = 0; i < files && e == 0; i++)
        e = write_staged(path, &file[i]);
    if (e == 0)
        e = vh_folder_sync(*held);
    if (e != 0) {
        vh_first_files_drop(path, *held, file, files);
        free(path);
        return system_says(why, folder, e);
    }
    *stage = path;
    return VH_OK;
}

/* Into a folder that is there: each file appears under its name or not at all. */
static enum vh_status add_to_folder(const char *folder, const char *stage,
                                    const struct vh_first_file *file, size_t files,
                                    char why[VH_WHY])
{
    const int from = open(stage, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    const int to = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    int e = from < 0 || to < 0 ? errno : 0;
    const char *added[FILES_MOST];
    size_t n = 0;
    char path[PATH_MAX];

    for (size_t i = files; i-- > 0 && e == 0;) {
        snprintf(path, sizeof path, "%s/%s", folder, file[i].name);
        if (is_written(path, &file[i]))
            continue;
        e = n < FILES_MOST ? vh_folder_mirror(from, to, file[i].name) : ENOMEM;
        if (e == 0)
            added[n++] = file[i].name;
    }
    while (e != 0 && n > 0)
        unlinkat(to, added[--n], 0);
    enum vh_status status = e == 0 ? VH_OK : system_says(why, folder, e);
    if (e == 0 && (e = vh_folder_sync(to)) != 0)
        status = may_not_last(why, folder, e);
    if (from >= 0)
        close(from);
    if (to >= 0)
        close(to);
    return status;
}

/* 0 or errno. */
static int sync_parent(const char *path)
{
    int fd, e = vh_folder_open_parent(path, &fd);

    if (e == 0 && fd >= 0)
        e = vh_folder_sync(fd);
    if (fd >= 0)
        close(fd);
    return e;
}

enum vh_status vh_first_files_commit(const char *folder, const char *stage,
                                     const struct vh_first_file *file, size_t files,
                                     char why[VH_WHY])
{
    if (is_folder(folder))
        return add_to_folder(folder, stage, file, files, why);
    /* Whatever took the name in the meantime makes this fail, unless it is an empty folder. */
    if (rename(stage, folder) != 0)
        return system_says(why, folder, errno);
    const int e = sync_parent(folder);
    return e == 0 ? VH_OK : may_not_last(why, folder, e);
}

void vh_first_files_drop(const char *stage, int held, const struct vh_first_file *file,
                         size_t files)
{
    char path[PATH_MAX];

    for (size_t i = 0; i < files; i++) {
        snprintf(path, sizeof path, "%s/%s", stage, file[i].name);
        unlink(path);
    }
    rmdir(stage);
    if (held >= 0)
        close(held);
}
