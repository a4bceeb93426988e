/* vh_draft.h - a text that grows: what a file will hold before it is written. */
#ifndef VH_DRAFT_H
#define VH_DRAFT_H

#include <stdbool.h>
#include <stddef.h>

/* Start from {0}. After `failed` (memory ran out) every further call does nothing: look once, at
 * the end. */
struct vh_draft {
    char *bytes; /* not 0-terminated */
    size_t n, room;
    bool failed;
};

void vh_draft_clear(struct vh_draft *t);
void vh_draft_add_bytes(struct vh_draft *t, const char *bytes, size_t n);
void vh_draft_add(struct vh_draft *t, const char *string);
/* As "%.6g" in the C locale; nothing where the value is not finite; -0 as 0. */
void vh_draft_add_number(struct vh_draft *t, double value);
/* Two decimals; nothing where the value is not finite; -0 as 0. */
void vh_draft_add_money(struct vh_draft *t, double value);
/* All digits of a whole number; nothing where the value is not finite. */
void vh_draft_add_whole(struct vh_draft *t, double value);
/* A place in a drawing: to a tenth, without ".0" (whole beyond what any drawing has); nothing where
 * the value is not finite; -0 as 0. */
void vh_draft_add_place(struct vh_draft *t, double value);

#endif
