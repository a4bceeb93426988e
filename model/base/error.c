#include "vh_error.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A log of a million bad rows must not fill the memory: beyond these a message is only counted. */
enum {
    ERRORS_KEPT = 200,
    OTHERS_KEPT = 1000,
    TEXT_BYTES = 2000,
    EXCERPT_BYTES = 500,
    SEVERITIES = 3
};

struct vh_messages {
    struct vh_message **kept; /* each in a block of its own, so that views stay where they are */
    size_t count, room;
    size_t found[SEVERITIES];
};

const char *vh_status_text(enum vh_status status)
{
    switch (status) {
    case VH_OK:
        return "good";
    case VH_FILLED:
        return "good, but a gap was filled or a bound was reached";
    case VH_BAD_INPUT:
        return "a file or a value is wrong";
    case VH_NO_MEMORY:
        return "memory is out";
    case VH_NO_FILE:
        return "a file could not be read or written";
    case VH_NO_NUMBER:
        return "a numerical method gave no answer";
    case VH_INTERRUPTED:
        return "stopped on request";
    }
    return "unknown status";
}

const char *vh_version(void)
{
    return VINEHAND_VERSION;
}

struct vh_messages *vh_messages_create(void)
{
    return calloc(1, sizeof(struct vh_messages));
}

void vh_messages_free(struct vh_messages *m)
{
    if (m == NULL) {
        return;
    }
    for (size_t i = 0; i < m->count; i++) {
        free(m->kept[i]);
    }
    free(m->kept);
    free(m);
}

size_t vh_messages_count(const struct vh_messages *m)
{
    return m == NULL ? 0 : m->count;
}

size_t vh_messages_count_of(const struct vh_messages *m, enum vh_severity severity)
{
    return m == NULL || (unsigned)severity >= SEVERITIES ? 0 : m->found[severity];
}

const struct vh_message *vh_messages_at(const struct vh_messages *m, size_t i)
{
    return m == NULL || i >= m->count ? NULL : m->kept[i];
}

/* Length of text cut to at most `limit` bytes without splitting a UTF-8 letter. */
static size_t cut_length(const char *text, size_t limit)
{
    const size_t length = strnlen(text, limit + 1);
    if (length <= limit) {
        return length;
    }
    size_t end = limit;
    while (end > 0 && ((unsigned char)text[end] & 0xC0) == 0x80) {
        end--;
    }
    return end;
}

/* Copies n bytes and a 0 to *at and moves *at behind them. */
static const char *put(char **at, const char *text, size_t n)
{
    char *start = *at;
    memcpy(start, text, n);
    start[n] = '\0';
    *at = start + n + 1;
    return start;
}

/* One block holds the message and its strings. NULL when memory is out. */
static struct vh_message *message_create(enum vh_severity severity, struct vh_place where,
                                         const char *text)
{
    /* an excerpt that ends before the column would carry its caret in the wrong place */
    const char *excerpt = where.column > EXCERPT_BYTES ? NULL : where.excerpt;
    const size_t file_n = where.file == NULL ? 0 : strlen(where.file);
    const size_t text_n = cut_length(text, TEXT_BYTES);
    const size_t excerpt_n = excerpt == NULL ? 0 : cut_length(excerpt, EXCERPT_BYTES);
    struct vh_message *message = malloc(sizeof *message + file_n + text_n + excerpt_n + 3);
    if (message == NULL) {
        return NULL;
    }
    char *at = (char *)(message + 1);
    message->severity = severity;
    message->file = where.file == NULL ? NULL : put(&at, where.file, file_n);
    message->line = where.line;
    message->column = where.column;
    message->text = put(&at, text, text_n);
    message->excerpt = excerpt == NULL ? NULL : put(&at, excerpt, excerpt_n);
    return message;
}

static bool make_room(struct vh_messages *m)
{
    if (m->count < m->room) {
        return true;
    }
    const size_t room = m->room == 0 ? 16 : 2 * m->room;
    struct vh_message **kept = realloc(m->kept, room * sizeof *kept);
    if (kept == NULL) {
        return false;
    }
    m->kept = kept;
    m->room = room;
    return true;
}

/* Whether the message is kept or, past the bound, counted; false when memory is out. */
__attribute__((format(printf, 4, 0))) static bool add(struct vh_messages *m,
                                                      enum vh_severity severity,
                                                      struct vh_place where, const char *format,
                                                      va_list args)
{
    if (m == NULL) {
        return true;
    }
    const size_t bound = severity == VH_ERROR ? ERRORS_KEPT : OTHERS_KEPT;
    if (++m->found[severity] > bound) {
        return true;
    }
    char text[TEXT_BYTES + 5]; /* room for a letter cut at the bound to be seen as such */
    if (vsnprintf(text, sizeof text, format, args) < 0) {
        text[0] = '\0';
    }
    struct vh_message *message = make_room(m) ? message_create(severity, where, text) : NULL;
    if (message == NULL) {
        m->found[severity]--; /* nobody can read it: the caller says that memory is out */
        return false;
    }
    m->kept[m->count++] = message;
    return true;
}

enum vh_status vh_fail(struct vh_messages *m, enum vh_status status, struct vh_place where,
                       const char *format, ...)
{
    va_list args;
    va_start(args, format);
    const bool good = add(m, VH_ERROR, where, format, args);
    va_end(args);
    return good ? status : VH_NO_MEMORY;
}

void vh_warn(struct vh_messages *m, struct vh_place where, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    (void)add(m, VH_WARNING, where, format, args);
    va_end(args);
}

void vh_remark(struct vh_messages *m, struct vh_place where, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    (void)add(m, VH_NOTE, where, format, args);
    va_end(args);
}
