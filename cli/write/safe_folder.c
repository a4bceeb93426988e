#define _XOPEN_SOURCE 700 /* realpath */
#include "vh_safe_folder.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "vh_earlier_run.h"
#include "vh_folder_files.h"
#include "vh_folder_swap.h"
#include "vh_folder_tree.h"

struct vh_safe_folder {
    char *shown;                 /* as the person named it */
    char name[NAME_MAX + 1];     /* in its parent */
    int parent, hidden_fd;       /* open folders; -1: none */
    char hidden[VH_HIDDEN_NAME]; /* "": none */
    struct vh_folder_files files;
};

__attribute__((format(printf, 2, 3))) static enum vh_status refuse(char why[VH_WHY],
                                                                   const char *format, ...)
{
    va_list arguments;

    va_start(arguments, format);
    vsnprintf(why, VH_WHY, format, arguments);
    va_end(arguments);
    return VH_BAD_INPUT;
}

static enum vh_status system_says(char why[VH_WHY], const char *shown, int e)
{
    snprintf(why, VH_WHY, "cannot write into %.400s: %s", shown, vh_folder_fault(e));
    return e == ENOMEM ? VH_NO_MEMORY : VH_NO_FILE;
}

/* The absolute path of the folder that holds (or will hold) `path`, and its name there. */
static enum vh_status resolve(const char *path, char parent[PATH_MAX], char name[NAME_MAX + 1],
                              char why[VH_WHY])
{
    struct stat sb;
    char whole[PATH_MAX], *slash;
    size_t n = strlen(path);

    if (n == 0)
        return refuse(why, "--out is empty; name a folder, as in --out out");
    if (n >= sizeof whole)
        return system_says(why, path, ENAMETOOLONG);
    if (stat(path, &sb) == 0) {
        if (!S_ISDIR(sb.st_mode))
            return refuse(why, "%s is not a folder; name a folder for --out", path);
        if (!realpath(path, whole))
            return system_says(why, path, errno);
    } else if (errno == ENOENT) {
        if (lstat(path, &sb) == 0)
            return refuse(why, "%s is a link to nothing; name a folder for --out", path);
        memcpy(whole, path, n + 1);
        while (n > 1 && whole[n - 1] == '/')
            whole[--n] = 0;
    } else if (errno == ENOTDIR) {
        return refuse(why, "a part of %s is a file, not a folder; name a folder for --out", path);
    } else {
        return system_says(why, path, errno);
    }
    slash = strrchr(whole, '/');
    if (strlen(slash ? slash + 1 : whole) > NAME_MAX)
        return system_says(why, path, ENAMETOOLONG);
    strcpy(name, slash ? slash + 1 : whole);
    if (slash == whole)
        slash[1] = 0;
    else if (slash)
        *slash = 0;
    if (!name[0])
        return refuse(why, "%s cannot hold results; name a folder for --out", path);
    if (!realpath(slash ? whole : ".", parent)) {
        if (errno != ENOENT)
            return system_says(why, path, errno);
        return refuse(why, "there is no folder %s to put %s into; make it first, or name another",
                      whole, name);
    }
    if (strncmp(name, ".vh-", 4) == 0)
        return refuse(why, "names that begin with .vh- are kept for unfinished runs; name another");
    return VH_OK;
}

/* The folder is there: is it empty, or one of ours, and not the one we stand in? */
static enum vh_status inspect_entries(int folder, const char *shown, char why[VH_WHY])
{
    char *run_json;
    const int e = vh_earlier_run_read(folder, &run_json);
    DIR *entries = e == 0 ? vh_folder_entries(folder) : NULL;
    enum vh_status status = VH_OK;
    const char *entry = NULL;
    struct stat sb;

    if (!entries)
        status = system_says(why, shown, e != 0 ? e : errno);
    else if (run_json && vh_earlier_run_is_of_houses(run_json))
        status = refuse(why, "%s holds the results of many houses; name another folder for --out",
                        shown);
    while (entries && status == VH_OK && (entry = vh_folder_next(entries)) != NULL) {
        if (!run_json)
            status = refuse(why,
                            "%s is not empty and holds no results of vinehand (no run.json "
                            "of ours); name an empty or a new folder for --out",
                            shown);
        else if (fstatat(folder, entry, &sb, AT_SYMLINK_NOFOLLOW) != 0)
            continue; /* gone again */
        else if (!S_ISREG(sb.st_mode) && !S_ISDIR(sb.st_mode) && !S_ISLNK(sb.st_mode))
            status = refuse(why,
                            "%s/%s is neither a file nor a folder; move it away, or name "
                            "another folder for --out",
                            shown, entry);
        else if (vh_earlier_run_wrote(run_json, entry) && S_ISDIR(sb.st_mode))
            status = refuse(why,
                            "%s/%s is a folder, and a result file is called so; move it away, or "
                            "name another folder for --out",
                            shown, entry);
    }
    if (status == VH_OK && !entry && errno != 0)
        status = system_says(why, shown, errno);
    if (entries)
        closedir(entries);
    free(run_json);
    return status;
}

static enum vh_status inspect(int parent, const char *parent_path, const char *name,
                              const char *shown, char why[VH_WHY])
{
    char whole[PATH_MAX + NAME_MAX + 2], here[PATH_MAX];
    struct stat sb;
    enum vh_status status;

    if (fstatat(parent, name, &sb, AT_SYMLINK_NOFOLLOW) != 0)
        return errno == ENOENT ? VH_OK : system_says(why, shown, errno);
    if (!S_ISDIR(sb.st_mode))
        return refuse(why, "%s is not a folder; name a folder for --out", shown);
    snprintf(whole, sizeof whole, "%s/%s", strcmp(parent_path, "/") == 0 ? "" : parent_path, name);
    const size_t n = strlen(whole);
    if (getcwd(here, sizeof here) && strncmp(here, whole, n) == 0 &&
        (here[n] == 0 || here[n] == '/'))
        return refuse(why,
                      "you stand in %s, and it will be replaced; go up (cd ..), or name "
                      "another folder for --out",
                      shown);
    const int fd = openat(parent, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (fd < 0)
        return system_says(why, shown, errno);
    status = inspect_entries(fd, shown, why);
    close(fd);
    return status;
}

enum vh_status vh_safe_folder_check(const char *path, char why[VH_WHY])
{
    char parent_path[PATH_MAX], name[NAME_MAX + 1];
    enum vh_status status = resolve(path, parent_path, name, why);

    if (status != VH_OK)
        return status;
    const int parent = open(parent_path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (parent < 0)
        return system_says(why, path, errno);
    if (faccessat(parent, ".", W_OK | X_OK, 0) != 0)
        status = system_says(why, path, errno);
    else
        status = inspect(parent, parent_path, name, path, why);
    close(parent);
    return status;
}

enum vh_status vh_safe_folder_tidy(const char *parent, char why[VH_WHY])
{
    const int fd = open(parent, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    const int e = fd < 0 ? errno : vh_folder_swap_recover(fd);

    if (e == 0)
        vh_folder_swap_clean(fd);
    if (fd >= 0)
        close(fd);
    return e == 0 ? VH_OK : system_says(why, parent, e);
}

/* tidy: what killed runs left beside it is put right first. */
static enum vh_status open_beside(const char *path, bool tidy, struct vh_safe_folder **out,
                                  char why[VH_WHY])
{
    char parent_path[PATH_MAX];
    struct vh_safe_folder *f = calloc(1, sizeof *f);
    enum vh_status status;
    int e = 0;

    if (!f || !(f->shown = strdup(path))) {
        free(f);
        return system_says(why, path, ENOMEM);
    }
    f->parent = f->hidden_fd = -1;
    status = resolve(path, parent_path, f->name, why);
    if (status == VH_OK) {
        f->parent = open(parent_path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
        if (f->parent < 0 || (tidy && (e = vh_folder_swap_recover(f->parent)) != 0))
            status = system_says(why, path, f->parent < 0 ? errno : e);
    }
    if (status == VH_OK)
        status = inspect(f->parent, parent_path, f->name, path, why);
    if (status == VH_OK) {
        if (tidy)
            vh_folder_swap_clean(f->parent);
        e = vh_folder_swap_make(f->parent, f->hidden, &f->hidden_fd);
        if (e != 0) {
            f->hidden[0] = 0;
            status = system_says(why, path, e);
        }
    }
    if (status != VH_OK) {
        vh_safe_folder_free(f);
        return status;
    }
    *out = f;
    return VH_OK;
}

enum vh_status vh_safe_folder_open(const char *path, struct vh_safe_folder **out, char why[VH_WHY])
{
    return open_beside(path, true, out, why);
}

enum vh_status vh_safe_folder_open_in_tidy(const char *path, struct vh_safe_folder **out,
                                           char why[VH_WHY])
{
    return open_beside(path, false, out, why);
}

/* A new file, or -1 with errno. */
static int create(const struct vh_safe_folder *f, const char *name)
{
    return openat(f->hidden_fd, name, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
}

enum vh_status vh_safe_folder_add(struct vh_safe_folder *f, const char *name, const void *bytes,
                                  size_t n, char why[VH_WHY])
{
    int fd = create(f, name);

    /* Where no more may be open, those that wait need not be. */
    if (fd < 0 && (errno == EMFILE || errno == ENFILE) && f->files.files > 0) {
        const int synced = vh_folder_files_sync(&f->files);
        if (synced != 0)
            return system_says(why, f->shown, synced);
        fd = create(f, name);
    }
    const int e = fd < 0 ? errno : vh_folder_files_add(&f->files, fd, bytes, n);

    return e == 0 ? VH_OK : system_says(why, f->shown, e);
}

/* What is in the old folder and not from an earlier run stands in the new one too. */
static enum vh_status carry_over(struct vh_safe_folder *f, int old, char why[VH_WHY])
{
    char *run_json;
    const int read_e = vh_earlier_run_read(old, &run_json);
    DIR *entries = read_e == 0 ? vh_folder_entries(old) : NULL;
    enum vh_status status =
        entries ? VH_OK : system_says(why, f->shown, read_e != 0 ? read_e : errno);
    const char *entry;

    while (entries && status == VH_OK && (entry = vh_folder_next(entries)) != NULL) {
        if (run_json && vh_earlier_run_wrote(run_json, entry))
            continue;
        const int e = vh_folder_mirror(old, f->hidden_fd, entry);
        if (e == EEXIST) {
            snprintf(why, VH_WHY,
                     "%s/%s is not from an earlier run and would be overwritten; "
                     "move it away",
                     f->shown, entry);
            status = VH_NO_FILE;
        } else if (e != 0) {
            snprintf(why, VH_WHY, "cannot keep %s/%s: %s", f->shown, entry, strerror(e));
            status = VH_NO_FILE;
        }
    }
    if (status == VH_OK && errno != 0) /* the list broke off: what was not seen would be lost */
        status = system_says(why, f->shown, errno);
    if (entries)
        closedir(entries);
    free(run_json);
    return status;
}

enum vh_status vh_safe_folder_old_file(const struct vh_safe_folder *f, const char *name,
                                       char **bytes, size_t *n, char why[VH_WHY])
{
    const int old = openat(f->parent, f->name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    int e = old < 0 && errno != ENOENT ? errno : 0;

    *bytes = NULL;
    *n = 0;
    if (old >= 0) {
        e = vh_earlier_run_file(old, name, bytes, n);
        close(old);
    }
    if (e == 0)
        return VH_OK;
    snprintf(why, VH_WHY, "%.400s/%.60s cannot be read, so nothing is replaced: %s", f->shown, name,
             strerror(e));
    return e == ENOMEM ? VH_NO_MEMORY : VH_NO_FILE;
}

static enum vh_status prepare(struct vh_safe_folder *f, char why[VH_WHY])
{
    const int old = openat(f->parent, f->name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    enum vh_status status = VH_OK;
    struct stat sb;

    if (old >= 0) {
        /* Somebody may have put things there while we were computing. */
        status = inspect_entries(old, f->shown, why);
        if (status == VH_OK)
            status = carry_over(f, old, why);
        if (status == VH_OK && fstat(old, &sb) == 0)
            (void)fchmod(f->hidden_fd, sb.st_mode & 07777);
        close(old);
    } else if (errno != ENOENT) {
        status = system_says(why, f->shown, errno);
    }
    const int e = status == VH_OK ? vh_folder_sync(f->hidden_fd) : 0;
    return e == 0 ? status : system_says(why, f->shown, e);
}

static enum vh_status commit(struct vh_safe_folder *f, bool in_steps, char why[VH_WHY])
{
    char old[VH_HIDDEN_NAME];
    int e = vh_folder_files_sync(&f->files);
    const enum vh_status status = e == 0 ? prepare(f, why) : system_says(why, f->shown, e);

    if (status != VH_OK)
        return status;
    e = vh_folder_swap(f->parent, f->hidden, f->name, in_steps, old);
    if (e != 0)
        return system_says(why, f->shown, e);
    f->hidden[0] = 0;
    e = vh_folder_swap_finish(f->parent, old);
    if (e == 0)
        return VH_OK;
    snprintf(why, VH_WHY,
             "%.400s is written, but the disk may not keep it: %s; run the same command again",
             f->shown, strerror(e));
    return VH_NO_FILE;
}

enum vh_status vh_safe_folder_commit(struct vh_safe_folder *f, char why[VH_WHY])
{
    return commit(f, false, why);
}

enum vh_status vh_safe_folder_commit_in_steps(struct vh_safe_folder *f, char why[VH_WHY])
{
    return commit(f, true, why);
}

void vh_safe_folder_free(struct vh_safe_folder *f)
{
    if (!f)
        return;
    vh_folder_files_drop(&f->files);
    if (f->hidden[0])
        (void)vh_folder_remove(f->parent, f->hidden);
    if (f->hidden_fd >= 0)
        close(f->hidden_fd);
    if (f->parent >= 0)
        close(f->parent);
    free(f->shown);
    free(f);
}
