#include "vh_said_files.h"

#include <stdio.h>
#include <stdlib.h>

#include "vh_csv_out.h"

const char *vh_said_name(enum vh_said_in in)
{
    return in == VH_SAID_FRUITS ? "said_fruits" : "said";
}

static void name_of(enum vh_said_in in, char name[40])
{
    snprintf(name, 40, "%s.csv", vh_said_name(in));
}

enum vh_status vh_said_files_read(const struct vh_safe_folder *folder,
                                  struct vh_said_file files[VH_SAID_TABLES], char why[VH_WHY])
{
    enum vh_status status = VH_OK;
    char name[40];

    for (int i = 0; i < VH_SAID_TABLES; i++)
        files[i] = (struct vh_said_file){.bytes = NULL};
    for (int i = 0; i < VH_SAID_TABLES && status == VH_OK; i++) {
        name_of((enum vh_said_in)i, name);
        status = vh_safe_folder_old_file(folder, name, &files[i].bytes, &files[i].n, why);
    }
    return status;
}

enum vh_status vh_said_files_say(struct vh_said_file files[VH_SAID_TABLES], const char *shown,
                                 struct vh_result *r, const struct vh_scenario *s,
                                 struct vh_messages *m)
{
    enum vh_status status = VH_OK;
    char name[40], path[VH_WHY];

    for (int i = 0; i < VH_SAID_TABLES && status == VH_OK; i++) {
        name_of((enum vh_said_in)i, name);
        snprintf(path, sizeof path, "%.900s/%s", shown, name);
        status = vh_result_say(r, s, (enum vh_said_in)i, files[i].bytes, files[i].n, path,
                               &files[i].rows, m);
    }
    return status;
}

void vh_said_files_clear(struct vh_said_file files[VH_SAID_TABLES])
{
    for (int i = 0; i < VH_SAID_TABLES; i++)
        free(files[i].bytes);
}

void vh_said_file_draft(struct vh_draft *out, const struct vh_said_file *file,
                        const struct vh_table *said)
{
    if (file->n == 0) {
        if (vh_table_rows(said) > 0)
            vh_csv_out_table(out, said);
        return;
    }
    vh_draft_add_bytes(out, file->bytes, file->n);
    if (file->bytes[file->n - 1] != '\n')
        vh_draft_add(out, "\n");
    vh_csv_out_rows(out, said, file->rows);
}
