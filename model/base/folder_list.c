#include "vh_folder.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

bool vh_path_is_folder(const char *path)
{
    struct stat about;

    return stat(path, &about) == 0 && S_ISDIR(about.st_mode);
}

char *vh_path_join(const char *folder, const char *name)
{
    const size_t n = name[0] == '/' ? 0 : strlen(folder), rest = strlen(name);
    const bool needs_slash = n > 0 && folder[n - 1] != '/';
    char *path = malloc(n + rest + 2);

    if (path == NULL)
        return NULL;
    memcpy(path, folder, n);
    if (needs_slash)
        path[n] = '/';
    memcpy(path + n + needs_slash, name, rest + 1);
    return path;
}

void vh_names_clear(struct vh_names *n)
{
    for (size_t i = 0; i < n->names; i++)
        free(n->name[i]);
    free(n->name);
    *n = (struct vh_names){NULL, 0};
}

/* Takes a name without its suffix, in its place by bytes. false: memory is out. */
static bool take_name(struct vh_names *out, const char *name, size_t length)
{
    char **more = realloc(out->name, (out->names + 1) * sizeof *more);
    char *copy = malloc(length + 1);
    size_t at = out->names;

    if (more != NULL)
        out->name = more;
    if (more == NULL || copy == NULL) {
        free(copy);
        return false;
    }
    memcpy(copy, name, length);
    copy[length] = '\0';
    for (; at > 0 && strcmp(out->name[at - 1], copy) > 0; at--)
        out->name[at] = out->name[at - 1];
    out->name[at] = copy;
    out->names++;
    return true;
}

enum vh_status vh_folder_list(const char *path, const char *suffix, struct vh_names *out,
                              struct vh_messages *m)
{
    const struct vh_place place = {path, 0, 0, NULL};
    const size_t suffix_n = strlen(suffix);
    enum vh_status status = VH_OK;
    DIR *folder = opendir(path);

    *out = (struct vh_names){NULL, 0};
    if (folder == NULL && (errno == ENOENT || errno == ENOTDIR))
        return vh_fail(m, VH_BAD_INPUT, place, "there is no such folder; mend the name");
    if (folder == NULL && errno == EACCES)
        return vh_fail(m, VH_BAD_INPUT, place,
                       "may not be read; give yourself the right to read it");
    if (folder == NULL)
        return vh_fail(m, VH_NO_FILE, place, "could not be opened (system error %d)", errno);
    for (;;) {
        errno = 0; /* before each: memory that is given may leave something there */
        const struct dirent *entry = readdir(folder);
        if (entry == NULL)
            break;
        const size_t n = strlen(entry->d_name);
        if (entry->d_name[0] == '.' || n <= suffix_n ||
            strcmp(entry->d_name + n - suffix_n, suffix) != 0)
            continue;
        if (!take_name(out, entry->d_name, n - suffix_n)) {
            status = VH_NO_MEMORY;
            break;
        }
    }
    if (status == VH_OK && errno != 0)
        status = vh_fail(m, VH_NO_FILE, place, "could not be read (system error %d)", errno);
    closedir(folder);
    if (status != VH_OK)
        vh_names_clear(out);
    return status;
}
