/* vh_lock.h - one thread at a time; nothing at all where there are no threads (no OpenMP). */
#ifndef VH_LOCK_H
#define VH_LOCK_H

#ifdef _OPENMP
#include <omp.h>
struct vh_lock {
    omp_lock_t lock;
};
static inline void vh_lock_init(struct vh_lock *l)
{
    omp_init_lock(&l->lock);
}
static inline void vh_lock_take(struct vh_lock *l)
{
    omp_set_lock(&l->lock);
}
static inline void vh_lock_give(struct vh_lock *l)
{
    omp_unset_lock(&l->lock);
}
static inline void vh_lock_clear(struct vh_lock *l)
{
    omp_destroy_lock(&l->lock);
}
#else
struct vh_lock {
    char none;
};
static inline void vh_lock_init(struct vh_lock *l)
{
    (void)l;
}
static inline void vh_lock_take(struct vh_lock *l)
{
    (void)l;
}
static inline void vh_lock_give(struct vh_lock *l)
{
    (void)l;
}
static inline void vh_lock_clear(struct vh_lock *l)
{
    (void)l;
}
#endif

#endif
