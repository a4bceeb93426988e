/* vh_file.h - opening and reading what a person names: plain files only, each refusal with its
 * reason. */
#ifndef VH_FILE_H
#define VH_FILE_H

#include "vh_error.h"

struct vh_digest;

/* Opens a plain file for reading; the caller closes *descriptor. shown_name stands in messages.
 * VH_BAD_INPUT: missing, a folder, a pipe or device, or not readable by this person. VH_NO_FILE:
 * the system failed. */
enum vh_status vh_file_open(const char *path, const char *shown_name, int *descriptor,
                            struct vh_messages *m);

/* Is there anything of that name? */
bool vh_file_is_there(const char *path);

/* Up to `room` bytes into buffer; *got is 0 at the end of the file only. VH_NO_FILE: the system
 * failed. */
enum vh_status vh_file_read_some(int descriptor, const char *shown_name, char *buffer, size_t room,
                                 size_t *got, struct vh_messages *m);

/* The whole file, at most `most` bytes (more: VH_BAD_INPUT); the caller frees *text, which has a 0
 * behind its n bytes. digest: NULL, or takes all bytes. Else as vh_file_open, or VH_NO_MEMORY. */
enum vh_status vh_file_read(const char *path, const char *shown_name, size_t most,
                            struct vh_digest *digest, char **text, size_t *n,
                            struct vh_messages *m);

/* Adds all bytes of a file of any size to the digest. As vh_file_open. */
enum vh_status vh_file_digest(const char *path, const char *shown_name, struct vh_digest *digest,
                              struct vh_messages *m);

#endif
