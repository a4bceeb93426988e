/* vh_first_files.h - the first files of a new house: all of them appear, or none; nothing that is
 * there already is ever replaced. */
#ifndef VH_FIRST_FILES_H
#define VH_FIRST_FILES_H

#include <stddef.h>

#include "vh_safe_folder.h"

struct vh_first_file {
    const char *name;
    const void *bytes; /* NULL in vh_first_files_check: not known yet */
    size_t n;
};

/* Could the files go into `folder`? Touches nothing. VH_BAD_INPUT: it is no folder, or one of them
 * is there already with other bytes (with the same it is what a killed run left, and stays);
 * VH_NO_FILE: the system says no. */
enum vh_status vh_first_files_check(const char *folder, const struct vh_first_file *file,
                                    size_t files, char why[VH_WHY]);
/* Writes them into a hidden folder, whose name comes back in *stage (freed by free()). It lies
 * in `folder` where that exists, else beside it. *held: locks it until vh_first_files_drop, so that
 * other runs clean up after dead ones only. */
enum vh_status vh_first_files_stage(const char *folder, const struct vh_first_file *file,
                                    size_t files, char **stage, int *held, char why[VH_WHY]);
/* Moves the staged files to where they belong, the first of the list last: it makes the others
 * meant. On a failure `folder` is as it was, or `why` says that it is written, but may not last. */
enum vh_status vh_first_files_commit(const char *folder, const char *stage,
                                     const struct vh_first_file *file, size_t files,
                                     char why[VH_WHY]);
/* Takes the hidden folder away, whether or not it was committed. */
void vh_first_files_drop(const char *stage, int held, const struct vh_first_file *file,
                         size_t files);

#endif
