/* temp_folder.h - a folder of its own for the files that a case writes: made before it, gone with
 * all its files after it (.init = make_folder, .fini = drop_folder). */
#ifndef TEMP_FOLDER_H
#define TEMP_FOLDER_H

#include <criterion/criterion.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static char folder[] = "/tmp/vh-test-XXXXXX";
static char file_path[sizeof folder + 260]; /* of the file that was put or named last */

static const char *path_of(const char *name)
{
    snprintf(file_path, sizeof file_path, "%s/%s", folder, name);
    return file_path;
}

static void make_folder(void)
{
    cr_assert(mkdtemp(folder) != NULL);
}

static void drop_folder(void)
{
    DIR *d = opendir(folder);

    for (const struct dirent *e = d ? readdir(d) : NULL; e; e = readdir(d))
        if (e->d_name[0] != '.')
            unlink(path_of(e->d_name));
    if (d)
        closedir(d);
    rmdir(folder);
}

/* Writes a file of the folder anew; its path. */
static inline const char *put(const char *name, const char *text)
{
    FILE *f = fopen(path_of(name), "wb");

    cr_assert(f != NULL && fputs(text, f) >= 0 && fclose(f) == 0);
    return file_path;
}

#endif
