// Probe board: reads its probes in rounds and sends one line for each reading, in the format of line-format.md.
// It measures and switches nothing.

#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>
#include <stdlib.h>
#include <string.h>

#include "board.h"
#include "kept.h"
#include "line.h"
#include "memory.h"
#include "probes.h"
#include "serial.h"
#include "spi.h"
#include "uptime.h"

static uint8_t reset_flags __attribute__((section(".noinit")));

// Before anything else: the watchdog goes on running after it has restarted the chip. What started the chip is in MCUSR,
// unless a boot loader has cleared it.
void read_reset_flags(void) __attribute__((naked, used, section(".init3")));
void read_reset_flags(void) {
  reset_flags = MCUSR;
  MCUSR = 0;
  wdt_disable();
}

static struct uptime light_until;
static struct uptime next_round, round_began;
static bool is_measuring;

// At power-on the supply rises through the brown-out limit, so that flag may be set as well.
static const char *start_reason(void) {
  if (reset_flags & _BV(PORF)) return PSTR("power-on");
  if (reset_flags & _BV(BORF)) return PSTR("brown-out");
  if (reset_flags & _BV(WDRF)) return PSTR("watchdog");
  if (reset_flags & _BV(EXTRF)) return PSTR("reset-pin");
  return PSTR("unknown");
}

static void say_hello(const char *reason) {
  line_begin(PSTR("hello"), next_sequence++, uptime_now());
  LINE_WORD(" " FORMAT_VERSION " " FIRMWARE_VERSION " ");
  line_word(reason);
  line_field();
  line_number(kept_interval());
  probes_list();
  line_end();
  memory_tell();
}

static void answer(const char *type, const char *command) {
  line_begin(type, next_sequence++, uptime_now());
  line_field();
  line_text(command);
  line_end();
}

// The number behind `word`, when the command is that word and a whole number up to `most`; -1 otherwise.
static int64_t number_of(const char *command, const char *word, uint32_t most) {
  size_t length = strlen_P(word);
  if (strncmp_P(command, word, length) != 0) return -1;
  const char *digit = command + length;
  if (*digit == 0 || strlen(digit) > 10) return -1;
  uint64_t number = 0;
  for (; *digit; digit++) {
    if (*digit < '0' || *digit > '9') return -1;
    number = number * 10 + (*digit - '0');
  }
  return number > most ? -1 : (int64_t)number;
}

static void obey(const char *command) {
  int64_t number;
  if (strcmp_P(command, PSTR("identify")) == 0) {
    answer(PSTR("heard"), command);
    probes_look();
    memory_look();
    say_hello(PSTR("asked"));
  } else if ((number = number_of(command, PSTR("interval "), LONGEST_SECONDS)) >= 1) {
    answer(PSTR("heard"), command);
    kept_set_interval(number);
    next_round = uptime_now();
  } else if ((number = number_of(command, PSTR("light "), LONGEST_SECONDS)) >= 0) {
    answer(PSTR("heard"), command);
    light_until = uptime_after(uptime_now(), number, 0);
  } else if ((number = number_of(command, PSTR("resend "), UINT32_MAX)) >= 0) {
    answer(PSTR("heard"), command);
    probes_resend(number);
  } else if (memory_is_there() && (number = number_of(command, PSTR("keep "), 1)) >= 0) {
    memory_keep(number == 1);
    answer(PSTR("heard"), command);
    memory_tell();
  } else if (memory_is_there() && strcmp_P(command, PSTR("read-out")) == 0 && memory_read_out()) {
    answer(PSTR("heard"), command);
  } else if (memory_is_there() && strcmp_P(command, PSTR("erase")) == 0 && memory_erase()) {
    answer(PSTR("heard"), command);
  } else {
    answer(PSTR("refused"), command);
  }
}

static void round_step(void) {
  if (is_measuring) {
    if (!uptime_reached(uptime_after(round_began, 0, CONVERSION_MS))) return;
    is_measuring = false;
    bool is_missing = probes_send_round(round_began);
    // A probe that was missing may have been replaced by another.
    if (is_missing && probes_look()) say_hello(PSTR("probes-changed"));
  } else if (uptime_reached(next_round)) {
    round_began = uptime_now();
    is_measuring = true;
    probes_start_round();
    // On a fixed grid, so that the interval does not grow by what a round takes; but never to catch up.
    next_round = uptime_after(next_round, kept_interval(), 0);
    if (uptime_reached(next_round)) next_round = uptime_after(round_began, kept_interval(), 0);
  }
}

static void light_step(void) {
  bool is_on = !uptime_reached(light_until) && uptime_now().ms % 250 < 125;
  if (is_on) PORTB |= _BV(LIGHT_BIT);
  else PORTB &= ~_BV(LIGHT_BIT);
}

int main(void) {
  DDRB |= _BV(LIGHT_BIT);
  kept_count_start();
  uptime_start();
  serial_start();
  spi_start();
  set_sleep_mode(SLEEP_MODE_IDLE);
  wdt_enable(WDTO_8S);
  sei();
  line_break();
  probes_look();
  memory_look();
  say_hello(start_reason());
  for (;;) {
    char command[LONGEST_COMMAND];
    wdt_reset();
    if (serial_command(command)) obey(command);
    round_step();
    light_step();
    // Until the next tick or byte.
    if (!memory_step()) sleep_mode();
  }
}
