// The board's own clock: seconds and milliseconds since its start. Kept apart, because one 32-bit count
// of milliseconds would begin anew after seven weeks.

#ifndef UPTIME_H
#define UPTIME_H

#include <stdbool.h>
#include <stdint.h>

struct uptime {
  uint32_t seconds;
  uint16_t ms;
};

void uptime_start(void);
struct uptime uptime_now(void);
bool uptime_reached(struct uptime due);
struct uptime uptime_after(struct uptime from, uint16_t seconds, uint16_t ms);

#endif
