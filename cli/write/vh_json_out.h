/* vh_json_out.h - JSON by RFC 8259, indented, in the order of the calls. */
#ifndef VH_JSON_OUT_H
#define VH_JSON_OUT_H

#include "vh_draft.h"

/* Start from {.out = ...}. `key` is NULL inside a list. */
struct vh_json {
    struct vh_draft *out;
    int depth;
    bool has_item; /* of the open object or list */
};

void vh_json_open(struct vh_json *j, const char *key, char bracket); /* '{' or '[' */
void vh_json_close(struct vh_json *j, char bracket);                 /* '}' or ']' */
/* Bytes that are no UTF-8 become U+FFFD. */
void vh_json_text(struct vh_json *j, const char *key, const char *value);
/* null where the value is not finite. */
void vh_json_whole(struct vh_json *j, const char *key, double value);
/* Digits as they stand: for numbers that a double cannot hold. */
void vh_json_digits(struct vh_json *j, const char *key, const char *digits);

#endif
