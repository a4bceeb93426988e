/* vh_visits.h - on which days a visit really falls: the rhythm, the locks of a label, and what the
 * records say.
 *
 * A spray on day `on` bars entry on that day and for no_entry_h hours counted from its end (the
 * hour of the spray is not known, so none is taken for granted); a day is free again when they are
 * over by free_by_h of it. no_pick_d days, the day of the spray the first of them, bear no pick. A
 * visit that falls on a barred day is made on the first free one. These are the grower's own
 * numbers from her label.
 */
#ifndef VH_VISITS_H
#define VH_VISITS_H

#include "vh_done.h"
#include "vh_policy.h"

bool vh_entry_locked(const struct vh_policy *policy, int64_t day);
bool vh_pick_locked(const struct vh_policy *policy, int64_t day);
/* The first day from `day` on without such a lock. */
int64_t vh_entry_free(const struct vh_policy *policy, int64_t day);
int64_t vh_pick_free(const struct vh_policy *policy, int64_t day);

/* Does the plan have a visit of this rhythm on `day`, locks heeded? `start` begins the rhythm. */
bool vh_visit_planned(const struct vh_policy *policy, const struct vh_rhythm *rhythm, int64_t start,
                      int64_t day);
/* The same for picks, as far as the records do not say on which days there were any; a rhythm of
 * every so many days goes on from the last of these. */
bool vh_pick_planned(const struct vh_policy *policy, int64_t start, int64_t day);
/* Share of the stems that a visit reaches on `day`: by the records, else by the plan; 0: none. */
double vh_visit_share(const struct vh_policy *policy, enum vh_task task,
                      const struct vh_rhythm *rhythm, int64_t start, int64_t day);
/* Days since the last visit before `day` that reached at least half of the stems; since `start`
 * where there was none. */
int64_t vh_visit_gap_d(const struct vh_policy *policy, enum vh_task task,
                       const struct vh_rhythm *rhythm, int64_t start, int64_t day);
/* Is that so long that it must be made good in steps: missed_d or more, and twice as long as the
 * rhythm has it? Where she comes every fortnight, a fortnight is no visit missed. */
bool vh_visit_is_behind(const struct vh_policy *policy, enum vh_task task,
                        const struct vh_rhythm *rhythm, int64_t start, int64_t day);

/* Does a visit on `day` bring nothing any more before the crop goes? A pick does to the end; what
 * she wrote down of a day stays. */
bool vh_visit_is_idle(const struct vh_policy *policy, enum vh_task task, int64_t day);

/* Visits of a kind that come late: the days on which one comes, known as far as they were asked
 * for, so that each delay is drawn once. */
enum { VH_VISIT_KINDS = 3, VH_COMING_DAYS = 64 };
struct vh_delays {
    struct vh_coming {
        int64_t from, until; /* visits planned on these days are in `comes`; until < from: none */
        uint64_t comes;      /* [day % VH_COMING_DAYS] */
    } of[VH_VISIT_KINDS];
};
void vh_delays_forget(struct vh_delays *known);
/* Does a future's lateness reach this day? */
bool vh_visit_may_be_late(const struct vh_lateness *late, int64_t day);
/* Does a planned visit come on `day`, on its own day or late? A day under a lock has none. */
bool vh_visit_due(const struct vh_policy *policy, const struct vh_rhythm *rhythm,
                  enum vh_visit what, int64_t start, int64_t day);

#endif
