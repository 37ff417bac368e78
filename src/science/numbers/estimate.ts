// A fitted number never travels alone: value, interval, unit, standard error, readings. And what
// stands in its place when the readings do not hold it.

import type { ResultUnit } from "../../schema/index.ts";
import type { UnknownSaying } from "../sayings.ts";

/** A number with its 95 % interval; an open end is null. */
export interface Estimate {
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly confidence: 0.95;
  readonly unit: ResultUnit;
  readonly standardError?: number;
  readonly readings?: number;
}

/** No number, no fit, no verdict: and why. */
export interface Unknown {
  readonly why: UnknownSaying;
}

export type Answer = Estimate | Unknown;

/** Whether there is a number. Ask before any comparison: NaN or nothing must never come to mean "sound". */
export const isKnown = (answer: Answer): answer is Estimate => !("why" in answer);

/** @throws RangeError when value or an end is not finite: such a number must become an `Unknown`. */
export function estimate(
  unit: ResultUnit,
  value: number,
  low: number | null,
  high: number | null,
  extra: { standardError?: number; readings?: number } = {},
): Estimate {
  const ends = [value, low ?? 0, high ?? 0];
  if (!ends.every(Number.isFinite)) throw new RangeError(`an estimate must be finite: ${ends.join(", ")} ${unit}`);
  return { value, low, high, confidence: 0.95, unit, ...extra };
}

/** What stands in place of a number. */
export const unknown = (why: UnknownSaying): Unknown => ({ why });
