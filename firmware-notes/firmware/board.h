// What can be changed without reading the rest: pins, times, and what the board calls itself.

#ifndef BOARD_H
#define BOARD_H

#define FIRMWARE_VERSION "1.1.0"
#define FORMAT_VERSION "1"

// One-wire data, with 4.7 kilohm to the supply: port D, pin 2.
#define WIRE_BIT 2
// Find-me light: port B, pin 5.
#define LIGHT_BIT 5
// A thermistor from input ADC0 to ground, and a fixed resistor from ADC0 to port C, pin 1, which feeds
// the pair only while it is measured: fed always, a 10 kilohm thermistor in still air warms itself by half a kelvin.
#define THERMISTOR_INPUT 0
#define THERMISTOR_FEED_BIT 1
#define FIXED_OHMS 10000UL
// Where the thermistor sits, if it always sits there: evaporator, cabinet, ambient ...; "-" leaves it to the host.
#define THERMISTOR_ROLE "-"

// Thermocouple front end and serial memory, one bus: clock, to the parts and from them on port D, pins 4 to 6; selected by port
// D, pin 7, and port B, pin 0. Both are 3.3 V parts, see parts-and-wiring.md.
#define SPI_CLOCK_BIT 4
#define SPI_OUT_BIT 5
#define SPI_IN_BIT 6
#define COUPLE_SELECT_BIT 7
#define MEMORY_SELECT_BIT 0
// Where the thermocouple sits; "flue", or "-" to leave it to the host.
#define COUPLE_ROLE "boiler"

#define BAUD_RATE 57600UL
#define USUAL_INTERVAL_SECONDS 10
#define LONGEST_SECONDS 3600
// A 12-bit conversion takes at most 750 ms (data sheet of the 18B20 type); the rest is for the clock's ticks and a slow crystal.
#define CONVERSION_MS 800

#define MOST_PROBES 10
// Bytes, with the line end.
#define LONGEST_LINE 512
// Readings kept to be sent again.
#define KEPT_READINGS 64

#endif
