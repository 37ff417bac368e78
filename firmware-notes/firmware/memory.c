#include "memory.h"

#include <avr/pgmspace.h>
#include <util/delay.h>

#include "board.h"
#include "kept.h"
#include "line.h"
#include "serial.h"
#include "spi.h"
#include "uptime.h"

// JEDEC's commands, as all serial NOR flash has them.
enum { IDENTIFY = 0x9f, READ = 0x03, STATUS = 0x05, WRITE_ENABLE = 0x06, PROGRAM = 0x02, ERASE_SECTOR = 0x20 };
enum { BUSY_BIT = 1, ERASED = 0xff };
enum { PAGE = 256 };
#define SECTOR 4096UL
// Three bytes of address reach 16 MiB.
enum { LEAST_CAPACITY = 16, MOST_CAPACITY = 24 };

static enum { RESTING, SENDING, ERASING } doing;
static bool is_there, is_paused, is_taking, is_page_open, has_begun;
static uint32_t size, end;
// Of a read-out: how far it is, and how far it goes. Of erasing: what is still to be erased lies below.
static uint32_t at, until;

static void command(uint8_t code) {
  spi_select(SPI_MEMORY);
  spi_exchange(code);
}

static void command_at(uint8_t code, uint32_t address) {
  command(code);
  spi_exchange(address >> 16);
  spi_exchange(address >> 8);
  spi_exchange(address);
}

static bool is_busy(void) {
  command(STATUS);
  uint8_t status = spi_exchange(0);
  spi_release();
  return status & BUSY_BIT;
}

static void enable_writing(void) {
  command(WRITE_ENABLE);
  spi_release();
}

// A page takes 3 ms at most. One that takes longer is no longer there.
static bool is_ready(void) {
  for (uint8_t tries = 0; tries < 200; tries++) {
    if (!is_busy()) return true;
    _delay_us(50);
  }
  is_there = false;
  return false;
}

static bool is_erased(uint32_t page) {
  uint8_t ones = ERASED;
  command_at(READ, page);
  for (uint16_t i = 0; i < PAGE; i++) ones &= spi_exchange(0);
  spi_release();
  return ones == ERASED;
}

// Lines begin on a new page after each start: one that was cut off may have left anything behind its end.
static uint32_t first_free_page(void) {
  uint32_t low = 0, high = size;
  while (low < high) {
    uint32_t middle = (low + (high - low) / 2) & ~(uint32_t)(PAGE - 1);
    command_at(READ, middle);
    uint8_t byte = spi_exchange(0);
    spi_release();
    if (byte == ERASED) high = middle;
    else low = middle + PAGE;
  }
  while (low < size && !is_erased(low)) low += PAGE;
  return low;
}

// After a restart it may still be erasing a sector, and is deaf to all but this question. 255 is nobody.
static void wait_for_last_erase(void) {
  for (uint16_t tries = 0; tries < 500; tries++) {
    command(STATUS);
    uint8_t status = spi_exchange(0);
    spi_release();
    if (status == 0xff || !(status & BUSY_BIT)) return;
    _delay_ms(1);
  }
}

void memory_look(void) {
  if (is_there && doing == ERASING) return;
  wait_for_last_erase();
  command(IDENTIFY);
  uint8_t maker = spi_exchange(0);
  spi_exchange(0);
  uint8_t capacity = spi_exchange(0);
  spi_release();
  bool was_there = is_there;
  is_there = maker != 0 && maker != 0xff && capacity >= LEAST_CAPACITY && capacity <= MOST_CAPACITY;
  if (!is_there || was_there) return;
  size = 1UL << capacity;
  doing = RESTING;
  end = first_free_page();
}

bool memory_is_there(void) { return is_there; }

void memory_keep(bool is_on) { kept_set_keeping(is_on); }

bool memory_read_out(void) {
  if (doing == ERASING) return false;
  doing = SENDING;
  at = 0;
  until = end;
  return true;
}

bool memory_erase(void) {
  if (doing == SENDING) return false;
  doing = ERASING;
  at = (end + SECTOR - 1) & ~(SECTOR - 1);
  return true;
}

static void say(const char *word) {
  line_begin(PSTR("memory"), next_sequence++, uptime_now());
  line_field();
  line_word(word);
  line_field();
  line_number(end);
  line_field();
  line_number(size);
  line_end();
}

static bool is_full(void) { return end + LONGEST_LINE > size; }

void memory_tell(void) {
  if (!is_there) return;
  if (doing == ERASING) say(PSTR("erasing"));
  else if (is_full()) say(PSTR("full"));
  else say(kept_keeping() ? PSTR("keeping") : PSTR("resting"));
}

// To the end of a line; what nobody wrote is left out up to the next page, and the line before it ended.
static void send_some(void) {
  command_at(READ, at);
  for (uint16_t i = 0; i < LONGEST_LINE && at < until; i++) {
    uint8_t byte = spi_exchange(0);
    if (byte == ERASED) at = (at | (PAGE - 1)) + 1;
    else at++;
    serial_send(byte == ERASED ? '\n' : byte);
    if (byte == ERASED || byte == '\n') break;
  }
  spi_release();
}

bool memory_step(void) {
  if (!is_there || doing == RESTING) return false;
  if (doing == SENDING) {
    if (at < until) {
      if (is_ready()) send_some();
      return true;
    }
    doing = RESTING;
    say(PSTR("sent"));
    return false;
  }
  if (is_busy()) return false;
  if (at > 0) {
    // From the end, so that after a power failure the rest is still found.
    at -= SECTOR;
    enable_writing();
    command_at(ERASE_SECTOR, at);
    spi_release();
    return false;
  }
  doing = RESTING;
  end = 0;
  say(PSTR("erased"));
  return false;
}

void memory_line_begins(void) {
  is_taking = is_there && !is_paused && doing != ERASING && kept_keeping() && !is_full();
  if (is_taking && !has_begun) memory_put('\n');
  has_begun |= is_taking;
}

void memory_put(uint8_t byte) {
  if (!is_taking) return;
  if (!is_page_open) {
    if (!is_ready()) {
      is_taking = false;
      return;
    }
    enable_writing();
    command_at(PROGRAM, end);
    is_page_open = true;
  }
  spi_exchange(byte);
  end++;
  if (end % PAGE == 0) memory_line_ends();
}

void memory_line_ends(void) {
  if (is_page_open) spi_release();
  is_page_open = false;
}

void memory_pause(bool paused) { is_paused = paused; }
