// The board's probes: found on the wire and at the analogue input, read in rounds, and the newest readings kept to be
// sent again.

#ifndef PROBES_H
#define PROBES_H

#include <stdbool.h>
#include <stdint.h>

#include "uptime.h"

// Looks for probes. Those known stay in the list, answering or not. True when new ones were found.
bool probes_look(void);
// The probes' entries of a hello line.
void probes_list(void);
// Begins a measurement in all probes on the wire at once.
void probes_start_round(void);
// Sends a reading or fault of every probe. True when a known probe was missing.
bool probes_send_round(struct uptime at);
void probes_resend(uint32_t from_sequence);

#endif
