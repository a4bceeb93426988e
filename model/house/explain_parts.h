/* explain_parts.h - everything that has a name a person may ask for, one after the other; private
 * to the folder.
 *
 * Nothing is described here a second time: parameters come from the descriptor lists and the rows
 * read, keys from the tables of keys, columns from the tables of results, sources from sources.csv.
 */
#ifndef VH_EXPLAIN_PARTS_H
#define VH_EXPLAIN_PARTS_H

#include "vh_parameters.h"
#include "vh_table.h"

enum { VH_MEANING_ROOM = 200 }; /* bytes of a name, and of a short text put together */

/* One meaning of one name. Texts: "" where there is none; all borrowed for the call. */
struct vh_meaning {
    const char *what;  /* parameter, group, crop, key, table, item, column, file, source */
    const char *name;  /* whole: "planting.pick.days" */
    const char *alone; /* its last part: "days" */
    const char *list;  /* where it is found: "planting.pick", "weeks", "tomato-large" */
    const char *where; /* the same as a person writes it: "[planting.pick]", "weeks.csv" */
    const char *kind;  /* "number", "one of thin, thick" */
    const char *value, *unit;
    double low, high;    /* NaN: none */
    const char *example; /* of a key: as it may be written */
    const char *meaning;
    const char *basis, *source, *place, *note;
    const char *used_in;      /* header with the equation, or the file that uses it */
    const char *crops;        /* for which crops a parameter's row holds */
    int64_t line;             /* in the file; 0: none */
    bool as_member;           /* shown where its list is asked for, not by its name */
    bool other_units;         /* a name in another unit (picked_lb) asks for it too */
    bool has_range;           /* futures move it: it has a _p10 and a _p90 beside it */
    bool has_middle;          /* and a _p50: of a day that is the column itself */
    const struct vh_key *key; /* NULL: no key */
};

/* All texts "", no number. */
struct vh_meaning vh_meaning_empty(void);

typedef enum vh_status (*vh_meaning_take)(void *context, const struct vh_meaning *meaning);

/* Each hands over all it knows; stops at the first status that is not VH_OK and returns it. */
enum vh_status vh_meanings_of_keys(vh_meaning_take take, void *context);
enum vh_status vh_meanings_of_columns(vh_meaning_take take, void *context);
/* Columns of the files that the grower brings. */
enum vh_status vh_meanings_of_brought(const struct vh_parameters *p, vh_meaning_take take,
                                      void *context);
enum vh_status vh_meanings_of_items(vh_meaning_take take, void *context);
enum vh_status vh_meanings_of_parameters(const struct vh_parameters *p, vh_meaning_take take,
                                         void *context);
enum vh_status vh_meanings_of_sources(const struct vh_parameters *p, vh_meaning_take take,
                                      void *context);

/* The unit that a name ends in; "1": none. */
const char *vh_unit_of_name(const char *whole);
/* Adds "or picked_lb, picked_oz" to note; nothing where there is no other unit. */
void vh_other_units_said(const char *ours, bool is_difference, char note[VH_MEANING_ROOM]);
/* "one of "a", "b" or "c"" of "a|b|c" */
void vh_choices_said(const char *words, char text[VH_MEANING_ROOM]);

#endif
