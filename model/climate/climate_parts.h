/* climate_parts.h - what the files of climate/ hand to each other; private to this folder.
 *
 * All arrays lie over one window of days: from WINDOW_BEFORE_D days before the season (so that gaps
 * and day courses at its edge have neighbours) to one day after it. Hour h of window day d stands
 * at d * 24 + h, in the house's standard time.
 */
#ifndef VH_CLIMATE_PARTS_H
#define VH_CLIMATE_PARTS_H

#include "vh_climate.h"
#include "vh_csv.h"
#include "vh_math_parts.h"
#include "vh_units.h"

#define VH_WINDOW_BEFORE_D 15
#define VH_WINDOW_AFTER_D 1
#define VH_MINUTES_PER_HOUR 60
#define VH_MINUTES_PER_DAY 1440
#define VH_SECONDS_PER_HOUR 3600.0
#define VH_SECONDS_PER_DAY 86400.0
#define VH_PER_MILLION 1e-6 /* umol to mol, J to MJ */

struct vh_window {
    int64_t first_day;
    size_t days;
};

/* ---- columns of logs and outside files ---- */

enum vh_hourly {
    VH_HOURLY_T_AIR,
    VH_HOURLY_RH,
    VH_HOURLY_CO2,
    VH_HOURLY_PAR,
    VH_HOURLY_RADIATION_IN,
    VH_HOURLY_RADIATION_OUT,
    VH_HOURLY_T_OUT,
    VH_HOURLY_LAMPS,
    VH_HOURLY_COUNT
};
enum vh_daily {
    VH_DAILY_TMIN,
    VH_DAILY_TMAX,
    VH_DAILY_TMEAN,
    VH_DAILY_DLI,
    VH_DAILY_RADIATION,
    VH_DAILY_SUNSHINE,
    VH_DAILY_COUNT
};
enum vh_climate_file { VH_FILE_LOG, VH_FILE_OUTSIDE };
enum vh_column_kind { VH_COLUMN_TIME, VH_COLUMN_DATE, VH_COLUMN_HOURLY, VH_COLUMN_DAILY };

struct vh_climate_column {
    const char *name;
    enum vh_column_kind kind;
    int index; /* enum vh_hourly or vh_daily */
    bool in_log, in_outside;
    double low, high;           /* what can be true; beyond is a fault of the instrument */
    double dark;                /* readings this far below 0 are a sensor's zero, read as 0 */
    bool is_inside_temperature; /* spike limits of the parameters, minus log_offset_c */
    const char *meaning;        /* in a grower's words, for explain */
};

#define VH_SHOWN_CELL 24 /* bytes of a cell shown in a message, with the 0 */

struct vh_used_column {
    size_t cell; /* of a row */
    const struct vh_climate_column *column;
    struct vh_unit_pair unit;
    int64_t cells, not_numbers;
    int64_t first_not_number_line;
    char first_not_number[VH_SHOWN_CELL]; /* its text; empty where too long to show */
    int64_t too_hot, first_too_hot_line;  /* above spike_high_c: Fahrenheit, as a rule */
};

#define VH_USED_COLUMNS_MAX 16

/* ---- counts of what was found ---- */

struct vh_row_count {
    int64_t count, first_line, last_line;
};

enum vh_row_trouble {
    VH_ROWS_READ,
    VH_ROWS_USED,
    VH_ROWS_AFTER_TODAY,
    VH_ROWS_STEP_BACK,
    VH_ROWS_MISSING_HOUR,
    VH_ROWS_BAD_TIME,
    VH_ROWS_REPEATED,
    VH_ROWS_SPIKE,
    VH_ROWS_IMPOSSIBLE,
    VH_ROWS_BELOW_ZERO,
    VH_ROWS_NOT_NUMBER,
    VH_ROWS_HALF_DAY,
    VH_ROWS_TROUBLES
};

struct vh_file_use {
    const struct vh_file_name *name;
    enum vh_climate_file kind;
    struct vh_used_column used[VH_USED_COLUMNS_MAX];
    size_t used_columns;
    struct vh_used_column time, date;
    bool has_time, has_date;
    int typical_step_min;
    struct vh_row_count trouble[VH_ROWS_TROUBLES];
    int64_t trouble_ends[VH_ROWS_TROUBLES]; /* latest day that has it */
    char bad_time[40];                      /* the first that could not be read */
    struct vh_row_count short_gap[VH_HOURLY_COUNT], long_gap[VH_HOURLY_COUNT];
    int64_t long_gap_hours[VH_HOURLY_COUNT];
    /* days on which the last of them end */
    int64_t short_gap_ends[VH_HOURLY_COUNT], long_gap_ends[VH_HOURLY_COUNT];
};

/* How a finding was told: not at all, or as a note; as a warning; as one once, told by check alone
 * now. */
enum vh_finding_told { VH_FINDING_NOTED, VH_FINDING_WARNED, VH_FINDING_OLD };

void vh_row_count_add(struct vh_row_count *c, int64_t line);
/* Adds the file's rows to the table and one warning per kind of trouble. */
enum vh_status vh_file_report(const struct vh_file_use *f, const struct vh_climate_request *request,
                              const struct vh_house_params *params, struct vh_table *report,
                              struct vh_messages *m);
struct vh_table *vh_log_report_create(void);
enum vh_status vh_log_report_add(struct vh_table *t, const char *file, const char *what,
                                 struct vh_row_count c, const char *why, enum vh_finding_told told);
/* A finding is told while it is new; later the table of `check` has it. ends: day of its last. */
bool vh_is_told(int64_t ends, const struct vh_climate_request *request,
                const struct vh_house_params *params);

/* Which cells of the header hold what, by the person's map first, then by our own names. */
enum vh_status vh_file_columns(struct vh_file_use *f, const struct vh_csv_row *header,
                               struct vh_column_map *map, size_t maps, struct vh_messages *m);

/* ---- sets of minutes: which readings there are, in memory that grows with the season only ---- */

struct vh_minutes {
    size_t count;
    uint64_t *word;
};

enum vh_status vh_minutes_init(struct vh_minutes *s, size_t count);
void vh_minutes_clear(struct vh_minutes *s); /* frees */
void vh_minutes_empty(struct vh_minutes *s);
bool vh_minutes_add(struct vh_minutes *s, size_t minute);         /* false: was in it already */
size_t vh_minutes_next(const struct vh_minutes *s, size_t after); /* s->count: none */
/* The step that at least half of the neighbours keep, 1..1440; `otherwise` with fewer than two. */
int vh_minutes_typical_step(const struct vh_minutes *s, int otherwise);

/* ---- the time of a row ---- */

struct vh_row_clock {
    enum vh_clock_rule rule;
    int utc_offset_min;
    const char *pattern; /* NULL: ISO 8601 */
    bool may_be_iso;     /* ISO 8601 is tried where the pattern does not fit */
    bool any, in_doubled, descending, second;
    int64_t last_wall, doubled_day;
};

int64_t vh_floor_day(int64_t minute); /* the day a minute of vh_date.h lies in */

enum vh_row_time { VH_TIME_GOOD, VH_TIME_BAD, VH_TIME_MISSING_HOUR };

/* *minute: of the house's standard time, counted like vh_date.h; *is_date: no time of day given. */
enum vh_row_time vh_row_clock_read(struct vh_row_clock *clock, const struct vh_csv_cell *date,
                                   const struct vh_csv_cell *time, int64_t *minute, bool *is_date);

/* ---- rows to hours ---- */

struct vh_hour_sum {
    int64_t *sum;
    uint16_t *minutes;
    struct vh_minutes seen, taken;
};

/* Where the readings of an hour stand; file NULL: it has none of its own. */
struct vh_hour_lines {
    const struct vh_file_name *file;
    int64_t first, last;
};

struct vh_hour_sums {
    struct vh_window window;
    int64_t last_used_day;                   /* rows after it are counted, not used */
    struct vh_hour_sum sum[VH_HOURLY_COUNT]; /* word NULL: no file has such a column */
    double *hourly[VH_HOURLY_COUNT];         /* NULL: none; NaN where nothing was read */
    double *daily[VH_DAILY_COUNT];           /* the same */
    struct vh_hour_lines *warmth_lines;      /* of the house's temperature; NULL: no log has any */
    size_t last_warmth; /* latest minute of the window with a temperature of the house */
    const struct vh_file_name *warmth_file; /* that holds it; NULL: none */
};

/* Reads the files (all logs, or the one outside file) and leaves hourly and daily values. */
enum vh_status vh_hour_sums_read(struct vh_hour_sums *s, enum vh_climate_file kind,
                                 const struct vh_file_name *file, size_t files,
                                 const struct vh_climate_request *request,
                                 const struct vh_house_params *params, struct vh_digest *digest,
                                 struct vh_table *report, struct vh_messages *m);
void vh_hour_sums_clear(struct vh_hour_sums *s);
size_t vh_hour_sums_hours(const struct vh_hour_sums *s); /* of the window */
enum vh_status vh_hour_sums_prepare(struct vh_hour_sums *s, enum vh_hourly q);
/* value holds from `minute` of the window for `hold` minutes; what passes the window's end is cut.
 */
void vh_hour_sums_add(struct vh_hour_sums *s, enum vh_hourly q, size_t minute, size_t hold,
                      double value);
/* Warns of hours on end with the same temperature inside, stuck_h or more; before the finish. */
enum vh_status vh_stuck_report(const struct vh_hour_sums *s,
                               const struct vh_climate_request *request,
                               const struct vh_house_params *params, struct vh_table *report,
                               struct vh_messages *m);
/* Sums to hourly means; hours without a reading are interpolated up to gap_fill_h in a row. */
enum vh_status vh_hour_sums_finish(struct vh_hour_sums *s, double gap_fill_h);
/* Makes *array n NaNs, if it is not there yet; the caller frees it. */
enum vh_status vh_fill_nan(double **array, size_t n);
/* NaN where the quantity is missing. */
double vh_hour_sums_hour(const struct vh_hour_sums *s, enum vh_hourly q, size_t hour);
double vh_hour_sums_day(const struct vh_hour_sums *s, enum vh_daily q, size_t day);

/* ---- months to days ---- */

enum vh_normal {
    VH_NORMAL_TMIN,
    VH_NORMAL_TMAX,
    VH_NORMAL_RADIATION,
    VH_NORMAL_SUNSHINE,
    VH_NORMAL_COUNT
};

/* Values at mid-month whose straight lines keep the monthly means; NaN where a quantity is missing.
 */
struct vh_normals {
    bool given;
    double mid[VH_NORMAL_COUNT][12];
};

void vh_normals_none(struct vh_normals *n);
/* mean[12] of a quantity to mid-month values. */
void vh_normals_set(struct vh_normals *n, enum vh_normal q, const double mean[12]);
double vh_normals_day(const struct vh_normals *n, enum vh_normal q, int64_t day);
enum vh_status vh_normals_read(const struct vh_climate_request *request, struct vh_digest *digest,
                               struct vh_normals *n, struct vh_messages *m);
/* Four temperatures to months by a sine: warmest in July north of the equator, in January south. */
void vh_normals_roughly(const struct vh_climate_request *request, struct vh_normals *n);

/* ---- everything of one reading ---- */

struct vh_climate_work {
    const struct vh_climate_request *request;
    const struct vh_house_params *params;
    struct vh_window window;
    struct vh_hour_sums log, outside;
    struct vh_normals normals, roughly;
    /* outside, per day */
    double *ra_mj; /* extraterrestrial; NaN without latitude */
    double *tmin_c, *tmax_c;
    double *radiation_mj;
    bool *spell_temperature, *spell_sky;
    bool *outside_known; /* the file of outside weather has the day's temperatures */
    /* per hour */
    double *ra_hour_mj;
    double *lamps_share; /* of the hour inside the lamp hours; NaN: none given */
    double *t_out_c, *r_out_w_m2;
    double *t_c, *par_umol_m2_s; /* inside */
    unsigned char *t_logged, *light_logged;
    /* inside, as if there were no log; then by how much it is moved after the log */
    double *t_blind_c, *par_blind_umol_m2_s;
    double *warmer_c, *lighter_umol_m2_s;
    double *co2_ppm; /* NaN: as the scenario has it */
};

enum vh_status vh_climate_work_init(struct vh_climate_work *w,
                                    const struct vh_climate_request *request,
                                    const struct vh_house_params *params, struct vh_messages *m);
void vh_climate_work_clear(struct vh_climate_work *w);

/* Fills the outside of every day and hour: ra_mj to r_out_w_m2. */
void vh_outlook_fill(struct vh_climate_work *w);
/* The sine of a day through hour h (its middle), with the neighbours' ends; [allen76]. */
double vh_day_sine(double t_max_h, double hour, double tmin_c, double tmax_c, double tmax_before_c,
                   double tmin_after_c);
/* Fills the inside of every hour: t_c to light_logged. */
void vh_inside_fill(struct vh_climate_work *w);
/* Both, and the hours after the log moved by what the outlook was off on its last days. */
void vh_recent_fill(struct vh_climate_work *w);
/* What that was reckoned from, for the season's hours; `skipped` days of the window lie before. */
void vh_inside_outlook(const struct vh_climate_work *w, size_t skipped, struct vh_climate *out);
/* T = max(T_heat, min(T_out + gain R_out, max(T_vent, T_out + lift))); NaN where the outside is
 * unknown. */
VH_KERNEL double vh_inside_c(double gain_k_m2_w, double lift_k, double vent_c, double t_out_c,
                             double sun_w_m2, double heat_c)
{
    const double unheated = t_out_c + gain_k_m2_w * sun_w_m2, lifted = t_out_c + lift_k;
    const double most = vh_select(vent_c > lifted, vent_c, lifted);
    const double lower = vh_select(unheated < most, unheated, most);

    return vh_select(unheated != unheated, unheated, vh_select(heat_c > lower, heat_c, lower));
}
double vh_outlook_inside_c(const struct vh_outlook *o, double t_out_c, double sun_w_m2,
                           double heat_c);
/* The sums of one day from its hours, by any registers that the machine has. */
void vh_climate_sum_day(struct vh_climate *c, size_t day, enum vh_registers registers);
/* Is the sun up in this hour? Without a latitude: from 6 to 18 h. */
bool vh_sun_is_up(const struct vh_climate_work *w, size_t hour);
/* Solar minus clock time on a window day; 0 without a longitude. */
double vh_solar_shift_h(const struct vh_climate_work *w, size_t day);

/* Copies the season out of the window and makes the day sums. */
enum vh_status vh_climate_days(const struct vh_climate_work *w, struct vh_climate *out,
                               struct vh_messages *m);

#endif
