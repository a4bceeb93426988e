/* vh_text_width.h - how wide a text will be, so that labels can be placed before they are drawn. */
#ifndef VH_TEXT_WIDTH_H
#define VH_TEXT_WIDTH_H

#include <stdbool.h>

/* Width of UTF-8 text in the unit of size_px, set in DejaVu Sans: the widest of the fonts that the
 * pages name, so that a label placed by it never grows into its neighbour. Letters beyond ASCII
 * count as wide as an em. */
double vh_text_width(const char *text, double size_px, bool bold);

#endif
