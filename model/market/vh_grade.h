/* vh_grade.h - size classes, and which share of the fruit falls into each.
 *
 * Sizes of fruit picked on one day are taken as log-normal: a mass cannot be below 0, the few big
 * ones make a longer tail than the small ones, and as mass = a D^e a diameter D is log-normal
 * then as well, so that both kinds of table are read from the same curve [our assumption].
 *
 *     s^2 = log(1 + CV^2),  mu = log(mean) - s^2/2
 *     share of the fruits below x = Phi((log x - mu)/s)
 *     share of the mass below x   = Phi((log x - mu)/s - s)      (first moment of the log-normal)
 */
#ifndef VH_GRADE_H
#define VH_GRADE_H

#include "vh_brought.h"
#include "vh_error.h"

enum { VH_GRADES_MOST = 50 }; /* classes of a table */

enum vh_grade_measure { VH_GRADE_DIAMETER_MM, VH_GRADE_MASS_G };

/* Neighbours may overlap, as in the tables of the trade: a fruit counts for the largest class
 * whose least size it reaches. */
struct vh_grade {
    char *name;
    double from, to; /* to endless: no upper limit */
};

struct vh_grades {
    enum vh_grade_measure measure;
    struct vh_grade *grade; /* from small to large */
    size_t grades;
};

/* Reads a table `grade,measure,from,to,basis,source,place,note` (to empty: no limit, last row
 * only; the last four columns may be absent). Refused with file and line: another header, no rows,
 * a name that is empty, too long or doubled, a measure that is neither diameter_mm nor mass_g or
 * differs from the row above, limits that are no numbers or fall, a gap between two classes.
 * VH_BAD_INPUT, VH_NO_FILE, VH_NO_MEMORY: `out` is empty then. digest may be NULL. */
struct vh_digest;
enum vh_status vh_grades_read(const char *path, const char *shown_name, struct vh_digest *digest,
                              struct vh_grades *out, struct vh_messages *m);
enum vh_status vh_grades_read_memory(const char *text, size_t n, const char *shown_name,
                                     struct vh_grades *out, struct vh_messages *m);
void vh_grades_clear(struct vh_grades *g);
/* The place of a name; grades->grades where there is no such class. */
size_t vh_grade_find(const struct vh_grades *g, const char *name);

/* Fruit of one pick. The relation is read only where the classes go by diameter. */
struct vh_grade_fruit {
    double mass_g, mass_cv;         /* mean above 0, coefficient of variation from 0 */
    double mass_a_g, mass_exponent; /* mass = mass_a_g * (D/mm)^mass_exponent */
};

struct vh_grade_share {
    double fruits, mass; /* of all fruits, of all mass: 0 to 1 */
};

/* share: [grades + 2], one a class, then what is too small for the first and too large for the
 * last. They sum to 1. All unknown where the mean mass is not above 0. */
void vh_grade_shares(const struct vh_grades *g, const struct vh_grade_fruit *fruit,
                     struct vh_grade_share *share);

/* The columns of such a file. */
enum vh_status vh_grade_columns(vh_brought_take take, void *context);

#endif
