#include "thermocouple.h"

#include "spi.h"

// The 32 bits of a front end of the 31855 type (data sheet, table "Memory Map"), the highest first: 14 of the couple in
// quarters of a degree, a 0, any fault; 12 of its own temperature in sixteenths, a 0, shorted to supply, to ground, open.
enum { OPEN_BIT = 1, TO_GROUND_BIT = 2, TO_SUPPLY_BIT = 4, ALWAYS_ZERO_LOW = 8, ANY_FAULT = 1, ALWAYS_ZERO_HIGH = 2 };

// It takes a couple for a straight line of 41.276 microvolts per kelvin (data sheet), some 2 K off at 200 and at 400 degrees.
// Turned back into the voltage that it measured, and this added: what the couple would give from 0 degrees to the cold ends,
// 39.45 t + 0.0215 t^2 microvolts, within 3 of IEC 60584-1 from -20 to 50 degrees, which is 0.1 K.
static int32_t to_cold_ends(int32_t sixteenths) {
  return (sixteenths * 39450 + sixteenths * sixteenths * 43 / 32) / 16000;
}

enum couple_answer couple_read(int32_t *microvolts) {
  spi_select(SPI_COUPLE);
  uint8_t word[4];
  for (uint8_t i = 0; i < 4; i++) word[i] = spi_exchange(0);
  spi_release();
  uint8_t any = 0, ones = 0xff;
  for (uint8_t i = 0; i < 4; i++) {
    any |= word[i];
    ones &= word[i];
  }
  if (ones == 0xff || any == 0) return COUPLE_SILENT;
  if ((word[1] & ALWAYS_ZERO_HIGH) || (word[3] & ALWAYS_ZERO_LOW)) return COUPLE_GARBLED;
  if (word[1] & ANY_FAULT) return word[3] & OPEN_BIT ? COUPLE_OPEN : COUPLE_SHORTED;
  int16_t couple = (int16_t)((uint16_t)word[0] << 8 | word[1]) >> 2;
  int16_t cold = (int16_t)((uint16_t)word[2] << 8 | word[3]) >> 4;
  int32_t measured = (4 * (int32_t)couple - cold) * 10319 / 4000;
  *microvolts = measured + to_cold_ends(cold);
  return COUPLE_READ;
}
