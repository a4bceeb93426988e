/* vh_block.h - one large piece of memory that is filled all over: in large pages where the machine
 * has them, so that the first touch of each small one costs nothing. */
#ifndef VH_BLOCK_H
#define VH_BLOCK_H

#include <stddef.h>

/* Not cleared; to be freed by free(). NULL: no memory. */
void *vh_block_new(size_t bytes);

#endif
