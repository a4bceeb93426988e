/* record_parts.h - what the files of the records reader hand to each other; private to the folder.
 */
#ifndef VH_RECORD_PARTS_H
#define VH_RECORD_PARTS_H

#include "vh_brought.h"
#include "vh_csv.h"
#include "vh_house.h"
#include "vh_units.h"

/* How an item can be mistaken. Bounds of what such a thing can be at all; nothing of the model
 * hangs on them. */
struct vh_item_kind {
    const char *name;  /* for the two with a task: what stands before it */
    bool of_planting;  /* whole planting; else the mean of the stems looked at */
    bool by_stem;      /* `of` counts stems: no more than stand there */
    bool by_truss;     /* of one truss: without its number nothing follows from it */
    bool only_rises;   /* over the season */
    bool is_sum;       /* may be small any day; only far too much is a slip */
    bool is_whole;     /* counted piece by piece */
    double most;       /* more of it cannot be (a plant where of_planting); 0: no bound */
    double most_per_d; /* it cannot rise faster; 0: no bound */
};
const struct vh_item_kind *vh_item_kind(enum vh_record_item item);

/* What a word of the file stands for. */
struct vh_item_word {
    enum vh_record_item item;
    enum vh_task task;
    struct vh_unit_pair unit; /* from the word's unit to ours */
    char unit_word[4];        /* "lb" of picked_lb; "": ours */
};
enum vh_item_found { VH_ITEM_NONE, VH_ITEM_FOUND, VH_ITEM_TWO };
/* "picked_lb", "done_lower". VH_ITEM_TWO: it may be two of them (stem_in), item and *other. */
enum vh_item_found vh_item_of_word(const char *word, struct vh_item_word *w,
                                   enum vh_record_item *other);
/* "did you mean picked_kg?", or how to write what is known by weight alone, in hint
 * (VH_ITEM_HINT bytes); in the unit of the word, kg or lb, else in that of the house; false: nothing
 * is near. */
#define VH_ITEM_HINT 200
bool vh_item_hint(const char *word, bool us_units, char *hint, size_t room);
/* "picked_kg", "done_lower" of a record; "picked_lb" where she wrote pounds. */
void vh_item_say(const struct vh_record *r, char *text, size_t room);
/* A value of its item in the unit in which she wrote it. */
double vh_item_wrote(const struct vh_record *r, double value);

/* ---- the header ---- */

enum vh_record_role {
    VH_ROLE_NONE,
    VH_ROLE_DATE,
    VH_ROLE_PLANTING,
    VH_ROLE_ITEM,
    VH_ROLE_VALUE,
    VH_ROLE_TRUSS,
    VH_ROLE_OF,
    VH_ROLE_NOTE,
    VH_ROLE_MEASURE /* wide form: a column of one item */
};

/* The columns of the long form; those of the wide one are items. */
enum vh_status vh_record_columns(vh_brought_take take, void *context);

struct vh_record_column {
    enum vh_record_role role;
    struct vh_item_word word;
    char *name; /* of the header, without the blanks around it */
};

/* A line as it was read: where a further note may find its place. */
struct vh_record_line {
    int64_t line, day;
    size_t planting;
    int truss, of;
    bool good;
    bool sure; /* its note begins with `right` */
};

struct vh_record_sheet {
    struct vh_record_column *column;
    size_t columns;
    bool is_wide;
    bool us_units;  /* of the house */
    bool has_comma; /* a number with a decimal comma was read */
    bool has_point;
    struct vh_record_line *line;
    size_t lines, lines_room;
};
void vh_record_sheet_clear(struct vh_record_sheet *s);
/* The column of a role, -1: none. */
int vh_sheet_column(const struct vh_record_sheet *s, enum vh_record_role role);

/* Fills the columns from the header. */
enum vh_status vh_record_header(struct vh_record_sheet *s, const struct vh_csv_row *row,
                                struct vh_column_map *map, size_t maps, struct vh_messages *m);

/* The header line of a new file, by the names that the scenario gives to its columns; freed by
 * free(), NULL: no memory. */
char *vh_record_new_header(const struct vh_column_map *map, size_t maps);

/* ---- the whole ---- */

struct vh_record_count {
    int64_t rows, first_line, last_line;
};
/* Rows of the file of which something is told. */
struct vh_record_found {
    struct vh_record_count after_today, before_seen, repeated, no_truss;
};

/* ---- cells ---- */

struct vh_record_reading {
    const struct vh_house *house;
    const struct vh_record_params *params;
    struct vh_records *out;
    size_t room;
    struct vh_record_sheet *sheet;
    struct vh_messages *messages;
    char decimal; /* '.', or 0 where the separator leaves both open */
    struct vh_record_found found;
    bool line_good;
    enum vh_status status; /* VH_BAD_INPUT: some row is wrong; the rest is still read */
};

/* An error at this row; the row is not used. */
void vh_record_wrong(struct vh_record_reading *r, const struct vh_csv_row *row, const char *format,
                     ...) __attribute__((format(printf, 3, 4)));
/* The cell without blanks around it; "" where it is empty or the column is -1. */
void vh_record_cell(const struct vh_csv_row *row, int column, char *text, size_t room);
bool vh_record_number(struct vh_record_reading *r, const char *text, double *value);
/* A whole number from 1 to most; 0: the cell is empty or wrong. */
int vh_record_whole(struct vh_record_reading *r, const struct vh_csv_row *row,
                    enum vh_record_role role, const char *name, int most);
/* Each says what is wrong where it returns false. */
bool vh_record_date(struct vh_record_reading *r, const struct vh_csv_row *row, int64_t *day);
bool vh_record_planting(struct vh_record_reading *r, const struct vh_csv_row *row,
                        size_t *planting);

/* Fills r->report and warns of what was not used. */
enum vh_status vh_record_report(struct vh_records *r, const struct vh_record_found *f,
                                const char *shown, struct vh_messages *m);

/* Reads text (n bytes) called `shown` into out and sheet. out->row holds what is used. */
enum vh_status vh_record_sheet_read(const struct vh_house *house, const struct vh_record_params *p,
                                    const char *text, size_t n, const char *shown,
                                    struct vh_records *out, struct vh_record_sheet *sheet,
                                    struct vh_messages *m);
/* Marks what cannot be; one warning each. */
void vh_records_doubt(struct vh_records *r, const struct vh_house *house,
                      const struct vh_record_params *p, const char *shown, struct vh_messages *m);

/* Adds an entry to those of its item and day (NaN: none yet); beside one that is not doubted a
 * doubted one counts for nothing. */
void vh_record_add_to(double *sum, bool *doubt, const struct vh_record *a);

/* Does the row not fit what the planting is (record_fits.c)? beside_slip: it is a pick, and what was
 * noted of it the other way, by number or by weight, is a slip, so it is not held against that.
 * why: what it is held against. */
enum { VH_FITS_ROOM = 128 };
bool vh_record_is_odd(const struct vh_records *r, size_t row, const struct vh_planting *p,
                      const struct vh_record_params *params, bool beside_slip,
                      char why[VH_FITS_ROOM]);
/* Is it a mass in kg where all that were noted of its planting before (where none were: of the
 * house) are in lb, in a house that is told of in lb; or the other way? */
bool vh_record_is_other_unit(const struct vh_records *r, size_t row, const struct vh_house *house,
                             char why[VH_FITS_ROOM]);
/* Mass of a fruit, g: the median of her own weights (fruit_g), else what the planting is said to
 * be picked at; 0: not known, or no memory. */
double vh_record_usual_fruit_g(const struct vh_records *r, size_t planting,
                               const struct vh_planting *p);
/* Is the row a pick left undone on a day on which one was weighed or counted? */
bool vh_record_is_picked_undone(const struct vh_records *r, size_t row, char why[VH_FITS_ROOM]);
/* Was so much of that day's pick (of_kg) thrown away that it is asked whether that is right? */
bool vh_record_is_much_thrown(const struct vh_records *r, size_t row,
                              const struct vh_record_params *params, double *of_kg);

enum { VH_RECORDS_BYTES_MOST = 4 << 20 };

#endif
