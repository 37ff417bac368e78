#include "serial.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

#include "board.h"

static char arriving[LONGEST_COMMAND];
static volatile uint8_t length;
static volatile bool is_whole;

void serial_start(void) {
  // Double speed: 57,600 baud is then 0.8 % off at 16 MHz, and 2.1 % without.
  UCSR0A = _BV(U2X0);
  UBRR0 = (F_CPU + BAUD_RATE * 4) / (BAUD_RATE * 8) - 1;
  UCSR0B = _BV(RXEN0) | _BV(TXEN0) | _BV(RXCIE0);
  UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
}

void serial_send(uint8_t byte) {
  while (!(UCSR0A & _BV(UDRE0))) {
  }
  UDR0 = byte;
}

// While a whole command waits, further bytes are lost; the host sends again what it does not find in a "heard" line.
ISR(USART_RX_vect) {
  char byte = UDR0;
  if (is_whole || byte == '\r') return;
  if (byte == '\n') {
    arriving[length < LONGEST_COMMAND ? length : LONGEST_COMMAND - 1] = 0;
    is_whole = length > 0;
    length = 0;
    return;
  }
  // Noise must not leave the board as anything but text.
  if (length < LONGEST_COMMAND - 1) arriving[length++] = byte >= ' ' && byte <= '~' ? byte : '?';
}

bool serial_command(char text[LONGEST_COMMAND]) {
  if (!is_whole) return false;
  for (uint8_t i = 0; i < LONGEST_COMMAND; i++) text[i] = arriving[i];
  is_whole = false;
  return true;
}
