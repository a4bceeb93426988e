/* vh_complain.h - what goes to standard error: messages of the library, and how far a long run is.
 */
#ifndef VH_COMPLAIN_H
#define VH_COMPLAIN_H

#include <stdbool.h>
#include <stddef.h>
#include <time.h>

#include "vinehand.h"

/* Errors, and unless `quiet` notes and warnings, as FILE:LINE:COLUMN: lines, at most 20 errors and
 * 20 others, then how many more. On a terminal the line and a caret follow. */
void vh_complain_messages(const struct vh_messages *m, bool quiet);
/* "vinehand: text" */
void vh_complain(const char *text);

struct vh_progress_line {
    bool wanted; /* a terminal, and not quiet */
    bool shown;
    struct timespec start;
};

void vh_progress_line_start(struct vh_progress_line *p, bool quiet);
/* Shows the share once a second of waiting has passed. */
void vh_progress_line_show(struct vh_progress_line *p, double share_done);
void vh_progress_line_end(struct vh_progress_line *p);

#endif
