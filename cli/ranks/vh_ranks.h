/* vh_ranks.h - several processes of this program that share one task, by MPI where it is built with
 * it; else one process alone. Nothing else of the tree knows MPI.
 *
 * All ranks make the same calls in the same order. Bytes do not depend on how many ranks there are:
 * each fills slots of its own, and rank 0 takes them in the order of the slots.
 */
#ifndef VH_RANKS_H
#define VH_RANKS_H

#include <stdbool.h>
#include <stddef.h>

struct vh_ranks {
    int rank, ranks; /* this one, 0 ... ranks - 1 */
    bool begun;
};

/* Once in the life of a process. false: the ranks cannot reach each other. */
bool vh_ranks_begin(struct vh_ranks *r);
void vh_ranks_end(struct vh_ranks *r);
/* n bytes of rank 0 to all others. */
void vh_ranks_share(const struct vh_ranks *r, void *bytes, size_t n);
/* slots of slot_bytes each, slot i filled by rank i % ranks: afterwards all of them in rank 0. */
void vh_ranks_gather(const struct vh_ranks *r, void *slots, size_t slot_bytes, size_t count);
/* The highest of all ranks' numbers, once every rank is here. *is_first: this is the first rank
 * that has it. */
int vh_ranks_highest(const struct vh_ranks *r, int mine, bool *is_first);

#endif
