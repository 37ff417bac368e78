#include "thermistor.h"

#include <avr/io.h>
#include <util/delay.h>

#include "board.h"

uint16_t thermistor_share(void) {
  DDRC |= _BV(THERMISTOR_FEED_BIT);
  PORTC |= _BV(THERMISTOR_FEED_BIT);
  // The supply is both feed and reference, so that it does not matter how many volts it has.
  ADMUX = _BV(REFS0) | THERMISTOR_INPUT;
  ADCSRA = _BV(ADEN) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0);
  _delay_ms(2);
  uint16_t sum = 0;
  for (uint8_t i = 0; i < 64; i++) {
    ADCSRA |= _BV(ADSC);
    while (ADCSRA & _BV(ADSC)) {
    }
    sum += ADC;
  }
  ADCSRA = 0;
  PORTC &= ~_BV(THERMISTOR_FEED_BIT);
  DDRC &= ~_BV(THERMISTOR_FEED_BIT);
  return sum;
}

uint32_t thermistor_ohms(uint16_t share) {
  uint32_t above = 65536UL - share;
  return (FIXED_OHMS * share + above / 2) / above;
}
