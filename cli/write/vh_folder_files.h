/* vh_folder_files.h - files of one folder that reach the disk together: a disk that is asked once
 * for twenty files answers much sooner than one that is asked twenty times. */
#ifndef VH_FOLDER_FILES_H
#define VH_FOLDER_FILES_H

#include <stddef.h>

enum { VH_FOLDER_FILES_MOST = 64 }; /* open at a time */

/* Written, but not known to be on the disk. Zeroed: none. */
struct vh_folder_files {
    int fd[VH_FOLDER_FILES_MOST];
    size_t files;
};

/* Writes all bytes, and takes fd over in every case. 0 or errno. */
int vh_folder_files_add(struct vh_folder_files *f, int fd, const void *bytes, size_t n);
/* All of them are on the disk, or what was in the way: 0 or errno. None is left. */
int vh_folder_files_sync(struct vh_folder_files *f);
/* As it is; for files that are not wanted any more. */
void vh_folder_files_drop(struct vh_folder_files *f);

#endif
