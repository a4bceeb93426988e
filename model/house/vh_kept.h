/* vh_kept.h - what another season taught of these plants, from a file that `learn --save` wrote: it
 * stands in place of the book's mean and spread of a factor.
 */
#ifndef VH_KEPT_H
#define VH_KEPT_H

#include "vh_brought.h"
#include "vh_error.h"

#define VH_KEPT_HOUSE "house" /* stands for a planting where a factor is of the whole house */

/* Mechanisms that a future multiplies, and what a log's thermometer is off by (in K, added). */
enum vh_kept_kind {
    VH_KEPT_LIGHT,
    VH_KEPT_TRUSS_PACE,
    VH_KEPT_FRUIT_PACE,
    VH_KEPT_FRUIT_MASS,
    VH_KEPT_SET,
    VH_KEPT_STEM_PACE,
    VH_KEPT_SUCKER_PACE,
    VH_KEPT_MARKETABLE,
    VH_KEPT_LOG_OFFSET,
    VH_KEPT_KINDS
};
/* "truss_pace"; "log_offset_c" */
const char *vh_kept_name(enum vh_kept_kind kind);
/* Light and the log's offset are one for the house. */
static inline bool vh_kept_is_of_house(enum vh_kept_kind kind)
{
    return kind == VH_KEPT_LIGHT || kind == VH_KEPT_LOG_OFFSET;
}

/* Zeroed: the book's. low..high hold four futures in five: sd = log(high/low)/2.563 of a factor,
 * (high - low)/2.563 of an offset; mean is the factor's, or the offset's. */
struct vh_kept {
    bool given;
    double mean, sd;
};

struct vh_house;
struct vh_digest;
/* Reads `crop_or_planting,name,factor,low,high` into the house and its plantings; a planting's own
 * row goes before one of its crop; "house" stands for light and log_offset_c. A name that nothing
 * here has is a warning: last year's file may hold more. VH_BAD_INPUT with messages. */
enum vh_status vh_kept_read(struct vh_house *house, const char *path, const char *shown_name,
                            struct vh_digest *digest, struct vh_messages *m);
enum vh_status vh_kept_read_memory(struct vh_house *house, const char *text, size_t n,
                                   const char *shown_name, struct vh_messages *m);

/* The columns of such a file. */
enum vh_status vh_kept_columns(vh_brought_take take, void *context);

#endif
