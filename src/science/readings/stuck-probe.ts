// A probe that stands still at one value while others show that it cannot. A settled cabinet or a steady room, read in
// coarse steps, stands still too: so the others decide, not the clock alone.

import { msPerHour, type Position, positions } from "../../schema/index.ts";

/** Rows `from` to `to` (half-open) where a probe stood still. */
interface StillPart {
  readonly from: number;
  readonly to: number;
}

/** Shorter than this nothing is called stuck. */
const leastStillHours = 1;
const fewestStillRows = 10;
/** Another probe in the same box must have moved by this much meanwhile, K; and by so many of this probe's steps. */
const partnerMoved = 4;
const partnerSteps = 8;
/** Melting frost really holds the fins within this of 0 °C, K. */
const meltingBand = 0.75;
/** Alone, a probe is called stuck only when it reads finely, and stood still long, and much longer than ever else. */
const aloneHours = 3;
const aloneFinestStep = 0.13;
const aloneTimesLonger = 5;

/** Probes inside one box: where one goes, the others follow. */
const insulatedBox: readonly Position[] = ["evaporator", "cabinet", "freezer"];

/**
 * Where the probe at `position` was stuck.
 *
 * @param columns cleaned of other bad readings.
 */
export function stuckParts(
  position: Position,
  unixMs: Float64Array,
  columns: { readonly [P in Position]?: Float64Array },
): StillPart[] {
  const values = columns[position];
  if (values === undefined || position === "supply") return [];
  const { parts, secondLongestMs, step } = stillParts(unixMs, values);
  return parts.filter((part) => {
    const value = values[part.from];
    const isFins = position === "evaporator" || position === "freezer";
    if (isFins && Math.abs(value) <= meltingBand) return false;
    const partners = insulatedBox.includes(position) ? insulatedBox.filter((other) => other !== position) : [];
    const least = Math.max(partnerMoved, partnerSteps * step);
    if (partners.some((other) => moved(columns[other], part) >= least)) return true;
    const lasted = unixMs[part.to - 1] - unixMs[part.from];
    return (
      // A probe that never changed at all has not shown how finely it reads.
      step > 0 &&
      step <= aloneFinestStep &&
      lasted >= aloneHours * msPerHour &&
      part.to - part.from >= fewestStillRows * 10 &&
      lasted >= aloneTimesLonger * secondLongestMs &&
      positions.some((other) => other !== position && moves(columns[other], part))
    );
  });
}

/** Long parts at one value (missing readings between do not matter), the second longest part, and the probe's smallest step. */
function stillParts(
  unixMs: Float64Array,
  values: Float64Array,
): { parts: StillPart[]; secondLongestMs: number; step: number } {
  const parts: StillPart[] = [];
  let step = Number.POSITIVE_INFINITY;
  let longest = 0;
  let secondLongestMs = 0;
  let from = -1;
  let last = -1;
  let rows = 0;
  const close = () => {
    if (from < 0) return;
    const lasted = unixMs[last] - unixMs[from];
    if (lasted >= leastStillHours * msPerHour && rows >= fewestStillRows) parts.push({ from, to: last + 1 });
    secondLongestMs = Math.max(secondLongestMs, Math.min(longest, lasted));
    longest = Math.max(longest, lasted);
  };
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (Number.isNaN(value)) continue;
    if (from < 0 || value !== values[last]) {
      if (from >= 0) {
        const change = Math.abs(value - values[last]);
        if (change < step) step = change;
        close();
      }
      from = i;
      rows = 0;
    }
    last = i;
    rows++;
  }
  close();
  return { parts, secondLongestMs, step: Number.isFinite(step) ? step : 0 };
}

/** How far a probe went from the first to the last quarter of a part, K; 0 when it says nothing. */
function moved(values: Float64Array | undefined, { from, to }: StillPart): number {
  if (values === undefined) return 0;
  const quarter = Math.max(1, Math.floor((to - from) / 4));
  const change = meanOf(values, to - quarter, to) - meanOf(values, from, from + quarter);
  return Number.isNaN(change) ? 0 : Math.abs(change);
}

function meanOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  let count = 0;
  for (let i = from; i < to; i++) {
    if (Number.isNaN(values[i])) continue;
    sum += values[i];
    count++;
  }
  return sum / count;
}

function moves(values: Float64Array | undefined, { from, to }: StillPart): boolean {
  if (values === undefined) return false;
  let changes = 0;
  for (let i = from + 1; i < to; i++) if (Math.abs(values[i] - values[i - 1]) > 0) changes++;
  return changes >= 5;
}
