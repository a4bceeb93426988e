/* vh_cautions.h - what can hurt at the work, and what to do; one list for screen, page and sheet.
 */
#ifndef VH_CAUTIONS_H
#define VH_CAUTIONS_H

#include <stddef.h>

/* Hazard in a few words, then what to do; and both in one short sentence, where room is scarce. */
struct vh_caution {
    const char *hazard, *what_to_do, *brief;
};

const struct vh_caution *vh_cautions(size_t *count);
/* The line that ends every list of them. */
const char *vh_cautions_end(void);

#endif
