/* vh_waiting_words.h - what a week of waiting brings where the model reckons no kilograms of it. */
#ifndef VH_WAITING_WORDS_H
#define VH_WAITING_WORDS_H

#include "vh_lower.h"
#include "vh_task.h"

enum { VH_LATE_ROOM = 120 };

/* Of the task first due on `date`, done seven days later; "": nothing is known of it, or waiting is
 * told in kilograms. plan: of the lowering. */
void vh_waiting_words(const struct vh_work_series *series, const struct vh_lower_plan *plan,
                      enum vh_task task, int64_t date, char said[VH_LATE_ROOM]);

#endif
