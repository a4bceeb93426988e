/* vh_folder.h - what lies in a folder that a person names. */
#ifndef VH_FOLDER_H
#define VH_FOLDER_H

#include "vh_error.h"

/* false also where there is nothing of that name. */
bool vh_path_is_folder(const char *path);

/* Folder and name joined by one slash; a name that begins with a slash stands alone. The caller
 * frees it; NULL: memory is out. */
char *vh_path_join(const char *folder, const char *name);

struct vh_names {
    char **name;
    size_t names;
};

/* The names in a folder that end in `suffix` (taken off) and do not begin with a point, sorted by
 * their bytes. VH_BAD_INPUT: no such folder; VH_NO_FILE: the system failed; VH_NO_MEMORY. */
enum vh_status vh_folder_list(const char *path, const char *suffix, struct vh_names *out,
                              struct vh_messages *m);
void vh_names_clear(struct vh_names *n);

#endif
