#include "spi.h"

#include <avr/io.h>
#include <util/delay.h>

#include "board.h"

static void release_both(void) {
  PORTD |= _BV(COUPLE_SELECT_BIT);
  PORTB |= _BV(MEMORY_SELECT_BIT);
}

void spi_start(void) {
  release_both();
  DDRD |= _BV(COUPLE_SELECT_BIT) | _BV(SPI_CLOCK_BIT) | _BV(SPI_OUT_BIT);
  DDRB |= _BV(MEMORY_SELECT_BIT);
}

void spi_select(enum spi_part part) {
  // Pulled up only while a part should drive the line: then an empty socket reads as 255, and no 5 V reach a 3.3 V part.
  PORTD |= _BV(SPI_IN_BIT);
  if (part == SPI_COUPLE) PORTD &= ~_BV(COUPLE_SELECT_BIT);
  else PORTB &= ~_BV(MEMORY_SELECT_BIT);
  _delay_us(2);
}

void spi_release(void) {
  release_both();
  PORTD &= ~_BV(SPI_IN_BIT);
}

uint8_t spi_exchange(uint8_t byte) {
  for (uint8_t i = 0; i < 8; i++) {
    if (byte & 0x80) PORTD |= _BV(SPI_OUT_BIT);
    else PORTD &= ~_BV(SPI_OUT_BIT);
    byte <<= 1;
    PORTD |= _BV(SPI_CLOCK_BIT);
    if (PIND & _BV(SPI_IN_BIT)) byte |= 1;
    PORTD &= ~_BV(SPI_CLOCK_BIT);
  }
  return byte;
}
