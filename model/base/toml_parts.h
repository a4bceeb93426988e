/* toml_parts.h - what the parts of the scenario reader share; for toml_*.c only. */
#ifndef VH_TOML_PARTS_H
#define VH_TOML_PARTS_H

#include "vh_toml.h"

enum {
    VH_TOML_ERRORS_MOST = 20,
    VH_TOML_KEYS_MOST = 1000, /* of one table: finding a key walks the list */
    VH_TOML_PARTS_MOST = 8,   /* of a dotted header */
    VH_TOML_SHOWN_BYTES = 60  /* of the person's own text within a message */
};

/* How a table came to be: decides whether a later header may name it. */
enum vh_toml_origin { VH_TOML_IMPLIED, VH_TOML_BY_HEADER, VH_TOML_INLINE };

/* A value with what only the reader needs. The value stands first, so that a pointer to it is one
 * to the node. */
struct vh_toml_node {
    struct vh_toml_value value;
    enum vh_toml_origin origin;
    struct vh_toml_entry *last; /* of a table */
    size_t keys, room;          /* of a table; of a list */
};

struct vh_toml_block; /* memory handed out piece by piece and freed at once */

struct vh_toml {
    char *name;
    char *text;    /* own copy with a 0 in place of each line end */
    size_t *start; /* of each line in text */
    size_t lines;
    struct vh_toml_block *block;
    struct vh_toml_node *root;
};

struct vh_toml_parser {
    const char *p, *end, *line_begin;
    int64_t line;
    struct vh_toml *toml;
    struct vh_messages *m;
    struct vh_toml_node *table; /* the one that key lines go to */
    vh_toml_wants *wanted;      /* NULL: nothing is known of the keys */
    const char *key;            /* whose value is read; NULL: none */
    size_t key_n;
    int errors;
    bool no_memory;
    bool at_next; /* after an error in a list: p already stands on the line to go on with */
};

/* ---- toml_tree.c ---- */

/* Zeroed memory that lives as long as the file; NULL, and p->no_memory, when memory is out. */
void *vh_toml_take(struct vh_toml_parser *p, size_t bytes);
char *vh_toml_take_text(struct vh_toml_parser *p, const char *text, size_t n);
/* A value that begins at `at` of the present line. */
struct vh_toml_node *vh_toml_node_create(struct vh_toml_parser *p, enum vh_toml_kind kind,
                                         const char *at);
struct vh_toml_node *vh_toml_node_of(struct vh_toml_value *value);
/* The entry of that key (n bytes), NULL if there is none. */
struct vh_toml_entry *vh_toml_entry_find(const struct vh_toml_node *table, const char *key,
                                         size_t n);
/* Adds a key that stands at `at`; false where it is there already, or one too many (then told). */
bool vh_toml_entry_add(struct vh_toml_parser *p, struct vh_toml_node *table, const char *at,
                       size_t n, struct vh_toml_node *value);
bool vh_toml_item_add(struct vh_toml_parser *p, struct vh_toml_node *list,
                      struct vh_toml_node *item);

/* ---- toml_scan.c ---- */

/* Tells what is wrong at `at` of the present line. */
void vh_toml_fail(struct vh_toml_parser *p, const char *at, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
/* At the end of the line or the file? */
bool vh_toml_at_end(const struct vh_toml_parser *p);
void vh_toml_skip_blanks(struct vh_toml_parser *p);
/* To the begin of the next line, or the end of the file. */
void vh_toml_next_line(struct vh_toml_parser *p);
bool vh_toml_is_key_char(char c);
/* The rest of the line from `at`, without a note, blanks and line end. */
size_t vh_toml_rest(const struct vh_toml_parser *p, const char *at);
/* Bytes of a curly quote that begins at `at`, or 0. */
size_t vh_toml_curly(const struct vh_toml_parser *p, const char *at);

/* ---- toml_text.c ---- */

/* Text in quotes at p; NULL: told. */
struct vh_toml_node *vh_toml_text(struct vh_toml_parser *p);

/* ---- toml_bare.c ---- */

/* Where a value stands: decides which signs end it. */
enum vh_toml_within { VH_TOML_IN_LINE, VH_TOML_IN_LIST, VH_TOML_IN_INLINE };

/* true, false, a number or a date at p; NULL: told. */
struct vh_toml_node *vh_toml_bare(struct vh_toml_parser *p, enum vh_toml_within within);

/* ---- toml_guess.c ---- */

/* Tells what is wrong with an unquoted value (n bytes at `at`, the rest of the line behind it), and
 * what would be right where that can be guessed. */
void vh_toml_guess(struct vh_toml_parser *p, const char *at, size_t n, enum vh_toml_within within);
/* Is this a number by TOML's own form? (leading zeros, a bare point and the like are none) */
bool vh_toml_is_number(const char *text, size_t n);
/* Without regard to capitals; word is in small letters. */
bool vh_toml_is_word(const char *text, size_t n, const char *word);

/* ---- toml_wanted.c ---- */

/* Words (n bytes at `at`) where the key wants a number, a date, true or false, or a list: told.
 * false: it may be text. */
bool vh_toml_tell_wanted(struct vh_toml_parser *p, const char *at, size_t n,
                         enum vh_toml_within within);
/* "yes" as this file writes it, "true"; NULL: no such word. */
const char *vh_toml_truth_of(const char *at, size_t n);

/* ---- toml_value.c ---- */

/* Any value at p; NULL: told. */
struct vh_toml_node *vh_toml_value(struct vh_toml_parser *p, enum vh_toml_within within);
/* Only blanks and a note may follow the value of a key line; false: told. */
bool vh_toml_line_ends(struct vh_toml_parser *p, const struct vh_toml_value *value);

/* ---- toml_header.c ---- */

/* [table] or [[table]] at p: makes it the parser's table. false: told. */
bool vh_toml_header(struct vh_toml_parser *p);

#endif
