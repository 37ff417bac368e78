// Single readings as they come: what cannot be is left out before it goes into a mean. What only a look back can tell
// (stuck, spikes between steady neighbours) is left to the cleaning of the rows.

import { msPerMinute, type Position } from "../../schema/index.ts";
import { codeTolerance, disconnectedCelsius, powerOnCelsius } from "../readings/bad-readings.ts";
import { canBeAt85, probeLimits } from "../readings/probe-limits.ts";
import type { RejectionCode } from "../sayings.ts";

/** Why a value cannot be a reading of this position; null when it can. */
export function oddness(position: Position, value: number): RejectionCode | null {
  if (!Number.isFinite(value)) return "not-a-number";
  if (position !== "supply") {
    if (Math.abs(value - disconnectedCelsius) <= codeTolerance) return "disconnected-value";
    if (!canBeAt85(position) && Math.abs(value - powerOnCelsius) <= codeTolerance) return "power-on-value";
  }
  const { low, high } = probeLimits[position];
  return value >= low && value <= high ? null : "out-of-range";
}

interface Heard {
  readonly unixMs: number;
  readonly value: number;
}

/** What a probe may do from one reading to the next without being doubted, K. */
const leastJump = 2;

/** One probe: a jump is believed when the next reading confirms it. */
export class ReadingScreen {
  private readonly position: Position;
  private last: Heard | null = null;
  private doubted: Heard | null = null;

  constructor(position: Position) {
    this.position = position;
  }

  /** The readings that may be believed now: none, this one, or a doubted one and this one that confirms it. */
  pass(unixMs: number, value: number): readonly Heard[] {
    if (oddness(this.position, value) !== null) return [];
    const heard = { unixMs, value };
    const { last, doubted } = this;
    // What comes late is not held against what was measured after it.
    if (last !== null && unixMs < last.unixMs) return [heard];
    this.doubted = null;
    if (last === null || this.isNear(last, heard)) {
      this.last = heard;
      return [heard];
    }
    if (doubted !== null && this.isNear(doubted, heard)) {
      this.last = heard;
      return [doubted, heard];
    }
    this.doubted = heard;
    return [];
  }

  private isNear(from: Heard, to: Heard): boolean {
    const minutes = (to.unixMs - from.unixMs) / msPerMinute;
    return Math.abs(to.value - from.value) <= leastJump + probeLimits[this.position].perMinute * minutes;
  }
}
