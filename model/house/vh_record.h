/* vh_record.h - what the grower weighed, counted and did, as her records file tells it.
 *
 * One row of the file gives one record (long form) or several (wide form, one line a visit). Picks
 * are sums since the last entry: a week without an entry is unknown, an entry of 0 is zero.
 */
#ifndef VH_RECORD_H
#define VH_RECORD_H

#include "vh_climate.h"
#include "vh_done.h"
#include "vh_error.h"
#include "vh_param.h"
#include "vh_table.h"
#include "vh_units.h"

/* In the order of interface.md section 3. */
enum vh_record_item {
    VH_RECORD_PICKED_KG,
    VH_RECORD_PICKED_FRUITS,
    VH_RECORD_UNMARKETABLE_KG,
    VH_RECORD_ROT_KG,
    VH_RECORD_FRUIT_G,
    VH_RECORD_FLOWERING_TRUSS,
    VH_RECORD_PICKING_TRUSS,
    VH_RECORD_FRUITS_SET,
    VH_RECORD_FRUITS_LEFT,
    VH_RECORD_BREAKER_FRUITS,
    VH_RECORD_TURNING_FRUITS,
    VH_RECORD_FRUIT_MM,
    VH_RECORD_LEAVES_ON_STEM,
    VH_RECORD_LEAVES_MADE,
    VH_RECORD_STEM_CM,
    VH_RECORD_STEM_GROWTH_CM,
    VH_RECORD_STEM_MM,
    VH_RECORD_FLOWER_TO_PICK_D,
    VH_RECORD_LOWERED_CM,
    VH_RECORD_PULLED_SUCKER_CM,
    VH_RECORD_STRING_LEFT_M,
    VH_RECORD_PLANTS_LOST,
    VH_RECORD_SOLD_KG,
    VH_RECORD_LEFT_KG,
    VH_RECORD_MINUTES, /* minutes_<task> */
    VH_RECORD_DONE,    /* done_<task>: 1, 0 or a share */
    VH_RECORD_ITEMS
};
#define VH_RECORD_MEASURED VH_RECORD_DONE /* items before it have an observation error */

/* How far an entry may be off, one standard deviation:
 *     sd2 = (share v)2 + own2 + ((stems_share v)2 + stems2) / n
 * v the value, n the stems (or fruits) looked at: what differs from stem to stem narrows with n,
 * what lies in the reading does not. Zero where the item has no such part.
 *
 * And how far the model may be off where its factors are right, x what it says:
 *     from entry to entry   sd2 = (model_share x)2 + model2
 *     all entries alike     sd2 = (bias_share x)2 + bias2
 * Of sums of picks the first holds for a week's; n days have sqrt(7/n) of it, as ripening comes in
 * flushes that are a day or two early or late. */
struct vh_record_error {
    double share, own;         /* 1; the item's unit */
    double stems_share, stems; /* 1; the item's unit */
    double model_share, model; /* 1; the item's unit */
    double bias_share, bias;   /* 1; the item's unit */
};

/* Rows of params/records.csv. */
struct vh_record_params {
    struct vh_record_error error[VH_RECORD_MEASURED];
    double doubt_ratio;        /* times its neighbours */
    double pick_doubt_ratio;   /* times what she usually picks */
    double pick_low_ratio;     /* the usual pick over one that is questioned */
    double pick_reach_weeks;   /* of what such crops reach, in the picks of one */
    double known_doubt_ratio;  /* times what the planting is said to have */
    double thrown_doubt_share; /* of a day's pick */
    double thrown_ask_share;   /* of a day's pick: questioned, and believed */
    double pick_soon_share;    /* of the fewest days from flower to pick, since set-out */
    double trusses_ahead;      /* above what the fastest plant can have made */
    double doubt_widens; /* sd of a doubted count, or a pick after a gap, over that of a good one */
    double given_up_d;   /* what was left undone is asked for again so long */
    double stems_silent; /* stems looked at where `of` is absent */
    /* how the house is learnt from them (model/learn) */
    double passes;              /* of the smoother */
    double members_least;       /* with fewer futures nothing is learnt */
    double far;                 /* an entry further from the futures, in sd, is weighed down */
    double least_pick_d;        /* picks that lie closer are taken together */
    double drift_per_sqrt_week; /* what was true of picks drifts: a share, as a random walk */
    double spread_left;         /* of a factor's prior spread at least so much stays */
    double chance_times;   /* correlations are believed above so many times what chance shows */
    double worth_members;  /* futures in which the worth of a count is reckoned, at most */
    double set_seen_d;     /* d after the last flower of a truss: what has set is to be seen */
    double gone_over_d;    /* of a truss on which fruit is counted, since its first flower */
    double stem_recent_d;  /* her own stems of so many days stand for what is usual */
    double fruits_weighed; /* `of` of a count of grams a fruit that is proposed */
};
const struct vh_param_field *vh_record_param_fields(size_t *count);

struct vh_record {
    int64_t day;
    size_t planting; /* index in the house */
    enum vh_record_item item;
    enum vh_task task; /* of VH_RECORD_DONE and VH_RECORD_MINUTES */
    double value;      /* in the item's unit */
    int truss;         /* 0: not given */
    int of;            /* stems looked at; 0: not given */
    bool sure;         /* its note says that it is right: it is not doubted */
    bool doubt;        /* far from its neighbours, or a step that cannot be */
    bool low;          /* the last pick, far less than usual: questioned, and believed */
    bool much;         /* the last thrown away, a large share of its pick: likewise */
    int64_t line;      /* of the file */
    /* as she wrote it: value = written * wrote.scale + wrote.shift; unit "": the item's own */
    struct vh_unit_pair wrote;
    char wrote_unit[4];
};

struct vh_records {
    bool given;                /* the scenario names a file */
    bool read;                 /* and it was read */
    struct vh_file_name file;  /* path NULL: none */
    struct vh_place place;     /* of the key that names it */
    struct vh_column_map *map; /* [records.columns] */
    size_t maps;
    struct vh_record *row; /* those in use, in date order, then as in the file */
    size_t rows;
    int64_t cells;           /* values found, used or not */
    int64_t lines;           /* rows of the file below its header */
    int64_t doubtful;        /* of row */
    bool has_notes;          /* the file has a column for notes */
    int64_t last_day;        /* of row; INT64_MIN: none */
    struct vh_table *report; /* "records": what `check` shows; NULL: not read */
};

/* "picked_kg"; "done_" and "minutes_" for the two that a task's name follows. */
const char *vh_record_item_name(enum vh_record_item item);
/* How she says that a doubted entry is right: "begin its note with `right`". */
const char *vh_record_how_sure(const struct vh_records *r);
/* What was picked, weighed or counted. */
bool vh_record_is_pick(enum vh_record_item item);
/* Is it of the whole planting? false: the mean of the stems looked at. */
bool vh_record_is_of_planting(enum vh_record_item item);
/* What a mean count of the truss in flower is expected to be when the flowering clock shows
 * `clock`, at which truss n opens at n: a stem shows whole trusses, n from that day until the next
 * one opens, and stems stand anywhere between two (they drift apart by half a truss), so that a
 * mean of counts, or one alone in expectation, is half a truss behind. Not below 0; NaN stays. */
double vh_record_counted_truss(double clock);
/* Standard deviation of the entry's error, in the item's unit; NaN for done_<task>. A doubted one
 * has a wider one. */
double vh_record_sd(const struct vh_record_params *p, const struct vh_record *r);

/* The two parts of the model's error where it says `value`. */
double vh_record_model_sd(const struct vh_record_params *p, enum vh_record_item item, double value);
double vh_record_bias_sd(const struct vh_record_params *p, enum vh_record_item item, double value);

/* Picks between two entries: all that was taken off from `from` to `until`, both inclusive. The
 * first entry of a planting counts for as long as there usually is between two (a week where there
 * is but one), at most since set-out. */
struct vh_record_picks {
    int64_t from, until;
    int64_t
        stands_from;   /* `from`; after more than twice the usual time only so long ago as usual */
    double kg, fruits; /* NaN: not noted */
    bool kg_doubt, fruits_doubt; /* the sum is of doubted entries: there are no others that day */
    bool gap; /* the time is more than twice the usual: an entry may be missing in it */
};

/* The intervals of one planting, in date order; the caller frees *out. VH_NO_MEMORY otherwise. */
enum vh_status vh_record_picks_of(const struct vh_records *r, size_t planting, int64_t set_out,
                                  struct vh_record_picks **out, size_t *count);
/* Of both that follow doubtful entries are left out. kg weighed from `from` to `until`, by the days
 * of the entries; NaN: no entry. */
double vh_record_picked_kg(const struct vh_records *r, size_t planting, int64_t from,
                           int64_t until);
/* The same of fruits that were counted. */
double vh_record_picked_fruits(const struct vh_records *r, size_t planting, int64_t from,
                               int64_t until);
/* The same of what was thrown away on a day. */
double vh_record_thrown_kg(const struct vh_records *r, size_t planting, int64_t day);

struct vh_house;

/* Reads r->file (n bytes of text where text is not NULL) by r->map against the plantings of the
 * house into r, and fills planting.done of each. digest: NULL, or takes all bytes. VH_BAD_INPUT
 * with messages. On a failure r->row is empty. */
enum vh_status vh_records_read(struct vh_house *house, const struct vh_record_params *p,
                               struct vh_digest *digest, struct vh_messages *m);
enum vh_status vh_records_read_memory(struct vh_house *house, const struct vh_record_params *p,
                                      const char *text, size_t n, struct vh_messages *m);
void vh_records_clear(struct vh_records *r);
struct vh_planting;

/* The lists of one planting out of the records, into p->done. Entries of picks tell the days on
 * which there were any where they come about as often as the plan has picks; where she weighs less
 * often each is of several, and the plan's days hold. VH_NO_MEMORY otherwise. */
enum vh_status vh_record_done_fill(const struct vh_records *r, size_t planting, int64_t today,
                                   double given_up_d, struct vh_planting *p);
void vh_record_done_clear(struct vh_done *done);

#endif
