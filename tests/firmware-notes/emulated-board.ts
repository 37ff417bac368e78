// The firmware's hex file on an emulated ATmega328P at 16 MHz, with simulated probes at its pins and its serial bytes
// handed out. Runs flat out: a simulated second has nothing to do with a second of the test.

import { readFileSync } from "node:fs";
import path from "node:path";
import {
  AVRADC,
  AVRClock,
  AVREEPROM,
  AVRIOPort,
  AVRTimer,
  AVRUSART,
  AVRWatchdog,
  adcConfig,
  avrInstruction,
  CPU,
  clockConfig,
  EEPROMMemoryBackend,
  eepromConfig,
  PinState,
  portBConfig,
  portCConfig,
  portDConfig,
  timer0Config,
  usart0Config,
  watchdogConfig,
} from "avr8js";
import { OneWireBus, OneWireSensor, type WireClock } from "./one-wire-sensor.ts";
import { type CoupleFrontEnd, SerialMemory, SpiBus } from "./spi-parts.ts";

export const firmwareFolder = path.join(import.meta.dirname, "../../firmware-notes/firmware");
export const keptHex = path.join(firmwareFolder, "probe-board.hex");

const hertz = 16_000_000;
const wireBit = 2;
const lightBit = 5;
/** Of port D; the memory's select line is on port B. */
const spi = { clock: 4, out: 5, in: 6, coupleSelect: 7, memorySelect: 0 };
const sleepInstruction = 0x9588;
/** While the chip sleeps, its clock is looked at so often; its timer counts every 1024 cycles. */
const sleepStep = 1024;
/** MCUSR, and what started the chip. */
const resetFlagRegister = 0x54;
export const startedBy = { powerOn: 0b0101, resetPin: 0b0010, brownOut: 0b0100, watchdog: 0b1000 } as const;

export interface BoardOptions {
  readonly hexFile?: string;
  /** The memory of an earlier life of the board. */
  readonly eeprom?: EEPROMMemoryBackend;
  readonly resetFlags?: number;
  /** At ADC0, V of 5; left out, the input is open. */
  readonly thermistorVolts?: number;
  readonly couple?: CoupleFrontEnd;
  /** A serial memory of this JEDEC capacity code, or with what an earlier life of it holds. */
  readonly memory?: { readonly capacity?: number; readonly bytes?: Uint8Array; readonly busyMs?: number };
}

export class EmulatedBoard {
  readonly eeprom: EEPROMMemoryBackend;
  readonly wire: OneWireBus;
  readonly spi = new SpiBus();
  readonly memory: SerialMemory | null;
  readonly #cpu: CPU;
  readonly #usart: AVRUSART;
  readonly #adc: AVRADC;
  readonly #portB: AVRIOPort;
  readonly #clock: WireClock;
  #sent: number[] = [];
  readonly #toSend: number[] = [];
  /** How often the find-me light has gone on. */
  lightFlashes = 0;

  constructor(options: BoardOptions = {}) {
    const { hexFile = keptHex, eeprom, resetFlags = startedBy.powerOn, thermistorVolts = 5, couple, memory } = options;
    const cpu = new CPU(programOf(readFileSync(hexFile, "utf8")));
    this.#cpu = cpu;
    this.eeprom = eeprom ?? new EEPROMMemoryBackend(1024);
    // Peripherals hook themselves into the processor.
    new AVREEPROM(cpu, this.eeprom, eepromConfig);
    new AVRTimer(cpu, timer0Config);
    new AVRWatchdog(cpu, watchdogConfig, new AVRClock(cpu, hertz, clockConfig));
    new AVRIOPort(cpu, portCConfig);
    this.#portB = new AVRIOPort(cpu, portBConfig);
    this.#adc = new AVRADC(cpu, adcConfig);
    this.#adc.channelValues[0] = thermistorVolts;
    this.#usart = new AVRUSART(cpu, usart0Config, hertz);
    this.#usart.onByteTransmit = (byte) => this.#sent.push(byte);
    this.#usart.onRxComplete = () => this.#sendNext();
    this.#clock = {
      nowMicros: () => cpu.cycles / (hertz / 1e6),
      after: (micros, then) => void cpu.addClockEvent(then, Math.round(micros * (hertz / 1e6))),
    };
    const portD = new AVRIOPort(cpu, portDConfig);
    this.wire = this.#wired(portD);
    this.memory = memory === undefined ? null : new SerialMemory(() => this.#clock.nowMicros() / 1000, memory);
    this.spi.parts.splice(0, 2, couple ?? null, this.memory);
    this.#join(portD);
    this.#portB.addListener((value, old) => {
      if (value & ~old & (1 << lightBit)) this.lightFlashes++;
    });
    cpu.data[resetFlagRegister] = resetFlags;
  }

  /** Puts a sensor on the wire. `serial` names it: six bytes, least significant first. */
  addSensor(serial: readonly number[], celsius: number, options?: { configuration?: number }): OneWireSensor {
    const sensor = new OneWireSensor(this.#clock, serial, celsius, options);
    this.wire.sensors.push(sensor);
    return sensor;
  }

  set thermistorVolts(volts: number) {
    this.#adc.channelValues[0] = volts;
  }

  /** Text from the host, sent byte by byte at the port's speed while the board runs. */
  send(text: string): void {
    const wasIdle = this.#toSend.length === 0 && !this.#usart.rxBusy;
    this.#toSend.push(...Buffer.from(text, "latin1"));
    if (wasIdle) this.#sendNext();
  }

  /** Runs for so many simulated seconds and gives the bytes that the board has sent meanwhile. */
  run(seconds: number): Uint8Array {
    const cpu = this.#cpu;
    const end = cpu.cycles + seconds * hertz;
    while (cpu.cycles < end) {
      const isSleep = cpu.progMem[cpu.pc] === sleepInstruction;
      avrInstruction(cpu);
      cpu.tick();
      if (isSleep) this.#sleep(end);
    }
    const bytes = Uint8Array.from(this.#sent);
    this.#sent = [];
    return bytes;
  }

  /** The chip idles until an interrupt: the emulator's own sleep does nothing at all, and would spin. */
  #sleep(end: number): void {
    const cpu = this.#cpu;
    const awake = cpu.pc;
    while (cpu.pc === awake && cpu.cycles < end) {
      cpu.cycles += sleepStep;
      cpu.tick();
    }
  }

  #sendNext(): void {
    const byte = this.#toSend.shift();
    if (byte !== undefined) this.#usart.writeByte(byte);
  }

  /** The three-wire bus: what the parts see of the port, and what they put on its input. */
  #join(portD: AVRIOPort): void {
    const isHigh = (port: AVRIOPort, bit: number) => port.pinState(bit) !== PinState.Low;
    const look = () => {
      this.spi.look({
        clock: portD.pinState(spi.clock) === PinState.High,
        data: portD.pinState(spi.out) === PinState.High,
        selects: [isHigh(portD, spi.coupleSelect), isHigh(this.#portB, spi.memorySelect)],
      });
      // Where nobody drives the line it is what the pull-up makes of it, else anything: 0, the worse of the two.
      const pulledUp = portD.pinState(spi.in) === PinState.InputPullUp ? 1 : 0;
      portD.setPin(spi.in, (this.spi.level ?? pulledUp) === 1);
    };
    portD.addListener(look);
    this.#portB.addListener(look);
  }

  #wired(port: AVRIOPort): OneWireBus {
    const bus = new OneWireBus(this.#clock, (isHigh) => port.setPin(wireBit, isHigh));
    port.setPin(wireBit, true);
    let wasLow = false;
    port.addListener(() => {
      const isLow = port.pinState(wireBit) === PinState.Low;
      if (isLow === wasLow) return;
      wasLow = isLow;
      if (isLow) bus.masterPulls();
      else bus.masterLetsGo();
    });
    return bus;
  }
}

/** An Intel HEX file as program memory. */
function programOf(hex: string): Uint16Array {
  const bytes = new Uint8Array(0x8000);
  for (const record of hex.split(/\r?\n/).filter((line) => line !== "")) {
    const fields = Buffer.from(record.slice(1), "hex");
    const sum = fields.reduce((total, byte) => (total + byte) & 0xff, 0);
    if (record[0] !== ":" || fields.length !== fields[0] + 5 || sum !== 0) throw new Error(`not Intel HEX: ${record}`);
    if (fields[3] === 0) bytes.set(fields.subarray(4, 4 + fields[0]), fields.readUInt16BE(1));
  }
  return new Uint16Array(bytes.buffer);
}
