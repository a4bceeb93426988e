/* vh_name_index.h - where a name stands in a list, without comparing it with every one.
 *
 * The list is the caller's: an array whose elements begin with a `const char *` or `char *` name.
 * The index keeps places only, so the list may move and its names be copied anew; it is handed in
 * at each call.
 */
#ifndef VH_NAME_INDEX_H
#define VH_NAME_INDEX_H

#include <stdbool.h>
#include <stddef.h>

struct vh_name_index {
    size_t *slot; /* place + 1; 0: empty */
    size_t slots, names;
};

#define VH_NAME_NONE ((size_t)-1)

/* The list as it now is: elements of `step` bytes. */
struct vh_named_list {
    const void *first;
    size_t step;
};

/* An index of the list's first n. False: no memory. To be cleared in either case. */
bool vh_name_index_of(struct vh_name_index *x, struct vh_named_list list, size_t n);
/* Takes in the element at `place`, whose name is new. False: no memory. */
bool vh_name_index_add(struct vh_name_index *x, struct vh_named_list list, size_t place);
/* Place of that name, VH_NAME_NONE where there is none. */
size_t vh_name_index_find(const struct vh_name_index *x, struct vh_named_list list,
                          const char *name);
void vh_name_index_clear(struct vh_name_index *x);

#endif
