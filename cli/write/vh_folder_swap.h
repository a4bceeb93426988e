/* vh_folder_swap.h - two folders of one parent change places; what a killed run left is put right.
 */
#ifndef VH_FOLDER_SWAP_H
#define VH_FOLDER_SWAP_H

#include <stdbool.h>

#define VH_HIDDEN_NAME 24 /* bytes of a hidden name, its 0 included */

/* Makes a hidden folder in `parent` and locks it; *fd is the folder. 0 or errno. */
int vh_folder_swap_make(int parent, char hidden[VH_HIDDEN_NAME], int *fd);
/* The hidden folder becomes `name`; what was `name` (if anything) has *old as its name afterwards
 * ("" if there was none). `in_steps`: never by the exchange. 0 or errno: then `name` is as it was.
 */
int vh_folder_swap(int parent, const char *hidden, const char *name, bool in_steps,
                   char old[VH_HIDDEN_NAME]);
/* Once the disk has the new set, the old one goes, and with it what told how to finish. 0 or errno:
 * the disk may not keep the new set; what is left goes with the next run. */
int vh_folder_swap_finish(int parent, const char *old);
/* Finishes swaps that a killed run began. 0 or errno. */
int vh_folder_swap_recover(int parent);
/* Locks a hidden file or folder that was just made; false: another run took it for a dead one's and
 * cleaned it away. */
bool vh_folder_swap_hold(int fd);
/* Removes hidden folders and files that no living run holds. */
void vh_folder_swap_clean(int parent);

#endif
