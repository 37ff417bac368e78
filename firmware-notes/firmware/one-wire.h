// The one-wire bus, bit by bit. Times are those of the data sheet of the 18B20 type, in standard speed.

#ifndef ONE_WIRE_H
#define ONE_WIRE_H

#include <stdbool.h>
#include <stdint.h>

enum wire_answer { WIRE_PRESENT, WIRE_SILENT, WIRE_SHORTED };

struct wire_search {
  uint8_t rom[8];
  // The last bit at which the search took the lower branch, counted from 1; 0 when there is none.
  uint8_t last_fork;
  bool is_done;
};

enum wire_answer wire_reset(void);
void wire_write(uint8_t byte);
uint8_t wire_read(void);
// After a reset: the next write and read are for this sensor alone.
void wire_address(const uint8_t rom[8]);
// Finds the next sensor into `search->rom`; begin with a search of zeros. False when there are no more.
bool wire_find_next(struct wire_search *search);
// 0 for bytes that end with their right CRC-8.
uint8_t wire_crc(const uint8_t *bytes, uint8_t count);

#endif
