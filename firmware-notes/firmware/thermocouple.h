// A type K thermocouple behind a front end of the 31855 type, measured as millivolts of a couple whose cold ends are at
// 0 degrees; the host knows its curve.

#ifndef THERMOCOUPLE_H
#define THERMOCOUPLE_H

#include <stdint.h>

enum couple_answer { COUPLE_READ, COUPLE_SILENT, COUPLE_GARBLED, COUPLE_OPEN, COUPLE_SHORTED };

enum couple_answer couple_read(int32_t *microvolts);

#endif
