// A gap that may be none: the logger's clock was set forward, by an hour of summer time say, and logging went on all the
// while. Then the curves go on across the gap as if one step had passed. Rows keep the instants that the log gave them;
// what is before and after such a place must not be joined, and a person can set it right.

import { median } from "simple-statistics";
import { msPerHour, msPerMinute, type Position, type Recording } from "../../schema/index.ts";
import type { RunEvent } from "../findings.ts";
import { firstAtOrAfter } from "../numbers/first-at-or-after.ts";
import { usualStepMs } from "./sampling-step.ts";

/** Curves that show it: those inside the fridge, which move steadily. */
const shownBy = ["evaporator", "cabinet"] as const satisfies readonly Position[];
/** A shorter pause is no clock. */
const leastPauseMs = 25 * msPerMinute;
/** How far before and after a gap the curves are looked at. */
const aroundMs = 30 * msPerMinute;
const fewestReadings = 5;
/** Over a true gap the curve would have moved at least so far, K: a flat one shows nothing. */
const leastMove = 1.5;
/** Seen on the other side: at most this share of that move. */
const mostSeen = 0.25;

/**
 * Gaps across which every curve inside the fridge goes on as if no time had passed, though one of them was falling or
 * rising fast enough to show it on both sides.
 *
 * @param gaps as `findGaps` gives them
 */
export function clockSetForward(
  { name, unixMs, columns }: Pick<Recording, "name" | "unixMs" | "columns">,
  gaps: readonly RunEvent[],
): RunEvent[] {
  const step = usualStepMs(unixMs);
  return gaps.flatMap((gap) => {
    const pause = gap.endMs - gap.startMs;
    if (pause < leastPauseMs) return [];
    const crossings = shownBy.flatMap((position) => {
      const column = columns[position];
      return column === undefined ? [] : (crossing(unixMs, column, gap, step) ?? []);
    });
    const isShown = crossings.some(({ expected }) => expected >= leastMove);
    if (!isShown || !crossings.every(({ expected, seen }) => seen <= mostSeen * Math.max(expected, leastMove)))
      return [];
    const jumpMs = pause - step;
    return [
      {
        log: name,
        kind: "clock-jump" as const,
        startMs: gap.startMs,
        endMs: gap.endMs,
        position: null,
        size: jumpMs / msPerHour,
        sizeUnit: "h" as const,
        reason: { code: "clock-jumped" as const, seconds: Math.round(jumpMs / 1000) },
      },
    ];
  });
}

/** How far a curve would have moved in the gap at the slower of its slopes before and after, and how far it did, K. */
function crossing(
  unixMs: Float64Array,
  column: Float64Array,
  gap: RunEvent,
  step: number,
): { readonly expected: number; readonly seen: number } | null {
  const before = lineThrough(unixMs, column, gap.startMs - aroundMs, gap.startMs);
  const after = lineThrough(unixMs, column, gap.endMs, gap.endMs + aroundMs);
  if (before === null || after === null) return null;
  // Slopes of opposite sign are a turn, such as a switch-off in the gap: it shows nothing.
  const slower = before.perMs * after.perMs <= 0 ? 0 : Math.min(Math.abs(before.perMs), Math.abs(after.perMs));
  const ahead = before.at(gap.startMs + step);
  return { expected: slower * (gap.endMs - gap.startMs), seen: Math.abs(after.at(gap.endMs) - ahead) };
}

/** A straight line by the medians of a window's two halves: one bad reading does not tilt it. */
function lineThrough(unixMs: Float64Array, column: Float64Array, fromMs: number, toMs: number) {
  const middle = (fromMs + toMs) / 2;
  const halves: { readonly ms: number[]; readonly values: number[] }[] = [
    { ms: [], values: [] },
    { ms: [], values: [] },
  ];
  // A log may have thousands of gaps: each must not read all of it.
  for (let row = firstAtOrAfter(unixMs, fromMs); row < unixMs.length && unixMs[row] <= toMs; row++) {
    if (!Number.isFinite(column[row])) continue;
    const half = halves[unixMs[row] <= middle ? 0 : 1];
    half.ms.push(unixMs[row]);
    half.values.push(column[row]);
  }
  const [first, second] = halves;
  if (first.ms.length < fewestReadings || second.ms.length < fewestReadings) return null;
  const [x1, y1, x2, y2] = [median(first.ms), median(first.values), median(second.ms), median(second.values)];
  const perMs = (y2 - y1) / (x2 - x1);
  return { perMs, at: (ms: number) => y2 + perMs * (ms - x2) };
}
