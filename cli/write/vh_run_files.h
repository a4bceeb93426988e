/* vh_run_files.h - every file of one run: the tables as CSV, datapackage.json, run.json. */
#ifndef VH_RUN_FILES_H
#define VH_RUN_FILES_H

#include "vh_draft.h"
#include "vh_safe_folder.h"
#include "vh_said_files.h"
#include "vh_say_numbers.h"
#include "vinehand.h"

/* What run.json says of the run; nothing that differs between two equal runs. */
struct vh_run_facts {
    const char *command; /* "forecast" */
    const struct vh_scenario *scenario;
    const struct vh_parameters *parameters;
    struct vh_run_options options;
    enum vh_say_units units;     /* of the pages for people */
    const struct vh_table *more; /* a table that stands beside the result; NULL: none */
    struct vh_said_file said[VH_SAID_TABLES]; /* promises of the earlier runs */
    const char *inputs_sha256; /* of all that the run depends on; NULL: is not written */
};

/* Writes all files of the result into the folder; *files: how many. VH_NO_MEMORY, or what
 * vh_safe_folder_add says, with the reason in `why`. */
enum vh_status vh_run_files_write(struct vh_safe_folder *folder, const struct vh_run_facts *facts,
                                  const struct vh_result *result, size_t *files, char why[VH_WHY]);

/* A datapackage.json that describes one table alone, written as file `name`. */
void vh_run_files_package(struct vh_draft *out, const char *title, const struct vh_table *table,
                          const char *name, const struct vh_draft *written);

#endif
