// A thermistor at an analogue input, measured as ohms; the host knows its curve.

#ifndef THERMISTOR_H
#define THERMISTOR_H

#include <stdint.h>

// 65,536 times the share of the feed voltage that stands at the thermistor: 64 conversions of 10 bits, added.
uint16_t thermistor_share(void);
// Shares beyond these are an open or a shorted wire: at 10 kilohm, over 700 or under 0.05 kilohm.
#define SHARE_OPEN 64600U
#define SHARE_SHORTED 330U
uint32_t thermistor_ohms(uint16_t share);

#endif
