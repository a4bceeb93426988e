/* ranges_parts.h - what the two halves of vh_ranges.h share: laying upon each other, and reducing.
 */
#ifndef RANGES_PARTS_H
#define RANGES_PARTS_H

#include "vh_name_index.h"
#include "vh_ranges.h"

struct vh_cell {
    double number;
    char *text; /* NULL: not a text, or empty */
};

/* One part of a row's name; a text is one of the words. */
union vh_name_part {
    double number;
    const char *text;
};

struct vh_ranges_row {
    uint64_t hash;
    size_t seen;       /* by so many members */
    size_t last, from; /* tags: who was here last, whose cells these are; the mean run 1, member m
                          m + 2; 0: nobody */
    bool is_first;     /* of its name */
    struct vh_cell *cell; /* [columns] */
    double *value;        /* [member][moved column] */
};

struct vh_ranges {
    enum vh_result_table_id id;
    size_t members, columns;
    double promise;
    const struct vh_column *column;
    enum vh_column_role *role; /* [columns] */
    size_t *moved;             /* [columns] its place among the moved ones */
    size_t *moving, moves;     /* [moves] those: all but keys and what is fixed */
    size_t *key, keys;         /* [keys] the columns of the name, numbers before texts */
    struct vh_ranges_row *row;
    size_t rows, room, mean_rows;
    bool is_ready; /* all rows have their members' room filled */
    /* [rows][keys] names close together, each word of them kept once: every row of every member is
     * held against one */
    union vh_name_part *name;
    char **word;
    size_t words, word_room;
    struct vh_name_index word_at;
    size_t next;  /* the row behind the last one found: most tables come in one order */
    size_t *slot; /* [slots] row + 1; 0: empty */
    size_t slots;
};

#endif
