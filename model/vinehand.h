/* vinehand.h - the library's only public header: read a scenario, run the season, walk the results,
 * free.
 *
 * No function here prints, exits, keeps global state or touches a file but those it is handed. A
 * function that can fail returns a vh_status and adds one message per trouble to the caller's list:
 * file, line, what is wrong, what would be right. Handles are freed by their _free call;
 * _free(NULL) is fine. Views (const pointers handed out) live as long as the handle they come from.
 */
#ifndef VINEHAND_H
#define VINEHAND_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* 0 good; above 0 an answer to be marked; below 0 no answer, outputs untouched. */
enum vh_status {
    VH_OK = 0,
    VH_FILLED = 1, /* a gap was filled or a bound was reached; the answer stands, with a warning */
    VH_BAD_INPUT = -1, /* a file or a value from a person is wrong; see the messages */
    VH_NO_MEMORY = -2,
    VH_NO_FILE = -3,    /* a file could not be read or written by the system */
    VH_NO_NUMBER = -4,  /* a numerical method gave no answer */
    VH_INTERRUPTED = -5 /* the caller's progress function asked to stop */
};

/* The text of a status, for people; never NULL. */
const char *vh_status_text(enum vh_status status);

/* "0.1.0" */
const char *vh_version(void);

/* ---- messages ---- */

enum vh_severity { VH_NOTE, VH_WARNING, VH_ERROR };

struct vh_message {
    enum vh_severity severity;
    const char *file;    /* as the person named it; NULL: no file */
    int64_t line;        /* from 1; 0: no line */
    int column;          /* from 1, in bytes; 0: no column */
    const char *text;    /* "what is wrong; what would be right" */
    const char *excerpt; /* the text of the line, for a caret; NULL: none */
};

struct vh_messages;

/* NULL when memory is out. */
struct vh_messages *vh_messages_create(void);
void vh_messages_free(struct vh_messages *m);
/* Messages kept, to be walked by vh_messages_at. */
size_t vh_messages_count(const struct vh_messages *m);
/* Messages found of a severity: above what is kept when there were more than 200 errors or 1000
 * warnings or notes. */
size_t vh_messages_count_of(const struct vh_messages *m, enum vh_severity severity);
/* Message i, 0 <= i < vh_messages_count(m), in the order found. */
const struct vh_message *vh_messages_at(const struct vh_messages *m, size_t i);

/* ---- numbers as people use them ---- */

/* Rounds amounts one after the other to a step (whole clips 1, quarter hours 0.25, half turns 0.5)
 * so that their sum stays within half a step of the true one. *rest: 0 before the first, then what
 * is still owed. */
double vh_round_on(double *rest, double amount, double step);
/* Rounded to so many significant digits, 1 to 17. With %.10g, 10800 of three reads "10800", where
 * %.3g gives 1.08e+04. */
double vh_round_digits(double value, int digits);

/* ---- dates: whole days, 0 = 1970-01-01, negative before ---- */

/* "2026-03-01" to a day; VH_BAD_INPUT if it is no date between 1900 and 2199. */
enum vh_status vh_date_parse(const char *text, int64_t *day);
/* Writes "2026-03-01" and a 0 into text[11]. */
void vh_date_format(int64_t day, char text[11]);
/* 0 Monday ... 6 Sunday. */
int vh_date_weekday(int64_t day);
/* ISO 8601 week number and the year it belongs to. */
void vh_date_iso_week(int64_t day, int *year, int *week);

/* ---- digests ---- */

/* SHA-256 (FIPS 180-4) of n bytes, written as 64 hex digits and a 0. */
void vh_digest_of(const void *bytes, size_t n, char text[65]);

/* ---- parameters ---- */

struct vh_parameters;

/* Reads every parameter file of a folder (params/ of the project). The caller frees *out. GSL's
 * handler of errors, which ends the process, is off from then on. */
enum vh_status vh_parameters_read(const char *folder, struct vh_parameters **out,
                                  struct vh_messages *m);
void vh_parameters_free(struct vh_parameters *p);
/* Value and bounds of a row: of a crop's file, or with crop NULL of the guesses that a first
 * scenario is made of ("start.wire_m"). false: there is none. low, high may be NULL. */
bool vh_parameters_value(const struct vh_parameters *p, const char *crop, const char *name,
                         double *value, double *low, double *high);
/* SHA-256 over all files read, as 64 hex digits. */
const char *vh_parameters_digest(const struct vh_parameters *p);

/* ---- scenario ---- */

struct vh_run_options {
    int64_t today;   /* the line between past and future, day number; required */
    int members;     /* futures; 1 = the mean run only; 0 = as [futures] says, else 400 */
    uint64_t draw;   /* which random weathers; 0 = as [futures] says, else 1 */
    int threads;     /* 0 = as many as the machine has */
    bool no_records; /* leave the records unread */
};

struct vh_scenario;

/* Reads a scenario file and every file it names. VH_BAD_INPUT with messages when anything is wrong:
 * then *out is NULL. The parameters must live as long as the scenario. */
enum vh_status vh_scenario_read(const char *path, const struct vh_parameters *p,
                                const struct vh_run_options *options, struct vh_scenario **out,
                                struct vh_messages *m);
/* The same from text in memory (n bytes of TOML); shown_name stands in messages, folder is where
 * relative file names start. */
enum vh_status vh_scenario_parse(const char *text, size_t n, const char *shown_name,
                                 const char *folder, const struct vh_parameters *p,
                                 const struct vh_run_options *options, struct vh_scenario **out,
                                 struct vh_messages *m);
void vh_scenario_free(struct vh_scenario *s);
/* SHA-256 over the scenario file and all files it names, as 64 hex digits. */
const char *vh_scenario_digest(const struct vh_scenario *s);
const char *vh_scenario_name(const struct vh_scenario *s);
/* Does it ask for answers in pounds and feet? */
bool vh_scenario_is_in_us_units(const struct vh_scenario *s);
/* The file of factors that another season taught, as the scenario names it; NULL: none. */
const char *vh_scenario_kept_file(const struct vh_scenario *s);
/* As they hold: what the caller left open is filled. */
const struct vh_run_options *vh_scenario_options(const struct vh_scenario *s);

/* ---- tables: all results and listings come as these ---- */

/* An error is a number too: how far an account is off, which says something however small it is. */
enum vh_cell_kind {
    VH_CELL_TEXT,
    VH_CELL_DATE,
    VH_CELL_INTEGER,
    VH_CELL_NUMBER,
    VH_CELL_ERROR
};

struct vh_column {
    const char *name; /* with its unit, as in the CSV */
    enum vh_cell_kind kind;
    const char *unit;    /* "kg", "cm", "g m-2 d-1"; "" where there is none */
    const char *meaning; /* one line */
};

struct vh_table;

const char *vh_table_name(const struct vh_table *t);        /* "picks" */
const char *vh_table_row_meaning(const struct vh_table *t); /* "a pick day of a planting" */
bool vh_table_is_file(
    const struct vh_table *t); /* true: written as NAME.csv; false: for the printed summary only */
size_t vh_table_rows(const struct vh_table *t);
size_t vh_table_columns(const struct vh_table *t);
const struct vh_column *vh_table_column(const struct vh_table *t, size_t column);
/* Index of a column by name, or -1. */
int vh_table_find(const struct vh_table *t, const char *column_name);
/* NaN where unknown. Dates are day numbers. */
double vh_table_number(const struct vh_table *t, size_t row, size_t column);
/* "" where unknown or not a text column. */
const char *vh_table_text(const struct vh_table *t, size_t row, size_t column);
/* A cell by the name of its column; NaN or "" where the table has no such column or row, or does
 * not know. */
double vh_cell_number(const struct vh_table *t, size_t row, const char *column_name);
const char *vh_cell_text(const struct vh_table *t, size_t row, const char *column_name);

/* What `check` shows: tables "defaults" (key, value, unit, basis, source) and "plantings" (one row
 * each), "log" and "records" (counts of their rows and what was wrong with them), where there are
 * such files. Owned by the scenario. */
size_t vh_scenario_table_count(const struct vh_scenario *s);
const struct vh_table *vh_scenario_table(const struct vh_scenario *s, size_t i);

/* ---- the season ---- */

/* Called now and then with the share done, 0..1; return false to stop. */
typedef bool (*vh_progress)(void *context, double share_done);

struct vh_result;

/* Learns the house from the records that the scenario has read: from then on every run of it starts
 * from futures that were moved towards what was weighed and counted, and table "learned" tells how.
 * Without records that tell anything, or with too few futures, nothing changes: VH_OK. Takes as
 * long as some forecasts. A second call learns anew from the book. */
enum vh_status vh_scenario_learn(struct vh_scenario *s, vh_progress progress, void *context,
                                 struct vh_messages *m);

/* "learned": one row for each thing learnt; NULL or empty: nothing was. Owned by the scenario. */
const struct vh_table *vh_scenario_learned(const struct vh_scenario *s);
/* What was learnt, as a file that next season's scenario may name by [parameters] file; with what
 * an earlier such file taught where this season is silent. The caller frees *text. */
enum vh_status vh_scenario_kept(const struct vh_scenario *s, char **text, size_t *n);

/* Runs the season of every planting. The caller frees *out. */
enum vh_status vh_forecast(const struct vh_scenario *s, vh_progress progress, void *context,
                           struct vh_result **out, struct vh_messages *m);
/* The same, and which single count or weighing today would narrow the range of the next market day
 * most, by what the futures have in common: table "to_measure", the most worth first. Empty where
 * there are too few futures. */
enum vh_status vh_forecast_measuring(const struct vh_scenario *s, vh_progress progress,
                                     void *context, struct vh_result **out, struct vh_messages *m);
/* The mean run alone, however many futures the scenario asks for: what `check` shows of the season.
 * As vh_forecast. */
enum vh_status vh_mean_season(const struct vh_scenario *s, struct vh_result **out,
                              struct vh_messages *m);
/* Ends a forecast as the program shows it: a topping that vh_forecast only proposes is moved to the
 * day that pays, or taken out, where it is near; and what a week of waiting would cost for each
 * task of the coming seven days, in a few of the same futures: cost_of_waiting of table "tasks". */
enum vh_status vh_waiting_costs(const struct vh_scenario *s, struct vh_result *r,
                                struct vh_messages *m);
/* How many choices [compare] asks for, a search counted as one; 0: there is nothing to compare. */
size_t vh_scenario_choices(const struct vh_scenario *s);
/* The season as by vh_forecast, then under each choice of [compare] in the same futures: table
 * "choices". VH_BAD_INPUT with a message where there is nothing to compare. The caller frees *out.
 */
enum vh_status vh_compare(const struct vh_scenario *s, vh_progress progress, void *context,
                          struct vh_result **out, struct vh_messages *m);
void vh_result_free(struct vh_result *r);
size_t vh_result_table_count(const struct vh_result *r);
const struct vh_table *vh_result_table(const struct vh_result *r, size_t i);
/* By name; NULL if this run has no such table. */
const struct vh_table *vh_result_table_named(const struct vh_result *r, const char *name);

/* ---- promises as they were made ---- */

/* In kilograms: table "said"; by the piece, of what is sold so: table "said_fruits". */
enum vh_said_in { VH_SAID_KG, VH_SAID_FRUITS, VH_SAID_TABLES };

/* Puts into that table of the result what earlier runs promised (n bytes of its CSV; 0: none) and
 * behind it what this one promises for the market days of the next weeks, as far as it is not
 * what was last said on this day. *rows_before: rows that were there. VH_BAD_INPUT with messages
 * when the bytes are no such file: the result is untouched. */
enum vh_status vh_result_say(struct vh_result *r, const struct vh_scenario *s, enum vh_said_in in,
                             const char *earlier, size_t n, const char *shown_name,
                             size_t *rows_before, struct vh_messages *m);

/* ---- promises of earlier runs, held against what was picked ---- */

/* Tables of a result that tell of them; NULL: there is none. */
struct vh_promise_tables {
    const struct vh_table *said, *said_fruits, *picks, *summary, *house;
};
struct vh_promise_tables vh_promise_tables_of(const struct vh_result *r);

/* What was promised of a planting for market day `date` about a week before day `before` (of equal
 * ones the last), in kg or by the piece; NaN: nothing. */
double vh_promise_said(const struct vh_promise_tables *t, bool by_piece, const char *planting,
                       double date, double before);

struct vh_promise_past {
    const char *planting; /* a view of the table */
    double date, promise; /* kg, or fruits */
    double picked;        /* written down in the week to it, without what an earlier market day was
                             promised of it; NaN: not known */
    double came;          /* of it what can be sold: without what was thrown away, by her entry of the
                             day or else the model's share; the promise is held against it */
    double silent_from; /* of what is not known: no pick is written down from this day to `date` */
    bool by_piece;
};

/* The next promise whose day is past, of a planting whose picks are noted; *row: 0 before the
 * first. false: there is none left. What is sold by the piece is held against the fruits that were
 * counted, all else against what was weighed. */
bool vh_promise_next(const struct vh_promise_tables *t, int64_t today, size_t *row,
                     struct vh_promise_past *out);
/* What is written down as picked in the week to a past promise's day, kg or fruits, in picks whose
 * counted[row of the picks] is not set yet; they are set. */
double vh_promise_picked_once(const struct vh_promise_tables *t, const struct vh_promise_past *past,
                              bool *counted);
/* The first market day behind `after` that is past and of whose week a pick is noted, but for which
 * nothing of any planting was promised about a week before, though for an earlier day something
 * was. NaN: there is none. */
double vh_promise_unsaid(const struct vh_promise_tables *t, const struct vh_table *market_days,
                         int64_t today, double after);

/* ---- many houses ---- */

struct vh_house_list;

/* Which houses a person means: a folder, whose folders with a scenario.toml and whose NAME.toml
 * files they are, by name; or a file with one scenario a line (a file, or a folder that holds
 * scenario.toml; relative names start where the list lies; blank lines and lines that begin with #
 * say nothing). VH_BAD_INPUT with messages: no list, nothing in it, or two houses of one name.
 * Whether each is there and right only reading it tells. The caller frees *out. */
enum vh_status vh_house_list_read(const char *path, struct vh_house_list **out,
                                  struct vh_messages *m);
void vh_house_list_free(struct vh_house_list *l);
size_t vh_house_list_count(const struct vh_house_list *l);
/* What its results are called: the last part of its path without .toml; unlike all others. */
const char *vh_house_list_name(const struct vh_house_list *l, size_t i);
/* The scenario file. */
const char *vh_house_list_path(const struct vh_house_list *l, size_t i);
/* Its line in the list file; 0: of a folder. */
int64_t vh_house_list_line(const struct vh_house_list *l, size_t i);
/* Table "houses" without a row. */
const struct vh_table *vh_house_list_table(const struct vh_house_list *l);
/* Adds table "houses" to a result whose promises were said: one row a planting. */
enum vh_status vh_result_add_houses(struct vh_result *r, const char *name);

/* ---- how good past forecasts would have been ---- */

struct vh_hindcast;

/* For every week that the records tell of: what the program would have said one to four weeks
 * before, from what was written down by then, and how that and two naive forecasts compare with
 * what came. Reads the files of the scenario again. Without records of picks the tables are empty.
 * The caller frees *out. */
enum vh_status vh_hindcast(const struct vh_scenario *s, vh_progress progress, void *context,
                           struct vh_hindcast **out, struct vh_messages *m);
void vh_hindcast_free(struct vh_hindcast *h);
const struct vh_table *vh_hindcast_table(const struct vh_hindcast *h); /* "hindcast", a file */
/* One row a planting and number of weeks ahead: mean errors, scores, how often the range held, and
 * how many of the latest ten weeks came within a tenth. */
const struct vh_table *vh_hindcast_summary(const struct vh_hindcast *h);

/* ---- one more record ---- */

/* A line for the records file, as a person says it. */
struct vh_record_entry {
    const char *planting, *item, *value; /* "slicers", "picked_kg", "14.2" */
    int64_t day;
    int truss, of; /* 0: not given */
};

/* The records file as it would be with that line; nothing is written here. */
struct vh_record_change {
    char *path, *shown; /* of the file; as the scenario names it */
    char *bytes;        /* all of the file as it should be */
    size_t n;
    char *old_bytes; /* as it was read; NULL: there is no such file yet */
    size_t old_n;
    int64_t line; /* where the entry stands in it */
    char *text;   /* that line */
    bool filled;  /* a cell of an older line was filled; false: a line was added */
};

/* Adds the entry to the file that the scenario names, in the file's own form, separator, decimal
 * sign and line ends; every other byte stays. The scenario may have been read with or without its
 * records. VH_BAD_INPUT with the messages that the reader of the records has for such a line, or
 * where the cell is taken or the scenario names no records. Warnings are of this line alone. The
 * caller frees *out. */
enum vh_status vh_records_note(const struct vh_scenario *s, const struct vh_record_entry *entry,
                               struct vh_record_change **out, struct vh_messages *m);
void vh_record_change_free(struct vh_record_change *c);

/* ---- what a name means ---- */

struct vh_explanation;

/* All meanings of a name: a parameter ("leaf.potential_area_m2"), a key of the scenario
 * ("planting.set_out", also in its other unit) or a column of a result ("weeks.load"), each also by
 * its last part alone; a list of them ("planting.pick", "weeks", "leaf"); a crop: the rows of its
 * own file; a source: the rows that cite it. VH_BAD_INPUT with a message that offers the nearest
 * names where there is no such name; then *out is untouched. The caller frees *out. */
enum vh_status vh_explain(const struct vh_parameters *p, const char *name,
                          struct vh_explanation **out, struct vh_messages *m);
void vh_explanation_free(struct vh_explanation *e);
/* what, name, where, kind, value, unit, low, high, example, meaning, basis, source, place, note,
 * used_in, crops, line, member_of. */
const struct vh_table *vh_explanation_meanings(const struct vh_explanation *e);
/* Every source that these cite: key, authors, year, title, journal, doi, read. */
const struct vh_table *vh_explanation_sources(const struct vh_explanation *e);

/* ---- how a number came about ---- */

struct vh_chain;

/* From flower to pick: truss `truss` (node, for crops that count nodes) of a planting in the mean
 * run, with what was learnt, step by step. `result`: of vh_forecast, to whose numbers the chain is
 * held; NULL: it ends at the mean run. VH_BAD_INPUT with a message where there is no such planting,
 * or where the truss never comes. The caller frees *out. */
enum vh_status vh_explain_truss(const struct vh_scenario *s, const struct vh_result *result,
                                const char *planting, int truss, struct vh_chain **out,
                                struct vh_messages *m);
/* From the picks to what lies on the table of a market day; likewise. VH_BAD_INPUT where the
 * scenario has no such market day. The caller frees *out. */
enum vh_status vh_explain_market_day(const struct vh_scenario *s, const struct vh_result *result,
                                     int64_t date, struct vh_chain **out, struct vh_messages *m);
void vh_chain_free(struct vh_chain *c);
/* part, what, value, date, unit, equation (with the names of rows above), worked (with numbers),
 * parameters, source. Rows in the order of the reckoning. */
const struct vh_table *vh_chain_steps(const struct vh_chain *c);
/* A row a day from the flower to the last pick; no rows for a market day. */
const struct vh_table *vh_chain_days(const struct vh_chain *c);
/* A row a pick: what was taken, what of it can be sold, how it is kept, what is left. */
const struct vh_table *vh_chain_picks(const struct vh_chain *c);
/* Every source that these cite: key, authors, year, title, journal, doi, read. */
const struct vh_table *vh_chain_sources(const struct vh_chain *c);

#ifdef __cplusplus
}
#endif
#endif
