/* vh_number.h - decimal numbers out of text, the same bits in every build and every locale.
 *
 * The one reader of numbers behind the scenario file, CSV cells and parameter rows.
 */
#ifndef VH_NUMBER_H
#define VH_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/* Is the whole text a decimal number, and if so which double is nearest to it (ties to even)?
 * Form: sign, digits with at most one `decimal` sign among or beside them, exponent (e or E, sign,
 * digits); at least one digit before the exponent. No blanks, hex, inf, nan, thousands signs.
 * Correctly rounded for any number of digits; below the smallest subnormal it is 0. length: bytes
 * at text, which need not be 0-terminated. decimal: '.' or ','. false: not a number, or too great
 * for a double; *value untouched. */
bool vh_number_parse(const char *text, size_t length, char decimal, double *value);

#endif
