// Counts what becomes of readings handed to the store.

import type { Contradiction, Received } from "./records.ts";
import type { SameWithin } from "./store.ts";

/** So many contradictions are reported one by one; the others are only counted. */
const mostReported = 100;

/** Counts stored, repeated and contradicted readings. */
export class ReceivedCount {
  #stored = 0;
  #repeated = 0;
  readonly #contradictions: Contradiction[] = [];
  #contradicted = 0;
  readonly #sameWithin: SameWithin;

  constructor(sameWithin: SameWithin = () => 0) {
    this.#sameWithin = sameWithin;
  }

  store(readings = 1): void {
    this.#stored += readings;
  }

  /**
   * The same instant or line again: a repetition when it says the same, else a contradiction.
   *
   * @param among the readings kept together with that one
   */
  meet(met: Contradiction, among: Float64Array = Float64Array.of(met.kept)): void {
    const { position, kept, refused } = met;
    const within = kept === refused || position === "source" ? 0 : this.#sameWithin(position, among);
    if (Math.abs(kept - refused) <= within) this.#repeated++;
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
