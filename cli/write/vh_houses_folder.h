/* vh_houses_folder.h - the folder over the result folders of many houses, with houses.csv.
 *
 * houses.csv is there only while it tells of the result folders beside it: it is taken away before
 * the first of them changes, and comes back, with run.json and datapackage.json, when all are done.
 */
#ifndef VH_HOUSES_FOLDER_H
#define VH_HOUSES_FOLDER_H

#include "vh_safe_folder.h"

/* Makes the folder, or takes one of ours or an empty one, and tidies it. As vh_safe_folder_check.
 * By one process, before any other looks into it. */
enum vh_status vh_houses_folder_begin(const char *path, const char *parameters_sha256,
                                      const struct vh_run_options *given, char why[VH_WHY]);
/* Before a result folder changes; from any thread or process. */
enum vh_status vh_houses_folder_changes(const char *path, char why[VH_WHY]);

/* How one house came out. */
struct vh_house_row {
    const char *name;
    const char *status; /* why it has no results; NULL: its own rows stand in its folder */
};

/* Writes what tells of all of them; files that are as they should be are left alone. `empty`: table
 * "houses" without a row. */
enum vh_status vh_houses_folder_end(const char *path, const struct vh_table *empty,
                                    const struct vh_house_row *row, size_t rows,
                                    const char *parameters_sha256,
                                    const struct vh_run_options *given, char why[VH_WHY]);

#endif
