/* vh_one_house.h - one scenario of many: read, computed, written; nothing is printed. */
#ifndef VH_ONE_HOUSE_H
#define VH_ONE_HOUSE_H

#include "vh_arguments.h"
#include "vinehand.h"

/* Fixed in size, so that ranks can hand it on. */
struct vh_house_outcome {
    enum { VH_HOUSE_STOPPED, VH_HOUSE_DONE, VH_HOUSE_THERE, VH_HOUSE_WRONG, VH_HOUSE_FAILED } came;
    int errors;    /* found in it */
    char why[700]; /* the first of them, as a line; "" where it was done */
};

/* What all houses of a run share. */
struct vh_many_houses {
    const struct vh_arguments *arguments;
    const struct vh_parameters *parameters;
    struct vh_run_options given; /* for each scenario; threads: of one house */
    const struct vh_house_list *list;
    const char *out; /* the folder of all results */
};

/* From any thread. Earlier results of house i stay as they are unless it is done. */
void vh_one_house_run(const struct vh_many_houses *w, size_t i, struct vh_house_outcome *o);

#endif
