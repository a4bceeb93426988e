#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* sync_file_range; in this file alone */
#endif
#include "vh_folder_files.h"

#include <errno.h>
#include <fcntl.h>
#include <unistd.h>

#include "vh_folder_tree.h"

int vh_folder_files_add(struct vh_folder_files *f, int fd, const void *bytes, size_t n)
{
    int e = f->files == VH_FOLDER_FILES_MOST ? vh_folder_files_sync(f) : 0;

    f->fd[f->files++] = fd;
    if (e == 0)
        e = vh_folder_write(fd, bytes, n);
#ifdef SYNC_FILE_RANGE_WRITE
    if (e == 0) /* the disk begins; that it is done, and any trouble, is asked of fsync */
        (void)sync_file_range(fd, 0, 0, SYNC_FILE_RANGE_WRITE);
#endif
    return e;
}

int vh_folder_files_sync(struct vh_folder_files *f)
{
    int e = 0;

    for (size_t i = 0; i < f->files; i++) {
        if (e == 0 && fsync(f->fd[i]) != 0)
            e = errno;
        if (close(f->fd[i]) != 0 && e == 0)
            e = errno;
    }
    f->files = 0;
    return e;
}

void vh_folder_files_drop(struct vh_folder_files *f)
{
    while (f->files > 0)
        close(f->fd[--f->files]);
}
