// Parts on the board's three-wire bus with a select line each, simulated at the level of the pins: a thermocouple front end
// of the 31855 type and a serial NOR flash memory. They know the master only by its edges, and note whatever breaks their
// data sheets.

/** A part that is selected, given bits and asked for bits: SPI in mode 0. */
export interface SpiPart {
  selected(): void;
  /** The bit it puts on the line, from the falling edge on. */
  bitOut(): number;
  /** The bit on the master's line at the rising edge. */
  bitIn(bit: number): void;
  released(): void;
}

/** The levels of the master's lines. A select line is low while it selects. */
export interface SpiLevels {
  readonly clock: boolean;
  readonly data: boolean;
  readonly selects: readonly boolean[];
}

/** The wires. `look` is told whenever a level may have changed. */
export class SpiBus {
  /** What the parts put on the master's input; null where nobody does. */
  level: number | null = null;
  readonly parts: (SpiPart | null)[] = [null, null];
  readonly violations: string[] = [];
  #before: SpiLevels = { clock: false, data: false, selects: [true, true] };

  look(now: SpiLevels): void {
    const before = this.#before;
    this.#before = now;
    if (now.selects.every((isHigh) => !isHigh)) this.violations.push("two parts selected at once");
    for (const [i, part] of this.parts.entries()) {
      if (before.selects[i] && !now.selects[i]) {
        if (now.clock) this.violations.push("selected while the clock is high: mode 0 begins low");
        part?.selected();
      }
      if (!now.selects[i] && !before.clock && now.clock) part?.bitIn(now.data ? 1 : 0);
      if (!before.selects[i] && now.selects[i]) part?.released();
    }
    // A part changes its bit when the clock falls: the master reads while it is high.
    const chosen = this.parts[now.selects.indexOf(false)] ?? null;
    if (chosen === null) this.level = null;
    else if (!now.clock) this.level = chosen.bitOut();
  }
}

/** A front end of the 31855 type: 32 bits, the highest first (data sheet, table "Memory Map"). */
export class CoupleFrontEnd implements SpiPart {
  celsius: number;
  coldCelsius: number;
  /** Bits 2 to 0: shorted to the supply, to ground, open. */
  fault = 0;
  /** So many of its next answers have a bit set that is always 0. */
  disturbedAnswers = 0;
  #word = 0;
  #sent = 0;

  /** @param celsius as the chip gives it, by its straight line */
  constructor(celsius: number, coldCelsius: number) {
    this.celsius = celsius;
    this.coldCelsius = coldCelsius;
  }

  selected(): void {
    const couple = Math.round(this.celsius * 4) & 0x3fff;
    const cold = Math.round(this.coldCelsius * 16) & 0xfff;
    const fault = this.fault === 0 ? 0 : 1;
    const disturbed = this.disturbedAnswers-- > 0 ? 1 : 0;
    this.#word = couple * 2 ** 18 + disturbed * 2 ** 17 + fault * 2 ** 16 + cold * 2 ** 4 + this.fault;
    this.#sent = 0;
  }
  bitOut(): number {
    return Math.floor(this.#word / 2 ** Math.max(0, 31 - this.#sent)) % 2;
  }
  bitIn(): void {
    this.#sent++;
  }
  released(): void {}
}

/** Times of a common 16 MiB part, the longest of its data sheet (from memory), ms. */
const longest = { program: 3, eraseSector: 400 };

/** A serial NOR flash memory with JEDEC's commands. Programming only turns ones into zeros, as in the part. */
export class SerialMemory implements SpiPart {
  readonly bytes: Uint8Array;
  readonly violations: string[] = [];
  /** Commands taken, by code: how often each. */
  readonly taken = new Map<number, number>();
  /** How long a page takes, ms. */
  programMs: number = longest.program;
  eraseMs: number = longest.eraseSector;
  readonly #capacity: number;
  readonly #nowMs: () => number;
  #isWritable = false;
  #busyUntil = 0;
  #in: number[] = [];
  #bits = 0;
  #bitCount = 0;

  /**
   * @param capacity the JEDEC code, 2 to the power of it bytes
   * @param bytes what an earlier life of the part holds
   * @param busyMs it is still at an erase of before: only the board has restarted
   */
  constructor(
    nowMs: () => number,
    { capacity = 20, bytes, busyMs = 0 }: { capacity?: number; bytes?: Uint8Array; busyMs?: number } = {},
  ) {
    this.#capacity = capacity;
    this.#nowMs = nowMs;
    this.#busyUntil = busyMs;
    this.bytes = bytes ?? new Uint8Array(2 ** capacity).fill(0xff);
  }

  selected(): void {
    this.#in = [];
    this.#bits = 0;
    this.#bitCount = 0;
  }

  bitOut(): number {
    return (this.#out() >> (7 - this.#bitCount)) & 1;
  }

  bitIn(bit: number): void {
    this.#bits = (this.#bits << 1) | bit;
    this.#bitCount++;
    if (this.#bitCount < 8) return;
    this.#in.push(this.#bits & 0xff);
    this.#bits = 0;
    this.#bitCount = 0;
  }

  /** The byte that it sends now. A busy part answers nothing but its status: its line then floats. */
  #out(): number {
    const [code] = this.#in;
    if (code === undefined) return 0xff;
    if (code === 0x05) return (this.#isBusy() ? 1 : 0) | (this.#isWritable ? 2 : 0);
    if (this.#isBusy()) return 0xff;
    if (code === 0x9f) return [0xef, 0x40, this.#capacity][this.#in.length - 1] ?? 0xff;
    if (code === 0x03 && this.#in.length >= 4) {
      return this.bytes[(this.#address() + this.#in.length - 4) % this.bytes.length];
    }
    return 0xff;
  }

  /** Program and erase begin when the part is released. */
  released(): void {
    const [code] = this.#in;
    if (code === undefined) return;
    this.taken.set(code, (this.taken.get(code) ?? 0) + 1);
    if (this.#bitCount !== 0) this.violations.push(`released in the middle of a byte of command ${code.toString(16)}`);
    if (code === 0x05) return;
    if (this.#isBusy()) {
      this.violations.push(`command ${code.toString(16)} while busy`);
      return;
    }
    if (code === 0x06) this.#isWritable = true;
    if (code !== 0x02 && code !== 0x20) return;
    if (!this.#isWritable) this.violations.push(`command ${code.toString(16)} without write enable`);
    else if (code === 0x02) this.#program();
    else this.#erase();
    this.#isWritable = false;
  }

  #program(): void {
    const data = this.#in.slice(4);
    const address = this.#address();
    if (data.length === 0 || (address % 256) + data.length > 256) this.violations.push("a program goes over its page");
    for (const [i, byte] of data.entries()) {
      if (this.bytes[address + i] !== 0xff) this.violations.push(`byte ${address + i} programmed twice`);
      this.bytes[address + i] &= byte;
    }
    this.#busyUntil = this.#nowMs() + this.programMs;
  }

  #erase(): void {
    const sector = this.#address() & ~0xfff;
    this.bytes.fill(0xff, sector, sector + 4096);
    this.#busyUntil = this.#nowMs() + this.eraseMs;
  }

  #address(): number {
    return (this.#in[1] << 16) | (this.#in[2] << 8) | this.#in[3];
  }

  #isBusy(): boolean {
    return this.#nowMs() < this.#busyUntil;
  }
}
