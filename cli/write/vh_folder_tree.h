/* vh_folder_tree.h - folders and what is in them, by open folder handles; errors are errno values.
 */
#ifndef VH_FOLDER_TREE_H
#define VH_FOLDER_TREE_H

#include <dirent.h>
#include <stdbool.h>
#include <stddef.h>

/* Why a folder cannot be written into, by errno, in a person's words. */
const char *vh_folder_fault(int e);
/* Bytes of the folder that `path` lies in, its '/' included; 0: the current one. Blind to '/' at
 * the end. */
size_t vh_folder_parent(const char *path);
bool vh_folder_parent_is_there(const char *path);
/* Opens that folder. 0 or errno; *fd is -1 with 0 where it may be written but not read. */
int vh_folder_open_parent(const char *path, int *fd);
/* An own stream over the entries of an open folder; NULL with errno. */
DIR *vh_folder_entries(int folder);
/* The next entry that is not "." or ".."; NULL at the end (errno 0) or on an error. */
const char *vh_folder_next(DIR *entries);
/* Removes an entry and all that is in it. 0 or errno. */
int vh_folder_remove(int parent, const char *name);
/* Makes `name` of `from` appear in `to` too: files as hard links (or copies where links cannot be),
 * symbolic links as they are, folders with all that is in them. 0 or errno. */
int vh_folder_mirror(int from, int to, const char *name);
/* Writes all bytes. 0 or errno. */
int vh_folder_write(int fd, const void *bytes, size_t n);
/* Writes all bytes and syncs them; closes fd in every case. 0 or errno. */
int vh_folder_write_file(int fd, const void *bytes, size_t n);
/* The names in an open folder are on the disk. 0 or errno; 0 also where the file system cannot be
 * asked for it. */
int vh_folder_sync(int folder);

#endif
