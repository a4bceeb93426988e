/* vh_text_buffer.h - a text that grows: what a file will hold before it is written. */
#ifndef VH_TEXT_BUFFER_H
#define VH_TEXT_BUFFER_H

#include <stdbool.h>
#include <stddef.h>

/* Start from {0}. After `failed` (memory ran out) every further call does nothing: look once, at the
 * end. */
struct vh_text {
    char *bytes;        /* not 0-terminated */
    size_t n, room;
    bool failed;
};

void vh_text_clear(struct vh_text *t);
void vh_text_add_bytes(struct vh_text *t, const char *bytes, size_t n);
void vh_text_add(struct vh_text *t, const char *string);
/* As "%.6g" in the C locale; nothing where the value is not finite; -0 as 0. */
void vh_text_add_number(struct vh_text *t, double value);
/* All digits of a whole number; nothing where the value is not finite. */
void vh_text_add_whole(struct vh_text *t, double value);

#endif
