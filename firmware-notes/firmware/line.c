#include "line.h"

#include <util/crc16.h>

#include "kept.h"
#include "memory.h"
#include "serial.h"

uint32_t next_sequence = 1;

static uint16_t crc;

static void line_digit(uint8_t nibble) { line_char(nibble < 10 ? '0' + nibble : 'A' - 10 + nibble); }

// To the host, and to the memory while that keeps lines.
static void out(uint8_t byte) {
  serial_send(byte);
  memory_put(byte);
}

void line_break(void) { serial_send('\n'); }

void line_char(char c) {
  // CRC-16/CCITT-FALSE: the same polynomial and start as this routine of the C library.
  crc = _crc_xmodem_update(crc, c);
  out(c);
}

void line_begin(const char *type, uint32_t sequence, struct uptime at) {
  memory_line_begins();
  crc = 0xffff;
  line_word(type);
  line_field();
  line_board_id();
  line_field();
  line_number(kept_boot());
  line_field();
  line_number(sequence);
  line_field();
  if (at.seconds > 0) line_number(at.seconds);
  if (at.seconds > 0 || at.ms >= 100) line_char('0' + at.ms / 100);
  if (at.seconds > 0 || at.ms >= 10) line_char('0' + at.ms / 10 % 10);
  line_char('0' + at.ms % 10);
}

void line_field(void) { line_char(' '); }

void line_word(const char *text) {
  for (char c; (c = pgm_read_byte(text)) != 0; text++) line_char(c);
}

void line_text(const char *text) {
  while (*text) line_char(*text++);
}

void line_number(uint32_t number) {
  char digits[10];
  uint8_t count = 0;
  do {
    digits[count++] = '0' + number % 10;
    number /= 10;
  } while (number > 0);
  while (count > 0) line_char(digits[--count]);
}

void line_hex(uint8_t byte) {
  line_digit(byte >> 4);
  line_digit(byte & 15);
}

void line_thousandths(int32_t value) {
  uint32_t size = value < 0 ? -value : value;
  if (value < 0) line_char('-');
  line_number(size / 1000);
  line_char('.');
  for (uint16_t place = 100; place > 0; place /= 10) line_char('0' + size / place % 10);
}

void line_sixteenths(int16_t value) {
  uint16_t size = value < 0 ? -value : value;
  if (value < 0) line_char('-');
  line_number(size >> 4);
  line_char('.');
  uint16_t decimals = (size & 15) * 625;
  for (uint16_t place = 1000; place > 0; place /= 10) line_char('0' + decimals / place % 10);
}

void line_board_id(void) {
  uint32_t id;
  if (!kept_board_id(&id)) {
    LINE_WORD("unnamed");
    return;
  }
  line_char('b');
  for (int8_t shift = 24; shift >= 0; shift -= 8) line_hex(id >> shift);
}

void line_end(void) {
  uint16_t sum = crc;
  out(' ');
  line_hex(sum >> 8);
  line_hex(sum);
  out('\n');
  memory_line_ends();
}
