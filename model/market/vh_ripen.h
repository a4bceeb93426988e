/* vh_ripen.h - picked fruit colours on in store: days to red by stage at pick and temperature.
 *
 * A table `stage,temp_c,days,basis,source,place,note` (the last four columns may be absent);
 * between its cells linear in stage and temperature, outside its temperatures nothing is known. Red
 * itself needs 0 days; light red lies halfway between pink and red [assumed].
 */
#ifndef VH_RIPEN_H
#define VH_RIPEN_H

#include "vh_error.h"

/* A stage is a real number: 1.5 is halfway from breaker to turning. */
enum vh_ripen_stage {
    VH_RIPEN_MATURE_GREEN,
    VH_RIPEN_BREAKER,
    VH_RIPEN_TURNING,
    VH_RIPEN_PINK,
    VH_RIPEN_LIGHT_RED,
    VH_RIPEN_RED,
    VH_RIPEN_STAGES
};
enum { VH_RIPEN_TEMPS_MOST = 20 };

struct vh_ripen_table {
    size_t temps;
    double temp_c[VH_RIPEN_TEMPS_MOST]; /* rising */
    double days[VH_RIPEN_STAGES][VH_RIPEN_TEMPS_MOST];
};

/* Strict: each of mature-green, breaker, turning, pink at the same temperatures, rising, and later
 * stages sooner red; else VH_BAD_INPUT with file and line. VH_NO_FILE, VH_NO_MEMORY. */
struct vh_digest;
enum vh_status vh_ripen_read(const char *path, const char *shown_name, struct vh_digest *digest,
                             struct vh_ripen_table *out, struct vh_messages *m);
enum vh_status vh_ripen_read_memory(const char *text, size_t n, const char *shown_name,
                                    struct vh_ripen_table *out, struct vh_messages *m);

/* Days until red at a steady temperature; stage clamped to 0..5; unknown outside the table's
 * temperatures. */
double vh_ripen_days_to_red(const struct vh_ripen_table *t, double stage, double temp_c);
/* The stage after some days in store: red stays red. Unknown as above. */
double vh_ripen_stage_after(const struct vh_ripen_table *t, double stage, double temp_c,
                            double days);

#endif
