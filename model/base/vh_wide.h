/* vh_wide.h - loops whose turns do not hang on each other, laid side by side in the machine's wide
 * registers: the same bits, only sooner.
 *
 * A kernel is written once, as a VH_KERNEL function without branches, and built more than once:
 * plainly, as VH_WIDE, where the compiler may use registers of four doubles (AVX2), and as VH_WIDEST,
 * of eight (AVX-512); without fused multiply-add: each operation rounds
 * as it always did. The caller chooses by what the machine has, so one program serves every
 * machine; tests hold them against each other bit for bit.
 */
#ifndef VH_WIDE_H
#define VH_WIDE_H

#include <stdbool.h>

#if defined(__GNUC__)
#define VH_KERNEL static inline __attribute__((always_inline))
#else
#define VH_KERNEL static inline
#endif

#if defined(__GNUC__) && defined(__x86_64__)
#define VH_WIDE __attribute__((target("avx2")))
static inline bool vh_can_go_wide(void)
{
    return __builtin_cpu_supports("avx2") != 0;
}
/* Registers of eight doubles, for members side by side. */
#if defined(__clang__)
#define VH_WIDEST __attribute__((target("avx512f,avx512vl,avx512dq"), min_vector_width(512)))
#else
#define VH_WIDEST __attribute__((target("avx512f,avx512vl,avx512dq,prefer-vector-width=512")))
#endif
static inline bool vh_can_go_widest(void)
{
    return __builtin_cpu_supports("avx512f") != 0 && __builtin_cpu_supports("avx512vl") != 0 &&
           __builtin_cpu_supports("avx512dq") != 0;
}
#else
#define VH_WIDE
#define VH_WIDEST
static inline bool vh_can_go_wide(void)
{
    return false;
}
static inline bool vh_can_go_widest(void)
{
    return false;
}
#endif

/* For what a loop is built: one number at a time, four or eight. */
enum vh_registers { VH_BY_ONE, VH_BY_FOUR, VH_BY_EIGHT };
static inline enum vh_registers vh_registers(void)
{
    return vh_can_go_widest() ? VH_BY_EIGHT : vh_can_go_wide() ? VH_BY_FOUR : VH_BY_ONE;
}

/* Before a loop: no turn reads what another writes, whatever the pointers, so they may be laid side
 * by side; a loop of few turns would else be written out before anyone asks. */
#define VH_APART _Pragma("omp simd")

/* Kernels work on so many at a time: one wide register. */
#define VH_SIDE 4
/* Members of one planting that are stepped side by side: one register of eight doubles, or two. */
#define VH_LANES 8
/* Before the first of arrays of VH_LANES numbers: a register of eight that lies across two lines of
 * the processor's memory at hand is read twice. */
#define VH_IN_LINE _Alignas(64)
/* number[n]: first, first + 1, ..., as wide as what lies beside them: whole numbers in a kernel
 * would halve its registers. */
VH_KERNEL void vh_numbers(int first, int n, double *number)
{
    for (int k = 0; k < n; k++)
        number[k] = first + k;
}

#endif
