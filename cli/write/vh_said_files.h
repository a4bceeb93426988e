/* vh_said_files.h - the files that keep every promise as it was made: read from the earlier runs,
 * written with what this one promises behind them.
 */
#ifndef VH_SAID_FILES_H
#define VH_SAID_FILES_H

#include "vh_draft.h"
#include "vh_safe_folder.h"
#include "vinehand.h"

struct vh_said_file {
    char *bytes; /* of the earlier runs; NULL: there is none */
    size_t n;
    size_t rows; /* of the result's table that stand in them */
};

/* What the old set holds of them. Status and `why` as of vh_safe_folder_old_file. The caller clears
 * `files` also after a failure. */
enum vh_status vh_said_files_read(const struct vh_safe_folder *folder,
                                  struct vh_said_file files[VH_SAID_TABLES], char why[VH_WHY]);
/* Puts them and what this run promises into the result's tables. shown: the folder's name in
 * messages. VH_BAD_INPUT with messages where a file is not as we left it. */
enum vh_status vh_said_files_say(struct vh_said_file files[VH_SAID_TABLES], const char *shown,
                                 struct vh_result *r, const struct vh_scenario *s,
                                 struct vh_messages *m);
void vh_said_files_clear(struct vh_said_file files[VH_SAID_TABLES]);

/* "said", "said_fruits": the table of a file. */
const char *vh_said_name(enum vh_said_in in);
/* The earlier promises byte for byte, then those of this run; nothing where there is none. */
void vh_said_file_draft(struct vh_draft *out, const struct vh_said_file *file,
                        const struct vh_table *said);

#endif
