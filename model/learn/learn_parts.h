/* learn_parts.h - inside of learning: what was recorded, what a season says of it, what is unknown.
 * For the files of learn/ only.
 */
#ifndef VH_LEARN_PARTS_H
#define VH_LEARN_PARTS_H

#include "vh_ensemble.h"
#include "vh_learn.h"

#define VH_LEARN_NONE ((size_t)-1)

/* One number of the records that a season can be asked for. */
struct vh_learn_value {
    size_t planting; /* among those learnt of */
    enum vh_record_item item;
    int truss;           /* 0: of none */
    int64_t from, until; /* of a sum, or of what is measured on it; else both the day */
    size_t look;         /* of the planting; VH_LEARN_NONE: the days tell it */
    double value;
    double entry_sd; /* of the entry alone */
    double of_kg;    /* thrown away of a pick that weighed so much; 0: not known */
};

/* The house as far as its records go: the plantings that have any, up to the day after the last
 * entry (on its last day a season is cleared). */
struct vh_learn_past {
    struct vh_scenario scenario; /* the house's own but for these plantings and fewer days */
    struct vh_planting *planting;
    size_t *of; /* [planting] its index in the house */
    int64_t **look;
    struct vh_learn_value *value;
    size_t values;
};
enum vh_status vh_learn_past_init(const struct vh_scenario *s, struct vh_learn_past *past);
void vh_learn_past_clear(struct vh_learn_past *past);

/* Can a season be asked for such an item? false: it is taken as done (fruits_left, lowered_cm), is
 * of the trade (sold_kg, minutes), or nothing in the model stands for it. */
bool vh_learn_can_tell(enum vh_record_item item);
/* What a season says in place of the value; unknown where it has none (no fruit picked yet).
 * marketable: the member's factor. */
double vh_learn_predict(const struct vh_learn_value *v, const struct vh_house *house,
                        const struct vh_season *s, double marketable);

/* An unknown is one of enum vh_kept_kind, or the bias of all entries of an item in a planting, in
 * its sd. */
#define VH_LEARN_BIAS VH_KEPT_KINDS

struct vh_learn_unknown {
    enum vh_kept_kind kind;
    size_t planting;          /* among those learnt of; light and offset: of none */
    enum vh_record_item item; /* of a bias */
};

struct vh_learning {
    const struct vh_scenario *scenario;
    struct vh_learn_past past;
    size_t members;
    struct vh_learn_unknown *unknown;
    size_t unknowns;
    double *state;            /* [member][unknown] logs of factors, K, sd */
    double *predicted;        /* [member][value] */
    double *observed, *sd;    /* [value] as the smoother gets them */
    double *mean;             /* [value] of what the members foresee; NaN: few foresee any */
    double *level;            /* [value] room for vh_learn_size */
    double *size;             /* [value] vh_learn_size; 0: a slip */
    struct vh_member *factor; /* [member][planting of past] */
    double *log_offset_c;     /* [member] */
    double *unsteady; /* [planting of past] how far its picks stray, against the usual house */
};

/* A pick, in number or mass? */
bool vh_learn_is_pick(const struct vh_learn_value *v);
/* Which entries are picks of one planting and no slips, *n of them; freed by free(). NULL: no
 * memory.
 */
size_t *vh_learn_picks_of(const struct vh_learning *l, size_t planting, size_t *n);
/* The middle of an entry's days, as a day number. */
double vh_learn_middle_d(const struct vh_learn_value *v);
/* What the errors of value i that are a share are a share of. Wants mean. */
double vh_learn_size(struct vh_learning *l, size_t i);
/* How far an entry may stray with its neighbours, as a share; 0: it is no pick. */
double vh_learn_stray_sd(const struct vh_learning *l, const struct vh_learn_value *v);
/* Variances of an entry where `size` is what is foreseen: of its own and of what has changed since;
 * of the model, in the usual house. */
struct vh_learn_error {
    double own, model;
};
struct vh_learn_error vh_learn_error_of(const struct vh_learning *l, const struct vh_learn_value *v,
                                        double size);
/* How far the picks of each planting stray, by the entries against the futures as the book has
 * them; also for each member (learn_unsteady.c). predicted, size: before anything was learnt. */
enum vh_status vh_learn_unsteady(struct vh_learning *l);
/* Picks of one planting stray from the model together (vh_stray.h): turns predicted and observed
 * into as many numbers whose errors are independent, with sd 1. VH_NO_MEMORY, VH_NO_NUMBER. */
enum vh_status vh_learn_decorrelate(struct vh_learning *l);
/* How far each member's picks stray today, by what is left between them and the entries. predicted
 * is of the members as they were learnt, sd of the values as in the last pass. */
enum vh_status vh_learn_stray(struct vh_learning *l);
/* Which unknowns the values can tell of, and their priors for each member. */
enum vh_status vh_learn_unknowns_init(struct vh_learning *l);
/* The state into factors and offsets. */
void vh_learn_apply(struct vh_learning *l);
/* Does an item say anything of a mechanism beyond the little that hangs together by way of the
 * plant's light? What it does not speak of keeps its prior, instead of moving by chance. */
bool vh_learn_speaks_of(enum vh_record_item item, enum vh_kept_kind kind);
/* Index of the bias that a value shares; VH_LEARN_NONE: it has none. */
size_t vh_learn_bias_of(const struct vh_learning *l, const struct vh_learn_value *v);
/* Standard deviation of the prior of an unknown: of the log of a factor, of K. */
double vh_learn_prior_sd(const struct vh_learning *l, const struct vh_learn_unknown *u);

/* The table of what was learnt; *out NULL on a failure. */
enum vh_status vh_learn_tell(const struct vh_learning *l, struct vh_table **out);

#endif
