#include "uptime.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

static volatile struct uptime now;

// Timer 0 counts to 125 at 16 MHz / 1024: once every 8 ms, close enough for temperatures.
enum { TICK_MS = 8 };

void uptime_start(void) {
  TCCR0A = _BV(WGM01);
  TCCR0B = _BV(CS02) | _BV(CS00);
  OCR0A = F_CPU / 1024 * TICK_MS / 1000 - 1;
  TIMSK0 = _BV(OCIE0A);
}

ISR(TIMER0_COMPA_vect) {
  now.ms += TICK_MS;
  if (now.ms < 1000) return;
  now.ms = 0;
  now.seconds++;
}

struct uptime uptime_now(void) {
  struct uptime copy;
  ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { copy = *(struct uptime *)&now; }
  return copy;
}

bool uptime_reached(struct uptime due) {
  struct uptime at = uptime_now();
  return at.seconds > due.seconds || (at.seconds == due.seconds && at.ms >= due.ms);
}

struct uptime uptime_after(struct uptime from, uint16_t seconds, uint16_t ms) {
  from.seconds += seconds;
  from.ms += ms;
  if (from.ms >= 1000) {
    from.ms -= 1000;
    from.seconds++;
  }
  return from;
}
