#include "kept.h"

#include <avr/eeprom.h>
#include <util/crc16.h>

#include "board.h"

struct record {
  uint32_t number;
  uint8_t check;
};

// The count of starts has two records, written in turn: if the power fails while one is written, the other still stands.
enum { STARTS_EVEN, STARTS_ODD, INTERVAL, BOARD_ID, KEEPING };

static uint32_t boot;
static uint16_t interval;
static uint32_t board_id;
static bool has_board_id;
static bool is_keeping;

static struct record *address(uint8_t which) { return (struct record *)(uint16_t)(8 + 8 * which); }

// Not from 0, so that a memory full of zeros is not believed.
static uint8_t check_of(uint32_t number) {
  uint8_t check = 0x5a;
  for (uint8_t i = 0; i < 4; i++) check = _crc_ibutton_update(check, number >> (8 * i));
  return check;
}

static bool read_record(uint8_t which, uint32_t *number) {
  struct record found;
  eeprom_read_block(&found, address(which), sizeof found);
  *number = found.number;
  return found.check == check_of(found.number);
}

static void write_record(uint8_t which, uint32_t number) {
  struct record record = {number, check_of(number)};
  eeprom_update_block(&record, address(which), sizeof record);
}

void kept_count_start(void) {
  uint32_t even, odd, seconds, keeping;
  if (!read_record(STARTS_EVEN, &even)) even = 0;
  if (!read_record(STARTS_ODD, &odd)) odd = 0;
  boot = (even > odd ? even : odd) + 1;
  write_record(boot & 1 ? STARTS_ODD : STARTS_EVEN, boot);
  bool is_good = read_record(INTERVAL, &seconds) && seconds >= 1 && seconds <= LONGEST_SECONDS;
  interval = is_good ? seconds : USUAL_INTERVAL_SECONDS;
  has_board_id = read_record(BOARD_ID, &board_id);
  is_keeping = read_record(KEEPING, &keeping) && keeping == 1;
}

uint32_t kept_boot(void) { return boot; }

uint16_t kept_interval(void) { return interval; }

void kept_set_interval(uint16_t seconds) {
  interval = seconds;
  write_record(INTERVAL, seconds);
}

bool kept_keeping(void) { return is_keeping; }

void kept_set_keeping(bool is_on) {
  is_keeping = is_on;
  write_record(KEEPING, is_on);
}

bool kept_board_id(uint32_t *id) {
  *id = board_id;
  return has_board_id;
}

void kept_set_board_id(uint32_t id) {
  board_id = id;
  has_board_id = true;
  write_record(BOARD_ID, id);
}
