/* vh_random.h - random numbers that depend only on (draw, member, day, purpose): any can be had
 * alone, in any order.
 *
 * Philox4x32-10: Salmon, Moraes, Dror & Shaw 2011, SC'11, doi 10.1145/2063384.2063405.
 */
#ifndef VH_RANDOM_H
#define VH_RANDOM_H

#include <stdint.h>

struct vh_philox {
    uint32_t w[4];
};

struct vh_philox vh_philox(struct vh_philox counter, uint32_t key0, uint32_t key1);

/* Uniform in the open interval (0,1), 52 bits. */
double vh_uniform(uint64_t draw, uint32_t member, uint32_t day, uint32_t purpose, uint32_t row);
/* Standard normal, by the quantile of that uniform. */
double vh_normal(uint64_t draw, uint32_t member, uint32_t day, uint32_t purpose, uint32_t row);
/* Those of VH_NORMALS days from `day` on, side by side: the same bits. */
enum { VH_NORMALS = 8 };
void vh_normals(uint64_t draw, uint32_t member, uint32_t day, uint32_t purpose, uint32_t row,
                double out[VH_NORMALS]);

#endif
