/* worth.h - what one count says of a number, by what the futures have in common (vh_to_measure.h).
 */
#ifndef VH_WORTH_H
#define VH_WORTH_H

#include <stddef.h>

#include "vh_error.h"

struct vh_worth {
    size_t members;
    const double *wanted;  /* [member] Y */
    const double *counted; /* [member] g */
    double error_variance; /* R */
    double doubt;          /* shrinks the correlation, as that of vh_smoother.h */
    size_t factors;
    const double *const *factor; /* [factors][member] M; those without spread are passed over */
};

/* Share of the spread of Y that the count would take, 0 to 1. VH_NO_MEMORY, VH_NO_NUMBER. */
enum vh_status vh_worth_narrows(const struct vh_worth *w, double *narrows);

#endif
