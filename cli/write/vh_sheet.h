/* vh_sheet.h - parts of sheet.html that have a file of their own. */
#ifndef VH_SHEET_H
#define VH_SHEET_H

#include "vh_page.h"
#include "vh_week_work.h"

/* Under a pick: its colour, where it is kept, and what the next market day is promised. */
void vh_sheet_pick(struct vh_page *p, const struct vh_week_task *task);
/* What harms the planting within the week, and what to do. */
void vh_sheet_harm(struct vh_page *p, const char *planting);

#endif
