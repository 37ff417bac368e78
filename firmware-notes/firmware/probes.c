#include "probes.h"

#include <string.h>

#include "board.h"
#include "kept.h"
#include "line.h"
#include "memory.h"
#include "one-wire.h"
#include "thermistor.h"
#include "thermocouple.h"

enum { CONVERT = 0x44, READ_SCRATCHPAD = 0xbe, WRITE_SCRATCHPAD = 0x4e, SKIP_ROM = 0xcc };
// What the temperature register holds from power-on to the first conversion: 85 degrees.
enum { POWER_ON_VALUE = 0x0550, TWELVE_BITS = 0x7f };

enum fault { NO_FAULT, ABSENT, GARBLED, NOT_MEASURED, OPEN, SHORTED };

// On the wire; the thermistor and the thermocouple have none of these bytes but the first, which no type on the wire has.
struct probe {
  uint8_t rom[8];
};
enum { THERMISTOR_KIND = 0, COUPLE_KIND = 1 };

struct kept_reading {
  uint32_t sequence;
  struct uptime at;
  int32_t value;
  uint8_t probe;
  uint8_t fault;
};

static struct probe probes[MOST_PROBES];
static uint8_t probe_count;
// A ring: the oldest is overwritten.
static struct kept_reading kept[KEPT_READINGS];
static uint8_t next_kept;

static bool is_thermistor(const struct probe *probe) { return probe->rom[0] == THERMISTOR_KIND; }
static bool is_couple(const struct probe *probe) { return probe->rom[0] == COUPLE_KIND; }

// Types whose register holds sixteenths of a degree.
static bool is_known_type(const uint8_t *rom) { return rom[0] == 0x28 || rom[0] == 0x22; }

static bool add(const uint8_t rom[8]) {
  for (uint8_t i = 0; i < probe_count; i++) {
    if (memcmp(probes[i].rom, rom, 8) == 0) return false;
  }
  if (probe_count == MOST_PROBES) return false;
  memcpy(probes[probe_count++].rom, rom, 8);
  return true;
}

// A board without an id of its own takes the serial number of the first probe it ever finds, and keeps it.
static void name_board(const uint8_t *rom) {
  uint32_t id;
  if (kept_board_id(&id)) return;
  kept_set_board_id((uint32_t)rom[4] << 24 | (uint32_t)rom[3] << 16 | (uint32_t)rom[2] << 8 | rom[1]);
}

bool probes_look(void) {
  static const uint8_t thermistor[8] = {THERMISTOR_KIND}, couple[8] = {COUPLE_KIND};
  bool is_new = false;
  struct wire_search search = {{0}, 0, false};
  // A disturbed search could go round for ever.
  for (uint8_t tries = 0; tries < 2 * MOST_PROBES && wire_find_next(&search); tries++) {
    if (!is_known_type(search.rom) || wire_crc(search.rom, 8) != 0) continue;
    name_board(search.rom);
    is_new |= add(search.rom);
  }
  uint16_t share = thermistor_share();
  if (share > SHARE_SHORTED && share < SHARE_OPEN) is_new |= add(thermistor);
  int32_t microvolts;
  enum couple_answer answer = couple_read(&microvolts);
  if (answer != COUPLE_SILENT && answer != COUPLE_GARBLED) is_new |= add(couple);
  return is_new;
}

static void send_id(const struct probe *probe) {
  if (is_thermistor(probe) || is_couple(probe)) {
    line_board_id();
    line_word(is_couple(probe) ? PSTR("-k0") : PSTR("-a0"));
    return;
  }
  for (uint8_t i = 0; i < 8; i++) line_hex(probe->rom[i]);
}

void probes_list(void) {
  for (uint8_t i = 0; i < probe_count; i++) {
    line_field();
    send_id(&probes[i]);
    if (is_thermistor(&probes[i])) LINE_WORD("," THERMISTOR_ROLE ",Ohm,1");
    else if (is_couple(&probes[i])) LINE_WORD("," COUPLE_ROLE ",mV,0.0103");
    else LINE_WORD(",-,Cel,0.0625");
  }
}

void probes_start_round(void) {
  if (wire_reset() != WIRE_PRESENT) return;
  // Alarm limits (unused) and resolution: a probe that lost its power has forgotten them.
  wire_write(SKIP_ROM);
  wire_write(WRITE_SCRATCHPAD);
  wire_write(0x4b);
  wire_write(0x46);
  wire_write(TWELVE_BITS);
  if (wire_reset() != WIRE_PRESENT) return;
  wire_write(SKIP_ROM);
  wire_write(CONVERT);
}

static enum fault read_once(const struct probe *probe, int32_t *value) {
  uint8_t pad[9];
  enum wire_answer answer = wire_reset();
  if (answer == WIRE_SHORTED) return SHORTED;
  if (answer == WIRE_SILENT) return ABSENT;
  wire_address(probe->rom);
  wire_write(READ_SCRATCHPAD);
  uint8_t ones = 0xff, any = 0;
  for (uint8_t i = 0; i < 9; i++) {
    pad[i] = wire_read();
    ones &= pad[i];
    any |= pad[i];
  }
  if (ones == 0xff) return ABSENT;
  // Nine zeros have the right checksum too.
  if (any == 0 || wire_crc(pad, 9) != 0) return GARBLED;
  *value = (int16_t)((uint16_t)pad[1] << 8 | pad[0]);
  return *value == POWER_ON_VALUE ? NOT_MEASURED : NO_FAULT;
}

static enum fault read_couple(int32_t *value) {
  switch (couple_read(value)) {
    case COUPLE_READ: return NO_FAULT;
    case COUPLE_SILENT: return ABSENT;
    case COUPLE_GARBLED: return GARBLED;
    case COUPLE_OPEN: return OPEN;
    default: return SHORTED;
  }
}

static enum fault read_probe(const struct probe *probe, int32_t *value) {
  *value = 0;
  if (is_thermistor(probe)) {
    *value = thermistor_share();
    return *value >= (int32_t)SHARE_OPEN ? OPEN : *value <= (int32_t)SHARE_SHORTED ? SHORTED : NO_FAULT;
  }
  enum fault fault = GARBLED;
  // The measured value stays in the probe, so a damaged answer can be asked for again.
  for (uint8_t tries = 0; tries < 3 && fault == GARBLED; tries++) {
    fault = is_couple(probe) ? read_couple(value) : read_once(probe, value);
  }
  return fault;
}

static void send_fault_word(uint8_t fault) {
  switch (fault) {
    case ABSENT: LINE_WORD("absent"); break;
    case GARBLED: LINE_WORD("garbled"); break;
    case NOT_MEASURED: LINE_WORD("not-measured"); break;
    case OPEN: LINE_WORD("open"); break;
    default: LINE_WORD("shorted"); break;
  }
}

static void send(const struct kept_reading *reading) {
  const struct probe *probe = &probes[reading->probe];
  line_begin(reading->fault == NO_FAULT ? PSTR("reading") : PSTR("fault"), reading->sequence, reading->at);
  line_field();
  send_id(probe);
  line_field();
  if (reading->fault != NO_FAULT) {
    send_fault_word(reading->fault);
  } else if (is_thermistor(probe)) {
    line_number(thermistor_ohms(reading->value));
    LINE_WORD(" Ohm");
  } else if (is_couple(probe)) {
    line_thousandths(reading->value);
    LINE_WORD(" mV");
  } else {
    line_sixteenths(reading->value);
    LINE_WORD(" Cel");
  }
  line_end();
}

bool probes_send_round(struct uptime at) {
  bool is_missing = false;
  for (uint8_t i = 0; i < probe_count; i++) {
    struct kept_reading *reading = &kept[next_kept];
    next_kept = (next_kept + 1) % KEPT_READINGS;
    reading->sequence = next_sequence++;
    reading->at = at;
    reading->probe = i;
    reading->fault = read_probe(&probes[i], &reading->value);
    is_missing |= reading->fault == ABSENT;
    send(reading);
  }
  return is_missing;
}

void probes_resend(uint32_t from_sequence) {
  memory_pause(true);
  for (uint8_t i = 0; i < KEPT_READINGS; i++) {
    const struct kept_reading *reading = &kept[(next_kept + i) % KEPT_READINGS];
    // An unused place has sequence 0, and sequences begin at 1.
    if (reading->sequence > 0 && reading->sequence >= from_sequence) send(reading);
  }
  memory_pause(false);
}
