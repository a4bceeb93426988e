/* kept_words.h - what is said of spoilt input, kept as digests: for the t_complaints*.c beside this
 * file. Each says all that is told of one group of inputs into a digest (add, told), puts that
 * under the group's name (keep), and in the end asks whether all are as in its file (as_kept). */
#ifndef KEPT_WORDS_H
#define KEPT_WORDS_H

#include <criterion/criterion.h>
#include <stdarg.h>
#include <stdint.h>

#include "../unit/temp_folder.h"
#include "vh_digest.h"
#include "vinehand.h"

enum { KEPT_MOST = 64 * 1024 };

/* As make_folder, in memory where it can be: a disk may sync each file that is written again. */
static void make_light_folder(void)
{
    static const char light[] = "/dev/shm/vht-XXXXXX";

    _Static_assert(sizeof light == sizeof folder, "one name takes the other's place");
    if (access("/dev/shm", W_OK) == 0)
        memcpy(folder, light, sizeof light);
    make_folder();
}

static FILE *texts; /* all that is said, where VH_COMPLAINTS names a file for it */
static char now[KEPT_MOST];

__attribute__((format(printf, 2, 3))) static void add(struct vh_digest *d, const char *format, ...)
{
    char text[4000];
    va_list args;

    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    vh_digest_add(d, text, strlen(text));
    if (texts)
        fputs(text, texts);
}

enum { USUAL_MOST = 8, USUAL_ROOM = 300 };

/* What is said of the input before it is spoilt: left out, else each digest would move with it. */
static char usual[USUAL_MOST][USUAL_ROOM];
static size_t usuals;

static inline void take_as_usual(const struct vh_messages *m)
{
    for (size_t i = 0; i < vh_messages_count(m); i++) {
        cr_assert(usuals < USUAL_MOST);
        snprintf(usual[usuals++], USUAL_ROOM, "%s", vh_messages_at(m, i)->text);
    }
}

static bool is_usual(const char *text)
{
    for (size_t i = 0; i < usuals; i++)
        if (strncmp(text, usual[i], USUAL_ROOM - 1) == 0)
            return true;
    return false;
}

/* Lines of this file are told from this one on, those further away by their words alone: a line
 * more elsewhere moves nothing. NULL: as they are. */
static const char *own_file;
static int64_t own_line;

static const char *line_told(int64_t at, char said[32])
{
    enum { NEAR = 2 };
    const int64_t from = at - own_line;

    if (from >= 0 && from <= NEAR)
        snprintf(said, 32, "+%d", (int)from);
    else
        snprintf(said, 32, "elsewhere");
    return said;
}

/* Its "on line 12" likewise. */
static void tell_lines(const char *text, char *out, size_t room)
{
    static const char on_line[] = "line ";
    size_t n = 0;
    char said[32];

    while (*text && n + sizeof said < room) {
        const bool is_line = strncmp(text, on_line, strlen(on_line)) == 0 &&
                             text[strlen(on_line)] >= '0' && text[strlen(on_line)] <= '9';
        if (!is_line) {
            out[n++] = *text++;
            continue;
        }
        char *end;
        const long long at = strtoll(text + strlen(on_line), &end, 10);
        n += (size_t)snprintf(out + n, room - n, "%s%s", on_line, line_told(at, said));
        text = end;
    }
    out[n] = '\0';
}

static void add_own(struct vh_digest *d, const struct vh_message *one)
{
    char text[2000], said[32];

    tell_lines(one->text, text, sizeof text);
    add(d, " %d %s:%s:%d: %s [%s]\n", (int)one->severity, one->file, line_told(one->line, said),
        one->column, text, one->excerpt ? one->excerpt : "");
}

/* What was asked, how it ended, and each message with its place. The messages are freed. */
static void told(struct vh_digest *d, const char *what, enum vh_status status,
                 struct vh_messages *m)
{
    add(d, "%s: %d\n", what, (int)status);
    for (size_t i = 0; i < vh_messages_count(m); i++) {
        const struct vh_message *one = vh_messages_at(m, i);
        if (is_usual(one->text))
            continue;
        if (own_file && one->file && strcmp(one->file, own_file) == 0) {
            add_own(d, one);
            continue;
        }
        add(d, " %d %s:%d:%d: %s [%s]\n", (int)one->severity, one->file ? one->file : "",
            (int)one->line, one->column, one->text, one->excerpt ? one->excerpt : "");
    }
    vh_messages_free(m);
}

/* The digest of one group, as a line of what is now. */
static void keep(const struct vh_digest *d, const char *name, const char *way)
{
    char text[65];
    const size_t n = strlen(now);

    vh_digest_text(d, text);
    cr_assert(snprintf(now + n, sizeof now - n, "%.16s  %s, %s\n", text, name, way) <
              (int)(sizeof now - n));
}

static const char *beside(const char *name)
{
    static char path[1200];

    snprintf(path, sizeof path, "%s/frozen/%s", VINEHAND_TEST_DATA, name);
    return path;
}

/* *n: its bytes without the 0 behind them. To be freed. */
static char *whole(const char *path, size_t *n)
{
    char *text = calloc(1, KEPT_MOST);
    FILE *f = fopen(path, "rb");

    cr_assert(text && f, "%s", path);
    *n = fread(text, 1, KEPT_MOST - 1, f);
    cr_assert(*n < KEPT_MOST - 1, "%s", path);
    fclose(f);
    return text;
}

static void begin_words(void)
{
    const char *to = getenv("VH_COMPLAINTS");

    texts = to ? fopen(to, "w") : NULL;
}

/* All as kept in `file`? With VH_RENEW it is written anew. */
static void as_kept(const char *file)
{
    enum { TOLD_MOST = 8 };

    if (texts)
        fclose(texts);
    texts = NULL;
    if (getenv("VH_RENEW")) {
        FILE *f = fopen(beside(file), "w");
        cr_assert(f && fputs(now, f) >= 0 && fclose(f) == 0);
        return;
    }
    size_t n;
    char *kept = whole(beside(file), &n);
    int moved = 0;
    for (const char *a = kept, *b = now; *a || *b;) {
        const int na = (int)strcspn(a, "\n"), nb = (int)strcspn(b, "\n");
        const bool same = na == nb && strncmp(a, b, (size_t)na) == 0;
        cr_expect(same || moved >= TOLD_MOST, "moved: %.*s", nb, b);
        moved += !same;
        a += na + (a[na] == '\n');
        b += nb + (b[nb] == '\n');
    }
    cr_expect(moved <= TOLD_MOST, "%d lines moved in all", moved);
    free(kept);
}

#endif
