/* vh_toml.h - a strict subset of TOML 1.0 (interface.md section 2) with exact places for every key
 * and value. */
#ifndef VH_TOML_H
#define VH_TOML_H

#include "vh_error.h"

#define VH_TOML_BYTES_MOST (1 << 20) /* of a text (interface.md section 2) */

enum vh_toml_kind {
    VH_TOML_TEXT,
    VH_TOML_NUMBER,
    VH_TOML_BOOL,
    VH_TOML_DATE,
    VH_TOML_LIST,
    VH_TOML_TABLE
};

struct vh_toml_value;

struct vh_toml_entry {
    const char *key;
    int64_t line;
    int column; /* of the key */
    struct vh_toml_value *value;
    struct vh_toml_entry *next; /* in file order */
};

struct vh_toml_value {
    enum vh_toml_kind kind;
    int64_t line;
    int column;       /* of the value, or of a table's header */
    const char *text; /* VH_TOML_TEXT: UTF-8, 0-terminated, no NUL inside */
    double number;
    bool is_integer; /* VH_TOML_NUMBER */
    bool truth;      /* VH_TOML_BOOL */
    int64_t day;     /* VH_TOML_DATE */
    size_t items;
    struct vh_toml_value **item; /* VH_TOML_LIST: values; an array of tables is a list of tables */
    bool is_table_array;
    struct vh_toml_entry *first; /* VH_TOML_TABLE */
};

struct vh_toml; /* owns the text and all values */

/* n bytes of UTF-8 (BOM accepted), LF or CRLF, at most VH_TOML_BYTES_MOST. On VH_BAD_INPUT *out is
 * NULL and every syntax error found (up to 20) is in m. */
enum vh_status vh_toml_parse(const char *text, size_t n, const char *shown_name,
                             struct vh_toml **out, struct vh_messages *m);
/* What a key is to hold, so that a word without quotes is answered by what would be right there. */
enum vh_toml_wanted {
    VH_TOML_ANY, /* text, or not known */
    VH_TOML_WANTS_NUMBER,
    VH_TOML_WANTS_AMOUNT, /* a number of which 0 says that there is none */
    VH_TOML_WANTS_DATE,
    VH_TOML_WANTS_TRUTH,
    VH_TOML_WANTS_LIST /* of text */
};
typedef enum vh_toml_wanted vh_toml_wants(const char *key, size_t n);
/* The same, with what the keys want; wanted NULL: nothing is known of them. */
enum vh_status vh_toml_parse_known(const char *text, size_t n, const char *shown_name,
                                   vh_toml_wants *wanted, struct vh_toml **out,
                                   struct vh_messages *m);
/* "sixty", "forty-eight", "two dozen" as a number (n bytes); below 0: no such words. */
int vh_toml_number_word(const char *at, size_t n);
/* "none", "off", "-" (n bytes): there is no such thing, or it is not done. */
bool vh_toml_is_nothing(const char *at, size_t n);
void vh_toml_free(struct vh_toml *t);
const struct vh_toml_value *vh_toml_root(const struct vh_toml *t);
/* The text of a line without its end, for excerpts; NULL if there is none. */
const char *vh_toml_line(const struct vh_toml *t, int64_t line);
const char *vh_toml_name(const struct vh_toml *t);
/* NULL if absent. */
const struct vh_toml_entry *vh_toml_find(const struct vh_toml_value *table, const char *key);

#endif
