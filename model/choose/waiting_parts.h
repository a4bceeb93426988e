/* waiting_parts.h - what the files of the cost of waiting hand to each other; private to the
 * folder.
 */
#ifndef WAITING_PARTS_H
#define WAITING_PARTS_H

#include "vh_result.h"
#include "vh_task_plan.h"
#include "vh_waiting_words.h"

enum { VH_WAITING_D = 7, VH_WAITING_TRUSSES_MOST = 8 };

/* What is due in a planting within the week. */
struct vh_due_week {
    bool task[VH_TASKS];
    int64_t first[VH_TASKS]; /* its first day */
    char late[VH_TASKS][VH_LATE_ROOM];
    double cost[VH_TASKS];              /* of the week's waiting; NaN: not told in numbers */
    int truss[VH_WAITING_TRUSSES_MOST]; /* to be thinned */
    size_t trusses;
};

/* Fills the costs of all that is due, due[plantings]. VH_NO_MEMORY, VH_NO_NUMBER. */
enum vh_status vh_waiting_reckon(const struct vh_scenario *s, struct vh_due_week *due,
                                 struct vh_messages *m);

/* Moves each topping that is only proposed, within work.top_near_d, to the best of the days from its
 * own on (work.top_step_d apart), and takes it out where that does not pay in a share work.top_sure
 * of the futures. VH_NO_MEMORY, VH_NO_NUMBER, VH_INTERRUPTED. */
enum vh_status vh_topping_judge(const struct vh_scenario *s, struct vh_result *r,
                                struct vh_messages *m);

#endif
