/* param_parts.h - what the parts of the parameter reader share; for param_*.c only. */
#ifndef VH_PARAM_PARTS_H
#define VH_PARAM_PARTS_H

#include "vh_name_index.h"
#include "vh_param.h"

/* The fields of a struct and where each name stands. */
struct vh_param_fields {
    const struct vh_param_field *field;
    size_t count;
    struct vh_name_index index;
};

/* The field of that name, NULL if there is none. */
const struct vh_param_field *vh_param_field_find(const struct vh_param_fields *fields,
                                                 const char *name);
/* The field name nearest to this one, NULL if none is near. */
const char *vh_param_field_near(const struct vh_param_field *fields, size_t count,
                                const char *name);

/* Index of the choice in "stage|mass", -1 if it is none. */
int vh_param_choice_index(const char *choices, const char *text);

/* Is the row's name, value, unit, range, basis and source right for its field? One message a fault.
 * sources: NULL, keys are not looked up. */
enum vh_status vh_param_row_check(const struct vh_param_row *row,
                                  const struct vh_param_fields *fields,
                                  const struct vh_sources *sources, struct vh_messages *m);

/* The set's rows as a list of names. */
struct vh_named_list vh_param_rows_named(const struct vh_param_set *set);

/* Writes the checked row's value into the field of target. */
void vh_param_row_put(const struct vh_param_row *row, const struct vh_param_field *field,
                      void *target);

/* folder/name.csv; NULL when memory is out. */
char *vh_param_path(const char *folder, const char *name);

/* param_bases.c: vh_param_file_read, where a file that is a base is kept and lent; bases: NULL or
 * those of the folder. */
enum vh_status vh_param_file_lend(struct vh_param_bases *bases, bool is_base, const char *folder,
                                  const char *name, struct vh_digest *digest,
                                  struct vh_param_set *set, const char **base,
                                  struct vh_messages *m);

void vh_param_row_clear(struct vh_param_row *row);
/* A copy of text, NULL when memory is out. */
char *vh_param_text_copy(const char *text);

/* Reads folder/name.csv alone; the caller clears set by vh_param_set_clear, on failure too. *base:
 * NULL, or the file that a first row `base` names (a pointer into set's first row, which stays
 * there). Checks form, not meaning. */
enum vh_status vh_param_file_read(const char *folder, const char *name, struct vh_digest *digest,
                                  struct vh_param_set *set, const char **base,
                                  struct vh_messages *m);

#endif
