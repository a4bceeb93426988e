/* faults.c - the program with calls to the system that fail when told to (linked by --wrap).
 *
 *     VH_FAULT=alloc|write|read|kill|room|sync|none   which calls: memory; what changes the disk;
 * what opens and reads; die (SIGKILL) before one that changes the disk; the disk is full after
 * VH_FAULT_AT bytes; what asks for the names in a folder to be on the disk
 *     VH_FAULT_AT=N                 the Nth such call of the run fails, from 1
 *     VH_FAULT_ON=1                 and all behind it
 *     VH_FAULT_STEPS=1              the file system cannot exchange two names, nor link a file
 *     VH_FAULT_ERRNO=N              with this errno (memory: ENOMEM)
 *     VH_FAULT_COUNT=FILE           how many such calls there were, written at the end
 */
#define _GNU_SOURCE
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum kind { NONE, ALLOC, WRITE, READ, KILL, ROOM, SYNC };

static enum kind asked = NONE;
static long at = 0, error_number = EIO;
static bool and_on = false, in_steps = false;
static atomic_long calls = 0, room_left = 0;
static const char *count_file = NULL;

/* Digits of the environment. */
static long number_of(const char *name, long otherwise)
{
    const char *text = getenv(name);
    long n = 0;

    if (!text)
        return otherwise;
    for (; *text >= '0' && *text <= '9'; text++)
        n = 10 * n + (*text - '0');
    return n;
}

__attribute__((constructor)) static void begin(void)
{
    static const char *const names[] = {"none", "alloc", "write", "read", "kill", "room", "sync"};
    const char *kind = getenv("VH_FAULT");

    for (int i = 0; kind && i <= SYNC; i++)
        if (strcmp(kind, names[i]) == 0)
            asked = (enum kind)i;
    at = number_of("VH_FAULT_AT", 0);
    atomic_store(&room_left, at);
    and_on = number_of("VH_FAULT_ON", 0) == 1;
    in_steps = number_of("VH_FAULT_STEPS", 0) == 1;
    error_number = number_of("VH_FAULT_ERRNO", asked == ROOM ? ENOSPC : EIO);
    count_file = getenv("VH_FAULT_COUNT");
}

__attribute__((destructor)) static void end(void)
{
    FILE *f;

    asked = NONE;
    if (count_file && (f = fopen(count_file, "w")) != NULL) {
        fprintf(f, "%ld\n", atomic_load(&calls));
        fclose(f);
    }
}

static bool is_hit(enum kind kind)
{
    if (asked != kind)
        return false;
    const long n = atomic_fetch_add(&calls, 1) + 1;
    return at > 0 && (n == at || (and_on && n > at));
}

static bool no_memory(void)
{
    if (!is_hit(ALLOC))
        return false;
    errno = ENOMEM;
    return true;
}

static bool fails_to(enum kind kind)
{
    if (kind == WRITE && is_hit(KILL))
        raise(SIGKILL);
    if (!is_hit(kind))
        return false;
    errno = (int)error_number;
    return true;
}

/* Each call: the real one is __real_NAME, ours __wrap_NAME. */
#define POINTER(name, parameters, arguments)                                                       \
    void *__real_##name parameters;                                                                \
    void *__wrap_##name parameters;                                                                \
    void *__wrap_##name parameters                                                                 \
    {                                                                                              \
        return no_memory() ? NULL : __real_##name arguments;                                       \
    }
POINTER(malloc, (size_t n), (n))
POINTER(calloc, (size_t n, size_t m), (n, m))
POINTER(realloc, (void *p, size_t n), (p, n))
POINTER(strdup, (const char *s), (s))
POINTER(strndup, (const char *s, size_t n), (s, n))
POINTER(open_memstream, (char **s, size_t *n), (s, n))
POINTER(gsl_matrix_alloc, (size_t n, size_t m), (n, m))
POINTER(gsl_vector_alloc, (size_t n), (n))
POINTER(gsl_multifit_linear_alloc, (size_t n, size_t m), (n, m))
POINTER(opendir, (const char *p), (p))
POINTER(fdopendir, (int fd), (fd))

#define CHANGES(name, parameters, arguments)                                                       \
    int __real_##name parameters;                                                                  \
    int __wrap_##name parameters;                                                                  \
    int __wrap_##name parameters                                                                   \
    {                                                                                              \
        return fails_to(WRITE) ? -1 : __real_##name arguments;                                     \
    }
CHANGES(fchmod, (int fd, mode_t m), (fd, m))
CHANGES(chmod, (const char *p, mode_t m), (p, m))
CHANGES(mkdir, (const char *p, mode_t m), (p, m))
CHANGES(mkdirat, (int d, const char *p, mode_t m), (d, p, m))
CHANGES(mkstemp, (char *p), (p))
CHANGES(rename, (const char *a, const char *b), (a, b))
CHANGES(renameat, (int d, const char *a, int e, const char *b), (d, a, e, b))
CHANGES(link, (const char *a, const char *b), (a, b))
CHANGES(symlinkat, (const char *a, int d, const char *b), (a, d, b))
CHANGES(unlink, (const char *p), (p))
CHANGES(unlinkat, (int d, const char *p, int f), (d, p, f))
CHANGES(rmdir, (const char *p), (p))

int __real_renameat2(int d, const char *a, int e, const char *b, unsigned f);
int __wrap_renameat2(int d, const char *a, int e, const char *b, unsigned f);
int __wrap_renameat2(int d, const char *a, int e, const char *b, unsigned f)
{
    if (in_steps) {
        errno = EINVAL;
        return -1;
    }
    return fails_to(WRITE) ? -1 : __real_renameat2(d, a, e, b, f);
}

int __real_linkat(int d, const char *a, int e, const char *b, int f);
int __wrap_linkat(int d, const char *a, int e, const char *b, int f);
int __wrap_linkat(int d, const char *a, int e, const char *b, int f)
{
    if (in_steps) {
        errno = EPERM;
        return -1;
    }
    return fails_to(WRITE) ? -1 : __real_linkat(d, a, e, b, f);
}

static bool is_folder(int fd)
{
    struct stat sb;

    return fstat(fd, &sb) == 0 && S_ISDIR(sb.st_mode);
}

int __real_fsync(int fd);
int __wrap_fsync(int fd);
int __wrap_fsync(int fd)
{
    return fails_to(WRITE) || (asked == SYNC && is_folder(fd) && fails_to(SYNC)) ? -1 : __real_fsync(fd);
}

char *__real_mkdtemp(char *p);
char *__wrap_mkdtemp(char *p);
char *__wrap_mkdtemp(char *p)
{
    return fails_to(WRITE) ? NULL : __real_mkdtemp(p);
}

ssize_t __real_write(int fd, const void *bytes, size_t n);
ssize_t __wrap_write(int fd, const void *bytes, size_t n);
ssize_t __wrap_write(int fd, const void *bytes, size_t n)
{
    if (fails_to(WRITE))
        return -1;
    if (asked != ROOM)
        return __real_write(fd, bytes, n);
    const long left = atomic_fetch_sub(&room_left, (long)n);
    atomic_fetch_add(&calls, (long)n);
    if (left <= 0) {
        errno = ENOSPC;
        return -1;
    }
    return __real_write(fd, bytes, left < (long)n ? (size_t)left : n);
}

ssize_t __real_read(int fd, void *bytes, size_t n);
ssize_t __wrap_read(int fd, void *bytes, size_t n);
ssize_t __wrap_read(int fd, void *bytes, size_t n)
{
    return fails_to(READ) ? -1 : __real_read(fd, bytes, n);
}

struct dirent *__real_readdir(DIR *d);
struct dirent *__wrap_readdir(DIR *d);
struct dirent *__wrap_readdir(DIR *d)
{
    return fails_to(READ) ? NULL : __real_readdir(d);
}

static mode_t mode_of(int flags, va_list more)
{
    return flags & O_CREAT ? va_arg(more, mode_t) : 0;
}

int __real_open(const char *p, int flags, ...);
int __wrap_open(const char *p, int flags, ...);
int __wrap_open(const char *p, int flags, ...)
{
    va_list more;

    va_start(more, flags);
    const mode_t mode = mode_of(flags, more);
    va_end(more);
    return fails_to(flags & O_CREAT ? WRITE : READ) ? -1 : __real_open(p, flags, mode);
}

int __real_openat(int d, const char *p, int flags, ...);
int __wrap_openat(int d, const char *p, int flags, ...);
int __wrap_openat(int d, const char *p, int flags, ...)
{
    va_list more;

    va_start(more, flags);
    const mode_t mode = mode_of(flags, more);
    va_end(more);
    return fails_to(flags & O_CREAT ? WRITE : READ) ? -1 : __real_openat(d, p, flags, mode);
}
