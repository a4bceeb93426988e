/* vh_param.h - one strict reader from params/ CSV rows
 * (name,value,unit,low,high,basis,source,place,note) into a struct. */
#ifndef VH_PARAM_H
#define VH_PARAM_H

#include "vh_error.h"

struct vh_digest;

enum vh_param_kind { VH_PARAM_NUMBER, VH_PARAM_CHOICE };

/* One field of a parameter struct: the list of these is the only link between a file and code. */
struct vh_param_field {
    const char *name; /* "truss.a_per_d" */
    const char *unit; /* "truss d-1"; "1" where there is none */
    enum vh_param_kind kind;
    size_t offset;       /* of a double (number) or an int (index of the choice) */
    const char *choices; /* VH_PARAM_CHOICE: "stage|mass" */
    const char *meaning; /* one line, for explain */
};

struct vh_param_row {
    char *name, *value_text, *unit, *basis, *source, *place, *note;
    double value, low, high; /* NaN where the file has none */
    char *file;              /* shown name */
    int64_t line;
    bool is_lent; /* its texts belong to a base, vh_param_bases */
};

struct vh_param_set {
    struct vh_param_row *row;
    size_t rows;
}; /* the rows in force, in file order */

/* Keys of sources.csv (key,authors,year,title,journal,doi,read). */
struct vh_sources;
enum vh_status vh_sources_read(const char *path, struct vh_digest *digest, struct vh_sources **out,
                               struct vh_messages *m);
/* A row of it; cells that are empty are "". */
struct vh_source {
    char *key, *authors, *year, *title, *journal, *doi, *read;
    int64_t line;
};

/* NULL: there is no such key. Lives as long as s. */
const struct vh_source *vh_sources_find(const struct vh_sources *s, const char *key);
size_t vh_sources_count(const struct vh_sources *s);
const struct vh_source *vh_sources_at(const struct vh_sources *s, size_t i);
/* Source keys stand in a cell with blanks or semicolons between them. Copies the first one at *at
 * into key ("" at the end) and moves *at behind it; false: it is longer than any key. */
enum { VH_SOURCE_KEY_ROOM = 64 };
bool vh_source_key_next(const char **at, char key[VH_SOURCE_KEY_ROOM]);
void vh_sources_free(struct vh_sources *s);

/* Reads folder/name.csv into target. A file may begin with a row named `base` whose value is
 * another file of the folder: its rows hold unless given again (chains of at most four). Refused
 * with file and line: unknown, missing or doubled names, another unit, a value outside low..high,
 * low above high, a basis that is none of published, derived, fitted, assumed, common practice,
 * from memory; published or derived without a source key; an unknown source key. set: filled with
 * the rows in force; the caller frees it by vh_param_set_clear. */
enum vh_status vh_param_read(const char *folder, const char *name,
                             const struct vh_param_field *fields, size_t field_count,
                             const struct vh_sources *sources, struct vh_digest *digest,
                             void *target, struct vh_param_set *set, struct vh_messages *m);
/* Files of one folder that others of it stand on: read and parsed once for all of them. Rows of
 * sets that were read with it point into it, so it outlives them. */
struct vh_param_bases;
struct vh_param_bases *vh_param_bases_new(void); /* NULL: no memory */
void vh_param_bases_free(struct vh_param_bases *bases);
/* vh_param_read with them; NULL: each base is read anew. The digest takes the bytes of every file
 * of the chain in either case. */
enum vh_status vh_param_read_on(struct vh_param_bases *bases, const char *folder, const char *name,
                                const struct vh_param_field *fields, size_t field_count,
                                const struct vh_sources *sources, struct vh_digest *digest,
                                void *target, struct vh_param_set *set, struct vh_messages *m);
/* Replaces one row by a scenario's value, with the same checks of range and choice. */
enum vh_status vh_param_replace(const struct vh_param_field *fields, size_t field_count,
                                struct vh_param_set *set, const char *name, double value,
                                struct vh_place where, void *target, struct vh_messages *m);
void vh_param_set_clear(struct vh_param_set *set);
const struct vh_param_row *vh_param_find(const struct vh_param_set *set, const char *name);

#endif
