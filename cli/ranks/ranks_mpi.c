/* Built with MPI. A rank that dies takes all with it (MPI's own way); what it had finished stays,
 * and the same command goes on from there. */
#include <mpi.h>

#include "vh_ranks.h"

enum { SLOTS = 1 }; /* tag of messages */

bool vh_ranks_begin(struct vh_ranks *r)
{
    int threads;

    *r = (struct vh_ranks){.rank = 0, .ranks = 1};
    if (MPI_Init_thread(NULL, NULL, MPI_THREAD_FUNNELED, &threads) != MPI_SUCCESS)
        return false;
    r->begun = true;
    MPI_Comm_rank(MPI_COMM_WORLD, &r->rank);
    MPI_Comm_size(MPI_COMM_WORLD, &r->ranks);
    return threads >= MPI_THREAD_FUNNELED;
}

void vh_ranks_end(struct vh_ranks *r)
{
    if (r->begun)
        MPI_Finalize();
    r->begun = false;
}

void vh_ranks_share(const struct vh_ranks *r, void *bytes, size_t n)
{
    if (r->ranks > 1)
        MPI_Bcast(bytes, (int)n, MPI_BYTE, 0, MPI_COMM_WORLD);
}

/* Every ranks-th slot, as it lies: nothing is copied, so no memory can run out here. */
static MPI_Datatype slots_of(const struct vh_ranks *r, int rank, size_t slot_bytes, size_t count)
{
    const size_t ranks = (size_t)r->ranks;
    const size_t own = (count - (size_t)rank + ranks - 1) / ranks;
    MPI_Datatype type;

    MPI_Type_vector((int)own, (int)slot_bytes, (int)(ranks * slot_bytes), MPI_BYTE, &type);
    MPI_Type_commit(&type);
    return type;
}

void vh_ranks_gather(const struct vh_ranks *r, void *slots, size_t slot_bytes, size_t count)
{
    for (int rank = 1; rank < r->ranks && (size_t)rank < count; rank++) {
        char *first = (char *)slots + (size_t)rank * slot_bytes;

        if (r->rank != 0 && r->rank != rank)
            continue;
        MPI_Datatype type = slots_of(r, rank, slot_bytes, count);
        if (r->rank == 0)
            MPI_Recv(first, 1, type, rank, SLOTS, MPI_COMM_WORLD, MPI_STATUS_IGNORE);
        else
            MPI_Send(first, 1, type, 0, SLOTS, MPI_COMM_WORLD);
        MPI_Type_free(&type);
    }
}

int vh_ranks_highest(const struct vh_ranks *r, int mine, bool *is_first)
{
    struct {
        int value, rank;
    } own = {mine, r->rank}, best = own;

    if (r->ranks > 1)
        MPI_Allreduce(&own, &best, 1, MPI_2INT, MPI_MAXLOC, MPI_COMM_WORLD); /* ties: lowest rank */
    *is_first = best.rank == r->rank;
    return best.value;
}
