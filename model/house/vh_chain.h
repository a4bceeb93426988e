/* vh_chain.h - the worked chain behind one number of a run: see vh_explain_truss and
 * vh_explain_market_day of vinehand.h. */
#ifndef VH_CHAIN_H
#define VH_CHAIN_H

#include "vh_result.h"

struct vh_chain;

/* What is worked through: the average plants of the house as a run had them. */
struct vh_chain_run {
    const struct vh_run *run;       /* with its factors; picks to come stray as they do today */
    const double *const *stray;     /* [planting][day of its season] picked over the model's */
    const struct vh_result *result; /* of vh_forecast, to which the chain is held; NULL: none */
    size_t entries;                 /* of the records that moved the factors; 0: none did */
    bool kept;                      /* another season moved them (kept.csv) */
    double log_offset_c;
};

/* Truss `truss` of the planting of that name. VH_BAD_INPUT, VH_NO_MEMORY, VH_NO_NUMBER. */
enum vh_status vh_chain_of_truss(const struct vh_chain_run *run, const char *planting, int truss,
                                 struct vh_chain **out, struct vh_messages *m);
/* VH_BAD_INPUT where that day is no market day, VH_NO_MEMORY. */
enum vh_status vh_chain_of_market_day(const struct vh_chain_run *run, int64_t date,
                                      struct vh_chain **out, struct vh_messages *m);

#endif
