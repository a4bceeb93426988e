/* vh_safe_folder.h - a set of result files that appears whole or not at all.
 *
 * A new folder with a hidden name is filled beside the wanted one (same file system), synced, and
 * the two change places in one step. So at any moment the wanted folder holds one complete set: the
 * old one or the new one. Files in it that are not from an earlier run are carried over. What a
 * killed run left behind is finished or removed by the next open.
 */
#ifndef VH_SAFE_FOLDER_H
#define VH_SAFE_FOLDER_H

#include <stdbool.h>
#include <stddef.h>

#include "vinehand.h"

#define VH_WHY 1024 /* bytes of a reason, its 0 included */

struct vh_safe_folder;

/* Could results go to `path`? Touches nothing. VH_BAD_INPUT: it is something else than a folder of
 * ours, an empty one or a free name; VH_NO_FILE: the system says no. The reason is in `why`. */
enum vh_status vh_safe_folder_check(const char *path, char why[VH_WHY]);
/* The same check, then the hidden folder. The caller frees *out. */
enum vh_status vh_safe_folder_open(const char *path, struct vh_safe_folder **out, char why[VH_WHY]);
/* The same in a folder that vh_safe_folder_tidy has put in order: for many sets side by side. */
enum vh_status vh_safe_folder_open_in_tidy(const char *path, struct vh_safe_folder **out,
                                           char why[VH_WHY]);
/* Finishes or removes what killed runs left in this folder of result folders. */
enum vh_status vh_safe_folder_tidy(const char *parent, char why[VH_WHY]);
/* *bytes: of a file of the old set, a 0 behind them, or NULL: none. Freed by free(). VH_NO_FILE or
 * VH_NO_MEMORY where it is there and cannot be read. */
enum vh_status vh_safe_folder_old_file(const struct vh_safe_folder *f, const char *name,
                                       char **bytes, size_t *n, char why[VH_WHY]);
/* Writes one file of the new set, to the disk. */
enum vh_status vh_safe_folder_add(struct vh_safe_folder *f, const char *name, const void *bytes,
                                  size_t n, char why[VH_WHY]);
/* Puts the new set in the old one's place. On a failure the old set is as it was. */
enum vh_status vh_safe_folder_commit(struct vh_safe_folder *f, char why[VH_WHY]);
/* The same by the journalled two steps that serve where the file system cannot exchange. */
enum vh_status vh_safe_folder_commit_in_steps(struct vh_safe_folder *f, char why[VH_WHY]);
/* Before a commit: gives the new set up. */
void vh_safe_folder_free(struct vh_safe_folder *f);

#endif
