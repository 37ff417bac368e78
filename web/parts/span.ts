// The part of a run that a drawing shows, and how it is moved, narrowed and ruled. Instants in ms.

import { msPerDay, msPerMinute } from "../../src/schema/index.ts";

export interface Span {
  readonly from: number;
  readonly to: number;
}

/** No narrower than this: a minute. */
const leastMs = msPerMinute;

/** Narrower (factor below 1) or wider around an instant, which keeps its place in the drawing. */
export function zoomed(span: Span, at: number, factor: number, whole: Span): Span {
  const width = Math.min(
    Math.max((span.to - span.from) * factor, Math.min(leastMs, whole.to - whole.from)),
    whole.to - whole.from,
  );
  const share = (at - span.from) / (span.to - span.from);
  return inside({ from: at - share * width, to: at + (1 - share) * width }, whole);
}

/** Moved later (positive) or earlier, as far as there is something to see. */
export const moved = (span: Span, ms: number, whole: Span): Span =>
  inside({ from: span.from + ms, to: span.to + ms }, whole);

/** Within the whole, with its width kept where that goes. */
function inside({ from, to }: Span, whole: Span): Span {
  const width = Math.min(to - from, whole.to - whole.from);
  const begin = Math.min(Math.max(from, whole.from), whole.to - width);
  return { from: begin, to: begin + width };
}

export const holds = (outer: Span, inner: Span) => outer.from <= inner.from && outer.to >= inner.to;

const steps = [1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440, 2880, 7200, 14_400, 43_200].map(
  (minutes) => minutes * msPerMinute,
);

/** Round instants of a clock so far ahead of UTC within the span, `most` at most. */
export function roundInstants({ from, to }: Span, utcOffsetMinutes: number, most: number): readonly number[] {
  const step = steps.find((ms) => (to - from) / ms <= most) ?? steps[steps.length - 1];
  const shift = utcOffsetMinutes * msPerMinute;
  const first = Math.ceil((from + shift) / step) * step - shift;
  const instants: number[] = [];
  for (let at = first; at <= to; at += step) instants.push(at);
  return instants;
}

/** Whether an instant is midnight on a clock so far ahead of UTC. */
export const isMidnight = (unixMs: number, utcOffsetMinutes: number) =>
  (unixMs + utcOffsetMinutes * msPerMinute) % msPerDay === 0;

/** The index of the instant nearest to one, in a row in order of time; -1 in an empty row. */
export function nearest(unixMs: readonly number[], at: number): number {
  let low = 0;
  let high = unixMs.length - 1;
  if (high < 0) return -1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (unixMs[middle] <= at) low = middle;
    else high = middle;
  }
  return Math.abs(unixMs[high] - at) < Math.abs(unixMs[low] - at) ? high : low;
}
