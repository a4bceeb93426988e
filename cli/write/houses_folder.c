#include "vh_houses_folder.h"

#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "vh_csv_out.h"
#include "vh_draft.h"
#include "vh_earlier_run.h"
#include "vh_folder_tree.h"
#include "vh_json_out.h"
#include "vh_run_files.h"
#include "vh_safe_file.h"

#define LIST_NAME "houses.csv"
#define PACKAGE_NAME "datapackage.json"
#define RUN_NAME "run.json"

static enum vh_status system_says(char why[VH_WHY], const char *shown, int e)
{
    snprintf(why, VH_WHY, "cannot write into %.400s: %s", shown, vh_folder_fault(e));
    return e == ENOMEM ? VH_NO_MEMORY : VH_NO_FILE;
}

static char *inside(const char *folder, const char *name)
{
    const size_t n = strlen(folder) + strlen(name) + 2;
    char *path = malloc(n);

    if (path)
        snprintf(path, n, "%s/%s", folder, name);
    return path;
}

static void add_file(struct vh_json *j, const char *name, const struct vh_draft *text)
{
    char digest[65];

    vh_digest_of(text->bytes, text->n, digest);
    vh_json_open(j, NULL, '{');
    vh_json_text(j, "path", name);
    vh_json_whole(j, "bytes", (double)text->n);
    vh_json_text(j, "sha256", digest);
    vh_json_close(j, '}');
}

/* list, package: NULL while they are not there. given: as asked for, 0 where each scenario says. */
static void make_run(struct vh_draft *out, const char *parameters_sha256,
                     const struct vh_run_options *given, size_t houses, const struct vh_draft *list,
                     const struct vh_draft *package)
{
    struct vh_json j = {.out = out};
    char date[11], draw[24];

    vh_date_format(given->today, date);
    snprintf(draw, sizeof draw, "%" PRIu64, given->draw);
    vh_json_open(&j, NULL, '{');
    vh_json_text(&j, "program", "vinehand"); /* by this line the folder is known as ours */
    vh_json_text(&j, "version", vh_version());
    vh_json_text(&j, "command", "houses");
    vh_json_text(&j, "parameters_sha256", parameters_sha256);
    vh_json_text(&j, "today", date);
    vh_json_digits(&j, "draw", given->draw ? draw : "null");
    if (given->members)
        vh_json_whole(&j, "members", given->members);
    else
        vh_json_digits(&j, "members", "null");
    if (list)
        vh_json_whole(&j, "houses", (double)houses);
    vh_json_open(&j, "files", '[');
    if (list) {
        add_file(&j, LIST_NAME, list);
        add_file(&j, PACKAGE_NAME, package);
    }
    vh_json_close(&j, ']');
    vh_json_close(&j, '}');
}

static enum vh_status put(const char *folder, const char *name, const struct vh_draft *text,
                          char why[VH_WHY])
{
    char *path = text->failed ? NULL : inside(folder, name);
    enum vh_status status = VH_NO_MEMORY;

    if (path)
        status = vh_safe_file_put(path, text->bytes, text->n, why);
    else
        snprintf(why, VH_WHY, "there is not enough memory to write %s", name);
    free(path);
    return status;
}

/* Is it a folder of many houses, or empty? */
static enum vh_status look_into(int fd, const char *path, bool *is_ours, char why[VH_WHY])
{
    char *run_json;
    const int e = vh_earlier_run_read(fd, &run_json);
    DIR *entries = e == 0 ? vh_folder_entries(fd) : NULL;
    enum vh_status status = entries ? VH_OK : system_says(why, path, e != 0 ? e : errno);

    *is_ours = run_json && vh_earlier_run_is_of_houses(run_json);
    if (status == VH_OK && run_json && !*is_ours) {
        snprintf(why, VH_WHY,
                 "%.400s holds the results of one house; name another folder for --out", path);
        status = VH_BAD_INPUT;
    }
    while (status == VH_OK && !*is_ours) {
        const char *entry = vh_folder_next(entries);
        if (!entry)
            break;
        if (strncmp(entry, ".vh-", 4) == 0) /* of a run that was killed before it said so */
            continue;
        snprintf(why, VH_WHY,
                 "%.400s is not empty and holds no results of vinehand houses (no run.json of "
                 "ours); name an empty or a new folder for --out",
                 path);
        status = VH_BAD_INPUT;
    }
    if (entries)
        closedir(entries);
    free(run_json);
    return status;
}

static enum vh_status make(const char *path, char why[VH_WHY])
{
    struct stat sb;

    if (stat(path, &sb) == 0) {
        if (S_ISDIR(sb.st_mode))
            return VH_OK;
    } else if (errno == ENOENT && path[0]) {
        if (mkdir(path, 0777) == 0)
            return VH_OK;
        if (errno == ENOENT && !vh_folder_parent_is_there(path)) {
            snprintf(why, VH_WHY, "there is no folder to put %.400s into; make it first", path);
            return VH_BAD_INPUT;
        }
        if (errno != EEXIST)
            return system_says(why, path, errno);
    } else if (errno != ENOTDIR && errno != ENOENT) {
        return system_says(why, path, errno);
    }
    snprintf(why, VH_WHY, "%.400s is not a folder; name a folder for --out", path);
    return VH_BAD_INPUT;
}

enum vh_status vh_houses_folder_begin(const char *path, const char *parameters_sha256,
                                      const struct vh_run_options *given, char why[VH_WHY])
{
    enum vh_status status = make(path, why);
    struct vh_draft text = {0};
    bool is_ours = false;

    if (status != VH_OK)
        return status;
    const int fd = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0 || faccessat(fd, ".", W_OK | X_OK, 0) != 0)
        status = system_says(why, path, errno);
    if (status == VH_OK)
        status = look_into(fd, path, &is_ours, why);
    if (status == VH_OK)
        status = vh_safe_folder_tidy(path, why);
    if (status == VH_OK && !is_ours) {
        make_run(&text, parameters_sha256, given, 0, NULL, NULL);
        status = put(path, RUN_NAME, &text, why);
    }
    vh_draft_clear(&text);
    if (fd >= 0)
        close(fd);
    return status;
}

enum vh_status vh_houses_folder_changes(const char *path, char why[VH_WHY])
{
    const int fd = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    int e = fd < 0 ? errno : 0;
    struct stat sb;

    if (fd >= 0 && fstatat(fd, LIST_NAME, &sb, AT_SYMLINK_NOFOLLOW) == 0 && S_ISDIR(sb.st_mode)) {
        close(fd);
        snprintf(why, VH_WHY,
                 "%.400s/" LIST_NAME " is a folder, and a result file is called so; move it away, "
                 "or name another folder for --out",
                 path);
        return VH_BAD_INPUT;
    }
    if (fd >= 0 && unlinkat(fd, LIST_NAME, 0) == 0)
        e = vh_folder_sync(fd);
    else if (fd >= 0)
        e = errno == ENOENT ? 0 : errno;
    if (fd >= 0)
        close(fd);
    return e == 0 ? VH_OK : system_says(why, path, e);
}

/* The rows of one house, as they stand in its own folder. */
static enum vh_status add_rows(struct vh_draft *out, int folder, const char *name, char why[VH_WHY])
{
    const int fd = openat(folder, name, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    size_t n = 0;
    char *bytes = NULL;
    const int e = fd < 0 ? errno : vh_earlier_run_file(fd, LIST_NAME, &bytes, &n);
    const char *rows = bytes ? strchr(bytes, '\n') : NULL;

    if (fd >= 0)
        close(fd);
    if (!rows) {
        free(bytes);
        snprintf(why, VH_WHY, "%.300s/" LIST_NAME " cannot be read: %s; run the same command again",
                 name, strerror(e != 0 ? e : ENOENT));
        return e == ENOMEM ? VH_NO_MEMORY : VH_NO_FILE;
    }
    vh_draft_add_bytes(out, rows + 1, n - (size_t)(rows + 1 - bytes));
    free(bytes);
    return VH_OK;
}

static void add_failed(struct vh_draft *out, const struct vh_table *table,
                       const struct vh_house_row *row)
{
    const size_t columns = vh_table_columns(table);

    vh_csv_out_text(out, row->name);
    for (size_t c = 1; c + 1 < columns; c++)
        vh_draft_add(out, ",");
    vh_draft_add(out, ",");
    vh_csv_out_text(out, row->status);
    vh_draft_add(out, "\n");
}

static bool stands(int folder, const char *name, const struct vh_draft *text)
{
    size_t n;
    char *bytes;
    const bool same = vh_earlier_run_file(folder, name, &bytes, &n) == 0 && bytes &&
                      !text->failed && n == text->n &&
                      (n == 0 || memcmp(bytes, text->bytes, n) == 0);

    free(bytes);
    return same;
}

/* The three files, houses.csv last: where it stands, the others fit it. */
static enum vh_status write_three(const char *path, int folder, const struct vh_draft *list,
                                  const struct vh_draft *package, const struct vh_draft *run,
                                  char why[VH_WHY])
{
    enum vh_status status;

    if (stands(folder, LIST_NAME, list) && stands(folder, PACKAGE_NAME, package) &&
        stands(folder, RUN_NAME, run))
        return VH_OK;
    status = vh_houses_folder_changes(path, why);
    if (status == VH_OK)
        status = put(path, PACKAGE_NAME, package, why);
    if (status == VH_OK)
        status = put(path, RUN_NAME, run, why);
    return status == VH_OK ? put(path, LIST_NAME, list, why) : status;
}

enum vh_status vh_houses_folder_end(const char *path, const struct vh_table *empty,
                                    const struct vh_house_row *row, size_t rows,
                                    const char *parameters_sha256,
                                    const struct vh_run_options *given, char why[VH_WHY])
{
    struct vh_draft list = {0}, package = {0}, run = {0};
    const int folder = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    enum vh_status status = folder < 0 ? system_says(why, path, errno) : VH_OK;

    vh_csv_out_table(&list, empty);
    for (size_t i = 0; i < rows && status == VH_OK; i++) {
        if (row[i].status)
            add_failed(&list, empty, &row[i]);
        else
            status = add_rows(&list, folder, row[i].name, why);
    }
    if (status == VH_OK && list.failed) {
        snprintf(why, VH_WHY, "there is not enough memory to write " LIST_NAME);
        status = VH_NO_MEMORY;
    }
    if (status == VH_OK) {
        vh_run_files_package(&package, "Many houses", empty, LIST_NAME, &list);
        make_run(&run, parameters_sha256, given, rows, &list, &package);
        status = write_three(path, folder, &list, &package, &run, why);
    }
    vh_draft_clear(&list);
    vh_draft_clear(&package);
    vh_draft_clear(&run);
    if (folder >= 0)
        close(folder);
    return status;
}
