/* Files that others stand on, kept so that a base of many is parsed once. */
#include "param_parts.h"

#include <stdlib.h>
#include <string.h>

#include "vh_file.h"

struct kept {
    char *name;
    struct vh_param_set set;
};

struct vh_param_bases {
    struct kept *file;
    size_t files;
};

struct vh_param_bases *vh_param_bases_new(void)
{
    return calloc(1, sizeof(struct vh_param_bases));
}

void vh_param_bases_free(struct vh_param_bases *bases)
{
    for (size_t i = 0; bases && i < bases->files; i++) {
        free(bases->file[i].name);
        vh_param_set_clear(&bases->file[i].set);
    }
    if (bases)
        free(bases->file);
    free(bases);
}

static const struct kept *find(const struct vh_param_bases *bases, const char *name)
{
    for (size_t i = 0; bases && i < bases->files; i++)
        if (strcmp(bases->file[i].name, name) == 0)
            return &bases->file[i];
    return NULL;
}

/* The rows of a kept file; *base as vh_param_file_read. */
static enum vh_status lend(const struct kept *kept, struct vh_param_set *set, const char **base)
{
    const struct vh_param_row *first = kept->set.row;

    *set = (struct vh_param_set){malloc(kept->set.rows * sizeof *set->row), 0};
    if (!set->row)
        return VH_NO_MEMORY;
    for (; set->rows < kept->set.rows; set->rows++) {
        set->row[set->rows] = kept->set.row[set->rows];
        set->row[set->rows].is_lent = true;
    }
    *base = strcmp(first->name, "base") == 0 ? first->value_text : NULL;
    return VH_OK;
}

/* The digest is over every file of every chain, as if each were read anew. */
static enum vh_status take_bytes(const char *folder, const char *name, struct vh_digest *digest,
                                 struct vh_messages *m)
{
    char *path = vh_param_path(folder, name);
    const enum vh_status status = path ? vh_file_digest(path, path, digest, m) : VH_NO_MEMORY;

    free(path);
    return status;
}

/* Takes the rows over and lends them back. */
static enum vh_status keep(struct vh_param_bases *bases, const char *name, struct vh_param_set *set,
                           const char **base)
{
    struct kept *more = realloc(bases->file, (bases->files + 1) * sizeof *more);

    if (!more)
        return VH_NO_MEMORY;
    bases->file = more;
    more += bases->files;
    more->name = vh_param_text_copy(name);
    if (!more->name)
        return VH_NO_MEMORY;
    more->set = *set;
    bases->files++;
    *set = (struct vh_param_set){NULL, 0};
    return lend(more, set, base);
}

enum vh_status vh_param_file_lend(struct vh_param_bases *bases, bool is_base, const char *folder,
                                  const char *name, struct vh_digest *digest,
                                  struct vh_param_set *set, const char **base,
                                  struct vh_messages *m)
{
    const struct kept *kept = find(bases, name);

    *base = NULL;
    if (kept) {
        const enum vh_status status = digest ? take_bytes(folder, name, digest, m) : VH_OK;
        return status == VH_OK ? lend(kept, set, base) : status;
    }
    const enum vh_status status = vh_param_file_read(folder, name, digest, set, base, m);
    return status == VH_OK && bases && is_base ? keep(bases, name, set, base) : status;
}
