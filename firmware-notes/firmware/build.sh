#!/bin/sh
# Builds the firmware with Debian's gcc-avr, binutils-avr and avr-libc: ./build.sh [FOLDER for the result, else here].
# Beside the hex file goes the compiler's version: the same version makes the same file, byte for byte.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
out=${1:-$here}
cd "$here"
avr-gcc -mmcu=atmega328p -DF_CPU=16000000UL -std=gnu11 -Os -Wall -Wextra -Werror -ffunction-sections -fdata-sections \
  -flto -Wl,--gc-sections -o "$out/probe-board.elf" main.c kept.c line.c memory.c one-wire.c \
  probes.c serial.c spi.c thermistor.c thermocouple.c uptime.c
avr-objcopy -O ihex -R .eeprom "$out/probe-board.elf" "$out/probe-board.hex"
avr-gcc -dumpversion > "$out/probe-board.compiler"
avr-size "$out/probe-board.elf"
rm "$out/probe-board.elf"
