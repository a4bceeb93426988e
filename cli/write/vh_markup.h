/* vh_markup.h - text for HTML and SVG: whatever a person typed stands as text, never as markup. */
#ifndef VH_MARKUP_H
#define VH_MARKUP_H

#include "vh_draft.h"

/* Text between tags or in a quoted attribute: & < > " ' are written as entities, control characters
 * and bytes that are no UTF-8 as U+FFFD; half a turn of the hook is one sign, a half. */
void vh_markup_text(struct vh_draft *out, const char *text);

#endif
