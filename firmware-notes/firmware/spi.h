// The bus of the parts that are wired with clock, data out, data in and a select line each: SPI in mode 0, by hand, since
// the chip's own SPI would take the pin of the find-me light.

#ifndef SPI_H
#define SPI_H

#include <stdint.h>

enum spi_part { SPI_COUPLE, SPI_MEMORY };

void spi_start(void);
// From here to the release all bytes are for this part.
void spi_select(enum spi_part part);
void spi_release(void);
// One byte each way, the highest bit first. Nobody there reads as 255.
uint8_t spi_exchange(uint8_t byte);

#endif
