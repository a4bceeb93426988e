/* vh_units.h - a key or column that carries a unit may be given in the other system (interface.md
 * section 2).
 *
 * The longest known suffix wins; _ms_cm, _umol_m2_s, _w_m2, _w_k, _mol_m2_d, _mj_m2_d have no pair.
 */
#ifndef VH_UNITS_H
#define VH_UNITS_H

#include <stdbool.h>
#include <stddef.h>

/* For what is said, not read; exact (NIST SP 811). */
extern const double vh_g_per_oz;

/* our_value = given * scale + shift */
struct vh_unit_pair {
    double scale, shift;
};

/* Is `given` the key `ours`, or its pair in the other system ("wire_height_ft" for
 * "wire_height_m")? is_difference: temperatures scale only (log_offset_c). false: another key. */
bool vh_units_match(const char *ours, const char *given, bool is_difference,
                    struct vh_unit_pair *pair);

/* Edit distance of two keys (Damerau-Levenshtein), to offer the nearest known key; at most `limit`,
 * else limit + 1. */
size_t vh_key_distance(const char *a, const char *b, size_t limit);

#endif
