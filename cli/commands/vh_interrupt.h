/* vh_interrupt.h - Ctrl-C and its like: noted, then obeyed at the next safe place. */
#ifndef VH_INTERRUPT_H
#define VH_INTERRUPT_H

#include <stdbool.h>

/* Once, at the start: INT, TERM and HUP are noted (a second one ends the program at once); a broken
 * pipe and a file size limit become errors of the write that met them. */
void vh_interrupt_watch(void);
/* The signal that came, 0: none. */
int vh_interrupt_came(void);
/* Waits until there is something to read, or its end. False: it was interrupted, before or while it
 * waited. */
bool vh_interrupt_wait_input(int fd);

#endif
