/* vh_error.h - collecting what is wrong, so that a person sees every trouble of a run at once. */
#ifndef VH_ERROR_H
#define VH_ERROR_H

#include "vinehand.h"

/* Where in which file a message belongs. Value struct; pointers are borrowed for the call only. */
struct vh_place {
    const char *file;    /* NULL: none */
    int64_t line;        /* 0: none */
    int column;          /* 0: none */
    const char *excerpt; /* the line's text, NULL: none */
};

/* Adds a message (printf format) and returns `status`, so that callers can write `return
 * vh_fail(...)`. Strings are copied. The first 200 errors, 1000 warnings and 1000 notes are kept,
 * further ones only counted (vh_messages_count_of); text is cut at 2000 bytes, the excerpt at 500
 * (none if the column lies behind). m may be NULL (the message is dropped). If memory runs out the
 * message is dropped and VH_NO_MEMORY is returned. */
enum vh_status vh_fail(struct vh_messages *m, enum vh_status status, struct vh_place where,
                       const char *format, ...) __attribute__((format(printf, 4, 5)));
void vh_warn(struct vh_messages *m, struct vh_place where, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void vh_remark(struct vh_messages *m, struct vh_place where, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#define VH_NOWHERE ((struct vh_place){NULL, 0, 0, NULL})

#endif
