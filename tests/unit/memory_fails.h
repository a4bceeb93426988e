/* memory_fails.h - memory that runs out when told to: tests/CMakeLists.txt links the tests that
 * include this so that what the library asks for comes through here. */
#ifndef MEMORY_FAILS_H
#define MEMORY_FAILS_H

#include <criterion/criterion.h>
#include <criterion/new/assert.h>
#include <stdlib.h>
#include <string.h>

#include "vinehand.h"

static long left = 0; /* calls until one fails; 0: none does */

static bool fails(void)
{
    return left > 0 && --left == 0;
}

void *__real_malloc(size_t n);
void *__real_calloc(size_t n, size_t size);
void *__real_realloc(void *p, size_t n);
char *__real_strdup(const char *text);
void *__wrap_malloc(size_t n);
void *__wrap_calloc(size_t n, size_t size);
void *__wrap_realloc(void *p, size_t n);
char *__wrap_strdup(const char *text);

void *__wrap_malloc(size_t n)
{
    return fails() ? NULL : __real_malloc(n);
}

void *__wrap_calloc(size_t n, size_t size)
{
    return fails() ? NULL : __real_calloc(n, size);
}

void *__wrap_realloc(void *p, size_t n)
{
    return fails() ? NULL : __real_realloc(p, n);
}

char *__wrap_strdup(const char *text)
{
    return fails() ? NULL : __real_strdup(text);
}

/* Fails one call after the other of `read` (every step-th, one in a hundred more the later it is)
 * until it comes through, with the status at_end: before that it is VH_NO_MEMORY, and what is told,
 * if anything still can be, speaks of memory. VH_BAD_INPUT: what is read is wrong besides. */
static void at_each_place(const char *what, enum vh_status (*read)(struct vh_messages *m),
                          long step, enum vh_status at_end)
{
    long places = 0;

    for (long n = 1;; n += step + n / 100, places++) {
        struct vh_messages *m = vh_messages_create();
        left = n;
        const enum vh_status status = read(m);
        const bool came = left > 0;
        left = 0;
        if (came)
            cr_assert(at_end == VH_OK ? status >= VH_OK : status == at_end,
                      "%s: with memory enough %d %s", what, status,
                      vh_messages_count(m) ? vh_messages_at(m, 0)->text : "");
        else
            cr_assert(eq(int, status, VH_NO_MEMORY), "%s: call %ld", what, n);
        for (size_t i = 0; !came && at_end == VH_OK && i < vh_messages_count(m); i++)
            cr_assert(vh_messages_at(m, i)->severity != VH_ERROR ||
                          strstr(vh_messages_at(m, i)->text, "memory") != NULL,
                      "%s: call %ld says %s", what, n, vh_messages_at(m, i)->text);
        vh_messages_free(m);
        if (came)
            break;
    }
    cr_assert(lt(long, 0, places), "%s", what);
}

#endif
