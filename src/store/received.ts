// Counts what becomes of readings handed to the store.

import type { Position } from "../schema/index.ts";
import type { Contradiction, Received } from "./records.ts";

/** So many contradictions are reported one by one; the others are only counted. */
const mostReported = 100;

/** Counts stored, repeated and contradicted readings. */
export class ReceivedCount {
  #stored = 0;
  #repeated = 0;
  readonly #contradictions: Contradiction[] = [];
  #contradicted = 0;
  readonly #sameWithin: (position: Position) => number;

  /** @param sameWithin how far apart readings of a position may be and still be the same one */
  constructor(sameWithin: (position: Position) => number = () => 0) {
    this.#sameWithin = sameWithin;
  }

  store(readings = 1): void {
    this.#stored += readings;
  }

  /** The same instant or line again: a repetition when it says the same, else a contradiction. */
  meet(met: Contradiction): void {
    const { position, kept, refused } = met;
    const within = position === "source" ? 0 : this.#sameWithin(position);
    if (kept === refused || Math.abs(kept - refused) <= within) this.#repeated++;
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
