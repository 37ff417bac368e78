// What outlives a restart, in the chip's EEPROM: the count of starts, the interval, the board's id, whether it keeps lines. Each number is kept
// with a checksum, because the power may fail in the middle of writing it.

#ifndef KEPT_H
#define KEPT_H

#include <stdbool.h>
#include <stdint.h>

// Counts this start; once, at the beginning.
void kept_count_start(void);
uint32_t kept_boot(void);
uint16_t kept_interval(void);
void kept_set_interval(uint16_t seconds);
// Whether the board keeps its lines in its memory.
bool kept_keeping(void);
void kept_set_keeping(bool is_on);
// False until the board has an id.
bool kept_board_id(uint32_t *id);
void kept_set_board_id(uint32_t id);

#endif
