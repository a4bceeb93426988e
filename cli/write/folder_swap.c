#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* renameat2 and flock; in this file alone */
#endif
#include "vh_folder_swap.h"

#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "vh_folder_tree.h"

/* Hidden names: .vh-XXXXXX a new set, .vh-old-XXXXXX the set it replaces, .vh-swap-XXXXXX the
 * journal of a swap in two steps; the letters of one swap agree. .vh-note-XXXXXX: one file of its
 * own (safe_file.c). */
#define NEW ".vh-"
#define OLD ".vh-old-"
#define JOURNAL ".vh-swap-"
#define FILE_ALONE ".vh-note-"
#define FIRST ".vh-start-" /* the first files of a new house (first_files.c) */
enum { LETTERS = 6, TRIES = 100 };

static const char alphabet[] = "ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz0123456789";

/* Also those of mkstemp, whose letters are more. */
static const char any_letter[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789";

/* The letters of a hidden name that begins with `head`; NULL if it is another kind of name. */
static const char *letters_of(const char *name, const char *head)
{
    const size_t n = strlen(head);

    if (strncmp(name, head, n) != 0 || strlen(name + n) != LETTERS)
        return NULL;
    return strspn(name + n, any_letter) == LETTERS ? name + n : NULL;
}

static void draw_letters(char letters[LETTERS + 1], unsigned turn)
{
    struct timespec now;
    uint64_t x;

    clock_gettime(CLOCK_REALTIME, &now);
    x = (uint64_t)now.tv_nsec ^ ((uint64_t)now.tv_sec << 30) ^ ((uint64_t)getpid() << 44);
    x = (x + turn) * 0x9E3779B97F4A7C15u;
    for (int i = 0; i < LETTERS; i++) {
        x ^= x >> 29;
        letters[i] = alphabet[x % (sizeof alphabet - 1)];
        x *= 0xBF58476D1CE4E5B9u;
    }
    letters[LETTERS] = 0;
}

bool vh_folder_swap_hold(int fd)
{
    struct stat sb;

    /* Where the file system knows no locks nobody else can hold it either. */
    if (flock(fd, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK)
        return false;
    return fstat(fd, &sb) == 0 && sb.st_nlink > 0;
}

int vh_folder_swap_make(int parent, char hidden[VH_HIDDEN_NAME], int *fd)
{
    for (unsigned turn = 0; turn < TRIES; turn++) {
        char letters[LETTERS + 1];

        draw_letters(letters, turn);
        snprintf(hidden, VH_HIDDEN_NAME, NEW "%s", letters);
        if (mkdirat(parent, hidden, 0777) != 0) {
            if (errno == EEXIST)
                continue;
            return errno;
        }
        *fd = openat(parent, hidden, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
        if (*fd < 0)
            continue;
        /* Another run may have cleaned it away before the lock was ours: then once more. */
        if (vh_folder_swap_hold(*fd) && faccessat(parent, hidden, F_OK, 0) == 0)
            return 0;
        close(*fd);
    }
    return EEXIST;
}

static int write_journal(int parent, const char *journal, const char *name)
{
    const int fd = openat(parent, journal, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);

    if (fd < 0)
        return errno;
    int e = vh_folder_write_file(fd, name, strlen(name));
    if (e == 0)
        e = vh_folder_sync(parent);
    if (e != 0)
        unlinkat(parent, journal, 0);
    return e;
}

static int swap_in_steps(int parent, const char *hidden, const char *name, const char *letters)
{
    char journal[VH_HIDDEN_NAME], old[VH_HIDDEN_NAME];
    int e;

    snprintf(journal, sizeof journal, JOURNAL "%s", letters);
    snprintf(old, sizeof old, OLD "%s", letters);
    e = write_journal(parent, journal, name);
    if (e != 0)
        return e;
    if (renameat(parent, name, parent, old) == 0) {
        if (renameat(parent, hidden, parent, name) == 0)
            return 0;
        e = errno;
        (void)renameat(parent, old, parent, name);
    } else {
        e = errno;
    }
    /* While the disk may show neither under the name, the journal tells what to do. */
    if (vh_folder_sync(parent) == 0)
        unlinkat(parent, journal, 0);
    return e;
}

int vh_folder_swap(int parent, const char *hidden, const char *name, bool in_steps,
                   char old[VH_HIDDEN_NAME])
{
    const char *letters = letters_of(hidden, NEW);
    struct stat sb;
    int e = 0;

    old[0] = 0;
    if (!letters)
        return EINVAL;
    if (fstatat(parent, name, &sb, AT_SYMLINK_NOFOLLOW) != 0) {
        if (errno != ENOENT)
            return errno;
        if (renameat(parent, hidden, parent, name) != 0)
            return errno;
        return 0;
    }
    if (in_steps || renameat2(parent, hidden, parent, name, RENAME_EXCHANGE) != 0) {
        if (!in_steps && errno != EINVAL && errno != ENOSYS && errno != EOPNOTSUPP)
            return errno;
        e = swap_in_steps(parent, hidden, name, letters);
        snprintf(old, VH_HIDDEN_NAME, OLD "%s", letters);
    } else {
        snprintf(old, VH_HIDDEN_NAME, "%s", hidden);
    }
    if (e != 0)
        old[0] = 0;
    return e;
}

int vh_folder_swap_finish(int parent, const char *old)
{
    const char *letters = letters_of(old, OLD);
    char journal[VH_HIDDEN_NAME];
    const int e = vh_folder_sync(parent);

    if (e != 0)
        return e;
    if (letters) {
        snprintf(journal, sizeof journal, JOURNAL "%s", letters);
        unlinkat(parent, journal, 0);
    }
    if (old[0])
        (void)vh_folder_remove(parent, old); /* if not now, then by the next run */
    return 0;
}

/* True if a living run holds this hidden folder or file. */
static bool is_held(int parent, const char *hidden)
{
    const int fd = openat(parent, hidden, O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC);
    bool held = false;

    if (fd >= 0) {
        held = flock(fd, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK;
        close(fd);
    }
    return held;
}

static int finish_journal(int parent, const char *journal, const char *letters)
{
    char name[256], hidden[VH_HIDDEN_NAME], old[VH_HIDDEN_NAME];
    const int fd = openat(parent, journal, O_RDONLY | O_NOFOLLOW | O_CLOEXEC);
    ssize_t n;

    if (fd < 0)
        return errno == ENOENT ? 0 : errno;
    n = read(fd, name, sizeof name - 1);
    close(fd);
    snprintf(hidden, sizeof hidden, NEW "%s", letters);
    snprintf(old, sizeof old, OLD "%s", letters);
    if (is_held(parent, hidden))
        return 0;
    if (n > 0) {
        name[n] = 0;
        /* The journal is written when the new set is whole: finish forward, else go back. */
        if (!strchr(name, '/') && faccessat(parent, name, F_OK, AT_SYMLINK_NOFOLLOW) != 0 &&
            renameat(parent, hidden, parent, name) != 0 &&
            renameat(parent, old, parent, name) != 0 && errno != ENOENT)
            return errno;
        const int e = vh_folder_sync(parent);
        if (e != 0)
            return e;
    }
    return unlinkat(parent, journal, 0) == 0 || errno == ENOENT ? 0 : errno;
}

int vh_folder_swap_recover(int parent)
{
    DIR *entries = vh_folder_entries(parent);
    const char *entry, *letters;
    int e = 0;

    if (!entries)
        return errno;
    while (e == 0 && (entry = vh_folder_next(entries)) != NULL)
        if ((letters = letters_of(entry, JOURNAL)) != NULL)
            e = finish_journal(parent, entry, letters);
    closedir(entries);
    return e;
}

/* Are these the letters of a swap that is not finished? Its folders are all that is left of a set.
 */
static bool is_in_swap(int parent, const char *letters)
{
    char journal[VH_HIDDEN_NAME];

    snprintf(journal, sizeof journal, JOURNAL "%s", letters);
    return faccessat(parent, journal, F_OK, AT_SYMLINK_NOFOLLOW) == 0;
}

void vh_folder_swap_clean(int parent)
{
    DIR *entries = vh_folder_entries(parent);
    const char *entry;
    struct stat sb;

    while (entries && (entry = vh_folder_next(entries)) != NULL) {
        const bool is_file = letters_of(entry, FILE_ALONE) != NULL;
        const char *letters = letters_of(entry, NEW);
        letters = letters ? letters : letters_of(entry, OLD);
        if (letters && is_in_swap(parent, letters))
            continue;
        if (!letters_of(entry, NEW) && !letters_of(entry, OLD) && !letters_of(entry, FIRST) &&
            !is_file)
            continue;
        if (fstatat(parent, entry, &sb, AT_SYMLINK_NOFOLLOW) == 0 &&
            (is_file ? S_ISREG(sb.st_mode) : S_ISDIR(sb.st_mode)) && sb.st_uid == geteuid() &&
            !is_held(parent, entry))
            (void)vh_folder_remove(parent, entry);
    }
    if (entries)
        closedir(entries);
}
