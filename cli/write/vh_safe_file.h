/* vh_safe_file.h - one file of a person's own, changed whole or not at all.
 *
 * The new bytes go into a hidden file beside it and to the disk; then the two change places in one
 * step. Permissions stay, and a symbolic link still points to the file it pointed to.
 */
#ifndef VH_SAFE_FILE_H
#define VH_SAFE_FILE_H

#include <stddef.h>

#include "vh_safe_folder.h"

/* Puts n bytes in place of the old_n bytes that the file held when it was read; old NULL: there was
 * no such file. VH_BAD_INPUT: it is no plain file, may not be written, or another program changed
 * it meanwhile; VH_NO_FILE: the system says no. The reason is in `why`; the file is as it was,
 * or, where the disk took it but may not keep it, `why` says that it is written. */
enum vh_status vh_safe_file_replace(const char *path, const void *old, size_t old_n,
                                    const void *bytes, size_t n, char why[VH_WHY]);
/* The same for a file of the program's own, whatever it held. Not beside other threads that make
 * files: it asks for the umask. */
enum vh_status vh_safe_file_put(const char *path, const void *bytes, size_t n, char why[VH_WHY]);

#endif
