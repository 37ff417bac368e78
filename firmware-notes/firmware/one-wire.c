#include "one-wire.h"

#include <avr/io.h>
#include <util/atomic.h>
#include <util/crc16.h>
#include <util/delay.h>

#include "board.h"

enum { SEARCH_ROM = 0xf0, MATCH_ROM = 0x55 };

// The port's output stays 0: as an output the pin pulls the wire down, as an input it lets the resistor pull it up.
static void pull_down(void) { DDRD |= _BV(WIRE_BIT); }
static void let_go(void) { DDRD &= ~_BV(WIRE_BIT); }
static bool is_high(void) { return PIND & _BV(WIRE_BIT); }

enum wire_answer wire_reset(void) {
  let_go();
  _delay_us(10);
  if (!is_high()) return WIRE_SHORTED;
  pull_down();
  _delay_us(480);
  bool is_silent;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    let_go();
    _delay_us(70);
    is_silent = is_high();
  }
  _delay_us(410);
  return is_silent ? WIRE_SILENT : WIRE_PRESENT;
}

// An interrupt inside a slot would stretch it into another bit.
static void write_bit(bool bit) {
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    pull_down();
    if (bit) {
      _delay_us(6);
      let_go();
      _delay_us(64);
    } else {
      _delay_us(60);
      let_go();
      _delay_us(10);
    }
  }
}

static bool read_bit(void) {
  bool bit;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
    pull_down();
    _delay_us(3);
    let_go();
    _delay_us(9);
    bit = is_high();
    _delay_us(53);
  }
  return bit;
}

void wire_write(uint8_t byte) {
  for (uint8_t i = 0; i < 8; i++) write_bit(byte >> i & 1);
}

uint8_t wire_read(void) {
  uint8_t byte = 0;
  for (uint8_t i = 0; i < 8; i++) byte |= read_bit() << i;
  return byte;
}

void wire_address(const uint8_t rom[8]) {
  wire_write(MATCH_ROM);
  for (uint8_t i = 0; i < 8; i++) wire_write(rom[i]);
}

// All sensors send a bit and its opposite at once; where both read 0, sensors differ and the search must take one branch
// now and the other next time.
bool wire_find_next(struct wire_search *search) {
  if (search->is_done || wire_reset() != WIRE_PRESENT) return false;
  wire_write(SEARCH_ROM);
  uint8_t fork = 0;
  for (uint8_t place = 1; place <= 64; place++) {
    uint8_t *byte = &search->rom[(place - 1) / 8];
    uint8_t mask = _BV((place - 1) % 8);
    bool bit = read_bit(), opposite = read_bit();
    if (bit && opposite) return false;
    if (!bit && !opposite) {
      bit = place == search->last_fork || (place < search->last_fork && (*byte & mask));
      if (!bit) fork = place;
    }
    if (bit) *byte |= mask;
    else *byte &= ~mask;
    write_bit(bit);
  }
  search->last_fork = fork;
  search->is_done = fork == 0;
  return true;
}

uint8_t wire_crc(const uint8_t *bytes, uint8_t count) {
  uint8_t crc = 0;
  while (count--) crc = _crc_ibutton_update(crc, *bytes++);
  return crc;
}
