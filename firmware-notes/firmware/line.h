// Lines of the format (line-format.md): every piece goes out at once and into the checksum on its way.

#ifndef LINE_H
#define LINE_H

#include <avr/pgmspace.h>
#include <stdint.h>

#include "uptime.h"

// The number that the next new line will carry.
extern uint32_t next_sequence;

// Words live in program memory: LINE_WORD("reading").
#define LINE_WORD(text) line_word(PSTR(text))

// An empty line, so that noise before it cannot swallow the line that follows.
void line_break(void);
// The five fields that every line begins with.
void line_begin(const char *type_in_program_memory, uint32_t sequence, struct uptime at);
void line_field(void);
void line_char(char c);
void line_word(const char *in_program_memory);
void line_text(const char *text);
void line_number(uint32_t number);
void line_hex(uint8_t byte);
// Thousandths, with three decimals.
void line_thousandths(int32_t value);
// Sixteenths of a degree, with four decimals.
void line_sixteenths(int16_t value);
void line_board_id(void);
void line_end(void);

#endif
