// The serial port: bytes out, waiting for each; bytes in, collected by interrupt into command lines.

#ifndef SERIAL_H
#define SERIAL_H

#include <stdbool.h>
#include <stdint.h>

#define LONGEST_COMMAND 32

void serial_start(void);
void serial_send(uint8_t byte);
// Copies the command that has arrived, without its line end, and makes room for the next. False when there is none.
bool serial_command(char text[LONGEST_COMMAND]);

#endif
