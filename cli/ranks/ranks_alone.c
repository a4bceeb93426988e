/* One process alone: built without MPI. */
#include "vh_ranks.h"

bool vh_ranks_begin(struct vh_ranks *r)
{
    *r = (struct vh_ranks){.rank = 0, .ranks = 1, .begun = true};
    return true;
}

void vh_ranks_end(struct vh_ranks *r)
{
    r->begun = false;
}

void vh_ranks_share(const struct vh_ranks *r, void *bytes, size_t n)
{
    (void)r;
    (void)bytes;
    (void)n;
}

void vh_ranks_gather(const struct vh_ranks *r, void *slots, size_t slot_bytes, size_t count)
{
    (void)r;
    (void)slots;
    (void)slot_bytes;
    (void)count;
}

int vh_ranks_highest(const struct vh_ranks *r, int mine, bool *is_first)
{
    (void)r;
    *is_first = true;
    return mine;
}
