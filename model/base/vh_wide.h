/* vh_wide.h - loops whose turns do not hang on each other, laid side by side in the machine's wide
 * registers: the same bits, only sooner.
 *
 * A kernel is written once, as a VH_KERNEL function without branches, and built twice: plainly, and
 * as VH_WIDE, where the compiler may use registers of four doubles (AVX2, without fused
 * multiply-add: each operation rounds as it always did). The caller chooses by vh_can_go_wide(), so
 * one program serves every machine; a test holds both against each other bit for bit.
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
#else
#define VH_WIDE
static inline bool vh_can_go_wide(void)
{
    return false;
}
#endif

/* Kernels work on so many at a time: one wide register. */
#define VH_SIDE 4
/* number[n]: first, first + 1, ..., as wide as what lies beside them: whole numbers in a kernel
 * would halve its registers. */
VH_KERNEL void vh_numbers(int first, int n, double *number)
{
    for (int k = 0; k < n; k++)
        number[k] = first + k;
}

#endif
