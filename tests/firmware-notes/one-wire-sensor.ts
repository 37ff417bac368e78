// A simulated one-wire bus with sensors of the 18B20 type that answer at the level of the pin: presence pulse, read and
// write slots, search, conversion time. It knows the master only by when it pulls the wire down and lets go, and notes
// whatever breaks the data sheet's times.

/** The bus's clock: microseconds, and a way to be called back later. */
export interface WireClock {
  readonly nowMicros: () => number;
  readonly after: (micros: number, then: () => void) => void;
}

/** Times in microseconds, from the data sheet of the 18B20 type, table "AC electrical characteristics". */
const times = {
  leastReset: 480,
  presenceWait: 30,
  presenceLow: 120,
  /** A sensor looks at the wire (or holds it down for a 0) so long after the slot began: 15 to 60. */
  sample: 30,
  leastSlot: 60,
  longestOne: 15,
  longestZero: 120,
  leastRecovery: 1,
  leastLow: 1,
} as const;

type State =
  | { readonly at: "idle" }
  | { readonly at: "rom-command"; readonly bits: number[] }
  | { readonly at: "match"; readonly bits: number[] }
  | { readonly at: "search"; place: number; step: "bit" | "opposite" | "choice" }
  | { readonly at: "function-command"; readonly bits: number[] }
  | { readonly at: "sending"; readonly bits: readonly number[]; sent: number }
  | { readonly at: "scratchpad-write"; readonly bits: number[] };

/** CRC-8 of the one-wire bus, bit by bit, apart from the firmware's own. */
export function wireCrc(bytes: readonly number[]): number {
  let crc = 0;
  for (const bit of bitsOf(bytes)) crc = (crc ^ bit) & 1 ? (crc >> 1) ^ 0x8c : crc >> 1;
  return crc;
}

const bitsOf = (bytes: readonly number[]) =>
  bytes.flatMap((byte) => Array.from({ length: 8 }, (_, i) => (byte >> i) & 1));
const byteOf = (bits: readonly number[]) => bits.reduce((byte, bit, i) => byte | (bit << i), 0);

/** One sensor. `celsius` may be changed at any time; it is measured when the conversion ends. */
export class OneWireSensor {
  celsius: number;
  /** Broken off: neither answers nor hears. */
  isConnected = true;
  /** In so many of its next answers a bit is turned, as on a disturbed line. */
  disturbedAnswers = 0;
  readonly rom: readonly number[];
  #configuration: number;
  #register = 0x0550;
  #state: State = { at: "idle" };
  readonly #clock: WireClock;

  /** @param serial six bytes, least significant first. */
  constructor(clock: WireClock, serial: readonly number[], celsius: number, options: { configuration?: number } = {}) {
    const bytes = [0x28, ...serial];
    this.rom = [...bytes, wireCrc(bytes)];
    this.celsius = celsius;
    this.#clock = clock;
    this.#configuration = options.configuration ?? 0x7f;
  }

  /** As the firmware writes it. */
  get id(): string {
    return this.rom.map((byte) => byte.toString(16).toUpperCase().padStart(2, "0")).join("");
  }

  /** Its power has failed and come back: what it measured is forgotten. */
  losePower(): void {
    this.#register = 0x0550;
    this.#state = { at: "idle" };
    this.#powerFailures++;
  }
  #powerFailures = 0;

  onReset(): void {
    this.#state = { at: "rom-command", bits: [] };
  }

  /** A slot begins. Gives the bit that the sensor puts on the wire, 1 for leaving it alone. */
  slotBegins(): number {
    const state = this.#state;
    if (state.at === "sending") return state.bits[state.sent++] ?? 1;
    if (state.at === "search" && state.step !== "choice") {
      const bit = bitsOf(this.rom)[state.place];
      const sent = state.step === "bit" ? bit : 1 - bit;
      state.step = state.step === "bit" ? "opposite" : "choice";
      this.#isSendingSlot = true;
      return sent;
    }
    return 1;
  }
  #isSendingSlot = false;

  /** The middle of the slot: the sensor reads the wire, unless it was its turn to send. */
  wireRead(bit: number): void {
    if (this.#isSendingSlot) {
      this.#isSendingSlot = false;
      return;
    }
    const state = this.#state;
    if (state.at === "search") this.#choose(state, bit);
    else if ("bits" in state && state.at !== "sending") {
      state.bits.push(bit);
      this.#take(state);
    }
  }

  #choose(state: Extract<State, { at: "search" }>, bit: number): void {
    if (bit !== bitsOf(this.rom)[state.place]) this.#state = { at: "idle" };
    else if (state.place === 63) this.#state = { at: "function-command", bits: [] };
    else this.#state = { at: "search", place: state.place + 1, step: "bit" };
  }

  #take(state: Extract<State, { bits: number[] }>): void {
    if (state.at === "match" && state.bits.length === 64) {
      const isMine = bitsOf(this.rom).every((bit, i) => bit === state.bits[i]);
      this.#state = isMine ? { at: "function-command", bits: [] } : { at: "idle" };
    } else if (state.at === "scratchpad-write" && state.bits.length === 24) {
      this.#configuration = byteOf(state.bits.slice(16)) | 0x1f;
      this.#state = { at: "idle" };
    } else if (state.bits.length === 8 && state.at === "rom-command") {
      this.#romCommand(byteOf(state.bits));
    } else if (state.bits.length === 8 && state.at === "function-command") {
      this.#functionCommand(byteOf(state.bits));
    }
  }

  #romCommand(command: number): void {
    if (command === 0xf0) this.#state = { at: "search", place: 0, step: "bit" };
    else if (command === 0x55) this.#state = { at: "match", bits: [] };
    else if (command === 0xcc) this.#state = { at: "function-command", bits: [] };
    else this.#state = { at: "idle" };
  }

  #functionCommand(command: number): void {
    this.#state = { at: "idle" };
    if (command === 0x44) {
      const stepBits = (this.#configuration >> 5) & 3;
      // 93.75 ms for 9 bits, twice as long for each further bit.
      const failures = this.#powerFailures;
      this.#clock.after(93_750 * 2 ** stepBits, () => {
        if (failures !== this.#powerFailures) return;
        const unused = 3 - stepBits;
        this.#register = (Math.round(this.celsius * 16) >> unused) << unused;
      });
    } else if (command === 0xbe) {
      const pad = [
        this.#register & 0xff,
        (this.#register >> 8) & 0xff,
        0x4b,
        0x46,
        this.#configuration,
        0xff,
        0x0c,
        0x10,
      ];
      const sent = [...pad, wireCrc(pad)];
      if (this.disturbedAnswers-- > 0) sent[0] ^= 0x10;
      this.#state = { at: "sending", bits: bitsOf(sent), sent: 0 };
    } else if (command === 0x4e) {
      this.#state = { at: "scratchpad-write", bits: [] };
    }
  }
}

/** The wire with its pull-up. `masterPulls` and `masterLetsGo` come from the pin; `setLevel` goes to it. */
export class OneWireBus {
  readonly sensors: OneWireSensor[] = [];
  /** Whatever the master did outside the data sheet's times. */
  readonly violations: string[] = [];
  /** The data line lies on ground. */
  isShorted = false;
  readonly #clock: WireClock;
  readonly #setLevel: (isHigh: boolean) => void;
  #isMasterLow = false;
  #pulledAt = 0;
  #releasedAt = Number.NEGATIVE_INFINITY;
  #holders = 0;

  constructor(clock: WireClock, setLevel: (isHigh: boolean) => void) {
    this.#clock = clock;
    this.#setLevel = setLevel;
  }

  masterPulls(): void {
    const now = this.#clock.nowMicros();
    this.#expect(
      now - this.#releasedAt >= times.leastRecovery,
      "no recovery time between slots",
      now - this.#releasedAt,
    );
    if (this.#pulledAt > 0 && now - this.#pulledAt < times.leastSlot)
      this.#expect(false, "slot too short", now - this.#pulledAt);
    this.#isMasterLow = true;
    this.#pulledAt = now;
    for (const sensor of this.#connected()) {
      if (sensor.slotBegins() === 0) this.#hold(0, times.sample);
    }
    this.#clock.after(times.sample, () => {
      for (const sensor of this.#connected()) sensor.wireRead(this.#isMasterLow ? 0 : 1);
    });
    this.#show();
  }

  masterLetsGo(): void {
    const now = this.#clock.nowMicros();
    const low = now - this.#pulledAt;
    this.#isMasterLow = false;
    this.#releasedAt = now;
    if (low >= times.leastReset) {
      for (const sensor of this.#connected()) {
        sensor.onReset();
        this.#hold(times.presenceWait, times.presenceLow);
      }
    } else {
      const isOne = low >= times.leastLow && low <= times.longestOne;
      const isZero = low >= times.leastSlot && low <= times.longestZero;
      this.#expect(isOne || isZero, "low time is neither a 0 nor a 1 nor a reset", low);
    }
    this.#show();
  }

  #connected(): OneWireSensor[] {
    return this.isShorted ? [] : this.sensors.filter((sensor) => sensor.isConnected);
  }

  #hold(wait: number, length: number): void {
    const begin = () => {
      this.#holders++;
      this.#show();
      this.#clock.after(length, () => {
        this.#holders--;
        this.#show();
      });
    };
    if (wait === 0) begin();
    else this.#clock.after(wait, begin);
  }

  #show(): void {
    this.#setLevel(!this.#isMasterLow && this.#holders === 0 && !this.isShorted);
  }

  #expect(holds: boolean, what: string, micros: number): void {
    if (!holds) this.violations.push(`${what}: ${micros.toFixed(1)} µs at ${this.#clock.nowMicros().toFixed(0)} µs`);
  }
}
