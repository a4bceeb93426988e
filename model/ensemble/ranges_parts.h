/* ranges_parts.h - what the two halves of vh_ranges.h share: laying upon each other, and reducing.
 */
#ifndef RANGES_PARTS_H
#define RANGES_PARTS_H

#include "vh_name_index.h"
#include "vh_ranges.h"
#include "vh_table.h"

struct vh_cell {
    double number;
    char *text; /* NULL: not a text, or empty */
};

enum { VH_BITS = 64 };

/* Rows of which the same moved columns are quiet: unknown in the mean run, or 0. In most futures
 * they are so too, and have no room with the others, which are kept. */
struct vh_ranges_kind {
    uint64_t quiet, unknown; /* as bits; those of the quiet ones that are unknown */
    size_t kept, quiets;
    unsigned char keeps[VH_BITS], rests[VH_BITS]; /* which moved columns; none with more of them */
};

struct vh_ranges_row {
    /* what is looked at for every row of every member lies together */
    size_t last, from; /* tags: who was here last, whose cells these are; the mean run 1, member m
                          m + 2; 0: nobody */
    size_t behind;     /* the row that came behind it the last time, most likely so again */
    size_t seen;       /* by so many members */
    double *value;     /* [member][kept of its kind] */
    size_t kind;
    bool is_first; /* of its name */
    /* [moved column] of a quiet one [members + VH_SIDE], where a future brought another number;
     * NULL: in all it is what the mean run has. */
    double **late;
    uint64_t *lacks; /* a bit a member: it has not brought the row, so its numbers are not there */
    uint64_t hash;
    struct vh_cell *cell; /* [columns] */
};

/* Rooms of many rows, in one piece. */
struct vh_ranges_shelf {
    double *value;
    uint64_t *lacks;
    size_t rows, placed; /* so many rows of it are given, */
    size_t numbers;      /* with so many numbers a member */
};

struct vh_ranges {
    enum vh_result_table_id id;
    size_t members, columns;
    double promise;
    const struct vh_column *column;
    enum vh_column_role *role; /* [columns] */
    bool *planned;             /* [columns] the plain number is the mean run's */
    size_t task;               /* column with the name of a task; columns: there is none */
    size_t *moved;             /* [columns] its place among the moved ones */
    size_t *moving, moves;     /* [moves] those: all but keys and what is fixed */
    bool is_moved_together;    /* they stand side by side */
    size_t *key, keys;         /* [keys] the columns of the name, numbers before texts */
    size_t number_keys;        /* so many are numbers */
    struct vh_ranges_row *row;
    size_t rows, room, mean_rows;
    bool is_ready;               /* all rows have their members' room */
    struct vh_ranges_kind *kind; /* [kinds]; the first keeps all */
    size_t kinds, kind_room;
    struct vh_ranges_shelf *shelf; /* [shelves] the rooms: the mean run's rows stand on the first */
    size_t shelves;
    /* [rows][keys] names close together, for every row of every member is held against one. A text
     * that outlives the tables is here itself, so that it is known by its place; of others each
     * word is kept once. */
    union vh_table_cell *name;
    char **word;
    size_t words, word_room;
    struct vh_name_index word_at;
    size_t first; /* the row that a table began with the last time */
    size_t last;  /* the row found before, of the table that is being taken; VH_MEAN_RUN: none */
    size_t *slot; /* [slots] row + 1; 0: empty */
    size_t slots;
};

/* A set of members as bits. */
static inline size_t vh_bits_of(size_t members)
{
    return members / VH_BITS + 1;
}

/* Has the moved column no room with the others? */
static inline bool vh_is_quiet(const struct vh_ranges *r, const struct vh_ranges_row *row,
                               size_t move)
{
    return move < VH_BITS && (r->kind[row->kind].quiet >> move & 1) != 0;
}
static inline size_t vh_ranges_kept(const struct vh_ranges *r, const struct vh_ranges_row *row)
{
    return r->kind[row->kind].kept;
}
/* Room of its own for a quiet column, with the mean run's number for all; VH_NO_MEMORY. */
enum vh_status vh_ranges_wake(const struct vh_ranges *r, struct vh_ranges_row *row, size_t move);

#endif
