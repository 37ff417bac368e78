// Counts what becomes of readings handed to the store.

import type { Contradiction, Received } from "./records.ts";

/** So many contradictions are reported one by one; the others are only counted. */
const mostReported = 100;

export class ReceivedCount {
  #stored = 0;
  #repeated = 0;
  readonly #contradictions: Contradiction[] = [];
  #contradicted = 0;

  store(readings = 1): void {
    this.#stored += readings;
  }

  /** The same instant or line again: a repetition when it says the same, else a contradiction. */
  meet(met: Contradiction): void {
    if (met.kept === met.refused) this.#repeated++;
    else {
      this.#contradicted++;
      if (this.#contradictions.length < mostReported) this.#contradictions.push(met);
    }
  }

  result(): Received {
    return {
      stored: this.#stored,
      repeated: this.#repeated,
      contradicted: this.#contradicted,
      contradictions: this.#contradictions.toSorted((a, b) => a.unixMs - b.unixMs),
    };
  }
}
