/* vh_result.h - the inside of a result handle, and the tables a season fills. */
#ifndef VH_RESULT_H
#define VH_RESULT_H

#include "vh_date.h"
#include "vh_harvest.h"
#include "vh_hours.h"
#include "vh_lower.h"
#include "vh_scenario.h"
#include "vh_season.h"
#include "vh_supply.h"
#include "vh_table.h"

enum vh_result_table_id {
    VH_TABLE_PICKS,
    VH_TABLE_WEEKS,
    VH_TABLE_MARKET_DAYS,
    VH_TABLE_GAPS,
    VH_TABLE_SAID,
    VH_TABLE_SAID_FRUITS,
    VH_TABLE_TRUSSES,
    VH_TABLE_STEM,
    VH_TABLE_LOWERING,
    VH_TABLE_TASKS,
    VH_TABLE_HOURS,
    VH_TABLE_SUPPLIES,
    VH_TABLE_CLIMATE_DAYS,
    VH_TABLE_PLANT_DAYS,
    VH_TABLE_WARNINGS,
    VH_TABLE_SUMMARY,
    VH_TABLE_HOUSE,
    VH_TABLE_GRADES,
    VH_TABLE_LEARNED,
    VH_TABLE_PLANT_CHECK,
    VH_TABLE_TO_MEASURE,
    VH_TABLE_CHOICES, /* from here on of `compare` alone: */
    VH_TABLE_FOUND,
    VH_TABLE_COMPARED, /* NULL in other results */
    VH_TABLE_HOUSES,   /* of `houses` alone; likewise */
    VH_TABLE_HINDCAST, /* of `learn` alone; likewise */
    VH_RESULT_TABLES
};

struct vh_result {
    struct vh_table *table[VH_RESULT_TABLES];
    void *own_columns[VH_RESULT_TABLES]; /* of tables wider than the one list; NULL: of the list */
};

/* One run of a house whose rows are wanted: the scenario as it stands, or one of its futures. */
struct vh_run {
    const struct vh_scenario *scenario;
    const struct vh_house *house;   /* with the climate and the habits of this run */
    const struct vh_season *season; /* [planting] */
    const double *light_factor;     /* [planting] as the season was run with */
    const double *marketable;       /* [planting] share of the sound fruit; NULL: all of it */
    bool is_mean;                   /* the mean run, whose words and warnings are kept */
    /* [planting][day] share of the fruit without a fault, NaN: not asked for yet (sales.c).
     * NULL: it is worked out each time */
    double *const *sound;
    const struct vh_harvest *harvest; /* [planting]; NULL: worked out where it is needed */
    const struct vh_weeks *weeks;     /* as long as the scenario; NULL: each is named when needed */
};

/* What the weeks of a house are called, for all its futures. */
struct vh_weeks {
    int64_t monday; /* of the first */
    size_t weeks;
    char (*name)[VH_WEEK_TEXT]; /* [weeks] "2026-W29" */
};
/* Of the weeks that hold first_day..last_day; VH_NO_MEMORY. */
enum vh_status vh_weeks_init(struct vh_weeks *w, int64_t first_day, int64_t last_day);
void vh_weeks_clear(struct vh_weeks *w);
/* The name of a week for vh_table_set_lasting; NULL: no memory. */
const char *vh_result_week(struct vh_table *t, const struct vh_run *run, int64_t monday);

/* All tables, empty; those of `compare` are not there. NULL: no memory. Free with vh_result_free.
 */
struct vh_result *vh_result_create(void);
/* Fills the tables of r, which are empty, with the rows of one run: those of the mean run sorted by
 * date; those of a future in any order, and only in tables that futures move. */
enum vh_status vh_result_fill(struct vh_result *r, const struct vh_run *run);
enum vh_status vh_result_in_date_order(struct vh_result *r);

/* What a future does to a column (result_columns.c). */
enum vh_column_role {
    VH_COLUMN_KEY,     /* names the row */
    VH_COLUMN_FIXED,   /* as in the mean run */
    VH_COLUMN_VALUE,   /* a number that futures move */
    VH_COLUMN_DAY,     /* a day that they move */
    VH_COLUMN_PROMISE, /* what is reached with the promised chance; unknown in one run alone */
    VH_COLUMN_CHANCE   /* 0 or 1 in each future, in all the share of them; likewise */
};
enum vh_column_role vh_result_column_role(enum vh_result_table_id id, size_t column);
const struct vh_column *vh_result_columns(enum vh_result_table_id id, size_t *count);
/* Has every future a value of its own there? */
bool vh_column_is_moved(enum vh_column_role role);
/* Does any future move anything in the table? */
bool vh_result_is_moved(enum vh_result_table_id id);
/* Is its plain number that of the mean run, though futures range about it? */
bool vh_result_is_planned(enum vh_result_table_id id, size_t column);
/* Which rows stay when futures are laid upon each other: those that at least half of them have;
 * those of the mean run, and no other; or both. The list of work is the mean run's, for futures do
 * the same work a day sooner or later and it would be lost, or told twice. Only picks go by the
 * futures, as in table "picks", and so do the walks and the clean blades that go with them; the
 * hours are added up from all that stay (vh_work_said.h). */
enum vh_row_rule { VH_ROW_OF_FUTURES, VH_ROW_OF_PLAN, VH_ROW_OF_EITHER };
enum vh_row_rule vh_result_row_rule(enum vh_result_table_id id, const char *task);
/* In a row that a future does not have: 0 (nothing done), not unknown. */
bool vh_result_absent_is_zero(enum vh_result_table_id id, size_t column);
/* The empty table of that name with other columns, which must outlive it. */
struct vh_table *vh_result_table_like(enum vh_result_table_id id, const struct vh_column *columns,
                                      size_t count);

/* Creates the empty table; its columns are the one list that CSV, datapackage.json and explain
 * read. NULL: no memory. */
struct vh_table *vh_result_table_new(enum vh_result_table_id id);

struct vh_apart; /* vh_apart.h */

/* Each adds one planting's rows. VH_NO_MEMORY otherwise. */
/* apart: of the mean run; NULL in a future. */
enum vh_status vh_result_add_picks(struct vh_table *t, const struct vh_run *run, size_t planting,
                                   struct vh_apart *apart);
/* Takes out the pick days on which nothing is foreseen nor written down: once all futures are in.
 */
void vh_result_only_picks(struct vh_table *picks);
enum vh_status vh_result_add_weeks(struct vh_table *t, const struct vh_run *run, size_t planting);
enum vh_status vh_result_add_trusses(struct vh_table *t, const struct vh_season *s, int64_t today,
                                     const struct vh_work_series *series,
                                     const struct vh_work_params *book);
/* plan: of the lowering; all its visits 0 where there is no wire. */
enum vh_status vh_result_add_stem(struct vh_table *t, const struct vh_season *s,
                                  const struct vh_lower_plan *plan);
enum vh_status vh_result_add_lowering(struct vh_table *t, const struct vh_work_series *series,
                                      const struct vh_lower_plan *plan);
/* Cold that hurts fruit in store, and fruits that must not lie together; the mean run with
 * [market] only. */
enum vh_status vh_result_warn_store(struct vh_table *t, const struct vh_run *run,
                                    const struct vh_apart *apart);
/* Market days of all plantings. VH_OK without [market]. */
enum vh_status vh_result_add_market_days(struct vh_table *t, const struct vh_run *run);
/* What the wire, the string and the floor will not bear, weeks ahead. */
enum vh_status vh_result_add_lowering_warnings(struct vh_table *t,
                                               const struct vh_work_series *series,
                                               const struct vh_lower_plan *plan);
/* What label locks move, what is assumed where nothing was written down, how to catch up after a
 * missed fortnight and what it cost. first_noted: the day of the house's first entry; INT64_MAX:
 * nothing was written down. undone_kg: what the season loses by the work that the records call
 * undone; NaN: there is none. */
enum vh_status vh_result_warn_work(struct vh_table *t, const struct vh_task_request *request,
                                   int64_t first_noted, double undone_kg);

/* The work of all plantings together. */
struct vh_house_work {
    struct vh_task_plan *plan; /* [plantings], then the rounds of the house */
    size_t plans;
};
enum vh_status vh_house_work_init(struct vh_house_work *w, size_t plantings);
/* Rounds, tasks, hours, supplies and their warnings, once every planting has its plan. */
enum vh_status vh_result_add_house_work(struct vh_table **table, const struct vh_run *run,
                                        struct vh_house_work *w);
void vh_house_work_clear(struct vh_house_work *w);
/* Weeks to come with too few hours; stock that runs out. */
enum vh_status vh_result_warn_hours(struct vh_table *t, const struct vh_hours *h,
                                    const struct vh_labour *labour,
                                    const struct vh_work_params *book, int64_t today);
/* Is that the `what` of the first of these? */
bool vh_result_is_of_hours(const char *what);
enum vh_status vh_result_warn_supplies(struct vh_table *t, const struct vh_supply_plan *plan,
                                       int64_t today);
/* These come from the mean run; here they get the dates of supplies.csv, by all futures, so that
 * warnings, screen and page agree; what runs out in most futures and not in the mean run is added.
 * VH_NO_MEMORY. */
enum vh_status vh_result_supplies_said(struct vh_table *warnings, const struct vh_table *supplies,
                                       int64_t today);
/* Heads that are past the wire: by the first day for which the tasks ask to lower them; again once
 * the tasks are those of all futures. VH_NO_MEMORY. */
enum vh_status vh_result_lowering_said(struct vh_table *warnings, const struct vh_table *tasks,
                                       int64_t today);
/* One row of warnings: something to do, where nothing else is said of it. */
enum vh_status vh_result_warn(struct vh_table *t, int64_t date, const char *planting,
                              const char *what, const char *why, const char *what_to_do,
                              int64_t act_by);
/* Its last row is of harm to plants, fruit or people within days ... */
enum vh_status vh_result_is_harm(struct vh_table *t, enum vh_status warned);
/* ... or only good to know. Both return what came of the row before, and do nothing if that failed.
 */
enum vh_status vh_result_is_known(struct vh_table *t, enum vh_status warned);
enum vh_status vh_result_add_plant_days(struct vh_table *t, const struct vh_season *s);
/* What of the records is doubted, a row a planting (record_warnings.c). */
enum vh_status vh_result_warn_records(struct vh_table *t, const struct vh_house *house,
                                      double told_d);
enum vh_status vh_result_add_warnings(struct vh_table *t, const struct vh_season *s,
                                      const struct vh_climate *c, int64_t today,
                                      const struct vh_house_params *doubt);
/* The echo of the weather she expects: the mean run against one without it. */
enum vh_status vh_result_warn_spells(struct vh_table *t, const struct vh_run *run);
/* A run far outside what such houses reach. */
enum vh_status vh_result_warn_reach(struct vh_table *t, const struct vh_season *s,
                                    const struct vh_harvest *harvest, int64_t today,
                                    const struct vh_house_params *doubt);
/* planting: index in the house; what it is counted in goes by how its good is sold. */
enum vh_status vh_result_add_summary(struct vh_table *t, const struct vh_run *run, size_t planting,
                                     const struct vh_house_params *doubt);
enum vh_status vh_result_add_climate(struct vh_table *t, const struct vh_climate *c,
                                     int64_t first_day);
enum vh_status vh_result_add_house(struct vh_table *t, const struct vh_scenario *s);
/* Was the week before today duller than the two before it, each day's light (mol m-2 d-1) against
 * what the season sends at that latitude? (doubt.dull_share; extraterrestrial light by vh_sun.h) No
 * where the season is younger. */
bool vh_week_was_dull(const struct vh_scenario *s);
/* Least mass of a fruit in each size class a planting is sold by. */
enum vh_status vh_result_add_grades(struct vh_table *t, const struct vh_house *h);

/* The scenario's light_factor, else the prior for a recorded or a computed light. */
double vh_scenario_light_factor(const struct vh_scenario *s);

#endif
