// Recording alone: the board's own lines, kept in a serial memory (SPI NOR flash with the JEDEC commands) while it is told
// to, and sent as they are when it is read out. Text behind text over all starts; what is erased reads as 255, which no line
// holds.

#ifndef MEMORY_H
#define MEMORY_H

#include <stdbool.h>
#include <stdint.h>

// Finds the chip, and where its lines end.
void memory_look(void);
bool memory_is_there(void);
// Keeps lines, or no more; over restarts, too.
void memory_keep(bool is_on);
// Begins to send all that is kept; to erase all of it. False while it does the other. `memory_step` does the work.
bool memory_read_out(void);
bool memory_erase(void);
// Does a little of what was begun. True while there is more to do.
bool memory_step(void);
// Sends the line that says what the memory does.
void memory_tell(void);

// For line.c: a line on its way. What does not fit whole is not begun.
void memory_line_begins(void);
void memory_put(uint8_t byte);
void memory_line_ends(void);
// Lines sent again are not kept twice.
void memory_pause(bool is_paused);

#endif
