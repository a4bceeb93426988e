/* vh_earlier_run.h - which files of a results folder an earlier run wrote, by its run.json. */
#ifndef VH_EARLIER_RUN_H
#define VH_EARLIER_RUN_H

#include <stdbool.h>
#include <stddef.h>

/* *run_json: its text, or NULL: no run.json of ours in this open folder. Freed by free(). 0 or
 * errno: then nobody knows, and nothing may be replaced. */
int vh_earlier_run_read(int folder, char **run_json);
/* Is it of the folder over the results of many houses? */
bool vh_earlier_run_is_of_houses(const char *run_json);
/* *bytes: of a file in it, a 0 behind them, or NULL: there is none. As above. */
int vh_earlier_run_file(int folder, const char *name, char **bytes, size_t *n);
/* Was this file written by that run (run.json itself included)? */
bool vh_earlier_run_wrote(const char *run_json, const char *name);
/* Did it come from these inputs, and is every file it wrote still there in its length? */
bool vh_earlier_run_is_whole(int folder, const char *run_json, const char *inputs_sha256);

#endif
