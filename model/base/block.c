#ifndef _DEFAULT_SOURCE
#define _DEFAULT_SOURCE /* madvise; in this file alone */
#endif
#include "vh_block.h"

#include <stdlib.h>
#include <sys/mman.h>

#define LARGE_PAGE ((size_t)2 << 20)

void *vh_block_new(size_t bytes)
{
#ifdef MADV_HUGEPAGE
    if (bytes >= LARGE_PAGE) {
        const size_t whole = (bytes + LARGE_PAGE - 1) / LARGE_PAGE * LARGE_PAGE;
        void *block = whole < bytes ? NULL : aligned_alloc(LARGE_PAGE, whole);
        if (block) /* where it is refused, small pages do */
            (void)madvise(block, bytes / LARGE_PAGE * LARGE_PAGE, MADV_HUGEPAGE);
        return block;
    }
#endif
    return malloc(bytes + 1);
}
